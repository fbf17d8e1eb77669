package main

import (
	"bytes"
	"time"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// Reading Markdown takes a time that grows with the square of some texts: many
// > in a line, many [a]( or [a]: x in a page, a table with many columns and
// rows. So a page has limits, and one who writes past them is told so. Goldmark
// cannot be stopped from outside; the watch looks at the clock wherever goldmark
// asks it something, and leaves through a panic that toTree turns into an error.

// limits of one page.
type limits struct {
	time   time.Duration
	levels int // lists and quotations inside each other
	cells  int // of all its tables
}

// usual limits: a page takes 1 ms; nobody reads a list at the tenth level (guesses).
var usual = limits{time: 2 * time.Second, levels: 32, cells: 50000}

// tooMuch is what the watch throws: which limit was passed, and where.
type tooMuch struct {
	message, suggestion string
	at                  int
}

// watch is a parser.Context that keeps to the limits.
type watch struct {
	parser.Context
	limits
	until time.Time
	calls int
	at    int // the last byte that was looked at
}

func newWatch(l limits, ids parser.IDs) *watch {
	return &watch{Context: parser.NewContext(parser.WithIDs(ids)), limits: l, until: time.Now().Add(l.time)}
}

// look is called for every few letters, so it asks the clock only now and then.
func (w *watch) look() {
	if w.calls++; w.calls&15 == 0 && time.Now().After(w.until) {
		panic(tooMuch{"This lesson is too tangled to be read in time.",
			"Look for many brackets or signs in a row near here, or make two lessons of it.", w.at})
	}
}

func (w *watch) AddReference(r parser.Reference)     { w.look(); w.Context.AddReference(r) }
func (w *watch) LastOpenedBlock() parser.Block       { w.look(); return w.Context.LastOpenedBlock() }
func (w *watch) Get(k parser.ContextKey) any         { w.look(); return w.Context.Get(k) }
func (w *watch) RemoveDelimiter(d *parser.Delimiter) { w.look(); w.Context.RemoveDelimiter(d) }
func (w *watch) SetOpenedBlocks(blocks []parser.Block) {
	w.look()
	if len(blocks) > w.levels {
		panic(tooMuch{"Lists or quotations lie too deep inside each other here.", "Take some of the levels out.", w.at})
	}
	w.Context.SetOpenedBlocks(blocks)
}

// watched is a reader that tells the watch where it is.
type watched struct {
	text.Reader
	*watch
}

func (r watched) PeekLine() ([]byte, text.Segment) {
	line, s := r.Reader.PeekLine()
	r.at = s.Start
	r.look()
	return line, s
}

// tripwire is asked first for every sign that may begin something inside a
// paragraph. It never reads anything itself.
type tripwire struct{}

func (tripwire) Trigger() []byte { return []byte("[]!<&*_`~:") }
func (tripwire) Parse(_ ast.Node, block text.Reader, pc parser.Context) ast.Node {
	if w, ok := pc.(*watch); ok {
		_, s := block.PeekLine()
		w.at = s.Start
		w.look()
	}
	return nil
}

// measure stops a table whose rows would be filled up to more cells than a page
// may have, before it is made.
type measure struct{}

func (measure) Transform(p *ast.Paragraph, reader text.Reader, pc parser.Context) {
	w, ok := pc.(*watch)
	if !ok {
		return
	}
	columns, lines := 0, p.Lines()
	for i := 1; i < lines.Len(); i++ {
		s := lines.At(i)
		if line := s.Value(reader.Source()); len(bytes.Trim(line, "|-: \t\r\n")) == 0 {
			columns = max(columns, 1+bytes.Count(line, []byte{'|'}))
		}
	}
	if w.cells -= columns * lines.Len(); w.cells < 0 {
		panic(tooMuch{"The tables of this lesson are too large.", "Take rows or columns out.", lines.At(0).Start})
	}
}

// withLimits are the parts above as a setting of goldmark. The numbers only say
// that they come before goldmark's own (0 is first).
func withLimits() parser.Option {
	return joined{
		parser.WithInlineParsers(util.Prioritized(tripwire{}, 0)),
		parser.WithParagraphTransformers(util.Prioritized(measure{}, 0)),
	}
}

type joined []parser.Option

func (j joined) SetParserOption(c *parser.Config) {
	for _, o := range j {
		o.SetParserOption(c)
	}
}
