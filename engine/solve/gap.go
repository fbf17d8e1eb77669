package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// opening is one gap being worked out.
type opening struct {
	v        *solver
	j        int
	left     *terrain     // of the gap before; nil at the start
	strings  []int8       // the strings of all that may sound here, none twice
	drops    []bool       // beside strings: some stroke leaves a finger time to drop in on it
	room     []int8       // beside strings: how many fingers may be set on it for what sounds here
	useful   []uint8      // beside strings: the fingers that some stroke on it may have
	private  []hand.Frame // frames a private placing may hold
	variants []variant    // of all that may sound here, in the order of the patterns
	run      *score.Run   // the house fingering that strokes are being found for; nil if they may have any
	apart    [][]middle   // by variant: the private placings there is time for
	away     bool         // some stroke leaves time for a private placing
	behind   bool         // over a boundary, some stroke may come before the hand is placed
	ahead    bool         // and some after
	held     bool         // a finger stays on its string over the boundary that is being charged

	near, far     []hand.Frame // strokes of the events on either side
	lefts, rights views
	steps         []value // by near and far: what nothing sounding costs in one placing; its tie is -1 if it is not known yet
	hushed        []value // the same over a boundary, and by whether a finger stays
	sorts         []sort  // by variant

	*desk
}

// variant is a pattern with one of its house fingerings; run is nil where it has
// none.
type variant struct {
	pattern int
	weight  int64
	run     *score.Run
}

// runs counts the variants of a pattern, of which run gives the house fingering.
func runs(p *score.Pattern) int { return max(1, len(p.House)) }

func run(p *score.Pattern, n int) *score.Run {
	if n < len(p.House) {
		return &p.House[n]
	}
	return nil
}

// rank is how many house fingerings of a variant are the second in liking.
func (w variant) rank() int64 {
	if w.run == nil {
		return 0
	}
	return int64(w.run.Rank)
}

// permits reports whether stroke i of a pattern may have finger f.
func (o *opening) permits(i int, f int8) bool { return permits(o.run, i, f) }

func permits(run *score.Run, i int, f int8) bool {
	return run == nil || run.Strokes[i] == score.Any || run.Strokes[i] == f
}

func (v *solver) open(j int, patterns []score.Pattern) *opening {
	d := v.desk
	d.clean()
	o := &d.opening
	*o = opening{v: v, j: j, desk: d, strings: o.strings[:0], drops: o.drops[:0], useful: o.useful[:0], room: o.room[:0], private: o.private[:0],
		variants: o.variants[:0], apart: o.apart[:0], lefts: o.lefts, rights: o.rights,
		steps: o.steps[:0], hushed: o.hushed[:0], sorts: o.sorts}
	for k := range patterns {
		o.wants(k, &patterns[k])
	}
	if len(o.strings) == 0 {
		return o
	}
	o.apart = append(o.apart, make([][]middle, len(o.variants))...)
	if o.away {
		o.each(hand.Empty(), 0)
		for i, w := range o.variants {
			o.run = w.run
			o.apart[i] = o.middles(&patterns[w.pattern])
		}
	}
	return o
}

// wants notes what pattern k asks of the hand.
func (o *opening) wants(k int, p *score.Pattern) {
	for n := range runs(p) {
		if k > 0 {
			o.variants = append(o.variants, variant{k, p.Weight, run(p, n)})
		}
	}
	for i, t := range p.Strings {
		at := index(o.strings, t)
		if at < 0 {
			at = len(o.strings)
			o.strings, o.drops, o.useful, o.room = append(o.strings, t), append(o.drops, false), append(o.useful, 0), append(o.room, 0)
		}
		o.room[at]++
		for n := range runs(p) {
			for f := range int8(4) {
				if permits(run(p, n), i, f) {
					o.useful[at] |= 1 << f
				}
			}
		}
		o.drops[at] = o.drops[at] || i+o.j > 0 && p.Since[i] >= rule.DropLeast
		o.away = o.away || o.v.leaves(o.j, p, i)
	}
}

// beside makes room for what is found of the two sides.
func (o *opening) beside() {
	o.near, o.far = nobody, nobody
	if o.j > 0 {
		o.near = o.v.takes[o.j-1].list
	}
	if o.j < len(o.v.s.Events) {
		o.far = o.v.takes[o.j].list
	}
	o.steps = unknown(o.steps, len(o.near)*len(o.far))
	o.hushed = unknown(o.hushed, 2*len(o.near)*len(o.far))
	if len(o.strings) > 0 {
		o.lefts.clear()
		o.rights.clear()
		for len(o.sorts) < len(o.variants) {
			o.sorts = append(o.sorts, sort{})
		}
		for i := range o.variants {
			o.sorts[i].clear()
			o.parted(i)
		}
	}
	o.portAt = o.portAt[:0]
}

