package pitch

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestKnownPitches(t *testing.T) {
	for _, row := range []struct {
		name   string
		midi   int
		source string
	}{
		{"C4", 60, "MIDI 1.0: 60 is middle C"},
		{"A4", 69, "MIDI 1.0: 69 is the A of ISO 16, 440 Hz"},
		{"C0", 12, "arithmetic"},
		{"Eb3", 51, "arithmetic"},
		{"B#3", 60, "arithmetic: the same key as C4"},
		{"Cb4", 59, "arithmetic: the same key as B3"},
		{"F##4", 67, "arithmetic: the same key as G4"},
		{"Abb4", 67, "arithmetic: the same key as G4"},
	} {
		p, ok := Parse(row.name)
		require.True(t, ok, row.name)
		assert.Equal(t, row.midi, p.Midi(), "%s: %s", row.name, row.source)
		assert.Equal(t, row.name, p.String())
	}
}

func TestNamesThatAreNone(t *testing.T) {
	for _, name := range []string{"", "C", "H4", "4", "Cb", "C#b4x", "C###4", "Cbbb4", "C10", "C-1", "C4 ", "é4"} {
		_, ok := Parse(name)
		assert.False(t, ok, name)
	}
}

func TestParseGivesThePitchBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := AtStep(rapid.IntRange(0, 69).Draw(t, "step"))
		p.Alter = int8(rapid.IntRange(-2, 2).Draw(t, "alter"))
		for _, name := range []string{p.String(), strings.ToLower(p.String()[:1]) + p.String()[1:]} {
			q, ok := Parse(name)
			assert.True(t, ok)
			assert.Equal(t, p, q)
		}
		assert.Equal(t, p.Step(), AtStep(p.Step()).Step())
	})
	assert.Equal(t, Pitch{Letter: 6, Octave: -1}, AtStep(-1), "the B below C0")
}

// How many sharps (+) or flats (-) each key has: the circle of fifths as every
// primer has it; the modes as listed in ABC notation 2.1, section 3.1.14.
func TestSignatures(t *testing.T) {
	for _, row := range []struct {
		tonic, mode string
		count       int
		altered     string
	}{
		{"C", "major", 0, ""},
		{"G", "major", 1, "F#"},
		{"D", "major", 2, "F# C#"},
		{"C#", "major", 7, "F# C# G# D# A# E# B#"},
		{"Eb", "major", -3, "Bb Eb Ab"},
		{"Cb", "major", -7, "Bb Eb Ab Db Gb Cb Fb"},
		{"A", "minor", 0, ""},
		{"A#", "minor", 7, "F# C# G# D# A# E# B#"},
		{"D", "dorian", 0, ""},
		{"E", "phrygian", 0, ""},
		{"F", "lydian", 0, ""},
		{"G", "mixolydian", 0, ""},
		{"B", "locrian", 0, ""},
		{"C", "ionian", 0, ""},
		{"A", "aeolian", 0, ""},
		{"D", "mixolydian", 1, "F#"},
		{"G", "dorian", -1, "Bb"},
		{"F#", "dorian", 4, "F# C# G# D#"},
	} {
		tonic, ok := Parse(row.tonic + "4")
		require.True(t, ok)
		key, ok := Signature(tonic, row.mode)
		require.True(t, ok, row.tonic+row.mode)
		assert.Equal(t, row.tonic+" "+row.mode, key.Name)
		var want [7]int8
		for _, name := range strings.Fields(row.altered) {
			p, _ := Parse(name + "4")
			want[p.Letter] = p.Alter
		}
		assert.Equal(t, want, key.Alter, key.Name)
		sum := 0
		for _, a := range key.Alter {
			sum += int(a)
		}
		assert.Equal(t, row.count, sum, key.Name)
	}
	for _, far := range []struct{ tonic, mode string }{{"G#", "major"}, {"Fb", "major"}, {"B#", "minor"}, {"C#", "lydian"}} {
		tonic, _ := Parse(far.tonic + "4")
		_, ok := Signature(tonic, far.mode)
		assert.False(t, ok, far)
	}
}

// ABC notation 2.1, 3.1.14: the first three letters count, in any case; m is minor.
func TestModesByTheirLetters(t *testing.T) {
	for word, want := range map[string]string{"m": "minor", "M": "minor", "min": "minor", "Mixolydian": "mixolydian", "DOR": "dorian",
		"lydi": "lydian", "major": "major", "aeo": "aeolian", "ion": "ionian", "phr": "phrygian", "loc": "locrian"} {
		name, ok := ModeNamed(word)
		assert.True(t, ok, word)
		assert.Equal(t, want, name)
	}
	for _, word := range []string{"", "mi", "x", "exp", "bass"} {
		_, ok := ModeNamed(word)
		assert.False(t, ok, word)
	}
}
