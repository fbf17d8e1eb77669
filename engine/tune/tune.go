// Package tune is a tune as it was written, and the order it is played in.
package tune

import (
	"readyhand/engine/pitch"
	"readyhand/engine/source"
)

// Frac is a time in whole notes, always reduced, D > 0: an eighth is {1, 8}.
type Frac struct{ N, D int64 }

// Tune is one tune. Written events stand in the order of the text, voice by
// voice; every written note head has a number of its own, from 1, in the order
// of the text, so that a remark, a pin and a picture speak of the same note.
type Tune struct {
	Title    string
	Rhythm   string // R:, "jig"; "" if none
	Meter    Meter
	Key      pitch.Key
	Tempo    Tempo  // at its start
	Changes  []Pace // where Q: inside the tune changes the tempo, in written time; made by Pace
	Parts    string // P: of the header, the order of the parts: "AABB"; "" if none
	Fields   []Field
	Voices   []Voice
	Settings []Setting
	Moved    Move        // how far it has been transposed
	paces    []Pace      // the tempo as it is played, from the start; none where it never changes
	Header   source.Span // where a remark about the whole tune points: its X: line or first line
}

// Field is a line that tells about the tune and does not change how it is
// played: who made it (C:), where it is from (O:), another title (T:), words (W:).
type Field struct {
	Letter byte
	Text   string
}

// Meter is M: as written; a free meter (none) has Beats 0.
type Meter struct {
	Beats, Unit int64  // 6/8 is 6 and 8
	Text        string // as a player reads it: "6/8", "C|", "free"
}

// Compound reports a meter that is felt in dotted beats: 6/8, 9/8, 12/8.
func (m Meter) Compound() bool { return m.Unit == 8 && m.Beats%3 == 0 && m.Beats > 3 }

// Tempo is how long a quarter note lasts, and where that was taken from:
// "Q: line", or the rhythm and meter that it was guessed from. What Q: says is
// kept: so many Beats a minute of the length Beat, or no number (Beats 0), and
// its words.
type Tempo struct {
	QuarterMS int32 // milliseconds
	From      string
	Beat      Frac
	Beats     int64
	Words     string
}

// Voice is one line of music. Its written times count from the start of the tune.
type Voice struct {
	ID, Name string
	Clef     string // "treble", "bass", ...; "" if not said
	Layer    int    // 1, 2 ... is a part that & lays over bars of the voice before it; else 0
	Events   []Event
	Marks    []Mark // bar lines and what else stands between events, in the order of the text
	Bars     int    // how many bars are written
	Played   []Step
}

// Event is one moment of the written music: a note, a chord, or a rest (no
// notes). Onset and Length are in whole notes of the written order. The notes of
// a chord last equally long.
type Event struct {
	Notes       []Note // in the order written; a rest has none
	Onset       Frac
	Length      Frac
	Bar         int // from 1; a pickup before the first bar line is bar 0
	Line        int // line of music in the text, from 0
	Graces      []Grace
	Decorations []Decoration
	Chord       string   // chord symbol such as "Am7"; "" if none
	Texts       []string // other words over or under the music, with their place: "^slowly"
	Lyrics      []Lyric  // one for each verse that has come so far
	Tuplet      Tuplet   // the one that begins here
	Slurs       Slurs
	Joined      bool // no space stands between it and the event before: beamed together where both can be
	Unseen      bool // a rest that is not printed (x)
	Whole       int  // a rest of so many whole bars (Z); 0 for any other
	PhraseEnd   bool // the phrase ends after this event (!breath!, !shortphrase!, %%ready phrase ...)
	Source      source.Span
}

// Note is one note head.
type Note struct {
	Number int
	Pitch  pitch.Pitch
	Finger int8 // 1 to 4 as the text asks; 0 if it does not
	Tied   bool // tied to a note before it: the string is not played again
	Length Frac // in whole notes, where it is longer or shorter than its event: in a hand that plays two voices; else none
	Beyond bool // written higher or lower than pitches go; Pitch is the nearest octave, no harp is to play it
	Source source.Span
	Pinned source.Span // where the finger is written; Nowhere if none is
}

