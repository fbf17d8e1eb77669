package main

import (
	"bufio"
	"bytes"
	"math"
	"net/textproto"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"readyhand/engine"
)

// lesson is one Markdown file of the course: its front matter is read, its body
// is not yet.
type lesson struct {
	name    string // "cut.md", in the content folder
	file    string // as remarks name it: "content/cut.md"
	address string // "cut.html"
	title   string
	summary string
	level   string
	order   float64 // lessons without one come after those that have one
	source  []byte
	body    int // the byte at which the Markdown starts
	remarks []remark
}

// mostBytes is the size of the largest lesson: a long chapter is 100 kB (guess).
const mostBytes = 1 << 20

// frontPage is the file whose words stand above the list of lessons, and whose
// title is the name of the site.
const frontPage = "index.md"

// readLesson reads the front matter of a file. What is wrong with it is among
// the lesson's remarks.
func readLesson(name, file string, source []byte) *lesson {
	l := &lesson{name: name, file: file, address: address(name), order: math.Inf(1), source: source}
	if bad, message, suggestion := foreign(source); bad >= 0 {
		l.remark(isError, bad, message, suggestion)
		l.body = len(source)
		return l
	}
	fields, ok := l.frontMatter()
	if !ok {
		return l
	}
	l.take(fields)
	return l
}

// remark says something about a byte of the lesson's file.
func (l *lesson) remark(s severity, at int, message, suggestion string) {
	l.remarks = append(l.remarks, l.remarkAt(s, at, message, suggestion))
}

func (l *lesson) remarkAt(s severity, at int, message, suggestion string) remark {
	line, column := position(l.source, at)
	return remark{l.file, line, column, s, message, suggestion}
}

const (
	badLetter  = "This letter cannot be read: the file is not in UTF-8."
	saveAsUTF8 = "Save it as UTF-8 in your editor."
)

// foreign finds where a file stops being a text that we read, and says what is wrong
// with it; -1 where nothing is.
func foreign(source []byte) (at int, message, suggestion string) {
	at = firstBad(source)
	switch {
	case at < 0:
		return at, "", ""
	case bytes.HasPrefix(source, []byte("\xff\xfe")) || bytes.HasPrefix(source, []byte("\xfe\xff")): // RFC 2781, 3.2
		return 0, "This file is in UTF-16, which is not read here.", saveAsUTF8
	case bytes.IndexByte(source, 0) >= 0:
		return at, "This is not plain text: perhaps a picture, a recording, or what a word processor writes.", "Save it as plain text, in UTF-8."
	}
	return at, badLetter, saveAsUTF8
}

// firstBad is the first byte that is not UTF-8, or -1. A zero byte is not in any
// text: it comes from UTF-16 or from something else than a text.
func firstBad(source []byte) int {
	zero := bytes.IndexByte(source, 0)
	if utf8.Valid(source) {
		return zero
	}
	for i := 0; i < len(source); {
		r, n := utf8.DecodeRune(source[i:])
		if i == zero || r == utf8.RuneError && n <= 1 {
			return i
		}
		i += n
	}
	return -1
}

// field is one line of front matter.
type field struct {
	key string // as textproto spells it: "Title"
	at  int    // the byte where its line starts
}

// frontMatter finds the lines between the two --- at the very start, and where
// each of them stands. Lines are "key: value", so that a title may hold a colon.
func (l *lesson) frontMatter() (fields []field, ok bool) {
	const shape = "Start the file with the lines ---, title: The name of the lesson, and --- again."
	rest := bytes.TrimPrefix(l.source, []byte("\uFEFF")) // some editors put a mark before the first letter
	line, rest, _ := bytes.Cut(rest, []byte{'\n'})
	if strings.TrimRight(string(line), " \t\r") != "---" {
		if above := bytes.TrimLeft(l.source, "\uFEFF \t\r\n"); bytes.HasPrefix(above, []byte("---\n")) || bytes.HasPrefix(above, []byte("---\r\n")) {
			l.remark(isError, 0, "This lesson has no title: the --- above it is not the first line.", "Take out what is empty above the first ---.")
			return nil, false
		}
		l.remark(isError, 0, "This lesson has no title.", shape)
		return nil, false
	}
	for len(rest) > 0 {
		at := len(l.source) - len(rest)
		line, rest, _ = bytes.Cut(rest, []byte{'\n'})
		text := strings.TrimRight(string(line), " \t\r")
		if text == "---" {
			l.body = len(l.source) - len(rest)
			return fields, true
		}
		if text != "" {
			fields = append(fields, field{at: at})
		}
	}
	l.remark(isError, 0, "The lines at the top are not closed.", "Write --- on a line of its own under them.")
	l.body = len(l.source)
	return nil, false
}

