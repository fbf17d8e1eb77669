package draw

import (
	"strconv"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/plan"
)

// Heights and sizes of the picture, in its own units.
const (
	stringGap = 20
	beadSize  = 9 // radius
	digitSize = 14
	smallSize = 11 // figures of ornaments, words under a placing
	nameSize  = 11
	nameRow   = 13 // bar numbers and ornaments' names
	topPad    = 12 // from the rows of words to the first string
	signRow   = 42 // below the last string: the sign of a move and its word
)

// art is a line being drawn.
type art struct {
	pen
	view *View
	line *line
	top  int // y of the highest string shown
}

func (a *art) y(t int8) int { return a.top + int(a.line.high-t)*stringGap }

// picture draws a line of the string diagram: the strings, at the head of each
// placing the fingers set there, then the notes in time order.
func picture(v View, l *line) string {
	a := &art{view: &v, line: l}
	a.top = 1 + max(1, l.labels)*nameRow + topPad
	bottom := a.y(l.low)
	height := bottom + signRow
	a.tag("svg", "class", "strings", "viewBox", "0 0 "+itoa(l.width)+" "+itoa(height), "width", itoa(l.width), "height", itoa(height),
		"role", "group", "aria-label", a.title())
	a.bands()
	a.harp()
	a.bars(bottom)
	for b := range l.bands {
		a.strip(&l.bands[b])
	}
	for c := range l.spots {
		a.notes(c)
	}
	for c := range l.spots {
		a.figure(&l.spots[c], l.spots[c].before)
		a.figure(&l.spots[c], l.spots[c].after)
	}
	a.end("svg")
	return a.String()
}

func (a *art) title() string {
	l := a.line
	who := ""
	if l.hands > 1 {
		who = l.hand.Hand.Name + " hand, "
	}
	if len(l.spots) == 0 {
		return who + "strings"
	}
	first, last := l.spots[0].column.event.Bar, l.spots[len(l.spots)-1].column.event.Bar
	if first == last {
		return who + "strings, " + barName(first)
	}
	return who + "strings, " + barName(first) + " to " + barName(last)
}

// harp draws the strings and their names.
func (a *art) harp() {
	l := a.line
	s := l.hand.Score
	for t := l.high; t >= l.low; t-- {
		y := a.y(t)
		colour := s.Harp.Strings[t].Colour()
		thick := "1"
		if colour != "plain" {
			thick = "2"
		}
		a.leaf("line", "class", "string "+colour, "x1", itoa(gutter), "y1", itoa(y), "x2", itoa(l.end), "y2", itoa(y),
			"stroke", "currentColor", "stroke-width", thick)
		a.named(s.Harp.Strings[t], raised(s, t), y)
	}
}

// named prints a string's name as it sounds, its octave small; a raised lever
// is a mark beside it, and a natural is written out where the lever makes it.
func (a *art) named(s harp.String, up bool, y int) {
	p := s.Sounding(up)
	name := printed(p)
	if up && p.Alter == 0 {
		name += "♮"
	}
	right := gutter - 8
	a.tag("text", "class", "name "+s.Colour(), "x", itoa(right), "y", itoa(y+4), "font-size", "13", "text-anchor", "end")
	a.text(name)
	a.element("tspan", strconv.Itoa(int(p.Octave)), "class", "octave", "font-size", "9", "dy", "3")
	a.end("text")
	if up {
		a.leaf("path", "class", "lever", "d", "M"+itoa(right+2)+" "+itoa(y+4)+"l4 -8", "fill", "none", "stroke", "currentColor", "stroke-width", "2")
	}
}

// bars draws bar lines and numbers.
func (a *art) bars(bottom int) {
	l := a.line
	rule := func(x int) {
		a.leaf("line", "class", "barline", "x1", itoa(x), "y1", itoa(a.y(l.high)), "x2", itoa(x), "y2", itoa(bottom), "stroke", "currentColor")
	}
	rule(gutter)
	for c := range l.spots {
		sp := &l.spots[c]
		x := sp.bar
		if c == 0 {
			x = gutter
		} else if x >= 0 {
			x += 2
			rule(x)
		}
		if sp.first && sp.column.event.Bar > 0 {
			a.label("barno", "start", nameSize, x, 1+max(1, l.labels)*nameRow-2, itoa(sp.column.event.Bar))
		}
	}
	if len(l.spots) > 0 {
		rule(l.end)
	}
}

// reaches gives the highest and lowest string that a band covers.
func (a *art) reaches(b *band) (high, low int8) {
	high, low = -1, 127
	take := func(t int8) {
		if t != hand.None {
			high, low = max(high, t), min(low, t)
		}
	}
	for _, t := range a.line.set(b.placing) {
		take(t)
	}
	return high, low
}

