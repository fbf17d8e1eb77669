package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFrontMatter(t *testing.T) {
	none := math.Inf(1)
	for _, row := range []struct {
		why, text                   string
		title, summary, level, body string
		order                       float64
	}{
		{"all of it", "---\ntitle: The cut\norder: 2.5\nsummary: A flick.\nlevel: easy\n---\nGo.\n", "The cut", "A flick.", "easy", "Go.\n", 2.5},
		{"a colon in the title, which YAML would refuse", "---\ntitle: Lesson 1: the cut\n---\n", "Lesson 1: the cut", "", "", "", none},
		{"signs that YAML would read", "---\ntitle: \"Quoted\" & [listed] #5\n---\n", "\"Quoted\" & [listed] #5", "", "", "", none},
		{"letters beyond ASCII", "---\ntitle: Où, 琴\n---\n", "Où, 琴", "", "", "", none},
		{"capitals", "---\nTITLE: A\nOrder: 1\n---\n", "A", "", "", "", 1},
		{"line ends of Windows", "---\r\ntitle: A\r\nlevel: b\r\n---\r\nGo.", "A", "", "b", "Go.", none},
		{"a mark before the first letter", "\uFEFF---\ntitle: A\n---\nGo.", "A", "", "", "Go.", none},
		{"spaces and an empty line", "---  \ntitle:   A  \n\nlevel:b\n--- \nGo.", "A", "", "b", "Go.", none},
		{"a value on two lines", "---\nsummary: one\n  two\ntitle: A\n---\n", "A", "one two", "", "", none},
		{"a rule in the text below", "---\ntitle: A\n---\n\n---\nb: c\n---\n", "A", "", "", "\n---\nb: c\n---\n", none},
		{"an order below 0", "---\ntitle: A\norder: -1\n---\n", "A", "", "", "", -1},
	} {
		l := readLesson("a.md", "a.md", []byte(row.text))
		assert.Empty(t, l.remarks, row.why)
		assert.Equal(t, row.title, l.title, row.why)
		assert.Equal(t, row.summary, l.summary, row.why)
		assert.Equal(t, row.level, l.level, row.why)
		assert.Equal(t, row.order, l.order, row.why)
		assert.Equal(t, row.body, string(l.source[l.body:]), row.why)
	}
}

func TestAddresses(t *testing.T) {
	for name, want := range map[string]string{
		"cut.md": "cut.html", "The First Cut.md": "the-first-cut.html", "a--b.md": "a-b.html",
		"Où.md": "où.html", "...md": "lesson.html", "2 & 3.md": "2-3.html",
	} {
		assert.Equal(t, want, address(name), name)
	}
}
