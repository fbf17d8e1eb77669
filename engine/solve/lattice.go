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
	kind  [][]int16 // by event of a slot and stroke: which of the slot's strokes
	asked []fix     // what a pin or a wish in one bar settles for all alike
	alpha [][]value // by event and state: least from the start
	beta  [][]value // least to the end
	out   [][]value // by gap and port: least from the start
	back  [][]value // least to the end
	own   int       // alpha and out before this gap are the solver's
	ahead []fix     // what was settled when alpha was worked out; nil if it is to be worked out anew
	home  []fix     // the same of beta
	due   []value   // where homeward reckons
	here  []value   // where ask does
	least []int64   // where prices does
	tolls []toll    // by event; those of each slot come to nothing together; none before they are first set
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
	n := len(v.s.Events)
	l := &lattice{v: v, slot: make([]int32, n), kind: make([][]int16, n)}
	for i := range l.slot {
		l.slot[i] = -1
	}
	for _, f := range figures {
		l.spans = append(l.spans, span{len(l.slots), len(l.slots) + f.Length})
		for k := range f.Length {
			s := slot{inner: k > 0, events: make([]int, 0, len(f.At))}
			for _, at := range f.At {
				s.events = append(s.events, at+k)
				l.slot[at+k] = int32(len(l.slots))
				l.kind[at+k] = s.kinds(v.gaps[at+k].terrain, v.takes[at+k].list)
			}
			l.slots = append(l.slots, s)
		}
	}
	lists := make([][]value, 4*n+2)
	l.alpha, l.beta, l.out, l.back = lists[:n], lists[n:2*n], lists[2*n:3*n+1], lists[3*n+1:]
	for j := range v.gaps {
		l.out[j], l.back[j] = v.gaps[j].alpha, v.values.take(v.gaps[j].ports)
		if j < n {
			l.alpha[j], l.beta[j] = v.layers[j].alpha, v.values.take(len(v.layers[j].states))
		}
	}
	l.ahead, l.own = l.free(), n+1 // as the solver went
	l.asked = l.free()
	for i := range l.slots {
		l.asked[i] = l.pinned(&l.slots[i])
	}
	return l
}

// pinned is what can be settled of a slot as only one stroke can be taken each time,
// or the hand must be set there once, or must not.
//
//go:noinline
func (l *lattice) pinned(s *slot) fix {
	f, choices := fix{stroke: anyStroke}, 0
	for k := range s.strokes {
		if !slices.ContainsFunc(s.events, func(e int) bool { return !slices.Contains(l.kind[e], int16(k)) }) {
			f.stroke = int16(k)
			choices++
		}
	}
	if choices != 1 {
		f.stroke = anyStroke
	}
	for _, at := range s.events {
		if e := &l.v.s.Events[at]; s.inner && !e.Forced && e.Boundary != score.Open {
			f.boundary = e.Boundary
		}
	}
	return f
}

