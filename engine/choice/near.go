package choice

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// unknown is the fault of a word that is not one of those known; kind says
// what it was taken for. An ornament is also found by its name in ABC.
func (c Choice) unknown(kind, word string, known []string) *Fault {
	signs := map[string]string{}
	all := slices.Clone(known)
	for _, row := range ornament.Rows() {
		for _, sign := range row.ABC {
			signs[sign] = row.Name
			all = append(all, sign)
		}
	}
	for _, row := range c.known() { // those of families that are not shown too
		if !slices.Contains(all, row.Name) {
			all = append(all, row.Name)
		}
	}
	near, ok := source.Near(word, all)
	switch name, sign := signs[near]; {
	case !ok:
		return &Fault{source.Quote(word) + " is not " + kind + ".", "Write one of these: " + strings.Join(known, ", ") + "."}
	case sign && !slices.Contains(known, near):
		near = name
	}
	return &Fault{source.Quote(word) + " is not " + kind + ".", "Write " + near + "."}
}
