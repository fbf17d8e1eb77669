package rule

import "readyhand/engine/hand"

// Move is how the hand gets from one placing to the next.
type Move int8

const (
	// SetAnew: the hand was off the strings.
	SetAnew Move = iota
	// Connect: the next placing begins while the last finger still holds.
	Connect
	// Under: rising, 2, 3 or 4 passes below the thumb.
	Under
	// Over: falling, the thumb passes over 2, 3 or 4.
	Over
	// Jump: the hand lifts and comes down elsewhere.
	Jump
)

// String gives the word of plan -json.
func (m Move) String() string {
	return [...]string{"set", "connect", "under", "over", "lift"}[m]
}

// Across charges the step over a boundary that is not forced, from the last
// stroke of one placing to the first of the next, by the cheapest legal move
// (the first in the order of the constants where two are equal). The placing
// itself is charged by Place.
func (r *Rules) Across(b *Bill, from, to hand.Frame, ms int32, written bool) Move {
	best, least := Jump, r.price(Jump, from, to, ms)
	for _, m := range [...]Move{Over, Under, Connect} {
		if !r.legal(m, from, to) {
			continue
		}
		if p := r.price(m, from, to, ms); p <= least {
			best, least = m, p
		}
	}
	r.move(b, best, from, to, ms)
	r.again(b, from, to, ms, written)
	r.hop(b, from, to, ms)
	return best
}

func (r *Rules) price(m Move, from, to hand.Frame, ms int32) int64 {
	var b Bill
	r.move(&b, m, from, to, ms)
	return b.Sum
}

// hop charges fingers that go to another string in the next stroke, once for
// the step: the hand moves as one.
func (r *Rules) hop(b *Bill, from, to hand.Frame, ms int32) {
	for f, s := range from {
		if s != hand.None && to[f] != hand.None && to[f] != s {
			b.Add(Hop, r.Charges[Hop]*Hurry(ms)/1000)
			return
		}
	}
}

func (r *Rules) legal(m Move, from, to hand.Frame) bool {
	if m == Connect {
		return r.connects(from, to)
	}
	// A crossing is of single fingers: what holds, and what passes.
	f, g := only(from), only(to)
	if f < 0 || g < 0 || r.Harp.Distance(from[f], to[g]) > crossMost {
		return false
	}
	if m == Under {
		return f == 0 && g > 0 && to[g] > from[f]
	}
	return f > 0 && g == 0 && to[g] < from[f]
}

// connects reports whether all fingers of both strokes can be on their strings
// at once: none used twice, no string held twice, order and reach kept.
func (r *Rules) connects(from, to hand.Frame) bool {
	held := from
	for f, s := range to {
		if s == hand.None {
			continue
		}
		if held[f] != hand.None || holds(held, s) || !r.Hand.Takes(r.Harp, held, f, s) {
			return false
		}
		held[f] = s
	}
	return true
}

func holds(frame hand.Frame, s int8) bool {
	for _, t := range frame {
		if t == s {
			return true
		}
	}
	return false
}

// only gives the single finger of a stroke, or -1.
func only(stroke hand.Frame) int {
	found := -1
	for f, s := range stroke {
		if s != hand.None {
			if found >= 0 {
				return -1
			}
			found = f
		}
	}
	return found
}

func (r *Rules) move(b *Bill, m Move, from, to hand.Frame, ms int32) {
	switch m {
	case Connect:
		for f, s := range from {
			for g, t := range to {
				if s != hand.None && t != hand.None {
					r.stretch(b, f, g, r.Harp.Distance(s, t))
				}
			}
		}
	case Under:
		f, g := only(from), only(to)
		r.cross(b, UnderBy2+ID(g-1), from[f], to[g])
	case Over:
		f, g := only(from), only(to)
		r.cross(b, OverFrom2+ID(f-1), from[f], to[g])
	case Jump:
		r.charge(b, Lift)
		b.Add(LiftWay, r.Charges[LiftWay]*int64(r.way(from, to))/liftUnit)
		b.Add(LiftTime, r.Charges[LiftTime]*Hurry(ms)/1000)
	}
}

func (r *Rules) cross(b *Bill, id ID, s, t int8) {
	r.charge(b, id)
	if r.Harp.Distance(s, t) > crossNear {
		r.charge(b, CrossFar)
	}
}

// way is how far a lifted hand moves, in micrometres: from where the thumb
// would be in the one stroke to where it would be in the other, if the other
// fingers lay on neighbouring strings. (A stroke is all that is sure at the
// moment of the lift; the definition is ours, a guess.)
func (r *Rules) way(from, to hand.Frame) int32 {
	d := r.thumb(from) - r.thumb(to)
	return max(d, -d)
}

func (r *Rules) thumb(stroke hand.Frame) int32 {
	for f, s := range stroke {
		if s != hand.None {
			return r.Harp.Strings[s].At + int32(f)*r.Harp.Spacing
		}
	}
	return 0
}
