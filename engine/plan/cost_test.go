package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Three totals worked out by hand from the table of rules, in thousandths of a
// charge: harp with 14.5 mm between strings, the usual hand. h of a step is
// (530 - ms)/330 in thousandths, rounded down. Strings are counted from the
// lowest, C4.

// line is one line of a bill: where, what, how much.
type line struct {
	gap, placing int
	rule         rule.ID
	amount       int64
}

func lines(b plan.Bill) []line {
	var list []line
	for i, item := range b.Items {
		list = append(list, line{b.Places[i].Gap, b.Places[i].Placing, item.Rule, item.Amount})
	}
	return list
}

// notes makes a score of single notes, each so many milliseconds after the one
// before.
func notes(t *testing.T, ms int32, on ...int8) score.Score {
	s := score.Score{Harp: twelve(t), Gaps: make([]score.Gap, len(on)+1)}
	for i, string := range on {
		e := score.Event{Notes: []score.Note{{Written: i + 1, Pass: 1, String: string}}, Length: ms}
		if i > 0 {
			e.Since = ms
		}
		s.Events = append(s.Events, e)
	}
	s.Weigh()
	return s
}

// ways makes room in a plan for the patterns of a score.
func ways(s score.Score, p plan.Plan) plan.Plan {
	p.Gaps = make([]plan.Gap, len(s.Gaps))
	for j, g := range s.Gaps {
		p.Gaps[j].Ways = make([][]plan.Touch, len(g.Patterns))
	}
	return p
}

// C D E F with 4 3 2 1, then 4 crosses under the thumb to G, all 300 ms apart.
func TestACrossingUnderByHand(t *testing.T) {
	s, r := notes(t, 300, 0, 1, 2, 3, 4), usual(t)
	p := ways(s, plan.Plan{
		Events: []plan.Event{
			{Stroke: hand.Frame{o, o, o, 0}}, {Stroke: hand.Frame{o, o, 1, o}}, {Stroke: hand.Frame{o, 2, o, o}}, {Stroke: hand.Frame{3, o, o, o}},
			{Stroke: hand.Frame{o, o, o, 4}, Placing: 1},
		},
		Placings: []plan.Placing{{First: 0, Last: 3, Frame: hand.Frame{3, 2, 1, 0}}, {First: 4, Last: 4, Frame: hand.Frame{o, o, o, 4}}},
	})
	want := []line{
		// Four notes and the thumb: no charge for few notes. Neighbours are one
		// string apart: 14.5 mm are within 17 (2-3, 3-4) and 46 relaxed (1-2), and
		// more than 12 a finger; 1-3 and 2-4 have 29, 1-4 43.5 mm: no stretch, none
		// cramped. What is left is the fourth finger.
		{-1, 0, rule.FourthFinger, 7000},
		// One note, by the fourth finger: that it is not the thumb's is no fault.
		{-1, 1, rule.OneNote, 14000},
		{-1, 1, rule.FourthFinger, 7000},
		// The first placing has no stroke before it.
		{0, -1, rule.NewPlacing, 24000},
		// Gaps 1 to 3: another finger on another string costs nothing.
		// Over the boundary: h(300) = 230/330 = 696; 8 x 0.696 = 5.568.
		{4, -1, rule.NewPlacing, 24000},
		{4, -1, rule.PlacingTime, 5568},
		// 4 cannot connect above the thumb. A lift would cost 10, 2 for each of
		// four strings (the thumb goes from F to three strings above G), and
		// 20 x 0.696: 31.920. Crossing under by 4 costs 6 and 5 x 0.696, and
		// 14.5 mm is not far.
		{4, -1, rule.UnderBy4, 6000},
		{4, -1, rule.CrossTime, 3480},
	}
	b := plan.Sum(&s, &r, &p, plan.Silent(&s), true)
	assert.Equal(t, want, lines(b))
	// 7 + 14 + 7 + 24 + 24 + 5.568 + 6 + 3.48
	assert.EqualValues(t, 91048, b.Sum)
	assert.False(t, b.Barred)
	// Nothing may sound: the joint cost is the same, in 256ths.
	assert.EqualValues(t, 91048*256, plan.Joint(&s, &r, &p))
}

