package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine"
)

// fenced gives what stands in the first block of this language after a heading.
func fenced(t *testing.T, text, heading, language string) string {
	t.Helper()
	_, after, ok := strings.Cut(text, heading)
	require.True(t, ok, heading)
	_, after, ok = strings.Cut(after, "```"+language+"\n")
	require.True(t, ok, language)
	block, _, ok := strings.Cut(after, "```")
	require.True(t, ok)
	return block
}

// TestPlanJSON holds the filled example of DEVELOPERS.md.
func TestPlanJSON(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	code, got, said := readyhand(fenced(t, string(text), "## plan -json", "abc"), "plan", "-json", "-")
	assert.Equal(t, done, code, said)
	assert.JSONEq(t, fenced(t, string(text), "## plan -json", "json"), got)
}

// TestExactDecimals: a cost prints as the decimal it is, down to one 256th of a
// thousandth.
func TestExactDecimals(t *testing.T) {
	for cost, want := range map[charge]string{
		0: "0", 256000: "1", -256000: "-1", 128: "0.0005", 1: "0.00000390625", 256000*12 + 64000: "12.25", -64: "-0.00025",
	} {
		got, err := cost.MarshalJSON()
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
}

// UnmarshalJSON reads a charge back: a float tells a 256th of a thousandth apart
// in any cost a test makes.
func (c *charge) UnmarshalJSON(text []byte) error {
	f, err := strconv.ParseFloat(string(text), 64)
	*c = charge(math.Round(f * 256000))
	return err
}

// planned is what plan -json prints of a tune.
func planned(t require.TestingT, tune string) planJSON {
	_, out, said := readyhand(tune, "plan", "-json", "-")
	var got planJSON
	require.NoError(t, json.Unmarshal([]byte(out), &got), said)
	return got
}

// holdsTogether looks whether the parts of an answer fit each other, and counts
// what it met.
func holdsTogether(t require.TestingT, got planJSON, met map[string]int) {
	for _, h := range got.Hands {
		never, readiness := map[string]bool{}, map[string]string{}
		for _, s := range h.Sites {
			never[s.ID], readiness[s.ID] = s.Likelihood == 0, s.Readiness
			assert.Equal(t, s.Readiness == "no time", s.Extra == nil, "%s: what nothing can be paid for, and only that, has no extra", s.ID)
			assert.False(t, s.Moves > 0 && s.Readiness != "placed again", "%s moves %d notes", s.ID, s.Moves)
		}
		alternatives(t, h, met)
		shared := 0
		for k, p := range h.Placings {
			assert.Equal(t, k+1, p.ID, "placings grow by one")
			if !p.Private {
				assert.Equal(t, shared, k, "an ornament's own placings come after the shared ones")
				shared++
			}
			for _, f := range p.Kept {
				assert.Contains(t, p.Fingers, strconv.Itoa(f), "a finger that waits is set")
			}
		}
		last := 0
		for _, n := range h.Notes {
			site, _, _ := cutLast(n.ID)
			if assert.Equal(t, n.Finger == nil, n.Placing == nil, n.ID); n.Finger == nil {
				met["no way"]++
				assert.False(t, n.Written, n.ID)
				assert.Contains(t, []string{"no time", "placed again"}, readiness[site], n.ID)
				continue
			}
			if !assert.True(t, 1 <= *n.Placing && *n.Placing <= len(h.Placings), n.ID) {
				continue
			}
			p, finger := h.Placings[*n.Placing-1], strconv.Itoa(*n.Finger)
			held, ok := p.Fingers[finger]
			if !ok {
				held, ok = p.Free[finger]
			}
			if !ok && !n.Written && never[site] {
				met["never played, not prepared"]++
			} else {
				assert.Equal(t, n.String, held, "%s: %v", n.ID, p)
			}
			if !n.Written {
				met["ornament's notes"]++
				met["private"] += map[bool]int{true: 1}[p.Private]
				assert.Nil(t, n.Prices, n.ID)
				continue
			}
			if assert.Len(t, n.Prices, 4, n.ID) && assert.NotNil(t, n.Prices[*n.Finger-1], n.ID) {
				assert.Zero(t, *n.Prices[*n.Finger-1], "%s: the finger shown costs nothing more", n.ID)
			}
			assert.False(t, p.Private, n.ID)
			assert.Contains(t, []int{last, last + 1}, *n.Placing, "%s: placings grow by one", n.ID)
			last = *n.Placing
		}
		assert.Equal(t, shared, last, "every shared placing plays a note")
	}
}

// alternatives looks whether other ways are what they are said to be: in order,
// no cheaper than the plan, near within 12 charges, and of other fingers.
func alternatives(t require.TestingT, h handJSON, met map[string]int) {
	finger := map[string]*int{}
	for _, n := range h.Notes {
		finger[n.ID] = n.Finger
	}
	last := charge(0)
	for _, o := range h.Others {
		assert.GreaterOrEqual(t, o.Extra, last, "the cheapest first")
		last = o.Extra
		assert.Equal(t, o.Extra <= 12*charge(engine.Charge), o.Near, "%+v", o)
		assert.NotEmpty(t, o.Buys)
		assert.Contains(t, finger, o.From)
		assert.Contains(t, finger, o.To)
		for id, f := range o.Fingers {
			if assert.Contains(t, finger, id) && finger[id] != nil {
				assert.NotEqual(t, *finger[id], f, "%s of %+v", id, o)
			}
			assert.True(t, 1 <= f && f <= 4)
		}
		met[map[bool]string{true: "near-ties", false: "dearer ways"}[o.Near]]++
		met["other placings alone"] += map[bool]int{true: 1}[len(o.Fingers) == 0]
	}
}

// cutLast parts "12.cut.1" into "12.cut" and "1".
func cutLast(s string) (before, after string, found bool) {
	i := strings.LastIndexByte(s, '.')
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+1:], true
}

