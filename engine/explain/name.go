package explain

import (
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// book knows what to call each written note: by its name and bar, and by its
// turn where the bar has several of that name.
type book struct {
	s     *score.Score
	turn  map[int]int   // by written note: the how-manieth of its name in its bar
	total map[named]int // how many of one name a bar has
}

type named struct {
	bar  int
	name string
}

func newBook(s *score.Score) *book {
	b := &book{s: s, turn: map[int]int{}, total: map[named]int{}}
	for i := range s.Events {
		for _, n := range s.Events[i].Notes {
			if b.turn[n.Written] == 0 {
				key := named{s.Events[i].Bar, b.str(n.String)}
				b.total[key]++
				b.turn[n.Written] = b.total[key]
			}
		}
	}
	return b
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

// short names a note inside its bar: "D", or "the first D" where there are more.
func (b *book) short(event, note int) string {
	n := b.s.Events[event].Notes[note]
	name := b.str(n.String)
	if b.total[named{b.s.Events[event].Bar, name}] < 2 {
		return "the " + name
	}
	return "the " + ordinal(b.turn[n.Written]) + " " + name
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

// Effort writes a cost in charges as the page shows it, to one decimal: "12",
// "0.4".
func Effort(c plan.Cost) string {
	tenths := (int64(c)*10 + int64(plan.Charge)/2) / int64(plan.Charge)
	if c < 0 {
		tenths = -((-int64(c)*10 + int64(plan.Charge)/2) / int64(plan.Charge))
	}
	sign := ""
	if tenths < 0 {
		sign, tenths = "-", -tenths
	}
	if tenths%10 == 0 {
		return sign + strconv.FormatInt(tenths/10, 10)
	}
	return sign + strconv.FormatInt(tenths/10, 10) + "." + strconv.FormatInt(tenths%10, 10)
}

// fingers says which fingers lie on which strings, in the order in which they
// play: "1 2 3 4 on E D C A". Strings of one name are told apart.
func (b *book) fingers(frame hand.Frame, rising bool) string {
	var who, where []string
	for i := range frame {
		f := i
		if rising {
			f = 3 - i
		}
		if frame[f] != hand.None {
			who = append(who, number(f))
			where = append(where, b.apart(frame, f))
		}
	}
	return strings.Join(who, " ") + " on " + strings.Join(where, " ")
}

// apart names the string of a finger, and says low or high where the frame
// holds two of that name.
func (b *book) apart(frame hand.Frame, f int) string {
	name := b.str(frame[f])
	for _, t := range frame {
		if t == hand.None || t == frame[f] || b.str(t) != name {
			continue
		}
		if t > frame[f] {
			return "low " + name
		}
		return "high " + name
	}
	return name
}
