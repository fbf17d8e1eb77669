package draw

import "readyhand/engine/hand"

// Where a finger that stops a string is drawn: so far after the last bead of its
// ornament, and what it takes of the width from there to the next column.
const (
	stopAfter = 8
	stopWide  = 30
)

// room is what the fingers that stop strings after the ornaments of a spot need of it,
// from where it begins.
func (sp *spot) room(main int8) int {
	for _, f := range [...]*figure{sp.after, sp.before} {
		if f != nil && len(f.stops) > 0 {
			return sp.lasts(main) + stopAfter + stopWide
		}
	}
	return 0
}

// lasts is how far after the note of a spot its last bead is; that bead has yet to be
// put in its place.
func (sp *spot) lasts(main int8) int {
	if sp.after == nil {
		return 0
	}
	return sp.after.spread(main)
}

// halts draws the fingers that stop a string after an ornament: each with a bar that
// ends the string's sound.
func (a *art) halts(f *figure, x int, on bool) {
	verb := " would then stop "
	if on {
		verb = " then stops "
	}
	for _, stop := range f.stops {
		a.tag("g", "class", "stop", "role", "img", "aria-label", stopper(stop.Finger)+verb+spoken(sounding(a.line.hand.Score, stop.String)))
		a.halt(x, a.y(stop.String), 6, -4, 9, int(stop.Finger))
		a.end("g")
	}
}

// halt draws a finger on a string with the bar, so large, its number in this size.
func (p *pen) halt(x, y, r, long, size, finger int) {
	p.leaf("path", "class", "tab halt", "d", tab(x, y, r, long))
	end := itoa(x + 10 + long + r + 3)
	p.leaf("line", "class", "ends", "x1", end, "y1", itoa(y-r-1), "x2", end, "y2", itoa(y+r+1), "stroke-width", "3")
	if finger >= 0 {
		p.label("stopno", "middle", size, x+(10+long+r)/2, y+size/3, itoa(finger+1))
	}
}

// stopper names a finger that stops a string.
func stopper(f int8) string {
	if f > 3 {
		return "the little finger"
	}
	return itoa(int(f) + 1)
}

// lying gives the string of each finger, the little one last, that lies on one to
// silence it once an event has been played, after the ornaments that sound.
func lying(h *Hand, event int) (on [5]int8) {
	on = [5]int8{hand.None, hand.None, hand.None, hand.None, hand.None}
	for e := h.Plan.Placings[h.Plan.Events[event].Placing].First; e <= event; e++ {
		for _, a := range sites(h, e) {
			for i, o := range a.of(h.Score).Ornaments {
				if !o.On {
					continue
				}
				for _, stop := range h.Plan.Halts(h.Score, h.Hand.InUse, a.gap, a.site, i) {
					if event < stop.Until {
						on[stop.Finger] = stop.String
					}
				}
			}
		}
	}
	return on
}
