package read

import (
	"slices"
	"strings"
)

// mostOwn is how many names are looked at (a guess, above what a tune can define).
const mostOwn = 32

// findOwn finds the names of the ornaments that "%%ready ornament NAME ..." lines
// define, wherever they stand: a sign may come before its line.
func (r *reader) findOwn() {
	for n := 1; n <= r.text.Lines() && len(r.own) < mostOwn; n++ {
		line, ours := strings.CutPrefix(r.text.Line(n), ready)
		if !ours {
			continue
		}
		for part := range strings.SplitSeq(uncommented(line), ";") {
			if words := strings.Fields(strings.ToLower(part)); len(words) > 1 && words[0] == "ornament" {
				r.own = append(r.own, words[1])
			}
		}
	}
}

// owns reports a sign that means an ornament of the tune's own.
func (r *reader) owns(name string) bool { return slices.Contains(r.own, strings.ToLower(name)) }
