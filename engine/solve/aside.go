package solve

import "readyhand/engine/plan"

// aside is a score with a bar taken out of its figure, for what an ornament that is
// never played would ask there: the least cost from the start to each state in the
// bar and from each to the end. Where no bar comes again it is the score as solved.
type aside struct {
	v     *solver
	p     *plan.Plan
	plain *aside    // the score as solved
	first int       // the first event of the bar
	end   int       // the first after it; 0, if none is taken out of a figure
	least int64     // cost of the best plan with the bar so
	alpha [][]value // by event of the bar
	beta  [][]value
	out   [][]value // by gap before an event of the bar, and port: least from the start
	back  [][]value // least to the end

	stops  finder          // states that the score as solved does not lead to
	rests  []value         // beside stops: the least from each to the end
	roads  map[fork][]road // to be tried in this order
	before map[junct]tally
	after  map[mark]tally
	ways   []onward // those being looked at: of a state, and on top those of one that it leads to
	kept   []played
}

// aside is the score as it was solved.
func (v *solver) aside(p *plan.Plan) *aside {
	c := &aside{v: v, p: p, least: int64(p.Cost), roads: map[fork][]road{}, before: map[junct]tally{}, after: map[mark]tally{}}
	c.plain = c
	c.stops.clear()
	return c
}

// bar is the score with the bar that begins with an event taken out of its figure.
func (plain *aside) bar(start int) *aside {
	v := plain.v
	c := v.aside(plain.p)
	c.plain, c.first, c.end, c.least = plain, start, start+int(v.like.length[start]), v.like.alone[start]
	n := c.end - c.first
	lists := make([][]value, 4*n)
	c.alpha, c.beta, c.out, c.back = lists[:n:n], lists[n:2*n:2*n], lists[2*n:3*n:3*n], lists[3*n:]
	for e := c.first; e < c.end; e++ {
		g := v.gaps[e].terrain
		out, alpha := v.nevers(g.ports), v.nevers(len(g.states))
		if e == 0 {
			out[0] = value{}
		} else {
			g.out(c.soFar(e-1), out)
			relax(g.stay, c.soFar(e-1), alpha)
		}
		relax(g.over, out, alpha)
		c.alpha[e-c.first], c.out[e-c.first] = alpha, out
	}
	for e := c.end - 1; e >= c.first; e-- {
		g := v.gaps[e+1].terrain
		beta, back := v.nevers(len(v.gaps[e].states)), v.gaps[e+1].beta
		if e+1 < c.end {
			back = v.nevers(g.ports)
			relaxBack(g.over, back, c.toGo(e+1))
			c.back[e+1-c.first] = back
		}
		g.back(beta, back)
		if stay, _ := c.allowed(e + 1); stay && e+1 < len(v.layers) {
			relaxBack(g.stay, beta, c.toGo(e+1))
		}
		c.beta[e-c.first] = beta
	}
	return c
}

// within reports whether an event is in the bar that is taken out of its figure.
func (c *aside) within(event int) bool { return c.first <= event && event < c.end }

// allowed is solver.allowed but for the bar.
//
//go:noinline
func (c *aside) allowed(gap int) (stay, over bool) {
	if c.within(gap) {
		return true, true
	}
	return c.v.allowed(gap)
}

// barred reports whether a figure settles another stroke at an event.
func (c *aside) barred(event int, kind int) bool {
	like := c.v.like
	return like != nil && like.strokes != nil && !c.within(event) && like.strokes[event] >= 0 && like.strokes[event] != int16(kind)
}

// soFar gives the least costs from the start to the states after an event, toGo
// those from them to the end.
//
//go:noinline
func (c *aside) soFar(event int) []value {
	if c.within(event) {
		return c.alpha[event-c.first]
	}
	return c.v.layers[event].alpha
}

//go:noinline
func (c *aside) toGo(event int) []value {
	if c.within(event) {
		return c.beta[event-c.first]
	}
	return c.v.layers[event].beta
}

// ports gives the least costs to the ports of a gap, beyond those from them.
func (c *aside) ports(gap int) []value {
	if c.within(gap) {
		return c.out[gap-c.first]
	}
	return c.v.gaps[gap].alpha
}

//go:noinline
func (c *aside) beyond(gap int) []value {
	if c.within(gap) && gap > c.first {
		return c.back[gap-c.first]
	}
	return c.v.gaps[gap].beta
}
