package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Over a boundary every port meets every entry, so what a pattern costs is put
// together from halves: the strokes played from the left, worked out once for
// each port, those from the right, once for each entry, and between them one
// step, or a private placing. A private placing is 200 ms from either half, and
// no rule looks across so long a step, so it costs the same between any two.

// edge of a half: the way next to the boundary, the stroke behind it, and what
// the half costs.
type brink struct {
	way    way
	behind hand.Frame
	two    bool // there is a stroke behind
	cost   int64
}

// half is one side of one pattern: by how many strokes are played from the
// left, the brinks there may be. For the right side the rest are played from it.
type half [][]brink

// middle is what a private placing costs that plays strokes from to until, its
// steps in and out included; most where there is no time.
type middle struct {
	from, until int
	cost        int64
}

// half makes room for one; it is there until the next gap is worked out.
func (o *opening) half(n int) half {
	h := half(o.halves.take(n))
	clear(h)
	return h
}

func (o *opening) one(b brink) []brink {
	list := o.halfBrinks.take(1)
	list[0] = b
	return list
}

// tails are the ways to play the first strokes of a pattern from the left.
func (o *opening) tails(p *score.Pattern, w view) half {
	h := o.half(len(p.Strings) + 1)
	if o.j == 0 || o.run != nil && !o.run.Before.Suits(w.stroke) {
		return h
	}
	h[0] = o.one(brink{way: o.event(w.stroke, plan.Left)})
	for i := range p.Strings {
		o.brinks = o.brinks[:0]
		for _, before := range h[i] {
			for f := range int8(4) {
				if way, ok := o.from(p, i, w, f, plan.Left); ok {
					c := before.cost + o.pace(&before.way, &way, p.Since[i])
					if before.two {
						c += o.back(before.behind, before.way.stroke, way.stroke, p.Since[i-1]+p.Since[i])
					}
					if c < most {
						o.brinks = append(o.brinks, brink{way, before.way.stroke, true, c})
					}
				}
			}
		}
		h[i+1] = o.halfBrinks.copy(thin(o.brinks))
	}
	return h
}

// heads are the ways to play the last strokes of a pattern from the right.
func (o *opening) heads(p *score.Pattern, w view) half {
	n := len(p.Strings)
	h := o.half(n + 1)
	if o.j == len(o.v.s.Events) || o.run != nil && !o.run.After.Suits(w.stroke) {
		return h
	}
	h[n] = o.one(brink{way: o.event(w.stroke, plan.Right)})
	for i := n - 1; i >= 0; i-- {
		o.brinks = o.brinks[:0]
		for _, after := range h[i+1] {
			for f := range int8(4) {
				if way, ok := o.from(p, i, w, f, plan.Right); ok {
					since := o.time(p, i+1)
					c := after.cost + o.pace(&way, &after.way, since)
					if after.two {
						c += o.back(way.stroke, after.way.stroke, after.behind, since+o.time(p, i+2))
					}
					if c < most {
						o.brinks = append(o.brinks, brink{way, after.way.stroke, true, c})
					}
				}
			}
		}
		h[i] = o.halfBrinks.copy(thin(o.brinks))
	}
	return h
}

// time is how long after the stroke before stroke i sounds; the event after
// them counts as the last.
func (o *opening) time(p *score.Pattern, i int) int32 {
	if i < len(p.Since) {
		return p.Since[i]
	}
	return p.Last
}

// from is the way of stroke i with finger f from one side, if it holds the string.
func (o *opening) from(p *score.Pattern, i int, w view, f int8, from plan.From) (way, bool) {
	t := p.Strings[i]
	if w.frame[f] != t || !o.permits(i, f) {
		return way{}, false
	}
	set := w.set&(1<<f) != 0
	if !set && p.Since[i] < rule.DropLeast {
		return way{}, false
	}
	stroke := hand.Empty()
	stroke[f] = t
	return o.way(stroke, t, from, f, !set), true
}

// pace is the cost of a step, most where it cannot be played.
func (o *opening) pace(x, y *way, since int32) int64 {
	if y.drops && x.from != y.from {
		return most
	}
	return o.remembered(x, y, since, o.timed(since))
}

