package harp

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/pitch"
)

func tuned(t require.TestingT, tuning string) Harp {
	h, ok := New(34, pitch.Pitch{Octave: 2}, tuning, 14500)
	require.True(t, ok)
	return h
}

func major(t require.TestingT, tonic string) pitch.Key {
	p, ok := pitch.Parse(tonic + "4")
	require.True(t, ok)
	k, ok := pitch.Signature(p, "major")
	require.True(t, ok)
	return k
}

// levers gives the letters whose levers a key needs, in the order in which
// sharps are added, B first; ok is false where a string cannot give the note.
func levers(h Harp, k pitch.Key) (up string, ok bool) {
	for _, letter := range "BEADGCF" {
		p, _ := pitch.Parse(string(letter) + "4")
		p.Alter = k.Alter[p.Letter]
		_, raised, ok := h.Find(p)
		if !ok {
			return "", false
		}
		if raised {
			up += string(letter)
		}
	}
	return up, true
}

func TestLeversOfKeys(t *testing.T) {
	const arithmetic = "arithmetic: each key's signature less the tuning's"
	for _, row := range []struct{ tuning, key, up, source string }{
		{"Eb", "C", "BEA", "K20: E-flat tuning, key of C: raise E, A and B (a harp academy's page on levers)"},
		{"Eb", "Eb", "", arithmetic},
		{"Eb", "Bb", "A", arithmetic},
		{"Eb", "F", "EA", arithmetic},
		{"Eb", "G", "BEAF", arithmetic},
		{"Eb", "D", "BEACF", arithmetic},
		{"Eb", "A", "BEAGCF", arithmetic},
		{"Eb", "E", "BEADGCF", arithmetic},
		{"C", "C", "", arithmetic},
		{"C", "G", "F", arithmetic},
		{"C", "D", "CF", arithmetic},
		{"C", "A", "GCF", arithmetic},
		{"C", "E", "DGCF", arithmetic},
		{"C", "B", "ADGCF", arithmetic},
		{"F", "F", "", "F tuning: no lever for F (coceltic, Levers)"},
		{"F", "C", "B", "F tuning: B for C (coceltic, Levers)"},
		{"F", "G", "BF", "F tuning: B and F for G (coceltic, Levers)"},
		{"F", "D", "BCF", "F tuning: B, F and C for D (coceltic, Levers)"},
		{"Ab", "Ab", "", arithmetic},
		{"Ab", "Eb", "D", arithmetic},
		{"Ab", "Bb", "AD", arithmetic},
		{"Ab", "C", "BEAD", arithmetic},
		{"Ab", "A", "BEADGCF", arithmetic},
	} {
		up, ok := levers(tuned(t, row.tuning), major(t, row.key))
		assert.True(t, ok, "%s harp, key of %s: %s", row.tuning, row.key, row.source)
		assert.Equal(t, row.up, up, "%s harp, key of %s: %s", row.tuning, row.key, row.source)
	}
}

var circle = strings.Fields("Cb Gb Db Ab Eb Bb F C G D A E B F# C#")

// J8: E-flat tuning, all levers: from three flats to four sharps, no others
// (EMDKB, Harpe celtique).
func TestKeysOfAnEFlatHarp(t *testing.T) {
	var keys []string
	for _, key := range circle {
		if _, ok := levers(tuned(t, "Eb"), major(t, key)); ok {
			keys = append(keys, key)
		}
	}
	assert.Equal(t, strings.Fields("Eb Bb F C G D A E"), keys)
}

// J1: F tuning with levers on B, F and C alone: F, C, G and D, nothing else
// (coceltic, Levers).
func TestKeysOfAPartlyLeveredHarp(t *testing.T) {
	var keys []string
	for _, key := range circle {
		if up, ok := levers(tuned(t, "F"), major(t, key)); ok && strings.Trim(up, "BFC") == "" {
			keys = append(keys, key)
		}
	}
	assert.Equal(t, strings.Fields("F C G D"), keys)
}

// J3: the notes to be had on an E-flat harp (Pool, in Composing for the Harp).
func TestNotesOfAnEFlatHarp(t *testing.T) {
	want := strings.Fields("C C# D D# Eb E F F# G G# Ab A Bb B")
	h := tuned(t, "Eb")
	var got []string
	for _, s := range h.Strings[:7] {
		got = append(got, s.Sounding(false).Name(), s.Sounding(true).Name())
	}
	assert.ElementsMatch(t, want, got)
	for letter := range "CDEFGAB" {
		for alter := int8(-2); alter <= 2; alter++ {
			p := pitch.Pitch{Letter: int8(letter), Octave: 4, Alter: alter}
			_, _, ok := h.Find(p)
			assert.Equal(t, slices.Contains(want, p.Name()), ok, p.Name())
		}
	}
}

