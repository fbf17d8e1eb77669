package read

import (
	"strings"
	"unicode/utf8"

	"readyhand/engine/source"
)

// elements are the elements of a line of music by the signs they start with
// (ABC 2.1, 4). The first row that has the sign reads it.
var elements = []struct {
	signs string
	read  func(*reader)
}{
	{" \t\r`", (*reader).pass}, // a backquote only helps the eye (4.7)
	{noteStarts, (*reader).note},
	{"|:", (*reader).barLine},
	{"[", (*reader).bracket},
	{"zxZX", (*reader).rest},
	{"(", (*reader).opening},
	{")", (*reader).slurEnd},
	{"{", (*reader).graces},
	{"!", (*reader).decoration},
	{"+", (*reader).plusDecoration},
	{`"`, (*reader).quoted},
	{"-", (*reader).tie},
	{"<>", (*reader).brokenRhythm},
	{".", (*reader).dot},
	{"y", (*reader).spacer},
	{"$", (*reader).lineBreak},
	{"&", (*reader).overlay},
	{digits + "/", (*reader).strayNumber},
	{shortSet, (*reader).shortDecoration},
}

// shortSet are the letters that may be signs (ABC 2.1, 4.16).
const shortSet = "~HIJKLMNOPQRSTUVWhijklmnopqrstuvw"

// element reads the next element of the line, at least one byte of it.
func (r *reader) element() {
	for _, e := range elements {
		if strings.IndexByte(e.signs, r.s[r.at]) >= 0 {
			e.read(r)
			return
		}
	}
	r.unknown()
}

func (r *reader) pass() {
	r.spaced = r.spaced || r.s[r.at] != '`'
	r.at++
}

// bracket is a chord, a field inside the music, an ending or a thick bar line.
func (r *reader) bracket() {
	next := r.peek(1)
	switch {
	case isLetter(next) && r.peek(2) == ':' && r.peek(3) != '|' && r.peek(3) != ':':
		r.inlineField()
	case isDigit(next):
		r.at++
		r.ending()
	case next == '|':
		r.barLine()
	default:
		r.chord()
	}
}

// inlineField reads [K:D], [M:3/4] and their kin (ABC 2.1, 3.2).
func (r *reader) inlineField() {
	start := r.at
	letter := r.s[start+1]
	from, to := start+3, r.end
	r.spaced = true
	if n := r.find(3, "]"); n >= 0 {
		to = start + n
		r.at = to + 1
	} else {
		r.at = r.end
		r.say(unclosedField, span(start, r.end), "This field is not closed; the rest of the line is taken for it.",
			"Write ] where it ends, such as [K:D].")
	}
	r.field(letter, start+1, from, to)
}

// spacer is y, space for the printer (ABC 2.1, 6.1.2).
func (r *reader) spacer() {
	r.at++
	r.take(digits + "/")
}

// lineBreak is $, which starts a new line of the printed music (6.1.1).
func (r *reader) lineBreak() {
	r.at++
	if r.lines.breaks&dollar != 0 {
		r.turnLine()
	}
}

// dot is a staccato, unless it dots a slur, a tie or a bar line (4.8, 4.11).
func (r *reader) dot() {
	switch r.peek(1) {
	case '(', '-', '|':
		r.at++
	default:
		r.shortDecoration()
	}
}

func (r *reader) strayNumber() {
	from := r.at
	r.take(digits + "/")
	r.say(strayNumber, span(from, r.at), "This number belongs to no note.",
		"Write a length after its note, such as c2; a finger as !2!c.")
}

// unknown steps over signs that mean nothing in ABC, all of a kind at once.
func (r *reader) unknown() {
	from := r.at
	for r.at < r.end && (r.at == from || !known(r.s[r.at])) {
		_, n := utf8.DecodeRuneInString(r.s[r.at:r.end])
		r.at += n
		r.steps++
	}
	signs := r.s[from:r.at]
	help := "Take it out."
	switch {
	case strings.ContainsAny(signs, "“”„"):
		help = `Write straight quotes: "Am".`
	case strings.ContainsAny(signs, "♯♭♮"):
		help = "Write ^F for F sharp, _B for B flat, =C for C natural."
	case strings.ContainsAny(signs, "}]"):
		help = "Take it out, or open it before its first note."
	}
	r.say(unknownSign, span(from, r.at), "Here "+source.Quote(signs)+" means nothing in ABC.", help)
}

// known reports a sign that may start an element.
func known(c byte) bool {
	for _, e := range elements {
		if strings.IndexByte(e.signs, c) >= 0 {
			return true
		}
	}
	return false
}
