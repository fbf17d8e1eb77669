package solve_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// jig makes a tune of so many notes at 200 ms, mostly by step, with an ornament
// (or three) at every twelfth note.
func jig(notes, ornaments int) (score.Score, rule.Rules) {
	r := rule.Rules{Charges: rule.Usual(), Harp: harp.Default(), Hand: hand.Usual("right")}
	chance := rand.New(rand.NewPCG(7, 7))
	s := score.Score{Harp: r.Harp, Gaps: make([]score.Gap, notes+1)}
	at := 18
	for i := range notes {
		at += []int{-1, -1, 1, 1, 2, -2, 3, -3}[chance.IntN(8)]
		at = min(26, max(12, at))
		s.Events = append(s.Events, score.Event{Notes: []score.Note{{Written: i + 1, Pass: 1, String: int8(at)}}, Since: 200, Length: 200, Weak: min(2, int8(i%3)*2)})
		if i%12 != 6 {
			continue
		}
		x := score.Site{Written: i + 1, Pass: 1, Event: i}
		for k, steps := range [][]int8{{1}, {1, 0, -1}, {0, 1}}[:ornaments] {
			o := score.Ornament{Name: fmt.Sprint(k), Likelihood: 4, Delay: int32(len(steps)) * 33, Written: true}
			for n, step := range steps {
				o.Strokes = append(o.Strokes, score.Stroke{String: int8(at) + step, At: int32(n) * 33})
			}
			x.Ornaments = append(x.Ornaments, o)
		}
		s.Gaps[i].Sites = []score.Site{x}
	}
	s.Events[0].Since = 0
	s.Weigh()
	return s, r
}

// The plan of a tune of 32 bars in 6/8 with 16 sites, one ornament at each or
// three, and its parts.
func BenchmarkPlan(b *testing.B) {
	for _, ornaments := range []int{0, 1, 3} {
		s, r := jig(192, ornaments)
		for _, part := range []struct {
			name string
			do   func()
		}{
			{"least", func() { solve.Least(s, r) }},
			{"best", func() { solve.Best(s, r) }},
			{"plan", func() { solve.Plan(s, r) }},
			{"afresh", func() { solve.Afresh(s, r) }},
		} {
			b.Run(fmt.Sprintf("%d/%s", ornaments, part.name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					part.do()
				}
			})
		}
	}
}

// The near-ties of the same tune, and with them some dearer ways.
func BenchmarkOthers(b *testing.B) {
	for _, notes := range []int{192, 1920} {
		s, r := jig(notes, 1)
		p, s := solve.Plan(s, r)
		for _, part := range []struct {
			name string
			find func() []plan.Other
		}{
			{"near", func() []plan.Other { return solve.NearTies(s, r, &p) }},
			{"all", func() []plan.Other { return solve.Others(s, r, &p) }},
		} {
			b.Run(fmt.Sprintf("%d/%s", notes, part.name), func(b *testing.B) {
				b.ReportAllocs()
				var list []plan.Other
				for b.Loop() {
					list = part.find()
				}
				b.ReportMetric(float64(len(list)), "ways")
			})
		}
	}
}
