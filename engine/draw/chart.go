package draw

import (
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Chart is everything the block of a chart shows: ornaments in every fingering.
type Chart struct {
	Name    string // of the block: "b1"
	Title   string
	Says    []string // what the numbers mean, a paragraph each
	Text    source.Text
	Remarks []source.Remark
	Notes   []string // quiet lines about the whole block
	Theirs  bool     // as of a View
	Harp    harp.Harp
	Hand    hand.Hand
	Lifted  bool
	Tempos  []string // "60"
	Rows    []ChartRow
}

// ChartRow is one ornament of a chart.
type ChartRow struct {
	Family string // the heading above it; "" where it is under the one before
	Name   string // of the ornament, as in ids
	Title  string
	Steps  string // "+1 0"
	Says   string
	Starts []ChartStart
}

// ChartStart is what can be played when the note has one finger.
type ChartStart struct {
	Finger int // 1 to 4
	Ready  string
	None   string // said where there is no way
	Ways   []ChartWay
}

// ChartWay is one fingering.
type ChartWay struct {
	Fingers string   // "1 2"
	Prices  []string // beside Tempos
	Free    string
	Known   string // who wrote it down; "" if nobody did
	House   bool
	Do      string // makes it the reader's usual one, or takes that back
}

// ChartBlock draws the block of a chart, part by part, one for each ornament.
func ChartBlock(c Chart) []Part {
	v := View{Name: c.Name, Tune: tune.Tune{Title: c.Title}, Text: c.Text, Remarks: c.Remarks, Notes: c.Notes, Theirs: c.Theirs,
		Hands: []Hand{{Hand: c.Hand, Lifted: c.Lifted, Score: &score.Score{Harp: c.Harp}}}}
	parts := []Part{{c.Name + "-head", c.head(v)}, {c.Name + "-remarks", remarks(v)}, {c.Name + "-tools", tools()}}
	for i, r := range c.Rows {
		parts = append(parts, Part{c.Name + "-chart" + itoa(i+1), c.row(r)})
	}
	var p pen
	p.instrument(v)
	return append(parts, Part{c.Name + "-charted", ""}, Part{c.Name + "-settings", p.String()}, Part{c.Name + "-asked", abc(v)})
}

func (c *Chart) head(v View) string {
	var p pen
	p.element("h3", c.Title)
	p.tag("ul", "class", "facts")
	p.element("li", c.Hand.Name+" hand")
	p.element("li", instrument(c.Harp))
	p.end("ul")
	p.quiet(v)
	for _, s := range c.Says {
		p.element("p", s)
	}
	return p.String()
}

// row draws one ornament: a line for each fingering, those with the same finger on
// the note together.
func (c *Chart) row(r ChartRow) string {
	var p pen
	if r.Family != "" {
		p.element("h4", r.Family)
	}
	p.tag("h5")
	p.text(r.Title)
	p.text(" ")
	p.element("span", r.Steps, "class", "offsets")
	p.end("h5")
	p.element("p", r.Says)
	if len(r.Starts) == 0 {
		return p.String()
	}
	p.tag("div", "class", "scroll")
	p.tag("table")
	p.tag("thead")
	p.tag("tr")
	p.element("th", "Note with", "scope", "col")
	p.element("th", "Fingers", "scope", "col")
	for _, t := range c.Tempos {
		p.element("th", t, "scope", "col", "class", "price")
	}
	p.element("th", "Left free", "scope", "col")
	p.element("th", "Yours", "scope", "col", "class", "yours")
	p.element("th", "Known", "scope", "col")
	p.end("tr")
	p.end("thead")
	for _, s := range r.Starts {
		p.tag("tbody")
		for i, w := range s.Ways {
			p.tag("tr")
			if i == 0 {
				p.start(s, len(s.Ways))
			}
			p.way(c, r, w)
			p.end("tr")
		}
		if len(s.Ways) == 0 {
			p.tag("tr")
			p.start(s, 1)
			p.element("td", s.None, "colspan", itoa(len(c.Tempos)+4), "class", "none")
			p.end("tr")
		}
		p.end("tbody")
	}
	p.end("table")
	p.end("div")
	return p.String()
}

// start heads the lines of one finger.
func (p *pen) start(s ChartStart, lines int) {
	span := "-"
	if lines > 1 {
		span = itoa(lines)
	}
	p.tag("th", "scope", "rowgroup", "rowspan", span)
	p.element("b", itoa(s.Finger))
	if s.Ready != "" {
		p.text(" ")
		p.element("small", s.Ready)
	}
	p.end("th")
}

// way draws one fingering, with the button that makes it the reader's own.
func (p *pen) way(c *Chart, r ChartRow, w ChartWay) {
	p.tag("td", "class", "fingers")
	p.text(w.Fingers)
	p.end("td")
	for _, price := range w.Prices {
		p.element("td", price, "class", "price")
	}
	p.element("td", w.Free, "class", "free")
	p.tag("td", "class", "yours")
	if w.Do != "" {
		p.button(c.Name+"-usual."+r.Name+"."+squeezed(w.Fingers), "level usual", w.Do, "usual", "aria-pressed", truth(w.House), "aria-label", r.Title+" as usual with "+w.Fingers)
	}
	p.end("td")
	p.element("td", w.Known, "class", "known")
}

// squeezed is a fingering without its spaces, for an id.
func squeezed(fingers string) string {
	var b []byte
	for i := range len(fingers) {
		if fingers[i] != ' ' {
			b = append(b, fingers[i])
		}
	}
	return string(b)
}
