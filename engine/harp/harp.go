// Package harp is the instrument: its strings, their distances and colours,
// and what its levers can give.
package harp

import (
	"slices"

	"readyhand/engine/pitch"
)

// Harp is one instrument. Strings are numbered from 0 at the lowest; plan -json
// and the page count them from 1.
type Harp struct {
	Strings []String
	Tuning  string // name of the key with all levers down: "Eb", "C", "Ab" or "F"
	Spacing int32  // micrometres, centre to centre
}

// String is one string: its pitch with the lever down, and how far it lies
// above the lowest string, in micrometres.
type String struct {
	Pitch pitch.Pitch
	At    int32
}

// Tunings are the four that are offered, the usual one first (read: a British
// maker lists Eb, C and Ab; F is that of partly levered harps).
func Tunings() []string { return []string{"Eb", "C", "Ab", "F"} }

// New strings a harp: count strings from the string of lowest's letter and
// octave upward, tuned to the major key named, all levers down, with this
// spacing in micrometres. It reports false for an unknown tuning, fewer than 8
// or more than 47 strings, a spacing outside 8-25 mm, or a range beyond C0-B9.
// (47 strings is the concert harp, the most any harp here can have; the bounds
// of spacing are guesses around the 12-17 mm that makers give.)
func New(count int, lowest pitch.Pitch, tuning string, spacing int32) (Harp, bool) {
	tonic, ok := pitch.Parse(tuning + "4")
	known := false
	for _, t := range Tunings() {
		known = known || t == tuning
	}
	if !ok || !known || count < 8 || count > 47 || spacing < 8000 || spacing > 25000 {
		return Harp{}, false
	}
	key, _ := pitch.Signature(tonic, "major")
	h := Harp{Tuning: tuning, Spacing: spacing}
	for i := range count {
		step := lowest.Step() + i
		if step < 0 || step >= 70 {
			return Harp{}, false
		}
		p := pitch.AtStep(step)
		p.Alter = key.Alter[p.Letter]
		h.Strings = append(h.Strings, String{Pitch: p, At: int32(i) * spacing})
	}
	return h, true
}

// The strings and the spacing, in micrometres, of the harp that is meant when
// nobody says.
const (
	UsualStrings = 34
	UsualSpacing = 14500
)

// Default is the harp that is meant when nobody says: 34 strings from C2 in
// E-flat at 14.5 mm (34 and E-flat are the most usual, read; the range is from
// memory).
func Default() Harp {
	h, _ := New(UsualStrings, pitch.Pitch{Octave: 2}, "Eb", UsualSpacing)
	return h
}

// Find gives the string of a pitch's letter and octave, and whether its lever
// must be up. ok is false where the harp has no such string or its lever gives
// no such pitch.
func (h Harp) Find(p pitch.Pitch) (index int, raised, ok bool) {
	index = h.At(p.Step())
	if index < 0 {
		return -1, false, false
	}
	switch p.Alter - h.Strings[index].Pitch.Alter {
	case 0:
		return index, false, true
	case 1:
		return index, true, true
	}
	return index, false, false
}

// At gives the string that lies this many letters above C0, or -1.
func (h Harp) At(step int) int {
	i := step - h.Strings[0].Pitch.Step()
	if i < 0 || i >= len(h.Strings) {
		return -1
	}
	return i
}

// Respell gives another spelling of a pitch that this harp's levers can give:
// for D-flat on an E-flat harp, C with its lever up.
func (h Harp) Respell(p pitch.Pitch) (pitch.Pitch, bool) {
	for _, d := range []int{-1, 1} {
		q := pitch.AtStep(p.Step() + d)
		alter := p.Midi() - q.Midi()
		if alter < -2 || alter > 2 {
			continue
		}
		q.Alter = int8(alter)
		if _, _, ok := h.Find(q); ok {
			return q, true
		}
	}
	return pitch.Pitch{}, false
}

// Distance between two strings in micrometres, never negative.
func (h Harp) Distance(a, b int8) int32 {
	d := h.Strings[a].At - h.Strings[b].At
	if d < 0 {
		return -d
	}
	return d
}

// Colour of a string as on every harp (read: Bochsa, The First Six Weeks, c.
// 1835): C red, F dark, the others plain. Never rely on it alone.
func (s String) Colour() string {
	switch s.Pitch.Letter {
	case 0:
		return "red"
	case 3:
		return "dark"
	}
	return "plain"
}

// Sounding gives the pitch of the string with its lever up or down.
func (s String) Sounding(raised bool) pitch.Pitch {
	p := s.Pitch
	if raised {
		p.Alter++
	}
	return p
}

// Same reports whether two harps have the same strings in the same places.
func (h Harp) Same(other Harp) bool {
	return h.Tuning == other.Tuning && slices.Equal(h.Strings, other.Strings)
}
