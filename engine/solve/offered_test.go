package solve_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// offeredOnly is a score without its ornaments that are never played, but for one of
// them if that is named.
func offeredOnly(s score.Score, j, k, i int) score.Score {
	s.Gaps = slices.Clone(s.Gaps)
	for g := range s.Gaps {
		s.Gaps[g].Sites = slices.Clone(s.Gaps[g].Sites)
		for n := range s.Gaps[g].Sites {
			var kept []score.Ornament
			for which, o := range s.Gaps[g].Sites[n].Ornaments {
				if o.Likelihood > 0 || g == j && n == k && which == i {
					kept = append(kept, o)
				}
			}
			s.Gaps[g].Sites[n].Ornaments = kept
		}
	}
	s.Weigh()
	return s
}

// What is offered beside a plan asks the same of the hand as if it alone were
// offered and the whole were solved.
func TestOfferedOneByOne(t *testing.T) {
	kinds := map[plan.Readiness]int{}
	rapid.Check(t, func(t *rapid.T) {
		_, c := someone(t, 6)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost == plan.None || len(p.Dropped) > 0 {
			t.Skip("not all of it can be played")
		}
		shown, _ := solve.Plan(offeredOnly(s, -1, -1, -1), c.r)
		assert.Equal(t, p.Events, shown.Events, "what is never played bends nothing")
		all := solve.Offered(s, c.r, &shown, func(int) bool { return true })
		for j, g := range s.Gaps {
			for k, site := range g.Sites {
				for i, o := range site.Ornaments {
					if o.Likelihood > 0 {
						continue
					}
					one := offeredOnly(s, j, k, i)
					alone, _ := solve.Plan(one, c.r)
					at := len(one.Gaps[j].Sites[k].Ornaments) - 1
					for n := range one.Gaps[j].Sites[k].Ornaments {
						if one.Gaps[j].Sites[k].Ornaments[n].Name == o.Name {
							at = n
						}
					}
					want, got := alone.Gaps[j].Fits[k][at], all.Gaps[j].Fits[k][i]
					want.Moves = 0 // not counted
					assert.Equal(t, want, got, "%s", site.ID(i))
					kinds[got.Ready]++
				}
			}
		}
	})
	for _, ready := range []plan.Readiness{plan.InHand, plan.FingerKept, plan.PlacedAgain, plan.NoTime} { // a finger seldom has time to drop in
		assert.Positive(t, kinds[ready], "no ornament was %s", ready)
	}
}

// Every choice of what sounds while a placing lasts can be played from it, and none
// that can is missing: held against all ways to finger it, by the judge.
func TestVariantsAreAllThereAre(t *testing.T) {
	can, cannot := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		_, c := someone(t, 5)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost == plan.None {
			t.Skip("it cannot be played")
		}
		for k := range p.Placings {
			for g, list := range solve.Variants(s, c.r, &p, k) {
				j := p.Placings[k].First + g
				for _, sounds := range soundings(&s, &p, j, k) {
					at := slices.IndexFunc(list, func(x plan.Choice) bool { return x.Sounds == sounds })
					if at >= 0 {
						can++
						assert.True(t, playsSo(&s, &c.r, &p, j, list[at]), "gap %d, %v with %v", j, sounds, list[at].Touches)
						continue
					}
					cannot++
					assert.False(t, somehow(&s, &c.r, &p, j, k, sounds, nil), "gap %d, %v can be played", j, sounds)
				}
			}
		}
	})
	assert.Positive(t, can)
	assert.Positive(t, cannot)
}

// soundings lists what might sound in a gap on notes of a placing; of ornaments that
// sound the same the first.
func soundings(s *score.Score, p *plan.Plan, j, placing int) (all [][2]int8) {
	which := [2][]int8{{-1}, {-1}}
	for n, site := range s.Gaps[j].Sites {
		for i, o := range site.Ornaments {
			same := slices.ContainsFunc(site.Ornaments[:i], func(b score.Ornament) bool {
				return o.Delay == b.Delay && slices.Equal(o.Strokes, b.Strokes)
			})
			if p.Events[site.Event].Placing == placing && !same {
				which[n] = append(which[n], int8(i))
			}
		}
	}
	for _, a := range which[0] {
		for _, b := range which[1] {
			if a >= 0 || b >= 0 {
				all = append(all, [2]int8{a, b})
			}
		}
	}
	return all
}

