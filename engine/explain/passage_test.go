package explain

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// str finds a string of the harp by name.
func str(t testing.TB, h harp.Harp, name string) int8 {
	t.Helper()
	p, ok := pitch.Parse(name)
	require.True(t, ok, name)
	return int8(h.At(p.Step()))
}

// passage is d e d c A in quavers of 300 ms, each in bar 1, then F in bar 2 after
// a phrase end, on a harp tuned in C; with a cut on the first d and an upper
// mordent offered on the second.
func passage(t testing.TB) (*score.Score, *rule.Rules, *plan.Plan) {
	low, _ := pitch.Parse("C2")
	h, ok := harp.New(34, low, "C", 14500)
	require.True(t, ok)
	s := &score.Score{Harp: h, Raised: make([]bool, 34), Gaps: make([]score.Gap, 8)}
	for i, name := range []string{"D5", "E5", "D5", "C5", "A4", "F4", "A4"} {
		e := score.Event{Notes: []score.Note{{Written: i + 1, Pass: 1, String: str(t, h, name)}}, Since: 300, Length: 300, Bar: 1 + i/5, Span: [2]int64{1, 8}, Onset: [2]int64{int64(i), 8}}
		s.Events = append(s.Events, e)
	}
	s.Events[0].Since, s.Events[5].Forced = 0, true
	d, e5 := str(t, h, "D5"), str(t, h, "E5")
	s.Gaps[0].Sites = []score.Site{{Written: 1, Pass: 1, Event: 0, Ornaments: []score.Ornament{
		{Name: "cut", Title: "cut", Strokes: []score.Stroke{{String: e5}}, Delay: 65, On: true, Likelihood: 4, Written: true}}}}
	s.Gaps[2].Sites = []score.Site{{Written: 3, Pass: 1, Event: 2, Ornaments: []score.Ornament{
		{Name: "upper-mordent", Title: "upper mordent", Strokes: []score.Stroke{{String: d}, {String: e5, At: 65}}, Delay: 130}}}}
	s.Weigh()

	p := &plan.Plan{Placings: []plan.Placing{
		{First: 0, Last: 4, Frame: hand.Frame{e5, d, str(t, h, "C5"), str(t, h, "A4")}},
		{First: 5, Last: 6, Frame: hand.Frame{hand.None, str(t, h, "A4"), hand.None, str(t, h, "F4")}, Move: rule.SetAnew},
	}, Gaps: make([]plan.Gap, 8)}
	for i, f := range []int{1, 0, 1, 2, 3, 3, 1} {
		stroke := hand.Empty()
		stroke[f] = s.Events[i].Notes[0].String
		p.Events = append(p.Events, plan.Event{Stroke: stroke, Placing: i / 5, Prices: [][4]plan.Cost{{plan.None, plan.None, plan.None, plan.None}}})
	}
	for j := range p.Gaps {
		for _, pattern := range s.Gaps[j].Patterns {
			p.Gaps[j].Ways = append(p.Gaps[j].Ways, make([]plan.Touch, len(pattern.Strings)))
		}
	}
	cut := []plan.Touch{{Finger: 0, From: plan.Right}}
	p.Gaps[0].Ways[1] = cut
	p.Gaps[0].Fits = [][]plan.Fit{{{Ready: plan.InHand, Touches: cut}}}
	p.Gaps[2].Fits = [][]plan.Fit{{{Ready: plan.InHand, Touches: []plan.Touch{{Finger: 1}, {Finger: 0}}}}}
	r := &rule.Rules{Charges: rule.Usual(), Harp: h, Hand: hand.Usual("right")}
	return s, r, p
}

// texts keeps the words of sentences.
func texts(all []Sentence) (out []string) {
	for _, s := range all {
		out = append(out, s.Text)
	}
	return out
}

