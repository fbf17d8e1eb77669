package explain

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// What following a house fingering costs is said where it is more than nothing,
// and where it is not followed; all together only where one place does not tell it.
func TestHouses(t *testing.T) {
	s, r, p := passage(t)
	cut := plan.House{Event: -1, Gap: 0, Fingers: []int8{0, 1}, Followed: true}
	said := func() (lines []string) {
		for _, x := range Plan(s, r, p) {
			if x.Kind == Ornaments || x.Kind == Left {
				lines = append(lines, x.Text)
			}
		}
		return lines[1:] // the first is of the cut itself
	}
	p.House = []plan.House{cut}
	assert.Empty(t, said(), "it costs nothing")

	cut.Extra, p.Usual = 5*plan.Charge, 5*plan.Charge
	p.House = []plan.House{cut}
	assert.Equal(t, []string{"Bar 1: for the cut on the first D your usual 1 2 takes 5 more effort here than other fingers would."}, said())

	chord := plan.House{Event: 5, Gap: -1, Fingers: []int8{3, 1}, Followed: true, Extra: 3 * plan.Charge}
	p.House, p.Usual = []plan.House{cut, chord}, 7*plan.Charge
	assert.Equal(t, []string{
		"Bar 1: for the cut on the first D your usual 1 2 takes 5 more effort here than other fingers would.",
		"Bar 2: for the chord on F your usual 4 2 takes 3 more effort here than other fingers would.",
		"Your usual fingerings take 7 more effort in this tune than the easiest fingers would.",
	}, said())

	cut.Followed, cut.Extra, p.Usual = false, 0, 0
	p.House = []plan.House{cut}
	assert.Equal(t, []string{"Bar 1: the cut on the first D has other fingers here than your usual 1 2."}, said())

	s.Gaps[0].Sites[0].Ornaments[0].Many = true
	assert.Equal(t, []string{"Bar 1: the cut on the first D have other fingers here than your usual 1 2."}, said(), "spoken of as many")

	s.Gaps[2].Sites[0].Ornaments[0].House = [][]int8{{2, 1, 2}}
	p.Gaps[2].Fits[0][0].Unusual = true
	assert.Equal(t, "in the hand: 1 is on E already; not with your usual 3 2 3", Each(s, r, p)[1].Ready)
}

// A house fingering of an ornament that is repeated is said once, as it is written in
// the house; of any other in full.
func TestUsual(t *testing.T) {
	for _, row := range []struct {
		name string
		way  []int8
		want string
	}{
		{"trill", []int8{1, 0, 1, 0, 1, 0, 1}, "2 1"}, {"trill", []int8{1, 0}, "2 1"}, {"trill", []int8{1, 0, 2, 0, 1}, "2 1 3 1"},
		{"upper-mordent", []int8{1, 0, 1}, "2 1 2"}, {"three-strokes", []int8{2, 1, 0}, "3 2 1"}, {"", []int8{3, 1, 0}, "4 2 1"},
	} {
		assert.Equal(t, row.want, Usual(row.name, row.way), row.name)
	}
}

// Asked why, a note of a house fingering says so, and what another finger would
// save is no near-tie: it is said to be against the house.
func TestWhyAHouseFinger(t *testing.T) {
	given, r, _ := passage(t)
	given.Gaps[0].Sites[0].Ornaments[0].House = [][]int8{{1, 2}}
	given.Weigh()
	best, s := solve.Plan(*given, *r)
	other, _ := solve.Plan(pinned(s, 0, 1), *r)
	best.Events[0].Prices[0] = [4]plan.Cost{plan.None, other.Cost - best.Cost, 0, plan.None}
	assert.Less(t, other.Cost, best.Cost)
	reasons := Finger(&s, r, &best, Asked{Others: [4]*plan.Plan{1: &other}}, 0, 0)
	assert.Equal(t, 3, reasons.Finger)
	assert.Contains(t, reasons.Text, "It belongs to your usual cut, 2 3.")
	assert.Regexp(t, `^2 would take [0-9]+ less effort, but it is not your usual fingering\.`, reasons.Others[0].Text)
	assert.False(t, reasons.Others[0].Near)

	chord := score.Score{Harp: s.Harp, Raised: s.Raised, Events: []score.Event{{Notes: []score.Note{{Written: 1, Pass: 1, String: 14}, {Written: 2, Pass: 1, String: 18}}, Length: 500,
		House: [][]int8{{1, 0}}}}, Gaps: make([]score.Gap, 2)}
	chord.Weigh()
	held, chord := solve.Plan(chord, *r)
	assert.Contains(t, Finger(&chord, r, &held, Asked{}, 0, 0).Text, "It belongs to your usual fingering of this chord, 2 1.")
}
