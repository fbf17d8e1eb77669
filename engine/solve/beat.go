package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// beat is one stroke between two events, or the event's own, and the ways it
// may be played here.
type beat struct {
	ways  []way
	since int32
	time  int  // which of the opening's sinces; -1 if it remembers no more
	bound bool // the hand is not placed in the step to it: it lies inside one ornament, and is quick
}

type way struct {
	stroke  hand.Frame
	from    plan.From
	finger  int8 // of an ornament's stroke
	written bool
	drops   bool // the finger is not set: it must have time to drop in
	id      int  // tells ways of this gap apart; -1 if it remembers no more
}

const most = int64(plan.None)

// least gives the cheapest way to play a pattern, false if there is none. With
// touches it also says how, beginning with the smallest fingers.
func (o *opening) least(p *score.Pattern, left, right view, stay bool, touches *[]plan.Touch) (int64, bool) {
	cheapest := most
	for n := range runs(p) {
		o.run = run(p, n)
		cheapest = o.lower(cheapest, p, left, right, hand.Empty(), stay, touches)
		if o.away && len(p.Strings) > 0 {
			for _, private := range o.private {
				cheapest = o.lower(cheapest, p, left, right, private, stay, touches)
			}
		}
	}
	return cheapest, cheapest < most
}

// lower is through, where that is cheaper than what was found before.
func (o *opening) lower(before int64, p *score.Pattern, left, right view, private hand.Frame, stay bool, touches *[]plan.Touch) int64 {
	var other []plan.Touch
	into := &other
	if touches == nil {
		into = nil
	}
	c := o.through(p, left, right, private, stay, into)
	if c >= before {
		return before
	}
	if touches != nil {
		*touches = other
	}
	return c
}

// through is least with one private placing given.
func (o *opening) through(p *score.Pattern, left, right view, private hand.Frame, stay bool, touches *[]plan.Touch) int64 {
	if !o.layOut(p, left, right, private, stay) {
		return most
	}
	var bill rule.Bill
	held := hand.Empty()
	for f, t := range private {
		if t != hand.None {
			o.v.r.Enter(&bill, held, f, t)
			held[f] = t
		}
	}
	if o.j == 0 && len(o.beats) > 0 {
		o.v.r.Place(&bill, 0, false)
	}
	if len(o.beats) < 2 {
		return bill.Sum
	}
	o.countBack()
	a, b, total := o.start()
	if total >= most {
		return most
	}
	if touches != nil {
		*touches = o.follow(a, b)
	}
	return total + bill.Sum
}

// layOut sets out the beats and their ways; false if a stroke has none.
func (o *opening) layOut(p *score.Pattern, left, right view, private hand.Frame, stay bool) bool {
	o.beats = o.beats[:0]
	if o.run != nil && (o.j > 0 && !o.run.Before.Suits(left.stroke) || o.j < len(o.v.s.Events) && !o.run.After.Suits(right.stroke)) {
		return false
	}
	if o.j > 0 {
		o.beat(0, o.event(left.stroke, plan.Left))
	}
	for i, t := range p.Strings {
		b := o.beat(p.Since[i])
		b.bound = bound(p, i)
		for f := range int8(4) {
			if !o.permits(i, f) {
				continue
			}
			stroke := hand.Empty()
			stroke[f] = t
			if o.j > 0 && left.frame[f] == t {
				if set := left.set&(1<<f) != 0; set || p.Since[i] >= rule.DropLeast {
					b.ways = append(b.ways, o.way(stroke, t, plan.Left, f, !set))
				}
			}
			if private[f] == t {
				b.ways = append(b.ways, o.way(stroke, t, plan.Private, f, false))
			}
			if !stay && o.j < len(o.v.s.Events) && right.frame[f] == t {
				if set := right.set&(1<<f) != 0; set || p.Since[i] >= rule.DropLeast {
					b.ways = append(b.ways, o.way(stroke, t, plan.Right, f, !set))
				}
			}
		}
		if len(b.ways) == 0 {
			return false
		}
	}
	if o.j < len(o.v.s.Events) {
		from := plan.Right
		if stay {
			from = plan.Left
		}
		o.beat(p.Last, o.event(right.stroke, from)).bound = bound(p, len(p.Strings))
	}
	return true
}