// The stories' tunes, whole lessons, and tunes that nobody would write.
func TestPlanJSONHoldsTogether(t *testing.T) {
	met := map[string]int{}
	stories, err := filepath.Glob("../testdata/stories/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, stories)
	for _, name := range stories {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		_, tune, ok := strings.Cut(string(text), "--- tune\n")
		require.True(t, ok, name)
		tune, _, _ = strings.Cut(tune, "\n---")
		holdsTogether(t, planned(t, tune), met)
	}
	holdsTogether(t, planned(t, "X:1\nM:4/4\nL:1/8\nQ:1/4=150\n%%ready offer cut tap roll upper-mordent\nK:D\n{e}dedc A2FA|GABd egfe|~f4 d2 cA|[FA]2 z2 {c}B4|]\n"), met)
	holdsTogether(t, planned(t, "X:1\nL:1/8\nQ:1/4=30\nK:C\nA8 !trill![CE]8 c'8|]\n"), met)
	rapid.Check(t, func(rt *rapid.T) { holdsTogether(rt, planned(rt, randomTune(rt)), met) })
	for _, what := range []string{"no way", "never played, not prepared", "ornament's notes", "private", "near-ties", "dearer ways", "other placings alone"} {
		assert.Positive(t, met[what], "%s: never met, so never tested", what)
	}
	t.Log(met)
}

// randomTune draws up to 14 notes with ornaments, rests, chords and offers.
func randomTune(t *rapid.T) string {
	var b strings.Builder
	fmt.Fprintf(&b, "X:1\nL:1/8\nQ:1/4=%d\n%%%%ready offer%s\nK:%s\n", rapid.IntRange(30, 200).Draw(t, "tempo"),
		rapid.SampledFrom([]string{" nothing", " cut", " tap roll", " cut turn-after lower-mordent"}).Draw(t, "offer"), rapid.SampledFrom([]string{"C", "D", "Eb"}).Draw(t, "key"))
	note := rapid.SampledFrom([]string{"C", "E", "G", "A", "B", "c", "d", "e", "f", "g", "a", "c'"})
	for range rapid.IntRange(1, 14).Draw(t, "notes") {
		b.WriteString(rapid.SampledFrom([]string{"", "", "", "{d}", "{fe}", "~", "!uppermordent!", "!turn!", "!trill!", "z", "[CE]"}).Draw(t, "before"))
		b.WriteString(note.Draw(t, "note") + rapid.SampledFrom([]string{"", "", "2", "4", "/"}).Draw(t, "length") + " ")
	}
	return b.String() + "|]\n"
}
