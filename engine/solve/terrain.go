package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// terrain is what lies between the states before a gap and those after it. In the
// same placing: stay, from state to state. Over a boundary: out of a state into a
// port (what the other side can ask of the placing that ends), over to a state
// that begins a placing. A finger that stays on its string makes ports and entries
// of its own: only those that have the same finger on the same string meet.
type terrain struct {
	stay   []edge
	leave  []leaving
	ports  int
	over   []edge // from port to state; 0 at the end of the tune
	states []state
	kinds  []uint8 // beside states: which of the event's strokes each has just played
	dead   []bool  // beside states: nothing leads there
	id     int32   // the same for the same states

	holds  []hold  // after one that stands for none: the fingers that may stay over the boundary
	portAt []int32 // by view from before the gap, which is a stroke where nothing may sound, and hold: the port, -1 if there is none
	where  *finder // the states, once they have been looked for
	views  *sights // where something may sound, once they have been asked for
}

type edge struct {
	from, to int32
	value    value
}

// leaving is a state on its way out of its placing: what the placing holds in
// the end, and which of its fingers are kept.
type leaving struct {
	edge
	frame hand.Frame
	kept  uint8
}

// port is what the other side of a boundary can ask of the placing that ends: its
// view, and the finger that stays, both by number.
type port struct{ view, stays int }

// entry is a state that begins a placing.
type entry struct {
	state int32
	cost  int64
	view  int
}

// hold is a finger, from 1, that stays on its string over a boundary; finger 0
// stands for none.
type hold struct{ finger, string int8 }

// survey works out the terrain of gap j.
func (v *solver) survey(j int) *terrain {
	var left *terrain
	if j > 0 {
		left = v.gaps[j-1].terrain
	}
	return v.keep(v.explore(j, left))
}

// explore finds the ways through gap j from the states of a terrain before it, and
// gives the number of ports; what it finds is at the desk.
func (v *solver) explore(j int, left *terrain) (ports int) {
	o := v.open(j, v.s.Gaps[j].Patterns)
	o.beside()
	o.left = left
	d := v.desk
	d.found.clear()
	d.states, d.kinds = d.states[:0], d.kinds[:0]
	d.stay, d.leave, d.over = d.stay[:0], d.leave[:0], d.over[:0]
	if v.mayStay(j) {
		o.stays()
	}
	if !v.mayPlace(j) {
		o.holds, o.portAt = o.holds[:1], o.portAt[:0]
		return 0
	}
	return o.crosses()
}

// mayStay reports whether a placing may go on over gap j, mayPlace whether the hand
// may be placed in it, as far as the score says.
func (v *solver) mayStay(j int) bool {
	return 0 < j && j < len(v.s.Events) && !v.s.Events[j].Forced && v.s.Events[j].Boundary != score.Set
}

func (v *solver) mayPlace(j int) bool {
	return j == 0 || j == len(v.s.Events) || v.s.Events[j].Forced || v.s.Events[j].Boundary != score.Stay
}

// find gives the place of a state among those after the gap, new if it was not
// there.
func (o *opening) find(st *state, kind int) int32 {
	at, added := o.found.find(st.mark())
	if added {
		o.states, o.kinds = append(o.states, *st), append(o.kinds, uint8(kind))
	}
	return int32(at)
}

// stays adds the edges on which the placing goes on.
func (o *opening) stays() {
	v, left := o.v, o.left
	e, strokes, before := &v.s.Events[o.j], v.takes[o.j], v.takes[o.j-1]
	for k := range left.states {
		kind := int(left.kinds[k])
		if left.dead[k] || before.part[kind] {
			continue
		}
		for b := range strokes.list {
			next, ok := v.play(left.states[k], e, strokes, b)
			if !ok {
				continue
			}
			o.list = o.keeping(o.list[:0], next)
			for i := range o.list {
				kept := &o.list[i]
				c := o.weigh(o.look(&o.lefts, before.list[kind], kind, kept.frame, kept.set()), b)
				if c.cost < most {
					c.cost += kept.sum * score.Whole
					o.stay = append(o.stay, edge{int32(k), o.find(&kept.state, b), c})
				}
			}
		}
	}
}

// crosses adds the ways over a boundary, into the tune and out of it, and gives the
// number of ports.
func (o *opening) crosses() int {
	o.holds = o.v.holds(o.holds[:1], o.j)
	o.leaves()
	o.enters()
	for a, port := range o.ports {
		with := o.with[port.stays]
		for b := with.first; b < with.end; b++ {
			entry := &o.entries[b]
			if c := o.across(port.view, entry.view, port.stays > 0); c.cost < most {
				c.cost += entry.cost
				o.over = append(o.over, edge{int32(a), entry.state, c})
			}
		}
	}
	return len(o.ports)
}