// parted notes on which side of a boundary strokes of a variant may be, and gives how
// many may come before it: a bit for each number, and one if some may come from a
// placing between.
func (o *opening) parted(i int) (parts uint64) {
	p := &o.v.s.Gaps[o.j].Patterns[o.variants[i].pattern]
	n := len(p.Strings)
	for a := range n + 1 {
		if o.j == 0 && a == 0 || o.j == len(o.v.s.Events) && a == n || !bound(p, a) {
			o.behind, o.ahead = o.behind || a > 0, o.ahead || a < n
			parts |= 1 << min(a, between)
		}
	}
	for _, m := range o.apart[i] {
		o.behind, o.ahead = o.behind || m.from > 0, o.ahead || m.until < n
		parts |= 1 << between
	}
	return parts
}

// between is the bit of placings between.
const between = 63

// nobody is the stroke beside a gap at either end of the tune.
var nobody = []hand.Frame{hand.Empty()}

// unknown makes a list of so many costs that are not known yet.
func unknown(list []value, n int) []value {
	list = list[:0]
	for range n {
		list = append(list, value{tie: -1})
	}
	return list
}

// leaves reports whether a private placing could begin with stroke i.
func (v *solver) leaves(j int, p *score.Pattern, i int) bool {
	if !(i == 0 && j == 0) && p.Since[i] < rule.AwayLeast {
		return false
	}
	for k := i + 1; k < len(p.Since); k++ {
		if p.Since[k] >= rule.AwayLeast {
			return true
		}
	}
	return j == len(v.s.Events) || p.Last >= rule.AwayLeast
}

// each lists the frames that hold nothing but strings of this gap, and something.
func (o *opening) each(frame hand.Frame, f int) {
	if f == 4 {
		if frame != hand.Empty() {
			o.private = append(o.private, frame)
		}
		return
	}
	o.each(frame, f+1)
	for _, t := range o.strings {
		if _, ok := o.v.chart.joins(frame, f, t); ok {
			with := frame
			with[f] = t
			o.each(with, f+1)
		}
	}
}

func index(list []int8, t int8) int {
	for i, u := range list {
		if u == t {
			return i
		}
	}
	return -1
}

// weigh gives the cost of a gap in which the placing goes on, or never: each
// pattern played as cheaply as it can be, times its weight. What the placing holds
// is a view by number, far the stroke that follows.
func (o *opening) weigh(left, far int) value {
	if len(o.strings) == 0 {
		return o.onward(left, far)
	}
	n := len(o.variants)
	return o.sum(o.onward(o.lefts.kinds[left], far), func(i int, p *score.Pattern) int64 {
		return o.stayed(i, p, o.lefts.sorts[left*n+i], far)
	})
}

// onward is what nothing sounding costs in one placing.
func (o *opening) onward(near, far int) value {
	known := &o.steps[near*len(o.far)+far]
	if known.tie < 0 {
		*known = o.v.silence(o.j, near, far, true, false)
	}
	return *known
}

// sum adds to what silence costs each pattern in the cheapest of its variants,
// times its weight.
func (o *opening) sum(total value, least func(i int, p *score.Pattern) int64) value {
	for i := 0; i < len(o.variants) && total.cost < most; {
		k := o.variants[i].pattern
		p := &o.v.s.Gaps[o.j].Patterns[k]
		best, rank := most, int64(0)
		for ; i < len(o.variants) && o.variants[i].pattern == k; i++ {
			o.run = o.variants[i].run
			if c := least(i, p); c < best {
				best, rank = c, o.variants[i].rank()
			}
		}
		total = total.plus(weighed(best, p.Weight, rank))
	}
	return total
}

// across is weigh over a boundary, for the views on either side.
func (o *opening) across(left, right int, held bool) value {
	if len(o.strings) == 0 {
		return o.hush(left, right, held)
	}
	total := o.hush(o.lefts.kinds[left], o.rights.kinds[right], held)
	n, at := len(o.variants), 0
	if held {
		at = 1
	}
	lefts, rights := o.lefts.sorts[left*n:][:n], o.rights.sorts[right*n:][:n]
	for i := 0; i < n && total.cost < most; {
		best, first := most, i
		rank := int64(0)
		for ; i < n && o.variants[i].pattern == o.variants[first].pattern; i++ {
			row, at := o.sorts[i].joined[lefts[i]], 2*int(rights[i])+at
			if at >= len(row) || row[at] < 0 {
				o.joined(i, lefts[i], rights[i], held)
				row = o.sorts[i].joined[lefts[i]]
			}
			if row[at] < best {
				best, rank = row[at], o.variants[i].rank()
			}
		}
		total = total.plus(weighed(best, o.variants[first].weight, rank))
	}
	return total
}

// hush is what nothing sounding costs over a boundary.
func (o *opening) hush(near, far int, held bool) value {
	at := 2 * (near*len(o.far) + far)
	if held {
		at++
	}
	known := &o.hushed[at]
	if known.tie < 0 {
		*known = o.v.silence(o.j, near, far, false, held)
	}
	return *known
}

func weighed(sum, weight, rank int64) value {
	if sum >= most {
		return never
	}
	return value{sum * weight, rank * second}
}

// crossing is the step over the boundary that lies in this gap.
func (o *opening) crossing(from, to hand.Frame, since int32, written bool) rule.Crossing {
	e := &o.v.s.Events[o.j]
	return rule.Crossing{From: from, To: to, Since: since, Written: written, Forced: e.Forced, Weak: e.Weak, Held: o.held}
}
