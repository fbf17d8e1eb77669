package engine_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// wholeTunes gives the tunes of the stories.
func wholeTunes(t *testing.T) map[string]string {
	t.Helper()
	list := map[string]string{}
	for _, name := range files(t, "../testdata/stories/tune-*.txt") {
		_, part := chapters(t, file(t, name))
		list[name] = part["tune"]
	}
	return list
}

// written gives the fingers of an exercise's notes, without those of its ornament,
// and where the hand is set.
func written(d engine.Drill) string {
	var words []string
	for _, c := range d.Columns {
		if !strings.HasPrefix(c.Fingers, "(") {
			words = append(words, c.Fingers)
		}
	}
	return strings.Join(words, " ")
}

// played gives the same of an answer.
func played(a engine.Answer) string {
	h := &a.Hands[0]
	var words []string
	for i, e := range h.Score.Events {
		if i > 0 && h.Plan.Bounded(i) {
			words = append(words, "|")
		}
		var fingers []string
		for _, n := range e.Notes {
			fingers = append(fingers, strconv.Itoa(h.Plan.Events[i].Finger(n.String)+1))
		}
		words = append(words, strings.Join(fingers, "+"))
	}
	return strings.Join(words, " ")
}

var (
	fingerSign = regexp.MustCompile(`![1-4]!`)
	wishLine   = regexp.MustCompile(`(?m)^%%ready (set@|stay@|house ).*\n`)
)

// TestDrillsAreSolvedAgain: every exercise of twelve tunes and more is read by our
// own reader without a remark, and is fingered as it is shown; and without its
// fingers it is fingered so too, unless it says that it is not.
func TestDrillsAreSolvedAgain(t *testing.T) {
	kinds, alone, pinned := map[string]int{}, 0, 0
	for name, tune := range wholeTunes(t) {
		a := engine.Read(tune).Answer()
		for _, d := range a.Drills() {
			again := engine.Read(d.ABC).Answer()
			require.Empty(t, again.Remarks, "%s:\n%s", name, d.ABC)
			require.Len(t, again.Hands, 1, d.ABC)
			assert.Equal(t, written(d), played(again), "%s: %s", name, d.Title)
			assert.Equal(t, d.Hand, again.Hands[0].Rules.Hand.Name, "%s: %s", name, d.Title)

			free := engine.Read(wishLine.ReplaceAllString(fingerSign.ReplaceAllString(d.ABC, ""), "")).Answer()
			if !d.Pinned {
				assert.Equal(t, written(d), played(free), "%s: %s needs its fingers, and does not say so", name, d.Title)
				alone++
			} else {
				pinned++
			}
			switch {
			case strings.Contains(d.Title, "wait"):
				kinds["ornament"]++
				assert.Contains(t, d.ABC, "%%ready house ", "its fingers are asked for too")
			case strings.Contains(d.Title, "a group"):
				kinds["figure"]++
			default:
				kinds["move"]++
			}
		}
	}
	assert.Positive(t, kinds["move"])
	assert.Positive(t, kinds["figure"])
	assert.Positive(t, kinds["ornament"])
	assert.Positive(t, alone)
	assert.Positive(t, pinned)
}

// TestDrillsAreKind: where an exercise repeats quickly it says so, and over all of
// them stands that nobody is to force anything.
func TestDrillsAreKind(t *testing.T) {
	quick := engine.Read("X:1\nT:Quick repeats\nM:4/4\nL:1/8\nQ:1/4=160\n%%ready fingers 123\nK:C\nccBcc2 gg|fgg2 ccBc|ccBcc2 gg|]\n").Answer()
	found := false
	for _, d := range quick.Drills() {
		found = found || strings.Contains(d.Care, "repeats quickly")
	}
	assert.True(t, found, quick.DrillsText())
	assert.Contains(t, engine.DrillCaution(), "Never force")
	assert.Contains(t, quick.DrillsText(), engine.DrillCaution())
	page := engine.Open([]string{quick.Block.Text.String}, "", "")
	assert.Contains(t, page.Markup(0), engine.DrillCaution())

	still := engine.Read("X:1\nT:One note\nM:1/4\nL:1/4\nK:C\nc\n").Answer()
	assert.Empty(t, still.Drills())
	assert.Contains(t, still.DrillsText(), "Nothing in this tune")
}

// TestHardestMoveFirst: moves come by what the table of charges makes of them. Over
// the 14 of a placing to which the hand connects: the thumb over 3, between beats, 8
// and 2; the thumb over 4 on the first beat 6; connecting between beats 2.
func TestHardestMoveFirst(t *testing.T) {
	a := engine.Read("X:1\nT:Over and off\nM:4/4\nL:1/4\nQ:1/4=100\nK:C\nc'bag|fedc|C D E F|]\n").Answer()
	var titles []string
	for _, d := range a.Drills() {
		titles = append(titles, d.Title)
	}
	assert.Equal(t, []string{"Bar 2: the thumb comes over", "Bars 1 and 2: the thumb comes over", "Bar 3: the hand connects"}, titles)
	assert.Equal(t, "2 3 4 | 1 2 3", written(a.Drills()[1]))
	assert.Contains(t, a.Drills()[0].Why, "the thumb goes over 3, and the hand is placed off the beat")
}

// TestDrillsKeepTheTempo: an exercise that goes over a change of tempo changes with it.
func TestDrillsKeepTheTempo(t *testing.T) {
	a := engine.Read("X:1\nM:4/4\nL:1/8\nQ:1/4=60\nK:C\nc2e2g2e2|c2[Q:1/4=160]e2g2a2|f2c2A2F2|c8|]\n").Answer()
	found := false
	for _, d := range a.Drills() {
		if !strings.Contains(d.ABC, "[Q:1/4=160]") {
			continue
		}
		found = true
		var since []int32
		for _, e := range engine.Read(d.ABC).Answer().Hands[0].Score.Events {
			since = append(since, e.Since)
		}
		assert.Subset(t, []int32{0, 1000, 375}, since)
		assert.Contains(t, since, int32(1000))
		assert.Contains(t, since, int32(375))
	}
	assert.True(t, found)
}

// A note alone in its placing is practised with the one before and the one after; whose
// fingers they are is said once, above.
func TestNoDrillOfOneNote(t *testing.T) {
	a := engine.Read("X:1\nM:4/4\nL:1/4\nQ:1/4=100\nK:C\n%%ready set@3\n%%ready set@4\n%%ready cut@3 often\nc' g {c}B e|c' g B c|]\n").Answer()
	alone := false
	for _, d := range a.Drills() {
		notes := 0
		for _, word := range strings.Fields(written(d)) {
			if word != "|" {
				notes++
			}
		}
		assert.Greater(t, notes, 1, d.Title)
		alone = alone || strings.Contains(d.Title, "the cut") && written(d) != "" && notes == 3
	}
	assert.True(t, alone, a.DrillsText())
	assert.LessOrEqual(t, strings.Count(a.DrillsText(), "The fingers are those of the tune"), 1)
}
