package tune

import (
	"strings"

	"readyhand/engine/pitch"
)

// Move is how far a tune has been transposed since it was read: letters, each a
// string of a harp, and semitones. Up is positive.
type Move struct{ Letters, Semitones int }

// MovedTo gives the tune so far from where it was read: notes, grace notes, keys
// and chord symbols; all else is as it was. So a tune that was moved up and is
// moved back to Move{} is the same tune. ok is false where a note would need more
// than two sharps or flats, or lie where pitches have no name.
func (t Tune) MovedTo(to Move) (moved Tune, ok bool) {
	letters, semitones := to.Letters-t.Moved.Letters, to.Semitones-t.Moved.Semitones
	if letters == 0 && semitones == 0 {
		return t, true
	}
	ok = true
	shift := func(p pitch.Pitch) pitch.Pitch {
		q := p.Shift(letters, semitones)
		ok = ok && q.Step() == p.Step()+letters && q.Octave >= 0 && q.Octave <= 9
		return q
	}
	t.Moved, t.Key = to, t.Key.Shift(letters, semitones)
	t.Voices = append([]Voice(nil), t.Voices...)
	for i := range t.Voices {
		v := &t.Voices[i]
		v.Events = append([]Event(nil), v.Events...)
		for k := range v.Events {
			e := &v.Events[k]
			e.Notes = append([]Note(nil), e.Notes...)
			for n := range e.Notes {
				if !e.Notes[n].Beyond {
					e.Notes[n].Pitch = shift(e.Notes[n].Pitch)
				}
			}
			e.Graces = append([]Grace(nil), e.Graces...)
			for n := range e.Graces {
				if !e.Graces[n].Beyond {
					e.Graces[n].Pitch = shift(e.Graces[n].Pitch)
				}
			}
			e.Chord = movedChord(e.Chord, letters, semitones)
		}
		v.Marks = append([]Mark(nil), v.Marks...)
		for k := range v.Marks {
			if v.Marks[k].Kind == NewKey {
				v.Marks[k].Key = v.Marks[k].Key.Shift(letters, semitones)
			}
		}
	}
	return t, ok
}

// movedChord moves the roots and the bass of a chord symbol (ABC 2.1, 4.18):
// "C/E", "G(Em)".
func movedChord(chord string, letters, semitones int) string {
	if chord == "" {
		return ""
	}
	chord = strings.NewReplacer("♯", "#", "♭", "b").Replace(chord)
	var b strings.Builder
	root := true
	for chord != "" {
		n := 1
		if root && strings.IndexByte("ABCDEFG", chord[0]) >= 0 {
			for n < len(chord) && n < 3 && (chord[n] == '#' || chord[n] == 'b') {
				n++
			}
			if p, ok := pitch.Parse(chord[:n] + "4"); ok {
				b.WriteString(p.Shift(letters, semitones).Name())
				chord, root = chord[n:], false
				continue
			}
			n = 1
		}
		root = chord[0] == '/' || chord[0] == '(' || chord[0] == ' '
		b.WriteString(chord[:n])
		chord = chord[n:]
	}
	return b.String()
}
