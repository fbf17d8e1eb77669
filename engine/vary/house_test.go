package vary

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
)

func TestCourseHouse(t *testing.T) {
	text := source.NewText("\uFEFF# My own\r\ncut 1 2   % with the thumb\r\n\n" +
		"house upper mordent 2 1 2\n  three on a string 3 2 1 or 4 3 2\n0 +4 +7 4 2 1 # the open one\ncut 2 3\nshake 1 2\ntap 1 2\n")
	c, remarks := House(text)
	assert.Equal(t, "house cut 2 3;house upper-mordent 2 1 2;house three-strokes 3 2 1 or 4 3 2;house 0 +4 +7 4 2 1", c.String())
	require.Len(t, remarks, 3)
	for i, row := range []struct {
		severity source.Severity
		words    string
		line     int
		message  string
	}{
		{source.Warning, "cut 2 3", 7, "in a line above"},
		{source.Error, "shake", 8, "not the name of an ornament"},
		{source.Error, "tap 1 2", 9, "nearer the thumb"},
	} {
		r := remarks[i]
		line, _ := text.Position(r.From)
		assert.Equal(t, row.severity, r.Severity)
		assert.Equal(t, row.words, text.String[r.From:r.To])
		assert.Equal(t, row.line, line)
		assert.Contains(t, r.Message, row.message)
		assert.NotContains(t, r.Suggestion, "house ", "lines of the file begin with what they are of")
	}
	assert.Contains(t, remarks[2].Suggestion, "tap 2 1")
}

// A chord that no usual hand holds with these fingers is a note, and is kept: an octave
// with 3 1 is usual on narrow harps (Bunting 1840 p. 26 has 4 1), with 2 1 on none.
func TestWideHouse(t *testing.T) {
	c, remarks := House(source.NewText("0 +7 4 1 or 2 1\n0 +7 +40 3 2 1\n0 +9 4 1\n0 +7 3 1\noctave grace 1 2\nthree strokes 3 2 1\n0 +4 off\n"))
	assert.Len(t, c.Houses(), 6)
	require.Len(t, remarks, 3)
	for i, at := range []int32{0, 16} {
		assert.Equal(t, at, remarks[i].From)
		assert.Equal(t, "house-wide", remarks[i].Kind)
		assert.Equal(t, source.Note, remarks[i].Severity)
	}
	assert.Equal(t, "house-twice", remarks[2].Kind)
}

// What the table says of an ornament and of a chord stands in the score; C4 is
// string 14 of a harp from C2.
func TestHouseInTheScore(t *testing.T) {
	const table = "house cut 1 2 or 2 3;house trill 2 1;house turn 1 2 3 2;house 0 +2 +4 3 2 1;house 0 +4 off"
	s, remarks := usual(t, written(t, "{D4}C4:1/4 C4!trill!:5/16 C4+Eb4+G4:1/4 C4+G4:1/4 C4+D4+G4:1/4 C4:1/4"), table+";offer turn@2")
	assert.Empty(t, remarks)
	assert.Equal(t, [][]int8{{0, 1}, {1, 2}}, s.Gaps[0].Sites[0].Ornaments[0].House)
	assert.Equal(t, [][]int8{{0, 1, 2, 1}}, s.Gaps[1].Sites[0].Ornaments[0].House, "also where it is only offered")
	trill := s.Gaps[2].Sites[0].Ornaments[0]
	assert.Len(t, trill.Strokes, 4, "750 ms of a trill of 130 and more: five strokes with the note's own")
	assert.Equal(t, [][]int8{{1, 0, 1, 0, 1}}, trill.House, "as often as it is repeated")
	assert.Equal(t, [][]int8{{2, 1, 0}}, s.Events[2].House)
	assert.Empty(t, s.Events[3].House, "off")
	assert.Empty(t, s.Events[4].House, "other strings")
	assert.Empty(t, s.Events[5].House)
	assert.NotEmpty(t, s.Gaps[0].Patterns[1].House)
}
