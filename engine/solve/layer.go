package solve

import "readyhand/engine/score"

// layer holds the states after one event, and the least cost from the start to
// each and from each to the end.
type layer struct {
	states []state
	alpha  []value
	beta   []value
}

// value is a cost in 256ths of a thousandth, and what decides between equals.
type value struct{ cost, tie int64 }

var never = value{cost: most, tie: 0}

func (a value) plus(b value) value {
	if a.cost >= most || b.cost >= most {
		return never
	}
	return value{a.cost + b.cost, a.tie + b.tie}
}

func (a value) less(b value) bool {
	return a.cost < b.cost || a.cost == b.cost && a.tie < b.tie
}

// edges are the ways through one gap, and the least cost to each port and from it.
type edges struct {
	*terrain
	alpha []value
	beta  []value
}

// connect works out gap j and the states after it, and reports whether any can
// be reached.
func (v *solver) connect(j int) bool {
	g := &v.gaps[j]
	g.terrain = v.terrain(j)
	if j < len(v.layers) {
		v.layers[j].states = g.states
	}
	return v.reach(j)
}

// allowed reports whether gap j may be gone through in the same placing, and over
// a boundary, as far as a figure settles it.
//
//go:noinline
func (v *solver) allowed(j int) (stay, over bool) {
	if v.like == nil || j == len(v.layers) || v.like.wishes == nil {
		return true, true
	}
	return v.like.wishes[j] != score.Set, v.like.wishes[j] != score.Stay
}

// bar takes away the states after an event that have played another stroke than a
// figure settles.
func (v *solver) bar(event int, costs []value) {
	if v.like == nil || v.like.strokes == nil || v.like.strokes[event] < 0 {
		return
	}
	for k, kind := range v.gaps[event].kinds {
		if int16(kind) != v.like.strokes[event] {
			costs[k] = never
		}
	}
}

// reach fills in the least cost to every state after gap j.
func (v *solver) reach(j int) bool {
	g := &v.gaps[j]
	stay, over := v.allowed(j)
	g.alpha = v.nevers(g.ports)
	switch {
	case j == 0:
		g.alpha[0] = value{}
	case over:
		g.out(v.layers[j-1].alpha, g.alpha)
	}
	if j == len(v.layers) {
		return g.end(g.alpha) != never
	}
	l := &v.layers[j]
	l.alpha = v.nevers(len(l.states))
	if stay {
		relax(g.stay, v.costs(j), l.alpha)
	}
	if over {
		relax(g.over, g.alpha, l.alpha)
	}
	v.bar(j, l.alpha)
	for _, a := range l.alpha {
		if a.cost < most {
			return true
		}
	}
	return false
}

// costs gives the costs before gap j, nil at the start.
func (v *solver) costs(j int) []value {
	if j == 0 {
		return nil
	}
	return v.layers[j-1].alpha
}

// out carries costs from states to the ports they leave by.
func (g *terrain) out(from, to []value) {
	for i := range g.leave {
		e := &g.leave[i]
		if c := &from[e.from]; c.cost < most {
			lower(to, e.to, value{c.cost + e.value.cost, c.tie + e.value.tie})
		}
	}
}

// back is out from the end.
func (g *terrain) back(from, to []value) {
	for i := range g.leave {
		e := &g.leave[i]
		if c := &to[e.to]; c.cost < most {
			lower(from, e.from, value{c.cost + e.value.cost, c.tie + e.value.tie})
		}
	}
}

// relax carries costs forward over edges, relaxBack backward.
//
//go:noinline
func relax(list []edge, from, to []value) {
	for i := range list {
		e := &list[i]
		if c := &from[e.from]; c.cost < most {
			lower(to, e.to, value{c.cost + e.value.cost, c.tie + e.value.tie})
		}
	}
}

//go:noinline
func relaxBack(list []edge, from, to []value) {
	for i := range list {
		e := &list[i]
		if c := &to[e.to]; c.cost < most {
			lower(from, e.from, value{c.cost + e.value.cost, c.tie + e.value.tie})
		}
	}
}

func lower(list []value, at int32, c value) {
	if old := &list[at]; c.cost < old.cost || c.cost == old.cost && c.tie < old.tie {
		*old = c
	}
}

// end is the least cost of a whole plan, of the last gap, whose ports cost so much.
func (g *terrain) end(ports []value) value {
	best := never
	for i := range g.over {
		e := &g.over[i]
		if c := ports[e.from].plus(e.value); c.less(best) {
			best = c
		}
	}
	return best
}

// best is the least cost of a whole plan.
func (v *solver) best() value {
	g := &v.gaps[len(v.gaps)-1]
	if g.terrain == nil {
		return never
	}
	return g.end(g.alpha)
}

// backward fills in the least cost from every state to the end.
func (v *solver) backward() {
	rest := theEnd
	for j := len(v.gaps) - 1; j >= 0; j-- {
		g := &v.gaps[j]
		stay, over := v.allowed(j)
		g.beta = v.nevers(g.ports)
		if over {
			relaxBack(g.over, g.beta, rest)
		}
		if j == 0 {
			continue
		}
		l := &v.layers[j-1]
		l.beta = v.nevers(len(l.states))
		g.back(l.beta, g.beta)
		if stay {
			relaxBack(g.stay, l.beta, rest)
		}
		v.bar(j-1, l.beta)
		rest = l.beta
	}
}
