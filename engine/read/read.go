// Package read reads a tune in ABC notation 2.1, or points at the place where
// it could not.
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
	r := newReader(text)
	for n := 1; n <= text.Lines() && !r.done; n++ {
		r.readLine(text.Span(n))
	}
	r.openBody()
	r.closeMusic()
	r.numberBars()
	r.checkBars()
	r.play()
	return r.t, source.Sort(r.remarks)
}

// Limits of a block. They keep the answers of a page in a time that nobody
// notices and its numbers far from overflow (all guesses).
const (
	mostNotes   = 10_000 // note heads, and events, in one block
	mostPlayed  = 20_000 // events with their repeats
	mostTime    = 20_000 // whole notes, written or played
	mostRemarks = 200
)

// reader is the state while one text is read. Every element of the notation
// keeps its own part in its own file.
type reader struct {
	text    source.Text
	s       string // the text
	at, end int    // the next byte to read, and the end of the line's music
	remarks []source.Remark
	full    bool // no more remarks are kept
	done    bool // nothing more is read

	t     tune.Tune
	voice tune.Voice
	head  header
	lines lines

	unit  tune.Frac // L:
	meter tune.Meter
	key   pitch.Key

	now     tune.Frac // written time of the next event
	numbers int       // note heads so far
	alters  alters
	waiting waiting
	tuplet  tuplet
	broken  broken
	ties    ties
	slurs   []source.Span
	bars    bars
	voices  voices
}

func newReader(text source.Text) *reader {
	r := &reader{text: text, s: text.String, now: tune.Frac{N: 0, D: 1}}
	if strings.HasPrefix(r.s, byteOrderMark) {
		r.lines.start = len(byteOrderMark)
	}
	r.meter = freeMeter
	r.t.Meter = freeMeter
	r.t.Header = firstWritten(text)
	return r
}

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
	return r.s[from:r.at]
}

func span(from, to int) source.Span { return source.Span{From: int32(from), To: int32(to)} }