// bound reports whether the step to stroke i, or to the event after the last, is
// too quick for the hand to be placed in it.
func bound(p *score.Pattern, i int) bool {
	since := p.Last
	if i < len(p.Since) {
		since = p.Since[i]
	}
	return p.Within[i] && since < rule.AwayLeast
}

func (o *opening) beat(since int32, ways ...way) *beat {
	if len(o.beats) < cap(o.beats) {
		o.beats = o.beats[:len(o.beats)+1]
	} else {
		o.beats = append(o.beats, beat{})
	}
	b := &o.beats[len(o.beats)-1]
	b.since, b.bound, b.ways = since, false, append(b.ways[:0], ways...)
	b.time = o.timed(since)
	return b
}

// Ways of one beat are at most 12: four fingers in three frames.
const mostWays = 12

func at(i, a, b int) int { return (i*mostWays+a)*mostWays + b }

// countBack fills togo: what the rest costs once beats i-1 and i are played in
// ways a and b; and step, what beat i costs after beat i-1.
func (o *opening) countBack() {
	n := len(o.beats)
	if size := n * mostWays * mostWays; len(o.togo) < size {
		o.togo, o.best = make([]int64, size), make([]int64, size)
	}
	for i := n - 1; i >= 1; i-- {
		for a := range o.beats[i-1].ways {
			for b := range o.beats[i].ways {
				o.best[at(i, a, b)] = o.step(i, a, b)
			}
		}
		for a := range o.beats[i-1].ways {
			for b := range o.beats[i].ways {
				least := int64(0)
				if i < n-1 {
					least, _ = o.next(i, a, b)
				}
				o.togo[at(i, a, b)] = least
			}
		}
	}
}

// next gives the cheapest way of beat i+1 after ways a and b of the two before.
func (o *opening) next(i, a, b int) (int64, int) {
	least, which := most, -1
	for c := range o.beats[i+1].ways {
		step, rest := o.best[at(i+1, b, c)], o.togo[at(i+1, b, c)]
		if step >= most || rest >= most {
			continue
		}
		between, ok := o.between(i+1, a, b, c)
		if ok && step+rest+between < least {
			least, which = step+rest+between, c
		}
	}
	return least, which
}

func (o *opening) between(i, a, b, c int) (int64, bool) {
	var bill rule.Bill
	x, y := &o.beats[i-1], &o.beats[i]
	o.v.r.Between(&bill, o.beats[i-2].ways[a].stroke, x.ways[b].stroke, y.ways[c].stroke, x.since+y.since)
	return bill.Sum, !bill.Barred
}

// step charges beat i in way b after beat i-1 in way a; it mirrors the
// definition in plan.
func (o *opening) step(i, a, b int) int64 {
	x, y := &o.beats[i-1].ways[a], &o.beats[i].ways[b]
	if !y.written && x.from > y.from || y.drops && x.from != y.from {
		return most
	}
	if o.beats[i].bound && x.from != y.from {
		return most // a private placing needs the same 200 ms
	}
	return o.remembered(x, y, o.beats[i].since, o.beats[i].time)
}

func (o *opening) start() (a, b int, total int64) {
	total = most
	for i := range o.beats[0].ways {
		for k := range o.beats[1].ways {
			step, rest := o.best[at(1, i, k)], o.togo[at(1, i, k)]
			if o.beats[0].ways[i].drops || step >= most || rest >= most || step+rest >= total {
				continue
			}
			a, b, total = i, k, step+rest
		}
	}
	return a, b, total
}

func (o *opening) follow(a, b int) []plan.Touch {
	var touches []plan.Touch
	add := func(i, way int) {
		if w := o.beats[i].ways[way]; !w.written {
			touches = append(touches, plan.Touch{Finger: w.finger, From: w.from})
		}
	}
	add(0, a)
	add(1, b)
	for i := 1; i < len(o.beats)-1; i++ {
		_, c := o.next(i, a, b)
		a, b = b, c
		add(i+1, c)
	}
	return touches
}
