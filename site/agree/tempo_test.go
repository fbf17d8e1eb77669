package agree_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// TestTempo: where the tempo changes inside a tune (ABC 2.1, 3.1.8), notes come at the
// times at which abc2midi has them, to 4 milliseconds. Where a repeat goes back behind a
// change, abc2midi stays in the tempo that it has come to; ours takes the one that is
// written there, so such a tune says its tempo where the repeat begins.
func TestTempo(t *testing.T) {
	o := find(t)
	mftext, err := exec.LookPath("mftext") // it comes with abc2midi
	require.NoError(t, err)
	for _, tune := range []string{
		"Q:1/4=60\nK:C\nCDEF|[Q:1/4=120]GABc|",
		"Q:1/4=60\nK:C\nCDEF|\nQ:1/4=120\nGABc|\nQ:1/4=90\ncBAG|",
		"Q:3/8=40\nK:C\nC2D[Q:3/8=100]EFG|A2B [Q:1/8=200]cde|c4|",
		"Q:1/4=60\nK:C\nC4-|C2[Q:1/4=150]D2|E4|",
		"Q:1/4=60\nK:C\nC2z2|[Q:1/4=150]z2D2|E4|",
		"Q:1/4=60\nK:C\n|:[Q:1/4=60]CDEF|[Q:1/4=120]GABc:|cBAG|",
		"Q:1/4=200\nK:C\nCDEF|\"slower\"[Q:\"Slow\" 1/2=33]GABc|[Q:\"Slow\"]c4|",
	} {
		abc := "X:1\nM:none\nL:1/8\n" + tune + "\n"
		var ours []int
		now := 0
		for _, e := range engine.Read(abc).Answer().Hands[0].Score.Events {
			now += int(e.Since)
			ours = append(ours, now)
		}
		theirs := milliseconds(t, o.abc2midi, mftext, abc)
		require.Len(t, ours, len(theirs), tune)
		for i := range ours {
			assert.InDelta(t, theirs[i], ours[i], 4, "%s: note %d", tune, i+1)
		}
	}
}

var timed = regexp.MustCompile(`Time=(\d+) +(?:Tempo, microseconds-per-MIDI-quarter-note=(\d+)|Note on)`)

// milliseconds gives when notes begin by abc2midi, from the first note on. It writes 480
// ticks to a quarter.
func milliseconds(t *testing.T, abc2midi, mftext, abc string) (onsets []int) {
	dir := t.TempDir()
	from, to := filepath.Join(dir, "t.abc"), filepath.Join(dir, "t.mid")
	require.NoError(t, os.WriteFile(from, []byte(abc), 0o644))
	require.NoError(t, exec.Command(abc2midi, from, "-o", to).Run())
	out, err := exec.Command(mftext, to).Output()
	require.NoError(t, err)
	at, ticks, quarter, first := 0.0, 0, 0.0, 0.0 // at: milliseconds
	for _, m := range timed.FindAllSubmatch(out, -1) {
		now, err := strconv.Atoi(string(m[1]))
		require.NoError(t, err)
		at += float64(now-ticks) * quarter / 480
		ticks = now
		if len(m[2]) > 0 {
			us, err := strconv.Atoi(string(m[2]))
			require.NoError(t, err)
			quarter = float64(us) / 1000
			continue
		}
		if len(onsets) == 0 {
			first = at
		}
		onsets = append(onsets, int(at-first+0.5))
	}
	return onsets
}
