package solve

import (
	"slices"

	"readyhand/engine/hand"
)

// sights are what a gap in which something may sound asks of the placing before it,
// as the score was solved: for states that were not among those it was solved with.
type sights struct {
	asks  opening // what keeping and view look at, nothing else
	known finder  // the views
	far   int     // strokes of the event after it
	costs []value // by view and stroke after it, if the placing goes on
}

// nothing is asked where nothing may sound.
var nothing = &sights{}

// sights gives those of gap j, worked out at the second desk if they are not known yet.
func (v *solver) sights(j int) *sights {
	if len(v.s.Gaps[j].Patterns) == 1 {
		return nothing
	}
	t := v.gaps[j].terrain
	if t.views != nil {
		return t.views
	}
	w := &solver{s: v.s, r: v.r, desk: v.desk.second(&v.r), takes: v.takes}
	w.explore(j, v.gaps[j-1].terrain)
	o := &w.opening
	if len(o.strings) == 0 {
		t.views = nothing
		return nothing
	}
	t.views = &sights{far: len(o.far), known: finder{marks: slices.Clone(o.lefts.marks), slots: slices.Clone(o.lefts.slots)},
		asks: opening{v: &solver{desk: v.desk}, j: j, strings: slices.Clone(o.strings), drops: slices.Clone(o.drops), room: slices.Clone(o.room), useful: slices.Clone(o.useful), behind: o.behind}}
	for view := range o.lefts.list {
		for b := range o.far {
			c := never
			if v.mayStay(j) {
				c = o.weigh(view, b)
			}
			t.views.costs = append(t.views.costs, c)
		}
	}
	return t.views
}

// keeping is opening.keeping.
func (w *sights) keeping(list []played, st played) []played { return w.asks.keeping(list, st) }

// view gives the number of a view; -1 if it is not known.
func (w *sights) view(stroke hand.Frame, kind int, frame hand.Frame, set uint8) int {
	if len(w.asks.strings) == 0 {
		return kind
	}
	x := w.asks.view(stroke, frame, set)
	return w.known.at(x.mark())
}

// weighs is opening.weigh for a state before gap j with what plays after it; false if
// it is not known.
func (v *solver) weighs(w *sights, j, kind, b int, kept *played) (value, bool) {
	if w == nothing {
		return v.silence(j, kind, b, true, false), true
	}
	view := w.view(v.takes[j-1].list[kind], kind, kept.frame, kept.set())
	if view < 0 {
		return never, false
	}
	return w.costs[view*w.far+b], true
}