// playsSo reports whether a choice can be played so.
func playsSo(s *score.Score, r *rule.Rules, p *plan.Plan, j int, x plan.Choice) bool {
	one, q := *s, *p
	one.Gaps, q.Gaps = slices.Clone(s.Gaps), slices.Clone(p.Gaps)
	one.Gaps[j].Patterns = []score.Pattern{s.Sounding(j, [2]int8{-1, -1}), s.Sounding(j, x.Sounds)}
	q.Gaps[j].Ways = [][]plan.Touch{nil, x.Touches}
	bill := plan.Between(&one, r, &q, j, 1, q.Held(&one, j))
	return !bill.Barred
}

// somehow tries every finger of the placing on every stroke.
func somehow(s *score.Score, r *rule.Rules, p *plan.Plan, j, placing int, sounds [2]int8, touches []plan.Touch) bool {
	pattern := s.Sounding(j, sounds)
	if len(touches) == len(pattern.Strings) {
		return playsSo(s, r, p, j, plan.Choice{Sounds: sounds, Touches: touches})
	}
	from := plan.Left
	if j == p.Placings[placing].First {
		from = plan.Right
	}
	for f := range int8(4) {
		if p.Placings[placing].Frame[f] == pattern.Strings[len(touches)] &&
			somehow(s, r, p, j, placing, sounds, append(slices.Clone(touches), plan.Touch{Finger: f, From: from})) {
			return true
		}
	}
	return false
}

// Deciding beforehand never costs more, and what it is said to save is what the plan
// shown costs more, counted by the definition. The plain tune that sharing is held
// against is the one it was worked out from.
func TestDecidedBeforehand(t *testing.T) {
	saved, kept := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		_, c := someone(t, 5)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost == plan.None || len(p.Dropped) > 0 {
			t.Skip("not all of it can be played")
		}
		plain, bare := solve.Plain(s, c.r, &p)
		silent := plan.Sum(&s, &c.r, &p, plan.Silent(&s), false)
		assert.Equal(t, plan.Joint(&bare, &c.r, &plain), plain.Cost)
		if sharing := solve.Sharing(s, c.r, &p); slices.ContainsFunc(s.Gaps, func(g score.Gap) bool { return len(g.Patterns) > 1 }) {
			assert.Equal(t, plan.Cost(silent.Sum*score.Whole)-plain.Cost, sharing)
		}
		for j, g := range s.Gaps {
			for k, site := range g.Sites {
				for i, o := range site.Ornaments {
					if o.Likelihood == 0 {
						continue
					}
					best, saves, ok := solve.Decided(s, c.r, &p, site.Written, o.Name, score.Always)
					if !ok {
						continue
					}
					decided, shown := s, p
					decided.Gaps, shown.Gaps = slices.Clone(s.Gaps), slices.Clone(p.Gaps)
					for n, g := range s.Gaps {
						shown.Gaps[n].Ways = nil
						decided.Gaps[n].Sites = surely(g.Sites, site.Written, o.Name)
						decided.WeighGap(n)
						for _, x := range decided.Gaps[n].Patterns {
							was := slices.IndexFunc(g.Patterns, func(y score.Pattern) bool { return x.Sounds == y.Sounds })
							shown.Gaps[n].Ways = append(shown.Gaps[n].Ways, p.Gaps[n].Ways[was])
						}
					}
					assert.Equal(t, plan.Joint(&decided, &c.r, &best), best.Cost)
					assert.Equal(t, plan.Joint(&decided, &c.r, &shown)-best.Cost, saves, "gap %d site %d ornament %d", j, k, i)
					if saves > 0 {
						saved++
					} else {
						kept++
					}
				}
			}
		}
	})
	assert.Positive(t, saved)
	assert.Positive(t, kept)
}

// surely are sites in which an ornament always sounds.
func surely(sites []score.Site, written int, name string) []score.Site {
	sites = slices.Clone(sites)
	for k := range sites {
		here := slices.IndexFunc(sites[k].Ornaments, func(o score.Ornament) bool {
			return sites[k].Written == written && o.Name == name && o.Likelihood > 0
		})
		if here < 0 {
			continue
		}
		sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
		for i := range sites[k].Ornaments {
			sites[k].Ornaments[i].Likelihood = 0
		}
		sites[k].Ornaments[here].Likelihood = score.Always
		return sites
	}
	return sites
}
