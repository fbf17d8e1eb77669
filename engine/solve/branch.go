package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/score"
)

// How often the search for figures fingered alike goes through a score: at most
// mostLooks times, in a long one as often as makes so many events; after fewLooks
// it first has tolls set. Tunes of two parts, each played twice, ask for two to
// five, eight different bars in any order for some thirty (measured).
const (
	fewLooks   = 12
	mostLooks  = 150
	mostEvents = 60000
)

// search is for the best plan in which all figures are fingered alike. It settles
// what the bars of a figure differ in one way and the other, the cheapest first.
type search struct {
	l     *lattice
	open  []node
	best  value
	fixed []fix // what the best plan so far settles; nil before there is one
	looks int
}

// node is a part of the search: so much is settled, and no plan in it is better
// than the bound.
type node struct {
	fixed []fix
	bound value
	depth int
}

// alike settles the figures of a lattice as well as it can be done, and gives the
// cost of that and the least that any other way could cost: the same if it is
// proved to be the best. It gives nil if there is no way, or none was found.
func (l *lattice) alike() (fixed []fix, best, bound value) {
	s := search{l: l, best: never, open: []node{{fixed: l.asked}}}
	limit := max(fewLooks, min(mostLooks, mostEvents/len(l.slot)))
	s.guess()
	s.until(fewLooks)
	if len(s.open) > 0 && s.fixed != nil && s.looks+rounds < limit {
		s.open = []node{{fixed: l.asked, bound: l.raise(s.best)}}
		s.looks += rounds
		s.guess()
	}
	s.until(limit)
	bound = s.best
	for _, n := range s.open {
		if n.bound.less(bound) {
			bound = n.bound
		}
	}
	return s.fixed, s.best, bound
}

func (s *search) until(looks int) {
	for len(s.open) > 0 && s.looks < looks {
		s.look(s.next())
	}
}

// guess settles one figure after the other as most of its bars would have it, and
// where there are many that differ, all the others at once.
func (s *search) guess() {
	fixed := slices.Clone(s.l.asked)
	for round := 1; ; round++ {
		s.looks++
		c := s.l.forward(fixed)
		if !c.less(s.best) {
			return
		}
		path := s.l.path(fixed, c)
		slot, _, same := s.l.differ(path)
		if same {
			s.best, s.fixed = c, s.l.settled(path)
			return
		}
		for _, f := range s.l.spans {
			if f.first <= slot && slot < f.end || round > fewLooks && f.first > slot {
				s.l.follow(fixed, path, f, s.l.usual(path, f))
			}
		}
	}
}

// next takes the node to look at: the deepest until there is a plan, then the one
// with the least bound.
func (s *search) next() node {
	at := 0
	for i, n := range s.open {
		first := s.open[at]
		less := n.bound.less(first.bound) || n.bound == first.bound && n.depth > first.depth
		if s.fixed == nil && n.depth != first.depth {
			less = n.depth > first.depth
		}
		if less {
			at = i
		}
	}
	n := s.open[at]
	s.open = slices.Delete(s.open, at, at+1)
	return n
}

// look works out a node: its best plan, and if figures differ in that, the nodes
// in which something more is settled.
func (s *search) look(n node) {
	if !n.bound.less(s.best) {
		return
	}
	s.looks++
	c := s.l.forward(n.fixed)
	if !c.less(s.best) {
		return
	}
	path := s.l.path(n.fixed, c)
	slot, boundary, same := s.l.differ(path)
	if same {
		s.best, s.fixed = c, s.l.settled(path)
		return
	}
	s.l.backward(n.fixed)
	q := s.l.hardest(n.fixed, path)
	if !c.less(q.least) { // nothing shows that the figures have to differ
		q, _ = s.l.ask(n.fixed, slot, boundary)
	}
	for k, bound := range q.bounds {
		if !bound.less(s.best) {
			continue
		}
		m := node{slices.Clone(n.fixed), bound, n.depth + 1}
		if q.boundary {
			m.fixed[q.slot].boundary = [...]score.Boundary{score.Set, score.Stay}[k]
		} else {
			m.fixed[q.slot].stroke = int16(k)
		}
		s.open = append(s.open, m)
	}
}

// question is what to settle next: the stroke of a slot, or whether the hand is
// set there. No plan that settles it one way is better than the bound of that
// way: what it costs at that one of the slot's events where it costs most.
type question struct {
	slot     int
	boundary bool
	bounds   []value
	least    value // of the bounds
}

// hardest finds the question whose every answer costs most, of questions alike the
// first: among those that a best plan answers in two ways, since what it answers
// in one way costs no more than it does.
func (l *lattice) hardest(fixed []fix, path []taken) question {
	best := question{least: value{cost: -1}}
	for s := range l.slots {
		for _, boundary := range [...]bool{true, false} {
			if !l.split(path, s, boundary) {
				continue
			}
			if q, ok := l.ask(fixed, s, boundary); ok && best.least.less(q.least) {
				best = q
			}
		}
	}
	return best
}

// ask puts a question, if it is still open.
func (l *lattice) ask(fixed []fix, s int, boundary bool) (q question, ok bool) {
	at := &l.slots[s]
	answers := len(at.strokes)
	if boundary {
		answers = 2
	}
	if boundary && (!at.inner || fixed[s].boundary != score.Open) || !boundary && fixed[s].stroke != anyStroke {
		return q, false
	}
	q = question{slot: s, boundary: boundary, bounds: make([]value, answers)}
	here := slices.Grow(l.here[:0], answers)[:answers]
	l.here = here
	for _, e := range at.events {
		if boundary {
			here[0], here[1] = l.placed(e)
		} else {
			l.through(e, here)
		}
		for k, c := range here {
			if q.bounds[k].less(c) {
				q.bounds[k] = c
			}
		}
	}
	q.least = slices.MinFunc(q.bounds, func(a, b value) int {
		return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.tie, b.tie))
	})
	return q, true
}
