package main

import (
	"bytes"
	"errors"
	"strconv"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"readyhand/engine"
)

// newMarkdown makes the one reader of Markdown that all pages share. HTML in a
// lesson is left out; a table says how it is aligned in a way that the page's
// security policy lets through.
func newMarkdown() goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.NewTable(
			extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute))),
		goldmark.WithParserOptions(parser.WithAutoHeadingID(), withLimits()),
		goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(finished{}, 0))),
	)
}

// toTree reads Markdown, or says which limit it passed and where.
func toTree(md goldmark.Markdown, body []byte, l limits, ids parser.IDs) (tree ast.Node, past *tooMuch) {
	w := newWatch(l, ids)
	defer func() {
		if thrown := recover(); thrown != nil {
			t, ok := thrown.(tooMuch)
			if !ok {
				panic(thrown)
			}
			tree, past = nil, &t
		}
	}()
	return md.Parser().Parse(watched{text.NewReader(body), w}, parser.WithContext(w)), nil
}

// A ready node holds HTML that is finished: a tune, a recording. It is in pieces,
// because a tune's is long and need not be written twice.
type ready struct {
	ast.BaseBlock
	html []string
}

var kindReady = ast.NewNodeKind("Ready")

func (r *ready) Kind() ast.NodeKind        { return kindReady }
func (r *ready) Dump(source []byte, n int) { ast.DumpHelper(r, source, n, nil, nil) }

// finished writes ready nodes.
type finished struct{}

func (finished) RegisterFuncs(r renderer.NodeRendererFuncRegisterer) {
	r.Register(kindReady, func(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			for _, piece := range n.(*ready).html {
				w.WriteString(piece)
			}
		}
		return ast.WalkSkipChildren, nil
	})
}

// headings gives each heading of a page a name that links can lead to, the
// words of the heading. The engine names what it draws b1-12, ...: a heading
// never gets such a name, nor one the page uses itself.
type headings struct{ used map[string]int }

func newHeadings() headings { return headings{map[string]int{"lesson": 1}} }

func (h headings) Generate(value []byte, _ ast.NodeKind) []byte {
	s := slug(string(value))
	if len(s) > 1 && s[0] == 'b' && s[1] >= '0' && s[1] <= '9' {
		s = "part-" + s
	}
	for {
		h.used[s]++
		if h.used[s] == 1 {
			return []byte(s)
		}
		s += "-" + strconv.Itoa(h.used[s])
	}
}

func (h headings) Put(value []byte) { h.used[string(value)]++ }

// prose is the work on one lesson's tree: what to look up, what to change.
type prose struct {
	*lesson
	course *course
	body   []byte
	blocks []block
	spots  []ast.Node // where those blocks stand in the tree
	leads  []lead
	uses   []use
	said   []remark

	opened    string // the last HTML that was spoken of: "b"
	onlyTunes bool   // charts are passed over
}

// lead is a link to a heading, checked when all pages are known.
type lead struct {
	page, part string
	from       remark // what to say if it is not there
}

// use is a file that a lesson refers to, and what to say there if the site cannot
// hold it.
type use struct {
	*asset
	from remark
}

func (p *prose) say(s severity, at int, message, suggestion string) {
	p.said = append(p.said, p.remarkAt(s, p.lesson.body+at, message, suggestion))
}

// A sheet is what the HTML of a lesson's words is written on. Goldmark writes on
// it as it is (a util.BufWriter), with no buffer of its own for every page.
type sheet struct{ bytes.Buffer }

func (s *sheet) Buffered() int { return s.Len() }
func (s *sheet) Flush() error  { return nil }

// render makes the HTML of a lesson's words into out. What is wrong is in said.
func (p *prose) render(md goldmark.Markdown, ask asker, out *sheet) (ids headings, err error) {
	ids = newHeadings()
	tree, past := toTree(md, p.body, usual, ids)
	if past != nil {
		p.say(isError, past.at, past.message, past.suggestion)
		return ids, nil
	}
	if !p.mend(tree) {
		return ids, nil
	}
	p.setTunes(ask)
	return ids, md.Renderer().Render(out, p.body, tree)
}

