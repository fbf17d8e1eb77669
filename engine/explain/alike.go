package explain

import (
	"cmp"
	"slices"
	"strconv"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// groupsShown is how many groups of bars that are the same are named (guess: more
// is not read).
const groupsShown = 4

// alike tells which bars are the same and have the same fingers, and what that
// takes.
func (t *teller) alike() {
	if t.p.Likeness.Figures == 0 {
		return
	}
	text := "Each bar has the same fingers every time it is played."
	if groups := t.groups(); len(groups) > 0 {
		text = "Bars " + list(groups[0]) + " are the same and have the same fingers"
		more := groups[1:]
		for i, bars := range more[:min(len(more), groupsShown-1)] {
			text += [...]string{"; so have bars ", ", and bars "}[min(i, 1)] + list(bars)
		}
		if len(groups) > groupsShown {
			text += ", and others"
		}
		text += "."
	}
	if extra := Effort(t.p.Likeness.Extra); extra == "0" {
		text += " That takes no more effort than to finger each for itself."
	} else {
		text += " That takes " + extra + " more effort than to finger each for itself, but you learn it once."
	}
	if gap := Effort(t.p.Likeness.Gap); gap != "0" {
		text += " There may be a way that takes up to " + gap + " less."
	}
	t.out = append(t.out, Sentence{Kind: Alike, Event: -1, Text: text})
}

// groups gives the numbers of written bars that are the same and are played so,
// those together that are.
func (t *teller) groups() [][]string {
	var groups [][]string
	for _, f := range t.s.Figures() {
		bars := writtenBars(t.s, f)
		if len(bars) > 1 && sameFingers(t.p, f) {
			groups = append(groups, numbers(bars))
		}
	}
	return groups
}

// writtenBars lists the written bars that a figure stands in.
func writtenBars(s *score.Score, f score.Figure) []int {
	var bars []int
	for _, at := range f.At {
		if b := s.Events[at].Bar; b > 0 && !slices.Contains(bars, b) {
			bars = append(bars, b)
		}
	}
	source.Order(bars, cmp.Compare)
	return bars
}

func numbers(bars []int) []string {
	var words []string
	for _, b := range bars {
		words = append(words, strconv.Itoa(b))
	}
	return words
}

func sameFingers(p *plan.Plan, f score.Figure) bool {
	for _, at := range f.At {
		for i := range f.Length {
			if p.Events[at+i].Stroke != p.Events[f.At[0]+i].Stroke {
				return false
			}
		}
	}
	return true
}

// sisters gives the other written bars that are the same as that of an event:
// what is asked of it holds in them too.
func sisters(s *score.Score, p *plan.Plan, event int) []string {
	for _, f := range s.Figures() {
		for _, at := range f.At {
			if at <= event && event < at+f.Length && sameFingers(p, f) {
				own := s.Events[event].Bar
				return numbers(slices.DeleteFunc(writtenBars(s, f), func(b int) bool { return b == own }))
			}
		}
	}
	return nil
}
