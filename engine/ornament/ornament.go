// Package ornament is the catalogue of ornaments, as rows.
package ornament

import "slices"

// Time says at which of a note's two places an ornament stands, and so where its
// time comes from.
type Time int8

const (
	// OnBeat ornaments begin when their note would; the written note is their
	// last stroke and sounds later, by what they take. Those that are struck
	// with the note take nothing, and those that begin before the beat take a
	// part from the note before.
	OnBeat Time = iota
	// Spread ornaments begin with the written note; their other strokes are
	// spread over its length.
	Spread
)

// Family is where an ornament belongs.
type Family int8

const (
	Shared Family = iota // names that the trade shares
	Irish                // graces of the old Irish harpers, as E. Bunting took them down
	Welsh                // figures of the Robert ap Huw manuscript
	Own                  // a teacher's own, of one tune
)

// Families gives the words for the families that are off unless asked for.
func Families() []string { return []string{"irish", "welsh"} }

// String gives a family's word: "usual", "irish", "welsh", "own".
func (f Family) String() string { return [...]string{"usual", "irish", "welsh", "own"}[f] }

// Row is one ornament. Steps are strings from the main note, the written note
// itself included: last where Time is OnBeat, first where it is Spread.
type Row struct {
	Name   string // as in commands, JSON and ids: "upper-mordent"
	Title  string // as in words: "upper mordent"
	Many   bool   // its title is spoken of as many: "three strokes"
	Also   string // what else players call it; "" if nothing
	Says   string // a sentence for the pupil
	Family Family
	Steps  []int8 // strings from the main note, + higher
	Time   Time
	Quick  int32 // milliseconds a quick stroke lasts before the next (all: guess); OnBeat: 0 if all are struck with the note; Spread: 0 if none is quick
	Before int8  // OnBeat: so many strokes come before the beat
	Every  int32 // Spread: at least these milliseconds between strokes
	Parts  Parts // Spread: how the note is shared out
	Next   int8  // Spread: only before a note so many strings higher, or as many lower with the steps turned about; 0: before any
	Repeat bool  // Steps are repeated over the whole note
	ABC    []string
	Source string
}

// Parts say how long each stroke of a spread ornament lasts beside the others, in
// a plain note and in a dotted one, which has three parts; none: all alike.
type Parts struct{ Plain, Dotted []int8 }

// Rows gives the catalogue in the order it is shown.
func Rows() []Row { return slices.Clone(rows) }

// Place is an ornament's place in the catalogue, from 0; -1 if it has none.
func Place(name string) int {
	return slices.IndexFunc(rows, func(r Row) bool { return r.Name == name })
}

// Named finds a row by its name.
func Named(name string) (Row, bool) {
	if i := Place(name); i >= 0 {
		return rows[i], true
	}
	return Row{}, false
}

// Decoration finds the row that an ABC decoration means: the standard's own
// signs, and the catalogue's names, which other programs skip.
func Decoration(long string) (Row, bool) {
	for _, r := range rows {
		if slices.Contains(r.ABC, long) {
			return r, true
		}
	}
	return Named(long)
}

// Graces finds the ornament on the beat whose grace notes lie these strings
// from the main note. A turn and a short roll are the same strings: the first
// row wins. Old graces go by their names alone.
func Graces(steps []int8) (Row, bool) {
	for _, r := range rows {
		if r.Time == OnBeat && r.Quick > 0 && r.Family == Shared && slices.Equal(r.Steps[:len(r.Steps)-1], steps) {
			return r, true
		}
	}
	return Row{}, false
}

// Grace is the row of grace notes that the catalogue has no name for: steps
// are the graces alone.
func Grace(steps []int8) Row {
	return Row{Name: "grace", Title: "grace", Steps: append(slices.Clone(steps), 0), Quick: quick, Source: "the tune's own grace notes"}
}

