package read

import (
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// broken is a > or < that waits for the note after it.
type broken struct {
	factor tune.Frac // for that note
	place  source.Span
	waits  bool
	paired int // how many events there were when the last pair was whole
}

// brokenRhythm reads > and <, doubled and tripled: the note before is dotted
// and the next cut short, or the other way about (ABC 2.1, 4.4). Grace notes
// between the two change nothing.
func (r *reader) brokenRhythm() {
	from := r.at
	marks := r.take(r.s[r.at : r.at+1])
	place := span(from, r.at)
	if !r.bars.open || r.broken.waits || len(marks) > 3 || r.peek(0) == '<' || r.peek(0) == '>' {
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
	r.now = r.now.Sub(last.Length).Add(longer)
	last.Length = longer
	r.broken = broken{factor: small, place: place, waits: true}
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

// endBroken speaks of a > or < with no note after it. A bar line between the two
// changes nothing, as others read it.
func (r *reader) endBroken() {
	if r.broken.waits {
		r.wrongBroken(r.broken.place)
	}
	r.broken = broken{}
}

func (r *reader) wrongBroken(place source.Span) {
	r.say(badBroken, place, "This dotted rhythm does not stand between two notes.",
		"Write > or < between two notes: A>B.")
}
