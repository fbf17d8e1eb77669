package vary

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/choice"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// voices makes a tune of several voices from words as of written, numbered on.
func voices(t tester, texts ...string) tune.Tune {
	t.Helper()
	var all tune.Tune
	number := 0
	for i, text := range texts {
		one := written(t, text)
		if i == 0 {
			all = one
			all.Voices = nil
		}
		v := one.Voices[0]
		for k := range v.Events {
			for n := range v.Events[k].Notes {
				v.Events[k].Notes[n].Number += number
			}
		}
		for _, e := range v.Events {
			for _, n := range e.Notes {
				number = max(number, n.Number)
			}
		}
		all.Voices = append(all.Voices, v)
	}
	return all
}

// joined is a voice in short: onset, notes with lengths of their own, length.
func joined(v tune.Voice) string {
	word := func(f tune.Frac) string {
		return strings.TrimSuffix(fracOf(f), "/1")
	}
	var words []string
	for _, e := range v.Events {
		var heads []string
		for _, n := range e.Notes {
			head := n.Pitch.String()
			if n.Length.D > 0 {
				head += "(" + word(n.Length) + ")"
			}
			heads = append(heads, head)
		}
		if heads == nil {
			heads = []string{"z"}
		}
		words = append(words, strings.Join(heads, "+")+":"+word(e.Length))
	}
	return strings.Join(words, " ")
}

func fracOf(f tune.Frac) string {
	return digits(f.N) + "/" + digits(f.D)
}

func digits(n int64) string {
	if n == 0 {
		return "0"
	}
	text := ""
	for ; n > 0; n /= 10 {
		text = string(rune('0'+n%10)) + text
	}
	return text
}

// Whose hand a voice is: by its name, else its clef, else its place.
func TestSides(t *testing.T) {
	v := func(id, name, clef string, layer int) tune.Voice {
		return tune.Voice{ID: id, Name: name, Clef: clef, Layer: layer, Events: []tune.Event{{Length: tune.Frac{N: 1, D: 4}, Onset: tune.Frac{N: 0, D: 1}}}}
	}
	for _, row := range []struct {
		why    string
		voices []tune.Voice
		want   string // L or R, ? where it is a guess
	}{
		{"clefs", []tune.Voice{v("1", "", "treble", 0), v("2", "", "bass", 0)}, "R L"},
		{"clefs the other way about", []tune.Voice{v("1", "", "bass", 0), v("2", "", "treble", 0)}, "L R"},
		{"names", []tune.Voice{v("LH", "", "treble", 0), v("RH", "", "treble", 0)}, "L R"},
		{"spelt out", []tune.Voice{v("1", "Left hand", "", 0), v("2", "R.H.", "", 0)}, "L R"},
		{"nothing said", []tune.Voice{v("1", "", "", 0), v("2", "", "", 0)}, "R L?"},
		{"both in the treble", []tune.Voice{v("1", "", "treble", 0), v("2", "", "treble", 0)}, "R L?"},
		{"both in the bass", []tune.Voice{v("1", "", "bass", 0), v("2", "", "bass", 0)}, "R L?"},
		{"a third one over the bass", []tune.Voice{v("1", "", "treble", 0), v("2", "", "", 0), v("3", "", "bass", 0)}, "R R? L"},
		{"a layer goes with its voice", []tune.Voice{v("1", "", "treble", 0), v("1", "", "treble", 1), v("2", "", "bass", 0), v("2", "", "bass", 1)}, "R R L L"},
	} {
		left, guessed := sides(row.voices)
		var words []string
		for i := range left {
			word := "R"
			if left[i] {
				word = "L"
			}
			if guessed[i] {
				word += "?"
			}
			words = append(words, word)
		}
		assert.Equal(t, row.want, strings.Join(words, " "), row.why)
	}
	assert.Equal(t, "left", Side(tune.Tune{Voices: []tune.Voice{v("1", "", "bass", 0)}}, 0), "one voice in the bass")
	assert.Equal(t, "right", Side(tune.Tune{Voices: []tune.Voice{v("1", "", "", 0)}}, 0), "one voice")
}

