package explain

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// pinned is the score with a finger, 0 to 3, asked for on one note.
func pinned(s score.Score, event, finger int) score.Score {
	s.Events = append([]score.Event(nil), s.Events...)
	s.Events[event].Notes = append([]score.Note(nil), s.Events[event].Notes...)
	s.Events[event].Notes[0].Pin = int8(finger + 1)
	return s
}

// TestEntriesAreTheCost: what Finger may name adds up to the joint cost, to the
// last 256th of a thousandth, and the difference of two plans to the price.
func TestEntriesAreTheCost(t *testing.T) {
	given, r, _ := passage(t)
	given.Gaps[2].Sites[0].Ornaments[0].Likelihood = 8
	given.Weigh()
	best, s := solve.Plan(*given, *r)
	assert.Equal(t, best.Cost, total(entries(&s, r, &best)))
	compared := 0
	for i := range s.Events {
		for f, price := range best.Events[i].Prices[0] {
			if price == plan.None {
				continue
			}
			other, scored := solve.Plan(pinned(s, i, f), *r)
			compared++
			assert.Equal(t, price, total(entries(&scored, r, &other))-best.Cost, "event %d finger %d", i, f+1)
		}
	}
	assert.Greater(t, compared, 20)
}

func total(all []entry) (sum plan.Cost) {
	for _, e := range all {
		sum += e.amount
	}
	return sum
}

func TestFinger(t *testing.T) {
	given, r, _ := passage(t)
	best, s := solve.Plan(*given, *r)
	var others [4]*plan.Plan
	for f := range others {
		if best.Events[0].Prices[0][f] < plan.None {
			other, _ := solve.Plan(pinned(s, 0, f), *r)
			others[f] = &other
		}
	}
	asked := Asked{Others: others, Solve: solve.Loose}
	why := Finger(&s, r, &best, asked, 0, 0)
	assert.Equal(t, "The first D in bar 1", why.Title)
	assert.Equal(t, 2, why.Finger, "common practice, no source: 2 1 2 3 4 with the cut in the hand")
	assert.Equal(t, "Finger 2; the hand is set here.", why.Text[:31])
	require.Len(t, why.Others, 2, "3 and 4; 1 cannot, with the cut above it")
	for _, o := range why.Others {
		if o.Near {
			assert.Contains(t, why.Text, "are close here")
		}
		assert.NotEmpty(t, o.Effort)
		assert.Regexp(t, `more effort: [a-z]`, o.Text, "a reason is given")
		assert.NotEmpty(t, o.Claim.Rules)
	}
	later := Finger(&s, r, &best, Asked{}, 3, 0)
	assert.Contains(t, later.Text, "Finger 3; it is on C already.")

	barred := best
	barred.Events = append([]plan.Event(nil), best.Events...)
	barred.Events[0].Prices = [][4]plan.Cost{{plan.None, 0, plan.Charge / 5, plan.None}}
	why = Finger(&s, r, &barred, Asked{}, 0, 0)
	require.Len(t, why.Others, 1, "only what can be chosen is listed")
	assert.Equal(t, "3 is as good, but for a trifle.", why.Others[0].Text)
	assert.Contains(t, why.Text, " 1 cannot play it here: it leaves none for the cut. 4 cannot play it here.", "what bars 4 was put here by hand")
	r.Hand.InUse[3] = false
	assert.Contains(t, Finger(&s, r, &barred, asked, 0, 0).Text, " 1 cannot play it here: it leaves none for the cut.", "what is not in use is not spoken of")
	assert.NotContains(t, Finger(&s, r, &barred, asked, 0, 0).Text, "4 cannot")
	r.Hand.InUse[3] = true

	assert.Empty(t, Finger(&s, r, &best, asked, 99, 0), "no such event")
}

// TestPinned: of a finger that was asked for it is said what it costs, against which
// finger, and why.
func TestPinned(t *testing.T) {
	given, r, _ := passage(t)
	free, s := solve.Plan(*given, *r)
	wish := pinned(s, 0, 2)
	own, wish := solve.Plan(wish, *r)
	why := Finger(&wish, r, &own, Asked{Free: &free, Solve: solve.Loose}, 0, 0)
	assert.Regexp(t, `^Finger 3, as you asked; the hand is set here\. It takes `+Effort(own.Cost-free.Cost)+` more effort than 2: [a-z].*Press "any finger" to see what the others would cost\.$`, why.Text)
	assert.NotEmpty(t, why.Claim.Rules)

	wish = pinned(s, 0, 1)
	own, wish = solve.Plan(wish, *r)
	why = Finger(&wish, r, &own, Asked{Free: &free, Solve: solve.Loose}, 0, 0)
	assert.Contains(t, why.Text, "Finger 2, as you asked; the hand is set here. Nothing takes less effort.")
}

// TestNearTie: a finger that costs nothing more is called as good.
func TestNearTie(t *testing.T) {
	s, r, p := passage(t)
	p.Events[0].Prices[0] = [4]plan.Cost{40 * plan.Charge, 0, 0, 5 * plan.Charge}
	why := Finger(s, r, p, Asked{}, 0, 0)
	assert.True(t, strings.HasPrefix(why.Text, "Finger 2; the hand is set here. 2, 3 and 4 are close here"), why.Text)
	assert.Equal(t, []string{"1 costs 40 more effort.", "3 is as good.", "4 is nearly as good, with 5 more effort."},
		[]string{why.Others[0].Text, why.Others[1].Text, why.Others[2].Text})
}