// leaves adds the ports and the ways to them.
func (o *opening) leaves() {
	o.ports = o.ports[:0]
	if o.j == 0 {
		o.port(o.look(&o.lefts, hand.Empty(), 0, hand.Empty(), 0), 0)
		return
	}
	left, before := o.left, o.v.takes[o.j-1]
	for k := range left.states {
		st := &left.states[k]
		if left.dead[k] || st.owed != 0 {
			continue
		}
		kind := int(left.kinds[k])
		o.list = append(o.list[:0], played{state: *st})
		if o.behind {
			o.list = o.keeping(o.list[:0], o.list[0])
		}
		for i := range o.list {
			kept := &o.list[i]
			view := o.look(&o.lefts, before.list[kind], kind, kept.frame, kept.core|kept.kept)
			o.leaving(k, kept, o.port(view, 0))
			for n := 1; n < len(o.holds); n++ {
				h := o.holds[n]
				if f := h.finger - 1; kept.frame[f] == h.string && kept.core&(1<<f) != 0 {
					o.leaving(k, kept, o.port(view, n))
				}
			}
		}
	}
}

//go:noinline
func (o *opening) leaving(from int, kept *played, port int32) {
	o.leave = append(o.leave, leaving{edge{int32(from), port, value{cost: kept.sum * score.Whole}}, kept.frame, kept.kept})
}

// port gives the number of a port, new if there was none like it.
//
//go:noinline
func (o *opening) port(view, stays int) int32 {
	at := view*len(o.holds) + stays
	for len(o.portAt) <= at {
		o.portAt = append(o.portAt, -1)
	}
	if o.portAt[at] < 0 {
		o.portAt[at] = int32(len(o.ports))
		o.ports = append(o.ports, port{view, stays})
	}
	return o.portAt[at]
}

// enters adds the entries, those of each hold together.
func (o *opening) enters() {
	o.entries = o.entries[:0]
	o.with = append(o.with[:0], make([]span, len(o.holds))...)
	if o.j == len(o.v.s.Events) {
		o.entries = append(o.entries, entry{0, 0, o.look(&o.rights, hand.Empty(), 0, hand.Empty(), 0)})
		o.with[0] = span{0, 1}
		return
	}
	o.begins(o.v.empty(hold{}), 0)
	for _, port := range o.ports {
		if port.stays == 0 || o.with[port.stays].end > 0 {
			continue
		}
		o.begins(o.v.empty(o.holds[port.stays]), port.stays)
	}
}

// begins adds the entries of placings that hold what st does before their first
// stroke.
func (o *opening) begins(st played, stays int) {
	first, strokes := len(o.entries), o.v.takes[o.j]
	for b := range strokes.list {
		next, ok := o.v.play(st.state, &o.v.s.Events[o.j], strokes, b)
		if !ok {
			continue
		}
		next.sum += st.sum
		o.list = append(o.list[:0], next)
		if o.ahead {
			o.list = o.keeping(o.list[:0], next)
		}
		for i := range o.list {
			kept := &o.list[i]
			view := o.look(&o.rights, strokes.list[b], b, kept.frame, kept.set())
			o.entries = append(o.entries, entry{o.find(&kept.state, b), kept.sum * score.Whole, view})
		}
	}
	o.with[stays] = span{first, len(o.entries)}
}

// holds adds to a list the fingers that may stay on a string over the boundary
// before event j, by finger: those that may play it again before the hand has to
// leave it. Until then what is played must lie within their reach, above it for
// the fingers nearer the thumb, below it for the others.
func (v *solver) holds(list []hold, j int) []hold {
	if j == 0 || j == len(v.s.Events) || v.s.Events[j].Forced {
		return list
	}
	var room [8]int8
	met := room[:0]   // strings in the order in which they come
	var before [8]int // beside met: how many came in events before
	for i := j; i < len(v.s.Events) && len(met) <= 3; i++ {
		e := &v.s.Events[i]
		if i > j && (e.Forced || e.Boundary == score.Set) {
			break
		}
		earlier := len(met)
		for k := range e.Notes {
			if t := e.Notes[k].String; index(met, t) < 0 && len(met) < len(room) {
				before[len(met)] = earlier
				met = append(met, t)
			}
		}
	}
	for f := range int8(4) {
		for k, t := range met {
			if v.chart.stays(f, t, met[:before[k]]) {
				list = append(list, hold{f + 1, t})
			}
		}
	}
	return list
}