func TestPlan(t *testing.T) {
	s, r, p := passage(t)
	assert.Equal(t, []string{
		"Bar 1: set 1 2 3 4 on E, D, C and A.",
		"Bar 1: the cut on the first D is in the hand; 1 is on E already. Play it or not, nothing changes.",
		"Bar 2: come off after the A, then set 4 2 on F and A.",
	}, texts(Plan(s, r, p)))

	first := Plan(s, r, p)[0]
	assert.Equal(t, Sentence{Setting, 1, 0, "1", "Bar 1: set 1 2 3 4 on E, D, C and A."}, first)

	// A rest before the phrase, and a long note before it.
	s.Events[5].Since = 600
	assert.Contains(t, texts(Plan(s, r, p)), "Bar 2: come off in the rest, then set 4 2 on F and A.")
	s.Events[4].Length, s.Events[5].Since = 900, 900
	assert.Contains(t, texts(Plan(s, r, p)), "Bar 2: come off after the long A, then set 4 2 on F and A.")
}

// TestMoves holds how each way to a placing is said.
func TestMoves(t *testing.T) {
	s, r, p := passage(t)
	for move, want := range map[rule.Move]string{
		rule.Connect: "Bar 2: while 4 is still on A, bring 4 to F; 2 follows on A.",
		rule.Under:   "Bar 2: pass 4 under the thumb to F; 2 follows on A.",
		rule.Over:    "Bar 2: bring the thumb over 4 to F; 2 follows on A.",
		rule.Jump:    "Bar 2: lift after the A and come down with 4 on F; 2 follows on A.",
	} {
		p.Placings[1].Move = move
		assert.Contains(t, texts(Plan(s, r, p)), want)
	}
}

// TestReady holds how an ornament's readiness is said, and what waits.
func TestReady(t *testing.T) {
	s, r, p := passage(t)
	label := func() string { return Each(s, r, p)[0].Ready }
	assert.Equal(t, []Ornament{
		{0, 0, 0, "cut on the first D, bar 1", "in the hand: 1 is on E already"},
		{2, 0, 0, "upper mordent on the second D, bar 1", "in the hand: 1 is on E already"},
	}, Each(s, r, p))

	fit := &p.Gaps[0].Fits[0][0]
	fit.Ready, p.Placings[0].Kept[0] = plan.FingerKept, true
	fit.Extra = 3 * plan.Charge / 2
	assert.Equal(t, "finger kept: 1 waits on E (2 more effort)", label())
	assert.Equal(t, "Bar 1: set 2 3 4 on D, C and A. The thumb rests ready on E, for the cut on the first D alone.", Plan(s, r, p)[0].Text)
	assert.Equal(t, "Bar 1: the cut on the first D is ready: 1 waits on E.", Plan(s, r, p)[1].Text)

	cut := &s.Gaps[0].Sites[0].Ornaments[0]
	cut.On, cut.Likelihood, p.Placings[0].Kept[0] = false, 0, false
	assert.Equal(t, "finger kept: 1 would wait on E (2 more effort)", label())
	assert.Equal(t, "Bar 1: the cut on the first D is not prepared; for it 1 would wait on E.", Plan(s, r, p)[1].Text)
	cut.On, cut.Likelihood = true, 4

	fit.Ready, fit.Extra, p.Placings[0].Kept[0], p.Placings[0].Free[0] = plan.FingerFree, 0, false, true
	assert.Equal(t, "finger free: drop 1 on E", label())
	assert.Equal(t, "Bar 1: set 2 3 4 on D, C and A.", Plan(s, r, p)[0].Text, "a free finger is not set")

	fit.Ready = plan.PlacedAgain
	fit.Touches = []plan.Touch{{Finger: 0, From: plan.Private}}
	assert.Equal(t, "placed again: the hand leaves for it", label())
	assert.Equal(t, "Bar 1: the cut on the first D takes the hand off its strings: set 1 on E for it, then come back.", Plan(s, r, p)[1].Text)

	*fit = plan.Fit{Ready: plan.NoTime}
	assert.Equal(t, "no time at this tempo", label())
}

