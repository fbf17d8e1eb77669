package draw

import (
	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// whyPanel answers for the note that was asked about: its finger, what the
// others cost, what else may be played there, and how the hand lies. It stands
// under the line of its note, and leads on to the notes beside it.
func whyPanel(v *View, s *sheet) string {
	w := v.Why
	h := &v.Hands[w.Hand]
	if w.Event < 0 || w.Event >= len(h.Plan.Events) || w.Event >= len(h.Score.Events) || w.Note < 0 || w.Note >= len(h.Score.Events[w.Event].Notes) {
		return ""
	}
	note := v.Name + "-" + itoa(w.Written)
	var p pen
	p.tag("div", "class", "why", "role", "group", "aria-label", "Why this finger")
	p.tag("div", "class", "answer")
	p.element("h4", w.Title)
	before, after := s.beside(w)
	p.steps(v, before, after)
	p.element("p", w.Text)
	if len(w.Others) > 0 {
		p.tag("ul", "class", "others")
		for _, o := range w.Others {
			class := "other"
			if o.Near {
				class += " near"
			}
			p.element("li", o.Text, "class", class)
		}
		p.end("ul")
	}
	if w.Set != "" {
		p.element("p", w.Set)
	}
	p.ways(v.Name, w)
	p.fingers(note, w, h)
	p.boundary(note, h.Score.Events[w.Event].Boundary)
	p.finds(note, w)
	p.end("div")
	p.raw(handView(h, w))
	p.variants(w.Way)
	p.end("div")
	return p.String()
}

// ways draws the other ways to play what the note lies in, each with a button that
// takes it.
func (p *pen) ways(block string, w *Why) {
	if len(w.Ways) == 0 {
		return
	}
	p.element("h5", "Other ways here")
	p.tag("ul", "class", "others")
	for i, way := range w.Ways {
		class := "other"
		if way.Near {
			class += " near"
		}
		p.tag("li", "class", class)
		p.text(way.Text + " ")
		if way.Do != "" {
			p.button(block+"-why.way"+itoa(i+1), "small", way.Do, "Take it")
		}
		p.end("li")
	}
	p.end("ul")
}

// beside gives the notes that are played before and after one in its hand's
// line of music, 0 where there is none.
func (s *sheet) beside(w *Why) (before, after int) {
	last := 0
	for i := range s.columns[w.Hand] {
		c := &s.columns[w.Hand][i]
		if c.played() < 0 {
			continue
		}
		for _, n := range c.event.Notes {
			switch {
			case n.Tied:
			case n.Number == w.Written:
				before, last = last, n.Number
			case last == w.Written:
				return before, n.Number
			default:
				last = n.Number
			}
		}
	}
	return before, 0
}

// steps draws the ways on from an answer. Their names stay from note to note, so
// that the keyboard stays on them; one that leads nowhere stays too.
func (p *pen) steps(v *View, before, after int) {
	p.tag("p", "class", "steps")
	for _, b := range [...]struct {
		name, text string
		note       int
	}{{"before", "previous note", before}, {"after", "next note", after}} {
		do, off := "why@"+v.Name+"-"+itoa(b.note), "-"
		if b.note == 0 {
			do, off = "why@"+v.Name+"-"+itoa(v.Why.Written), "true"
		}
		p.button(v.Name+"-why."+b.name, "tool", do, b.text, "aria-disabled", off)
	}
	p.button(v.Name+"-why.close", "tool", "why off", "Close")
	p.end("p")
}

// fingers draws the buttons that ask for a finger.
func (p *pen) fingers(note string, w *Why, h *Hand) {
	n := h.Score.Events[w.Event].Notes[w.Note]
	taken := h.Plan.Events[w.Event].Finger(n.String)
	p.tag("p", "class", "pins", "role", "group", "aria-label", "Finger")
	p.element("span", "Finger", "class", "ask")
	for f := range 4 {
		can := f == taken || n.Pin != 0 && h.Hand.InUse[f]
		for _, o := range w.Others {
			can = can || o.Finger == f+1
		}
		if can {
			p.button(note+".finger."+itoa(f+1), "level", "finger@"+note+" "+itoa(f+1), itoa(f+1), "aria-pressed", truth(int(n.Pin) == f+1))
		}
	}
	p.button(note+".finger.free", "level", "finger@"+note+" free", "any finger", "aria-pressed", truth(n.Pin == 0))
	p.end("p")
}

// boundary draws the buttons that ask for the hand to be set or to stay.
func (p *pen) boundary(note string, now score.Boundary) {
	p.tag("p", "class", "pins", "role", "group", "aria-label", "Hand")
	for _, b := range [...]struct {
		word, text string
		is         score.Boundary
	}{{"set", "set the hand here", score.Set}, {"stay", "keep the hand", score.Stay}, {"either", "as it comes", score.Open}} {
		p.button(note+"."+b.word, "level", b.word+"@"+note, b.text, "aria-pressed", truth(now == b.is))
	}
	p.end("p")
}

// Sizes of the hand view: two units a millimetre.
const (
	perMM   = 2
	handTop = 18
)

// handView draws the strings under the hand at the note asked about, at their
// real distances: which finger is on which string, and how far apart they are.
func handView(h *Hand, w *Why) string {
	e := &h.Plan.Events[w.Event]
	pl := &h.Plan.Placings[e.Placing]
	strings := h.Score.Harp.Strings
	low, high := int8(127), int8(-1)
	down := lying(h, w.Event)
	for _, t := range append(down[:], pl.Frame[:]...) {
		if t != hand.None {
			low, high = min(low, t), max(high, t)
		}
	}
	if high < 0 {
		return ""
	}
	low, high = max(0, low-1), min(int8(len(strings)-1), high+1)
	y := func(t int8) int { return handTop + int(strings[high].At-strings[t].At)*perMM/1000 }
	a := &art{line: &line{hand: h, end: 168}}
	height := y(low) + 18
	a.tag("svg", "class", "hand", "viewBox", "0 0 240 "+itoa(height), "width", "240", "height", itoa(height), "fill", "none", "stroke", "currentColor", "role", "img", "aria-label", lies(h, e.Stroke, pl.Frame, down))
	for t := high; t >= low; t-- {
		colour := strings[t].Colour()
		thick := "1"
		if colour != "plain" {
			thick = "2"
		}
		a.leaf("line", "class", "string "+colour, "x1", itoa(gutter), "y1", itoa(y(t)), "x2", "168", "y2", itoa(y(t)), "stroke-width", thick)
		a.named(strings[t], raised(h.Score, t), y(t))
	}
	last, before := -1, hand.None
	for f, t := range pl.Frame {
		if t == hand.None || away(f, e.Stroke, down) {
			continue
		}
		class := "tab"
		switch {
		case e.Stroke[f] == t:
			class += " plays"
		case pl.Free[f]:
			class += " free"
		}
		// the thumb lies lowest on the string, the fingers beyond it
		x := 70 + 20*f
		if pl.Kept[f] {
			a.leaf("path", "class", "tab outer", "d", tab(x, y(t), 12, 0))
		}
		a.leaf("path", "class", class, "d", tab(x, y(t), 9, 0))
		a.label("tabno", "middle", 12, x+10, y(t)+4, itoa(f+1))
		if last >= 0 && y(t) > last {
			a.leaf("path", "class", "measure", "d", "M176 "+itoa(last+1)+"h6v"+itoa(y(t)-last-2)+"h-6")
			a.label("mm", "start", 11, 186, (last+y(t))/2+4, decimal(h.Score.Harp.Distance(t, before)/100*100)+" mm")
		}
		last, before = y(t), t
	}
	for f, t := range down {
		if t != hand.None {
			a.halt(66+20*f, y(t), 8, -3, 11, f)
		}
	}
	a.end("svg")
	return a.String()
}

// away reports whether a finger that does not play now is off its own string, to stop
// another.
func away(f int, stroke hand.Frame, down [5]int8) bool {
	return down[f] != hand.None && stroke[f] == hand.None
}

// lies says where the fingers lie: "1 on E5, 2 on D5".
func lies(h *Hand, stroke, frame hand.Frame, down [5]int8) string {
	text := ""
	for f, t := range frame {
		if t == hand.None || away(f, stroke, down) {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += itoa(f+1) + " on " + spoken(sounding(h.Score, t))
	}
	for f, t := range down {
		if t != hand.None {
			text += "; " + stopper(int8(f)) + " stops " + spoken(sounding(h.Score, t))
		}
	}
	return "The hand: " + text
}
