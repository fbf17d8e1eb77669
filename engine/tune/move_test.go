package tune_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

func drawTune(t *rapid.T) tune.Tune {
	p := func(name string) pitch.Pitch {
		q := pitch.AtStep(rapid.IntRange(25, 45).Draw(t, name))
		q.Alter = int8(rapid.IntRange(-1, 1).Draw(t, name+" alter"))
		return q
	}
	modes := []string{"major", "minor", "dorian", "mixolydian"}
	var tn tune.Tune
	tonic := p("tonic")
	tonic.Alter = 0
	tn.Key, _ = pitch.Signature(tonic, rapid.SampledFrom(modes).Draw(t, "mode"))
	var v tune.Voice
	for range rapid.IntRange(1, 6).Draw(t, "events") {
		e := tune.Event{Notes: []tune.Note{{Pitch: p("note")}}, Chord: rapid.SampledFrom([]string{"", "Am7", "C/E", "F#m", "G(Em)", "Bbmaj7"}).Draw(t, "chord")}
		e.Graces = append(e.Graces, tune.Grace{Pitch: p("grace")})
		v.Events = append(v.Events, e)
	}
	v.Marks = append(v.Marks, tune.Mark{Kind: tune.NewKey, Key: tn.Key})
	tn.Voices = []tune.Voice{v}
	return tn
}

// Up and down again is the same tune; every note and key lies as far as was said.
func TestMoved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tn := drawTune(t)
		letters := rapid.IntRange(-9, 9).Draw(t, "letters")
		_, semitones := pitch.Interval(pitch.AtStep(letters).Midi() - pitch.AtStep(0).Midi() + rapid.IntRange(-1, 0).Draw(t, "off"))
		up, ok := tn.MovedTo(tune.Move{Letters: letters, Semitones: semitones})
		if !ok {
			return
		}
		for i, e := range up.Voices[0].Events {
			was := tn.Voices[0].Events[i]
			assert.Equal(t, was.Notes[0].Pitch.Midi()+semitones, e.Notes[0].Pitch.Midi())
			assert.Equal(t, was.Notes[0].Pitch.Step()+letters, e.Notes[0].Pitch.Step())
			assert.Equal(t, was.Graces[0].Pitch.Midi()+semitones, e.Graces[0].Pitch.Midi())
		}
		down, ok := up.MovedTo(tune.Move{})
		require.True(t, ok)
		require.Equal(t, tn, down)
	})
}

// Keys and chord symbols go along; the circle of fifths and spelling by interval
// are every primer's.
func TestMovedNames(t *testing.T) {
	g, _ := pitch.Signature(pitch.Pitch{Letter: 4}, "major")
	tn := tune.Tune{Key: g, Voices: []tune.Voice{{Events: []tune.Event{{Chord: "G"}, {Chord: "Em/B"}, {Chord: "D7(F#dim)"}, {Chord: "B♭"}, {Chord: "Gsus4"}}}}}
	up, ok := tn.MovedTo(tune.Move{Letters: 1, Semitones: 2})
	require.True(t, ok)
	assert.Equal(t, pitch.Key{Name: "A major", Alter: [7]int8{1, 0, 0, 1, 1, 0, 0}}, up.Key)
	var chords []string
	for _, e := range up.Voices[0].Events {
		chords = append(chords, e.Chord)
	}
	assert.Equal(t, []string{"A", "F#m/C#", "E7(G#dim)", "C", "Asus4"}, chords)
	for _, row := range []struct {
		key                pitch.Key
		letters, semitones int
		want               string
	}{
		{pitch.Key{Name: "D phrygian with F#, C natural", Alter: [7]int8{0, 0, -1, 1, 0, 0, -1}}, 1, 2, "E phrygian with G#, D natural"},
		{pitch.Key{Name: "D with Bb, F#", Alter: [7]int8{0, 0, 0, 1, 0, 0, -1}}, -1, -2, "C with Ab, E natural"},
		{pitch.Key{Name: "no key signature"}, 1, 2, "no key signature"},
	} {
		assert.Equal(t, row.want, row.key.Shift(row.letters, row.semitones).Name)
	}
}