// kinds tells which of a slot's strokes those of an event are.
func (s *slot) kinds(t *terrain, strokes []hand.Frame) []int16 {
	kinds := make([]int16, len(strokes))
	for b := range kinds {
		kinds[b] = anyStroke
	}
	left := len(strokes)
	for _, b := range t.kinds {
		if kinds[b] != anyStroke {
			continue
		}
		at := slices.Index(s.strokes, strokes[b])
		if at < 0 {
			at = len(s.strokes)
			s.strokes = append(s.strokes, strokes[b])
		}
		kinds[b] = int16(at)
		if left--; left == 0 {
			break
		}
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
	kind := l.kind[e]
	for k, b := range l.v.gaps[e].kinds {
		if kind[b] != fixed[s].stroke {
			costs[k] = never
		}
	}
}

// forward gives the least cost of a plan with this much settled, and the least to
// every state on the way.
func (l *lattice) forward(fixed []fix) value {
	first := l.differs(fixed, l.ahead)
	for j := first; j < len(l.out); j++ {
		if j < l.own {
			l.out[j] = l.v.values.take(len(l.out[j]))
			if j < len(l.alpha) {
				l.alpha[j] = l.v.values.take(len(l.alpha[j]))
			}
		}
		l.onward(fixed, j)
	}
	l.own = min(l.own, first)
	l.ahead = append(l.ahead[:0], fixed...)
	return l.v.gaps[len(l.alpha)].end(l.out[len(l.alpha)])
}

// differs gives the first event before which or in which something else is settled
// than before.
func (l *lattice) differs(fixed, before []fix) int {
	if before == nil {
		return 0
	}
	for e, s := range l.slot {
		if s >= 0 && fixed[s] != before[s] {
			return e
		}
	}
	return len(l.out)
}

// onward goes through gap j.
func (l *lattice) onward(fixed []fix, j int) {
	g := l.v.gaps[j].terrain
	stay, over := l.ways(fixed, j)
	out := l.out[j]
	fill(out)
	switch {
	case over && j == 0:
		out[0] = value{}
	case over:
		g.out(l.alpha[j-1], out)
	}
	if j == len(l.alpha) {
		return
	}
	alpha := l.alpha[j]
	fill(alpha)
	if stay && j > 0 {
		relax(g.stay, l.alpha[j-1], alpha)
	}
	if l.tolls != nil && l.tolls[j].stay != 0 {
		add(alpha, l.tolls[j].stay)
	}
	if over {
		relax(g.over, out, alpha)
	}
	l.pay(j, alpha)
	l.bar(fixed, j, alpha)
}

// add adds to costs what can be reached.
func add(costs []value, more int64) {
	for k := range costs {
		if costs[k].cost < most {
			costs[k].cost += more
		}
	}
}

// pay adds the tolls of an event.
func (l *lattice) pay(e int, costs []value) {
	if l.tolls == nil || len(l.tolls[e].strokes) < 2 {
		return
	}
	kind, strokes := l.kind[e], l.tolls[e].strokes
	for k, b := range l.v.gaps[e].kinds {
		if costs[k].cost < most {
			costs[k].cost += strokes[kind[b]]
		}
	}
}

// backward gives the least cost from every state to the end.
func (l *lattice) backward(fixed []fix) {
	j := len(l.back) - 1
	if l.home != nil {
		for j >= 0 && !(j > 0 && l.slot[j-1] >= 0 && fixed[l.slot[j-1]] != l.home[l.slot[j-1]]) {
			j-- // after event j-1 all is settled as before
		}
	}
	for ; j >= 0; j-- {
		l.homeward(fixed, fixed, j)
	}
	l.home = append(l.home[:0], fixed...)
}

// homeward goes back through gap j: from an event with one thing settled to the
// one before with another.
func (l *lattice) homeward(from, to []fix, j int) {
	g := l.v.gaps[j].terrain
	stay, over := l.ways(from, j)
	back, due := l.back[j], theEnd
	fill(back)
	if j < len(l.beta) {
		due = l.beta[j]
	}
	if l.tolls != nil && j < len(l.beta) {
		l.due = append(l.due[:0], due...)
		due = l.due
		l.pay(j, due)
	}
	if over {
		relaxBack(g.over, back, due)
	}
	if j == 0 {
		return
	}
	beta := l.beta[j-1]
	fill(beta)
	if stay {
		relaxBack(g.stay, beta, due)
	}
	if l.tolls != nil && j < len(l.tolls) && l.tolls[j].stay != 0 {
		add(beta, l.tolls[j].stay)
	}
	if over {
		g.back(beta, back)
	}
	l.bar(to, j-1, beta)
}

// theEnd is what is to come after a tune.
var theEnd = []value{{}}

//go:noinline
func fill(costs []value) {
	for len(costs) > 0 {
		costs = costs[copy(costs, nevers[:]):]
	}
}

// nevers is what can be reached nowhere.
var nevers = func() (list [64]value) {
	for i := range list {
		list[i] = never
	}
	return list
}()
