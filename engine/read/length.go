package read

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// denominators is a multiple of the denominator of every length we take: down
// to 1/4096 (a 1/128 in a >>> pair inside a chord), in tuplets of up to 16
// (2, 3, 5, 7, 11, 13). With it no sum of lengths can grow out of 64 bits.
const denominators = (1 << 12) * 3 * 3 * 5 * 7 * 11 * 13

// longest is the longest event in whole notes, rests of many bars apart (guess).
const longest = 64

// headLength keeps L: until the header is read.
func (r *reader) headLength(v value) { r.head.length = v }

// bodyLength sets the length of a plain note (ABC 2.1, 3.1.7).
func (r *reader) bodyLength(v value) {
	if v.empty() {
		return
	}
	text := v.text
	f, ok := fraction(text)
	if !ok { // "1/4.", "1/8=90": what it begins with
		text = text[:len(text)-len(strings.TrimLeft(text, digits+"/"))]
		f, ok = fraction(text)
	}
	switch {
	case !ok || !unitLength(f):
		r.say(badLength, v.Span, "The note length "+source.Quote(v.text)+" cannot be read.", "Write L:1/8, L:1/4 or L:1/16.")
		return
	case text != v.text:
		r.say(badLength, v.Span, "The note length "+source.Quote(v.text)+" is read as "+text+".", "Write L:"+text+" and nothing after it.")
	}
	r.unit = f
}

// unitLength reports a length that a plain note may have.
func unitLength(f tune.Frac) bool { return f.N <= f.D && f.D <= 128 && f.D&(f.D-1) == 0 }

// length reads what stands after a note, rest or chord: "2", "/", "//", "3/2"
// (ABC 2.1, 4.3), as a multiple of the length of a plain note.
func (r *reader) length() tune.Frac {
	from := r.at
	n, d, ok := int64(1), int64(1), true
	if isDigit(r.peek(0)) {
		n, ok = upTo(r.take(digits), 6)
	}
	if slashes := r.take("/"); slashes != "" {
		d = 1 << min(len(slashes), 12)
		if isDigit(r.peek(0)) {
			d, ok = denominator(r.take(digits), slashes, ok)
		}
		ok = ok && len(slashes) <= 7
	}
	if !ok {
		r.wrongLength(span(from, r.at))
		return tune.Frac{N: 1, D: 1}
	}
	return tune.NewFrac(n, d)
}

// denominator reads the number after a slash. "//2" is not ABC.
func denominator(number, slashes string, so bool) (int64, bool) {
	d, ok := upTo(number, 6)
	if !ok || len(slashes) > 1 {
		return 1, false
	}
	return d, so
}

// rightLength gives an event's length if we can count with it, else the length
// of a plain note, and says so.
func (r *reader) rightLength(f tune.Frac, place source.Span) tune.Frac {
	if denominators%f.D != 0 || f.N > longest*f.D {
		r.wrongLength(place)
		return r.unit
	}
	if f.N*128 < f.D {
		r.say(veryShort, place, "This note is shorter than a 128th, the shortest there is.", "Write a longer note, or a grace note in {}.")
	}
	return f
}

func (r *reader) wrongLength(place source.Span) {
	r.say(badNoteLength, place, "This note length cannot be read; a plain note is played.",
		"Write 2 for twice as long, / for half, 3/2 for one and a half.")
}

const digits = "0123456789"

// whole reads a number from 1 to 9999.
func whole(s string) (int64, bool) { return upTo(s, 4) }

// upTo reads a number above 0 of so many digits at most.
func upTo(s string, most int) (int64, bool) {
	s = strings.TrimLeft(s, "0")
	if len(s) > most {
		return 0, false
	}
	n, err := strconv.ParseUint(s, 10, 32)
	return int64(n), err == nil && n > 0
}

// fraction reads "1/8" or "1".
func fraction(s string) (tune.Frac, bool) {
	above, below, cut := strings.Cut(s, "/")
	n, ok := whole(strings.TrimSpace(above))
	d := int64(1)
	if cut && ok {
		d, ok = whole(strings.TrimSpace(below))
	}
	if !ok {
		return tune.Frac{}, false
	}
	return tune.NewFrac(n, d), true
}

// noteName is a note length as players call it.
type noteName struct {
	d    int64 // so many make a semibreve
	name string
}

var noteNames = []noteName{
	{1, "semibreve"}, {2, "minim"}, {4, "crotchet"}, {8, "quaver"}, {16, "semiquaver"},
	{32, "demisemiquaver"}, {64, "hemidemisemiquaver"}, {128, "128th"},
}

// counting gives the note in which these times can be counted together: 1/unit,
// or the longest shorter one of which each is a whole number; where there is
// none, as in tuplets, 1/unit.
func counting(unit int64, times ...tune.Frac) noteName {
	var usual noteName
	for _, n := range noteNames {
		if n.d < unit {
			continue
		}
		if n.d == unit {
			usual = n
		}
		if !slices.ContainsFunc(times, func(f tune.Frac) bool { return n.d%f.D != 0 }) {
			return n
		}
	}
	return usual
}

// count says how many of this note a time is: "7 quavers", "4 1/3 crotchets".
func (n noteName) count(f tune.Frac) string {
	number := f.Mul(tune.Frac{N: n.d, D: 1})
	whole, part := number.N/number.D, tune.NewFrac(number.N%number.D, number.D)
	words := strconv.FormatInt(whole, 10)
	fraction := strconv.FormatInt(part.N, 10) + "/" + strconv.FormatInt(part.D, 10)
	switch {
	case part.N == 0 && whole == 1:
		return words + " " + n.name
	case part.N == 0:
		return words + " " + n.name + "s"
	case whole == 0:
		return fraction + " of a " + n.name
	}
	return words + " " + fraction + " " + n.name + "s"
}
