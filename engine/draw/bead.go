package draw

import (
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
)

// tails draws how long the notes of a column sound, and the hint that something
// may be added there.
func (a *art) tails(c int) {
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
			a.leaf("line", "class", class, "x1", itoa(from), "y1", itoa(y), "x2", itoa(to), "y2", itoa(y), "stroke-width", "4")
		}
	}
	if sp.hint {
		x, y := sp.x+9, a.y(a.top0(sp))-11
		a.leaf("path", "class", "hint", "d", diamond(x, y, 3))
	}
}

// beads draws the notes that are played in a column.
func (a *art) beads(c int) {
	sp := &a.line.spots[c]
	for _, n := range sp.column.event.Notes {
		if t := a.line.hand.Score.Harp.At(n.Pitch.Step()); t >= 0 && !n.Tied {
			a.bead(sp, n.Number, int8(t), a.y(int8(t)))
		}
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
	where := spoken(a.line.sounds(sp, written, t))
	if sp.event < 0 || finger < 0 {
		a.tag("g", "class", "lost", "id", id, "role", "img", "aria-label", where+", not played, "+barName(sp.column.event.Bar))
		a.leaf("path", "d", "M"+itoa(sp.x-6)+" "+itoa(y-6)+"l12 12m0 -12l-12 12", "stroke-width", "2")
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
	a.tag("g", "class", class, "id", id, "role", "button", "tabindex", a.stop(), "data-do", do, "aria-label", says+", "+barName(sp.column.event.Bar)+": why?")
	a.touch(sp.x, y)
	if asked {
		a.leaf("circle", "class", "ring", "cx", itoa(sp.x), "cy", itoa(y), "r", "12")
	}
	a.leaf("circle", "cx", itoa(sp.x), "cy", itoa(y), "r", itoa(beadSize))
	a.label("digit", "middle", digitSize, sp.x, y+5, itoa(finger+1))
	if pin {
		a.leaf("path", "class", "pin", "d", "M"+itoa(sp.x-4)+" "+itoa(y-14)+"h8l-4 6z")
	}
	if again >= 0 {
		a.leaf("circle", "class", "again", "cx", itoa(sp.x+15), "cy", itoa(y), "r", "6")
		a.label("againno", "middle", 9, sp.x+15, y+3, itoa(again+1))
	}
	a.end("g")
}

// sounds is the pitch of a written note as it is played there.
func (l *line) sounds(sp *spot, written int, t int8) pitch.Pitch {
	if sp.event >= 0 && sp.event < len(l.hand.Score.Events) {
		for _, n := range l.hand.Score.Events[sp.event].Notes {
			if n.Written == written {
				return l.hand.Score.Harp.Strings[t].Sounding(n.Raised)
			}
		}
	}
	return sounding(l.hand.Score, t)
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
// dashed if it does not, dotted if written notes must move first; squares where
// the hand leaves its placing for them.
// Each is a control that switches it.
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
	if f.unready {
		class += " unready"
	}
	if f.label > 0 {
		a.label("orn", "start", nameSize, f.labelX, a.line.sky+(a.line.labels-f.label+1)*nameRow-2, f.text)
	}
	a.tag("g", "class", class)
	for i, st := range f.strokes {
		y := a.y(st.string)
		says := o.Title + ", " + spoken(sounding(s, st.string))
		if st.finger >= 0 {
			says += ", finger " + itoa(int(st.finger)+1)
		}
		if f.unready {
			says += ", not ready: " + f.asks()
		}
		a.tag("g", "class", "stroke", "id", id+"."+o.Name+"."+itoa(i+1), "role", "button", "tabindex", a.stop(),
			"data-do", o.Name+"@"+id+" "+word, "aria-pressed", truth(o.On), "aria-label", says)
		a.touch(st.x, y)
		shape := diamond(st.x, y, 8)
		if st.from == plan.Private {
			shape = square(st.x, y, 7)
		}
		a.leaf("path", "class", "gem", "d", shape)
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
	a.halts(f, sp.stop, o.On)
	a.end("g")
}

// tie draws the line that ties an ornament to its note, in the order of play.
func (a *art) tie(sp *spot, f *figure) {
	if f == nil || len(f.strokes) == 0 {
		return
	}
	site := f.of(a.line.hand.Score)
	class := "tie off"
	if f.unready {
		class = "tie unready"
	}
	if site.Ornaments[f.which].On {
		class = "tie"
	}
	main := itoa(sp.x) + " " + itoa(a.y(a.line.main(sp)))
	d := ""
	for i, st := range f.strokes {
		verb := "L"
		if i == 0 {
			verb = "M"
		}
		d += verb + itoa(st.x) + " " + itoa(a.y(st.string))
	}
	if site.After {
		d = "M" + main + "L" + d[1:]
	} else {
		d += "L" + main
	}
	a.leaf("path", "class", class, "d", d)
}

func diamond(x, y, r int) string {
	return "M" + itoa(x) + " " + itoa(y-r) + "l" + itoa(r) + " " + itoa(r) + "l-" + itoa(r) + " " + itoa(r) + "l-" + itoa(r) + " -" + itoa(r) + "z"
}

func square(x, y, r int) string {
	return "M" + itoa(x-r) + " " + itoa(y-r) + "h" + itoa(2*r) + "v" + itoa(2*r) + "h-" + itoa(2*r) + "z"
}
