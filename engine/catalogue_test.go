package engine_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
)

// roomy is one long note with room around it, filled up to a third for what leads
// there.
const roomy = "X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\nc4|e4|]\n"

// TestKnownFingeringsCanBePlayed: every fingering in the catalogue is legal for its
// ornament when it is asked for, on the usual hand and harp, and is offered there as
// a house fingering: the old ones (Bunting 1840 p. 25, 3 2 4 2; p. 24, 2 1;
// p. 25, 4 2 3 for both readings of the casluth) among them.
func TestKnownFingeringsCanBePlayed(t *testing.T) {
	seen := 0
	for _, row := range ornament.Rows() {
		steps := slices.Clone(row.Steps)
		for i := range steps {
			steps[i] -= row.Steps[0]
		}
		for _, known := range ornament.Fingerings(steps, row.Name) {
			var fingers []string
			for _, f := range known.Fingers {
				fingers = append(fingers, fmt.Sprint(f+1))
			}
			way := strings.Join(fingers, " ")
			a := engine.Read(roomy).Answer("house "+row.Name+" "+way, row.Name+"@1 on")
			require.Empty(t, a.Remarks, "%s %s", row.Name, way)
			h := a.Hands[0]
			assert.Equal(t, plan.Joint(&h.Score, &h.Rules, &h.Plan), h.Plan.Cost, "%s %s costs what the definition says", row.Name, way)
			assert.Empty(t, plan.Judge(&h.Score, &h.Rules, &h.Plan), "%s %s", row.Name, way)
			for j, g := range h.Score.Gaps {
				for k, site := range g.Sites {
					fit := h.Plan.Gaps[j].Fits[k][0]
					assert.Less(t, fit.Ready, plan.NoTime, "%s %s", row.Name, way)
					assert.False(t, fit.Unusual, "%s %s is played as it is asked for", row.Name, way)
					assert.True(t, site.Ornaments[0].On)
					seen++
				}
			}
		}
	}
	assert.Greater(t, seen, 28)
}

// Struck with its note: both strings are one placing, whatever the tempo, and the
// note is not delayed.
func TestStruckWithTheNote(t *testing.T) {
	for _, name := range []string{"lower-third", "lower-sixth"} {
		a := engine.Read("X:1\nM:4/4\nL:1/8\nQ:1/4=200\nK:C\nefga gfef|]\n").Answer(name + "@5 on")
		require.Empty(t, a.Remarks)
		h := a.Hands[0]
		site := h.Score.Gaps[4].Sites[0]
		assert.Zero(t, site.Ornaments[0].Delay)
		fit := h.Plan.Gaps[4].Fits[0][0]
		require.Len(t, fit.Touches, 1)
		at := h.Plan.Events[4].Placing
		if fit.Touches[0].From == plan.Left && h.Plan.Bounded(4) {
			at--
		}
		assert.Equal(t, h.Plan.Events[4].Placing, at, "the placing of the note holds the third too")
		assert.Equal(t, site.Ornaments[0].Strokes[0].String, h.Plan.Placings[at].Frame[fit.Touches[0].Finger])
		assert.Greater(t, int(fit.Touches[0].Finger), h.Plan.Events[4].Finger(h.Score.Events[4].Notes[0].String))
	}
}

// A reader speaks of a teacher's own ornament by its name on the page too: it is in
// the address, and taken back.
func TestOwnOrnamentOnAPage(t *testing.T) {
	blocks := []string{
		"X:1\nL:1/4\nK:C\n%%ready ornament swirl +2 +1 0\ne d c B|]\n",
		"X:1\nL:1/4\nK:C\n%%ready ornament swirl 0 +1 0 after\ne2 d2|]\n",
	}
	page := engine.Open(blocks, "", "")
	page, c := page.Do("swirl@b1-3 on")
	assert.Equal(t, "swirl@b1-3+on", c.Address)
	assert.True(t, strings.Contains(page.Markup(0), "now played: swirl on the C"))
	page, c = page.Do("house swirl 1 2 3")
	assert.Contains(t, c.Address, "house+swirl+1+2+3")
	page, c = page.Do("swirl@b2-1 on")
	assert.True(t, strings.Contains(page.Markup(1), "now played: swirl on the E"))
	again := engine.Open(blocks, c.Address, "")
	for i := range blocks {
		assert.Equal(t, page.Answer(i).Text(), again.Answer(i).Text(), "the address brings it back")
	}
	page, _ = page.Do("as written")
	page, c = page.Do("swirll@b1-3 on")
	assert.Contains(t, c.Says, "Write swirl.")
	_, c = page.Do("ornament twirl +1 0")
	assert.Contains(t, c.Says, "%%ready ornament twirl +1 0")
}
