package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/plan"
	"readyhand/engine/solve"
)

// TestProof: of random passages, at every event the best way there and the best way
// on add up to the cost of the plan, and no fingering of them costs less than the
// least that is given.
func TestProof(t *testing.T) {
	checked, gaps := 0, 0
	for n := range 300 {
		c := draw(n)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost >= plan.None {
			continue
		}
		checked++
		assert.Equal(t, len(s.Events), p.Proof.Moments, "passage %d", n)
		assert.Equal(t, p.Cost-p.Likeness.Gap, p.Proof.Least)
		assert.LessOrEqual(t, p.Proof.Least, solve.Least(c.s, c.r))
		loose, ok := solve.Loose(s, c.r)
		assert.True(t, ok)
		assert.LessOrEqual(t, loose.Cost, p.Cost)
		assert.Equal(t, p.Cost-p.Likeness.Extra, loose.Cost, "what likeness takes is above the best without it")
		if p.Likeness.Gap > 0 {
			gaps++
		}
	}
	assert.Greater(t, checked, 200)
	t.Log(checked, "passages,", gaps, "with a gap")
}
