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
// fits, of those gaps that are asked for; the notes that move for them are not
// counted. The score is solved again only if some ornament has no way from the
// placings as they are.
func Offered(s score.Score, r rule.Rules, p *plan.Plan, asked func(gap int) bool) plan.Plan {
	q := *p
	q.Gaps = slices.Clone(p.Gaps)
	f := newSolver(s, r).fitting(&q)
	defer func() { f.v.rise() }()
	for j := range s.Gaps {
		if asked(j) {
			q.Gaps[j].Fits = f.gap(j)
		}
	}
	if len(f.asks) > 0 {
		f.v.rise()
		_, f.v = best(s, r)
		f.finish()
	}
	return q
}

// playedAlike reports whether two ornaments of one site ask the same of the hand.
func playedAlike(a, b *score.Ornament) bool {
	return a.Likelihood == 0 && b.Likelihood == 0 && a.Delay == b.Delay && slices.Equal(a.Strokes, b.Strokes) &&
		slices.EqualFunc(a.House, b.House, slices.Equal[[]int8])
}
