// Package ornament is the catalogue of ornaments, as rows.
package ornament

import "slices"

// Time says where an ornament's time comes from.
type Time int8

const (
	// OnBeat ornaments begin when their note would; the written note is their
	// last stroke and sounds later.
	OnBeat Time = iota
	// Spread ornaments begin with the written note; their other strokes are
	// spread evenly over its length.
	Spread
)

// Row is one ornament. Steps are strings from the main note, the written note
// itself included: last where Time is OnBeat, first where it is Spread.
type Row struct {
	Name   string   // as in commands, JSON and ids: "upper-mordent"
	Title  string   // as in words: "upper mordent"
	Also   string   // what else players call it; "" if nothing
	Steps  []int8   // strings from the main note, + higher
	Time   Time     //
	Quick  int32    // OnBeat: milliseconds a stroke lasts before the next (all: guess)
	Every  int32    // Spread: at least these milliseconds between strokes
	Repeat bool     // Steps are repeated over the whole note
	ABC    []string // decorations of ABC 2.1 section 4.14 that mean it, by long name
	Source string
}

// The quick notes' 65 ms is a guess, as are the three strokes' 90 (60-120 ms is
// what we take as fast) and the trill's 130 (from where two fingers in turn get
// hard). Patterns and names are those the trade shares.
const practice = "common practice, no source"

var rows = []Row{
	{Name: "cut", Title: "cut", Steps: []int8{+1, 0}, Quick: 65, Source: practice},
	{Name: "tap", Title: "tap", Steps: []int8{-1, 0}, Quick: 65, Source: practice},
	{Name: "upper-mordent", Title: "upper mordent", Steps: []int8{0, +1, 0}, Quick: 65,
		ABC: []string{"uppermordent", "pralltriller"}, Source: practice + "; the sign is ABC 2.1's, 4.14"},
	{Name: "lower-mordent", Title: "lower mordent", Steps: []int8{0, -1, 0}, Quick: 65,
		ABC: []string{"mordent", "lowermordent"}, Source: practice + "; the sign is ABC 2.1's, 4.14"},
	{Name: "turn", Title: "turn", Steps: []int8{+1, 0, -1, 0}, Quick: 65,
		ABC: []string{"turn"}, Source: practice + "; the sign is ABC 2.1's, 4.14"},
	{Name: "turn-after", Title: "turn after the note", Steps: []int8{0, +1, 0, -1, 0}, Time: Spread, Every: 65,
		Source: practice},
	{Name: "short-roll", Title: "short roll", Steps: []int8{+1, 0, -1, 0}, Quick: 65,
		ABC: []string{"roll"}, Source: practice + "; that the roll of ABC 2.1, 4.14, is the short one is a guess"},
	{Name: "trill", Title: "trill", Steps: []int8{0, +1}, Time: Spread, Every: 130, Repeat: true,
		ABC: []string{"trill"}, Source: practice + "; the sign is ABC 2.1's, 4.14"},
	{Name: "three-strokes", Title: "three strokes", Also: "three on a string", Steps: []int8{0, 0, 0}, Quick: 90, Source: practice},
}

// Rows gives the catalogue in the order it is shown.
func Rows() []Row { return slices.Clone(rows) }

// Named finds a row by its name.
func Named(name string) (Row, bool) {
	for _, r := range rows {
		if r.Name == name {
			return r, true
		}
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
// row wins.
func Graces(steps []int8) (Row, bool) {
	for _, r := range rows {
		if r.Time == OnBeat && slices.Equal(r.Steps[:len(r.Steps)-1], steps) {
			return r, true
		}
	}
	return Row{}, false
}

// Grace is the row of grace notes that the catalogue has no name for: steps
// are the graces alone.
func Grace(steps []int8) Row {
	return Row{Name: "grace", Title: "grace", Steps: append(slices.Clone(steps), 0), Quick: 65, Source: "the tune's own grace notes"}
}

// Most of a note that an ornament on the beat may borrow, and the strokes a
// repeated ornament has at least to be offered, and at most (all guesses).
const (
	borrowed    = 2 // a half
	leastRepeat = 5
	mostRepeat  = 15
)

// Stroke is one stroke of an ornament besides the written note: its string,
// from the main note, and when it sounds, in milliseconds after the onset of
// the written note.
type Stroke struct {
	Step int8
	At   int32
}

// Strokes gives what an ornament plays on a note of this length, and by how
// many milliseconds the written note is delayed. fits is false where the quick
// notes had to be shortened, or a spread ornament's strokes would follow each
// other faster than Every: such an ornament is not offered, only played when
// it is written.
func (r Row) Strokes(lengthMS int32) (strokes []Stroke, delay int32, fits bool) {
	if r.Time == OnBeat {
		n := int32(len(r.Steps) - 1)
		quick := min(r.Quick, lengthMS/borrowed/n)
		for i, step := range r.Steps[:n] {
			strokes = append(strokes, Stroke{step, int32(i) * quick})
		}
		return strokes, n * quick, quick == r.Quick
	}
	steps, over := r.Steps, lengthMS
	if r.Repeat {
		steps = r.repeated(lengthMS)
		over = min(lengthMS, r.Every*int32(len(steps)))
	}
	n := int32(len(steps))
	for i, step := range steps[1:] {
		strokes = append(strokes, Stroke{step, over * int32(i+1) / n})
	}
	return strokes, 0, over/n >= r.Every && (!r.Repeat || n >= leastRepeat)
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
