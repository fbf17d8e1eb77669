package solve

import (
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Loose gives the best plan of a score in which bars that come again need not be
// alike, without what is told about it; false where something had to be left out.
func Loose(given score.Score, r rule.Rules) (plan.Plan, bool) {
	v := newSolver(given, r)
	v.forward()
	if v.best().cost >= most || len(v.dropped) > 0 {
		return plan.Plan{Cost: plan.None}, false
	}
	v.backward()
	p := v.build(v.walk())
	p.Cost = plan.Cost(v.best().cost)
	return p, true
}
