package solve

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Plain gives the best plan of a score without its sites, in which the bars are
// alike that plan p of the whole of it has alike: what p is held against to say
// what sharing costs. The score it gives has no sites.
func Plain(s score.Score, r rule.Rules, p *plan.Plan) (plan.Plan, score.Score) {
	v := newSolver(s, r)
	defer v.rise()
	figures := s.Figures()
	v.s.Gaps = make([]score.Gap, len(s.Gaps))
	v.s.Weigh()
	v.forward()
	if v.best().cost >= most {
		return plan.Plan{Cost: plan.None}, v.s
	}
	if p.Likeness.Figures == 0 {
		figures = nil
	}
	v.alike(figures, true)
	if v.like == nil {
		v.backward()
	}
	plain := v.build(v.walk())
	plain.Cost = plan.Cost(v.best().cost)
	return plain, v.s
}

// Decided gives the best plan of a score when it is decided beforehand what one
// ornament of a written note does, every time the note comes: always played, or
// never. saves is what that plan costs less than p does, if p is played though it
// is decided; ok is false where something had to be left out.
func Decided(s score.Score, r rule.Rules, p *plan.Plan, written int, name string, likelihood int32) (best plan.Plan, saves plan.Cost, ok bool) {
	decided := s
	decided.Gaps = slices.Clone(s.Gaps)
	for j := range decided.Gaps {
		if sites := settled(s.Gaps[j].Sites, written, name, likelihood); sites != nil {
			decided.Gaps[j] = score.Gap{Sites: sites}
			decided.WeighGap(j)
		}
	}
	best, solved := Best(decided, r)
	if best.Cost >= plan.None || len(best.Dropped) > 0 || len(solved.Gaps) != len(s.Gaps) {
		return best, 0, false
	}
	return best, max(0, p.Cost+changes(&s, &decided, &r, p)-best.Cost), true
}

// settled are sites of a gap with one ornament as likely as that, and, if that is
// always, the others of its site never; nil if it is not among them.
func settled(sites []score.Site, written int, name string, likelihood int32) []score.Site {
	for k, site := range sites {
		for i, o := range site.Ornaments {
			if site.Written != written || o.Name != name || o.Likelihood == 0 {
				continue
			}
			sites = slices.Clone(sites)
			sites[k].Ornaments = slices.Clone(site.Ornaments)
			if likelihood == score.Always {
				for n := range sites[k].Ornaments {
					sites[k].Ornaments[n].Likelihood = 0
				}
			}
			sites[k].Ornaments[i].Likelihood = likelihood
			return sites
		}
	}
	return nil
}

// changes is what a plan costs more when the gaps of its score are weighed as in
// another, whose patterns are among its own.
func changes(s, weighed *score.Score, r *rule.Rules, p *plan.Plan) (more plan.Cost) {
	for j := range s.Gaps {
		held := p.Held(s, j)
		for k := range s.Gaps[j].Patterns {
			a := &s.Gaps[j].Patterns[k]
			weight := int64(0)
			for n := range weighed.Gaps[j].Patterns {
				if b := &weighed.Gaps[j].Patterns[n]; b.Sounds == a.Sounds {
					weight = b.Weight
				}
			}
			if weight == a.Weight {
				continue
			}
			bill := plan.Between(s, r, p, j, k, held)
			more += plan.Cost(bill.Sum * (weight - a.Weight))
		}
	}
	return more
}
