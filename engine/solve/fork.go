package solve

import (
	"cmp"

	"readyhand/engine/hand"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// road leads on from a state before a gap, and over it: no plan by it costs less
// than its floor.
type road struct {
	from  int32 // -1 at the start
	floor int64
	turns []turn
}

// turn is the stroke a road goes on with: in the same placing, or over a boundary.
type turn struct {
	far   int16
	hold  int16 // the finger that stays over the boundary, by number; -1 in the same placing
	floor int64 // of a plan by it
	due   int64 // what the state it leads to costs at least, from the placing on to the end
}

// fork is a gap where the silence between ornaments has some weight.
type fork struct {
	gap    int
	weight int64
}

// fork gives the roads over gap j, those with the lowest floor first: what a plan
// costs by them without any ornament, but that the gap's own charge counts only as
// much as its silence weighs. A finger that waits lowers no charge, so that no plan
// with an ornament costs less.
func (c *aside) fork(o *opening, j int) []road {
	key := fork{j, o.v.s.Gaps[o.j].Patterns[0].Weight}
	if known, ok := c.roads[key]; ok {
		return known
	}
	stay, over := c.allowed(j)
	f := forking{aside: c, o: o, j: j, stay: stay && c.v.mayStay(j), over: over && c.v.mayPlace(j)}
	f.enter()
	if j == 0 {
		f.from(-1, value{})
	} else {
		for k, cost := range c.soFar(j - 1) {
			if cost.cost < most && !o.left.dead[k] {
				f.from(int32(k), cost)
			}
		}
	}
	source.Order(f.roads, func(a, b road) int { return cmp.Compare(a.floor, b.floor) })
	c.roads[key] = f.roads
	return f.roads
}

type forking struct {
	*aside
	o          *opening
	j          int
	stay, over bool
	due        []int64 // by hold and stroke
	roads      []road
	room       []turn
}

// enter works out what the placings that begin here cost at least.
func (f *forking) enter() {
	f.due = make([]int64, len(f.o.holds)*len(f.o.far))
	if f.j == len(f.v.s.Events) {
		return
	}
	for n, h := range f.o.holds {
		for b := range f.o.far {
			due := &f.due[n*len(f.o.far)+b]
			*due = most
			if next, ok := f.v.beginning(f.j, h, b); ok && f.over {
				if rest := f.rest(f.j, next.state, b); rest.cost < most {
					*due = next.sum*score.Whole + rest.cost
				}
			}
		}
	}
}

// from adds the roads from a state that costs so much.
func (f *forking) from(k int32, soFar value) {
	r := road{from: k, floor: most}
	first := len(f.room)
	add := func(t turn) {
		if t.floor < most {
			f.room = append(f.room, t)
			r.floor = min(r.floor, t.floor)
		}
	}
	st, kind := state{frame: hand.Empty()}, 0
	if k >= 0 {
		st, kind = f.o.left.states[k], int(f.o.left.kinds[k])
	}
	if f.stay && !f.v.takes[f.j-1].part[kind] {
		for b := range f.o.far {
			if next, ok := f.v.play(st, &f.v.s.Events[f.j], f.v.takes[f.j], b); ok {
				if rest := f.rest(f.j, next.state, b); rest.cost < most {
					due := next.sum*score.Whole + rest.cost
					add(turn{int16(b), -1, soFar.cost + f.o.onward(kind, b).cost + due, due})
				}
			}
		}
	}
	if f.over && st.owed == 0 {
		for n, h := range f.o.holds {
			if i := h.finger - 1; i >= 0 && (st.frame[i] != h.string || st.core&(1<<i) == 0) {
				continue
			}
			for b := range f.o.far {
				if due := f.due[n*len(f.o.far)+b]; due < most {
					add(turn{int16(b), int16(n), soFar.cost + f.o.hush(kind, b, n > 0).cost + due, due})
				}
			}
		}
	}
	if r.turns = f.room[first:len(f.room):len(f.room)]; len(r.turns) > 0 {
		f.roads = append(f.roads, r)
	}
}
