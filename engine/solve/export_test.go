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
	s := search{l: l, best: never, open: []node{{fixed: l.asked}}}
	s.until(1 << 30)
	return plan.Cost(s.best.cost), s.looks
}

// Afresh is Plan at a desk at which nothing was worked out before.
func Afresh(given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	d := newDesk()
	d.begin(&r)
	return sit(d, given, r).plan()
}

// Asked gives the fits of the ornaments that have no way from the placings as they
// are: as they are found, and each as it is when the gaps are worked out anew for it.
func Asked(given score.Score, r rule.Rules) (got, want []plan.Fit) {
	v := newSolver(given, r)
	p := v.solve()
	if p.Cost >= plan.None {
		return nil, nil
	}
	f := v.fitting(&p)
	for j := range v.s.Gaps {
		p.Gaps[j].Fits = f.gap(j)
	}
	v.otherwise(&p, f.asks, true)
	for _, a := range f.asks {
		got, want = append(got, *a.fit), append(want, v.inFull(&p, a.j, a.k, a.i))
	}
	return got, want
}
