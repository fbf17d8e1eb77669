package engine_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// charted finds an ornament of a chart.
func charted(t *testing.T, x *engine.Chart, name string) engine.Charted {
	t.Helper()
	at := slices.IndexFunc(x.Rows, func(r engine.Charted) bool { return r.Row.Name == name })
	require.GreaterOrEqual(t, at, 0, name)
	return x.Rows[at]
}

// way finds a fingering, "1 2"; nil if the chart does not have it.
func way(r engine.Charted, fingers string) *engine.ChartWay {
	for f := range r.Starts {
		for i := range r.Starts[f].Ways {
			if w := &r.Starts[f].Ways[i]; engine.Fingers(w.Fingers) == fingers {
				return w
			}
		}
	}
	return nil
}

// TestChartHasPublishedFingerings: what others have written down stands in the
// chart, at a price, and is marked as theirs.
func TestChartHasPublishedFingerings(t *testing.T) {
	x := engine.Course{}.NewChart()
	for _, row := range []struct{ ornament, fingers, source string }{
		{"cut", "1 2", "two schools"}, // S. Chadwick on the old Irish cut: thumb free
		{"cut", "2 3", "two schools"}, // the same: the thumb stops the string
		{"three-strokes", "3 2 1", "common practice, no source"},
		{"three-strokes", "4 3 2", "common practice, no source"},
		{"barrluth-beal-an-airde", "3 2 4 2", "Bunting 1840 p. 25"},
		{"trill", "3 2 4 2", "Bunting 1840 p. 25"}, // its figure, again and again
		{"leagadh-anuas", "2 1", "Bunting 1840 p. 24"},
		{"casluth-otherwise", "4 2 3", "Bunting 1840 p. 25"},
		{"tribhuilleach", "3 2 4", "Bunting 1840 p. 25"},
		{"octave-grace", "1 4", "Bunting 1840 p. 26"},
	} {
		w := way(charted(t, x, row.ornament), row.fingers)
		if !assert.NotNil(t, w, "%s with %s", row.ornament, row.fingers) {
			continue
		}
		assert.Less(t, w.Prices[0], engine.Unplayable)
		assert.True(t, slices.ContainsFunc(w.Known, func(k engine.KnownFingering) bool { return strings.Contains(k.Source, row.source) }),
			"%s with %s: %v", row.ornament, row.fingers, w.Known)
	}
	// One finger three times at 90 ms: not offered (Fujii et al. 2009: 5-7 a second at most).
	three := charted(t, x, "three-strokes")
	for _, fingers := range []string{"2 2 2", "1 1 1", "2 3 2"} {
		assert.Nil(t, way(three, fingers), fingers)
	}
	// A whole harp of narrow strings: 3 and 1 take the octave easily (Harpa Mundi, publisher's note).
	wide, narrow := charted(t, x, "octave-grace"), charted(t, engine.Course{}.NewChart("spacing 12"), "octave-grace")
	assert.Less(t, way(wide, "1 4").Prices[0], way(wide, "1 3").Prices[0])
	assert.Less(t, way(narrow, "1 3").Prices[0], way(narrow, "1 4").Prices[0])
}

// TestChartByHand: prices added up from the table of charges. The note alone costs
// a placing (24) and that it has one note (14), with any finger but 1 and 4.
func TestChartByHand(t *testing.T) {
	cut := charted(t, engine.Course{}.NewChart(), "cut")
	for _, row := range []struct {
		fingers string
		price   int64
	}{
		{"1 2", 0},         // that the thumb waits is not charged
		{"2 3", 6},         // a finger is kept ready
		{"3 4", 7 + 6},     // the fourth finger, and one kept ready
		{"1 3", 6},         // 1 and 3 cramped by one started 12 mm: 14.5 of 24
		{"2 4", 7 + 6 + 6}, // the same with 4, which is needed, and 2 kept
		{"1 4", 7 + 2*6},   // 14.5 of 36 mm: two started
	} {
		w := way(cut, row.fingers)
		require.NotNil(t, w, row.fingers)
		for _, p := range w.Prices {
			assert.Equal(t, row.price*int64(engine.Charge), int64(p), row.fingers)
		}
	}
	assert.Empty(t, cut.Starts[0].Ways, "nobody is above the thumb")
	assert.Equal(t, "no time", cut.Starts[0].Ready[0].String())
	assert.Equal(t, "finger kept", cut.Starts[1].Ready[0].String())
	assert.Equal(t, []int{2, 3}, way(cut, "1 2").Free)
}

