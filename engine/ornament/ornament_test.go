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
			assert.True(t, r.Quick > 0 || len(r.Steps) == 2, "%s: struck with its note", r.Name)
			assert.True(t, 0 <= r.Before && int(r.Before) < len(r.Steps), r.Name)
			assert.Zero(t, r.Next, r.Name)
		} else {
			assert.Zero(t, r.Steps[0], "%s: the written note comes first", r.Name)
			assert.Positive(t, r.Every, r.Name)
			assert.Zero(t, r.Before, r.Name)
			assert.True(t, r.Parts.Plain == nil || len(r.Parts.Plain) == len(r.Steps) && len(r.Parts.Dotted) == len(r.Steps), r.Name)
		}
		assert.Regexp(t, `^[A-Z].{20,90}\.$`, r.Says, "%s: a sentence for the pupil", r.Name)
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

// Patterns in strings from the main note, the note's place in them, and where the
// time comes from.
func TestPatterns(t *testing.T) {
	const practice = "common practice, no source"
	patterns := []struct {
		name, source string
		family       Family
		steps        []int8
		time         Time
	}{
		{"cut", practice, Shared, []int8{1, 0}, OnBeat},
		{"high-cut", practice, Shared, []int8{2, 0}, OnBeat},
		{"tap", practice, Shared, []int8{-1, 0}, OnBeat},
		{"upper-mordent", "ABC 2.1, 4.14: uppermordent, pralltriller", Shared, []int8{0, 1, 0}, OnBeat},
		{"mordent-in-time", practice + ": the same in the tune's own rhythm", Shared, []int8{0, 1, 0}, Spread},
		{"lower-mordent", "ABC 2.1, 4.14: lowermordent, mordent", Shared, []int8{0, -1, 0}, OnBeat},
		{"turn", practice, Shared, []int8{1, 0, -1, 0}, OnBeat},
		{"turn-after", practice, Shared, []int8{0, 1, 0, -1, 0}, Spread},
		{"inverted-turn", practice, Shared, []int8{-1, 0, 1, 0}, OnBeat},
		{"short-roll", practice + ": cut, note, tap, note", Shared, []int8{1, 0, -1, 0}, OnBeat},
		{"long-roll", practice + ": note, cut, note, tap, note", Shared, []int8{0, 1, 0, -1, 0}, Spread},
		{"trill", practice, Shared, []int8{0, 1}, Spread},
		{"three-strokes", practice, Shared, []int8{0, 0, 0}, OnBeat},
		{"filled-third", practice, Shared, []int8{0, 1}, Spread},
		{"octave-grace", practice, Shared, []int8{7, 0}, OnBeat},
		{"octave-grace-below", practice, Shared, []int8{-7, 0}, OnBeat},
		{"lower-third", practice, Shared, []int8{-2, 0}, OnBeat},
		{"lower-sixth", practice, Shared, []int8{-5, 0}, OnBeat},
		{"leagadh-anuas", "Bunting 1840 p. 24: short, then long, a string higher", Irish, []int8{-1, 0}, OnBeat},
		{"bualadh-suas", "Bunting 1840 p. 25: three upward", Irish, []int8{-2, -1, 0}, OnBeat},
		{"barrluth-beal-an-airde", "Bunting 1840 p. 25, and A. Lawrence-King: F# G F# G, G rings", Irish, []int8{-1, 0, -1, 0}, OnBeat},
		{"cul-aithris", "Bunting 1840 p. 25; notes inferred", Irish, []int8{-1, 0, -1, 0}, OnBeat},
		{"tribhuilleach", "Bunting 1840 p. 25, as A. Lawrence-King reads it", Irish, []int8{0, 1, 0}, OnBeat},
		{"casluth", "Bunting 1840 p. 25: fingers only, one of two readings", Irish, []int8{-1, 1, 0}, OnBeat},
		{"casluth-otherwise", "Bunting 1840 p. 25: fingers only, the other reading", Irish, []int8{0, 1, 0}, OnBeat},
		{"plethiad-y-bys-bach", "Robert ap Huw manuscript p. 35, W. Taylor 1999: upward, the first before the beat (P. Dooley)", Welsh, []int8{-2, -1, 0}, OnBeat},
		{"takiad-fforchog", "Robert ap Huw manuscript p. 35, W. Taylor 1999: upper, then lower, wider than a step", Welsh, []int8{2, 0}, OnBeat},
		{"haner-krafiad", "Robert ap Huw manuscript p. 35, W. Taylor 1999: upper, then lower", Welsh, []int8{1, 0}, OnBeat},
	}
	require.Len(t, Rows(), len(patterns), "every row has its row here")
	for i, row := range patterns {
		r, ok := Named(row.name)
		require.True(t, ok, row.name)
		assert.Equal(t, i, Place(row.name))
		assert.Equal(t, row.family, r.Family, row.name)
		assert.Equal(t, row.steps, r.Steps, "%s: %s", row.name, row.source)
		assert.Equal(t, row.time, r.Time, row.name)
	}
}

