package tune_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// event is one event of these notes: quarter by quarter, tied or not.
func event(onset int64, tied bool, names ...string) tune.Event {
	e := tune.Event{Onset: tune.NewFrac(onset, 4), Length: tune.NewFrac(1, 4)}
	for _, name := range names {
		p, _ := pitch.Parse(name)
		e.Notes = append(e.Notes, tune.Note{Pitch: p, Tied: tied})
	}
	return e
}

func heard(onset, length int64, midi int) tune.Heard {
	return tune.Heard{Onset: tune.NewFrac(onset, 4), Length: tune.NewFrac(length, 4), Midi: midi}
}

// Ties are joined where the note before still sounds, in played order too, but not
// where a repeat goes back: no tie is written there. A chord is heard from its
// lowest note; a rest and a grace are not heard.
func TestNotes(t *testing.T) {
	v := tune.Voice{Events: []tune.Event{
		event(0, true, "C5"), // tied to what came before; the second time something else does
		event(1, false, "G4", "C4", "E4"),
		event(2, true, "E4", "G4"),
		event(3, false),
		event(4, false, "C5"),
	}}
	v.Events[1].Graces = []tune.Grace{{}}
	for i, e := range []int{0, 1, 2, 3, 4, 0, 1} {
		v.Played = append(v.Played, tune.Step{Event: e, Onset: tune.NewFrac(int64(i), 4)})
	}
	low := tune.Voice{Events: []tune.Event{event(0, false, "C2")}, Played: []tune.Step{{Onset: tune.NewFrac(0, 1)}}}
	written, played := tune.Tune{Voices: []tune.Voice{v, low}}.Notes()
	chord := []tune.Heard{heard(0, 1, 72), heard(1, 1, 60), heard(1, 2, 64), heard(1, 2, 67)}
	assert.Equal(t, append(chord, heard(4, 1, 72), heard(0, 1, 36)), written)
	assert.Equal(t, append(chord[:4:4], heard(4, 1, 72), heard(5, 1, 72), heard(6, 1, 60), heard(6, 1, 64), heard(6, 1, 67), heard(0, 1, 36)), played)
}

// What no instrument has is heard at the end of the keys.
func TestNotesBeyond(t *testing.T) {
	written, _ := tune.Tune{Voices: []tune.Voice{{Events: []tune.Event{event(0, false, "B9"), event(1, true, "B9")}}}}.Notes()
	assert.Equal(t, []tune.Heard{heard(0, 2, 127)}, written)
	written, played := tune.Tune{}.Notes()
	assert.Empty(t, append(written, played...))
}
