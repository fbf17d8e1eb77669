package explain

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// book knows what to call each written note: by its name and bar, as low or
// high where the bar has that name in more than one octave, and by its turn
// where it has the same note several times.
type book struct {
	s       *score.Score
	turn    map[int]int      // by written note: the how-manieth of its kind in its bar
	total   map[alike]int    // how many of one kind a bar has
	octaves map[named][]int8 // the strings on which a bar has a name, from the lowest
}

type named struct {
	bar  int
	name string
}

// alike are notes of one name on one string in one bar.
type alike struct {
	named
	string int8
}

func newBook(s *score.Score) *book {
	b := &book{s: s, turn: map[int]int{}, total: map[alike]int{}, octaves: map[named][]int8{}}
	for i := range s.Events {
		for _, n := range s.Events[i].Notes {
			if b.turn[n.Written] > 0 {
				continue
			}
			key := named{s.Events[i].Bar, b.called(n)}
			b.total[alike{key, n.String}]++
			b.turn[n.Written] = b.total[alike{key, n.String}]
			if at, found := slices.BinarySearch(b.octaves[key], n.String); !found {
				b.octaves[key] = slices.Insert(b.octaves[key], at, n.String)
			}
		}
	}
	return b
}

// called is the name of a note as it sounds when it is played.
func (b *book) called(n score.Note) string {
	if n.String < 0 || int(n.String) >= len(b.s.Harp.Strings) {
		return "no string"
	}
	return spoken(b.s.Harp.Strings[n.String].Sounding(n.Raised))
}

// str is the name of a string as it sounds at the start: "F sharp".
func (b *book) str(t int8) string {
	if t < 0 || int(t) >= len(b.s.Harp.Strings) {
		return "no string"
	}
	return spoken(b.sounding(t))
}

func (b *book) sounding(t int8) pitch.Pitch {
	return b.s.Harp.Strings[t].Sounding(int(t) < len(b.s.Raised) && b.s.Raised[t])
}

func spoken(p pitch.Pitch) string {
	return pitch.Pitch{Letter: p.Letter}.Name() + [...]string{" double flat", " flat", "", " sharp", " double sharp"}[max(0, min(4, p.Alter+2))]
}

// short names a note inside its bar: "the D", "the first D" where there are
// more, "the low D" where there is another in a higher octave.
func (b *book) short(event, note int) string {
	n := b.s.Events[event].Notes[note]
	key := named{b.s.Events[event].Bar, b.called(n)}
	text := "the "
	if b.total[alike{key, n.String}] > 1 {
		text += ordinal(b.turn[n.Written]) + " "
	}
	switch on := b.octaves[key]; {
	case len(on) < 2:
	case n.String == on[0]:
		text += "low "
	case n.String == on[len(on)-1]:
		text += "high "
	default:
		text += "middle "
	}
	return text + key.name
}

// note names a note with its bar: "the first D in bar 2".
func (b *book) note(event, note int) string {
	return b.short(event, note) + " in " + bar(b.s.Events[event].Bar)
}

func bar(n int) string {
	if n == 0 {
		return "the pickup"
	}
	return "bar " + strconv.Itoa(n)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

var ordinals = [...]string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}

func ordinal(n int) string {
	if n < len(ordinals) {
		return ordinals[n]
	}
	return strconv.Itoa(n) + "th"
}

// finger calls finger f (0 the thumb) by its number, the thumb by its name.
func finger(f int) string {
	if f == 0 {
		return "the thumb"
	}
	return strconv.Itoa(f + 1)
}

func number(f int) string { return strconv.Itoa(f + 1) }

// list joins words as they are spoken: "a, b and c".
func list(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// Effort writes a cost as the page shows it, in whole charges: "12". Charges
// are guesses, and a finer number would claim too much.
func Effort(c plan.Cost) string {
	half := int64(plan.Charge) / 2
	if c < 0 {
		return strconv.FormatInt((int64(c)-half)/int64(plan.Charge), 10)
	}
	return strconv.FormatInt((int64(c)+half)/int64(plan.Charge), 10)
}

// fingers gives the fingers of a frame and the names of their strings, in the
// order in which they play. Strings of one name among those spoken of are told
// apart.
func (b *book) fingers(frame hand.Frame, rising bool, among ...hand.Frame) (who, where []string) {
	for i := range frame {
		f := i
		if rising {
			f = 3 - i
		}
		if frame[f] != hand.None {
			who = append(who, number(f))
			where = append(where, b.apart(frame[f], append(among, frame)...))
		}
	}
	return who, where
}

// apart names a string, and says low or high where those spoken of with it have
// its name in another octave.
func (b *book) apart(t int8, among ...hand.Frame) string {
	name := b.str(t)
	below, above := false, false
	for _, frame := range among {
		for _, u := range frame {
			if u != hand.None && b.str(u) == name {
				below, above = below || u < t, above || u > t
			}
		}
	}
	switch {
	case below && above:
		return "middle " + name
	case below:
		return "high " + name
	case above:
		return "low " + name
	}
	return name
}
