package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// state is what the rest of the tune can ask once an event has played.
type state struct {
	frame  hand.Frame // what the placing holds so far
	stroke hand.Frame // what the event just played
	core   uint8      // fingers of frame that a written note has used
	kept   uint8      // fingers of frame kept for ornaments alone so far; the rest are free
	notes  uint8      // written notes of the placing so far, 2 standing for more
	owed   uint8      // the finger, from 1, that stayed from the placing before for a written note yet to come; 0 none
}

// layer holds the states after one event, and the least cost from the start to
// each and from each to the end.
type layer struct {
	states []state
	at     map[state]int32 // of the states beyond the first few
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

// edges are the ways through one gap. In the same placing: stay, from state to
// state. Over a boundary: out of a state into a port (a view of the left side),
// over to an entry (a state of the right side with its own view). A finger that
// stays on its string makes a port and an entry of its own: only those that have
// the same finger on the same string meet.
type edges struct {
	stay    []edge
	leave   []leaving
	ports   []port
	alpha   []value // least cost to each port
	beta    []value // least cost from each port
	entries []entry
	over    []edge // from port to entry
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

// hold is a finger, from 1, that stays on its string over a boundary; finger 0
// stands for none.
type hold struct{ finger, string int8 }

// port is what the other side of a boundary can ask of the placing that ends.
type port struct {
	view
	stays hold
}

// entry is a state that begins a placing.
type entry struct {
	state  int32
	value  value
	view   view
	stays  hold
	stroke int // which of the opening's far strokes
}

// connect works out gap j and the states after it, and reports whether any can
// be reached.
func (v *solver) connect(j int) bool {
	o := v.open(j, v.s.Gaps[j].Patterns)
	g := &v.gaps[j]
	*g = edges{}
	last := j == len(v.s.Events)
	if !last {
		v.layers[j] = layer{}
	}
	open, forced := score.Open, false
	if !last {
		open, forced = v.wish(j), v.s.Events[j].Forced
	}
	if !last && j > 0 && !forced && open != score.Set {
		v.stays(o, g)
	}
	if last || j == 0 || forced || open != score.Stay {
		v.crosses(o, g)
	}
	return v.reach(j)
}

// stays adds the edges on which the placing goes on.
func (v *solver) stays(o *opening, g *edges) {
	before := &v.s.Events[o.j-1]
	left, right := &v.layers[o.j-1], &v.layers[o.j]
	g.stay = make([]edge, 0, 2*len(left.states))
	for k, st := range left.states {
		if left.alpha[k].cost >= most || before.Rolled && !v.r.Hand.Valid(v.r.Harp, st.stroke) {
			continue
		}
		for _, stroke := range v.options[o.j] {
			next, bill, ok := v.play(st, stroke, &v.s.Events[o.j])
			if !ok {
				continue
			}
			o.keeping(next, bill.Sum, func(kept state, sum int64) {
				here := o.look(st.stroke, kept.frame, kept.set())
				c := o.weigh(here, view{stroke: stroke}).plus(value{cost: sum * score.Whole})
				if c.cost < most {
					g.stay = append(g.stay, edge{int32(k), right.find(kept), c})
				}
			})
		}
	}
}

// play adds an event to a placing: the state after it and what the placing
// costs more for it; false if the hand cannot hold both.
func (v *solver) play(st state, stroke hand.Frame, e *score.Event) (state, rule.Bill, bool) {
	var bill, before rule.Bill
	next := st
	next.stroke = stroke
	part := e.Rolled && !v.r.Hand.Valid(v.r.Harp, stroke)
	if part {
		for f, t := range st.frame {
			if st.notes > 0 || t != hand.None && t != stroke[f] {
				return next, bill, false // alone in its placing
			}
		}
		v.r.Part(&bill)
	}
	for f, t := range stroke {
		bit := uint8(1) << f
		switch {
		case t == hand.None:
			continue
		case st.frame[f] == t:
		case !part && !v.r.Hand.Takes(v.r.Harp, next.frame, f, t):
			return next, bill, false
		default:
			v.r.Enter(&bill, next.frame, f, t)
			next.frame[f] = t
		}
		if next.kept&bit != 0 {
			var refund rule.Bill
			v.r.Keep(&refund, f)
			bill.Sum -= refund.Sum
			next.kept &^= bit
		}
		if int(next.owed) == f+1 {
			next.owed = 0
		}
		next.core |= bit
	}
	next.notes = uint8(min(2, int(st.notes)+len(e.Notes)))
	v.r.Work(&bill, int(next.notes), next.core&1 != 0)
	if st.notes > 0 {
		v.r.Work(&before, int(st.notes), st.core&1 != 0)
	}
	bill.Sum -= before.Sum
	return next, bill, true
}

// set gives the fingers of a placing that are on their string.
func (st *state) set() uint8 { return st.core | st.kept | st.waits() }

// waits is the finger that is owed a written note, as a bit.
func (st *state) waits() uint8 { return 1 << st.owed >> 1 }

// keeping lists the states that come of st by keeping fingers ready, or letting
// them drop in, for the ornaments of this gap; with their cost, sum included.
func (o *opening) keeping(st state, sum int64, found func(state, int64)) {
	if len(o.strings) == 0 {
		found(st, sum)
		return
	}
	o.keepFrom(st, sum, 0, found)
}

func (o *opening) keepFrom(st state, sum int64, f int, found func(state, int64)) {
	if f == 4 {
		found(st, sum)
		return
	}
	o.keepFrom(st, sum, f+1, found)
	bit := uint8(1) << f
	if st.frame[f] != hand.None {
		if st.set()&bit == 0 && o.uses(f, st.frame[f]) >= 0 {
			var bill rule.Bill
			o.v.r.Keep(&bill, f)
			st.kept |= bit
			o.keepFrom(st, sum+bill.Sum, f+1, found)
		}
		return
	}
	for i, t := range o.strings {
		if o.useful[i]&bit == 0 || !o.v.r.Hand.Takes(o.v.r.Harp, st.frame, f, t) {
			continue
		}
		var bill rule.Bill
		o.v.r.Enter(&bill, st.frame, f, t)
		with := st
		with.frame[f] = t
		if o.drops[i] {
			o.keepFrom(with, sum+bill.Sum, f+1, found)
		}
		o.v.r.Keep(&bill, f)
		with.kept |= bit
		o.keepFrom(with, sum+bill.Sum, f+1, found)
	}
}

// crosses adds the ways over a boundary, into the tune and out of it.
func (v *solver) crosses(o *opening, g *edges) {
	v.leave(o, g)
	if o.j == len(v.s.Events) {
		g.entries = []entry{{state: -1, view: o.look(hand.Empty(), hand.Empty(), 0)}}
	} else {
		v.enter(o, g)
	}
	rights := make([][]half, len(g.entries))
	for b := range g.entries {
		g.entries[b].stroke = remember(&o.far, g.entries[b].view.stroke, len(g.entries))
		rights[b] = o.rights(g.entries[b].view)
	}
	g.over = make([]edge, 0, len(g.ports)*len(g.entries))
	for a, port := range g.ports {
		lefts, left := o.lefts(port.view), remember(&o.near, port.stroke, len(g.ports))
		for b := range g.entries {
			if g.entries[b].stays != port.stays {
				continue
			}
			if c := o.across(left, g.entries[b].stroke, port.stays != hold{}, lefts, rights[b]); c.cost < most {
				g.over = append(g.over, edge{int32(a), int32(b), c})
			}
		}
	}
}

func (v *solver) leave(o *opening, g *edges) {
	if o.j == 0 {
		g.ports = []port{{view: o.look(hand.Empty(), hand.Empty(), 0)}}
		return
	}
	left := &v.layers[o.j-1]
	g.leave = make([]leaving, 0, 2*len(left.states))
	for k, st := range left.states {
		if left.alpha[k].cost >= most || st.owed != 0 {
			continue
		}
		o.keeping(st, 0, func(kept state, sum int64) {
			out := port{view: o.look(st.stroke, kept.frame, kept.core|kept.kept)}
			add := func() {
				at := int32(remember(&g.ports, out, len(g.ports)+1))
				g.leave = append(g.leave, leaving{edge{int32(k), at, value{cost: sum * score.Whole}}, kept.frame, kept.kept})
			}
			add()
			for f, t := range kept.frame {
				if kept.core&(1<<f) != 0 && v.soon(o.j, f, t) {
					out.stays = hold{int8(f) + 1, t}
					add()
				}
			}
		})
	}
}

// soon reports whether finger f, which stays on string t before event j, may play
// it again before the hand has to leave it: until then what is played must lie
// within its reach, above it for the fingers nearer the thumb, below it for the
// others.
func (v *solver) soon(j, f int, t int8) bool {
	if j == len(v.s.Events) || v.s.Events[j].Forced {
		return false
	}
	var above, below []int8
	var room [8]int8
	above, below = room[:0:4], room[4:4]
	for i := j; i < len(v.s.Events); i++ {
		e := &v.s.Events[i]
		if i > j && (e.Forced || v.wish(i) == score.Set) {
			return false
		}
		for _, n := range e.Notes {
			if n.String == t {
				return true
			}
		}
		for _, n := range e.Notes {
			switch {
			case n.String > t:
				if index(above, n.String) < 0 {
					above = append(above, n.String)
				}
			case index(below, n.String) < 0:
				below = append(below, n.String)
			}
			if len(above) > f || len(below) > 3-f || !v.reaches(f, t, n.String) {
				return false
			}
		}
	}
	return false
}

// reaches reports whether some finger beside f can hold another string with it.
func (v *solver) reaches(f int, t, other int8) bool {
	for g := range 4 {
		if g != f && v.r.Hand.InUse[g] && v.r.Hand.Pair(v.r.Harp, f, t, g, other) {
			return true
		}
	}
	return false
}

func (v *solver) enter(o *opening, g *edges) {
	v.begin(o, g, state{frame: hand.Empty()}, 0, hold{})
	for _, port := range g.ports {
		if port.stays == (hold{}) || v.entered(g, port.stays) {
			continue
		}
		f, t := int(port.stays.finger-1), port.stays.string
		st := state{frame: hand.Empty(), owed: uint8(port.stays.finger)}
		st.frame[f] = t
		var bill rule.Bill
		v.r.Enter(&bill, hand.Empty(), f, t)
		v.begin(o, g, st, bill.Sum, port.stays)
	}
}

func (v *solver) entered(g *edges, stays hold) bool {
	for i := range g.entries {
		if g.entries[i].stays == stays {
			return true
		}
	}
	return false
}

// begin adds the entries of placings that hold what st does before their first
// stroke.
func (v *solver) begin(o *opening, g *edges, st state, held int64, stays hold) {
	right := &v.layers[o.j]
	for _, stroke := range v.options[o.j] {
		next, bill, ok := v.play(st, stroke, &v.s.Events[o.j])
		if !ok {
			continue
		}
		o.keeping(next, held+bill.Sum, func(kept state, sum int64) {
			w := o.look(stroke, kept.frame, kept.set())
			g.entries = append(g.entries, entry{state: right.find(kept), value: value{cost: sum * score.Whole}, view: w, stays: stays})
		})
	}
}

// few states are looked through faster than a map is kept.
const few = 48

// find gives the place of a state in the layer, new if it was not there.
func (l *layer) find(st state) int32 {
	for i := range l.states[:min(few, len(l.states))] {
		if l.states[i] == st {
			return int32(i)
		}
	}
	if at, ok := l.at[st]; ok {
		return at
	}
	at := int32(len(l.states))
	l.states = append(l.states, st)
	if at >= few {
		if l.at == nil {
			l.at = map[state]int32{}
		}
		l.at[st] = at
	}
	return at
}

// reach fills in the least cost to every state after gap j.
func (v *solver) reach(j int) bool {
	g := &v.gaps[j]
	g.alpha = nevers(len(g.ports))
	if j == 0 {
		g.alpha[0] = value{}
	}
	for _, e := range g.leave {
		lower(g.alpha, e.to, v.layers[j-1].alpha[e.from].plus(e.value))
	}
	if j == len(v.s.Events) {
		found := false
		for _, e := range g.over {
			found = found || g.alpha[e.from].cost < most
		}
		return found
	}
	l := &v.layers[j]
	l.alpha = nevers(len(l.states))
	for _, e := range g.stay {
		lower(l.alpha, e.to, v.layers[j-1].alpha[e.from].plus(e.value))
	}
	for _, e := range g.over {
		to := g.entries[e.to]
		lower(l.alpha, to.state, g.alpha[e.from].plus(e.value).plus(to.value))
	}
	for _, a := range l.alpha {
		if a.cost < most {
			return true
		}
	}
	return false
}

func nevers(n int) []value {
	list := make([]value, n)
	for i := range list {
		list[i] = never
	}
	return list
}

func lower(list []value, at int32, c value) {
	if c.less(list[at]) {
		list[at] = c
	}
}

// best is the least cost of a whole plan.
func (v *solver) best() value {
	best := never
	g := &v.gaps[len(v.gaps)-1]
	for _, e := range g.over {
		if c := g.alpha[e.from].plus(e.value); c.less(best) {
			best = c
		}
	}
	return best
}

// backward fills in the least cost from every state to the end.
func (v *solver) backward() {
	for j := len(v.gaps) - 1; j >= 0; j-- {
		g := &v.gaps[j]
		g.beta = nevers(len(g.ports))
		for _, e := range g.over {
			to := g.entries[e.to]
			rest := value{}
			if to.state >= 0 {
				rest = v.layers[j].beta[to.state]
			}
			lower(g.beta, e.from, rest.plus(e.value).plus(to.value))
		}
		if j == 0 {
			continue
		}
		l := &v.layers[j-1]
		l.beta = nevers(len(l.states))
		for _, e := range g.leave {
			lower(l.beta, e.from, g.beta[e.to].plus(e.value))
		}
		for _, e := range g.stay {
			lower(l.beta, e.from, v.layers[j].beta[e.to].plus(e.value))
		}
	}
}