// Two voices of one hand, laid into one.
func TestTogether(t *testing.T) {
	for _, row := range []struct{ why, a, b, want string }{
		{"note against note", "C5:1/4 D5:1/4", "C4:1/4 D4:1/4", "C5+C4:1/4 D5+D4:1/4"},
		{"a long note under moving ones", "C5:1/8 D5:1/8 E5:1/4", "C4:1/4 D4:1/4", "C5(1/8)+C4(1/4):1/8 D5:1/8 E5+D4:1/4"},
		{"and over them", "C5:1/2", "C4:1/8 D4:1/8 E4:1/4", "C5(1/2)+C4(1/8):1/8 D4:1/8 E4:1/4"},
		{"a rest is one only where all rest", "C5:1/4 z:1/4 D5:1/4", "C4:1/2 z:1/4", "C5(1/4)+C4:1/2 D5:1/4"},
		{"both rest", "C5:1/4 z:1/4", "C4:1/4 z:1/4", "C5+C4:1/4 z:1/4"},
		{"one ends first", "C5:1/4", "C4:1/4 D4:1/4", "C5+C4:1/4 D4:1/4"},
		{"a phrase ends in a rest that is dropped", "C5:1/4 z:1/4, D5:1/4", "C4:1/2 z:1/4", "C5(1/4)+C4:1/2 D5:1/4"},
	} {
		tn := voices(t, row.a, row.b)
		both, ok := together(tn.Voices[0], tn.Voices[1])
		require.True(t, ok, row.why)
		assert.Equal(t, row.want, joined(both), row.why)
		now := tune.Frac{N: 0, D: 1}
		for _, e := range both.Events {
			assert.Equal(t, now, e.Onset, row.why)
			now = now.Add(e.Length)
		}
	}
}

// Ties find their way through the other voice's notes; the hand is off the
// strings only where both voices rest.
func TestTogetherStruck(t *testing.T) {
	tn := voices(t, "C5:1/4 C5_:1/4 E5:1/4", "C4:1/8 D4:1/8 E4:1/8 F4:1/8 C4:1/4")
	both, _ := together(tn.Voices[0], tn.Voices[1])
	tn.Voices = []tune.Voice{both}
	s, _ := usual(t, tn, "")
	assert.Equal(t, "4=C4+1=C5:0,300 5=D4:300,300 6=E4:300,300 7=F4:300,300 8=C4+3=E5:300,600", line(s))
	tn = voices(t, "C5:1/4 z:1/4 E5:1/4", "C4:3/8 z:1/8 E4:1/4")
	both, _ = together(tn.Voices[0], tn.Voices[1])
	tn.Voices = []tune.Voice{both}
	s, _ = usual(t, tn, "")
	assert.Equal(t, "3=C4+1=C5:0,900 | 4=E4+2=E5:1200,600", line(s))
}

// A voice whose repeats differ is left out, and that is said.
func TestApart(t *testing.T) {
	tn := voices(t, "C5:1/4 D5:1/4", "E4:1/4 F4:1/4", "C3:1/4 D3:1/4")
	tn.Voices[0].Clef, tn.Voices[1].Clef, tn.Voices[2].Clef = "treble", "treble", "bass"
	hands, remarks := Hands(tn)
	assert.Empty(t, remarks)
	require.Len(t, hands.Voices, 2)
	assert.Equal(t, "C5+E4:1/4 D5+F4:1/4", joined(hands.Voices[0]))
	assert.Equal(t, "C3:1/4 D3:1/4", joined(hands.Voices[1]))
	assert.Len(t, tn.Voices, 3, "what was given is left as it was")

	v := &tn.Voices[1]
	v.Played = append(v.Played, tune.Step{Event: 0, Pass: 2, Onset: tune.Frac{N: 1, D: 2}})
	hands, remarks = Hands(tn)
	require.Equal(t, []string{"warning voice-left-out @10"}, kinds(remarks))
	assert.Equal(t, "C5:1/4 D5:1/4", joined(hands.Voices[0]))
}

