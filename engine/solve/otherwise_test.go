package solve_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// Ornaments that ask for other placings are tried together, as far as they have
// gaps alike, and only where a best plan may go; the answer is that of the gaps worked
// out anew for each of them: in passages with any charges, in which half of what
// might be played is only offered, whether bars come again or not.
func TestAskedTogether(t *testing.T) {
	kinds, figures, moved := map[plan.Readiness]int{}, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := drawing{rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "passage"), 31))}
		var c passage
		if d.oneIn(2) {
			c = d.repeating(d.among(1, 4)).passage
		} else {
			c = d.passage(9, d.among(1, 4))
		}
		if d.oneIn(4) {
			c = d.housed(c)
		}
		for j := range c.s.Gaps {
			for k := range c.s.Gaps[j].Sites {
				site := &c.s.Gaps[j].Sites[k]
				site.Ornaments = slices.Clone(site.Ornaments)
				for i := range site.Ornaments {
					if d.oneIn(2) {
						site.Ornaments[i].Likelihood, site.Ornaments[i].On = score.Never, false
					}
				}
			}
		}
		c.s.Weigh()
		got, want := solve.Asked(c.s, c.r)
		assert.Equal(t, want, got, "%s", c)
		for _, fit := range got {
			kinds[fit.Ready]++
			moved += min(fit.Moves, 1)
		}
		figures += min(len(got), len(c.s.Figures()))
	})
	t.Log(kinds, figures, moved)
	assert.Positive(t, kinds[plan.PlacedAgain])
	assert.Positive(t, kinds[plan.NoTime])
	assert.Positive(t, figures)
	assert.Positive(t, moved)
}

// The same in a long tune, where what is offered stands among what is prepared.
func TestAskedTogetherInATune(t *testing.T) {
	s, r := jig(144, 3)
	for j := range s.Gaps {
		for k := range s.Gaps[j].Sites {
			for i := range s.Gaps[j].Sites[k].Ornaments {
				if (j+i)%3 > 0 {
					s.Gaps[j].Sites[k].Ornaments[i].Likelihood = score.Never
				}
			}
		}
	}
	s.Weigh()
	got, want := solve.Asked(s, r)
	assert.Equal(t, want, got)
	assert.NotEmpty(t, got)
}