var errDeep = errors.New("too deep")

// mend looks at every node of the tree once: links lead to pages, recordings
// become players, HTML goes out, tunes are collected.
func (p *prose) mend(tree ast.Node) bool {
	var gone []ast.Node
	swaps := map[ast.Node]ast.Node{}
	depth := 0
	err := ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			depth--
			return ast.WalkContinue, nil
		}
		// Signs inside signs (***) are no lists, so the watch does not count them.
		if depth++; depth > 4*usual.levels {
			p.say(isError, max(0, n.Pos()), "Signs lie too deep inside each other here.", "Take some of the stars and brackets out.")
			return ast.WalkStop, errDeep
		}
		switch n := n.(type) {
		case *ast.Link:
			p.link(n)
		case *ast.AutoLink:
			p.autoLink(n)
		case *ast.Image:
			if player := p.image(n); player != nil {
				swaps[n] = player
			}
		case *ast.FencedCodeBlock:
			p.fence(n)
			p.bare(n)
		case *ast.Paragraph, *ast.TextBlock:
			p.bare(n)
			p.slips(n)
		case *ast.CodeBlock:
			p.bare(n)
		case *ast.RawHTML:
			first := n.Segments.At(0)
			p.html(n.Pos(), first.Value(p.body))
			gone = append(gone, n)
		case *ast.HTMLBlock:
			first := n.ClosureLine
			if n.Lines().Len() > 0 {
				first = n.Lines().At(0)
			}
			p.html(n.Pos(), first.Value(p.body))
			gone = append(gone, n)
		case *ast.Heading:
			if n.Level == 1 && p.title != "" {
				p.say(isNote, n.Pos(), "The title is already the heading of the page.", "Begin a part of the lesson with ##.")
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range gone {
		n.Parent().RemoveChild(n.Parent(), n)
	}
	for old, player := range swaps { // each stands at a place of its own: the order does not matter
		old.Parent().ReplaceChild(old.Parent(), old, player)
	}
	return err == nil
}

// instead is what to write in Markdown for the commonest of HTML.
var instead = map[string]string{
	"b": "Write **bold**.", "strong": "Write **bold**.", "i": "Write *slanted*.", "em": "Write *slanted*.",
	"br": "End the line with a backslash, \\.", "a": "Write [the words](the address).", "p": "Leave an empty line between paragraphs.",
	"img": "Write ![what it shows](the name of the file).", "audio": "Write ![what is heard](the name of the file).",
	"video": "Write ![what is seen](the name of the file).", "h1": "Write ## and the heading.", "h2": "Write ## and the heading.", "h3": "Write ### and the heading.",
}

// html speaks about HTML in a lesson; a comment is the teacher's own note, and of
// <b>bold</b> the end needs no word.
func (p *prose) html(at int, text []byte) {
	text = bytes.TrimSpace(text)
	if bytes.HasPrefix(text, []byte("<!--")) {
		return
	}
	name := strings.ToLower(string(bytes.TrimLeft(text, "</")))
	name = name[:len(name)-len(strings.TrimLeft(name, "abcdefghijklmnopqrstuvwxyz123456"))]
	if bytes.HasPrefix(text, []byte("</")) && p.opened == name {
		p.opened = ""
		return
	}
	p.opened = name
	help := instead[name]
	if help == "" {
		help = "Write it in Markdown, and for a sign write \\<."
	}
	p.say(isWarning, max(0, at), "HTML is left out of the page.", help)
}

// fence looks at a block between ``` lines.
func (p *prose) fence(n *ast.FencedCodeBlock) {
	language := strings.ToLower(string(n.Language(p.body)))
	chart := language == "chart"
	if !chart && language != "abc" {
		p.misnamed(n, language)
		return
	}
	if chart && p.onlyTunes {
		return
	}
	what := "a tune"
	if chart {
		what = "a chart"
	}
	if n.Parent().Kind() != ast.KindDocument {
		p.say(isWarning, n.Pos(), "A"+what[1:]+" inside a list or a quotation is only printed, not fingered.",
			"Begin its ``` at the start of the line, outside the list.")
		return
	}
	b, closed := p.block(n)
	if chart {
		b.isChart()
	}
	if strings.TrimSpace(b.text) == "" && closed {
		p.say(isError, n.Pos(), "There is no tune in this block.", "Write one between its two lines: X:1, K:C and, under them, the notes; or take the block out.")
		return
	}
	if !closed {
		p.say(isError, n.Pos(), "This "+what[2:]+" has no end.", "Write "+p.ticks(n)+" on a line of its own under the "+what[2:]+".")
		return
	}
	p.blocks = append(p.blocks, b)
	p.spots = append(p.spots, n)
}

// ticks gives the signs that begin a block, which also end it.
func (p *prose) ticks(n *ast.FencedCodeBlock) string {
	line := p.body[n.Pos():]
	return string(line[:len(line)-len(bytes.TrimLeft(line, string(line[:1])))])
}

// misnamed warns of a block whose name is nearly that of a tune or a chart.
func (p *prose) misnamed(n *ast.FencedCodeBlock, language string) {
	near, ok := engine.Near(language, []string{"abc", "chart"})
	switch {
	case strings.HasPrefix(language, "abc"):
		near = "abc"
	case !ok:
		return
	}
	if near == "abc" && !p.holdsTune(n) {
		return
	}
	p.say(isWarning, n.Pos(), "A block named "+quoted(language)+" is only printed.", "Write ```"+near+", if that is meant.")
}

// holdsTune reports a block with a line such as X:1 or K:G in it.
func (p *prose) holdsTune(n *ast.FencedCodeBlock) bool {
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		if line := s.Value(p.body); bytes.HasPrefix(line, []byte("K:")) || numbered(line) {
			return true
		}
	}
	return false
}