func TestRespelling(t *testing.T) {
	for _, row := range []struct{ tuning, want, instead, source string }{
		{"Eb", "A#4", "Bb4", "J5: A. Coursen, Find Another Note, 2016: B-flat, its lever down"},
		{"Eb", "Db5", "C#5", "arithmetic: C with its lever up"},
		{"Eb", "Cb5", "B4", "arithmetic: over the octave"},
		{"Eb", "B#4", "C5", "arithmetic: over the octave"},
		{"C", "Eb4", "D#4", "arithmetic"},
		{"C", "F##4", "G4", "arithmetic"},
		{"C", "Gbb4", "F4", "arithmetic"},
	} {
		p, _ := pitch.Parse(row.want)
		q, ok := tuned(t, row.tuning).Respell(p)
		assert.True(t, ok, row.want)
		assert.Equal(t, row.instead, q.String(), "%s on a harp in %s: %s", row.want, row.tuning, row.source)
	}
	_, ok := tuned(t, "Eb").Respell(pitch.Pitch{Letter: 5, Octave: 0, Alter: 1})
	assert.False(t, ok, "A#0 lies below the harp under either name")
}

// A respelling is another name of the same sound, on a string the harp has.
func TestRespellingSoundsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := tuned(t, rapid.SampledFrom(Tunings()).Draw(t, "tuning"))
		p := pitch.AtStep(rapid.IntRange(0, 69).Draw(t, "step"))
		p.Alter = int8(rapid.IntRange(-2, 2).Draw(t, "alter"))
		if i, raised, ok := h.Find(p); ok {
			assert.Equal(t, p, h.Strings[i].Sounding(raised))
		}
		q, ok := h.Respell(p)
		if !ok {
			return
		}
		assert.Equal(t, p.Midi(), q.Midi())
		assert.NotEqual(t, p, q)
		_, _, ok = h.Find(q)
		assert.True(t, ok)
	})
}

// K21: an octave at middle C lies 101 to 112 mm apart: seven gaps of the 14.5 to 16 mm
// that makers' pages give there; at 14.5 mm it is 101.5.
func TestOctave(t *testing.T) {
	h := Default()
	c4, _, _ := h.Find(pitch.Pitch{Octave: 4})
	c5, _, _ := h.Find(pitch.Pitch{Octave: 5})
	assert.Equal(t, int32(101500), h.Distance(int8(c4), int8(c5)))
	assert.Equal(t, int32(101500), h.Distance(int8(c5), int8(c4)))
	// and a tenth: arithmetic
	assert.Equal(t, int32(130500), h.Distance(10, 19))
}

// Ranges usual for these numbers of strings (from memory).
func TestRanges(t *testing.T) {
	for _, row := range []struct {
		count     int
		low, high string
	}{{22, "C4", "C7"}, {26, "C3", "G6"}, {26, "G3", "D7"}, {34, "C2", "A6"}, {36, "C2", "C7"}} {
		low, _ := pitch.Parse(row.low)
		h, ok := New(row.count, low, "C", 14500)
		require.True(t, ok)
		assert.Len(t, h.Strings, row.count)
		assert.Equal(t, row.low, h.Strings[0].Pitch.String())
		assert.Equal(t, row.high, h.Strings[row.count-1].Pitch.String())
		assert.Equal(t, -1, h.At(low.Step()-1))
		assert.Equal(t, -1, h.At(low.Step()+row.count))
		assert.Equal(t, row.count-1, h.At(low.Step()+row.count-1))
	}
}

func TestNoSuchHarp(t *testing.T) {
	for _, row := range []struct {
		why     string
		count   int
		low     int8
		tuning  string
		spacing int32
	}{
		{"no strings", 0, 2, "Eb", 14500},
		{"too few", 7, 2, "Eb", 14500},
		{"more than a concert harp", 48, 2, "Eb", 14500},
		{"a tuning nobody offers", 34, 2, "D", 14500},
		{"no tuning", 34, 2, "", 14500},
		{"too narrow", 34, 2, "Eb", 7999},
		{"too wide", 34, 2, "Eb", 25001},
		{"too low", 34, -1, "Eb", 14500},
		{"too high", 34, 6, "Eb", 14500},
	} {
		_, ok := New(row.count, pitch.Pitch{Octave: row.low}, row.tuning, row.spacing)
		assert.False(t, ok, row.why)
	}
}

// Every C string is red, every F string dark, the others plain (Bochsa, The
// First Six Weeks, c. 1835).
func TestColours(t *testing.T) {
	for _, s := range Default().Strings {
		want := map[string]string{"C": "red", "F": "dark"}[s.Pitch.Name()[:1]]
		if want == "" {
			want = "plain"
		}
		assert.Equal(t, want, s.Colour(), s.Pitch.String())
	}
}
