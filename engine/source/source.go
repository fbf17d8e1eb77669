// Package source is what a person wrote: a text, places in it, and remarks at
// their place.
package source

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"
)

// Span is a stretch of a text, in bytes from its start: From is the first byte,
// To the byte after the last. A Span of {-1, -1} is nowhere (Nowhere).
type Span struct{ From, To int32 }

// Nowhere is the span of a remark that has no place in a text, such as one
// about a choice the reader made on the page.
var nowhere = Span{-1, -1}

// Nowhere returns the span that lies in no text.
func Nowhere() Span { return nowhere }

// Severity says how much a remark weighs.
type Severity int8

const (
	Note    Severity = iota // good to know
	Warning                 // played, but probably not what was meant
	Error                   // cannot be read or cannot be played
)

// String gives the word that plan -json and the check command print.
func (s Severity) String() string {
	return [...]string{"note", "warning", "error"}[s]
}

// Remark says what is wrong at a place, in a musician's words, and what to
// write instead. Kind is its short stable name ("unknown-decoration"), by which
// complaint files and tests know it; it is never shown alone.
type Remark struct {
	Span
	Severity   Severity
	Kind       string
	Message    string
	Suggestion string
}

// Text is what was written, with an index of its lines.
type Text struct {
	String string
	starts []int32 // byte at which each line starts
}

// NewText indexes the lines of s. Lines end with LF, CRLF or a lone CR.
func NewText(s string) Text {
	t := Text{String: s, starts: []int32{0}}
	for i := 0; i < len(s); i++ {
		if s[i] == '\n' || s[i] == '\r' && (i+1 == len(s) || s[i+1] != '\n') {
			t.starts = append(t.starts, int32(i+1))
		}
	}
	return t
}

// Position gives the line and column of a byte offset, both counted from 1,
// the column in characters. An offset outside the text gives the nearest place
// inside it; Nowhere gives 0, 0.
func (t Text) Position(at int32) (line, column int) {
	if at < 0 {
		return 0, 0
	}
	at = min(at, int32(len(t.String)))
	i, found := slices.BinarySearch(t.starts, at)
	if !found {
		i--
	}
	return i + 1, 1 + utf8.RuneCountInString(t.String[t.starts[i]:at])
}

// UTF16 gives the same place as a browser counts it: in UTF-16 code units from the
// start of the text, as for the selection of a text field. A byte that is no UTF-8
// is one unit, which is what a browser makes of it.
func (t Text) UTF16(at int32) int {
	units := 0
	for _, c := range t.String[:max(0, min(at, int32(len(t.String))))] {
		units++
		if c > 0xffff {
			units++
		}
	}
	return units
}

// Lines counts the lines; a text that ends with a line end has an empty last one.
func (t Text) Lines() int { return len(t.starts) }

// Span gives the place of a line counted from 1, without its end.
func (t Text) Span(n int) Span {
	if n < 1 || n > len(t.starts) {
		return Nowhere()
	}
	return Span{t.starts[n-1], t.starts[n-1] + int32(len(t.Line(n)))}
}

// Line gives the text of a line counted from 1, without its end.
func (t Text) Line(n int) string {
	if n < 1 || n > len(t.starts) {
		return ""
	}
	from, to := t.starts[n-1], int32(len(t.String))
	if n < len(t.starts) {
		to = t.starts[n]
	}
	return strings.TrimRight(t.String[from:to], "\r\n")
}

// Caret gives the line a remark stands on and, under it, a caret below its
// place. It is empty for a remark that is nowhere.
func (t Text) Caret(r Remark) string {
	n, column := t.Position(r.From)
	if n == 0 {
		return ""
	}
	line := t.Line(n)
	pad := strings.Map(func(c rune) rune {
		if c == '\t' {
			return c
		}
		return ' '
	}, string([]rune(line)[:min(column-1, utf8.RuneCountInString(line))]))
	return line + "\n" + pad + "^"
}

// Sort puts remarks in the order of the text, at one place the gravest first,
// and drops those that say the same thing at the same place.
func Sort(remarks []Remark) []Remark {
	sorted := slices.Clone(remarks)
	Order(sorted, func(a, b Remark) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(b.Severity, a.Severity))
	})
	return slices.Compact(sorted)
}
