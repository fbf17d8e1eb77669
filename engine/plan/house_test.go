package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/plan"
)

// House fingerings of the passage of the judge: of the grace note F4 and its E4,
// of the three strokes that follow F4, and of the chord. What it plays is 1 2,
// 1 2 1 2 and 2 1.
func TestHouseFingerings(t *testing.T) {
	for _, row := range []struct {
		why                   string
		grace, strokes, chord [][]int8
		second                int // how many of them are the second in liking; -1 if one is not followed
	}{
		{"none", nil, nil, nil, 0},
		{"all as they are played", [][]int8{{0, 1}}, [][]int8{{0, 1, 0, 1}}, [][]int8{{1, 0}}, 0},
		{"one of two each time", [][]int8{{1, 2}, {0, 1}}, [][]int8{{0, 1, 0, 1}, {1, 1, 0, 1}}, [][]int8{{2, 0}, {1, 0}}, 2},
		{"the grace note's stroke has another finger", [][]int8{{1, 1}}, nil, nil, -1},
		{"its note has", [][]int8{{0, 2}}, nil, nil, -1},
		{"fingers of two are not mixed", [][]int8{{0, 2}, {1, 1}}, nil, nil, -1},
		{"the note before the strokes has another", nil, [][]int8{{1, 1, 0, 1}}, nil, -1},
		{"the last stroke has", nil, [][]int8{{0, 1, 0, 2}}, nil, -1},
		{"the chord has others", nil, nil, [][]int8{{2, 0}, {2, 1}}, -1},
	} {
		s, r, p := played(t)
		s.Gaps[0].Sites[0].Ornaments[0].House = row.grace
		s.Gaps[2].Sites[0].Ornaments[0].House = row.strokes
		s.Events[2].House = row.chord
		s.Weigh()
		s.Gaps[0].Patterns[1].Last = 200
		var kinds []plan.Kind
		for _, f := range plan.Judge(&s, &r, &p) {
			kinds = append(kinds, f.Kind)
		}
		if row.second < 0 {
			assert.Equal(t, []plan.Kind{plan.NotAsUsual}, kinds, row.why)
			assert.Equal(t, plan.None, plan.Joint(&s, &r, &p), row.why)
			continue
		}
		assert.Empty(t, kinds, row.why)
		assert.Less(t, plan.Joint(&s, &r, &p), plan.None, row.why)
		assert.Equal(t, row.second, plan.Second(&s, &p), row.why)
	}
}
