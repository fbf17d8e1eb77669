package read

import (
	"strconv"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// mark is what the bar lines between two events say about the order of play.
type mark struct {
	event  int    // the event it stands before
	ends   int    // a repeat ends here: its colons, one more than times to go back
	starts int    // a repeat starts here
	double bool   // a double or thick bar line
	passes uint64 // an ending starts here, for these passes; bit 1 is the first pass
	place  source.Span
}

// turns reports a mark that is more than a plain bar line.
func (m mark) turns() bool { return m.ends > 0 || m.starts > 0 || m.double || m.passes != 0 }

// bar is one written bar.
type bar struct {
	from, to int // its events
	length   tune.Frac
	meter    tune.Meter
	rested   int  // bars it counts for beyond itself (Z4)
	exempt   bool // it cannot be held against the meter
	left     mark // the bar line at its left
	right    mark // and at its right
}

// bars is the bars so far.
type bars struct {
	closed []bar
	marks  []mark
	from   int       // first event of the open bar
	start  tune.Frac // its onset
	meter  tune.Meter
	open   bool
	exempt bool
	rested int
}

// inBar reports whether the open bar has an event.
func (r *reader) inBar() bool { return r.bars.open }

// beginBar opens a bar with the event that comes next.
func (r *reader) beginBar() {
	if !r.bars.open {
		r.bars.open, r.bars.from, r.bars.start, r.bars.meter = true, len(r.voice.Events), r.now, r.meter
	}
}

// barLine reads bar lines of any shape: | || |] [| |: :| :: :|: |1 and their
// kin (ABC 2.1, 4.8). The standard asks to be liberal here.
func (r *reader) barLine() {
	from := r.at
	before := len(r.take(":"))
	lines := r.lineSigns()
	after := 0
	if lines != "" {
		after = len(r.take(":"))
	}
	place := span(from, r.at)
	if lines == "" && before == 1 {
		before, after = r.loneColon(place)
		if before+after == 0 {
			return
		}
	} else if lines == "" { // "::" ends one repeat and starts the next
		before, after = before/2, before-before/2
	}
	r.closeBar()
	double := len(lines) > 1 && lines != "[|]"
	r.mark(mark{ends: before, starts: after, double: double, place: place})
	if isDigit(r.peek(0)) && lines != "" {
		r.ending()
	}
}

// lineSigns reads the strokes of a bar line; a [ counts if a stroke follows.
func (r *reader) lineSigns() string {
	from := r.at
	for {
		switch c := r.peek(0); {
		case c == '|', c == '[' && r.peek(1) == '|', c == ']' && r.at > from:
			r.at++
		default:
			return r.s[from:r.at]
		}
	}
}

// loneColon reads a colon that is parted from its bar line.
func (r *reader) loneColon(place source.Span) (ends, starts int) {
	rest := strings.TrimLeft(r.s[r.at:r.end], " \t")
	last := len(r.bars.marks) - 1
	switch {
	case strings.HasPrefix(rest, "|"):
		ends = 1
	case last >= 0 && r.bars.marks[last].event == len(r.voice.Events):
		starts = 1
	}
	message := "This colon belongs to no bar line; it is left out."
	if ends+starts > 0 {
		message = "This repeat is parted from its bar line."
	}
	r.say(strayColon, place, message, "Write |: where a repeat starts and :| where it ends, without a space.")
	return ends, starts
}

// mark adds what a bar line says to what the ones just before it said.
func (r *reader) mark(m mark) {
	m.event = len(r.voice.Events)
	if n := len(r.bars.marks); n > 0 && r.bars.marks[n-1].event == m.event {
		last := &r.bars.marks[n-1]
		last.ends, last.starts = max(last.ends, m.ends), max(last.starts, m.starts)
		last.double = last.double || m.double
		last.passes |= m.passes
		last.place.To = m.place.To
		return
	}
	r.bars.marks = append(r.bars.marks, m)
}

// mostPasses is how often a repeat may be played (guess).
const mostPasses = 32

// ending reads the numbers of an ending, "1", "1,3" or "1-3" (ABC 2.1, 4.9 and
// 4.10), after its | or [.
func (r *reader) ending() {
	from := r.at
	var passes uint64
	ok := true
	for {
		first, read := whole(r.take(digits))
		last := first
		if r.peek(0) == '-' && isDigit(r.peek(1)) {
			r.at++
			last, ok = whole(r.take(digits))
		}
		ok = ok && read && first <= last && last <= mostPasses
		for pass := first; ok && pass <= last; pass++ {
			passes |= 1 << pass
		}
		if !ok || r.peek(0) != ',' || !isDigit(r.peek(1)) {
			break
		}
		r.at++
	}
	if !ok {
		r.take(digits + ",-")
		r.say(badEnding, span(from, r.at), "The number of this ending cannot be read.",
			"Write |1 and :|2, or [1,3 for an ending of two passes; "+strconv.Itoa(mostPasses)+" is the most.")
		return
	}
	r.mark(mark{passes: passes, place: span(from, r.at)})
}

// closeBar ends the open bar at a bar line, with all that holds only to there.
func (r *reader) closeBar() {
	r.alters = alters{}
	r.endTuplet()
	r.endBroken()
	r.waitedInVain()
	if !r.bars.open {
		return
	}
	b := &r.bars
	b.closed = append(b.closed, bar{
		from: b.from, to: len(r.voice.Events), length: r.now.Sub(b.start),
		meter: b.meter, rested: b.rested, exempt: b.exempt,
	})
	b.open, b.exempt, b.rested = false, false, 0
}

// closeMusic ends everything that is still open at the end of the text.
func (r *reader) closeMusic() {
	if r.lines.inText {
		r.say(textUnclosed, r.lines.text, "This text is never closed, so everything after it is taken for text.", "Write %%endtext on a line after it.")
	}
	r.closeBar()
	r.endTies()
	r.endSlurs()
	if len(r.waiting.graces) > 0 {
		r.say(graceAlone, r.waiting.gracePlace, "No note follows these grace notes; they are left out.", "Write them before a note.")
	}
	if len(r.voice.Events) == 0 || r.numbers == 0 {
		r.say(noNotes, r.t.Header, "There is no note in this tune.", "Write the music under the K: line.")
	}
}
