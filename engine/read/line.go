package read

import (
	"strings"

	"readyhand/engine/source"
)

const byteOrderMark = "\ufeff"

// lines is what is known about the lines of the text.
type lines struct {
	start     int         // where the text starts, after a byte order mark
	tune      int         // where the tune starts: before it may stand text (2.2.3)
	music     int         // where its music can start: at its K:, if it has X: and K:
	body      bool        // the header is over
	blank     source.Span // the first empty line since the last written one
	begun     bool        // a written line has been seen
	over      bool        // the tune is over; what follows is text
	lost      bool        // that music follows was said
	text      source.Span // the %%begin that is open
	inText    string      // what it begins; "" if none is open
	turns     int         // line breaks of the music so far
	breaks    breaks
	continued byte // the field that +: goes on with
}

// breaks are what ends a line of music (ABC 2.1, 6.1.1): the end of a line of
// text and $, if nothing else is said.
type breaks int8

const (
	lineEnd breaks = 1 << iota
	dollar
	bang
)

// readLine sorts one line: a directive, a comment, a field or music (ABC 2.1,
// 2.2.4 to 2.2.6).
func (r *reader) readLine(place source.Span) {
	from, to := trim(r.s, max(int(place.From), r.lines.start), int(place.To))
	r.steps += int(place.To-place.From) + 1
	line := r.s[from:to]
	switch {
	case r.lines.inText != "":
		if strings.HasPrefix(line, "%%end"+r.lines.inText) {
			r.lines.inText = ""
		}
		return
	case line == "":
		r.emptyLine(place)
		return
	case strings.HasPrefix(line, "%"):
		r.directive(from, to)
		return
	}
	to = from + len(uncommented(line))
	from, to = trim(r.s, from, to)
	if from < r.lines.tune {
		letter, ok := r.fieldLine(r.s[from:to])
		switch { // the file's header (2.2.2)
		case ok && letter == 'L':
			r.say(lengthBefore, span(from, to), "Other programs overlook a length of notes above the X: line, and so it is not used.", "Write it under the X: line.")
		case ok:
			r.field(letter, from, from+2, to)
		}
		return
	}
	if r.lines.over {
		r.afterTune(from, to)
		return
	}
	r.afterBlank(r.s[from:to])
	r.lines.begun = true
	if letter, ok := r.fieldLine(r.s[from:to]); ok {
		r.field(letter, from, from+2, to)
		return
	}
	if from < r.lines.music {
		return // words between the fields of a header
	}
	r.openBody()
	r.spaced = r.spaced || from > int(place.From)
	r.musicLine(from, to)
}

// emptyLine ends the tune (ABC 2.1, 2.2.1), once there is music.
func (r *reader) emptyLine(place source.Span) {
	if !r.lines.begun || r.lines.blank != (source.Span{}) {
		return
	}
	r.lines.blank = place
	r.lines.over = r.events > 0
}

// afterBlank speaks of an empty line between the header and the music: elsewhere
// there may be one, after the header of a file (2.2.2).
func (r *reader) afterBlank(next string) {
	if r.lines.blank != (source.Span{}) && r.lines.body {
		r.say(emptyLine, r.lines.blank, "An empty line ends a tune in ABC; other programs stop here.",
			"Take the empty line out, or write % on it.")
	}
	r.lines.blank = source.Span{}
}

// afterTune reads on after the tune is over, for another tune or lost music.
func (r *reader) afterTune(from, to int) {
	line := r.s[from:to]
	switch {
	case strings.HasPrefix(line, "X:"):
		r.nextTune(r.value(from+2, to))
	case !r.lines.lost && musical(line):
		r.lines.lost = true
		r.say(musicAfterEnd, r.lines.blank, "An empty line ends the tune here; the music after it is not read.",
			"Take the empty line out, or write % on it.")
	}
}

// musical guesses whether a line is music or a field, not words about the tune:
// it has a bar line, or no word of three letters but signs and note names.
func musical(line string) bool {
	if len(line) > 1 && line[1] == ':' && isLetter(line[0]) || strings.Contains(line, "|") {
		return true
	}
	for word := range strings.FieldsSeq(line) {
		if strings.Trim(word, noteStarts+",'/<>()[]{}-.~!\"zxy&"+digits) != "" {
			return false
		}
	}
	return true
}

// fieldLine reports whether a line is an information field, a letter and a
// colon. In the body "A:|" and "A: |" are a note and a repeat.
func (r *reader) fieldLine(line string) (letter byte, ok bool) {
	if len(line) < 2 || line[1] != ':' || !isLetter(line[0]) && line[0] != '+' {
		return 0, false
	}
	next := line[2:]
	if r.lines.body {
		next = strings.TrimLeft(next, " ")
	}
	if next != "" && strings.IndexByte("|:", next[0]) >= 0 && strings.IndexByte("ABCDEFGabcdefgzx", line[0]) >= 0 {
		return 0, false
	}
	if r.lines.body && strings.IndexByte("abcdefg", line[0]) >= 0 && next != "" && musical(next) { // no field has such a letter
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
		r.steps++
		r.element()
	}
	if joined {
		return
	}
	if r.lines.breaks&lineEnd != 0 {
		r.turnLine()
	}
	for _, p := range r.parts {
		r.part, p = p, r.part
		r.waitedInVain()
		r.part = p
	}
}

// turnLine starts a new line of music.
func (r *reader) turnLine() {
	r.lines.turns++
	r.spaced = true
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
