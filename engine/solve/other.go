package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// What is looked for besides near-ties, all guesses: so many ways, so many that
// begin at one note, none that costs more than two placings, and none that changes
// notes so many events from the one it is about.
const (
	enoughOthers = 16
	enoughHere   = 3
	mostTold     = 120000 // near-ties times events: beyond some 350 notes the cheapest near-ties only
	dearest      = 48 * plan.Charge
	widest       = 8
)

// NearTies gives the other ways to play parts of a tune, within plan.NearTie, that
// a person would call different, the cheapest first. p is the plan of s that is
// shown. A way differs in fingers, or in where the hand is set; outside From and To
// it is the plan, but that it is taken every time its notes come. Left out are
// ways that cost more than the best one with the same fingers and placings changed
// (who takes them would change more), ways that are two others side by side and
// cost no less than both, and of those that have the same fingers from one note to
// another all but the cheapest. All others are there, but for very long tunes.
func NearTies(s score.Score, r rule.Rules, p *plan.Plan) []plan.Other {
	v := retraced(s, r, p)
	if v == nil {
		return nil
	}
	return nearTies(v, p, newDetours(v, p, dearest))
}

func nearTies(v *solver, p *plan.Plan, far *detours) []plan.Other {
	near := newDetours(v, p, plan.NearTie)
	found := near.different(near.all())
	found = found[:min(len(found), max(enoughOthers, mostTold/len(v.s.Events)))]
	for i := range found {
		found[i].Tip = far.tip(&found[i])
	}
	return found
}

// Others gives the near-ties and, after them, some dearer ways: of each note with
// each other finger, and of each placing, the cheapest, if it does not have all the
// changes of one before it.
func Others(s score.Score, r rule.Rules, p *plan.Plan) []plan.Other {
	v := retraced(s, r, p)
	if v == nil {
		return nil
	}
	wide := newDetours(v, p, dearest)
	found := nearTies(v, p, wide)
	if len(found) >= enoughOthers {
		return found
	}
	for _, o := range wide.different(wide.each()) {
		here, more := 0, false
		for i := range found {
			if found[i].From == o.From {
				here++
			}
			more = more || !slices.ContainsFunc(found[i].Changes, func(c plan.Change) bool { return !slices.Contains(o.Changes, c) })
		}
		if !o.Near && !more && here < enoughHere && len(found) < enoughOthers {
			found = append(found, o)
		}
	}
	return found
}

// retraced works out what a plan was chosen from; nil if it is no plan of the score.
func retraced(s score.Score, r rule.Rules, p *plan.Plan) *solver {
	if len(p.Events) == 0 || len(p.Events) != len(s.Events) {
		return nil
	}
	v := newSolver(s, r)
	v.forward()
	if len(v.dropped) > 0 || v.best().cost >= most {
		return nil
	}
	v.backward()
	return v
}

// detours looks for ways that leave the plan shown at one event and come back to
// it. It knows the solver's states as far as no plan costs more than its limit.
type detours struct {
	v      *solver
	p      *plan.Plan
	limit  int64
	base   int64      // what the plan shown costs
	gaps   []junction // by gap
	along  [][]int64  // by gap and state before it: least from the start, played as shown
	rest   [][]int64  // by gap and state before it: least to the end, played as shown
	soFar  [][]int64  // the same, but played in any way where no bar comes again
	toGo   [][]int64
	passes [][]int // by event: those that play the same note; none if it is alone
	bars   [][]int // by event: those at the same place of bars that are played alike
	looks  int     // how many more states of affairs are looked at
	found  []detour
}

// junction is a gap with all that may follow it: the ways to play the event
// after it, and for each the lanes there.
type junction struct {
	ways  []taking
	shown int // which of the ways the plan shown has, -1 if none within the limit
	lanes [][]lane
}

// taking is how an event is played: its stroke, and whether the hand is set
// before it.
type taking struct {
	stroke hand.Frame
	placed bool
}

// detour is one way that was found: the ways taken from its first event to its
// last, by junction.
type detour struct {
	first int
	ways  []int
	extra int64
}

// So many states of affairs are looked at in a tune, and so many more for each
// event, so that no tune takes forever (guesses, many times what tunes need).
const (
	mostFollowed = 20000
	mostForEach  = 20
)

