package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
)

// chart is what the rules say, worked out once for each pair of fingers and strings
// that comes up, and for each step between written notes.
type chart struct {
	r     *rule.Rules // nil if it has yet to be made
	width int         // strings of the harp
	pairs []int64     // by fingers, and string and string: what it costs to hold both, plus 1; 0 not known, -1 out of reach
	work  [3][2]int64 // rule.Work by notes and whether the thumb plays one of them
	keep  [4]int64    // rule.Keep by finger
	alone [4]int64    // a finger that joins an empty hand
	share int64
	part  int64

	met   finder // steps between written notes
	moves []moved
}

// moved is what a step between written notes costs, and how the hand gets there.
type moved struct {
	sum  int64
	move rule.Move
}

// moved charges a step between written notes, in one placing if stay.
func (c *chart) moved(x *rule.Crossing, stay bool) moved {
	key := mark{word(x.From), word(x.To), uint32(x.Since)<<5 | uint32(x.Weak)<<3}
	for i, b := range [...]bool{stay, x.Forced, x.Held} {
		if b {
			key[2] |= 1 << i
		}
	}
	at, added := c.met.find(key)
	if added {
		var bill rule.Bill
		var m moved
		if stay {
			c.r.Step(&bill, x.From, x.To, x.Since, true)
		} else {
			m.move = c.r.Across(&bill, x)
		}
		m.sum = bill.Sum
		c.moves = append(c.moves, m)
	}
	return c.moves[at]
}

// pairOf numbers the pairs of fingers.
var pairOf = [4][4]int{{0, 0, 1, 2}, {0, 0, 3, 4}, {1, 3, 0, 5}, {2, 4, 5, 0}}

func (c *chart) begin(rules rule.Rules) {
	r := &rules
	sum := func(charge func(b *rule.Bill)) int64 {
		var b rule.Bill
		charge(&b)
		return b.Sum
	}
	c.r, c.width = r, len(r.Harp.Strings)
	if need := 6 * c.width * c.width; cap(c.pairs) < need {
		c.pairs = make([]int64, need)
	} else {
		c.pairs = c.pairs[:need]
		clear(c.pairs)
	}
	for notes := 1; notes <= 2; notes++ {
		for thumb := range 2 {
			c.work[notes][thumb] = sum(func(b *rule.Bill) { r.Work(b, notes, thumb == 1) })
		}
	}
	for f := range 4 {
		c.keep[f] = sum(func(b *rule.Bill) { r.Keep(b, f) })
		c.alone[f] = sum(func(b *rule.Bill) { r.Enter(b, hand.Empty(), f, 0) })
	}
	c.part = sum(r.Part)
	c.met.clear()
	c.moves = c.moves[:0]
	c.share = r.Charges[rule.SharedString]
}

// enter charges finger f joining a frame on string t (rule.Enter), within reach or not.
func (c *chart) enter(held hand.Frame, f int, t int8) int64 {
	var b rule.Bill
	c.r.Enter(&b, held, f, t)
	return b.Sum
}

// joins is enter where the hand can hold it, false where it cannot (hand.Takes).
func (c *chart) joins(held hand.Frame, f int, t int8) (int64, bool) {
	if held[f] != hand.None || !c.r.Hand.InUse[f] {
		return 0, false
	}
	sum, shared := c.alone[f], false
	for g, s := range held {
		if s == hand.None {
			continue
		}
		known := c.both(f, t, g, s)
		if known < 0 {
			return 0, false
		}
		sum += known - 1
		shared = shared || s == t
	}
	if shared {
		sum += c.share
	}
	return sum, true
}

// both is what it costs, plus 1, that two fingers hold two strings, -1 if they cannot.
func (c *chart) both(f int, t int8, g int, s int8) int64 {
	if g < f {
		f, t, g, s = g, s, f, t
	}
	known := &c.pairs[(pairOf[f][g]*c.width+int(t))*c.width+int(s)]
	if *known == 0 {
		*known = c.pair(f, t, g, s)
	}
	return *known
}

// pair is an entry of pairs, a shared string without its charge.
func (c *chart) pair(f int, t int8, g int, s int8) int64 {
	if !c.r.Hand.Pair(c.r.Harp, f, t, g, s) {
		return -1
	}
	if s == t {
		return 1
	}
	held := hand.Empty()
	held[g] = s
	return 1 + c.enter(held, f, t) - c.alone[f]
}

// stays reports whether a finger can stay on string t while others are played.
func (c *chart) stays(f, t int8, others []int8) bool {
	above, below := int8(0), int8(0)
	for _, other := range others {
		if other > t {
			above++
		} else {
			below++
		}
		if above > f || below > 3-f || !c.reaches(int(f), t, other) {
			return false
		}
	}
	return true
}

// reaches reports whether some finger beside f can hold another string with it.
func (c *chart) reaches(f int, t, other int8) bool {
	for g := range 4 {
		if g != f && c.r.Hand.InUse[g] && c.both(f, t, g, other) > 0 {
			return true
		}
	}
	return false
}