// TestSecondTime: what is the same on a later pass is not said again, what
// differs is.
func TestSecondTime(t *testing.T) {
	s, r, p := passage(t)
	again := s.Events[:5:5]
	for i, e := range again {
		e.Notes = []score.Note{{Written: i + 1, Pass: 2, String: e.Notes[0].String}}
		s.Events = append(s.Events, e)
		p.Events = append(p.Events, plan.Event{Stroke: p.Events[i].Stroke, Placing: 2})
	}
	s.Gaps, p.Gaps = make([]score.Gap, 13), make([]plan.Gap, 13)
	s.Weigh()
	for j := range p.Gaps {
		p.Gaps[j].Ways = make([][]plan.Touch, 1)
	}
	p.Placings = append(p.Placings, plan.Placing{First: 7, Last: 11, Frame: p.Placings[0].Frame, Move: rule.Jump})
	assert.Equal(t, []string{
		"Bar 1: set 1 2 3 4 on E, D, C and A.",
		"Bar 2: come off after the A, then set 4 2 on F and A.",
		"Bar 1, second time: lift after the A and come down with 2 on D; 1, 3 and 4 follow on E, C and A.",
	}, texts(Plan(s, r, p)))
}

// TestCare: a wide reach and a quick repeat are said, with whom to ask; a quiet
// passage says nothing of it.
func TestCare(t *testing.T) {
	s, r, p := passage(t)
	for _, x := range Plan(s, r, p) {
		assert.NotEqual(t, Care, x.Kind)
	}
	p.Placings[1].Frame[1] = str(t, s.Harp, "G5") // 2 and 4 a ninth apart, more than a hand can hold
	p.Placings[1].Kept[1] = true
	s.Events[6].Notes[0].String = str(t, s.Harp, "F4")
	p.Events[6].Stroke = p.Events[5].Stroke
	s.Events[6].Since = 170
	s.Weigh()
	var care []string
	for _, x := range Plan(s, r, p) {
		if x.Kind == Care {
			care = append(care, x.Text)
		}
	}
	require.Len(t, care, 1)
	assert.Contains(t, care[0], "One finger repeats quickly in bar 2.")
	assert.Contains(t, care[0], "never play through pain: at its first sign stop, and ask your teacher or a health professional")

	p.Placings[1].Frame[1], p.Placings[1].Kept[1] = hand.None, false
	p.Placings[1].Frame[0], p.Placings[1].Kept[0] = str(t, s.Harp, "A5"), true // 1 and 4 a tenth apart
	assert.Contains(t, texts(Plan(s, r, p))[3], "The hand opens wide between 4 and 1 in bar 2.")
	assert.NotContains(t, texts(Plan(s, r, p))[3], "chord", "there is none")

	s.Gaps[0].Sites[0].Ornaments[0].Name, s.Gaps[0].Sites[0].Ornaments[0].Title = "trill", "trill"
	said := texts(Plan(s, r, p))
	assert.Contains(t, said[len(said)-1], "Two fingers take quick turns for the trill in bar 1, which tires the hand: make it shorter, or change to other fingers.")
	assert.Equal(t, 1, strings.Count(strings.Join(said, " "), "health professional"), "once, at the end")
}

// Bars are named one by one, whatever comes twice once, and many are counted.
func TestWithin(t *testing.T) {
	for _, row := range []struct {
		bars []int
		want string
	}{
		{[]int{4}, "bar 4"}, {[]int{0}, "the pickup"}, {[]int{2, 0}, "the pickup and bar 2"},
		{[]int{9, 2, 3, 2, 7, 5}, "bars 2, 3, 5, 7 and 9"}, {[]int{3, 0, 5}, "the pickup and bars 3 and 5"},
		{[]int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, "bars 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and two more"},
	} {
		assert.Equal(t, row.want, within(row.bars))
	}
}

