package read

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// wholesome asserts what holds for any text: places inside the text, numbers
// 1, 2, 3 ... in the order of the text, times that run on, remarks in order
// with something to say, and a tune or a remark.
func wholesome(t *testing.T, abc string) {
	t.Helper()
	text := source.NewText(abc)
	got, remarks := Tune(text)
	inside := func(what string, s source.Span) {
		require.True(t, 0 <= s.From && s.From <= s.To && int(s.To) <= len(abc), "%s at %v in %q", what, s, abc)
	}
	require.Len(t, got.Voices, 1)
	v := got.Voices[0]
	if len(v.Events) == 0 {
		require.NotEmpty(t, remarks, "neither a tune nor a remark: %q", abc)
	}
	number, now, bar, line := 0, tune.Frac{N: 0, D: 1}, 0, 0
	for _, e := range v.Events {
		inside("event", e.Source)
		require.Equal(t, now, e.Onset, "%q", abc)
		require.True(t, e.Length.N > 0 && e.Length.D > 0, "%q", abc)
		now = now.Add(e.Length)
		require.True(t, e.Bar >= bar && e.Bar <= v.Bars && e.Line >= line, "%q", abc)
		bar, line = e.Bar, e.Line
		for _, n := range e.Notes {
			number++
			require.Equal(t, number, n.Number, "%q", abc)
			require.True(t, n.Finger >= 0 && n.Finger <= 4, "%q", abc)
			require.True(t, n.Pitch.Octave >= 0 && n.Pitch.Octave <= 9, "%q", abc)
			require.NotPanics(t, func() { _ = n.Pitch.String() })
			inside("note", n.Source)
			require.Equal(t, n.Finger == 0, n.Pinned == source.Nowhere(), "%q", abc)
		}
		for _, g := range e.Graces {
			inside("grace", g.Source)
		}
		for _, d := range e.Decorations {
			inside("decoration", d.Source)
		}
	}
	for _, s := range got.Settings {
		inside("setting", s.Source)
	}
	inside("header", got.Header)
	checkPlayed(t, abc, v)
	at := int32(0)
	for _, remark := range remarks {
		inside(remark.Kind, remark.Span)
		require.True(t, remark.From >= at && remark.Message != "" && remark.Suggestion != "", "%q", abc)
		at = remark.From
		_ = text.Caret(remark)
	}
}

func checkPlayed(t *testing.T, abc string, v tune.Voice) {
	t.Helper()
	passes := make([]int, len(v.Events))
	now := tune.Frac{N: 0, D: 1}
	require.LessOrEqual(t, len(v.Played), mostPlayed)
	for _, step := range v.Played {
		passes[step.Event]++
		if step.Pass != passes[step.Event] || step.Onset != now {
			require.Fail(t, "a step out of order", "%+v, not pass %d at %v, in %q", step, passes[step.Event], now, abc)
		}
		now = now.Add(v.Events[step.Event].Length)
	}
	require.GreaterOrEqual(t, now.Milliseconds(mostQuarterMS), int32(0), "times must stay inside 32 bits: %q", abc)
}

// valid are the tunes of the tables, whole.
func valid() (all []string) {
	for _, table := range [][]lesson{pitches, lengths, chords, layout, orders, marks} {
		for _, row := range table {
			head := row.head
			if !strings.Contains(head, "K:") {
				head += "K:C\n"
			}
			all = append(all, "X:1\nT:Ó\nR:jig\n"+head+row.music+"\n")
		}
	}
	return all
}

func FuzzTune(f *testing.F) {
	for _, abc := range valid() {
		f.Add(abc)
	}
	files, _ := filepath.Glob(filepath.Join(complaints, "*.abc"))
	for _, file := range files {
		bytes, err := os.ReadFile(file)
		require.NoError(f, err)
		for piece := range strings.SplitSeq(string(bytes), "---\n") {
			f.Add(withoutComplaints(piece))
		}
	}
	f.Fuzz(wholesome)
}

// Five thousand good tunes with something broken in each: letters dropped,
// doubled, swapped or put in from the signs of the notation.
func TestDamaged(t *testing.T) {
	const strange = "|:[]{}()!+\"-<>.^_=/0129zZ&$\\%~yTM \n\r,'#éKVMLQ"
	chance := rand.New(rand.NewPCG(2, 1))
	tunes := valid()
	changed := 0
	for range 5000 {
		abc := []byte(tunes[chance.IntN(len(tunes))])
		was := string(abc)
		for range 1 + chance.IntN(4) {
			at := chance.IntN(len(abc))
			switch chance.IntN(4) {
			case 0:
				abc = append(abc[:at], abc[at+1:]...)
			case 1:
				abc = append(abc[:at], append([]byte{strange[chance.IntN(len(strange))]}, abc[at:]...)...)
			case 2:
				abc[at] = strange[chance.IntN(len(strange))]
			case 3:
				other := chance.IntN(len(abc))
				abc[at], abc[other] = abc[other], abc[at]
			}
		}
		if string(abc) != was {
			changed++
		}
		wholesome(t, string(abc))
	}
	require.Greater(t, changed, 4900, "nearly every tune must be damaged")
}