// TestChartStops: a finger that stops a string afterwards, where its source says so, is
// not left free; what goes on and on stops nothing, and no finger that is not in use.
func TestChartStops(t *testing.T) {
	x := engine.Course{}.NewChart()
	for _, row := range []struct{ ornament, fingers, line, source string }{
		{"cut", "1 2", "leaves free: 3 4; known", "one of two schools of the old cut"},
		{"cut", "2 3", "leaves free: 4; 1 stops +1; known", "the other"},
		{"leagadh-anuas", "2 1", "leaves free: 3 4; 1 stops -1; known", "Bunting 1840 p. 24"},
		{"tap", "2 1", "leaves free: 3 4; known", "the stop belongs to the old grace"},
		{"barrluth-beal-an-airde", "3 2 4 2", "leaves free: 1; 3 stops -1; known", "Bunting 1840 p. 25"},
		{"trill", "3 2 4 2", "leaves free: 1; known", "the same figure, again and again"},
		{"plethiad-y-bys-bach", "3 2 1", "leaves free: none; 4 stops -1; 5 stops -2; known", "W. Taylor, Welsh Music History 3, 1999"},
		{"takiad-fforchog", "2 4", "leaves free: 3; 1 stops +2; known", "the same"},
		{"haner-krafiad", "3 4", "leaves free: 1 2; 4 stops +1; known", "the same"},
	} {
		one := engine.Chart{Rules: x.Rules, On: x.On, Tempos: x.Tempos, Rows: []engine.Charted{charted(t, x, row.ornament)}}
		found := false
		for line := range strings.Lines(one.Text()) {
			found = found || strings.HasPrefix(line, "    "+row.fingers+" ") && strings.Contains(line, row.line)
		}
		assert.True(t, found, "%s with %s: %s; %s", row.ornament, row.fingers, row.source, one.Text())
	}
	assert.Empty(t, way(charted(t, engine.Course{}.NewChart("fingers 234"), "cut"), "2 3").Stops)
}

// TestChartIsThePlan: each price is what the plan of that note costs more with the
// ornament always sounding and that fingering the house's, and what is not in the
// chart cannot be played so.
func TestChartIsThePlan(t *testing.T) {
	x := engine.Course{}.NewChart()
	const alone = "X:1\nT:One note\nM:1/4\nL:1/4\nK:Eb\nc\n"
	for i, tempo := range x.Tempos {
		said := "tempo 1/4=" + strconv.Itoa(tempo)
		plain := engine.Read(alone).Answer(said).Hands[0].Plan.Cost
		for _, r := range x.Rows {
			if r.Row.Next != 0 || r.Row.Repeat || !r.Times[i] || len(r.Row.Steps) > 3 {
				continue
			}
			for _, fingers := range sequences(len(r.Row.Steps)) {
				a := engine.Read(alone).Answer(said, "offer "+r.Row.Name+"@1", r.Row.Name+"@1 always", r.Row.Name+"@1 on", "house "+r.Row.Name+" "+fingers)
				p := a.Hands[0].Plan
				w := way(r, fingers)
				if len(a.Remarks) > 0 || len(p.Dropped) > 0 {
					assert.True(t, w == nil || w.Prices[i] == engine.Unplayable, "%s with %s at %d is in the chart, and cannot be played: %v", r.Row.Name, fingers, tempo, a.Remarks)
					continue
				}
				if assert.NotNil(t, w, "%s with %s at %d can be played", r.Row.Name, fingers, tempo) {
					assert.Equal(t, p.Cost-plain, w.Prices[i], "%s with %s at %d", r.Row.Name, fingers, tempo)
				}
			}
		}
	}
}

// sequences lists all fingers of so many strokes.
func sequences(n int) []string {
	if n == 0 {
		return []string{""}
	}
	var list []string
	for _, rest := range sequences(n - 1) {
		for f := 1; f <= 4; f++ {
			list = append(list, strings.TrimSpace(rest+" "+strconv.Itoa(f)))
		}
	}
	return list
}

// TestChartOfAnotherHand: what is not in use is nowhere, and a harp without the
// strings says so.
func TestChartOfAnotherHand(t *testing.T) {
	course, _ := engine.NewCourse("cut 2 3")
	x := course.NewChart("fingers 123", "hand left")
	assert.Equal(t, "left", x.Rules.Hand.Name)
	assert.True(t, way(charted(t, x, "cut"), "2 3").House)
	assert.False(t, way(charted(t, x, "cut"), "1 2").House)
	for _, r := range x.Rows {
		for _, s := range r.Starts {
			for _, w := range s.Ways {
				assert.NotContains(t, w.Fingers, int8(3))
				assert.NotContains(t, w.Free, 3)
			}
		}
	}
	small := engine.Course{}.NewChart("strings 10", "lowest C4")
	assert.True(t, charted(t, small, "octave-grace").Lacks)
	assert.False(t, charted(t, small, "cut").Lacks)
	assert.Contains(t, small.Text(), "no string")
}

// TestChartBlock: what stands in the block decides what is shown; the rest is said
// at its place.
func TestChartBlock(t *testing.T) {
	b := engine.Read(engine.ChartLine + "\ncut tap # the simple ones\nspacing 13\nwelsh\nfingers 5\nkut\ntempo 1/4=90\n")
	require.True(t, b.IsChart())
	a := b.Answer()
	require.NotNil(t, a.Chart)
	var names []string
	for _, r := range a.Chart.Rows {
		names = append(names, r.Row.Name)
	}
	assert.Equal(t, []string{"cut", "tap", "plethiad-y-bys-bach", "takiad-fforchog", "haner-krafiad"}, names)
	assert.EqualValues(t, 13000, a.Chart.Rules.Harp.Spacing)
	var told []string
	for _, r := range a.Remarks {
		line, _ := b.Text.Position(r.From)
		told = append(told, strconv.Itoa(line)+" "+r.Suggestion)
	}
	require.Len(t, told, 3)
	assert.Contains(t, told[0], "5 Write them together")
	assert.Contains(t, told[1], "6 Write cut.")
	assert.Contains(t, told[2], "7 Write the names of ornaments")
}