// take reads the front matter's values and keeps those it knows.
func (l *lesson) take(fields []field) {
	header, ok := l.header(fields)
	if !ok {
		return
	}
	for i, f := range fields {
		key, _, _ := bytes.Cut(l.source[f.at:], []byte{':'})
		fields[i].key = textproto.CanonicalMIMEHeaderKey(string(key))
		if c := key[0]; c == ' ' || c == '\t' {
			fields[i].key = "" // it goes on with the line before
		}
	}
	seen := map[string]bool{}
	titleAt, meant := 0, -1 // meant is the remark about a word that is nearly title
	for _, f := range fields {
		if f.key == "" {
			continue
		}
		if seen[f.key] {
			l.remark(isWarning, f.at, strings.ToLower(f.key)+" is given twice; the first counts.", "Take this line out.")
			continue
		}
		seen[f.key] = true
		value := header.Get(f.key)
		switch f.key {
		case "Title":
			l.title, titleAt = value, f.at
		case "Summary":
			l.summary = value
		case "Level":
			l.level = value
		case "Order":
			n, err := strconv.ParseFloat(value, 64)
			if err != nil || math.IsNaN(n) || math.IsInf(n, 0) {
				_, after, _ := bytes.Cut(l.source[f.at:], []byte{':'})
				at := len(l.source) - len(bytes.TrimLeft(after, " \t"))
				l.remark(isError, at, "order is not a number: "+quoted(value)+".", "Write for instance order: 3.")
				continue
			}
			l.order = n
		default:
			near, ok := engine.Near(f.key, []string{"title", "order", "summary", "level"})
			help := "Write title, order, summary or level."
			if ok {
				help = "Write " + near + "."
			}
			if near == "title" {
				meant = len(l.remarks)
			}
			l.remark(isWarning, f.at, "There is no setting "+quoted(strings.ToLower(f.key))+" here.", help)
		}
	}
	if meant >= 0 && l.title == "" && !seen["Title"] {
		l.remarks[meant].severity = isError // as no title is
		return
	}
	if l.title == "" {
		l.remark(isError, titleAt, "This lesson has no title.", "Write title: and its name on a line between the two ---.")
	}
}

// header gives the values of the lines. A line that is no "key: value" is an
// error at its place.
func (l *lesson) header(fields []field) (textproto.MIMEHeader, bool) {
	var text strings.Builder
	for _, f := range fields {
		line, _, _ := bytes.Cut(l.source[f.at:], []byte{'\n'})
		text.Write(bytes.TrimRight(line, "\r"))
		text.WriteString("\r\n")
	}
	read := func(s string) (textproto.MIMEHeader, error) {
		return textproto.NewReader(bufio.NewReaderSize(strings.NewReader(s+"\r\n"), 512)).ReadMIMEHeader()
	}
	header, err := read(text.String())
	if err == nil {
		return header, true
	}
	lines := strings.SplitAfter(text.String(), "\n")
	for i, f := range fields {
		if _, err := read(strings.Join(lines[:i+1], "")); err != nil {
			l.remark(isError, f.at, "This line is not a setting.", "Write a word, a colon and what it is: title: The first cut.")
			return nil, false
		}
	}
	l.remark(isError, 0, "The lines at the top cannot be read.", "Write each as a word, a colon and what it is.")
	return nil, false
}

// address is the page a file becomes: letters and digits in small letters, with
// a hyphen for whatever stands between them.
func address(name string) string {
	return slug(strings.TrimSuffix(name, ".md")) + ".html"
}

// slug makes a name for an address or a heading, of letters, digits and hyphens.
func slug(s string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(s) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "lesson"
	}
	return b.String()
}
