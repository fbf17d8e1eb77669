package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
)

// step is one gap of the plan being walked: the state it comes to, and how the
// placing before it was left, if it was.
type step struct {
	state   int32
	bounded bool
	frame   hand.Frame // of the placing that ends here
	kept    uint8
	before  *step
	spent   value
}

// walk goes forward through the plans of least cost and takes, from the left,
// the smallest fingers: all that agree so far are followed at once. Of plans
// with the same fingers the first found is taken: rather the same placing,
// rather fewer kept.
func (v *solver) walk() []*step {
	best := v.best()
	front := []*step{{state: -1}}
	for j := range v.gaps {
		front = v.advance(j, front, best)
	}
	var path []*step
	for s := front[0]; s.before != nil; s = s.before {
		path = append(path, s)
	}
	for a, b := 0, len(path)-1; a < b; a, b = a+1, b-1 {
		path[a], path[b] = path[b], path[a]
	}
	return path
}

func (v *solver) advance(j int, front []*step, best value) []*step {
	var next []*step
	least := int64(-1)
	add := func(s step, rest value) {
		if s.spent.plus(rest) != best {
			return
		}
		code := int64(0)
		if s.state >= 0 {
			code = fingers(v.layers[j].states[s.state].stroke)
			for _, known := range next {
				if known.state == s.state && code == least {
					return
				}
			}
		}
		if least < 0 || code < least {
			least, next = code, nil
		}
		if code == least {
			kept := s
			next = append(next, &kept)
		}
	}
	g := &v.gaps[j]
	stay, over := v.allowed(j)
	for _, from := range front {
		for i := range g.stay {
			if e := &g.stay[i]; stay && e.from == from.state {
				add(step{state: e.to, before: from, spent: from.spent.plus(e.value)}, v.layers[j].beta[e.to])
			}
		}
		if j == 0 {
			v.cross(g, j, step{before: from, bounded: true}, 0, add)
			continue
		}
		for i := range g.leave {
			if l := &g.leave[i]; over && l.from == from.state && from.spent.plus(l.value).plus(g.beta[l.to]) == best {
				s := step{before: from, bounded: true, frame: l.frame, kept: l.kept, spent: from.spent.plus(l.value)}
				v.cross(g, j, s, l.to, add)
			}
		}
	}
	return next
}

func (v *solver) cross(g *edges, j int, s step, port int32, add func(step, value)) {
	for i := range g.over {
		e := &g.over[i]
		if e.from != port {
			continue
		}
		with := s
		with.state, with.spent = e.to, s.spent.plus(e.value)
		if j == len(v.layers) {
			with.state = -1
			add(with, value{})
		} else {
			add(with, v.layers[j].beta[e.to])
		}
	}
}

// back goes from a state after event e to the state before it on the best way
// from the start, -1 at the start.
func (v *solver) back(e int, state int32) (from int32, bounded bool) {
	g, want := &v.gaps[e], v.layers[e].alpha[state]
	stay, _ := v.allowed(e)
	for _, s := range g.stay {
		if stay && s.to == state && v.layers[e-1].alpha[s.from].plus(s.value) == want {
			return s.from, false
		}
	}
	for _, o := range g.over {
		if o.to == state && g.alpha[o.from].plus(o.value) == want {
			return v.out(e, o.from), true
		}
	}
	return -1, true
}

// out finds the state after event e-1 from which a port of gap e is best reached.
func (v *solver) out(e int, port int32) int32 {
	g := &v.gaps[e]
	for _, l := range g.leave {
		if l.to == port && v.layers[e-1].alpha[l.from].plus(l.value) == g.alpha[port] {
			return l.from
		}
	}
	return -1
}

// last is the state after the last event on the best way to the end.
func (v *solver) last(best value) int32 {
	e := len(v.layers)
	for _, o := range v.gaps[e].over {
		if v.gaps[e].alpha[o.from].plus(o.value) == best {
			return v.out(e, o.from)
		}
	}
	return -1
}

// ahead goes from a state after event e-1 to the one after event e on the best
// way to the end.
func (v *solver) ahead(e int, state int32) (to int32, bounded bool) {
	g, l, want := &v.gaps[e], &v.layers[e], v.layers[e-1].beta[state]
	stay, over := v.allowed(e)
	for _, s := range g.stay {
		if stay && s.from == state && l.beta[s.to].plus(s.value) == want {
			return s.to, false
		}
	}
	for _, out := range g.leave {
		if !over || out.from != state || g.beta[out.to].plus(out.value) != want {
			continue
		}
		for _, o := range g.over {
			if o.from == out.to && l.beta[o.to].plus(o.value) == g.beta[out.to] {
				return o.to, true
			}
		}
	}
	return -1, true
}

