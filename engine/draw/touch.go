package draw

// This file makes the controls of a picture easy to hit, with a finger and with
// the keys.

// touchHalf is half the side of a control where it has room. On a phone of 320
// pixels a usual picture is shown at about eight tenths, so that 24 pixels (WCAG
// 2.2, 2.5.8) are 30 units: half of what parts two strings, and this.
const touchHalf = stringGap

// stop gives the tab stop of the next control: one a line, the arrow keys go on
// from there.
func (a *art) stop() string {
	a.stops++
	if a.stops == 1 {
		return "0"
	}
	return "-1"
}

// aim notes where the controls of the line are.
func (a *art) aim() {
	l := a.line
	for c := range l.spots {
		sp := &l.spots[c]
		for _, n := range sp.column.event.Notes {
			if t := l.hand.Score.Harp.At(n.Pitch.Step()); t >= 0 && !n.Tied {
				a.targets = append(a.targets, [2]int{sp.x, a.y(int8(t))})
			}
		}
		for _, f := range [...]*figure{sp.before, sp.after} {
			if f == nil {
				continue
			}
			for _, st := range f.strokes {
				a.targets = append(a.targets, [2]int{st.x, a.y(st.string)})
			}
		}
	}
}

// touch draws the unseen field that answers for the control at x and y. Two
// that are close share the space between them, along the way they lie apart
// most.
func (a *art) touch(x, y int) {
	left, right, up, down := touchHalf, touchHalf, touchHalf, touchHalf
	for _, other := range a.targets {
		dx, dy := other[0]-x, other[1]-y
		ax, ay := max(dx, -dx), max(dy, -dy)
		switch {
		case ax == 0 && ay == 0 || ax >= 2*touchHalf || ay >= 2*touchHalf:
		case ax >= ay && dx > 0:
			right = min(right, ax/2)
		case ax >= ay:
			left = min(left, ax/2)
		case dy > 0:
			down = min(down, ay/2)
		default:
			up = min(up, ay/2)
		}
	}
	left, up = min(left, x), min(up, y)
	right, down = min(right, a.line.width-x), min(down, a.height-y)
	a.leaf("rect", "class", "touch", "x", itoa(x-left), "y", itoa(y-up), "width", itoa(left+right), "height", itoa(up+down))
}
