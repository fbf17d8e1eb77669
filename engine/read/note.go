package read

import (
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

const noteStarts = "ABCDEFGabcdefg^_="

// alters is what accidentals have said since the last bar line, by octave and
// letter: 3 more than the alteration, 0 where none was written.
type alters [10][7]int8

// reach is how far an accidental holds (ABC 2.1, 11.3): to the bar's end
// for its letter in every octave, if nothing else is said.
type reach int8

const (
	everyOctave reach = iota
	ownOctave
	ownNote
)

// note reads one note: accidental, letter, octave marks, length (ABC 2.1, 4.1
// to 4.3).
func (r *reader) note() {
	from := r.at
	n, ok := r.noteHead()
	if !ok {
		return
	}
	length := r.length()
	r.sharpAfter()
	r.add(tune.Event{Notes: []tune.Note{n}, Source: span(from, r.at)}, length)
}

// noteHead reads a note without its length. Its pitch is the sounding one: the
// accidental's, else the bar's, else the key's.
func (r *reader) noteHead() (tune.Note, bool) {
	from := r.at
	alter, n := accidental(r.s[r.at:r.end])
	r.at += n
	if sharpOrFlat := n > 0 && r.s[from] != '='; sharpOrFlat && (r.peek(0) == '/' || isDigit(r.peek(0))) {
		r.take("/" + digits)
		alter = 0 // abc2midi and abcjs take the plain note
		r.say(microtone, span(from, r.at), "Strings cannot be tuned by less than half a tone while you play.",
			"Write ^ for a sharp, _ for a flat.")
	}
	letter, ok := letterNamed(r.peek(0))
	if !ok {
		r.say(accidentalAlone, span(from, max(r.at, from+1)), "This accidental stands before no note.",
			"Write it just before the note, such as ^f.")
		r.at = max(r.at, from+1)
		return tune.Note{}, false
	}
	p := pitch.Pitch{Letter: letter, Octave: 4}
	if r.peek(0) >= 'a' {
		p.Octave = 5
	}
	r.at++
	marks := r.take("',")
	octave := int(p.Octave) + strings.Count(marks, "'") - strings.Count(marks, ",")
	place := span(from, r.at)
	p.Octave = int8(min(max(octave, 0), 9))
	p.Alter = r.alteration(p, alter, n > 0)
	moved := r.staff.move(p)
	beyond := int(p.Octave) != octave || moved.Octave < 0 || moved.Octave > 9
	if beyond {
		r.say(outOfRange, place, "No harp has a string for this note.", "Take octave marks away.")
		moved = p
		if moved.Octave = 0; octave > 4 {
			moved.Octave = 9
		}
	}
	return tune.Note{Pitch: moved, Beyond: beyond, Pinned: source.Nowhere(), Source: place}, true
}

// alteration settles what a note's letter is altered by, and remembers an
// accidental to the end of the bar. A note tied over a bar line keeps the
// accidental of the note it is tied to, and only that note does (engraving
// practice; the standard says nothing).
func (r *reader) alteration(p pitch.Pitch, alter int8, written bool) int8 {
	switch {
	case written && r.reach == ownNote:
		return alter
	case written && r.reach == ownOctave:
		r.alters[p.Octave][p.Letter] = alter + 3
		return alter
	case written:
		for octave := range r.alters {
			r.alters[octave][p.Letter] = alter + 3
		}
		return alter
	case r.alters[p.Octave][p.Letter] > 0:
		return r.alters[p.Octave][p.Letter] - 3
	}
	for _, tied := range r.ties.notes {
		for alter := int8(-2); alter <= 2; alter++ {
			if q := (pitch.Pitch{Letter: p.Letter, Octave: p.Octave, Alter: alter}); r.staff.move(q) == tied {
				return alter
			}
		}
	}
	return r.key.Alter[p.Letter]
}

// accidental reads ^ ^^ _ __ or =, and gives how many bytes it takes.
func accidental(s string) (alter int8, n int) {
	for _, row := range []struct {
		sign  string
		alter int8
	}{{"^^", 2}, {"^", 1}, {"__", -2}, {"_", -1}, {"=", 0}} {
		if strings.HasPrefix(s, row.sign) {
			return row.alter, len(row.sign)
		}
	}
	return 0, 0
}

// letterNamed gives the number of a note's letter, from 0 for C.
func letterNamed(c byte) (int8, bool) {
	i := strings.IndexByte("CDEFGAB", c&^0x20)
	return int8(i), i >= 0 && isLetter(c)
}

// sharpAfter speaks of a sharp written as in words, F#.
func (r *reader) sharpAfter() {
	if r.peek(0) == '#' {
		from := r.at
		r.at++
		r.take(digits + "/") // its length, which would belong to no note
		r.say(sharpAfter, span(from, r.at), "In ABC a sharp stands before its note.", "Write ^F for F sharp, _B for B flat.")
	}
}

// add puts an event into the voice, with everything that waited for it.
// times is its written length in plain notes.
func (r *reader) add(e tune.Event, times tune.Frac) {
	if r.overfull(e) {
		return
	}
	e.Tuplet = r.tuplet.begin(len(r.voice.Events))
	length := times.Mul(r.unit).Mul(r.tupletFactor()).Mul(r.brokenFactor())
	r.addLong(e, r.rightLength(length, e.Source))
}

// addLong puts an event of this length in whole notes into the voice.
func (r *reader) addLong(e tune.Event, length tune.Frac) {
	n := len(r.voice.Events)
	if n > 0 {
		e.Line = r.voice.Events[n-1].Line
		if r.turns != r.lines.turns {
			e.Line++
		}
	}
	r.turns = r.lines.turns
	e.Onset, e.Length, e.Bar, e.Joined = r.now, length, len(r.bars.closed), n > 0 && !r.spaced && r.bars.open
	r.spaced = false
	for i := range e.Notes {
		r.numbers++
		e.Notes[i].Number = r.numbers
	}
	r.events++
	r.joinTies(&e)
	r.giveWaiting(&e, false)
	r.beginBar()
	r.bars.exempt = r.bars.exempt || r.bars.meter != r.meter // which meter the bar has cannot be said
	r.voice.Events = append(r.voice.Events, e)
	r.now = r.now.Add(length)
}

// overfull stops reading where the block has more than we take.
func (r *reader) overfull(e tune.Event) bool {
	switch {
	case r.numbers+len(e.Notes) > mostNotes || r.events >= mostNotes:
		r.say(tooManyNotes, e.Source, "There are more than 10,000 notes in this block; from here on none is read.",
			"Give each tune a block of its own.")
	case r.now.N > mostTime*r.now.D:
		r.say(tooLong, e.Source, "The tune is too long here; from here on nothing is read.",
			"Look for a rest or a note that lasts far too long.")
	default:
		return false
	}
	r.done = true
	return true
}