func newDetours(v *solver, p *plan.Plan, limit plan.Cost) *detours {
	n := len(v.s.Events)
	d := &detours{v: v, p: p, limit: int64(limit), base: int64(p.Cost), gaps: make([]junction, n+1),
		along: make([][]int64, n+2), rest: make([][]int64, n+2), soFar: make([][]int64, n+2), toGo: make([][]int64, n+2),
		looks: mostFollowed + mostForEach*n}
	for j := range d.gaps {
		d.gaps[j] = d.junction(j, v.lanes(j, d.base+d.limit))
	}
	d.pair()
	d.along[0], d.soFar[0] = []int64{0}, []int64{0}
	for j := range d.gaps {
		d.along[j+1] = d.onward(j, d.along[j], d.gaps[j].shown)
		d.soFar[j+1] = d.over(j, d.soFar[j], d.free)
	}
	d.rest[n+1], d.toGo[n+1] = []int64{0}, []int64{0}
	for j := n; j >= 0; j-- {
		d.rest[j] = d.back(j, d.rest[j+1], func(j, way int) bool { return way == d.gaps[j].shown })
		d.toGo[j] = d.back(j, d.toGo[j+1], d.free)
	}
	return d
}

// junction sorts the lanes of a gap by how the event after it is played.
func (d *detours) junction(j int, lanes []lane) junction {
	k := junction{shown: -1}
	for _, l := range lanes {
		way := taking{stroke: hand.Empty()}
		if j < len(d.v.s.Events) {
			way = taking{d.v.layers[j].states[l.to].stroke, l.placed}
		}
		at := slices.Index(k.ways, way)
		if at < 0 {
			at = len(k.ways)
			k.ways, k.lanes = append(k.ways, way), append(k.lanes, nil)
		}
		k.lanes[at] = append(k.lanes[at], l)
	}
	if j == len(d.v.s.Events) {
		k.shown = min(0, len(k.ways)-1)
	} else {
		k.shown = slices.Index(k.ways, d.shown(j))
	}
	return k
}

// shown is how the plan shown plays an event.
func (d *detours) shown(event int) taking {
	return taking{d.p.Events[event].Stroke, d.p.Bounded(event)}
}

// states counts the states before gap j.
func (d *detours) states(j int) int {
	if j == 0 || j > len(d.v.layers) {
		return 1
	}
	return len(d.v.layers[j-1].states)
}

// onward carries costs over gap j where the event after it is played in one way.
func (d *detours) onward(j int, before []int64, way int) []int64 {
	after := slices.Repeat([]int64{most}, d.states(j+1))
	if way < 0 {
		return after
	}
	for _, l := range d.gaps[j].lanes[way] {
		after[l.to] = min(after[l.to], before[l.from]+l.cost)
	}
	return after
}

// over is onward where the event after the gap may be played in several ways.
func (d *detours) over(j int, before []int64, allowed func(j, way int) bool) []int64 {
	after := slices.Repeat([]int64{most}, d.states(j+1))
	for way, lanes := range d.gaps[j].lanes {
		if allowed(j, way) {
			for _, l := range lanes {
				after[l.to] = min(after[l.to], before[l.from]+l.cost)
			}
		}
	}
	return after
}

// back carries the least costs to the end back over gap j.
func (d *detours) back(j int, after []int64, allowed func(j, way int) bool) []int64 {
	before := slices.Repeat([]int64{most}, d.states(j))
	for way, lanes := range d.gaps[j].lanes {
		if allowed(j, way) {
			for _, l := range lanes {
				before[l.from] = min(before[l.from], after[l.to]+l.cost)
			}
		}
	}
	return before
}

// free allows any way but where a bar comes again, which stays as it is shown.
func (d *detours) free(j, way int) bool {
	return j == len(d.passes) || len(d.passes[j])+len(d.bars[j]) == 0 || way == d.gaps[j].shown
}

// together is the least sum of what leads to a state and what follows it.
func together(a, b []int64) int64 {
	least := most
	for k := range a {
		least = min(least, a[k]+b[k])
	}
	return min(least, most)
}

// extra is what a way costs above the plan shown if all after gap j is as shown.
func (d *detours) extra(j int, costs []int64) int64 {
	if sum := together(costs, d.rest[j]); sum < most {
		return sum - d.base
	}
	return most
}

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
				d.follow(trail{first: e, ways: []int{way}, costs: d.onward(e, d.along[e], way)})
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
	for way := range d.gaps[e+1].ways {
		next := trail{first: t.first, ways: append(t.ways, way), costs: d.onward(e+1, t.costs, way), parts: make([]part, 0, len(t.parts)+1)}
		for _, p := range t.parts {
			next.parts = append(next.parts, part{p.early, d.onward(e+1, p.late, way)})
		}
		if off {
			next.parts = append(next.parts, part{d.extra(e+1, t.costs), d.onward(e+1, d.along[e+1], way)})
		}
		d.follow(next)
	}
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
