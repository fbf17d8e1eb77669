package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestIDs(t *testing.T) {
	assert.Equal(t, "12", Note{Written: 12, Pass: 1}.ID())
	assert.Equal(t, "12/2", Note{Written: 12, Pass: 2}.ID())
	site := Site{Written: 12, Pass: 2, Ornaments: []Ornament{{Name: "cut"}, {Name: "tap"}}}
	assert.Equal(t, "12/2.tap", site.ID(1))
}

// three notes 600 ms apart; between the first two a trill of the first (strokes
// at 150, 300, 450) and a cut or a turn on the second.
func three() Score {
	trill := Ornament{Name: "trill", Strokes: []Stroke{{15, 150}, {14, 300}, {15, 450}}, Likelihood: 4, On: true}
	cut := Ornament{Name: "cut", Strokes: []Stroke{{16, 0}}, Delay: 65, Likelihood: 4}
	turn := Ornament{Name: "turn", Strokes: []Stroke{{16, 0}, {15, 65}, {14, 130}}, Delay: 195, Likelihood: 8, On: true}
	early := Ornament{Name: "early", Strokes: []Stroke{{12, -65}, {13, 0}}, Delay: 65} // begins before the beat
	third := Ornament{Name: "third", Strokes: []Stroke{{12, 0}}}                       // struck with its note
	return Score{
		Events: []Event{{Length: 600}, {Since: 600, Length: 600}, {Since: 600, Length: 600}},
		Gaps: []Gap{
			{Sites: []Site{{Written: 1, Event: 0, Ornaments: []Ornament{cut, early}}}},
			{Sites: []Site{{Written: 1, Event: 0, After: true, Ornaments: []Ornament{trill}}, {Written: 2, Event: 1, Ornaments: []Ornament{cut, turn, early, third}}}},
			{},
			{Sites: []Site{{Written: 3, Event: 2, After: true, Ornaments: []Ornament{trill}}}},
		},
	}
}

// Times worked out by hand from the strokes above.
func TestTimesOfAPattern(t *testing.T) {
	s := three()
	for _, row := range []struct {
		why     string
		gap     int
		sounds  [2]int8
		strings []int8
		since   []int32
		last    int32
	}{
		{"nothing", 1, [2]int8{-1, -1}, nil, nil, 600},
		{"the trill", 1, [2]int8{0, -1}, []int8{15, 14, 15}, []int32{150, 150, 150}, 150},
		{"the cut", 1, [2]int8{-1, 0}, []int8{16}, []int32{600}, 65},
		{"the turn", 1, [2]int8{-1, 1}, []int8{16, 15, 14}, []int32{600, 65, 65}, 65},
		{"both", 1, [2]int8{0, 0}, []int8{15, 14, 15, 16}, []int32{150, 150, 150, 150}, 65},
		{"before the first note", 0, [2]int8{0, -1}, []int8{16}, []int32{0}, 65},
		{"silence before the first note", 0, [2]int8{-1, -1}, nil, nil, 0},
		{"begun before the beat", 1, [2]int8{-1, 2}, []int8{12, 13}, []int32{535, 65}, 65},
		{"begun before the first beat of all", 0, [2]int8{1, -1}, []int8{12, 13}, []int32{0, 65}, 65},
		{"begun while a trill still goes on", 1, [2]int8{0, 2}, []int8{15, 14, 15, 12, 13}, []int32{150, 150, 150, 85, 65}, 65},
		{"struck with its note", 1, [2]int8{-1, 3}, []int8{12}, []int32{600}, 0},
		{"after the last note", 3, [2]int8{0, -1}, []int8{15, 14, 15}, []int32{150, 150, 150}, 0},
		{"no sites", 2, [2]int8{-1, -1}, nil, nil, 600},
	} {
		p := s.Sounding(row.gap, row.sounds)
		assert.Equal(t, row.strings, p.Strings, row.why)
		assert.Equal(t, row.since, p.Since, row.why)
		assert.Equal(t, row.last, p.Last, row.why)
	}
}

// 4/16 for the trill; 4/16 and 8/16 on the beat, so 4/16 for silence: products
// of sixteenths.
func TestWeights(t *testing.T) {
	s := three()
	s.Weigh()
	got := map[[2]int8]int64{}
	for _, p := range s.Gaps[1].Patterns {
		got[p.Sounds] = p.Weight
	}
	assert.Equal(t, map[[2]int8]int64{{-1, -1}: 12 * 4, {-1, 0}: 12 * 4, {-1, 1}: 12 * 8, {0, -1}: 4 * 4, {0, 0}: 4 * 4, {0, 1}: 4 * 8}, got)
	assert.Equal(t, [2]int8{-1, -1}, s.Gaps[1].Patterns[0].Sounds, "nothing comes first")
	assert.Equal(t, []Pattern{{Sounds: [2]int8{-1, -1}, Weight: Whole, Last: 600, Within: []bool{false}}}, s.Gaps[2].Patterns)
	assert.Equal(t, [2]int8{0, 1}, s.Now(1))
	assert.Equal(t, [2]int8{-1, -1}, s.Now(0))
}

func TestWeightsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Score
		s.Gaps = []Gap{{}}
		for i := range rapid.IntRange(0, 2).Draw(t, "sites") {
			site := Site{After: i == 0}
			left := int32(16)
			for range rapid.IntRange(0, 4).Draw(t, "ornaments") {
				o := Ornament{Likelihood: rapid.Int32Range(0, left).Draw(t, "likelihood"), Strokes: []Stroke{{3, 0}}}
				left -= o.Likelihood
				site.Ornaments = append(site.Ornaments, o)
			}
			s.Gaps[0].Sites = append(s.Gaps[0].Sites, site)
		}
		s.Weigh()
		sum := int64(0)
		for i, p := range s.Gaps[0].Patterns {
			sum += p.Weight
			assert.True(t, p.Weight > 0 || i == 0, "what is never prepared is no pattern; silence always is")
		}
		assert.Equal(t, int64(Whole), sum)
		require.NotEmpty(t, s.Gaps[0].Patterns)
		assert.Equal(t, [2]int8{-1, -1}, s.Gaps[0].Patterns[0].Sounds)
	})
}
