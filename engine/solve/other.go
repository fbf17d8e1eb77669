package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
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
	sheet  arena[int64] // for trails
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
	if way >= 0 {
		d.carry(j, before, after, way)
	}
	return after
}

func (d *detours) carry(j int, before, after []int64, way int) {
	for _, l := range d.gaps[j].lanes[way] {
		after[l.to] = min(after[l.to], before[l.from]+l.cost)
	}
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
//
//go:noinline
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
