package solve

import "slices"

// trail is a detour being followed: what it costs to each state it may be in, and
// what its parts cost alone. The room of its ways is also that of the trails that
// go on from it, one after the other.
type trail struct {
	first int
	ways  []int
	costs []int64
	parts []part
}

// part is a detour parted after one of its events: what the way up to there costs
// more if all after it is as shown, and what the rest costs to each state if all
// before it is as shown.
type part struct {
	early int64
	late  []int64
}

// all gives the detours within the limit that are not two side by side.
func (d *detours) all() []detour {
	for e := range d.v.s.Events {
		for way := range d.gaps[e].ways {
			if way != d.gaps[e].shown {
				d.sheet.at = place{}
				d.follow(trail{first: e, ways: []int{way}, costs: d.jotted(e, d.along[e], way)})
			}
		}
	}
	return d.found
}

// follow goes on from the last event of a trail, whose costs are those after it.
func (d *detours) follow(t trail) {
	e := t.first + len(t.ways) - 1
	if d.looks--; d.looks < 0 || len(d.found) >= d.room() || d.hopeless(e+1, t.costs) {
		return
	}
	for _, p := range t.parts {
		if p.early < most && covers(t.costs, p.late, p.early) {
			return // whatever follows is no cheaper than both parts
		}
	}
	off := t.ways[len(t.ways)-1] != d.gaps[e].shown
	if extra := d.extra(e+1, t.costs); off && extra <= d.limit && !d.parted(t, e, extra) {
		d.found = append(d.found, detour{t.first, slices.Clone(t.ways), extra})
	}
	if e+1 == len(d.v.s.Events) {
		return
	}
	here := d.sheet.at
	for way := range d.gaps[e+1].ways {
		d.sheet.at = here
		next := trail{first: t.first, ways: append(t.ways, way), costs: d.jotted(e+1, t.costs, way)}
		if d.hopeless(e+2, next.costs) {
			d.looks--
			continue
		}
		next.parts = make([]part, 0, len(t.parts)+1)
		for _, p := range t.parts {
			next.parts = append(next.parts, part{p.early, d.jotted(e+1, p.late, way)})
		}
		if off {
			next.parts = append(next.parts, part{d.extra(e+1, t.costs), d.jotted(e+1, d.along[e+1], way)})
		}
		d.follow(next)
	}
}

// jotted is onward on a sheet that is written over once a trail has been followed.
func (d *detours) jotted(j int, before []int64, way int) []int64 {
	after := d.sheet.take(d.states(j + 1))
	for k := range after {
		after[k] = most
	}
	d.carry(j, before, after, way)
	return after
}

// room is how many detours are kept: fewer in a long tune, where each takes longer
// to tell of (a guess, beyond what a tune of some hundred notes has).
func (d *detours) room() int { return max(64, 200000/len(d.v.s.Events)) }

// hopeless reports whether nothing that begins so stays within the limit.
func (d *detours) hopeless(j int, costs []int64) bool {
	for k, c := range costs {
		if c < most && c+d.v.toGo(j, int32(k)) <= d.base+d.limit {
			return false
		}
	}
	return true
}

// covers reports whether one list of costs is everywhere so much above another.
func covers(costs, under []int64, by int64) bool {
	for k := range costs {
		if costs[k] < most && (under[k] >= most || costs[k] < under[k]+by) {
			return false
		}
	}
	return true
}

// parted reports whether a trail that ends with event e is two ways side by side,
// and costs no less than both.
func (d *detours) parted(t trail, e int, extra int64) bool {
	for _, p := range t.parts {
		late := together(p.late, d.rest[e+1])
		if p.early < most && late < most && p.early+late-d.base <= extra {
			return true
		}
	}
	return false
}
