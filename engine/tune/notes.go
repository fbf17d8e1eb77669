package tune

import (
	"cmp"

	"readyhand/engine/source"
)

// Heard is one sounding note as a reader of notation hears it, for comparison
// with other readers: ties are joined, graces and ornaments are not played.
// Times are in whole notes from the start of its voice, Midi is the key number
// of the MIDI 1.0 standard, 60 for middle C.
type Heard struct {
	Onset, Length Frac
	Midi          int
}

// Notes gives the notes of a tune voice by voice, each voice in the order of
// time and a chord from its lowest note: as they are written, each bar once,
// and as they are played, with repeats, endings and parts carried out.
func (t Tune) Notes() (written, played []Heard) {
	for i := range t.Voices {
		v := &t.Voices[i]
		var w, p hearing
		for k := range v.Events {
			w.hear(&v.Events[k], v.Events[k].Onset)
		}
		for k, s := range v.Played {
			if k > 0 && s.Event != v.Played[k-1].Event+1 {
				p.last = [128]int{} // a repeat or a part: no tie leads there
			}
			p.hear(&v.Events[s.Event], s.Onset)
		}
		written = append(written, w.notes...)
		played = append(played, p.notes...)
	}
	return written, played
}

// hearing is what was heard of one voice so far.
type hearing struct {
	notes []Heard
	last  [128]int // for each key, one more than the place of its last note; 0 before it
}

// hear adds an event at its onset. A tied note lengthens the one before it if
// that still sounds up to here: after a jump it does not, and is struck.
func (h *hearing) hear(e *Event, onset Frac) {
	from := len(h.notes)
	for _, n := range e.Notes {
		key := min(max(n.Pitch.Midi(), 0), len(h.last)-1)
		if at := h.last[key] - 1; n.Tied && at >= 0 && h.notes[at].Onset.Add(h.notes[at].Length) == onset {
			h.notes[at].Length = h.notes[at].Length.Add(e.Length)
			continue
		}
		h.notes = append(h.notes, Heard{onset, e.Length, key})
	}
	source.Order(h.notes[from:], func(a, b Heard) int { return cmp.Compare(a.Midi, b.Midi) })
	for i := from; i < len(h.notes); i++ {
		h.last[h.notes[i].Midi] = i + 1
	}
}
