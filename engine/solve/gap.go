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
	useful    []uint8        // beside strings: the fingers that some stroke on it may have
	variants  []variant      // of all that may sound here, in the order of the patterns
	run       *score.Run     // the house fingering that strokes are being found for; nil if they may have any
	apart     [][]middle     // by variant: the private placings there is time for
	away      bool           // some stroke leaves time for a private placing
	known     map[pair]value // what staying costs: many states look alike
	passed    []passed       // what steps cost in which the placing goes on and nothing may sound
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

// variant is a pattern with one of its house fingerings; run is nil where it has
// none.
type variant struct {
	pattern int
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
	o := &opening{v: v, j: j, desk: v.desk.clean()}
	for k := range patterns {
		p := &patterns[k]
		for n := range runs(p) {
			if k > 0 {
				o.variants = append(o.variants, variant{k, run(p, n)})
			}
		}
		for i, t := range p.Strings {
			at := index(o.strings, t)
			if at < 0 {
				at = len(o.strings)
				o.strings, o.drops, o.useful = append(o.strings, t), append(o.drops, false), append(o.useful, 0)
			}
			for n := range runs(p) {
				for f := range int8(4) {
					if permits(run(p, n), i, f) {
						o.useful[at] |= 1 << f
					}
				}
			}
			o.drops[at] = o.drops[at] || i+j > 0 && p.Since[i] >= rule.DropLeast
			o.away = o.away || v.leaves(j, *p, i)
		}
	}
	o.apart = make([][]middle, len(o.variants))
	if o.away {
		o.each(hand.Empty(), 0, func(f hand.Frame) { o.private = append(o.private, f) })
		for i, w := range o.variants {
			o.run = w.run
			o.apart[i] = o.middles(&patterns[w.pattern])
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

// look makes the view of a frame: only fingers that may play this gap's strings
// count.
func (o *opening) look(stroke, frame hand.Frame, set uint8) view {
	w := view{stroke: stroke, frame: hand.Empty()}
	if len(o.strings) == 0 {
		return w
	}
	for f, t := range frame {
		if t != hand.None && o.uses(f, t) >= 0 {
			w.frame[f] = t
			w.set |= set & (1 << f)
		}
	}
	return w
}

// uses gives the place of a string among the gap's, -1 if it is not one of them
// or no stroke on it may have finger f.
func (o *opening) uses(f int, t int8) int {
	i := index(o.strings, t)
	if i >= 0 && o.useful[i]&(1<<f) == 0 {
		return -1
	}
	return i
}

// weigh gives the cost of a gap in which the placing goes on, or never: each
// pattern played as cheaply as it can be, times its weight. left is what the
// placing holds, right counts for its stroke alone.
func (o *opening) weigh(left, right view) value {
	if len(o.strings) == 0 {
		return o.onward(left.stroke, right.stroke)
	}
	key := pair{left, right}
	known, ok := o.known[key]
	if ok {
		return known
	}
	o.held = false
	total := o.silence(left, right, true)
	total = o.sum(total, func(i int, p *score.Pattern) int64 { return o.staying(p, i, left, right) })
	if o.known == nil {
		o.known = map[pair]value{}
	}
	o.known[key] = total
	return total
}

// onward is weigh where nothing may sound, worked out once for each pair of strokes.
func (o *opening) onward(from, to hand.Frame) value {
	for i := range o.passed {
		if s := &o.passed[i]; s.from == from && s.to == to {
			return s.value
		}
	}
	c := o.silence(view{stroke: from}, view{stroke: to}, true)
	o.passed = append(o.passed, passed{from, to, c})
	return c
}

// passed is what a step costs.
type passed struct {
	from, to hand.Frame
	value    value
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

// staying is the least cost of variant i of a pattern where the placing goes on.
func (o *opening) staying(p *score.Pattern, i int, left, right view) int64 {
	least := o.through(p, left, right, hand.Empty(), true, nil)
	if len(o.apart[i]) == 0 || o.run != nil && !o.run.After.Suits(right.stroke) {
		return least
	}
	tails := o.tails(p, left)
	for _, m := range o.apart[i] {
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
	return o.sum(total, func(i int, p *score.Pattern) int64 { return o.join(i, p, lefts[i], rights[i]) })
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

func weighed(sum, weight, rank int64) value {
	if sum >= most {
		return never
	}
	return value{sum * weight, rank * second}
}

// What decides between plans of equal cost, the first that differs: how often a
// house fingering is the second in liking, then lifts, crossings and fourth fingers
// with nothing sounding. A tune has 20,000 events at most, which is below 1 << 15.
const (
	fourth int64 = 1 << (15 * iota)
	crossed
	lifted
	second
)

// silence is what a gap costs, weighed, when nothing sounds in it.
func (o *opening) silence(left, right view, stay bool) value {
	p := &o.v.s.Gaps[o.j].Patterns[0]
	var bill rule.Bill
	move := rule.SetAnew
	switch {
	case o.j == len(o.v.s.Events):
		return value{}
	case o.j == 0:
		o.v.r.Place(&bill, 0, false)
	case stay:
		o.v.r.Step(&bill, left.stroke, right.stroke, p.Last, true)
	default:
		move = o.move(&bill, left.stroke, right.stroke, p.Last, true)
	}
	return value{bill.Sum * p.Weight, o.tie(move, right.stroke)}
}

// tie counts what decides between plans of equal cost, with nothing sounding.
func (o *opening) tie(move rule.Move, stroke hand.Frame) int64 {
	tie := int64(max(0, o.v.s.Events[o.j].Liking(stroke))) * second
	if stroke[3] != hand.None {
		tie += fourth
	}
	switch move {
	case rule.Jump:
		tie += lifted
	case rule.Under, rule.Over:
		tie += crossed
	}
	return tie
}

// move charges the step over the boundary that lies in this gap.
func (o *opening) move(b *rule.Bill, from, to hand.Frame, since int32, written bool) rule.Move {
	e := &o.v.s.Events[o.j]
	return o.v.r.Across(b, &rule.Crossing{From: from, To: to, Since: since, Written: written, Forced: e.Forced, Weak: e.Weak, Held: o.held})
}