// Where some fingers stay and play, those are kept, and only the others are set; a
// string is told from one of its name that was played just before.
func TestShift(t *testing.T) {
	s, r, p := passage(t)
	g2, d3, g3, b3 := str(t, s.Harp, "G2"), str(t, s.Harp, "D3"), str(t, s.Harp, "G3"), str(t, s.Harp, "B3")
	r.Hand = hand.Usual("left")
	s.Events, s.Gaps = s.Events[:4], make([]score.Gap, 5)
	for i, on := range []int8{g2, d3, g3} {
		s.Events[i].Notes[0].String = on
	}
	s.Events[3].Notes = []score.Note{{Written: 4, Pass: 1, String: g2}, {Written: 5, Pass: 1, String: d3}, {Written: 6, Pass: 1, String: b3}}
	s.Weigh()
	all := hand.Frame{b3, d3, hand.None, g2}
	*p = plan.Plan{Gaps: make([]plan.Gap, 5), Placings: []plan.Placing{{First: 0, Last: 2, Frame: hand.Frame{g3, d3, hand.None, g2}}, {First: 3, Last: 3, Frame: all, Move: rule.Shift}}}
	for i, f := range []int{3, 1, 0} {
		stroke := hand.Empty()
		stroke[f] = s.Events[i].Notes[0].String
		p.Events = append(p.Events, plan.Event{Stroke: stroke})
	}
	p.Events = append(p.Events, plan.Event{Stroke: all, Placing: 1})
	require.Equal(t, [4]bool{false, true, false, true}, p.Stays(1))
	assert.Equal(t, "Bar 1: keep 4 and 2 on low G and D and set 1 on B.", texts(Plan(s, r, p))[1])
}

func TestChange(t *testing.T) {
	s, _, p := passage(t)
	same := Played{s, p}
	assert.Equal(t, []string{NothingMoves}, Change(same, same))

	q := *p
	q.Placings = append([]plan.Placing(nil), p.Placings...)
	q.Placings[0].Kept[0] = true
	assert.Equal(t, []string{"Nothing moves.", "Now the thumb waits on E in bar 1."}, Change(same, Played{s, &q}))
	assert.Equal(t, []string{"Nothing moves.", "The thumb no longer waits on E in bar 1."}, Change(Played{s, &q}, same))

	q = *p
	q.Events = append([]plan.Event(nil), p.Events...)
	q.Events[0].Stroke, q.Events[2].Stroke = hand.Frame{-1, -1, s.Events[0].Notes[0].String, -1}, hand.Frame{-1, -1, s.Events[2].Notes[0].String, -1}
	assert.Equal(t, []string{"Bar 1: the first D and the second D are now 3 3, not 2 2."}, Change(same, Played{s, &q}))

	q.Events = append([]plan.Event(nil), p.Events...)
	q.Events[4].Placing = 1
	assert.Equal(t, []string{"Bar 1: the hand is now set at the A.", "Bar 2: the hand is no longer set at the F."}, Change(same, Played{s, &q}))
}

func TestEffort(t *testing.T) {
	for c, want := range map[plan.Cost]string{0: "0", plan.Charge: "1", 12 * plan.Charge: "12", plan.Charge / 2: "1",
		plan.Charge / 100: "0", 7*plan.Charge + plan.Charge/4: "7", -5 * plan.Charge / 4: "-1"} {
		assert.Equal(t, want, Effort(c))
	}
}

// TestNames: a note is told from others of its bar by its octave, by its turn,
// or by both, and named as its own lever has it.
func TestNames(t *testing.T) {
	s, _, _ := passage(t)
	for i, name := range []string{"D5", "D4", "D5", "C5", "C4"} {
		s.Events[i].Notes[0].String = str(t, s.Harp, name)
	}
	s.Events[1].Notes = append(s.Events[1].Notes, score.Note{Written: 8, Pass: 1, String: str(t, s.Harp, "F4")}, score.Note{Written: 9, Pass: 1, String: str(t, s.Harp, "F5"), Raised: true})
	b := newBook(s)
	for at, want := range map[[2]int]string{
		{0, 0}: "the first high D", {1, 0}: "the low D", {2, 0}: "the second high D", {3, 0}: "the high C", {4, 0}: "the low C",
		{1, 1}: "the F", {1, 2}: "the F sharp", {5, 0}: "the F",
	} {
		assert.Equal(t, want, b.short(at[0], at[1]))
	}
}