// cheapest gives the state that the best plan goes through, and what it costs.
func (l *layer) cheapest() (at int32, best value) {
	best = never
	for k := range l.states {
		if c := l.alpha[k].plus(l.beta[k]); c.less(best) {
			at, best = int32(k), c
		}
	}
	return at, best
}

// fingers writes a stroke's fingers as a number, the highest string first.
func fingers(stroke hand.Frame) int64 {
	code := int64(0)
	for f, t := range stroke {
		if t != hand.None {
			code = code*5 + int64(f) + 1
		}
	}
	return code
}

// build makes the plan of a walked path.
func (v *solver) build(path []*step) plan.Plan {
	v.path = path
	n := len(v.s.Events)
	p := plan.Plan{Dropped: v.dropped, Events: make([]plan.Event, 0, n), Gaps: make([]plan.Gap, n+1)}
	room := make([][]plan.Touch, n+1) // of gaps in which nothing may sound
	for j, s := range path {
		if s.bounded && j > 0 {
			v.close(&p, path[j-1], s)
		}
		if j == len(v.s.Events) {
			break
		}
		if s.bounded {
			p.Placings = append(p.Placings, plan.Placing{First: j})
		}
		st := v.layers[j].states[s.state]
		p.Events = append(p.Events, plan.Event{Stroke: st.stroke, Placing: len(p.Placings) - 1})
		p.Placings[len(p.Placings)-1].Last = j
	}
	for j := range v.s.Gaps {
		if p.Gaps[j].Ways = room[j : j+1 : j+1]; len(v.s.Gaps[j].Patterns) > 1 {
			p.Gaps[j].Ways = v.ways(&p, j)
		}
	}
	idle(&p)
	for k := 1; k < len(p.Placings); k++ {
		j := p.Placings[k].First
		if !v.s.Events[j].Forced {
			p.Placings[k].Move = v.r.Across(&rule.Bill{}, &rule.Crossing{From: p.Events[j-1].Stroke, To: p.Events[j].Stroke,
				Since: v.s.Events[j].Since, Written: true, Weak: v.s.Events[j].Weak, Held: p.Held(&v.s, j)})
		}
	}
	return p
}

// idle takes off fingers that wait for nothing: where waiting costs nothing, a
// plan with them is as good as one without.
func idle(p *plan.Plan) {
	for k := range p.Placings {
		pl := &p.Placings[k]
		var used [4]bool
		for j := pl.First; j <= pl.Last+1; j++ {
			from := plan.Left
			if j == pl.First {
				from = plan.Right
			}
			for _, way := range p.Gaps[j].Ways {
				for _, touch := range way {
					used[touch.Finger] = used[touch.Finger] || touch.From == from
				}
			}
		}
		for f := range pl.Frame {
			if (pl.Kept[f] || pl.Free[f]) && !used[f] {
				pl.Frame[f], pl.Kept[f], pl.Free[f] = hand.None, false, false
			}
		}
	}
}

// close completes the placing that ends with this step.
func (v *solver) close(p *plan.Plan, last, s *step) {
	pl := &p.Placings[len(p.Placings)-1]
	pl.Frame = s.frame
	core := v.layers[pl.Last].states[last.state].core
	for f, t := range s.frame {
		bit := uint8(1) << f
		pl.Kept[f] = s.kept&bit != 0
		pl.Free[f] = t != hand.None && (core|s.kept)&bit == 0
	}
}

// sides gives the views of gap j from the finished placings.
func (v *solver) sides(p *plan.Plan, o *opening) (left, right view, stay bool) {
	left, right = o.view(hand.Empty(), hand.Empty(), 0), o.view(hand.Empty(), hand.Empty(), 0)
	if o.j > 0 {
		left = o.side(p, o.j-1)
	}
	if o.j < len(p.Events) {
		right = o.side(p, o.j)
	}
	o.held = p.Held(&v.s, o.j)
	return left, right, o.j < len(p.Events) && !p.Bounded(o.j)
}

func (o *opening) side(p *plan.Plan, event int) view {
	pl := &p.Placings[p.Events[event].Placing]
	set := uint8(15)
	for f, free := range pl.Free {
		if free {
			set &^= 1 << f
		}
	}
	return o.view(p.Events[event].Stroke, pl.Frame, set)
}

// ways says how each pattern of a gap is played.
func (v *solver) ways(p *plan.Plan, j int) [][]plan.Touch {
	patterns := v.s.Gaps[j].Patterns
	o := v.open(j, patterns)
	left, right, stay := v.sides(p, o)
	ways := make([][]plan.Touch, len(patterns))
	for k := 1; k < len(patterns); k++ {
		o.least(&patterns[k], left, right, stay, &ways[k])
	}
	return ways
}