// ABC 2.1, 4.14: which signs are upper and which lower mordents.
func TestSigns(t *testing.T) {
	for sign, want := range map[string]string{"mordent": "lower-mordent", "lowermordent": "lower-mordent", "uppermordent": "upper-mordent",
		"pralltriller": "upper-mordent", "trill": "trill", "turn": "turn", "invertedturn": "inverted-turn", "roll": "short-roll"} {
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
		{[]int8{2}, "high-cut"}, {[]int8{7}, "octave-grace"}, {[]int8{-7}, "octave-grace-below"}, {[]int8{-1, 0, 1}, "inverted-turn"},
		{[]int8{-2}, ""}, {[]int8{-5}, ""}, // grace notes come before their note; these two are struck with it
		{[]int8{-2, -1}, ""}, {[]int8{-1, 0, -1}, ""}, // old graces go by their names alone
		{[]int8{3}, ""}, {[]int8{1, 2}, ""}, {[]int8{0}, ""}, {[]int8{0, 1, 0, -1}, ""}, {nil, ""},
	} {
		r, ok := Graces(row.steps)
		assert.Equal(t, row.want != "", ok, row.steps)
		assert.Equal(t, row.want, r.Name, row.steps)
	}
	g := Grace([]int8{4, 2})
	assert.Equal(t, "grace", g.Name)
	assert.Equal(t, []int8{4, 2, 0}, g.Steps)
}

// Quick notes last 65 ms, have at most half of their note, and are not offered under
// 40 ms (all guesses); a
// spread ornament shares its note evenly.
func TestStrokes(t *testing.T) {
	for _, row := range []struct {
		name    string
		length  int32
		strokes []Stroke
		delay   int32
		fits    bool
		dotted  bool
	}{
		{"cut", 300, []Stroke{{1, 0}}, 65, true, false},
		{"cut", 130, []Stroke{{1, 0}}, 65, true, false},
		{"cut", 128, []Stroke{{1, 0}}, 64, true, false}, // a short note makes it shorter
		{"cut", 78, []Stroke{{1, 0}}, 39, false, false},
		{"upper-mordent", 600, []Stroke{{0, 0}, {1, 65}}, 130, true, false},
		{"turn", 390, []Stroke{{1, 0}, {0, 65}, {-1, 130}}, 195, true, false},
		{"turn", 300, []Stroke{{1, 0}, {0, 50}, {-1, 100}}, 150, true, false},
		{"turn", 239, []Stroke{{1, 0}, {0, 39}, {-1, 78}}, 117, false, false},
		{"three-strokes", 600, []Stroke{{0, 0}, {0, 90}}, 180, true, false},
		{"turn-after", 500, []Stroke{{1, 100}, {0, 200}, {-1, 300}, {0, 400}}, 0, true, false},
		{"turn-after", 324, []Stroke{{1, 64}, {0, 129}, {-1, 194}, {0, 259}}, 0, false, false},
		{"trill", 700, []Stroke{{1, 130}, {0, 260}, {1, 390}, {0, 520}}, 0, true, false}, // and the note rings
		{"trill", 600, []Stroke{{1, 130}, {0, 260}}, 0, false, false},                    // one upper note is no trill
		{"lower-third", 300, []Stroke{{-2, 0}}, 0, true, false},                          // with the note, however short
		{"lower-third", 20, []Stroke{{-2, 0}}, 0, true, false},
		{"plethiad-y-bys-bach", 300, []Stroke{{-2, -65}, {-1, 0}}, 65, true, false},          // the first before the beat
		{"long-roll", 600, []Stroke{{1, 135}, {0, 200}, {-1, 335}, {0, 400}}, 0, true, true}, // even notes, the grace just before each
		{"long-roll", 388, []Stroke{{1, 65}, {0, 129}, {-1, 194}, {0, 258}}, 0, false, true},
		{"long-roll", 60, []Stroke{{1, 10}, {0, 20}, {-1, 30}, {0, 40}}, 0, false, true},
		{"mordent-in-time", 800, []Stroke{{1, 200}, {0, 400}}, 0, true, false}, // two quick ones and the rest
		{"mordent-in-time", 600, []Stroke{{1, 200}, {0, 400}}, 0, true, true},  // three alike
		{"mordent-in-time", 200, []Stroke{{1, 50}, {0, 100}}, 0, false, false},
		{"filled-third", 600, []Stroke{{1, 300}}, 0, true, false},
		{"filled-third", 600, []Stroke{{1, 400}}, 0, true, true},
		{"filled-third", 100, []Stroke{{1, 50}}, 0, false, false},
	} {
		r, ok := Named(row.name)
		require.True(t, ok)
		strokes, delay, fits := r.Strokes(row.length, row.dotted)
		assert.Equal(t, row.strokes, strokes, "%s on %d ms", row.name, row.length)
		assert.Equal(t, row.delay, delay, "%s on %d ms", row.name, row.length)
		assert.Equal(t, row.fits, fits, "%s on %d ms", row.name, row.length)
	}
	long, _ := Named("trill")
	strokes, _, fits := long.Strokes(60000, false)
	assert.Len(t, strokes, 14, "a trill has at most 15 strokes, and does not slow down")
	assert.EqualValues(t, 14*130, strokes[13].At)
	assert.True(t, fits)
}