// bare warns of a tune that nothing marks as one: it would stand in the page as
// words. A tune begins with X: and a number, and its key line is K: (ABC 2.1, 3).
func (p *prose) bare(n ast.Node) {
	if fence, ok := n.(*ast.FencedCodeBlock); ok && len(fence.Language(p.body)) > 0 {
		return
	}
	at := -1
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		line := bytes.TrimLeft(s.Value(p.body), " \t")
		switch {
		case at < 0 && numbered(line):
			at = s.Stop - len(line)
		case at >= 0 && bytes.HasPrefix(line, []byte("K:")):
			p.say(isWarning, at, "This looks like a tune, and is only printed.", "Write a line ```abc above it and a line ``` below.")
			return
		}
	}
}

// numbered reports a line such as X:1.
func numbered(line []byte) bool {
	number, ok := bytes.CutPrefix(line, []byte("X:"))
	number = bytes.TrimSpace(number)
	return ok && len(number) > 0 && '0' <= number[0] && number[0] <= '9'
}

// setTunes puts the engine's answer in the place of each tune.
func (p *prose) setTunes(ask asker) {
	if len(p.blocks) == 0 {
		return
	}
	for i, a := range ask(p.course.house, p.blocks) {
		for _, r := range a.remarks {
			p.said = append(p.said, p.remarkIn(p.blocks[i], r))
		}
		old := p.spots[i]
		old.Parent().ReplaceChild(old.Parent(), old, &ready{html: section(i+1, a)})
	}
}

// section is the place of one tune in the page, in pieces.
func section(number int, a answered) []string {
	var b strings.Builder
	b.WriteString(`<section class="ready" id="b`)
	b.WriteString(strconv.Itoa(number))
	b.WriteString(`" data-sum="`)
	escape(&b, a.sum)
	b.WriteString(`" aria-label="`)
	if a.title == "" {
		b.WriteString("Tune ")
		b.WriteString(strconv.Itoa(number))
	}
	escape(&b, a.title)
	b.WriteString(`">`)
	return []string{b.String(), a.markup, "</section>\n"}
}
