package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/source"
)

// different makes of detours what a person would call different, in order: by
// cost, then by how many events differ, then from the start of the tune.
func (d *detours) different(list []detour) []plan.Other {
	source.Order(list, func(a, b detour) int { return cmp.Compare(a.extra, b.extra) })
	list = list[:min(len(list), d.room())]
	var all []plan.Other
	for _, t := range list {
		if d.best(t) < t.extra {
			continue
		}
		if o, ok := d.other(t); ok {
			all = append(all, o)
		}
	}
	source.Order(all, func(a, b plan.Other) int {
		return cmp.Or(cmp.Compare(a.Extra, b.Extra), cmp.Compare(len(a.Changes), len(b.Changes)), cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	var kept []plan.Other
	for _, o := range all {
		if !slices.ContainsFunc(kept, func(k plan.Other) bool { return d.alike(&k, &o) }) {
			kept = append(kept, o)
		}
	}
	return kept
}

// best is what the cheapest plan costs more that has the changes of a detour,
// whatever it does elsewhere.
func (d *detours) best(t detour) int64 {
	return d.least(t.first, t.first+len(t.ways)-1, func(j, way int) bool {
		mine := t.ways[j-t.first]
		return d.gaps[j].ways[way].has(d.gaps[j].ways[mine], d.shown(j)) && (mine != d.gaps[j].shown || d.free(j, way))
	})
}

// has reports whether an event is played so with all that another way to play it
// changes: the fingers of some notes, or whether the hand is set before it.
func (x taking) has(other, shown taking) bool {
	for f, t := range other.stroke {
		if t != hand.None && shown.stroke[f] != t && x.stroke[f] != t {
			return false
		}
	}
	return other.placed == shown.placed || x.placed == other.placed
}

// least is what the cheapest plan costs more in which the events from one to
// another are played in ways that are allowed.
func (d *detours) least(first, last int, allowed func(j, way int) bool) int64 {
	costs := d.soFar[first]
	for j := first; j <= last; j++ {
		costs = d.over(j, costs, allowed)
	}
	if sum := together(costs, d.toGo[last+1]); sum < most {
		return sum - d.base
	}
	return most
}

// each gives for every event and every other way to play it the cheapest detour
// that has it.
func (d *detours) each() []detour {
	for e := range d.v.s.Events {
		for way := range d.gaps[e].ways {
			if way != d.gaps[e].shown {
				d.cheapest(e, way)
			}
		}
	}
	return d.found
}

// cheapest finds the cheapest detour in which event e is played in one way.
func (d *detours) cheapest(e, way int) {
	first, last := max(0, e-widest), min(e+widest, len(d.v.s.Events)-1)
	costs := [][]int64{d.along[first]}
	for j := first; j <= last; j++ {
		costs = append(costs, d.over(j, costs[j-first], func(j, w int) bool { return j != e || w == way }))
	}
	extra := d.extra(last+1, costs[last+1-first])
	if extra > d.limit {
		return
	}
	state, to := int32(-1), extra+d.base
	for k := range costs[last+1-first] {
		if costs[last+1-first][k]+d.rest[last+1][k] == to {
			state, to = int32(k), costs[last+1-first][k]
			break
		}
	}
	ways := make([]int, last+1-first)
	for j := last; j >= first; j-- {
		state, to, ways[j-first] = d.before(j, state, to, costs[j-first], func(w int) bool { return j != e || w == way })
	}
	shown := func(i int) bool { return ways[i] == d.gaps[first+i].shown }
	from, past := 0, len(ways)
	for shown(from) {
		from++
	}
	for shown(past - 1) {
		past--
	}
	d.found = append(d.found, detour{first + from, ways[from:past], extra})
}

// before goes back over gap j from a state to the one it is best reached from, as
// shown where that is as good.
func (d *detours) before(j int, state int32, cost int64, costs []int64, allowed func(way int) bool) (from int32, to int64, way int) {
	way = -1
	for w, lanes := range d.gaps[j].lanes {
		for _, l := range lanes {
			if l.to == state && allowed(w) && costs[l.from]+l.cost == cost && (way < 0 || w == d.gaps[j].shown && way != w) {
				from, to, way = l.from, costs[l.from], w
			}
		}
	}
	return from, to, way
}

// other is a detour as it is taken every time its notes come; false if that
// is not within the limit.
func (d *detours) other(t detour) (plan.Other, bool) {
	o := plan.Other{From: t.first, To: t.first + len(t.ways) - 1, Extra: plan.Cost(t.extra)}
	for i, way := range t.ways {
		if e := t.first + i; way != d.gaps[e].shown {
			o.Changes = append(o.Changes, plan.Change{Event: e, Stroke: d.gaps[e].ways[way].stroke, Placed: d.gaps[e].ways[way].placed})
		}
	}
	here := len(o.Changes)
	taken := make([]bool, len(d.v.s.Events))
	for _, c := range o.Changes {
		taken[c.Event] = true
	}
	for _, c := range o.Changes[:here] {
		for _, twins := range [...][]int{d.passes[c.Event], d.bars[c.Event]} {
			for _, twin := range twins {
				if !taken[twin] {
					o.Changes = d.again(o.Changes, c, twin)
					taken[twin] = o.Changes[len(o.Changes)-1].Event == twin
				}
			}
		}
	}
	if o.Again = len(o.Changes) > here; o.Again {
		source.Order(o.Changes, func(a, b plan.Change) int { return cmp.Compare(a.Event, b.Event) })
		o.Extra = plan.Cost(d.cost(o.Changes))
		o.From, o.To = d.span(o.Changes, o.From, o.To)
	}
	o.Near = o.Extra <= plan.NearTie
	return o, o.Extra <= plan.Cost(d.limit)
}

// again adds a change where its note comes another time, if it is one there.
func (d *detours) again(changes []plan.Change, c plan.Change, twin int) []plan.Change {
	was, is := d.shown(twin), d.shown(c.Event)
	now := taking{c.Stroke, was.placed}
	if c.Placed != is.placed && twin > 0 && !d.v.s.Events[twin].Forced {
		now.placed = c.Placed
	}
	if now == was {
		return changes
	}
	return append(changes, plan.Change{Event: twin, Stroke: now.stroke, Placed: now.placed})
}

// span is where a way that is taken several times is first taken: moved there from
// the events where it was found.
func (d *detours) span(changes []plan.Change, from, to int) (int, int) {
	first := changes[0].Event
	if first >= from {
		return from, to
	}
	last := first
	for _, c := range changes {
		if c.Event-first <= to-from {
			last = c.Event
		}
	}
	return first, last
}

// cost is what a plan with these changes costs more, all else as shown; most if
// it is beyond the limit.
func (d *detours) cost(changes []plan.Change) int64 {
	at := changes[0].Event
	costs := d.along[at]
	for _, c := range changes {
		for ; at < c.Event; at++ {
			costs = d.onward(at, costs, d.gaps[at].shown)
		}
		costs = d.onward(at, costs, slices.Index(d.gaps[at].ways, taking{c.Stroke, c.Placed}))
		at++
	}
	return min(d.extra(at, costs), most)
}

// alike reports whether two ways have the same fingers from the same note to the
// same note.
func (d *detours) alike(a, b *plan.Other) bool {
	fingers := func(o *plan.Other) []plan.Change {
		return slices.DeleteFunc(slices.Clone(o.Changes), func(c plan.Change) bool { return c.Stroke == d.p.Events[c.Event].Stroke })
	}
	return a.From == b.From && a.To == b.To && slices.EqualFunc(fingers(a), fingers(b), func(x, y plan.Change) bool {
		return x.Event == y.Event && x.Stroke == y.Stroke
	})
}
