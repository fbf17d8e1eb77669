package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// view is all that a gap's strokes can ask of one side of it: what just played
// or plays next, and which fingers hold a string that an ornament here needs.
type view struct {
	stroke hand.Frame
	frame  hand.Frame
	set    uint8 // fingers of frame that are on their string: used for written notes, or kept
}

// opening is one gap being worked out.
type opening struct {
	v         *solver
	j         int
	strings   []int8         // the strings of all that may sound here, none twice
	drops     []bool         // beside strings: some stroke leaves a finger time to drop in on it
	private   []hand.Frame   // frames a private placing may hold
	apart     [][]middle     // by pattern: the private placings there is time for
	away      bool           // some stroke leaves time for a private placing
	known     map[pair]value // what staying costs: many states look alike
	held      bool           // a finger stays on its string over the boundary that is being charged
	near, far []hand.Frame   // strokes on either side of a boundary here
	silent    []value        // what nothing sounding costs over a boundary, by near and far and whether a finger stays; its tie is -1 if it is not known yet

	*desk
}

// desk is the solver's place to work on one gap after the other.
type desk struct {
	ends   []end   // strokes of the events on either side, as they come up
	sinces []int32 // times between strokes, as they come up
	steps  []int64 // cost plus 1 of a step, by its time and the ids of its ways; 0 not known yet

	beats []beat
	togo  []int64
	best  []int64
}

// clean makes room for the next gap.
func (d *desk) clean() *desk {
	clear(d.steps[:len(d.sinces)*mostIDs*mostIDs])
	d.ends, d.sinces = d.ends[:0], d.sinces[:0]
	return d
}

type pair struct{ left, right view }

func (v *solver) open(j int, patterns []score.Pattern) *opening {
	o := &opening{v: v, j: j, desk: v.desk.clean()}
	for _, p := range patterns {
		for i, t := range p.Strings {
			at := index(o.strings, t)
			if at < 0 {
				at = len(o.strings)
				o.strings, o.drops = append(o.strings, t), append(o.drops, false)
			}
			o.drops[at] = o.drops[at] || i+j > 0 && p.Since[i] >= rule.DropLeast
			o.away = o.away || v.leaves(j, p, i)
		}
	}
	o.apart = make([][]middle, len(patterns))
	if o.away {
		o.each(hand.Empty(), 0, func(f hand.Frame) { o.private = append(o.private, f) })
		for k := range patterns {
			o.apart[k] = o.middles(&patterns[k])
		}
	}
	return o
}

// leaves reports whether a private placing could begin with stroke i.
func (v *solver) leaves(j int, p score.Pattern, i int) bool {
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
func (o *opening) each(frame hand.Frame, f int, found func(hand.Frame)) {
	if f == 4 {
		if frame != hand.Empty() {
			found(frame)
		}
		return
	}
	o.each(frame, f+1, found)
	for _, t := range o.strings {
		if o.v.r.Hand.Takes(o.v.r.Harp, frame, f, t) {
			with := frame
			with[f] = t
			o.each(with, f+1, found)
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

// look makes the view of a frame: only fingers on this gap's strings count.
func (o *opening) look(stroke, frame hand.Frame, set uint8) view {
	w := view{stroke: stroke, frame: hand.Empty()}
	for f, t := range frame {
		if t != hand.None && index(o.strings, t) >= 0 {
			w.frame[f] = t
			w.set |= set & (1 << f)
		}
	}
	return w
}

// weigh gives the cost of a gap in which the placing goes on, or never: each
// pattern played as cheaply as it can be, times its weight. left is what the
// placing holds, right counts for its stroke alone.
func (o *opening) weigh(left, right view) value {
	key := pair{left, right}
	known, ok := o.known[key]
	if ok {
		return known
	}
	o.held = false
	total := o.silence(left, right, true)
	for k := 1; k < len(o.v.s.Gaps[o.j].Patterns) && total.cost < most; k++ {
		p := &o.v.s.Gaps[o.j].Patterns[k]
		total = total.plus(weighed(o.staying(p, k, left, right), p.Weight))
	}
	if o.known == nil {
		o.known = map[pair]value{}
	}
	o.known[key] = total
	return total
}

// staying is the least cost of a pattern where the placing goes on.
func (o *opening) staying(p *score.Pattern, k int, left, right view) int64 {
	least := o.through(p, left, right, hand.Empty(), true, nil)
	if len(o.apart[k]) == 0 {
		return least
	}
	tails := o.tails(p, left)
	for _, m := range o.apart[k] {
		if m.until == len(p.Strings) {
			least = min(least, m.cost+cheapest(tails[m.from], false))
		}
	}
	return least
}

// across is weigh over a boundary, from the strokes and the halves on either
// side.
func (o *opening) across(near, far int, held bool, lefts, rights []half) value {
	o.held = held
	total := o.hush(near, far)
	for k := 1; k < len(o.v.s.Gaps[o.j].Patterns) && total.cost < most; k++ {
		total = total.plus(weighed(o.join(k, lefts[k], rights[k]), o.v.s.Gaps[o.j].Patterns[k].Weight))
	}
	return total
}

// hush is silence over a boundary, worked out once for each pair of strokes.
func (o *opening) hush(near, far int) value {
	for len(o.silent) < 2*(near+1)*len(o.far) {
		o.silent = append(o.silent, value{tie: -1})
	}
	at := 2 * (near*len(o.far) + far)
	if o.held {
		at++
	}
	known := &o.silent[at]
	if known.tie < 0 {
		*known = o.silence(view{stroke: o.near[near]}, view{stroke: o.far[far]}, false)
	}
	return *known
}

func weighed(sum, weight int64) value {
	if sum >= most {
		return never
	}
	return value{cost: sum * weight}
}

// silence is what a gap costs, weighed, when nothing sounds in it.
func (o *opening) silence(left, right view, stay bool) value {
	p := &o.v.s.Gaps[o.j].Patterns[0]
	sum, _ := o.least(p, left, right, stay, nil)
	return value{sum * p.Weight, o.tie(p, left, right, stay)}
}

// tie counts what decides between plans of equal cost: lifts, then crossings,
// then fourth fingers, with nothing sounding.
func (o *opening) tie(p *score.Pattern, left, right view, stay bool) int64 {
	var tie int64
	if o.j < len(o.v.s.Events) {
		if right.stroke[3] != hand.None {
			tie++
		}
		if o.j > 0 && !stay && !o.v.s.Events[o.j].Forced {
			switch o.move(&rule.Bill{}, left.stroke, right.stroke, p.Last, true) {
			case rule.Jump:
				tie += 1 << 42
			case rule.Under, rule.Over:
				tie += 1 << 21
			}
		}
	}
	return tie
}

// move charges the step over the boundary that lies in this gap.
func (o *opening) move(b *rule.Bill, from, to hand.Frame, since int32, written bool) rule.Move {
	e := &o.v.s.Events[o.j]
	return o.v.r.Across(b, &rule.Crossing{From: from, To: to, Since: since, Written: written, Forced: e.Forced, Weak: e.Weak, Held: o.held})
}
