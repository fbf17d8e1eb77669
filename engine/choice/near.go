package choice

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// notYet are ornaments that players ask for by name and the catalogue lacks
// (names that the trade shares, no source).
var notYet = []string{
	"high-cut", "inverted-turn", "long-roll", "filled-third", "octave-grace", "lower-third", "lower-sixth",
}

// unknown is the fault of a word that is not one of those known; kind says
// what it was taken for. An ornament is also found by its name in ABC.
func unknown(kind, word string, known []string) *Fault {
	signs := map[string]string{}
	all := slices.Clone(known)
	for _, row := range ornament.Rows() {
		for _, sign := range row.ABC {
			signs[sign] = row.Name
			all = append(all, sign)
		}
	}
	near, ok := source.Near(word, append(all, notYet...))
	switch name, sign := signs[near]; {
	case !ok:
		return &Fault{source.Quote(word) + " is not " + kind + ".", "Write one of these: " + strings.Join(known, ", ") + "."}
	case slices.Contains(notYet, near):
		return &Fault{"The ornament " + source.Quote(near) + " is not in the catalogue yet.", "Write one of these: " + strings.Join(names()[1:], ", ") + "."}
	case sign && !slices.Contains(known, near):
		near = name
	}
	return &Fault{source.Quote(word) + " is not " + kind + ".", "Write " + near + "."}
}
