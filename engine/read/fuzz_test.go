package read

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// wholesome asserts what holds for any text: places inside the text, numbers
// 1, 2, 3 ... in the order of the text, times that run on, remarks in order
// with something to say, and a tune or a remark.
func wholesome(t testing.TB, abc string) {
	t.Helper()
	text := source.NewText(abc)
	got, remarks := Tune(text)
	c := check{t, abc}
	c.must(len(got.Voices) > 0, "a voice")
	numbers := map[int]bool{}
	events, played := 0, 0
	for _, v := range got.Voices {
		events += len(v.Events)
		played += len(v.Played)
		c.voice(v, numbers)
	}
	c.must(events == 0 || played > 0, "what is written is played")
	c.must(events > 0 || len(remarks) > 0, "a tune or a remark")
	for n := range len(numbers) {
		c.must(numbers[n+1], "every number")
	}
	for _, s := range got.Settings {
		c.inside(s.Source)
	}
	c.inside(got.Header)
	c.must(len(remarks) <= mostRemarks+1, "a screenful")
	at := int32(0)
	for _, remark := range remarks {
		c.inside(remark.Span)
		c.must(remark.From >= at && remark.Message != "" && remark.Suggestion != "", remark.Kind)
		at = remark.From
		line, column := text.Position(remark.From)
		c.must(line >= 1 && line <= text.Lines() && column >= 1 && column <= 1+len(text.Line(line))+2, remark.Kind)
		_ = text.Caret(remark)
	}
}

// check is what is asserted of a text; quick, because it is asked very often.
type check struct {
	t   testing.TB
	abc string
}

func (c check) must(ok bool, what string) {
	if !ok {
		c.t.Helper()
		require.Fail(c.t, what, "%q", c.abc)
	}
}

func (c check) inside(s source.Span) {
	c.must(0 <= s.From && s.From <= s.To && int(s.To) <= len(c.abc), "a place inside the text")
}

// voice is wholesome of one voice; numbers gathers those of the note heads.
func (c check) voice(v tune.Voice, numbers map[int]bool) {
	number, now, bar, line := 0, tune.Frac{N: 0, D: 1}, 0, 0
	for _, e := range v.Events {
		c.inside(e.Source)
		c.must(e.Onset == now || v.Layer > 0 && !e.Onset.Less(now), "times that run on")
		c.must(e.Length.N > 0 && e.Length.D > 0, "a length")
		now = e.Onset.Add(e.Length)
		c.must(e.Bar >= bar && e.Bar <= v.Bars && e.Line >= line, "bars and lines in order")
		bar, line = e.Bar, e.Line
		for _, n := range e.Notes {
			c.must(n.Number > number && !numbers[n.Number], "numbers in order")
			number = n.Number
			numbers[number] = true
			c.must(n.Finger >= 0 && n.Finger <= 4, "a finger")
			c.must(n.Pitch.Octave >= 0 && n.Pitch.Octave <= 9 && n.Pitch.String() != "", "a pitch")
			c.inside(n.Source)
			c.must((n.Finger == 0) == (n.Pinned == source.Nowhere()), "a finger with its place")
		}
		for _, g := range e.Graces {
			c.inside(g.Source)
		}
		for _, d := range e.Decorations {
			c.inside(d.Source)
		}
	}
	event := 0
	for _, m := range v.Marks {
		c.inside(m.Source)
		c.must(m.Event >= event && m.Event <= len(v.Events), "marks in order")
		event = m.Event
	}
	c.played(v)
}

func (c check) played(v tune.Voice) {
	passes := make([]int, len(v.Events))
	now := tune.Frac{N: 0, D: 1}
	c.must(len(v.Played) <= mostPlayed, "not too long")
	for _, step := range v.Played {
		passes[step.Event]++
		c.must(step.Pass == passes[step.Event], "passes in order")
		c.must(step.Onset == now || v.Layer > 0 && !step.Onset.Less(now), "played time that runs on")
		if now = step.Onset; v.Layer == 0 { // what a layer has too much lasts into the next bar
			now = now.Add(v.Events[step.Event].Length)
		}
	}
	c.must(now.Milliseconds(mostQuarterMS) >= 0, "times inside 32 bits")
}

// valid are the tunes of the tables, whole.
func valid() (all []string) {
	for _, table := range [][]lesson{pitches, lengths, chords, layout, orders, parts, marks} {
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
	for _, abc := range complained(f) {
		f.Add(abc)
	}
	f.Add(everything)
	f.Fuzz(func(t *testing.T, abc string) { wholesome(t, abc) })
}

// damaged gives good tunes with something broken in each: letters dropped,
// doubled, swapped or put in from the signs of the notation.
func damaged(many int, seed uint64) []string {
	const strange = "|:[]{}()!+\"-<>.^_=/0129zZ&$\\%~yTM \n\r,'#éKVMLQPUws*"
	chance := rand.New(rand.NewPCG(seed, 1))
	tunes := append(valid(), everything, everything, everything)
	var list []string
	for range many {
		abc := []byte(tunes[chance.IntN(len(tunes))])
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
		list = append(list, string(abc))
	}
	return list
}

func TestDamaged(t *testing.T) {
	tunes := map[string]bool{}
	for _, abc := range valid() {
		tunes[abc] = true
	}
	whole := 0
	for _, abc := range damaged(100_000, 2) {
		if tunes[abc] {
			whole++
		}
		wholesome(t, abc)
	}
	require.Less(t, whole, 2000, "nearly every tune must be damaged")
}
