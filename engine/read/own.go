package read

import (
	"slices"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// mostOwn is how many names are looked at (a guess, above what a tune can define).
const mostOwn = 32

// findOwn finds the names of the ornaments that "%%ready ornament NAME ..." lines
// define, wherever they stand: a sign may come before its line.
func (r *reader) findOwn() {
	for n := 1; n <= r.text.Lines() && len(r.own) < mostOwn; n++ {
		line, ours := strings.CutPrefix(r.text.Line(n), ready)
		if !ours || strings.TrimLeft(line, " \t") == line {
			continue
		}
		for part := range strings.SplitSeq(uncommented(line), ";") {
			if words := strings.Fields(strings.ToLower(part)); len(words) > 1 && words[0] == "ornament" {
				r.own = append(r.own, words[1])
			}
		}
	}
}

// disown leaves out the signs whose line turned out to be none of the tune's: it
// stands after its end, or in words that are not read.
func (r *reader) disown() {
	if len(r.own) == 0 {
		return
	}
	var kept []string
	for _, s := range r.t.Settings {
		for part := range strings.SplitSeq(s.Text, ";") {
			if words := strings.Fields(strings.ToLower(part)); len(words) > 1 && words[0] == "ornament" {
				kept = append(kept, words[1])
			}
		}
	}
	for i := range r.t.Voices {
		for k := range r.t.Voices[i].Events {
			e := &r.t.Voices[i].Events[k]
			e.Decorations = slices.DeleteFunc(e.Decorations, func(d tune.Decoration) bool {
				_, known := meaning(d.Name)
				if known || slices.Contains(kept, strings.ToLower(d.Name)) {
					return false
				}
				r.say(unknownDecoration, d.Source, "There is no sign called "+source.Quote(d.Name)+"; it is left out.", "Write its %%ready ornament line inside the tune, or take it out.")
				return true
			})
			if len(e.Decorations) == 0 {
				e.Decorations = nil
			}
		}
	}
}

// owns reports a sign that means an ornament of the tune's own.
func (r *reader) owns(name string) bool { return slices.Contains(r.own, strings.ToLower(name)) }
