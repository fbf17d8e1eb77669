package draw

import "readyhand/engine/rule"

// glyphs are the signs of the moves, drawn in a square of 12 from its upper
// left corner: no two are told apart by colour.
var glyphs = [...]string{
	rule.SetAnew: "M6 0v8m-4 -4l4 4l4 -4m-9 8h10",                  // down on to the strings
	rule.Connect: "M0 6h12m-12 -3v6m12 -6v6",                       // one hold reaches the next
	rule.Slide:   "M1 3l10 6m-4 1l4 -1l-1 -4m-10 5h4",              // along, to the string below
	rule.Shift:   "M2 0v12m-2 -6h4m2 -3h6m-3 -3l3 3l-3 3",          // one holds, the rest go on
	rule.Under:   "M0 1c0 12 11 12 11 4m-3 3l3 -4l2 4",             // below, and up
	rule.Over:    "M0 11c0 -12 11 -12 11 -4m-3 -3l3 4l2 -4",        // above, and down
	rule.Jump:    "M2 12v-11m-2 3l2 -3l2 3m6 -3v11m-2 -3l2 3l2 -3", // up, and down elsewhere
}

const (
	stays = "M0 4h12m-12 4h12"                           // nothing moves
	off   = "M1 7c2 -8 8 -8 10 0m-5 -3v8m-2 -2l2 2l2 -2" // off, and down again
)

// move draws the sign of how the hand gets to a placing, and its word, below
// the strip.
func (a *art) move(b *band) {
	pl := &a.line.hand.Plan.Placings[b.placing]
	d := stays
	switch {
	case b.carried:
	case pl.Move == rule.SetAnew && b.placing > 0:
		d = off
	case int(pl.Move) < len(glyphs):
		d = glyphs[pl.Move]
	}
	y := a.y(a.line.low) + 15
	a.leaf("path", "class", "move", "d", "M"+itoa(b.strip+5)+" "+itoa(y)+"m0 0"+relative(d))
	a.label("word", "start", wordSize, b.strip+2, y+24, a.line.comes(*b))
}

// relative makes the first, absolute, point of a path a step from where it is.
func relative(d string) string { return "m" + d[1:] }
