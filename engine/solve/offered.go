package solve

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Offered says how ornaments suit plan p of a score, each as if it alone were
// there beside what is prepared: s is the score as it was solved, with more
// ornaments in its sites that are never played. The plan it gives is p with their
// fits, of those gaps that are asked for. The score is solved again only if some
// ornament has no way from the placings as they are.
func Offered(s score.Score, r rule.Rules, p *plan.Plan, asked func(gap int) bool) plan.Plan {
	q := *p
	q.Gaps = slices.Clone(p.Gaps)
	f := offered{solver: newSolver(s, r), given: s, plan: &q}
	defer func() { f.solver.rise() }()
	for j := range s.Gaps {
		if !asked(j) {
			continue
		}
		g := &s.Gaps[j]
		fits := make([][]plan.Fit, len(g.Sites))
		for k, site := range g.Sites {
			fits[k] = make([]plan.Fit, len(site.Ornaments))
			for i, o := range site.Ornaments {
				if same := slices.IndexFunc(site.Ornaments[:i], func(b score.Ornament) bool { return playedAlike(&o, &b) }); same >= 0 {
					fits[k][i] = fits[k][same]
					continue
				}
				fits[k][i] = f.fit(j, k, i)
			}
		}
		q.Gaps[j].Fits = fits
	}
	return q
}

// playedAlike reports whether two ornaments of one site ask the same of the hand.
func playedAlike(a, b *score.Ornament) bool {
	return a.Likelihood == 0 && b.Likelihood == 0 && a.Delay == b.Delay && slices.Equal(a.Strokes, b.Strokes) &&
		slices.EqualFunc(a.House, b.House, slices.Equal[[]int8])
}

// offered is a solver that solves when it must.
type offered struct {
	solver *solver
	given  score.Score
	plan   *plan.Plan
	solved bool
}

func (f *offered) fit(j, k, i int) plan.Fit {
	sounds := [2]int8{-1, -1}
	sounds[k] = int8(i)
	if !f.solved && f.given.Gaps[j].Sites[k].Ornaments[i].Likelihood == 0 &&
		f.solver.add(f.plan, j, sounds, 0).Ready == plan.NoTime {
		r := f.solver.r
		f.solver.rise()
		_, f.solver = best(f.given, r)
		f.solved = true
	}
	return f.solver.fit(f.plan, j, k, i)
}
