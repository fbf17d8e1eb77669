package plan

import (
	"readyhand/engine/hand"
)

// The judge's look at time: no finger of an ornament is faster than a finger,
// and the hand is not away and back faster than a hand.

// Times that a plan may not fall short of, in milliseconds. They are the
// bars of package rule, written out again: the judge does not ask the rules for
// them.
const (
	fastest   = 150 // one finger on one string again, or one lower in the hand after it, in the next stroke
	fastAfter = 90  // the same with another stroke between
	handLeast = 200 // the hand leaves for an ornament, comes back from it, or is placed within it
)

// time looks at the strokes of gap j with pattern k sounding, one after the
// other.
func (g *judge) time(j, k int) {
	beats, _ := line(g.s, g.p, j, k)
	first := 0 // beats before the first stroke of the ornaments
	if j > 0 {
		first = 1
	}
	for i := 1; i < len(beats); i++ {
		x, y := &beats[i-1], &beats[i]
		at := Fault{Event: -1, Gap: j, Placing: -1, Pattern: k, Stroke: i - first, Finger: -1}
		away := x.from != y.from && (x.from == Private || y.from == Private)
		off := x.from == Left && y.from == Right && j < len(g.s.Events) && g.s.Events[j].Forced
		both := x.written && y.written
		switch {
		case (away || x.from != y.from && y.within) && y.since < handLeast:
			g.fault(NoTimeToPlay, at)
		case !away && !off && !both && y.since < fastest && repeats(x.stroke, y.stroke):
			g.fault(NoTimeToPlay, at)
		case x.from == y.from && !both && y.since < fastest && behind(x.stroke, y.stroke):
			g.fault(NoTimeToPlay, at)
		}
		if i > 1 && x.since+y.since < fastAfter && returns(beats[i-2].stroke, x.stroke, y.stroke) {
			g.fault(NoTimeToPlay, at)
		}
	}
}

// behind reports whether a finger lower in the hand follows on the same string.
func behind(from, to hand.Frame) bool {
	for f, t := range from {
		for g := f + 1; g < 4; g++ {
			if t != hand.None && to[g] == t {
				return true
			}
		}
	}
	return false
}

func repeats(from, to hand.Frame) bool { return returns(from, hand.Empty(), to) }

// returns reports whether a finger plays one string before and after a stroke
// in which it rests.
func returns(first, middle, last hand.Frame) bool {
	for f, t := range first {
		if t != hand.None && last[f] == t && middle[f] == hand.None {
			return true
		}
	}
	return false
}
