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

// TestTempos: a tempo inside the tune stands at its written time, in proportion to what
// was asked for; the cut's 65 ms are as many whole notes as they are where it stands
// (600 and 1,200 ms a quarter). The notes for comparison know no tempo.
func TestTempos(t *testing.T) {
	const tune = "X:1\nM:2/4\nL:1/4\nQ:1/4=100\nK:C\n|:{e}d c|[Q:1/4=50]{e}d c:|\n"
	got := planned(t, tune)
	assert.Equal(t, tempoJSON{600, "Q: line"}, got.Tempo)
	assert.Equal(t, []paceJSON{{[2]int64{0, 1}, 600}, {[2]int64{1, 2}, 1200}}, got.Tempos)
	lengths := map[string][2]int64{}
	for _, n := range got.Hands[0].Notes {
		if !n.Written {
			lengths[n.ID] = n.Length
		}
	}
	assert.Equal(t, map[string][2]int64{"1.cut.1": {13, 480}, "3.cut.1": {13, 960}, "1/2.cut.1": {13, 480}, "3/2.cut.1": {13, 960}}, lengths)
	_, out, said := readyhand(tune, "plan", "-json", "-tempo", "3/8=100", "-")
	assert.Contains(t, out, `"tempos":[{"onset":[0,1],"quarter_ms":400},{"onset":[1,2],"quarter_ms":800}]`, said)
	_, notes, _ := readyhand(tune, "plan", "-notes", "-json", "-")
	_, plain, _ := readyhand(strings.Replace(tune, "[Q:1/4=50]", "", 1), "plan", "-notes", "-json", "-")
	assert.Equal(t, plain, notes)
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
		stopped(t, h, met)
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

// stopped looks whether what is stopped after an ornament is a string that it has played,
// and the finger gone by a note of the tune that comes later.
func stopped(t require.TestingT, h handJSON, met map[string]int) {
	for _, s := range h.Sites {
		assert.NotNil(t, s.Stops, "%s: an empty list, not null", s.ID)
		for _, stop := range s.Stops {
			met["stops"]++
			assert.True(t, 1 <= stop.Finger && stop.Finger <= 5, s.ID)
			played, own, until := false, -1, -1
			for i, n := range h.Notes {
				if site, _, _ := cutLast(n.ID); site == s.ID && n.String == stop.String {
					played = true
					assert.Equal(t, n.Name, stop.Name, s.ID)
				}
				if id, _, _ := cutLast(s.ID); n.ID == id {
					own = i
				}
				if stop.Until != nil && n.ID == *stop.Until {
					until = i
				}
			}
			assert.True(t, played, "%s stops a string that it has not played: %+v", s.ID, stop)
			if stop.Until != nil {
				assert.Greater(t, until, own, s.ID)
			}
		}
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
		assert.False(t, o.Extra == 0 && o.Buys == "", "of a way that is as good that much can be said: %+v", o)
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
	holdsTogether(t, planned(t, "X:1\nM:4/4\nL:1/8\nQ:1/4=150\n%%ready offer cut tap roll\nK:D\n|:{e}dedc A2FA|[Q:1/4=50]~f4 d2 cA:|[Q:90]TA8|]\n"), met)
	holdsTogether(t, planned(t, "X:1\nL:1/8\nQ:1/4=30\nK:C\nA8 !trill![CE]8 c'8|]\n"), met)
	rapid.Check(t, func(rt *rapid.T) { holdsTogether(rt, planned(rt, randomTune(rt)), met) })
	for _, what := range []string{"no way", "never played, not prepared", "ornament's notes", "private", "stops", "near-ties", "dearer ways", "other placings alone"} {
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
