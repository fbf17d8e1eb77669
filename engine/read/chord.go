package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// chord reads [CEG]: notes at one moment. Lengths inside and after the bracket
// multiply, and the first note's is the chord's (ABC 2.1, 4.17).
func (r *reader) chord() {
	from := r.at
	outside := r.waiting.fingers
	r.waiting.fingers = nil
	r.at++
	e := tune.Event{}
	length := tune.Frac{N: 1, D: 1}
	r.ties.next, r.ties.uneven = nil, false
	line := r.end
	if n := r.unquotedTo("][|"); n < 0 || r.s[r.at+n] != ']' { // not closed: it ends at the first space
		if n = r.unquotedTo(" \t|["); n > 0 {
			r.end = r.at + n
		}
	}
	for r.chordMember(&e, &length) {
		r.steps++
	}
	r.end = line
	r.fingersInVain("No note of the chord follows this finger.")
	closed := r.peek(0) == ']'
	if closed {
		r.at++
		length = length.Mul(r.length())
	}
	e.Source = span(from, r.at)
	switch {
	case !closed:
		e.Source.To = int32(max(r.at, from+1))
		r.say(unclosedChord, span(from, from+1), "This chord is not closed.", "Write ] after its last note, such as [CEG].")
	case len(e.Notes) == 0:
		r.say(emptyChord, e.Source, "There is no note in these brackets.", "Write the notes of the chord, such as [CEG], or take them out.")
	}
	if len(outside) > 0 {
		r.say(fingerOnChord, outside[0].Span, "This finger stands before the whole chord; it is not used.",
			"Write each finger inside, before its note: [!3!C!2!E!1!G].")
	}
	if len(e.Notes) == 0 {
		return
	}
	ownTies := r.ties.next
	r.add(e, length)
	if len(ownTies) > 0 && !r.done {
		r.ties.notes, r.ties.place = ownTies, e.Source
	}
}

// unquotedTo gives how far on in the line the first byte of set is that stands in
// no words; -1 if there is none.
func (r *reader) unquotedTo(set string) int {
	words := false
	for i := r.at; i < r.end; i++ {
		r.steps++
		switch c := r.s[i]; {
		case c == '"':
			words = !words
		case !words && strings.IndexByte(set, c) >= 0:
			return i - r.at
		}
	}
	return -1
}

// chordMember reads one thing inside a chord, and reports false where the
// chord ends.
func (r *reader) chordMember(e *tune.Event, length *tune.Frac) bool {
	switch c := r.peek(0); {
	case c == 0 || strings.IndexByte("]|[:&", c) >= 0 || r.numbers+len(e.Notes) > mostNotes:
		return false
	case strings.IndexByte(noteStarts, c) >= 0:
		n, ok := r.noteHead()
		if !ok {
			return true
		}
		own := r.length()
		r.sharpAfter()
		if len(e.Notes) == 0 {
			*length = own
		} else if own != *length && !r.ties.uneven {
			r.ties.uneven = true
			r.say(chordLengths, n.Source, "The notes of this chord have different lengths; all are held as long as the first.",
				"Write them after the chord, such as [CEG]2.")
		}
		if r.take("-") != "" {
			r.ties.next = append(r.ties.next, n.Pitch)
		}
		r.pin(&n)
		e.Notes = append(e.Notes, n)
	case c == '!':
		r.decoration()
	case c == '+':
		r.plusDecoration()
	case c == '"':
		r.quoted()
	case c == '.' || c == '~' || isLetter(c) && strings.IndexByte("zxZXy", c) < 0:
		r.dot()
	case strings.IndexByte(" \t`()", c) >= 0:
		r.at++ // slurs inside a chord change nothing
	default:
		from := r.at
		r.at++
		for r.at < r.end && r.s[r.at] >= 0x80 {
			r.at++
		}
		r.say(chordSign, span(from, r.at), "Here "+source.Quote(r.s[from:r.at])+" does not belong in a chord.",
			"Write only notes, with their fingers, between [ and ].")
	}
	return true
}
