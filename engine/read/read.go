// Package read reads a tune in ABC notation 2.1, or points at the place where
// it could not; and it writes one.
package read

import (
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Tune reads one tune in ABC 2.1 with its %%ready lines. It always gives a
// tune, as far as it could be read, and the remarks in the order of the text:
// an Error means that something written is not in the tune. The text is not
// trusted: any bytes give a tune and remarks.
func Tune(text source.Text) (tune.Tune, []source.Remark) {
	t, remarks, _ := read(text)
	return t, remarks
}

// read also tells how many steps it took: what it looked at, one by one.
func read(text source.Text) (tune.Tune, []source.Remark, int) {
	r := newReader(text)
	for n := 1; n <= text.Lines() && !r.done; n++ {
		r.readLine(text.Span(n))
	}
	r.openBody()
	r.closeMusic()
	for _, p := range r.parts {
		r.part = p
		r.numberBars()
		r.checkBars()
	}
	if r.t.Tempo.Beats == 0 {
		r.t.Tempo = r.guessedTempo()
	}
	r.play()
	r.closeVoices()
	r.t.Pace()
	r.disown()
	return r.t, r.thinned(), r.steps
}

// Limits of a block. They keep the answers of a page in a time that nobody
// notices and its numbers far from overflow (all guesses).
const (
	mostNotes    = 10_000 // note heads, and events, in one block
	mostPlayed   = 20_000 // events with their repeats, of a voice
	mostTime     = 20_000 // whole notes, written or played
	mostSettings = 1_000  // %%ready lines
	mostVoices   = 32
	mostBeside   = 64 // grace notes, signs or words beside one note
	mostVerses   = 64
	mostKept     = 2_000 // remarks, before they are thinned
	mostRemarks  = 24    // a screenful
	mostOfAKind  = 5
)

// reader is the state while one text is read. Every element of the notation
// keeps its own part in its own file.
type reader struct {
	text    source.Text
	s       string // the text
	at, end int    // the next byte to read, and the end of the line's music
	steps   int
	remarks []source.Remark
	done    bool // nothing more is read

	t         tune.Tune
	head      header
	lines     lines
	user      users
	own       []string // ornaments that the tune defines
	reach     reach
	parts     []*part   // voices, each with its layers behind it
	*part               // the one that is being read
	numbers   int       // note heads so far
	events    int       // events so far
	unknowns  int       // signs that nobody knows, so far
	braceless int       // the end of a line that has no more }
	letters   [128]bool // letters of which it was said that they mean nothing
}

// part is one voice while it is read, or a layer that & lays over one.
type part struct {
	voice tune.Voice
	unit  tune.Frac // L:
	meter tune.Meter
	key   pitch.Key // as written, before the music is moved
	staff staff

	now     tune.Frac // written time of the next event
	turns   int       // line breaks of the text when its last event was read
	spaced  bool      // space since its last event
	alters  alters
	waiting waiting
	tuplet  tuplet
	broken  broken
	ties    ties
	slurs   []source.Span
	bars    bars
	over    over
	kept    int   // so many marks stood before the last & over this voice
	words   under // w:
	signs   under // s:
	runs    []run
}

func newReader(text source.Text) *reader {
	r := &reader{text: text, s: text.String}
	r.part = newPart()
	r.parts = []*part{r.part}
	if strings.HasPrefix(r.s, byteOrderMark) {
		r.lines.start = len(byteOrderMark)
	}
	r.findStart()
	r.findOwn()
	r.lines.breaks = lineEnd | dollar
	r.meter = freeMeter
	r.t.Meter = freeMeter
	r.t.Header = firstWritten(text)
	return r
}

// findStart finds the X: of a tune with text before it, and its K:, before which
// there is no music. Where K: comes first, the tune has no X:.
func (r *reader) findStart() {
	found := false
	for n := 1; n <= r.text.Lines(); n++ {
		at := int(r.text.Span(n).From)
		switch line := strings.TrimSpace(r.text.Line(n)); {
		case strings.HasPrefix(line, "K:"):
			if found {
				r.lines.music = at
			}
			return
		case strings.HasPrefix(line, "X:") && found:
			return
		case strings.HasPrefix(line, "X:"):
			r.lines.tune, found = at, true
		}
	}
}

func newPart() *part { return &part{now: tune.Frac{N: 0, D: 1}} }

// firstWritten is where a remark about a tune without X: points.
func firstWritten(text source.Text) source.Span {
	for n := 1; n <= text.Lines(); n++ {
		if strings.TrimSpace(text.Line(n)) != "" {
			return text.Span(n)
		}
	}
	return source.Span{From: 0, To: 0}
}

// peek gives the byte k places on in the line, 0 past its end.
func (r *reader) peek(k int) byte {
	if r.at+k >= r.end {
		return 0
	}
	return r.s[r.at+k]
}

// take steps over the bytes that are in set and gives them.
func (r *reader) take(set string) string {
	from := r.at
	for r.at < r.end && strings.IndexByte(set, r.s[r.at]) >= 0 {
		r.at++
	}
	r.steps += r.at - from
	return r.s[from:r.at]
}

// find gives how far on in the line the first byte of set is, from k places on;
// -1 if there is none.
func (r *reader) find(k int, set string) int {
	for i := min(r.at+k, r.end); i < r.end; i++ {
		r.steps++
		if strings.IndexByte(set, r.s[i]) >= 0 {
			return i - r.at
		}
	}
	return -1
}

func span(from, to int) source.Span { return source.Span{From: int32(from), To: int32(to)} }
