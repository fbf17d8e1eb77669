package pitch

import "strings"

// Shift gives the pitch that lies so many letters and semitones higher: a major
// third up is 2 and 4. Where that would take more than two sharps or flats, the
// next letter is taken.
func (p Pitch) Shift(letters, semitones int) Pitch {
	step, midi := p.Step()+letters, p.Midi()+semitones
	for {
		q := AtStep(step)
		switch alter := midi - q.Midi(); {
		case alter > 2:
			step++
		case alter < -2:
			step--
		default:
			q.Alter = int8(alter)
			return q
		}
	}
}

// Interval gives the letters of an interval of so many semitones, as it is most
// often spelt: a minor second, an augmented fourth.
func Interval(semitones int) (letters, same int) {
	octaves, rest := semitones/12, semitones%12
	if rest < 0 {
		octaves, rest = octaves-1, rest+12
	}
	return 7*octaves + [...]int{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6}[rest], semitones
}

// Shift gives the key that lies so many letters and semitones higher.
func (k Key) Shift(letters, semitones int) Key {
	to := Key{Name: k.Name}
	for letter, alter := range k.Alter {
		q := Pitch{Letter: int8(letter), Octave: 4, Alter: alter}.Shift(letters, semitones)
		to.Alter[q.Letter] = q.Alter
	}
	words := strings.Split(k.Name, " ")
	with := false
	for i, word := range words {
		comma := strings.HasSuffix(word, ",")
		p, ok := Parse(strings.TrimSuffix(word, ",") + "4")
		if ok && (i == 0 || with) {
			words[i] = p.Shift(letters, semitones).Name()
			if with && i+1 < len(words) && strings.HasPrefix(words[i+1], "natural") {
				words[i+1] = strings.TrimPrefix(words[i+1], "natural")
			}
			if with && len(words[i]) == 1 {
				words[i] += " natural"
			}
			if comma {
				words[i] += ","
			}
		}
		with = with || word == "with"
	}
	to.Name = strings.Join(strings.Fields(strings.ReplaceAll(strings.Join(words, " "), " ,", ",")), " ")
	return to
}
