package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// broken is a > or < that waits for the note after it.
type broken struct {
	factor tune.Frac // for that note
	place  source.Span
	waits  bool
	was    tune.Frac // the length of the note before it
	paired int       // how many events there were when the last pair was whole
}

// brokenRhythm reads > and <, doubled and tripled: the note before is dotted
// and the next cut short, or the other way about (ABC 2.1, 4.4). Grace notes
// between the two change nothing; the sign itself stands behind its note, as others
// read it.
func (r *reader) brokenRhythm() {
	from := r.at
	marks := r.take(r.s[r.at : r.at+1])
	place := span(from, r.at)
	if !r.afterNote() || r.broken.waits || len(marks) > 3 || r.peek(0) == '<' || r.peek(0) == '>' {
		r.take("<>")
		r.wrongBroken(span(from, r.at))
		return
	}
	if r.broken.paired == len(r.voice.Events) { // A>B>c: abc2midi and, with a space, abcjs overlook the second
		r.say(badBroken, place, "The note before this sign is short or long already by the one before; it is left out.",
			"Write the length of each note instead, such as A3/2B/c.")
		return
	}
	small := tune.Frac{N: 1, D: 1 << len(marks)}
	large := tune.Frac{N: 2, D: 1}.Sub(small)
	if marks[0] == '<' {
		small, large = large, small
	}
	last := &r.voice.Events[len(r.voice.Events)-1]
	if last.Whole > 0 {
		r.wrongBroken(place)
		return
	}
	longer := last.Length.Mul(large)
	if denominators%longer.D != 0 || longer.N > longest*longer.D {
		r.wrongLength(last.Source)
		return
	}
	was := last.Length
	r.lengthen(longer)
	r.broken = broken{factor: small, place: place, waits: true, was: was}
}

// afterNote reports whether the last note stands in this line and nothing has begun
// since: a slur, a field.
func (r *reader) afterNote() bool {
	if !r.bars.open || r.turns != r.lines.turns {
		return false
	}
	to := int(r.voice.Events[len(r.voice.Events)-1].Source.To)
	return !strings.ContainsAny(r.s[min(to, r.at):r.at], "([")
}

// brokenFactor is what a > or < makes of the next event's length.
func (r *reader) brokenFactor() tune.Frac {
	if !r.broken.waits {
		return tune.Frac{N: 1, D: 1}
	}
	factor := r.broken.factor
	r.broken = broken{paired: len(r.voice.Events) + 1}
	return factor
}

// lengthen gives the last event another length.
func (r *reader) lengthen(to tune.Frac) {
	last := &r.voice.Events[len(r.voice.Events)-1]
	r.now = r.now.Sub(last.Length).Add(to)
	if n := len(r.bars.closed); !r.bars.open && n > 0 {
		b := &r.bars.closed[n-1]
		b.length = b.length.Sub(last.Length).Add(to)
	}
	last.Length = to
}

// endBroken speaks of a > or < with no note or short rest after it, which changes nothing then. A
// bar line between the two does not matter, as others read it.
func (r *reader) endBroken() {
	if r.broken.waits {
		r.wrongBroken(r.broken.place)
		r.lengthen(r.broken.was)
	}
	r.broken = broken{}
}

func (r *reader) wrongBroken(place source.Span) {
	r.say(badBroken, place, "This dotted rhythm does not stand between two notes.",
		"Write > or < between two notes: A>B.")
}
