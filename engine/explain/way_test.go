package explain

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
)

// Whatever a rule charges, there is something to say of a way that it charges less,
// and of two rules about the same thing the same is said.
func TestEveryRuleIsSomethingThatAWayMayBuy(t *testing.T) {
	for id := range rule.Count {
		topic := 0
		for _, x := range topics {
			if slices.Contains(x.rules, id) {
				topic++
			}
			assert.NotEmpty(t, x.none)
			assert.NotEmpty(t, x.less)
		}
		if slices.Contains(placingRules, id) {
			topic++
		}
		assert.Equal(t, 1, topic, rule.Rows()[id].Name)
	}
}

// A toll is of what charges more on the whole: not of a connected placing, where a
// new one is saved.
func TestToll(t *testing.T) {
	var gains [rule.Count]gain
	gains[rule.NewPlacing].amount, gains[rule.Carried].amount = 24*plan.Charge, -14*plan.Charge
	assert.Empty(t, toll(&gains))
	gains[rule.Lift].amount = -10 * plan.Charge
	assert.Equal(t, rule.Rows()[rule.Lift].Sentence, toll(&gains))
	gains[rule.NewPlacing].amount = -24 * plan.Charge
	assert.Equal(t, rule.Rows()[rule.NewPlacing].Sentence, toll(&gains))
}
