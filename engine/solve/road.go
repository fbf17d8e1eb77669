package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// This file reads off a lattice what forward and backward have found.

// through gives the least cost of a plan in which each stroke of its slot is taken
// at an event.
func (l *lattice) through(event int, costs []value) {
	fill(costs)
	kind := l.kind[event]
	for k, b := range l.v.gaps[event].kinds {
		lower(costs, int32(kind[b]), l.alpha[event][k].plus(l.beta[event][k]))
	}
}

// placed gives the least cost of a plan in which the hand is set before an event,
// and of one in which it stays.
func (l *lattice) placed(event int) (set, stay value) {
	set, stay = never, never
	for i, c := range l.out[event] {
		if c = c.plus(l.back[event][i]); c.less(set) {
			set = c
		}
	}
	for _, e := range l.v.gaps[event].stay {
		c := l.alpha[event-1][e.from].plus(e.value).plus(l.beta[event][e.to]).plus(value{cost: l.stayToll(event) + l.toll(event, e.to)})
		if c.less(stay) {
			stay = c
		}
	}
	return set, stay
}

// toll is what is added for a state after an event.
func (l *lattice) toll(event int, state int32) int64 {
	if l.tolls == nil || l.tolls[event].strokes == nil {
		return 0
	}
	return l.tolls[event].strokes[l.kind[event][l.v.gaps[event].kinds[state]]]
}

// stayToll is what is added where the hand stays before an event.
func (l *lattice) stayToll(event int) int64 {
	if l.tolls == nil {
		return 0
	}
	return l.tolls[event].stay
}

// taken is how a plan plays an event.
type taken struct {
	stroke  hand.Frame
	bounded bool
}

// path goes back along a plan of least cost.
func (l *lattice) path(fixed []fix, best value) []taken {
	all := make([]taken, len(l.alpha))
	end := len(l.alpha)
	state := int32(-1)
	for _, e := range l.v.gaps[end].over {
		if l.out[end][e.from].plus(e.value) == best {
			state = l.left(end, e.from)
			break
		}
	}
	for e := end - 1; e >= 0; e-- {
		all[e].stroke = l.v.layers[e].states[state].stroke
		state, all[e].bounded = l.before(fixed, e, state)
	}
	return all
}

// before gives the state that one after event e is best reached from.
func (l *lattice) before(fixed []fix, e int, state int32) (from int32, bounded bool) {
	g, want, toll := &l.v.gaps[e], l.alpha[e][state], value{cost: l.toll(e, state)}
	stay, _ := l.ways(fixed, e)
	for i := range g.stay {
		if s := &g.stay[i]; stay && s.to == state && l.alpha[e-1][s.from].plus(s.value).plus(value{cost: l.stayToll(e)}).plus(toll) == want {
			return s.from, false
		}
	}
	for i := range g.over {
		o := &g.over[i]
		if o.to == state && l.out[e][o.from].plus(o.value).plus(toll) == want {
			return l.left(e, o.from), true
		}
	}
	return -1, true
}

// left gives the state that a port of gap j is best reached from.
func (l *lattice) left(j int, port int32) int32 {
	for i := range l.v.gaps[j].leave {
		e := &l.v.gaps[j].leave[i]
		if e.to == port && l.alpha[j-1][e.from].plus(e.value) == l.out[j][port] {
			return e.from
		}
	}
	return -1
}

// differ finds the first place on a path where a figure is not played alike: its
// slot, and whether it is the placing that differs; same if there is none.
func (l *lattice) differ(path []taken) (slot int, boundary, same bool) {
	for s := range l.slots {
		at := &l.slots[s]
		first := path[at.events[0]]
		for _, e := range at.events {
			if at.inner && path[e].bounded != first.bounded {
				return s, true, false
			}
			if path[e].stroke != first.stroke {
				return s, false, false
			}
		}
	}
	return 0, false, true
}

// split reports whether a path answers a question about a slot in two ways.
func (l *lattice) split(path []taken, slot int, boundary bool) bool {
	events := l.slots[slot].events
	for _, e := range events[1:] {
		if x, y := &path[events[0]], &path[e]; boundary && x.bounded != y.bounded || !boundary && x.stroke != y.stroke {
			return true
		}
	}
	return false
}

// settled is what a path settles on which all figures are played alike.
func (l *lattice) settled(path []taken) []fix {
	fixed := l.free()
	for _, f := range l.spans {
		l.follow(fixed, path, f, 0)
	}
	return fixed
}

// follow settles a figure as a path plays one of its bars.
func (l *lattice) follow(fixed []fix, path []taken, f span, bar int) {
	for s := f.first; s < f.end; s++ {
		at := path[l.slots[s].events[bar]]
		fixed[s] = fix{stroke: l.slots[s].which(at.stroke)}
		switch {
		case l.slots[s].inner && at.bounded:
			fixed[s].boundary = score.Set
		case l.slots[s].inner:
			fixed[s].boundary = score.Stay
		}
	}
}

// which gives the number of a stroke of the slot.
func (s *slot) which(stroke hand.Frame) int16 { return int16(slices.Index(s.strokes, stroke)) }

// usual gives the bar of a figure that a path plays as it does most of them, the
// first of such.
func (l *lattice) usual(path []taken, f span) int {
	bars := len(l.slots[f.first].events)
	most, which := 0, 0
	for i := range bars {
		votes := 0
		for k := range bars {
			if l.sameBar(path, f, i, k) {
				votes++
			}
		}
		if votes > most {
			most, which = votes, i
		}
	}
	return which
}

// sameBar reports whether a path plays two bars of a figure alike.
func (l *lattice) sameBar(path []taken, f span, i, k int) bool {
	for s := f.first; s < f.end; s++ {
		at := &l.slots[s]
		x, y := path[at.events[i]], path[at.events[k]]
		if x.stroke != y.stroke || at.inner && x.bounded != y.bounded {
			return false
		}
	}
	return true
}