// Repeats of both voices are played together.
func TestTogetherRepeated(t *testing.T) {
	a, b := repeated(written(t, "C5:1/4 D5:1/4")), repeated(written(t, "C4:1/8 D4:1/8 E4:1/4"))
	both, ok := together(a.Voices[0], b.Voices[0])
	require.True(t, ok)
	var steps []string
	for _, s := range both.Played {
		steps = append(steps, digits(int64(s.Event))+"/"+digits(int64(s.Pass))+"@"+fracOf(s.Onset))
	}
	assert.Equal(t, []string{"0/1@0/1", "1/1@1/8", "2/1@1/4", "0/2@1/2", "1/2@5/8", "2/2@3/4"}, steps)
}

// Where a tune goes, on harps tuned to E flat and to C: the keys that their levers
// give are in trade tables of every maker (Eb: from Eb to E; C: from C to B).
func TestTranspose(t *testing.T) {
	for _, row := range []struct {
		key, tuning, to string
		want, first     string // its key, and where C4 went; "" if it cannot
		why             string
	}{
		{"C major", "Eb", "2", "E major", "E4", "by the scale's own interval"},
		{"C major", "Eb", "1", "D major", "D4", "a tone"},
		{"C major", "Eb", "-1", "Bb major", "Bb3", "no lever gives B major here: the nearest"},
		{"C major", "C", "-1", "B major", "B3", "on a harp in C they do"},
		{"C major", "Eb", "7", "C major", "C5", "an octave"},
		{"C major", "Eb", "0", "C major", "C4", "as it is written"},
		{"A minor", "Eb", "1", "B minor", "D4", "a minor key"},
		{"C major", "Eb", "D", "D major", "D4", "to a key, the nearest way"},
		{"C major", "Eb", "A", "A major", "A3", "down, where that is nearer"},
		{"C major", "Eb", "Bb", "Bb major", "Bb3", "a flat key"},
		{"C major", "Eb", "B", "", "", "a key that no lever gives"},
		{"C major", "C", "Eb", "", "", "nor here"},
		{"no key signature", "Eb", "D", "", "", "no key to move"},
		{"no key signature", "Eb", "1", "no key signature", "D4", "but strings"},
	} {
		tn := written(t, "C4:1/4")
		tn.Key = pitch.Key{Name: row.key}
		if word, mode, ok := strings.Cut(row.key, " "); ok && word != "no" {
			tonic, _ := pitch.Parse(word + "4")
			tn.Key, _ = pitch.Signature(tonic, mode)
		}
		to, _ := chosen(t, "transpose "+row.to).Transpose()
		h := chosen(t, "tuning "+row.tuning).Harp()
		got, remarks := Transpose(tn, h, to)
		if row.want == "" {
			require.Len(t, remarks, 1, row.why)
			assert.Equal(t, "no-such-key", remarks[0].Kind, row.why)
			assert.Equal(t, tn, got, row.why)
			continue
		}
		assert.Empty(t, remarks, row.why)
		assert.Equal(t, row.want, got.Key.Name, row.why)
		assert.Equal(t, row.first, got.Voices[0].Events[0].Notes[0].Pitch.String(), row.why)
		assert.True(t, gives(h, got.Key), row.why)
		back, _ := Transpose(got, h, choice.Transpose{})
		assert.Equal(t, tn, back, "up and then down is the same tune")
	}
}

// A high tune goes down rather than off the harp.
func TestTransposeStaysOnTheHarp(t *testing.T) {
	tn := written(t, "C6:1/4 A6:1/4")
	tn.Key, _ = pitch.Signature(pitch.Pitch{Octave: 4}, "major")
	got, _ := Transpose(tn, harp.Default(), choice.Transpose{ToKey: true, Tonic: pitch.Pitch{Letter: 1, Octave: 4}})
	assert.Equal(t, "D5", got.Voices[0].Events[0].Notes[0].Pitch.String(), "the highest string is A6")
}