// bands draws the ground of each placing.
func (a *art) bands() {
	for i := range a.line.bands {
		b := &a.line.bands[i]
		high, low := a.reaches(b)
		if high < low {
			continue
		}
		y := a.y(high) - 12
		a.leaf("rect", "class", "band", "x", itoa(b.strip+1), "y", itoa(y), "width", itoa(b.end-b.strip-1), "height", itoa(a.y(low)+12-y), "rx", "9",
			"fill", "none", "stroke", "currentColor")
	}
}

// strip draws the head of a placing: the hand as a bar, and on each string
// where a finger is set a tab that is round at its tip, as a finger is.
func (a *art) strip(b *band) {
	pl := &a.line.hand.Plan.Placings[b.placing]
	high, low := a.reaches(b)
	if high < low {
		return
	}
	class := "strip"
	if b.carried {
		class += " carried"
	}
	a.tag("g", "class", class)
	x := b.strip + 5
	a.leaf("line", "class", "palm", "x1", itoa(x), "y1", itoa(a.y(high)-8), "x2", itoa(x), "y2", itoa(a.y(low)+8), "stroke", "currentColor", "stroke-width", "3")
	for f, t := range a.line.set(b.placing) {
		if t == hand.None {
			continue
		}
		y := a.y(t)
		kept := pl.Kept[f]
		if kept {
			a.leaf("path", "class", "tab outer", "d", tab(x, y, 11), "fill", "#fff", "stroke", "currentColor")
		}
		a.leaf("path", "class", "tab", "d", tab(x, y, 8), "fill", "#fff", "stroke", "currentColor")
		a.label("tabno", "middle", 12, x+10, y+4, itoa(f+1))
	}
	a.move(b)
	a.end("g")
}

// tab is the outline of a finger on its string: flat at the hand, round at the
// tip, r to either side of the string.
func tab(x, y, r int) string {
	return "M" + itoa(x) + " " + itoa(y-r) + "h10a" + itoa(r) + " " + itoa(r) + " 0 0 1 0 " + itoa(2*r) + "h-10z"
}

// notes draws the beads of a column, their tails first.
func (a *art) notes(c int) {
	sp := &a.line.spots[c]
	score := a.line.hand.Score
	for _, n := range sp.column.event.Notes {
		t := score.Harp.At(n.Pitch.Step())
		if t < 0 {
			continue
		}
		y := a.y(int8(t))
		class := "tail"
		from := sp.x
		if n.Tied {
			class += " tied"
			from = max(gutter+2, sp.x-a.held(c))
		}
		if to := sp.x + sp.tail; to > sp.x+beadSize || n.Tied {
			a.leaf("line", "class", class, "x1", itoa(from), "y1", itoa(y), "x2", itoa(to), "y2", itoa(y), "stroke", "currentColor", "stroke-width", "4")
		}
		if n.Tied {
			continue
		}
		a.bead(sp, n.Number, int8(t), y)
	}
	if sp.hint {
		x, y := sp.x+9, a.y(a.top0(sp))-11
		a.leaf("path", "class", "hint", "d", diamond(x, y, 3), "fill", "none", "stroke", "currentColor")
	}
}

// held is how far before a tied note the tail of the one before it ends.
func (a *art) held(c int) int {
	if c == 0 {
		return 13
	}
	before := &a.line.spots[c-1]
	return max(0, a.line.spots[c].x-before.x-before.tail)
}

// top0 gives the highest string that a column plays.
func (a *art) top0(sp *spot) int8 {
	notes := a.line.hand.Score.Events[sp.event].Notes
	return notes[len(notes)-1].String
}