func (o *opening) back(a, b, c hand.Frame, ms int32) int64 {
	var bill rule.Bill
	o.v.r.Between(&bill, a, b, c, ms)
	if bill.Barred {
		return most
	}
	return bill.Sum
}

// middles lists the private placings that a pattern has time for.
func (o *opening) middles(p *score.Pattern) []middle {
	var list []middle
	n := len(p.Strings)
	for a := range n {
		for b := a + 1; b <= n; b++ {
			var steps rule.Bill
			if a > 0 || o.j > 0 {
				o.v.r.Away(&steps, p.Since[a], true)
			}
			if b < n || o.j < len(o.v.s.Events) {
				o.v.r.Away(&steps, o.time(p, b), true)
			}
			if steps.Barred {
				continue
			}
			least := most
			for _, frame := range o.private {
				least = min(least, o.alone(p, frame, a, b))
			}
			if least < most {
				list = append(list, middle{a, b, steps.Sum + least})
			}
		}
	}
	return list
}

// alone is what strokes a to b cost from a private frame, the frame included.
func (o *opening) alone(p *score.Pattern, frame hand.Frame, a, b int) int64 {
	var bill rule.Bill
	held := hand.Empty()
	for f, t := range frame {
		if t != hand.None {
			o.v.r.Enter(&bill, held, f, t)
			held[f] = t
		}
	}
	now := []brink{}
	for i := a; i < b; i++ {
		var next []brink
		for f := range int8(4) {
			if frame[f] != p.Strings[i] || !o.permits(i, f) {
				continue
			}
			stroke := hand.Empty()
			stroke[f] = frame[f]
			way := o.way(stroke, frame[f], plan.Private, f, false)
			if i == a {
				next = append(next, brink{way: way})
			}
			for _, before := range now {
				c := before.cost + o.pace(&before.way, &way, p.Since[i])
				if before.two {
					c += o.back(before.behind, before.way.stroke, stroke, p.Since[i-1]+p.Since[i])
				}
				if c < most {
					next = append(next, brink{way, before.way.stroke, true, c})
				}
			}
		}
		now = thin(next)
	}
	least := most
	for _, e := range now {
		least = min(least, e.cost+bill.Sum)
	}
	return least
}

// thin keeps the cheapest of brinks that end alike.
//
//go:noinline
func thin(list []brink) []brink {
	kept := list[:0]
next:
	for _, e := range list {
		for k := range kept {
			if kept[k].way.finger == e.way.finger && kept[k].behind == e.behind && kept[k].two == e.two {
				kept[k].cost = min(kept[k].cost, e.cost)
				continue next
			}
		}
		kept = append(kept, e)
	}
	return kept
}

// link is the least cost with the first a strokes from the left, the rest from
// the right, and nothing between.
func (o *opening) link(p *score.Pattern, a int, left, right []brink) int64 {
	if len(left) == 0 || len(right) == 0 || bound(p, a) {
		return most
	}
	return o.bridge(p, a, left, right)
}

// bridge is link where the hand need not be placed.
func (o *opening) bridge(p *score.Pattern, a int, left, right []brink) int64 {
	least := most
	for i := range left {
		x := &left[i]
		for k := range right {
			y := &right[k]
			c := x.cost + y.cost
			if y.way.drops || c >= least {
				continue
			}
			since := o.time(p, a)
			c += o.pace(&x.way, &y.way, since)
			if x.two {
				c += o.back(x.behind, x.way.stroke, y.way.stroke, p.Since[a-1]+since)
			}
			if y.two {
				c += o.back(x.way.stroke, y.way.stroke, y.behind, since+o.time(p, a+1))
			}
			least = min(least, c)
		}
	}
	return least
}

// cheapest is the least cost of a half; from the right a finger that has yet to
// drop in cannot begin.
func cheapest(list []brink, right bool) int64 {
	least := most
	for i := range list {
		if !right || !list[i].way.drops {
			least = min(least, list[i].cost)
		}
	}
	return least
}