// G G with 2 2, 160 ms apart; A before the second G now and then, 60 ms early:
// the thumb waits on A.
func TestACutKeptByTheThumbByHand(t *testing.T) {
	s, r := notes(t, 160, 4, 4), usual(t)
	s.Gaps[1].Sites = []score.Site{{Written: 2, Pass: 1, Event: 1, Ornaments: []score.Ornament{
		{Name: "grace", Strokes: []score.Stroke{{String: 5, At: -60}}, Likelihood: 4}}}}
	s.Weigh()
	p := ways(s, plan.Plan{
		Events:   []plan.Event{{Stroke: hand.Frame{o, 4, o, o}}, {Stroke: hand.Frame{o, 4, o, o}}},
		Placings: []plan.Placing{{First: 0, Last: 1, Frame: hand.Frame{5, 4, o, o}, Kept: [4]bool{true}}},
	})
	p.Gaps[1].Ways[1] = []plan.Touch{{Finger: 0, From: plan.Left}}
	placing := []line{
		// None of the notes is the thumb's; 1 and 2 are a string apart; that the
		// thumb waits costs nothing.
		{-1, 0, rule.NoThumb, 8000},
		{0, -1, rule.NewPlacing, 24000},
	}
	silent := plan.Sum(&s, &r, &p, plan.Silent(&s), true)
	// Without the cut 2 repeats G after 160 ms: 0.4 for each of 40 ms under 200.
	// G4 lies three strings below C5 and still sounds: 2 x 3/7.
	assert.Equal(t, append(placing[:2:2], line{1, -1, rule.Repeat, 16000}, line{1, -1, rule.Ringing, 857}), lines(silent))
	assert.EqualValues(t, 48857, silent.Sum) // 8 + 24 + 16 + 0.857
	cut := plan.Sum(&s, &r, &p, []int{0, 1, 0}, true)
	// With it, 100 ms to A and 60 back: 2 is back after one stroke between, 0.2
	// for each of 40 ms under 200.
	assert.Equal(t, append(placing[:2:2], line{1, -1, rule.RepeatAfter, 8000}), lines(cut))
	assert.EqualValues(t, 40000, cut.Sum) // 8 + 24 + 8
	// Now and then is 4 of 16, so 64 of 256: 48.857 x 256 + (40 - 48.857) x 64.
	assert.EqualValues(t, 12507392-566848, plan.Joint(&s, &r, &p))
}

// E5 twice with the thumb, 1,500 ms apart; between them, now and then, F4 and G4
// from a placing of their own, 500 ms from stroke to stroke.
func TestAPlacingOfItsOwnByHand(t *testing.T) {
	s, r := notes(t, 1500, 9, 9), usual(t)
	s.Gaps[1].Sites = []score.Site{{Written: 1, Pass: 1, Event: 0, After: true, Ornaments: []score.Ornament{
		{Name: "grace", Strokes: []score.Stroke{{String: 3, At: 500}, {String: 4, At: 1000}}, Likelihood: 4}}}}
	s.Weigh()
	p := ways(s, plan.Plan{
		Events:   []plan.Event{{Stroke: hand.Frame{9, o, o, o}}, {Stroke: hand.Frame{9, o, o, o}}},
		Placings: []plan.Placing{{First: 0, Last: 1, Frame: hand.Frame{9, o, o, o}}},
	})
	p.Gaps[1].Ways[1] = []plan.Touch{{Finger: 1, From: plan.Private}, {Finger: 0, From: plan.Private}}
	plain := []line{
		{0, -1, rule.NewPlacing, 24000}, // the thumb plays both: nothing more
	}
	silent := plan.Sum(&s, &r, &p, plan.Silent(&s), true)
	assert.Equal(t, plain, lines(silent)) // 1,500 ms are time enough to repeat
	assert.EqualValues(t, 24000, silent.Sum)
	sounding := plan.Sum(&s, &r, &p, []int{0, 1, 0}, true)
	assert.Equal(t, append(plain[:1:1],
		// 1 and 2 lie a string apart: the private frame costs nothing itself.
		// There: h(500) = 30/330 = 90; 24, 8 x 0.09 and 30 x 0.09.
		line{1, -1, rule.NewPlacing, 24000},
		line{1, -1, rule.PlacingTime, 720},
		line{1, -1, rule.AwayTime, 2700},
		// And back, to the same placing: the same again. The thumb goes from E5 to
		// G4 and back to E5, but the hand is set anew each time: no hop.
		line{1, -1, rule.NewPlacing, 24000},
		line{1, -1, rule.PlacingTime, 720},
		line{1, -1, rule.AwayTime, 2700},
	), lines(sounding))
	assert.EqualValues(t, 78840, sounding.Sum) // 24 + 2 x 27.42
	// 24 x 256 + 54.84 x 64.
	assert.EqualValues(t, 6144000+3509760, plan.Joint(&s, &r, &p))
}

// What no hand can do has no cost: here one finger has two strings in a placing,
// though the frame holds the last of them.
func TestOneFingerHasOneString(t *testing.T) {
	s, r := notes(t, 600, 4, 5), usual(t)
	p := ways(s, plan.Plan{
		Events:   []plan.Event{{Stroke: hand.Frame{4, o, o, o}}, {Stroke: hand.Frame{5, o, o, o}}},
		Placings: []plan.Placing{{First: 0, Last: 1, Frame: hand.Frame{5, o, o, o}}},
	})
	assert.Equal(t, plan.None, plan.Joint(&s, &r, &p))
}
