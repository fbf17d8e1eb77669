package draw

import (
	"strconv"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
)

// Heights and sizes of the picture, in its own units.
const (
	stringGap = 20
	beadSize  = 9 // radius
	digitSize = 14
	smallSize = 11 // figures of ornaments
	wordSize  = 12 // words under a placing
	nameSize  = 12
	nameRow   = 13 // bar numbers and ornaments' names
	topPad    = 12 // from the rows of words to the first string
	signRow   = 42 // below the last string: the sign of a move and its word
)

// art is a line being drawn.
type art struct {
	pen
	view    *View
	line    *line
	top     int // y of the highest string shown
	height  int
	targets [][2]int // where the controls are
	stops   int      // controls drawn so far
}

func (a *art) y(t int8) int { return a.top + int(a.line.high-t)*stringGap }

// picture draws a line of the string diagram: the strings, at the head of each
// placing the fingers set there, then the notes in time order.
func picture(v *View, l *line) string {
	a := &art{view: v, line: l}
	a.Grow(8000) // about what a line takes
	a.top = l.sky + max(1, l.labels)*nameRow + topPad
	bottom := a.y(l.low)
	height := bottom + signRow
	a.height = height
	a.tag("svg", "class", "strings", "viewBox", "0 0 "+itoa(l.width)+" "+itoa(height), "width", itoa(l.width), "height", itoa(height),
		"fill", "none", "stroke", "currentColor", "role", "group", "aria-label", a.title())
	a.bands()
	a.harp()
	a.bars(bottom)
	a.tempos()
	for b := range l.bands {
		a.strip(&l.bands[b])
	}
	for c := range l.spots {
		a.tie(&l.spots[c], l.spots[c].before)
		a.tie(&l.spots[c], l.spots[c].after)
		a.tails(c)
	}
	a.aim()
	for c := range l.spots { // in the order of time, so that the keys go from left to right
		a.figure(&l.spots[c], l.spots[c].before)
		a.beads(c)
		a.figure(&l.spots[c], l.spots[c].after)
	}
	a.heads()
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
		a.leaf("line", "class", "string "+colour, "x1", itoa(gutter), "y1", itoa(y), "x2", itoa(l.end), "y2", itoa(y), "stroke-width", thick)
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
		a.leaf("path", "class", "lever", "d", "M"+itoa(right+2)+" "+itoa(y+4)+"l4 -8", "stroke-width", "2")
	}
}

// bars draws bar lines and numbers.
func (a *art) bars(bottom int) {
	l := a.line
	rule := func(x int) {
		a.leaf("line", "class", "barline", "x1", itoa(x), "y1", itoa(a.y(l.high)), "x2", itoa(x), "y2", itoa(bottom))
	}
	rule(gutter)
	if l.hands > 1 {
		a.label("which", "start", nameSize, 0, l.sky+nameRow-2, l.hand.Hand.Name)
	}
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
			a.label("barno", "start", nameSize, x, l.sky+max(1, l.labels)*nameRow-2, itoa(sp.column.event.Bar))
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
		a.leaf("rect", "class", "band", "x", itoa(b.strip+1), "y", itoa(y), "width", itoa(b.end-b.strip-1), "height", itoa(a.y(low)+12-y), "rx", "9")
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
	a.leaf("line", "class", "palm", "x1", itoa(x), "y1", itoa(a.y(high)-8), "x2", itoa(x), "y2", itoa(a.y(low)+8), "stroke-width", "3")
	frame := a.line.set(b.placing)
	for f, t := range frame {
		who, kept, before := "", false, false
		for g, u := range frame {
			if t == hand.None || u != t {
				continue
			}
			if who != "" {
				who += "·"
			}
			who += itoa(g + 1)
			kept = kept || pl.Kept[g]
			before = before || g < f
		}
		if who != "" && !before {
			a.tab(x, a.y(t), who, kept)
		}
	}
	a.move(b)
	a.end("g")
}

// tab draws the finger on a string, or those that share it; one that waits for
// an ornament alone has a second outline.
func (a *art) tab(x, y int, who string, kept bool) {
	long, size := 0, 12
	if len(who) > 1 {
		long, size = 8, 9
	}
	if kept {
		a.leaf("path", "class", "tab outer", "d", tab(x, y, 11, long))
	}
	a.leaf("path", "class", "tab", "d", tab(x, y, 8, long))
	a.label("tabno", "middle", size, x+10+long/2, y+4, who)
}

// tab is the outline of a finger on its string: flat at the hand, round at the
// tip, r to either side of the string.
func tab(x, y, r, long int) string {
	flat := itoa(10 + long)
	return "M" + itoa(x) + " " + itoa(y-r) + "h" + flat + "a" + itoa(r) + " " + itoa(r) + " 0 0 1 0 " + itoa(2*r) + "h-" + flat + "z"
}
