package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// housed is three() with notes on strings 15, 16 and 17, and house fingerings of
// its trill and its cuts; the turns have none.
func housed() Score {
	s := three()
	for i := range s.Events {
		s.Events[i].Notes = []Note{{Written: i + 1, Pass: 1, String: int8(15 + i)}}
	}
	for j := range s.Gaps {
		for k := range s.Gaps[j].Sites {
			for i := range s.Gaps[j].Sites[k].Ornaments {
				switch o := &s.Gaps[j].Sites[k].Ornaments[i]; o.Name {
				case "cut":
					o.House = [][]int8{{0, 1}, {1, 2}}
				case "trill":
					o.House = [][]int8{{2, 1, 2, 1}}
				}
			}
		}
	}
	return s
}

// Fingers as they are played: of the cut its stroke and then the note after the
// gap, of the trill the note before the gap and then its strokes.
func TestRuns(t *testing.T) {
	s, free := housed(), Hold{Any, Any}
	for _, row := range []struct {
		why    string
		gap    int
		sounds [2]int8
		want   []Run
	}{
		{"nothing sounds", 1, [2]int8{-1, -1}, nil},
		{"what sounds has no house fingering", 1, [2]int8{-1, 1}, nil},
		{"a cut on the first note", 0, [2]int8{0, -1}, []Run{
			{[]int8{0}, free, Hold{15, 1}, 0},
			{[]int8{1}, free, Hold{15, 2}, 1}}},
		{"the trill after it", 1, [2]int8{0, -1}, []Run{{[]int8{1, 2, 1}, Hold{15, 2}, free, 0}}},
		{"the trill, then the cut", 1, [2]int8{0, 0}, []Run{
			{[]int8{1, 2, 1, 0}, Hold{15, 2}, Hold{16, 1}, 0},
			{[]int8{1, 2, 1, 1}, Hold{15, 2}, Hold{16, 2}, 1}}},
		{"the trill, then the turn with any fingers", 1, [2]int8{0, 1}, []Run{{[]int8{1, 2, 1, Any, Any, Any}, Hold{15, 2}, free, 0}}},
	} {
		assert.Equal(t, row.want, s.Sounding(row.gap, row.sounds).House, row.why)
	}
	assert.True(t, Hold{16, 1}.Suits([4]int8{-1, 16, -1, -1}))
	assert.False(t, Hold{16, 1}.Suits([4]int8{16, -1, -1, -1}))
	assert.True(t, free.Suits([4]int8{-1, -1, -1, -1}))
}

func TestLiking(t *testing.T) {
	e := Event{Notes: []Note{{String: 3}, {String: 7}}}
	assert.Equal(t, 0, e.Liking([4]int8{7, 3, -1, -1}), "any fingers will do")
	e.House = [][]int8{{2, 0}, {1, 0}}
	assert.Equal(t, 0, e.Liking([4]int8{7, -1, 3, -1}))
	assert.Equal(t, 1, e.Liking([4]int8{7, 3, -1, -1}))
	assert.Equal(t, -1, e.Liking([4]int8{-1, 7, 3, -1}))
}

func TestFreeOfHouseFingerings(t *testing.T) {
	s := housed()
	s.Events[2].House = [][]int8{{1}}
	s.Weigh()
	free := s.Free()
	assert.True(t, s.Housed())
	assert.False(t, free.Housed())
	assert.False(t, s.Alike(&free))
	assert.NotEmpty(t, s.Gaps[0].Sites[0].Ornaments[0].House, "what was given is not altered")
	plain := three()
	plain.Weigh()
	assert.Equal(t, plain.Gaps, free.Gaps)
	plain.Events[0].House = [][]int8{{0, 1}}
	assert.True(t, plain.Housed())
}
