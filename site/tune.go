package main

import (
	"bytes"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"

	"readyhand/engine"
)

// block is one tune as it stands in a lesson.
type block struct {
	text   string
	starts []int // for each line of text, the byte in the body at which it starts
}

// block takes the tune out of its fence and reports whether the fence is closed:
// one that is not swallows the rest of the lesson.
func (p *prose) block(n *ast.FencedCodeBlock) (b block, closed bool) {
	var text strings.Builder
	end := len(p.body)
	if i := bytes.IndexByte(p.body[n.Pos():], '\n'); i >= 0 {
		end = n.Pos() + i + 1
	}
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		b.starts = append(b.starts, s.Start)
		text.Write(s.Value(p.body))
		end = s.Stop
	}
	b.text = text.String()
	return b, end < len(p.body)
}

// isChart makes the block one that holds a chart: under the line that tells the
// engine so stands what is in the fence.
func (b *block) isChart() {
	at := 0
	if len(b.starts) > 0 {
		at = b.starts[0]
	}
	b.text, b.starts = engine.ChartLine+"\n"+b.text, append([]int{at}, b.starts...)
}

// place gives the byte in the body for a byte of the tune.
func (b block) place(at int) int {
	at = max(0, min(at, len(b.text)))
	if at == len(b.text) {
		at = len(strings.TrimRight(b.text, "\r\n")) // the end of the last line, not of the fence below it
	}
	line := strings.Count(b.text[:at], "\n")
	if line >= len(b.starts) {
		return 0
	}
	return b.starts[line] + at - (strings.LastIndexByte(b.text[:at], '\n') + 1)
}

// remarkIn gives what the engine said about a tune its place in the lesson.
func (p *prose) remarkIn(b block, r tuneRemark) remark {
	r.remark.file = p.file
	at := 0
	if r.at >= 0 {
		at = b.place(r.at)
	} else if len(b.starts) > 0 {
		at = b.starts[0]
	}
	r.line, r.column = position(p.source, p.lesson.body+at)
	return r.remark
}

// answered is what the engine gives for one tune of a page.
type answered struct {
	title, markup, sum string
	remarks            []tuneRemark
}

// tuneRemark is a remark at a byte of the tune, -1 when it is about the whole.
type tuneRemark struct {
	remark
	at int
}

// An asker answers all tunes of one page of a course.
type asker func(course engine.Course, blocks []block) []answered

// askEngine is where the site asks the engine about the tunes of a page.
func askEngine(course engine.Course, blocks []block) []answered {
	texts := make([]string, len(blocks))
	for i, b := range blocks {
		texts[i] = b.text
	}
	page := course.Open(texts, "", "")
	answers := make([]answered, len(blocks))
	for i := range blocks {
		a := page.Answer(i)
		answers[i] = answered{title: a.Block.Tune.Title, markup: page.Markup(i), sum: page.Sum(i)}
		for _, r := range a.Remarks {
			answers[i].remarks = append(answers[i].remarks, tuneRemark{
				remark{severity: severity(r.Severity.String()), message: r.Message, suggestion: r.Suggestion}, int(r.From)})
		}
	}
	return answers
}

// memory keeps the answers of the last build, so that serve asks the engine
// only about the page that was changed.
type memory struct {
	mu        sync.Mutex
	last, now map[string][]answered
}

func newMemory() *memory { return &memory{now: map[string][]answered{}} }

// turn begins a build: what it does not ask for again is forgotten after it.
func (m *memory) turn() { m.last, m.now = m.now, map[string][]answered{} }

func (m *memory) ask(course engine.Course, blocks []block) []answered {
	var key strings.Builder
	key.WriteString(course.String())
	for _, b := range blocks {
		key.WriteString(b.text)
		key.WriteByte(0)
	}
	k := key.String()
	m.mu.Lock()
	got, ok := m.last[k]
	m.mu.Unlock()
	if !ok {
		got = askEngine(course, blocks)
	}
	m.mu.Lock()
	m.now[k] = got
	m.mu.Unlock()
	return slices.Clone(got)
}