// NewOwn is a teacher's own ornament, called as the teacher spells it: on the beat
// and quick like a cut, or spread evenly after its note.
func NewOwn(name string, steps []int8, time Time) Row {
	r := Row{Name: name, Title: name, Family: Own, Steps: steps, Time: time, Quick: quick, Source: "the tune's own"}
	if time == Spread {
		r.Quick, r.Every = 0, quick
	}
	return r
}

// Towards gives an ornament as it is played before a note so many strings higher
// (lower below 0); ok is false where it does not stand before such a note.
func (r Row) Towards(next int8) (toward Row, ok bool) {
	if r.Next != 0 && next == -r.Next {
		r.Steps, r.Next = slices.Clone(r.Steps), next
		for i := range r.Steps {
			r.Steps[i] = -r.Steps[i]
		}
	}
	return r, r.Next == 0 || next == r.Next
}

// Most of a note that an ornament on the beat may borrow, the milliseconds its
// quick notes may be pressed to for that and still be offered, and the strokes a
// repeated ornament has at least to be offered, and at most (all guesses). Whether
// fingers can follow each other so fast is for the rules to say.
const (
	borrowed    = 2 // a half
	leastQuick  = 40
	leastRepeat = 5
	mostRepeat  = 15
)

// Stroke is one stroke of an ornament besides the written note: its string,
// from the main note, and when it sounds, in milliseconds after the onset of
// the written note, below 0 before it.
type Stroke struct {
	Step int8
	At   int32
}

// Strokes gives what an ornament plays on a note of this length, dotted or not,
// and by how many milliseconds the written note is delayed. A short note makes the
// quick notes shorter. fits is false where they would last less than leastQuick, or
// a spread ornament's strokes would follow each other faster than Every: such an
// ornament is not offered, only played when it is written.
func (r Row) Strokes(lengthMS int32, dotted bool) (strokes []Stroke, delay int32, fits bool) {
	if r.Time == OnBeat {
		n := int32(len(r.Steps) - 1)
		quick := min(r.Quick, lengthMS/borrowed/n)
		for i, step := range r.Steps[:n] {
			strokes = append(strokes, Stroke{step, int32(i-int(r.Before)) * quick})
		}
		return strokes, (n - int32(r.Before)) * quick, quick >= min(r.Quick, leastQuick)
	}
	steps, over := r.Steps, lengthMS
	if r.Repeat {
		steps = r.repeated(lengthMS)
		over = min(lengthMS, r.Every*int32(len(steps)))
	}
	fits = !r.Repeat || len(steps) >= leastRepeat
	last := int32(0)
	times := append(r.times(steps, over, dotted), over)
	for i, at := range times[1:] {
		fits = fits && at-last >= r.Every
		if i+1 < len(steps) {
			strokes = append(strokes, Stroke{steps[i+1], at})
		}
		last = at
	}
	return strokes, 0, fits
}

// times says when the strokes of a spread ornament come. Where some are quick,
// the strokes on the note's own string share the note, and each of the others
// comes just before the next of them.
func (r Row) times(steps []int8, over int32, dotted bool) []int32 {
	shares := r.Parts.Plain
	if dotted {
		shares = r.Parts.Dotted
	}
	if shares == nil {
		shares = make([]int8, len(steps))
		for i, step := range steps {
			if r.Quick == 0 || step == 0 {
				shares[i] = 1
			}
		}
	}
	whole, so := int32(0), int32(0)
	for _, share := range shares {
		whole += int32(share)
	}
	times := make([]int32, len(steps))
	for i, share := range shares {
		times[i] = over * so / whole
		if share == 0 {
			times[i] -= min(r.Quick, over/whole/borrowed)
		}
		so += int32(share)
	}
	return times
}

// repeated is a trill at its own pace: as many strokes as the note has room for,
// ending on the main note, which then rings. It does not slow down to fill a
// long one.
func (r Row) repeated(lengthMS int32) []int8 {
	n := max(3, min(mostRepeat, int(lengthMS/r.Every)))
	var steps []int8
	for i := range n - (n+1)%2 {
		steps = append(steps, r.Steps[i%len(r.Steps)])
	}
	return steps
}
