package read

import (
	"strings"

	"readyhand/engine/source"
)

const byteOrderMark = "\ufeff"

// lines is what is known about the lines of the text.
type lines struct {
	start     int         // where the text starts, after a byte order mark
	body      bool        // the header is over
	blank     source.Span // the first empty line since the last written one
	begun     bool        // a written line has been seen
	text      source.Span // the %%begintext that is open
	inText    bool
	music     int  // lines of music, from 0
	turn      bool // the next event starts a new line of music
	continued byte // the field that +: goes on with
}

// readLine sorts one line: a directive, a comment, a field or music (ABC 2.1,
// 2.2.4 to 2.2.6).
func (r *reader) readLine(place source.Span) {
	from, to := max(int(place.From), r.lines.start), int(place.To)
	from, to = trim(r.s, from, to)
	line := r.s[from:to]
	switch {
	case r.lines.inText:
		r.lines.inText = !strings.HasPrefix(line, "%%endtext")
		return
	case line == "":
		if r.lines.begun && r.lines.blank == (source.Span{}) {
			r.lines.blank = place
		}
		return
	case strings.HasPrefix(line, "%"):
		r.directive(from, to)
		return
	}
	to = from + len(uncommented(line))
	from, to = trim(r.s, from, to)
	r.emptyLine(r.s[from:to])
	r.lines.begun = true
	if letter, ok := r.fieldLine(r.s[from:to]); ok {
		r.field(letter, from, from+2, to)
		return
	}
	r.openBody()
	r.musicLine(from, to)
}

// emptyLine speaks of an empty line inside the tune: for ABC the tune is over
// there (2.2.1), but a block of a lesson holds one tune, so we read on.
func (r *reader) emptyLine(next string) {
	if r.lines.blank != (source.Span{}) && !strings.HasPrefix(next, "X:") {
		r.say(emptyLine, r.lines.blank, "An empty line ends a tune in ABC; other programs stop here.",
			"Take the empty line out, or write % on it.")
	}
	r.lines.blank = source.Span{}
}

// fieldLine reports whether a line is an information field, a letter and a
// colon. In the body "A:|" is a note and a repeat.
func (r *reader) fieldLine(line string) (letter byte, ok bool) {
	if len(line) < 2 || line[1] != ':' || !isLetter(line[0]) && line[0] != '+' {
		return 0, false
	}
	if len(line) > 2 && strings.IndexByte("|:", line[2]) >= 0 && strings.IndexByte("ABCDEFGabcdefgzx", line[0]) >= 0 {
		return 0, false
	}
	return line[0], true
}

// musicLine reads one line of music. A backslash at its end joins the next.
func (r *reader) musicLine(from, to int) {
	joined := to > from && r.s[to-1] == '\\'
	if joined {
		to--
	}
	r.at, r.end = from, to
	for r.at < r.end && !r.done {
		if r.voices.other {
			r.skipVoice()
			continue
		}
		r.element()
	}
	if !joined {
		r.lines.turn = true
		r.waitedInVain()
	}
}

// uncommented is a line up to its first % that no backslash covers.
func uncommented(line string) string {
	for i := 0; i < len(line); i++ {
		switch line[i] {
		case '\\':
			if i+1 < len(line) && line[i+1] == '%' {
				i++
			}
		case '%':
			return line[:i]
		}
	}
	return line
}

// trim narrows a stretch of s by the white space at its ends.
func trim(s string, from, to int) (int, int) {
	for from < to && isSpace(s[from]) {
		from++
	}
	for from < to && isSpace(s[to-1]) {
		to--
	}
	return from, max(from, to)
}

func isSpace(c byte) bool  { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }
func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }
func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
