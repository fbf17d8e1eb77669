package solve_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// figured is notes at these strings from G4, so many milliseconds apart, then one
// long note; strokes, if any, are on the beat of the first note.
func figured(ms int32, on []int8, strokes ...int8) (score.Score, rule.Rules) {
	r := rule.Rules{Charges: rule.Usual(), Harp: harp.Default(), Hand: hand.Usual("left")}
	s := score.Score{Harp: r.Harp, Gaps: make([]score.Gap, len(on)+1)}
	const g4 = 18
	for i, up := range on {
		e := score.Event{Notes: []score.Note{{Written: i + 1, Pass: 1, String: g4 + up}}, Length: ms, Bar: 1}
		if i > 0 {
			e.Since = ms
		}
		s.Events = append(s.Events, e)
	}
	if len(strokes) > 0 {
		o := score.Ornament{Name: "cut", Title: "cut", Likelihood: 4, Written: true, Delay: int32(len(strokes)) * 90}
		for i, up := range strokes {
			o.Strokes = append(o.Strokes, score.Stroke{String: g4 + up, At: int32(i) * 90})
		}
		s.Gaps[0].Sites = []score.Site{{Written: 1, Pass: 1, Ornaments: []score.Ornament{o}}}
	}
	s.Weigh()
	return s, r
}

// What others have written down is offered with its price, however dear.
func TestKnownWays(t *testing.T) {
	for _, row := range []struct {
		what    string
		ms      int32
		on      []int8
		strokes []int8
		fingers []int8 // today's numbers
	}{
		// Bunting 1840 p. 25, read by a second author: then 3 rests on the first string.
		{"barrluth beal an-airde, as notes", 150, []int8{0, 1, 0, 1, 3}, nil, []int8{3, 2, 4, 2}},
		{"the same as a grace", 600, []int8{1, 0}, []int8{0, 1, 0}, []int8{3, 2, 4, 2}},
		// Bunting 1840 p. 24-26: two schools, whether the thumb is free or stops.
		{"a cut", 500, []int8{0, -1}, []int8{1}, []int8{2, 3}},
		// Common practice, no source: three strokes on one string are 3 2 1 or 4 3 2.
		{"three strokes before a higher string", 500, []int8{0, 2}, []int8{0, 0}, []int8{3, 2, 1}},
		{"three strokes before a lower string", 500, []int8{0, -1, -2}, []int8{0, 0}, []int8{4, 3, 2}},
		// Common practice, no source: both are listed, neither is wrong.
		{"two strings in turn", 400, []int8{0, -1, 0, -1, -3}, nil, []int8{1, 2, 1, 3}},
	} {
		s, r := figured(row.ms, row.on, row.strokes...)
		p, s := solve.Plan(s, r)
		require.Empty(t, p.Dropped, row.what)
		own := slices.ContainsFunc(solve.KnownWays(s, r, &p, 0), func(o plan.Other) bool {
			var today []int8
			for _, f := range o.Known.Fingers {
				today = append(today, f+1)
			}
			if !slices.Equal(today, row.fingers) {
				return false
			}
			whole := solve.Whole(s, r, &p, &o)
			assert.GreaterOrEqual(t, o.Extra, plan.Cost(0), row.what)
			assert.Empty(t, judged(s, r, &whole, o), row.what)
			assert.Equal(t, len(row.strokes) > 0, o.Known.Gap >= 0, row.what)
			return true
		})
		assert.True(t, own, "%s: %v is not offered beside %v", row.what, row.fingers, shownAs(&p))
		for _, o := range solve.KnownWays(s, r, &p, 99) {
			assert.Fail(t, "of a note that is not there", "%+v", o)
		}
	}
}

// judged asks the judge about a whole plan, and the definition for its cost.
func judged(s score.Score, r rule.Rules, whole *plan.Plan, o plan.Other) []plan.Fault {
	if whole.Cost != plan.Joint(&s, &r, whole) {
		return []plan.Fault{{Kind: plan.Incomplete}}
	}
	return plan.Judge(&s, &r, whole)
}