// bead draws one written note, a control that asks why it has its finger. One
// that is not in the score is a cross.
func (a *art) bead(sp *spot, written int, t int8, y int) {
	id := a.view.Name + "-" + itoa(written)
	finger, pin := a.finger(sp, written, t)
	where := spoken(sounding(a.line.hand.Score, t))
	if sp.event < 0 || finger < 0 {
		a.tag("g", "class", "lost", "id", id, "role", "img", "aria-label", where+", not played, "+barName(sp.column.event.Bar))
		a.leaf("path", "d", "M"+itoa(sp.x-6)+" "+itoa(y-6)+"l12 12m0 -12l-12 12", "fill", "none", "stroke", "currentColor", "stroke-width", "2")
		a.end("g")
		return
	}
	class := "bead"
	asked := a.view.Why != nil && a.view.Why.Written == written
	if asked {
		class += " asked"
	}
	says := where + ", finger " + itoa(finger+1)
	again := a.line.again(sp, t)
	if again >= 0 {
		says += ", on another pass " + itoa(again+1)
	}
	if pin {
		says += ", as you asked"
	}
	do := "why@" + id
	if asked {
		do = "why off"
	}
	a.tag("g", "class", class, "id", id, "role", "button", "tabindex", "0", "data-do", do, "aria-label", says+", "+barName(sp.column.event.Bar)+": why?")
	a.leaf("rect", "class", "touch", "x", itoa(sp.x-13), "y", itoa(y-10), "width", "26", "height", "20", "fill", "none")
	if asked {
		a.leaf("circle", "class", "ring", "cx", itoa(sp.x), "cy", itoa(y), "r", "12", "fill", "none", "stroke", "currentColor")
	}
	a.leaf("circle", "cx", itoa(sp.x), "cy", itoa(y), "r", itoa(beadSize))
	a.label("digit", "middle", digitSize, sp.x, y+5, itoa(finger+1))
	if pin {
		a.leaf("path", "class", "pin", "d", "M"+itoa(sp.x-4)+" "+itoa(y-14)+"h8l-4 6z")
	}
	if again >= 0 {
		a.leaf("circle", "class", "again", "cx", itoa(sp.x+15), "cy", itoa(y), "r", "6", "fill", "#fff", "stroke", "currentColor")
		a.label("againno", "middle", 9, sp.x+15, y+3, itoa(again+1))
	}
	a.end("g")
}

// finger gives the finger, 0 to 3, of a written note on its first pass, and
// whether it was asked for; -1 if it is not played.
func (a *art) finger(sp *spot, written int, t int8) (finger int, pin bool) {
	if sp.event < 0 || sp.event >= len(a.line.hand.Plan.Events) {
		return -1, false
	}
	for _, n := range a.line.hand.Score.Events[sp.event].Notes {
		if n.Written == written {
			return a.line.hand.Plan.Events[sp.event].Finger(t), n.Pin != 0
		}
	}
	return -1, false
}

// figure draws an ornament: diamonds tied to their note, filled if it sounds,
// dashed if it does not. Each is a control that switches it.
func (a *art) figure(sp *spot, f *figure) {
	if f == nil || len(f.strokes) == 0 {
		return
	}
	s := a.line.hand.Score
	site := f.of(s)
	o := &site.Ornaments[f.which]
	id := a.view.Name + "-" + itoa(site.Written)
	class, word := "ornament off", "on"
	if o.On {
		class, word = "ornament on", "off"
	}
	if f.label > 0 {
		a.label("orn", "start", nameSize, f.strokes[0].x-8, 1+(a.line.labels-f.label+1)*nameRow-2, o.Title)
	}
	a.tag("g", "class", class)
	a.tie(sp, f)
	ready := fit(a.line.hand, f.at, f.which).Ready
	for i, st := range f.strokes {
		y := a.y(st.string)
		says := o.Title + ", " + spoken(sounding(s, st.string))
		if st.finger >= 0 {
			says += ", finger " + itoa(int(st.finger)+1)
		}
		a.tag("g", "class", "stroke", "id", id+"."+o.Name+"."+itoa(i+1), "role", "button", "tabindex", "0",
			"data-do", o.Name+"@"+id+" "+word, "aria-pressed", truth(o.On), "aria-label", says)
		class := "gem"
		if ready == plan.PlacedAgain || ready == plan.NoTime {
			class += " apart"
		}
		a.leaf("path", "class", class, "d", diamond(st.x, y, 8), "fill", "#fff", "stroke", "currentColor")
		if st.finger >= 0 {
			a.label("gemno", "middle", smallSize, st.x, y+4, itoa(int(st.finger)+1))
		}
		a.end("g")
	}
	if f.cut {
		last := f.strokes[len(f.strokes)-1]
		for i := range 3 {
			a.leaf("circle", "class", "dots", "cx", itoa(last.x+11+4*i), "cy", itoa(a.y(last.string)), "r", "1")
		}
	}
	a.end("g")
}

// tie draws the line that ties an ornament to its note, in the order of play.
func (a *art) tie(sp *spot, f *figure) {
	main := itoa(sp.x) + " " + itoa(a.y(a.line.main(sp)))
	d := ""
	for i, st := range f.strokes {
		verb := "L"
		if i == 0 {
			verb = "M"
		}
		d += verb + itoa(st.x) + " " + itoa(a.y(st.string))
	}
	if f.of(a.line.hand.Score).After {
		d = "M" + main + "L" + d[1:]
	} else {
		d += "L" + main
	}
	a.leaf("path", "class", "tie", "d", d, "fill", "none", "stroke", "currentColor")
}

func diamond(x, y, r int) string {
	return "M" + itoa(x) + " " + itoa(y-r) + "l" + itoa(r) + " " + itoa(r) + "l-" + itoa(r) + " " + itoa(r) + "l-" + itoa(r) + " -" + itoa(r) + "z"
}