// Strokes stay inside their note and in order, whatever its length.
func TestStrokesStayInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(append(Rows(), Grace([]int8{3, 2, 1, 4, 5}))).Draw(t, "ornament")
		length := rapid.Int32Range(0, 20000).Draw(t, "length")
		dotted := rapid.Bool().Draw(t, "dotted")
		strokes, delay, fits := r.Strokes(length, dotted)
		assert.NotEmpty(t, strokes)
		last := -int32(r.Before) * r.Quick
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
		if _, _, longer := r.Strokes(length+1000, dotted); fits {
			assert.True(t, longer, "what fits a note fits a longer one")
		}
	})
}

// A filled third goes the way the tune goes, and only over a third.
func TestTowards(t *testing.T) {
	third, _ := Named("filled-third")
	up, ok := third.Towards(2)
	assert.True(t, ok)
	assert.Equal(t, []int8{0, 1}, up.Steps)
	down, ok := third.Towards(-2)
	assert.True(t, ok)
	assert.Equal(t, []int8{0, -1}, down.Steps)
	assert.Equal(t, []int8{0, 1}, third.Steps)
	for _, far := range []int8{-3, -1, 0, 1, 3} {
		_, ok = third.Towards(far)
		assert.False(t, ok, far)
	}
	cut, _ := Named("cut")
	for _, far := range []int8{-2, 0, 5} {
		any, ok := cut.Towards(far)
		assert.True(t, ok)
		assert.Equal(t, cut, any)
	}
}

// A teacher's own is quick before its note, or spread after it.
func TestOwn(t *testing.T) {
	strokes, delay, fits := NewOwn("swirl", []int8{2, 1, 0}, OnBeat).Strokes(600, false)
	assert.Equal(t, []Stroke{{2, 0}, {1, 65}}, strokes)
	assert.EqualValues(t, 130, delay)
	assert.True(t, fits)
	strokes, delay, fits = NewOwn("swirl", []int8{0, 1, 2}, Spread).Strokes(600, true)
	assert.Equal(t, []Stroke{{1, 200}, {2, 400}}, strokes)
	assert.Zero(t, delay)
	assert.True(t, fits)
	_, _, fits = NewOwn("swirl", []int8{0, 1, 2}, Spread).Strokes(194, false)
	assert.False(t, fits)
}

// Only three strokes are spoken of as many, whatever letter a name ends in.
func TestMany(t *testing.T) {
	for _, r := range Rows() {
		assert.Equal(t, r.Name == "three-strokes", r.Many, r.Name)
	}
}
