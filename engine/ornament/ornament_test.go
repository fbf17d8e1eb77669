package ornament

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEveryRowIsWhole(t *testing.T) {
	seen, signs := map[string]bool{}, map[string]bool{}
	for _, r := range Rows() {
		assert.NotEmpty(t, r.Source, r.Name)
		assert.NotEmpty(t, r.Title, r.Name)
		assert.False(t, seen[r.Name], "%s stands twice", r.Name)
		seen[r.Name] = true
		assert.Regexp(t, `^[a-z]+(-[a-z]+)*$`, r.Name, "a name that commands and ids can carry")
		assert.NotEqual(t, "grace", r.Name, "that is what grace notes without a name are called")
		require.GreaterOrEqual(t, len(r.Steps), 2, r.Name)
		if r.Time == OnBeat {
			assert.Zero(t, r.Steps[len(r.Steps)-1], "%s: the written note comes last", r.Name)
			assert.Positive(t, r.Quick, r.Name)
		} else {
			assert.Zero(t, r.Steps[0], "%s: the written note comes first", r.Name)
			assert.Positive(t, r.Every, r.Name)
		}
		for _, sign := range r.ABC {
			assert.False(t, signs[sign], "%s means two ornaments", sign)
			signs[sign] = true
			found, ok := Decoration(sign)
			assert.True(t, ok)
			assert.Equal(t, r.Name, found.Name)
		}
		named, ok := Decoration(r.Name)
		assert.True(t, ok, "a name of ours is a sign too")
		if !signs[r.Name] {
			assert.Equal(t, r.Name, named.Name)
		}
	}
}

// Patterns in strings from the main note.
func TestPatterns(t *testing.T) {
	for _, row := range []struct {
		name, source string
		steps        []int8
		time         Time
	}{
		{"cut", "common practice, no source", []int8{1, 0}, OnBeat},
		{"tap", "common practice, no source", []int8{-1, 0}, OnBeat},
		{"upper-mordent", "ABC 2.1, 4.14: uppermordent, pralltriller", []int8{0, 1, 0}, OnBeat},
		{"lower-mordent", "ABC 2.1, 4.14: lowermordent, mordent", []int8{0, -1, 0}, OnBeat},
		{"turn", "common practice, no source", []int8{1, 0, -1, 0}, OnBeat},
		{"turn-after", "common practice, no source", []int8{0, 1, 0, -1, 0}, Spread},
		{"short-roll", "common practice, no source: cut, note, tap, note", []int8{1, 0, -1, 0}, OnBeat},
		{"three-strokes", "common practice, no source", []int8{0, 0, 0}, OnBeat},
		{"trill", "common practice, no source", []int8{0, 1}, Spread},
	} {
		r, ok := Named(row.name)
		require.True(t, ok, row.name)
		assert.Equal(t, row.steps, r.Steps, "%s: %s", row.name, row.source)
		assert.Equal(t, row.time, r.Time, row.name)
	}
}

// ABC 2.1, 4.14: which signs are upper and which lower mordents.
func TestSigns(t *testing.T) {
	for sign, want := range map[string]string{"mordent": "lower-mordent", "lowermordent": "lower-mordent", "uppermordent": "upper-mordent",
		"pralltriller": "upper-mordent", "trill": "trill", "turn": "turn", "roll": "short-roll"} {
		r, ok := Decoration(sign)
		assert.True(t, ok, sign)
		assert.Equal(t, want, r.Name, sign)
	}
	for _, sign := range []string{"", "fermata", "staccato", "upbow", "grace"} {
		_, ok := Decoration(sign)
		assert.False(t, ok, sign)
	}
}

func TestGraceNotes(t *testing.T) {
	for _, row := range []struct {
		steps []int8
		want  string
	}{
		{[]int8{1}, "cut"}, {[]int8{-1}, "tap"}, {[]int8{0, 1}, "upper-mordent"}, {[]int8{0, -1}, "lower-mordent"},
		{[]int8{1, 0, -1}, "turn"}, {[]int8{0, 0}, "three-strokes"},
		{[]int8{2}, ""}, {[]int8{1, 2}, ""}, {[]int8{0}, ""}, {[]int8{0, 1, 0, -1}, ""}, {nil, ""},
	} {
		r, ok := Graces(row.steps)
		assert.Equal(t, row.want != "", ok, row.steps)
		assert.Equal(t, row.want, r.Name, row.steps)
	}
	g := Grace([]int8{4, 2})
	assert.Equal(t, "grace", g.Name)
	assert.Equal(t, []int8{4, 2, 0}, g.Steps)
}

// Quick notes last 65 ms and have at most half of their note (both guesses); a
// spread ornament shares its note evenly.
func TestStrokes(t *testing.T) {
	for _, row := range []struct {
		name    string
		length  int32
		strokes []Stroke
		delay   int32
		fits    bool
	}{
		{"cut", 300, []Stroke{{1, 0}}, 65, true},
		{"cut", 130, []Stroke{{1, 0}}, 65, true},
		{"cut", 128, []Stroke{{1, 0}}, 64, false},
		{"upper-mordent", 600, []Stroke{{0, 0}, {1, 65}}, 130, true},
		{"turn", 390, []Stroke{{1, 0}, {0, 65}, {-1, 130}}, 195, true},
		{"turn", 300, []Stroke{{1, 0}, {0, 50}, {-1, 100}}, 150, false},
		{"three-strokes", 600, []Stroke{{0, 0}, {0, 90}}, 180, true},
		{"turn-after", 500, []Stroke{{1, 100}, {0, 200}, {-1, 300}, {0, 400}}, 0, true},
		{"turn-after", 324, []Stroke{{1, 64}, {0, 129}, {-1, 194}, {0, 259}}, 0, false},
		{"trill", 700, []Stroke{{1, 130}, {0, 260}, {1, 390}, {0, 520}}, 0, true}, // and the note rings
		{"trill", 600, []Stroke{{1, 130}, {0, 260}}, 0, false},                    // one upper note is no trill
	} {
		r, ok := Named(row.name)
		require.True(t, ok)
		strokes, delay, fits := r.Strokes(row.length)
		assert.Equal(t, row.strokes, strokes, "%s on %d ms", row.name, row.length)
		assert.Equal(t, row.delay, delay, "%s on %d ms", row.name, row.length)
		assert.Equal(t, row.fits, fits, "%s on %d ms", row.name, row.length)
	}
	long, _ := Named("trill")
	strokes, _, fits := long.Strokes(60000)
	assert.Len(t, strokes, 14, "a trill has at most 15 strokes, and does not slow down")
	assert.EqualValues(t, 14*130, strokes[13].At)
	assert.True(t, fits)
}

// Strokes stay inside their note and in order, whatever its length.
func TestStrokesStayInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(append(Rows(), Grace([]int8{3, 2, 1, 4, 5}))).Draw(t, "ornament")
		length := rapid.Int32Range(0, 20000).Draw(t, "length")
		strokes, delay, fits := r.Strokes(length)
		assert.NotEmpty(t, strokes)
		last := int32(0)
		for _, s := range strokes {
			assert.GreaterOrEqual(t, s.At, last)
			assert.LessOrEqual(t, s.At, length)
			last = s.At
		}
		if r.Time == OnBeat {
			assert.LessOrEqual(t, 2*delay, length)
			assert.LessOrEqual(t, last, delay)
		} else {
			assert.Zero(t, delay)
		}
		if _, _, longer := r.Strokes(length + 1000); fits {
			assert.True(t, longer, "what fits a note fits a longer one")
		}
	})
}
