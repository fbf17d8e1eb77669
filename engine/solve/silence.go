package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
)

// What decides between plans of equal cost, the first that differs: how often a
// house fingering is the second in liking, then lifts, crossings and fourth fingers
// with nothing sounding. A tune has 20,000 events at most, which is below 1 << 15.
const (
	fourth int64 = 1 << (15 * iota)
	crossed
	lifted
	second
)

// silence is what gap j costs, weighed, when nothing sounds in it, between two
// strokes by number.
func (v *solver) silence(j, near, far int, stay, held bool) value {
	p := &v.s.Gaps[j].Patterns[0]
	switch {
	case j == len(v.s.Events):
		return value{}
	case j == 0:
		var bill rule.Bill
		v.r.Place(&bill, 0, false)
		return value{bill.Sum * p.Weight, v.tie(j, rule.SetAnew, far)}
	}
	e := &v.s.Events[j]
	c := v.chart.moved(&rule.Crossing{From: v.takes[j-1].list[near], To: v.takes[j].list[far], Since: p.Last, Written: true,
		Forced: e.Forced, Weak: e.Weak, Held: held}, stay)
	return value{c.sum * p.Weight, v.tie(j, c.move, far)}
}

// tie counts what decides between plans of equal cost, with nothing sounding.
func (v *solver) tie(j int, move rule.Move, far int) int64 {
	tie := int64(v.takes[j].liking[far]) * second
	if v.takes[j].list[far][3] != hand.None {
		tie += fourth
	}
	switch move {
	case rule.Jump:
		tie += lifted
	case rule.Under, rule.Over:
		tie += crossed
	}
	return tie
}
