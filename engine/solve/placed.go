package solve

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Placed says what plan p of a score makes of the ornaments in those of its gaps
// that are asked for, as the hand is placed there and not otherwise: each alone.
// What would need another placing has no time. s is the score as it was solved,
// with more ornaments in its sites that are never played.
func Placed(s score.Score, r rule.Rules, p *plan.Plan, asked func(gap int) bool) plan.Plan {
	q := *p
	q.Gaps = slices.Clone(p.Gaps)
	v := newSolver(s, r)
	for j := range s.Gaps {
		if !asked(j) {
			continue
		}
		fits := make([][]plan.Fit, len(s.Gaps[j].Sites))
		for k, site := range s.Gaps[j].Sites {
			for i, o := range site.Ornaments {
				sounds := [2]int8{-1, -1}
				sounds[k] = int8(i)
				fits[k] = append(fits[k], v.add(&q, j, sounds, o.Likelihood))
			}
		}
		q.Gaps[j].Fits = fits
	}
	return q
}
