package read

import (
	"strconv"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// tuplet is the (3 that is running.
type tuplet struct {
	tune.Tuplet
	left   int64 // events still in it
	first  int   // its first event
	place  source.Span
	parted bool // a bar line stands in it
}

// begin gives the tuplet to the event that it begins with, the one with this number.
func (t *tuplet) begin(event int) tune.Tuplet {
	if t.left == 0 || t.left < t.R {
		return tune.Tuplet{}
	}
	t.first = event
	return t.Tuplet
}

// mostInTuplet is the largest p or q that denominators allows for.
const mostInTuplet = 16

// opening is a tuplet if a digit follows, else a slur.
func (r *reader) opening() {
	if !isDigit(r.peek(1)) {
		r.slurStart()
		return
	}
	from := r.at
	r.at++
	var numbers [3]int64
	ok := true
	for i := range numbers {
		if written := r.take(digits); written != "" {
			var read bool
			numbers[i], read = whole(written)
			ok = ok && read
		}
		if i == len(numbers)-1 || r.peek(0) != ':' {
			break
		}
		r.at++
	}
	r.startTuplet(numbers[0], numbers[1], numbers[2], ok, span(from, r.at))
}

// startTuplet puts p notes into the time of q, for the next n notes (ABC 2.1,
// 4.13). q and n may be left out.
func (r *reader) startTuplet(p, q, n int64, ok bool, place source.Span) {
	if q == 0 {
		q = r.inTimeOf(p)
	}
	if n == 0 {
		n = p
	}
	if !ok || p < 2 || q < 1 || p > mostInTuplet || q > mostInTuplet || n > 99 {
		r.say(badTuplet, place, "This tuplet cannot be read; its notes keep their length.",
			"Write (3 for three notes in the time of two, or (5:4 for five in the time of four.")
		return
	}
	if r.tuplet.left > 0 {
		r.say(tupletShort, place, "The tuplet before this one has not got all its notes; it takes them from here, and this one is left out.",
			"Write as many notes after each as it counts, or say how many: (3:2:2.")
		return
	}
	r.tuplet = tuplet{Tuplet: tune.Tuplet{P: p, Q: q, R: n}, left: n, place: place}
}

// inTimeOf gives q for (2 to (9: in compound meters 5, 7 and 9 notes take the
// time of 3, else of 2 (table in ABC 2.1, 4.13).
func (r *reader) inTimeOf(p int64) int64 {
	n := int64(2)
	if r.meter.Compound() {
		n = 3
	}
	return [...]int64{2: 3, 3: 2, 4: 3, 5: n, 6: 2, 7: n, 8: 3, 9: n, mostInTuplet: 0}[min(p, mostInTuplet)]
}

// tupletFactor is what the running tuplet makes of the next event's length.
func (r *reader) tupletFactor() tune.Frac {
	if r.tuplet.left == 0 {
		return tune.Frac{N: 1, D: 1}
	}
	r.tuplet.left--
	return tune.NewFrac(r.tuplet.Q, r.tuplet.P)
}

// cutTuplet leaves the tuplet with the events that it has.
func (r *reader) cutTuplet() {
	if t := &r.tuplet; t.left < t.R {
		r.voice.Events[t.first].Tuplet.R = t.R - t.left
	}
}

// endTuplet speaks of a tuplet that a bar line parts. It goes on behind it, as
// abc2midi and abcjs have it; the standard does not say.
func (r *reader) endTuplet() {
	if t := &r.tuplet; t.left > 0 && !t.parted {
		t.parted = true
		r.say(tupletShort, t.place, "This tuplet still wants "+strconv.FormatInt(t.left, 10)+" more before the bar line; it takes them from behind it.",
			"Write as many notes after it as it counts, or say how many: (3:2:2.")
	}
}

// dropTuplet ends a tuplet at the end of the music.
func (r *reader) dropTuplet() {
	r.endTuplet()
	r.cutTuplet()
	r.tuplet = tuplet{}
}
