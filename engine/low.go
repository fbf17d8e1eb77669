package engine

import (
	"strconv"

	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// lowRight is the step of C3: what lies below it the right hand does not easily reach.
// That it cannot easily reach the lowest strings: K. S. Johnson, Composing for the
// Concert Harp; which they are is a guess, the lowest octave of the usual harp.
const lowRight = 3 * 7

// low remarks that the right hand plays strings that it does not easily reach.
func low(s *score.Score, r *rule.Rules) []source.Remark {
	if r.Hand.Name != "right" {
		return nil
	}
	count, first, bar := 0, score.Note{}, 0
	for _, e := range s.Events {
		for _, n := range e.Notes {
			if n.Pass > 1 || s.Harp.Strings[n.String].Pitch.Step() >= lowRight {
				continue
			}
			if count == 0 {
				first, bar = n, e.Bar
			}
			count++
		}
	}
	if count == 0 {
		return nil
	}
	what := "One note down there is "
	if count > 1 {
		what = "Of the " + strconv.Itoa(count) + " notes down there the first is "
	}
	return []source.Remark{{Span: first.Source, Severity: source.Note, Kind: "low-for-right-hand",
		Message:    "The right hand does not easily reach the lowest strings. " + what + first.Name(*s) + " in bar " + strconv.Itoa(bar) + ".",
		Suggestion: "Choose the left hand for it, or write %%ready hand left."}}
}
