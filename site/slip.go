package main

import (
	"bytes"
	"regexp"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// A slip is a link or a recording that Markdown takes for words, because of a space
// in it: it would stand in the page with its brackets.
var (
	spaceInside  = regexp.MustCompile(`!?\[[^\[\]]*\]\(([^()<>]+)\)`)
	spaceBetween = regexp.MustCompile(`!?\[[^\[\]]*\]\s+\(([^()\s]+\.[A-Za-z0-9]{2,4}(?:#[^()\s]*)?|https?://[^()\s]+)\)`)
)

// slips warns of those among the words of a paragraph. What is a link, is marked as
// code or has a backslash before a bracket is no longer among its words.
func (p *prose) slips(n ast.Node) {
	from, to := -1, -1
	look := func() {
		if from < 0 {
			return
		}
		start, words := from, p.body[from:to]
		from, to = -1, -1
		if !bytes.Contains(words, []byte("](")) && !bytes.Contains(words, []byte("] ")) {
			return // nearly always, and it costs next to nothing
		}
		for _, m := range spaceBetween.FindAllSubmatchIndex(words, -1) {
			if !literal(words, m[0]) {
				p.say(isWarning, start+m[0], "This is read as words, because of the space between ] and (.", "Take the space out.")
			}
		}
		for _, m := range spaceInside.FindAllSubmatchIndex(words, -1) {
			if address := strings.TrimSpace(string(words[m[2]:m[3]])); strings.ContainsAny(address, " \t") && !literal(words, m[0]) {
				p.say(isWarning, start+m[0], "This is read as words, because of the space in its address.", "Write (<"+address+">), or give the file a name without spaces.")
			}
		}
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		t, ok := c.(*ast.Text)
		if !ok {
			look()
			continue
		}
		if from >= 0 && t.Segment.Start != to {
			look()
		}
		if from < 0 {
			from = t.Segment.Start
		}
		to = t.Segment.Stop
	}
	look()
}

// literal reports a sign with a backslash before it.
func literal(words []byte, at int) bool { return at > 0 && words[at-1] == '\\' }
