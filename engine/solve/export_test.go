package solve

import (
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Exhausted is what Plan finds with bars alike played alike, but by a search that
// goes on to its end and has no tolls; how often it went through the score too.
func Exhausted(given score.Score, r rule.Rules) (plan.Cost, int) {
	v := newSolver(given, r)
	v.forward()
	l := v.lattice(v.s.Figures())
	s := search{l: l, best: never, open: []node{{fixed: l.free()}}}
	s.until(1 << 30)
	return plan.Cost(s.best.cost), s.looks
}

// Afresh is Plan at a desk at which nothing was worked out before.
func Afresh(given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	d := newDesk()
	d.begin(&r)
	return sit(d, given, r).plan()
}
