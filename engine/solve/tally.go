package solve

import "readyhand/engine/hand"

// tally counts the notes in which best plans differ from the plan shown: in the one
// that differs least, and in the one that differs most.
type tally struct{ least, most int }

// nobody's tally, to be widened.
var untold = tally{least: 1 << 30, most: -1}

func (t *tally) widen(by int, rest tally) {
	t.least = min(t.least, by+rest.least)
	t.most = max(t.most, by+rest.most)
}

// junct is a state after an event, by number.
type junct struct {
	event int32
	state int32
}

// differs counts the notes of an event if it is played otherwise than shown.
func (c *aside) differs(event int, stroke hand.Frame, placed bool) int {
	if stroke == c.p.Events[event].Stroke && placed == c.p.Bounded(event) {
		return 0
	}
	return len(c.v.s.Events[event].Notes)
}

// led counts the notes up to an event, on the best ways to a state after it. From
// where such a way meets the plan shown, outside the bar, it is that plan.
func (c *aside) led(event int, state int32) tally {
	if event < 0 || !c.within(event) && state == c.v.path[event].state {
		return tally{}
	}
	if event < c.first && c.plain != c {
		return c.plain.led(event, state)
	}
	key := junct{int32(event), state}
	if known, ok := c.before[key]; ok {
		return known
	}
	g, want := c.v.gaps[event].terrain, c.soFar(event)[state]
	stroke, all := g.states[state].stroke, untold
	stay, over := c.allowed(event)
	if stay && event > 0 {
		from := c.soFar(event - 1)
		for i := range g.stay {
			if s := &g.stay[i]; s.to == state && from[s.from].plus(s.value) == want {
				all.widen(c.differs(event, stroke, false), c.led(event-1, s.from))
			}
		}
	}
	ports := c.ports(event)
	for i := range g.over {
		if o := &g.over[i]; over && o.to == state && ports[o.from].plus(o.value) == want {
			c.leaving(event, o.from, c.differs(event, stroke, true), &all)
		}
	}
	c.before[key] = all
	return all
}

// leaving widens a tally by the best ways to a port.
func (c *aside) leaving(event int, port int32, by int, all *tally) {
	if event == 0 {
		all.widen(by, tally{})
		return
	}
	g, want, from := c.v.gaps[event].terrain, c.ports(event)[port], c.soFar(event-1)
	for i := range g.leave {
		if l := &g.leave[i]; l.to == port && from[l.from].plus(l.value) == want {
			all.widen(by, c.led(event-1, l.from))
		}
	}
}

// follows counts the notes after an event, on the best ways on from a state.
func (c *aside) follows(event int, st state, kind int) tally {
	g := event + 1
	switch {
	case g == len(c.v.s.Events):
		return tally{}
	case event >= c.end && c != c.plain:
		return c.plain.follows(event, st, kind)
	}
	key := st.after(event)
	if known, ok := c.after[key]; ok {
		return known
	}
	all, want := untold, c.rest(event, st, kind)
	t, rest := c.v.gaps[g].terrain, c.toGo(g)
	stay, over := c.allowed(g)
	if at := c.v.gaps[event].place(st.mark()); at >= 0 {
		for i := range t.stay {
			if s := &t.stay[i]; stay && int(s.from) == at && s.value.plus(rest[s.to]) == want {
				c.goes(g, t.states[s.to], int(t.kinds[s.to]), false, &all)
			}
		}
		for i := range t.leave {
			if l := &t.leave[i]; over && int(l.from) == at && l.value.plus(c.beyond(g)[l.to]) == want {
				c.enters(g, l.to, &all)
			}
		}
	} else {
		first, known := c.onward(event, st, kind)
		for i := first; i < len(c.ways); i++ {
			switch w := c.ways[i]; {
			case c.total(event, i) != want:
			case w.placed:
				c.enters(g, w.port, &all)
			default:
				c.goes(g, w.state, w.kind, false, &all)
			}
		}
		c.ways = c.ways[:first]
		if !known {
			all = untold
			for _, w := range c.surveyed(event, st, kind) {
				if w.cost.plus(c.rest(g, w.state, w.kind)) == want {
					c.goes(g, w.state, w.kind, w.placed, &all)
				}
			}
		}
	}
	c.after[key] = all
	return all
}

// enters widens a tally by the best ways on from a port of a gap.
func (c *aside) enters(gap int, port int32, all *tally) {
	t, rest, want := c.v.gaps[gap].terrain, c.toGo(gap), c.beyond(gap)[port]
	for i := range t.over {
		if o := &t.over[i]; o.from == port && o.value.plus(rest[o.to]) == want {
			c.goes(gap, t.states[o.to], int(t.kinds[o.to]), true, all)
		}
	}
}

// goes widens a tally by an event played so, and what follows it.
func (c *aside) goes(event int, st state, kind int, placed bool, all *tally) {
	all.widen(c.differs(event, st.stroke, placed), c.follows(event, st, kind))
}
