package solve

import "readyhand/engine/score"

// after is a state after one of half a million events, as a number.
func (st *state) after(event int) mark {
	return mark{word(st.frame), word(st.stroke), uint32(st.core) | uint32(st.kept)<<4 | uint32(st.notes)<<8 | uint32(st.owed)<<10 | uint32(event)<<13}
}

// rest gives the least cost from a state after an event to the end, also from one
// in which fingers wait for an ornament that the score as solved does not prepare.
func (c *aside) rest(event int, st state, kind int) value {
	if event == len(c.v.s.Events) {
		return value{}
	}
	if event >= c.end && c != c.plain {
		return c.plain.rest(event, st, kind)
	}
	if c.barred(event, kind) {
		return never
	}
	if at := c.v.gaps[event].place(st.mark()); at >= 0 {
		return c.toGo(event)[at]
	}
	at, added := c.stops.find(st.after(event))
	if !added {
		return c.rests[at]
	}
	c.rests = append(c.rests, never)
	best := never
	first, known := c.onward(event, st, kind)
	for i := first; i < len(c.ways); i++ {
		if total := c.total(event, i); total.less(best) {
			best = total
		}
	}
	c.ways = c.ways[:first]
	if !known {
		for _, w := range c.surveyed(event, st, kind) {
			if total := w.cost.plus(c.rest(event+1, w.state, w.kind)); total.less(best) {
				best = total
			}
		}
	}
	c.rests[at] = best
	return best
}

// onward is a way on from a state that is not among those of the score as solved:
// out by a port, to the end, or else to a state in the same placing, at a cost up to
// there.
type onward struct {
	state  state
	kind   int
	port   int32 // -1 if it is none of these
	placed bool
	cost   value
}

// total is what a way on costs to the end.
func (c *aside) total(event, way int) value {
	w := &c.ways[way]
	switch {
	case !w.placed:
		cost := w.cost
		return cost.plus(c.rest(event+1, w.state, w.kind))
	case w.port < 0:
		return w.cost
	}
	return w.cost.plus(c.beyond(event + 1)[w.port])
}

// onward adds the ways on from a state to those being looked at, and gives the number
// of the first, as far as the gap is known from the score as solved; false if it
// is not.
func (c *aside) onward(event int, st state, kind int) (first int, known bool) {
	g, first := event+1, len(c.ways)
	if g == len(c.v.s.Events) && len(c.v.s.Gaps[g].Patterns) == 1 {
		if st.owed == 0 {
			c.ways = append(c.ways, onward{port: -1, placed: true})
		}
		return first, true
	}
	return first, c.leaves(g, st, kind) && (g == len(c.v.s.Events) || c.stays(g, st, kind))
}

// leaves adds the ways on over a boundary.
func (c *aside) leaves(g int, st state, kind int) (known bool) {
	t := c.v.gaps[g].terrain
	if _, over := c.allowed(g); !over || st.owed != 0 || t.ports == 0 {
		return true
	}
	w := c.v.sights(g)
	c.kept = append(c.kept[:0], played{state: st})
	if w.asks.behind {
		c.kept = w.keeping(c.kept[:0], c.kept[0])
	}
	for i := range c.kept {
		kept := &c.kept[i]
		view := w.view(c.v.takes[g-1].list[kind], kind, kept.frame, kept.core|kept.kept)
		for n, h := range t.holds {
			if f := int(h.finger) - 1; f >= 0 && (kept.frame[f] != h.string || kept.core&(1<<f) == 0) {
				continue
			}
			at := view*len(t.holds) + n
			if view < 0 || at >= len(t.portAt) || t.portAt[at] < 0 {
				return false
			}
			c.ways = append(c.ways, onward{port: t.portAt[at], placed: true, cost: value{cost: kept.sum * score.Whole}})
		}
	}
	return true
}

// stays adds the ways on in the same placing.
func (c *aside) stays(g int, st state, kind int) (known bool) {
	v := c.v
	if stay, _ := c.allowed(g); !stay || !v.mayStay(g) || v.takes[g-1].part[kind] {
		return true
	}
	w := v.sights(g)
	for b := range v.takes[g].list {
		if c.barred(g, b) {
			continue
		}
		next, ok := v.play(st, &v.s.Events[g], v.takes[g], b)
		if !ok {
			continue
		}
		c.kept = w.keeping(c.kept[:0], next)
		for i := range c.kept {
			kept := &c.kept[i]
			cost, ok := v.weighs(w, g, kind, b, kept)
			if !ok {
				return false
			}
			if cost.cost < most {
				cost.cost += kept.sum * score.Whole
				c.ways = append(c.ways, onward{state: kept.state, kind: b, port: -1, cost: cost})
			}
		}
	}
	return true
}

// pace is one event further: a state after it, and what it costs to get there.
type pace struct {
	state  state
	kind   int
	cost   value
	placed bool
}

// surveyed gives the ways on from a state through any gap.
func (c *aside) surveyed(event int, st state, kind int) (list []pace) {
	v, g := c.v, event+1
	w := &solver{s: v.s, r: v.r, desk: v.desk.second(&v.r), takes: v.takes}
	w.explore(g, &terrain{states: []state{st}, kinds: []uint8{uint8(kind)}, dead: []bool{false}})
	stay, over := c.allowed(g)
	add := func(to int32, cost value, placed bool) {
		if g == len(v.s.Events) {
			list = append(list, pace{cost: cost, placed: true})
		} else {
			list = append(list, pace{w.states[to], int(w.kinds[to]), cost, placed})
		}
	}
	for i := range w.stay {
		if e := &w.stay[i]; stay {
			add(e.to, e.value, false)
		}
	}
	for i := range w.leave {
		for k := range w.over {
			if l, e := &w.leave[i], &w.over[k]; over && e.from == l.to {
				add(e.to, l.value.plus(e.value), true)
			}
		}
	}
	return list
}
