package source_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/source"
)

// Lines end with LF, CRLF or a lone CR; columns count characters, not bytes.
func TestPosition(t *testing.T) {
	rows := []struct {
		text         string
		at           int32
		line, column int
		why          string
	}{
		{"", 0, 1, 1, "an empty text has one place"},
		{"CDE", 2, 1, 3, "inside a line"},
		{"CDE", 3, 1, 4, "just after the last character"},
		{"CDE", 99, 1, 4, "past the end: the nearest place inside"},
		{"CDE", -1, 0, 0, "nowhere"},
		{"C\nD", 1, 1, 2, "the line end belongs to its line"},
		{"C\nD", 2, 2, 1, "after LF"},
		{"C\rD", 2, 2, 1, "after a lone CR"},
		{"C\r\nD", 2, 1, 3, "between CR and LF nothing starts"},
		{"C\r\nD", 3, 2, 1, "after CRLF"},
		{"C\n\rD", 3, 3, 1, "LF, then a lone CR: an empty line between"},
		{"C\n", 2, 2, 1, "a line end at the end of the text opens an empty line"},
		{"Ó Catháin\nC", 3, 1, 3, "two bytes, one character"},
		{"𝄞C", 4, 1, 2, "four bytes, one character"},
		{"é\r\né\rC", 7, 3, 1, "characters of two bytes with both line ends"},
	}
	for _, row := range rows {
		line, column := source.NewText(row.text).Position(row.at)
		assert.Equal(t, [2]int{row.line, row.column}, [2]int{line, column}, "%q at %d: %s", row.text, row.at, row.why)
	}
}

// A browser counts in UTF-16: RFC 2781, 2.1: what lies beyond U+FFFF takes two.
func TestUTF16(t *testing.T) {
	text := source.NewText("Ó 𝄞C\n\xe9D")
	rows := []struct {
		at   int32
		want int
		why  string
	}{{0, 0, "the start"}, {2, 1, "after two bytes"}, {3, 2, "a space"}, {7, 4, "after four bytes: two units"}, {8, 5, "a letter"},
		{9, 6, "a line end"}, {10, 7, "a byte that is no UTF-8"}, {99, 8, "the end"}, {-1, 0, "nowhere"}}
	for _, row := range rows {
		assert.Equal(t, row.want, text.UTF16(row.at), row.why)
	}
}

// Of a kind so many are kept, the last of which tells how many more there are; in
// all so many, the notes dropped first and those from the end.
func TestThin(t *testing.T) {
	say := func(words string) (list []source.Remark) {
		for i, word := range strings.Fields(words) {
			severity := map[byte]source.Severity{'n': source.Note, 'w': source.Warning, 'e': source.Error}[word[0]]
			list = append(list, source.Remark{Span: source.Span{From: int32(i)}, Severity: severity, Kind: word, Message: word})
		}
		return list
	}
	rows := []struct {
		given        string
		ofAKind, all int
		want         string
		left         int
		why          string
	}{
		{"", 2, 9, "", 0, "nothing"},
		{"e1 w1 e1", 2, 9, "e1 w1 e1", 0, "few"},
		{"e1 e1 e1", 2, 9, "e1 e1 e1", 0, "one more is shown itself"},
		{"e1 w1 e1 e1 w1 e1", 2, 9, "e1 w1 e1+2 w1", 0, "two more are told of"},
		{"n1 e1 w1 n2 w2 n3", 9, 4, "n1 e1 w1 w2", 2, "notes go first, from the end"},
		{"n1 e1 w1 w2 e2 e3", 9, 2, "e1 e2", 4, "then warnings, then errors"},
	}
	for _, row := range rows {
		given := say(row.given)
		kept, left := source.Thin(given, row.ofAKind, row.all)
		var words []string
		for _, r := range kept {
			words = append(words, strings.NewReplacer(" There are ", "+", " more like this.", "").Replace(r.Message))
		}
		assert.Equal(t, row.want, strings.Join(words, " "), row.why)
		assert.Equal(t, row.left, left, row.why)
		assert.Equal(t, say(row.given), given, "what was given is left as it was")
	}
}

func TestLines(t *testing.T) {
	text := source.NewText("K:C\r\nCé|\r\rD\n")
	assert.Equal(t, 5, text.Lines())
	rows := []struct {
		n    int
		line string
		span source.Span
	}{
		{0, "", source.Nowhere()},
		{1, "K:C", source.Span{From: 0, To: 3}},
		{2, "Cé|", source.Span{From: 5, To: 9}},
		{3, "", source.Span{From: 10, To: 10}},
		{4, "D", source.Span{From: 11, To: 12}},
		{5, "", source.Span{From: 13, To: 13}},
		{6, "", source.Nowhere()},
	}
	for _, row := range rows {
		assert.Equal(t, row.line, text.Line(row.n), "line %d", row.n)
		assert.Equal(t, row.span, text.Span(row.n), "line %d", row.n)
	}
}

// The caret stands under the character it means, whatever stands before it.
func TestCaret(t *testing.T) {
	rows := []struct {
		text string
		at   int32
		want string
		why  string
	}{
		{"C !roal!D|", 2, "C !roal!D|\n  ^", "plain letters"},
		{"T:Ó\nC ;", 7, "C ;\n  ^", "the second line, after a character of two bytes"},
		{"é ;", 3, "é ;\n  ^", "a character of two bytes before it takes one place"},
		{"\tC ;", 3, "\tC ;\n\t  ^", "a tab stays a tab"},
		{"C\r\nD", 1, "C\n ^", "at a line end"},
		{"C\r\nD", 2, "C\n ^", "between CR and LF"},
		{"C", -1, "", "a remark that is nowhere has no caret"},
	}
	for _, row := range rows {
		remark := source.Remark{Span: source.Span{From: row.at, To: row.at}}
		assert.Equal(t, row.want, source.NewText(row.text).Caret(remark), row.why)
	}
}

func TestSort(t *testing.T) {
	at := func(from int32, severity source.Severity, kind string) source.Remark {
		return source.Remark{Span: source.Span{From: from, To: from + 1}, Severity: severity, Kind: kind}
	}
	given := []source.Remark{
		at(9, source.Note, "c"), at(4, source.Note, "b"), at(4, source.Error, "a"), at(9, source.Note, "c"), at(-1, source.Warning, "n"),
	}
	kept := append([]source.Remark{}, given...)
	want := []source.Remark{
		at(-1, source.Warning, "n"), at(4, source.Error, "a"), at(4, source.Note, "b"), at(9, source.Note, "c"),
	}
	assert.Equal(t, want, source.Sort(given), "in the order of the text, the gravest first, none twice")
	assert.Equal(t, kept, given, "what was given is left as it was")
}

func TestSeverityWords(t *testing.T) {
	assert.Equal(t, []string{"note", "warning", "error"}, []string{source.Note.String(), source.Warning.String(), source.Error.String()})
}
