package read

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/tune"
)

// turns reports a bar line that is more than a plain one.
func turns(m tune.Mark) bool { return m.Ends > 0 || m.Starts > 0 || m.Double || m.Passes != 0 }

// bar is one written bar.
type bar struct {
	from, to int // its events
	length   tune.Frac
	meter    tune.Meter
	rested   int  // bars it counts for beyond itself (Z4)
	exempt   bool // it cannot be held against the meter
	start    tune.Frac
	left     tune.Mark // the bar line at its left
	right    tune.Mark // and at its right
}

// bars is the bars so far.
type bars struct {
	closed []bar
	from   int       // first event of the open bar
	start  tune.Frac // its onset
	meter  tune.Meter
	open   bool
	exempt bool
	rested int
}

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
	if after > 0 && lines[len(lines)-1] == ']' && r.peek(0) == '|' { // [|]:| is a bar line and an end of a repeat
		r.at -= after
		after = 0
	}
	if lines == "" && before == 1 {
		r.loneColon(from)
		return
	}
	place := span(from, r.at)
	if lines == "" { // "::" ends one repeat and starts the next
		before, after = before/2, before-before/2
	}
	r.leaveLayer()
	r.closeBar()
	double := len(lines) > 1 && lines != "[|]"
	r.mark(tune.Mark{Line: true, Ends: min(before, mostPasses), Starts: min(after, mostPasses), Double: double, Source: place})
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
			r.steps++
		default:
			return r.s[from:r.at]
		}
	}
}

// loneColon speaks of a colon that is parted from its bar line, and of :] and :][:,
// which some books print for repeats. abc2midi and abcjs do not take it for a repeat,
// so we must not.
func (r *reader) loneColon(from int) {
	if r.peek(0) != ']' {
		r.say(strayColon, span(from, r.at), "This colon belongs to no bar line; it is left out.", "Write |: where a repeat starts and :| where it ends, without a space.")
		return
	}
	if r.at++; r.peek(0) == '[' && r.peek(1) == ':' {
		r.at += 2
	}
	r.say(strayColon, span(from, r.at), "This is no bar line, and no repeat; it is left out.", "Write :| where a repeat ends, and :: where the next one starts too.")
}

// since finds the mark of a kind since the last event, -1 if there is none. What
// stands before an & is kept as it is, because the layer begins with it.
func (r *reader) since(k tune.MarkKind) int {
	marks := r.voice.Marks
	for i := len(marks) - 1; i >= 0 && marks[i].Event == len(r.voice.Events) && marks[i].Kind != tune.Over; i-- {
		if marks[i].Kind == k && (k == tune.Bar || i >= r.kept) {
			return i
		}
	}
	return -1
}

// mark adds a mark, one of a kind between two events: what a bar line says is
// added to what the one just before it said, of all others the last one counts.
// Marks stay in the order of the text, so that they can be written again.
func (r *reader) mark(m tune.Mark) {
	m.Event = len(r.voice.Events)
	r.spaced = true
	marks := r.voice.Marks
	if at := r.since(m.Kind); at >= 0 {
		last := marks[at]
		if m.Kind == tune.Bar {
			m.Double, m.Ends, m.Starts, m.Passes = m.Double || last.Double, max(m.Ends, last.Ends), max(m.Starts, last.Starts), m.Passes|last.Passes
			if last.Line { // the first bar line, not what stands beside it, is the place
				m.Line, m.Source.From = true, last.Source.From
				marks[at] = m
				return
			}
		}
		marks = slices.Delete(marks, at, at+1)
		if at < r.kept {
			r.kept--
		}
	}
	r.voice.Marks = append(marks, m)
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
	r.mark(tune.Mark{Passes: passes, Source: span(from, r.at)})
	if c := r.peek(0); c == ')' && len(r.slurs) == 0 || c == '.' && strings.IndexByte(" \t", r.peek(1)) >= 0 { // "|1)", "|1. "
		r.at++
	}
}

// endBar ends what holds only to the end of a bar.
func (r *reader) endBar() {
	r.alters = alters{}
	r.endTuplet()
	r.waitedInVain()
}

// closeBar ends the open bar at a bar line.
func (r *reader) closeBar() {
	r.endBar()
	if !r.bars.open {
		return
	}
	b := &r.bars
	b.closed = append(b.closed, bar{
		from: b.from, to: len(r.voice.Events), length: r.now.Sub(b.start), start: b.start,
		meter: b.meter, rested: b.rested, exempt: b.exempt,
	})
	b.open, b.exempt, b.rested = false, false, 0
}

// closeMusic ends everything that is still open at the end of the text.
func (r *reader) closeMusic() {
	if r.lines.inText != "" {
		r.say(textUnclosed, r.lines.text, "This text is never closed, so everything after it is taken for text.",
			"Write %%end"+r.lines.inText+" on a line after it.")
	}
	r.dropLayer()
	for _, p := range r.parts {
		r.part = p
		r.closeBar()
		r.dropTuplet()
		r.endBroken()
		r.endTies()
		r.endSlurs()
		if len(r.waiting.graces) > 0 {
			r.say(graceAlone, r.waiting.gracePlace, "No note follows these grace notes; they are left out.", "Write them before a note.")
		}
	}
	r.dropVoices()
	r.part = r.parts[0]
	if r.numbers == 0 {
		r.say(noNotes, r.t.Header, "There is no note in this tune.", "Write the music under the K: line.")
	}
}
