package draw

// hintSize is the size of the words that name the figures of a tune's first line.
const hintSize = 9

// heads writes over the first line of a tune what its names and figures are:
// "strings" over the one, "finger" beside the first of the other.
func (a *art) heads() {
	l := a.line
	if !l.opens {
		return
	}
	if l.hands == 1 {
		a.label("which", "start", hintSize, 0, l.sky+max(1, l.labels)*nameRow-2, "strings")
	}
	for c := range l.spots {
		sp := &l.spots[c]
		low, high, any := int8(127), int8(-1), false
		for _, n := range sp.column.event.Notes {
			if t := int8(l.hand.Score.Harp.At(n.Pitch.Step())); t >= 0 && !n.Tied {
				f, _ := a.finger(sp, n.Number, t)
				any = any || f >= 0
				low, high = min(low, t), max(high, t)
			}
		}
		if any {
			a.beside(sp, a.y(high)-12, a.y(low)+18)
			return
		}
	}
}

// beside writes "finger" below or above a bead, in the middle or to the right,
// where nothing is in the way.
func (a *art) beside(sp *spot, above, below int) {
	const text = "finger"
	wide := textWide(text, hintSize)
	for _, place := range [...]struct {
		x, y   int
		anchor string
	}{{sp.x - wide/2, below, "middle"}, {sp.x - wide/2, above, "middle"}, {sp.x - 9, below, "start"}, {sp.x - 9, above, "start"}} {
		if a.free(place.x, place.y-hintSize*7/10, place.x+wide, place.y+hintSize*2/10) {
			x := sp.x
			if place.anchor == "start" {
				x = place.x
			}
			a.label("which", place.anchor, hintSize, x, place.y, text)
			return
		}
	}
}

// free reports whether no bead, ornament or tab lies in this field.
func (a *art) free(left, top, right, bottom int) bool {
	clash := func(x0, y0, x1, y1 int) bool { return left < x1 && x0 < right && top < y1 && y0 < bottom }
	for _, t := range a.targets {
		if clash(t[0]-beadSize, t[1]-beadSize, t[0]+beadSize, t[1]+beadSize) {
			return false
		}
	}
	for i := range a.line.bands {
		b := &a.line.bands[i]
		for _, t := range a.line.set(b.placing) {
			if t >= 0 && clash(b.strip, a.y(t)-11, b.strip+stripWide+1, a.y(t)+11) {
				return false
			}
		}
	}
	for c := range a.line.spots {
		sp := &a.line.spots[c]
		for _, n := range sp.column.event.Notes {
			t := int8(a.line.hand.Score.Harp.At(n.Pitch.Step()))
			if t < 0 {
				continue
			}
			if _, pin := a.finger(sp, n.Number, t); pin && clash(sp.x-5, a.y(t)-15, sp.x+5, a.y(t)) {
				return false
			}
			if n.Tied || a.line.again(sp, t) >= 0 {
				if clash(sp.x-13, a.y(t)-7, sp.x+22, a.y(t)+7) {
					return false
				}
			}
		}
	}
	return top > a.top-topPad && bottom < a.y(a.line.low)+topPad
}
