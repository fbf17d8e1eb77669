package ornament

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every fingering is one a hand can have: a finger for each stroke, the thumb's
// side on the higher string, and not one finger twice running on a string.
func TestFingerings(t *testing.T) {
	for _, f := range fingerings {
		assert.Len(t, f.Fingers, len(f.Steps), f.Source)
		assert.NotEmpty(t, f.Source)
		for _, name := range f.Of {
			assert.GreaterOrEqual(t, Place(name), 0, name)
		}
		for _, s := range f.Stops {
			assert.Contains(t, f.Steps, s.Step, "%v stops a string that was not played", f.Fingers)
			assert.NotEqual(t, f.Steps[len(f.Steps)-1], s.Step, "what is played last rings on")
			near := f.Fingers[slices.Index(f.Steps, s.Step)]
			assert.True(t, s.Finger == near || s.Finger == near-1 || s.Finger >= near+1 && s.Finger <= near+2, "%d comes to the string of %d, the hand does not open for it", s.Finger, near)
		}
		for i, a := range f.Fingers {
			assert.True(t, 0 <= a && a < 4)
			for k, b := range f.Fingers[:i] {
				assert.False(t, f.Steps[i] > f.Steps[k] && a >= b || f.Steps[i] < f.Steps[k] && a <= b, "%v on %v", f.Fingers, f.Steps)
				assert.False(t, k == i-1 && f.Steps[i] == f.Steps[k] && a == b, "%v on %v", f.Fingers, f.Steps)
			}
		}
	}
	assert.Empty(t, Fingerings([]int8{0, 6}, ""))
	assert.Empty(t, Fingerings(nil, ""))
}

// Fingers of an ornament, today's numbers, and the finger that then lies on a
// string, "1 on 0", the string from the first stroke.
func TestPublishedFingerings(t *testing.T) {
	for _, row := range []struct{ ornament, fingers, stops, source string }{
		{"cut", "1 2", "", "the cut with the thumb free: one of two schools"},
		{"cut", "2 3", "1 on +0", "the cut that the thumb stops: the other"},
		{"high-cut", "1 2", "", "common practice, no source"},
		{"tap", "2 1", "", "Bunting 1840 p. 24, leagadh anuas without its stop, as quoted by S. Chadwick"},
		{"leagadh-anuas", "2 1", "1 on +0", "Bunting 1840 p. 24, as quoted by S. Chadwick"},
		{"leagadh-anuas", "2 1", "1 on +0", "the same"},
		{"upper-mordent", "2 1 2", "", "common practice, no source"},
		{"turn", "1 2 3 2", "", "common practice, no source"},
		{"short-roll", "1 2 3 2", "", "common practice, no source"},
		{"inverted-turn", "3 2 1 2", "", "common practice, no source"},
		{"long-roll", "2 1 2 3 2", "", "common practice, no source"},
		{"turn-after", "2 1 2 3 2", "", "common practice, no source"},
		{"three-strokes", "3 2 1", "", "common practice, no source"},
		{"three-strokes", "4 3 2", "", "common practice, no source"},
		{"filled-third", "2 1", "", "common practice, no source"},
		{"octave-grace", "1 4", "", "Bunting 1840 p. 26, the octave"},
		{"octave-grace-below", "4 1", "", "Bunting 1840 p. 26, the octave"},
		{"octave-grace-below", "4 2", "", "Bunting 1840 p. 26, forked fingers"},
		{"octave-grace-below", "3 1", "", "Harpa Mundi books, publisher's note: narrow or wire-strung harps"},
		{"lower-third", "2 1", "", "D. Hall, The Complete Chromatic Harp, ex. 3"},
		{"lower-third", "3 2", "", "Bunting 1840 p. 26"},
		{"lower-sixth", "3 1", "", "Christy-Lyn, 10 Rules of Harp Fingering, rule 2: a sixth is 3 with 1"},
		{"barrluth-beal-an-airde", "3 2 4 2", "3 on +0", "Bunting 1840 p. 25, and A. Lawrence-King"},
		{"cul-aithris", "2 1 2 1", "", "Bunting 1840 p. 25, the half shake"},
		{"tribhuilleach", "3 2 4", "", "Bunting 1840 p. 25, as A. Lawrence-King reads it"},
		{"casluth", "4 2 3", "", "Bunting 1840 p. 25"},
		{"casluth-otherwise", "4 2 3", "", "Bunting 1840 p. 25"},
		{"bualadh-suas", "4 3 2", "", "Bunting 1840 p. 25, as quoted by S. Chadwick"},
		{"plethiad-y-bys-bach", "3 2 1", "4 on +1, 5 on +0", "W. Taylor, Welsh Music History 3, 1999: stopped by 4 and the little finger"},
		{"takiad-fforchog", "2 4", "1 on +0", "W. Taylor, Welsh Music History 3, 1999"},
		{"haner-krafiad", "3 4", "4 on +0", "W. Taylor, Welsh Music History 3, 1999"},
	} {
		r, ok := Named(row.ornament)
		require.True(t, ok, row.ornament)
		steps := slices.Clone(r.Steps)
		for i := range steps {
			steps[i] -= r.Steps[0]
		}
		var all []string
		for _, f := range Fingerings(steps, r.Name) {
			var fingers, stops []string
			for _, x := range f.Fingers {
				fingers = append(fingers, strconv.Itoa(int(x)+1))
			}
			for _, s := range f.Stops {
				stops = append(stops, fmt.Sprintf("%d on %+d", s.Finger+1, s.Step))
			}
			all = append(all, strings.Join(fingers, " ")+"; "+strings.Join(stops, ", "))
		}
		assert.Contains(t, all, row.fingers+"; "+row.stops, "%s: %s", row.ornament, row.source)
	}
	// C. Swanson, Harp Column forum: the trill is 2 1 over and over.
	assert.Equal(t, []int8{1, 0, 1, 0, 1}, Fingerings([]int8{0, 1, 0, 1, 0}, "trill")[0].Fingers)
	assert.NotContains(t, Fingerings([]int8{0, -1}, "cut"), Fingerings([]int8{0, -1}, "haner-krafiad")[0], "an old figure's fingers are its own")
}