// Grace is one grace note before an event, in the order written.
type Grace struct {
	Pitch  pitch.Pitch
	Beyond bool // as of a Note
	Source source.Span
}

// Decoration is a sign on an event, by its long ABC name ("uppermordent",
// "roll"), the short forms (~ T M P) spelt out. Most are no ornament: a fermata,
// an accent.
type Decoration struct {
	Name   string
	Source source.Span
}

// Lyric is what is sung on an event in one verse. Hyphen: its word goes on; Hold:
// the syllable before goes on. All empty, nothing is sung.
type Lyric struct {
	Text         string
	Hyphen, Hold bool
}

// Tuplet puts P notes into the time of Q, for the next R events; no tuplet has P 0.
type Tuplet struct{ P, Q, R int64 }

// Slurs counts the slurs that open before an event and close after it.
type Slurs struct{ Open, Close int }

// Mark is what stands between two events, before event number Event (from 0;
// behind the last, how many there are). A bar line and the number of an ending
// beside it are one mark.
type Mark struct {
	Event  int
	Kind   MarkKind
	Line   bool      // Bar: a bar line; else only the number of an ending
	Double bool      // Bar: a double or thick bar line
	Ends   int       // Bar: a repeat ends, to be played so often again
	Starts int       // Bar: a repeat starts
	Passes uint64    // Bar: an ending starts for these passes; bit 1 is the first
	Key    pitch.Key // NewKey
	Meter  Meter     // NewMeter
	Tempo  Tempo     // NewTempo; From is empty, and QuarterMS 0 where only words stand
	Part   string    // Part: its name
	Back   int       // Over: this layer begins so many bar lines back
	Source source.Span
}

// MarkKind tells marks apart.
type MarkKind int8

const (
	Bar MarkKind = iota
	NewKey
	NewMeter
	NewTempo
	Part
	Over
)

// Setting is one %%ready line other than phrase: its words after "%%ready ".
type Setting struct {
	Text   string
	Source source.Span // of those words
}

// Step is one event as played: Event is its index among the voice's events,
// Pass counts from 1 how often that event has been reached, Onset is the
// played time in whole notes.
type Step struct {
	Event int
	Pass  int
	Onset Frac
}

// NewFrac reduces n/d; d must not be 0.
func NewFrac(n, d int64) Frac {
	if d < 0 {
		n, d = -n, -d
	}
	a, b := n, d
	if a < 0 {
		a = -a
	}
	for b != 0 {
		a, b = b, a%b
	}
	if a == 0 {
		return Frac{0, 1}
	}
	return Frac{n / a, d / a}
}

// Add gives both times together, in whole notes.
func (f Frac) Add(g Frac) Frac {
	common := NewFrac(f.D, g.D) // f.D/g.D reduced, so that the sum stays small
	return NewFrac(f.N*common.D+g.N*common.N, f.D*common.D)
}

// Sub gives what is left of f when g is taken away, in whole notes; it is below
// nothing (N < 0) where g is longer.
func (f Frac) Sub(g Frac) Frac { return f.Add(Frac{-g.N, g.D}) }

// Mul gives f times g, where one of them is a time in whole notes and the other
// a plain number: three halves of an eighth.
func (f Frac) Mul(g Frac) Frac {
	a, b := NewFrac(f.N, g.D), NewFrac(g.N, f.D)
	return NewFrac(a.N*b.N, a.D*b.D)
}

// Less reports whether f is shorter, or as an onset earlier, than g.
func (f Frac) Less(g Frac) bool { return f.Sub(g).N < 0 }

// Milliseconds gives the time f takes when a quarter of a whole note lasts this
// many milliseconds, rounded to the nearest; f must not be below nothing.
func (f Frac) Milliseconds(quarterMS int32) int32 {
	return int32((f.N*4*int64(quarterMS)*2 + f.D) / (2 * f.D))
}
