package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// lattice goes through the states of a solved score again and again, with more
// and more of its figures settled. It only adds up what the gaps are known to
// cost, so that once is a small part of solving.
type lattice struct {
	v     *solver
	slots []slot
	spans []span    // of the slots of each figure
	slot  []int32   // by event: its slot, -1 outside figures
	kind  [][]int16 // by event of a slot and state: which of the slot's strokes
	alpha [][]value // by event and state: least from the start
	beta  [][]value // least to the end
	out   [][]value // by gap and port: least from the start
	back  [][]value // least to the end
	due   []value   // where homeward reckons
	tolls []toll    // by event; those of each slot come to nothing together
}

// span is slots from the first to before the end.
type span struct{ first, end int }

// slot is one event of a figure, each time it is played.
type slot struct {
	events  []int
	strokes []hand.Frame // those it may be played with, as they are met
	inner   bool         // not the first of its bar: the figure says whether the hand is set there
}

// fix is what is settled of a slot: which of its strokes, or anyStroke, and
// whether the hand is set there.
type fix struct {
	stroke   int16
	boundary score.Boundary
}

const anyStroke = int16(-1)

func (v *solver) lattice(figures []score.Figure) *lattice {
	l := &lattice{v: v, slot: make([]int32, len(v.s.Events)), kind: make([][]int16, len(v.s.Events))}
	for i := range l.slot {
		l.slot[i] = -1
	}
	for _, f := range figures {
		l.spans = append(l.spans, span{len(l.slots), len(l.slots) + f.Length})
		for k := range f.Length {
			s := slot{inner: k > 0}
			for _, at := range f.At {
				s.events = append(s.events, at+k)
				l.slot[at+k] = int32(len(l.slots))
				l.kind[at+k] = s.kinds(v.layers[at+k].states)
			}
			l.slots = append(l.slots, s)
		}
	}
	l.tolls = make([]toll, len(v.s.Events))
	for _, s := range l.slots {
		for _, e := range s.events {
			l.tolls[e].strokes = make([]int64, len(s.strokes))
		}
	}
	for e := range v.layers {
		l.alpha = append(l.alpha, make([]value, len(v.layers[e].states)))
		l.beta = append(l.beta, make([]value, len(v.layers[e].states)))
	}
	for j := range v.gaps {
		l.out = append(l.out, make([]value, len(v.gaps[j].ports)))
		l.back = append(l.back, make([]value, len(v.gaps[j].ports)))
	}
	return l
}

// kinds tells which of a slot's strokes each state has just played.
func (s *slot) kinds(states []state) []int16 {
	kinds := make([]int16, len(states))
	for k := range states {
		at := slices.Index(s.strokes, states[k].stroke)
		if at < 0 {
			at = len(s.strokes)
			s.strokes = append(s.strokes, states[k].stroke)
		}
		kinds[k] = int16(at)
	}
	return kinds
}

// free settles nothing.
func (l *lattice) free() []fix {
	fixed := make([]fix, len(l.slots))
	for s := range fixed {
		fixed[s].stroke = anyStroke
	}
	return fixed
}

// ways reports how gap j may be gone through: in the same placing, over a boundary.
func (l *lattice) ways(fixed []fix, j int) (stay, over bool) {
	if j == len(l.slot) || l.slot[j] < 0 {
		return true, true
	}
	b := fixed[l.slot[j]].boundary
	return b != score.Set, b != score.Stay
}

// bar takes away the states after event e that have played another stroke than
// is settled.
func (l *lattice) bar(fixed []fix, e int, costs []value) {
	s := l.slot[e]
	if s < 0 || fixed[s].stroke == anyStroke {
		return
	}
	for k, kind := range l.kind[e] {
		if kind != fixed[s].stroke {
			costs[k] = never
		}
	}
}

// forward gives the least cost of a plan with this much settled, and the least to
// every state on the way.
func (l *lattice) forward(fixed []fix) value {
	for j := range l.v.gaps {
		l.onward(fixed, j)
	}
	best, end := never, len(l.v.gaps)-1
	for _, e := range l.v.gaps[end].over {
		if c := l.out[end][e.from].plus(e.value); c.less(best) {
			best = c
		}
	}
	return best
}

// onward goes through gap j.
func (l *lattice) onward(fixed []fix, j int) {
	g := &l.v.gaps[j]
	stay, over := l.ways(fixed, j)
	out := l.out[j]
	fill(out)
	switch {
	case over && j == 0:
		out[0] = value{}
	case over:
		for i := range g.leave {
			e := &g.leave[i]
			lower(out, e.to, l.alpha[j-1][e.from].plus(e.value))
		}
	}
	if j == len(l.alpha) {
		return
	}
	alpha := l.alpha[j]
	fill(alpha)
	if stay {
		for i := range g.stay {
			e := &g.stay[i]
			lower(alpha, e.to, l.alpha[j-1][e.from].plus(e.value).plus(value{cost: l.tolls[j].stay}))
		}
	}
	if over {
		for i := range g.over {
			e := &g.over[i]
			to := &g.entries[e.to]
			lower(alpha, to.state, out[e.from].plus(e.value).plus(to.value))
		}
	}
	l.pay(j, alpha)
	l.bar(fixed, j, alpha)
}

// pay adds the tolls of an event.
func (l *lattice) pay(e int, costs []value) {
	if len(l.tolls[e].strokes) > 1 {
		for k, kind := range l.kind[e] {
			costs[k] = costs[k].plus(value{cost: l.tolls[e].strokes[kind]})
		}
	}
}

// backward gives the least cost from every state to the end.
func (l *lattice) backward(fixed []fix) {
	for j := len(l.v.gaps) - 1; j >= 0; j-- {
		l.homeward(fixed, fixed, j)
	}
}

// homeward goes back through gap j: from an event with one thing settled to the
// one before with another.
func (l *lattice) homeward(from, to []fix, j int) {
	g := &l.v.gaps[j]
	stay, over := l.ways(from, j)
	back := l.back[j]
	fill(back)
	var due []value
	var toll value
	if j < len(l.beta) {
		due = append(l.due[:0], l.beta[j]...)
		l.pay(j, due)
		l.due, toll.cost = due, l.tolls[j].stay
	}
	if over {
		for i := range g.over {
			e := &g.over[i]
			to, rest := &g.entries[e.to], value{}
			if to.state >= 0 {
				rest = due[to.state]
			}
			lower(back, e.from, rest.plus(e.value).plus(to.value))
		}
	}
	if j == 0 {
		return
	}
	beta := l.beta[j-1]
	fill(beta)
	if over {
		for i := range g.leave {
			e := &g.leave[i]
			lower(beta, e.from, back[e.to].plus(e.value))
		}
	}
	if stay {
		for i := range g.stay {
			e := &g.stay[i]
			lower(beta, e.from, due[e.to].plus(e.value).plus(toll))
		}
	}
	l.bar(to, j-1, beta)
}

func fill(costs []value) {
	for i := range costs {
		costs[i] = never
	}
}
