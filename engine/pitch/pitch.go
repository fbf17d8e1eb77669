// Package pitch is what a note head says: a letter, an octave, an alteration,
// and the key that alters it.
package pitch

import "strconv"

// Pitch is a sounding pitch as written: C4 is middle C (scientific pitch
// notation, ISO 16 tunes its A to 440 Hz).
type Pitch struct {
	Letter int8 // 0 C, 1 D, 2 E, 3 F, 4 G, 5 A, 6 B
	Octave int8 // 4 is the octave from middle C up
	Alter  int8 // semitones: -2 double flat ... 2 double sharp
}

const letters = "CDEFGAB"

var semitones = [7]int{0, 2, 4, 5, 7, 9, 11}

// Step counts the letters from C0; a harp has one string for each step.
func (p Pitch) Step() int { return int(p.Octave)*7 + int(p.Letter) }

// Midi is the key number of the MIDI 1.0 standard: 60 is middle C.
func (p Pitch) Midi() int { return 12*(int(p.Octave)+1) + semitones[p.Letter] + int(p.Alter) }

// String gives the name as "F#4", "Eb3", "C5"; doubles as "F##4", "Ebb3".
func (p Pitch) String() string { return p.Name() + strconv.Itoa(int(p.Octave)) }

// Name gives the name without the octave: "F#".
func (p Pitch) Name() string {
	return letters[p.Letter:p.Letter+1] + [...]string{"bb", "b", "", "#", "##"}[p.Alter+2]
}

// AtStep gives the natural pitch that lies this many letters above C0.
func AtStep(step int) Pitch {
	octave := step / 7
	if step%7 < 0 {
		octave--
	}
	return Pitch{Letter: int8(step - 7*octave), Octave: int8(octave)}
}

// Parse reads a name such as "C2", "Eb4", "F#5"; it reports whether it is one.
func Parse(name string) (Pitch, bool) {
	var p Pitch
	if name == "" {
		return p, false
	}
	i := 0
	for ; i < 7; i++ {
		if name[0] == letters[i] || name[0] == letters[i]+'a'-'A' {
			break
		}
	}
	if i == 7 {
		return p, false
	}
	p.Letter = int8(i)
	rest := name[1:]
	for len(rest) > 0 && (rest[0] == '#' || rest[0] == 'b') && p.Alter > -2 && p.Alter < 2 {
		if rest[0] == '#' {
			p.Alter++
		} else {
			p.Alter--
		}
		rest = rest[1:]
	}
	octave, err := strconv.ParseInt(rest, 10, 8)
	if err != nil || octave < 0 || octave > 9 {
		return Pitch{}, false
	}
	p.Octave = int8(octave)
	return p, true
}

// Key is what a key signature does: Alter holds the alteration of each letter
// from C to B, Name what a player calls it ("G major", "A dorian").
type Key struct {
	Name  string
	Alter [7]int8
}

// fifths gives each letter's place on the line of fifths, with C at 0; and
// sharps are added to the letters in this order, flats in the reverse.
var (
	fifths = [7]int{0, 2, 4, -1, 1, 3, 5}
	sharps = [7]int8{3, 0, 4, 1, 5, 2, 6}
)

// Modes as the number of fifths their signature lies below the major one on
// the same tonic (ABC notation 2.1, section 3.1.14).
var modes = []struct {
	Name  string
	Below int
}{
	{"major", 0}, {"ionian", 0}, {"mixolydian", 1}, {"dorian", 2}, {"minor", 3}, {"aeolian", 3},
	{"phrygian", 4}, {"locrian", 5}, {"lydian", -1},
}

// ModeNamed finds a mode by its first three letters in any case, or "m" for minor.
func ModeNamed(word string) (name string, ok bool) {
	if word == "m" || word == "M" {
		return "minor", true
	}
	if len(word) < 3 {
		return "", false
	}
	for _, m := range modes {
		if equalFold(word[:3], m.Name[:3]) {
			return m.Name, true
		}
	}
	return "", false
}

func equalFold(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range len(a) {
		if a[i]|0x20 != b[i]|0x20 {
			return false
		}
	}
	return true
}

// Signature gives the key of a tonic (its octave does not count) and a mode's
// full name. It reports false where the signature would need more than seven
// sharps or flats.
func Signature(tonic Pitch, mode string) (Key, bool) {
	count := fifths[tonic.Letter] + 7*int(tonic.Alter)
	for _, m := range modes {
		if m.Name == mode {
			count -= m.Below
			break
		}
	}
	if count < -7 || count > 7 {
		return Key{}, false
	}
	k := Key{Name: tonic.Name() + " " + mode}
	for i := range count {
		k.Alter[sharps[i]] = 1
	}
	for i := range -count {
		k.Alter[sharps[6-i]] = -1
	}
	return k, true
}
