package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// Gaps in the same surroundings are worked out once: bars that come again, repeats,
// and all but a few gaps when a tune is solved anew with a change.

// memory is what was worked out, by what it was worked out from, written as bytes.
type memory struct {
	key      []byte
	terrains map[string]*terrain
	states   map[string]int32
	strokes  map[string]*strokes
}

// strokes are the ways to play an event.
type strokes struct {
	list   []hand.Frame
	part   []bool // beside list: the hand takes it in part
	liking []int8 // beside list: score.Event.Liking
	id     int32
}

func (m *memory) clear() {
	if m.terrains == nil {
		m.terrains, m.states, m.strokes = map[string]*terrain{}, map[string]int32{}, map[string]*strokes{}
		return
	}
	clear(m.terrains)
	clear(m.states)
	clear(m.strokes)
}

// add, put and yes write a key on; inlined they would be many times as large.
//
//go:noinline
func (m *memory) add(list ...byte) { m.key = append(m.key, list...) }

//go:noinline
func (m *memory) put(n int32) { m.add(byte(n), byte(n>>8), byte(n>>16), byte(n>>24)) }

//go:noinline
func (m *memory) bytes(list []int8) {
	m.add(byte(len(list)))
	for _, n := range list {
		m.add(byte(n))
	}
}

//go:noinline
func (m *memory) yes(b bool) {
	n := byte(0)
	if b {
		n = 1
	}
	m.add(n)
}

// strokesOf lists how an event may be played: every fingering of its strings that
// its pins and its house fingerings allow.
func (v *solver) strokesOf(e *score.Event) *strokes {
	m := &v.memory
	m.key = m.key[:0]
	m.yes(e.Rolled)
	m.put(int32(len(e.Notes)))
	for _, n := range e.Notes {
		m.add(byte(n.String), byte(n.Pin))
	}
	for _, way := range e.House {
		m.bytes(way)
	}
	if known := m.strokes[string(m.key)]; known != nil {
		return known
	}
	s := &strokes{id: int32(len(m.strokes))}
	ways := v.r.Hand.Fingerings(v.r.Harp, e.Strings())
	whole := len(ways)
	if e.Rolled {
		ways = append(ways, v.r.Hand.InPart(v.r.Harp, e.Strings())...)
	}
	for i, stroke := range ways {
		if liking := e.Liking(stroke); pinned(e, stroke) && liking >= 0 {
			s.list, s.part, s.liking = append(s.list, stroke), append(s.part, i >= whole), append(s.liking, int8(liking))
		}
	}
	m.strokes[string(m.key)] = s
	return s
}

func pinned(e *score.Event, stroke hand.Frame) bool {
	for _, n := range e.Notes {
		if n.Pin != 0 && stroke[n.Pin-1] != n.String {
			return false
		}
	}
	return true
}

// terrain gives the terrain of gap j, worked out if there is none like it yet.
func (v *solver) terrain(j int) *terrain {
	m := &v.memory
	v.sign(j)
	if known := m.terrains[string(m.key)]; known != nil {
		return known
	}
	key := string(m.key)
	t := v.survey(j)
	m.terrains[key] = t
	return t
}

// sign writes down all that the terrain of gap j depends on.
func (v *solver) sign(j int) {
	v.signSides(j)
	v.signPatterns(j)
}

// signSides writes down what it is between.
func (v *solver) signSides(j int) {
	m := &v.memory
	m.key = m.key[:0]
	m.yes(j == 0)
	if j > 0 {
		m.put(v.gaps[j-1].id)
		m.put(v.takes[j-1].id)
	}
	last := j == len(v.s.Events)
	if m.yes(last); !last {
		e := &v.s.Events[j]
		m.put(v.takes[j].id)
		m.yes(e.Forced)
		m.add(byte(e.Boundary), byte(e.Weak))
	}
	var room [16]hold
	for _, h := range v.holds(room[:0], j) {
		m.add(byte(h.finger), byte(h.string))
	}
}

// signPatterns writes down what may sound there.
func (v *solver) signPatterns(j int) {
	m := &v.memory
	for i := range v.s.Gaps[j].Patterns {
		p := &v.s.Gaps[j].Patterns[i]
		m.add(0xff)
		m.put(p.Last)
		if len(p.Strings) == 0 && len(v.s.Gaps[j].Patterns) == 1 {
			break
		}
		m.put(int32(p.Weight))
		m.bytes(p.Strings)
		for _, since := range p.Since {
			m.put(since)
		}
		for _, within := range p.Within {
			m.yes(within)
		}
		for k := range p.House {
			run := &p.House[k]
			m.bytes(run.Strokes)
			m.bytes([]int8{run.Before.String, run.Before.Finger, run.After.String, run.After.Finger, int8(run.Rank)})
		}
	}
}

// signOrnament writes down what the pattern of a gap in which one ornament of site k
// sounds alone depends on.
func (v *solver) signOrnament(j, k, i int) {
	m, site := &v.memory, &v.s.Gaps[j].Sites[k]
	o := &site.Ornaments[i]
	if j < len(v.s.Events) {
		m.put(v.s.Events[j].Since)
	}
	m.yes(site.After)
	m.put(o.Delay)
	m.put(int32(len(o.Strokes)))
	for _, s := range o.Strokes {
		m.put(s.At)
		m.add(byte(s.String))
	}
	if len(o.House) > 0 {
		m.add(byte(v.s.Adorned(*site)))
		for _, way := range o.House {
			m.bytes(way)
		}
	}
}

// keep makes a terrain of what was found.
func (v *solver) keep(ports int) *terrain {
	d, m := v.desk, &v.memory
	t := &terrain{stay: d.edges.copy(d.stay), leave: d.leavings.copy(d.leave), ports: ports, over: d.edges.copy(d.over),
		states: d.allStates.copy(d.states), kinds: d.small.copy(d.kinds), dead: d.flags.take(len(d.states)),
		holds: d.allHolds.copy(d.holds), portAt: d.numbers.copy(d.portAt)}
	for k := range t.dead {
		t.dead[k] = true
	}
	for i := range t.stay {
		t.dead[t.stay[i].to] = false
	}
	for i := range t.over {
		if to := int(t.over[i].to); to < len(t.dead) { // else it is the end
			t.dead[to] = false
		}
	}
	m.key = m.key[:0]
	for k := range t.states {
		mark := d.found.marks[k]
		for _, n := range mark {
			m.put(int32(n))
		}
		m.yes(t.dead[k])
	}
	id, ok := m.states[string(m.key)]
	if !ok {
		id = int32(len(m.states))
		m.states[string(m.key)] = id
	}
	t.id = id
	return t
}
