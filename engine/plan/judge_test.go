package plan_test

import (
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

const o = hand.None

// twelve is a harp of twelve strings from middle C, 14.5 mm apart: string 0 is
// C4, 1 D4, 2 E4 and so on.
func twelve(t *testing.T) harp.Harp {
	t.Helper()
	h, ok := harp.New(12, pitch.Pitch{Octave: 4}, "C", 14500)
	require.True(t, ok)
	return h
}

func usual(t *testing.T) rule.Rules {
	t.Helper()
	return rule.Rules{Charges: rule.Usual(), Harp: twelve(t), Hand: hand.Usual("right")}
}

// played is one way to finger a passage of ours, with an ornament of each kind:
//
//	{F4 from the placing to come} E4 {D4 by a kept finger} F4 {E4, a placing of
//	its own for D5, G4} [G4 B4] rest A4 {C5 by a finger that drops in}
func played(t *testing.T) (score.Score, rule.Rules, plan.Plan) {
	t.Helper()
	note := func(written int, on int8) score.Note { return score.Note{Written: written, Pass: 1, String: on} }
	s := score.Score{Harp: twelve(t), Events: []score.Event{
		{Notes: []score.Note{note(1, 2)}, Length: 600},
		{Notes: []score.Note{note(2, 3)}, Since: 600, Length: 1000},
		{Notes: []score.Note{note(3, 4), note(4, 6)}, Since: 1000, Length: 400},
		{Notes: []score.Note{{Written: 5, Pass: 1, String: 5, Pin: 3}}, Since: 800, Length: 900, Forced: true},
	}}
	s.Gaps = make([]score.Gap, 5)
	add := func(gap, event int, after bool, strokes ...score.Stroke) {
		s.Gaps[gap].Sites = []score.Site{{Written: event + 1, Pass: 1, Event: event, After: after,
			Ornaments: []score.Ornament{{Name: "grace", Strokes: strokes, Likelihood: 4}}}}
	}
	add(0, 0, false, score.Stroke{String: 3, At: -200})
	add(1, 1, false, score.Stroke{String: 1, At: -200})
	add(2, 1, true, score.Stroke{String: 2, At: 250}, score.Stroke{String: 8, At: 500}, score.Stroke{String: 4, At: 750})
	add(4, 3, true, score.Stroke{String: 7, At: 450})
	s.Weigh()
	s.Gaps[0].Patterns[1].Last = 200 // the grace note stands before the tune
	p := plan.Plan{
		Events: []plan.Event{
			{Stroke: hand.Frame{o, 2, o, o}},
			{Stroke: hand.Frame{3, o, o, o}},
			{Stroke: hand.Frame{6, 4, o, o}, Placing: 1},
			{Stroke: hand.Frame{o, o, 5, o}, Placing: 2},
		},
		Placings: []plan.Placing{
			{First: 0, Last: 1, Frame: hand.Frame{3, 2, 1, o}, Kept: [4]bool{2: true}, Move: rule.SetAnew},
			{First: 2, Last: 2, Frame: hand.Frame{6, 4, o, o}, Move: rule.Jump},
			{First: 3, Last: 3, Frame: hand.Frame{o, 7, 5, o}, Free: [4]bool{1: true}, Move: rule.SetAnew},
		},
		Gaps: []plan.Gap{
			{Ways: [][]plan.Touch{nil, {{Finger: 0, From: plan.Right}}}},
			{Ways: [][]plan.Touch{nil, {{Finger: 2, From: plan.Left}}}},
			{Ways: [][]plan.Touch{nil, {{Finger: 1, From: plan.Left}, {Finger: 0, From: plan.Private}, {Finger: 1, From: plan.Right}}}},
			{Ways: [][]plan.Touch{nil}},
			{Ways: [][]plan.Touch{nil, {{Finger: 1, From: plan.Left}}}},
		},
	}
	return s, usual(t), p
}

func TestJudgeHasNothingToSay(t *testing.T) {
	s, r, p := played(t)
	assert.Empty(t, plan.Judge(&s, &r, &p))
	assert.Less(t, plan.Joint(&s, &r, &p), plan.None)
}

// Each row breaks the fingering above in one way. Where one thing broken is two
// faults, both are named.
func TestJudgeNamesTheFault(t *testing.T) {
	type broken struct {
		what string
		do   func(s *score.Score, r *rule.Rules, p *plan.Plan)
		want []plan.Kind
	}
	way := func(p *plan.Plan, gap int) []plan.Touch { return p.Gaps[gap].Ways[1] }
	rows := []broken{
		{"a gap is missing", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Gaps = p.Gaps[:4] },
			[]plan.Kind{plan.Incomplete}},
		{"an event is in no placing", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[0].Last = 0 },
			[]plan.Kind{plan.Incomplete}},
		{"an ornament has a stroke without a finger", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Gaps[2].Ways[1] = way(p, 2)[:2] },
			[]plan.Kind{plan.Incomplete}},
		{"a string that the harp does not have", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Events[0].Stroke[3] = 40 },
			[]plan.Kind{plan.Incomplete}},
		{"five notes at once", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			n := s.Events[1].Notes[0]
			s.Events[1].Notes = []score.Note{n, n, n, n, n}
		}, []plan.Kind{plan.TooManyNotes}},
		{"the lower note of the chord is left out", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Events[2].Stroke[1] = o },
			[]plan.Kind{plan.Unplayed, plan.NoWork}},
		{"two fingers on one note", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			p.Events[3].Stroke[3], p.Placings[2].Frame[3] = 5, 5
		}, []plan.Kind{plan.PinIgnored, plan.PlayedTwice}},
		{"a finger plays what is not written", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			p.Events[2].Stroke[2], p.Placings[1].Frame[2] = 3, 3
		}, []plan.Kind{plan.StrayFinger}},
		{"the thumb is not in use", func(s *score.Score, r *rule.Rules, p *plan.Plan) { r.Hand.InUse[0] = false },
			[]plan.Kind{plan.FingerNotInUse, plan.FingerNotInUse, plan.FingerNotInUse}},
		{"3 is kept above 2", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			s.Gaps[1].Patterns[1].Strings[0], p.Placings[0].Frame[2] = 3, 3
		}, []plan.Kind{plan.OutOfOrder}},
		{"3 is kept out of reach", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			r.Hand.Limits[1][2].Most, r.Hand.Limits[2][1].Most = 14000, 14000
		}, []plan.Kind{plan.OutOfReach, plan.OutOfReach}},
		{"the placing holds another string than is played", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[1].Frame[0] = 7 },
			[]plan.Kind{plan.TwoStrings}},
		{"the pin is not followed", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			p.Events[3].Stroke = hand.Frame{o, o, o, 5}
			p.Placings[2].Frame = hand.Frame{o, 7, o, 5}
		}, []plan.Kind{plan.PinIgnored}},
		{"the hand was to be set on the second note", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Events[1].Boundary = score.Set },
			[]plan.Kind{plan.NotSet}},
		{"there is a rest before the second note", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Events[1].Forced = true },
			[]plan.Kind{plan.NotSet}},
		{"the hand was to stay before the chord", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Events[2].Boundary = score.Stay },
			[]plan.Kind{plan.SetAgainstWish}},
		{"3 is not said to be kept", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[0].Kept[2] = false },
			[]plan.Kind{plan.NoWork}},
		{"the thumb is kept and needed", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[0].Kept[0] = true },
			[]plan.Kind{plan.KeptInVain}},
		{"4 is kept on no string", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[0].Kept[3] = true },
			[]plan.Kind{plan.KeptInVain}},
		{"4 is kept and no ornament needs it", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			p.Placings[0].Frame[3], p.Placings[0].Kept[3] = 0, true
		}, []plan.Kind{plan.KeptInVain}},
		{"2 is kept and free", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[2].Kept[1] = true },
			[]plan.Kind{plan.KeptInVain}},
		{"the lift is called a crossing", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[1].Move = rule.Under },
			[]plan.Kind{plan.WrongMove}},
		{"after the rest the hand connects", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[2].Move = rule.Connect },
			[]plan.Kind{plan.WrongMove}},
		{"the kept finger lies on another string", func(s *score.Score, r *rule.Rules, p *plan.Plan) { p.Placings[0].Frame[2] = 0 },
			[]plan.Kind{plan.NotHeld}},
		{"an ornament from before the tune", func(s *score.Score, r *rule.Rules, p *plan.Plan) { way(p, 0)[0].From = plan.Left },
			[]plan.Kind{plan.NotThere}},
		{"an ornament from a placing that never comes", func(s *score.Score, r *rule.Rules, p *plan.Plan) { way(p, 1)[0].From = plan.Right },
			[]plan.Kind{plan.KeptInVain, plan.NotThere}},
		{"back to the first placing", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			s.Gaps[2].Patterns[1].Strings[2] = 3
			way(p, 2)[2] = plan.Touch{Finger: 0, From: plan.Left}
		}, []plan.Kind{plan.BackAgain}},
		{"one finger on two strings of a placing of its own", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			way(p, 2)[0] = plan.Touch{Finger: 0, From: plan.Private}
		}, []plan.Kind{plan.TwoStrings}},
		{"a placing of its own out of order", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			way(p, 2)[1].Finger = 2
			way(p, 2)[2] = plan.Touch{Finger: 1, From: plan.Private}
		}, []plan.Kind{plan.OutOfOrder}},
		{"a placing of its own out of reach", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			s.Gaps[2].Patterns[1].Strings[2] = 1
			way(p, 2)[2] = plan.Touch{Finger: 1, From: plan.Private}
		}, []plan.Kind{plan.OutOfReach}},
		{"2 must drop in too soon", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Gaps[4].Patterns[1].Since[0] = 399 },
			[]plan.Kind{plan.NoTimeToDrop}},
		{"3 must drop in as the hand arrives", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			p.Placings[1].Frame[2], p.Placings[1].Free[2] = 3, true
			s.Gaps[2].Patterns[1].Strings[2], s.Gaps[2].Patterns[1].Since[2] = 3, 500
			way(p, 2)[2].Finger = 2
		}, []plan.Kind{plan.NoTimeToDrop}},
		{"no time to leave the hand's place", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Gaps[2].Patterns[1].Since[1] = 199 },
			[]plan.Kind{plan.NoTimeToPlay}},
		{"no time to set the hand within an ornament", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			s.Gaps[2].Patterns[1].Strings[1], s.Gaps[2].Patterns[1].Since[2] = 3, 199
			way(p, 2)[1] = plan.Touch{Finger: 0, From: plan.Left}
		}, []plan.Kind{plan.NoTimeToPlay}},
		{"2 plays G too soon again", func(s *score.Score, r *rule.Rules, p *plan.Plan) { s.Gaps[2].Patterns[1].Last = 149 },
			[]plan.Kind{plan.NoTimeToPlay}},
		{"2 is back on its string too soon after one stroke between", func(s *score.Score, r *rule.Rules, p *plan.Plan) {
			s.Gaps[1].Patterns[1].Since[0], s.Gaps[1].Patterns[1].Last = 45, 44
			s.Events[1].Notes[0].String = 2
			p.Events[1].Stroke = hand.Frame{o, 2, o, o}
			s.Gaps[0] = score.Gap{Patterns: s.Gaps[0].Patterns[:1]}
			p.Gaps[0].Ways = p.Gaps[0].Ways[:1]
			p.Placings[0].Frame[0] = o
			p.Placings[1].Move = rule.Jump
			s.Gaps[2], p.Gaps[2].Ways = score.Gap{Patterns: s.Gaps[2].Patterns[:1]}, p.Gaps[2].Ways[:1]
		}, []plan.Kind{plan.NoTimeToPlay}},
	}
	seen := map[plan.Kind]bool{}
	for _, row := range rows {
		s, r, p := played(t)
		row.do(&s, &r, &p)
		var got []plan.Kind
		for _, f := range plan.Judge(&s, &r, &p) {
			got = append(got, f.Kind)
		}
		assert.Equal(t, words(row.want), words(got), row.what)
		for _, k := range row.want {
			seen[k] = true
		}
	}
	for k := plan.Incomplete; k <= plan.NoTimeToPlay; k++ {
		assert.True(t, seen[k], "no row has the fault %q", k)
		assert.NotEmpty(t, k.String())
	}
}

func words(kinds []plan.Kind) []string {
	list := []string{}
	for _, k := range kinds {
		list = append(list, k.String())
	}
	return list
}

func TestJudgePointsAtThePlace(t *testing.T) {
	s, r, p := played(t)
	p.Gaps[2].Ways[1][2].From = plan.Left
	want := []plan.Fault{
		{Kind: plan.BackAgain, Event: -1, Gap: 2, Placing: -1, Pattern: 1, Stroke: 2, Finger: 1},
		{Kind: plan.NotHeld, Event: -1, Gap: 2, Placing: -1, Pattern: 1, Stroke: 2, Finger: 1},
	}
	assert.Equal(t, want, plan.Judge(&s, &r, &p))
}
