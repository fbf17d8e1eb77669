package rule

import "readyhand/engine/hand"

// Move is how the hand gets from one placing to the next.
type Move int8

const (
	// SetAnew: the hand was off the strings.
	SetAnew Move = iota
	// Connect: the next placing begins while the last finger still holds.
	Connect
	// Slide: the thumb goes on to the string below in one movement.
	Slide
	// Shift: the hand moves about a finger that stays on its string.
	Shift
	// Under: rising, 2, 3 or 4 passes below the thumb.
	Under
	// Over: falling, the thumb passes over 2, 3 or 4.
	Over
	// Jump: the hand lifts and comes down elsewhere.
	Jump
)

// String gives the word of plan -json.
func (m Move) String() string {
	return [...]string{"set", "connect", "slide", "shift", "under", "over", "lift"}[m]
}

// Crossing is the step over a boundary, from the last stroke of one placing to
// the first of the next, Since milliseconds later.
type Crossing struct {
	From, To hand.Frame
	Since    int32
	Written  bool // both are written notes: then what is too fast is dear, else barred
	Forced   bool // the hand was off the strings between: the new placing and its time, nothing else
	Weak     int8 // how weak a place in the bar the new placing begins at, see score.Event
	Held     bool // a finger stays on its string from the one placing into the other
}

// Across charges a crossing: the new placing and the cheapest legal move to it,
// of moves that cost the same the first in the order of the constants.
func (r *Rules) Across(b *Bill, x *Crossing) Move {
	if x.Forced {
		r.Place(b, x.Since, true)
		return SetAnew
	}
	var least, other Bill
	best := Jump
	r.take(&least, Jump, x)
	for m := Over; m > SetAnew; m-- {
		if !r.legal(m, x) {
			continue
		}
		other = Bill{}
		if r.take(&other, m, x); other.Sum <= least.Sum {
			best, least = m, other
		}
	}
	if b.Itemise {
		r.take(b, best, x)
		return best
	}
	b.Sum += least.Sum
	b.Barred = b.Barred || least.Barred
	return best
}

// take charges a crossing by one kind of move.
func (r *Rules) take(b *Bill, m Move, x *Crossing) {
	placing := NewPlacing
	switch {
	case m == Slide, m == Connect, m != Jump && x.Held && !hops(x.From, x.To):
		placing = Carried
	case m == Jump && sameShape(x.From, x.To):
		placing = SameShape
	}
	if r.Charges[placing] > r.Charges[NewPlacing] {
		placing = NewPlacing
	}
	r.begin(b, x, placing)
	r.move(b, m, x.From, x.To, x.Since)
	if m == Slide {
		return
	}
	r.again(b, x.From, x.To, x.Since, x.Written)
	if placing != SameShape {
		r.hop(b, x.From, x.To, x.Since)
	}
	r.ringing(b, x.From, x.To)
}

// hops reports whether a finger goes to another string in the next stroke.
func hops(from, to hand.Frame) bool {
	for f, s := range from {
		if s != hand.None && to[f] != hand.None && to[f] != s {
			return true
		}
	}
	return false
}

// sameShape reports whether two or more fingers go as far the same way: the hand
// keeps its shape.
func sameShape(from, to hand.Frame) bool {
	fingers, way := 0, int8(0)
	for f, s := range from {
		if (s == hand.None) != (to[f] == hand.None) {
			return false
		}
		if s == hand.None {
			continue
		}
		if fingers++; fingers > 1 && to[f]-s != way {
			return false
		}
		way = to[f] - s
	}
	return fingers > 1
}

// begin charges the placing that a crossing leads to.
func (r *Rules) begin(b *Bill, x *Crossing, placing ID) {
	r.charge(b, placing)
	hurry := r.Charges[PlacingTime] * Hurry(x.Since) / 1000
	if placing == Carried {
		hurry /= 2 // the fingers that hold nothing have been free for longer
	}
	b.Add(PlacingTime, hurry)
	b.Add(WeakBeat, r.Charges[WeakBeat]*int64(x.Weak))
}

// ringing charges a new placing whose first stroke is on a string that has just
// been played: the lower, the longer it still swings.
func (r *Rules) ringing(b *Bill, from, to hand.Frame) {
	for _, s := range to {
		if s != hand.None && holds(from, s) {
			r.ring(b, s)
			return
		}
	}
}

// ring charges setting a finger on a string that sounds; nothing from C5 up.
func (r *Rules) ring(b *Bill, s int8) {
	if lack := quiet - r.Harp.Strings[s].Pitch.Step(); lack > 0 {
		b.Add(Ringing, r.Charges[Ringing]*int64(lack)/7)
	}
}

// quiet is the step of C5, from where a string that is stopped does not buzz
// (guess).
const quiet = 5 * 7

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

func (r *Rules) legal(m Move, x *Crossing) bool {
	from, to := x.From, x.To
	if r.Lifted && (m == Connect || m == Under || m == Over) {
		return false
	}
	switch m {
	case Connect:
		return r.connects(from, to)
	case Shift:
		return x.Held
	case Slide:
		return only(from) == 0 && only(to) == 0 && to[0] == from[0]-1
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
		r.cross(b, UnderBy2+ID(g-1), from[f], to[g], ms)
	case Over:
		f, g := only(from), only(to)
		r.cross(b, OverFrom2+ID(f-1), from[f], to[g], ms)
	case Slide:
		r.charge(b, ThumbSlide)
	case Shift, Jump:
		along := m == Jump && sameShape(from, to) // the hand does not close and open again
		if m == Jump && !along && !r.Lifted {
			r.charge(b, Lift)
		}
		b.Add(LiftWay, r.Charges[LiftWay]*int64(r.way(from, to))/liftUnit)
		if !along {
			b.Add(LiftTime, r.Charges[LiftTime]*Hurry(ms)/1000)
		}
	}
}

func (r *Rules) cross(b *Bill, id ID, s, t int8, ms int32) {
	r.charge(b, id)
	b.Add(CrossTime, r.Charges[CrossTime]*Hurry(ms)/1000)
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
