package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// trial tries an ornament in one gap, or in several of which all is the same but
// what it costs to get there and to go on from there. Only that is worked out of
// the gap which may lie on a best way.
type trial struct {
	o      *opening
	stays  shelf[staying] // by state before the gap and stroke after it
	leaves shelf[outgoing]
	enters shelf[incoming] // by hold and stroke

	parts uint64 // how the strokes may be parted, if only one thing may sound; else 0
	every bool   // all best plans are asked for, else only what they cost
}

// staying is a state that comes of one in the same placing, with what its placing
// costs more for it, and the gap.
type staying struct {
	played
	cost value
}

// outgoing is a state on its way out of its placing, incoming one that begins one.
// can says how what is tried may be parted between the two: by how many strokes come
// before the boundary, a bit for each, and one if some come from a placing between.
type outgoing struct {
	sum  int64
	view int
	can  uint64
}

type incoming struct {
	played
	view int
	can  uint64
}

// shelf keeps lists by number.
type shelf[T any] struct {
	spans []span
	list  []T
}

func (s *shelf[T]) clear(n int) {
	s.list = s.list[:0]
	s.spans = slices.Grow(s.spans[:0], n)[:n]
	for i := range s.spans {
		s.spans[i] = span{-1, -1}
	}
}

// at gives a list, which fill adds to the end of the shelf if it is not there yet.
func (s *shelf[T]) at(n int, fill func()) []T {
	if s.spans[n].first < 0 {
		first := len(s.list)
		fill()
		s.spans[n] = span{first, len(s.list)}
	}
	return s.list[s.spans[n].first:s.spans[n].end]
}

// trial begins to try what is prepared in gap j.
func (v *solver) trial(j int) *trial {
	t := &v.desk.trial
	t.o = v.open(j, v.s.Gaps[j].Patterns)
	o := t.o
	o.beside()
	o.holds = v.holds(o.holds[:1], j)
	states := 1
	if j > 0 {
		o.left = v.gaps[j-1].terrain
		states = len(o.left.states)
	}
	if t.parts = 0; len(o.variants) == 1 && j > 0 && j < len(v.s.Events) {
		t.parts = o.parted(0)
	}
	t.stays.clear(states * len(o.far))
	t.leaves.clear(states)
	t.enters.clear(len(o.holds) * len(o.far))
	return t
}

// before and after say how the strokes may be parted if a view is on that side, as far
// as it holds their strings.
func (t *trial) before(view int) (can uint64) {
	if t.parts == 0 {
		return ^can
	}
	strings := t.strings()
	for a := 0; ; a++ {
		can |= 1 << min(a, between)
		if a == len(strings) || index(t.o.lefts.list[view].frame[:], strings[a]) < 0 {
			return (can | 1<<between) & t.parts
		}
	}
}

func (t *trial) after(view int) (can uint64) {
	if t.parts == 0 {
		return ^can
	}
	strings := t.strings()
	for a := len(strings); ; a-- {
		can |= 1 << min(a, between)
		if a == 0 || index(t.o.rights.list[view].frame[:], strings[a-1]) < 0 {
			return (can | 1<<between) & t.parts
		}
	}
}

// strings are those of the one thing that may sound.
func (t *trial) strings() []int8 {
	return t.o.v.s.Gaps[t.o.j].Patterns[t.o.variants[0].pattern].Strings
}

// staying lists what comes of state k in the same placing with stroke b.
func (t *trial) staying(k int32, b int) []staying {
	return t.stays.at(int(k)*len(t.o.far)+b, func() {
		o, kind := t.o, int(t.o.left.kinds[k])
		next, ok := o.v.play(o.left.states[k], &o.v.s.Events[o.j], o.v.takes[o.j], b)
		if !ok {
			return
		}
		o.list = o.keeping(o.list[:0], next)
		for i := range o.list {
			kept := &o.list[i]
			c := o.weigh(o.look(&o.lefts, o.near[kind], kind, kept.frame, kept.set()), b)
			if c.cost < most {
				t.stays.list = append(t.stays.list, staying{*kept, c})
			}
		}
	})
}

// leaving lists how state k may be left.
func (t *trial) leaving(k int32) []outgoing {
	return t.leaves.at(int(max(k, 0)), func() {
		o := t.o
		if k < 0 {
			t.leaves.list = append(t.leaves.list, outgoing{0, o.look(&o.lefts, hand.Empty(), 0, hand.Empty(), 0), ^uint64(0)})
			return
		}
		kind := int(o.left.kinds[k])
		o.list = append(o.list[:0], played{state: o.left.states[k]})
		if o.behind {
			o.list = o.keeping(o.list[:0], o.list[0])
		}
		for i := range o.list {
			kept := &o.list[i]
			view := o.look(&o.lefts, o.near[kind], kind, kept.frame, kept.core|kept.kept)
			if can := t.before(view); can != 0 {
				t.leaves.list = append(t.leaves.list, outgoing{kept.sum, view, can})
			}
		}
	})
}

// entering lists how a placing may begin with stroke b while a finger stays.
func (t *trial) entering(hold, b int) []incoming {
	return t.enters.at(hold*len(t.o.far)+b, func() {
		o := t.o
		if o.j == len(o.v.s.Events) {
			t.enters.list = append(t.enters.list, incoming{view: o.look(&o.rights, hand.Empty(), 0, hand.Empty(), 0), can: ^uint64(0)})
			return
		}
		next, ok := o.v.beginning(o.j, o.holds[hold], b)
		if !ok {
			return
		}
		o.list = append(o.list[:0], next)
		if o.ahead {
			o.list = o.keeping(o.list[:0], next)
		}
		for i := range o.list {
			kept := &o.list[i]
			view := o.look(&o.rights, o.far[b], b, kept.frame, kept.set())
			if can := t.after(view); can != 0 {
				t.enters.list = append(t.enters.list, incoming{*kept, view, can})
			}
		}
	})
}

// beginning is a placing that begins with stroke b of event j while a finger stays.
func (v *solver) beginning(j int, h hold, b int) (played, bool) {
	st := v.empty(h)
	next, ok := v.play(st.state, &v.s.Events[j], v.takes[j], b)
	next.sum += st.sum
	return next, ok
}

// empty is a placing that holds nothing yet but a finger that stays.
func (v *solver) empty(h hold) played {
	st := played{state: state{frame: hand.Empty()}}
	if h.finger > 0 {
		st.owed = uint8(h.finger)
		st.frame[h.finger-1] = h.string
		st.sum = v.chart.enter(hand.Empty(), int(h.finger-1), h.string)
	}
	return st
}

// crossing is a way over the gap that was found: from a state before it to one after.
type crossing struct {
	from   int32
	to     state
	kind   int
	placed bool
}

// try finds the least cost of a plan with what is tried in gap j, and the ways over
// the gap that such plans have; not all of them, if that is not asked for.
func (t *trial) try(c *aside, j int, found []crossing) (best value, ways []crossing) {
	best, ways = never, found[:0]
	limit := most
	take := func(total value, x crossing) {
		if total.less(best) {
			best, ways = total, ways[:0]
			if limit = total.cost; !t.every {
				limit--
			}
		}
		if total == best && total != never {
			ways = append(ways, x)
		}
	}
	for _, r := range c.fork(t.o, j) {
		if r.floor > limit {
			break
		}
		soFar := value{}
		if j > 0 {
			soFar = c.soFar(j - 1)[r.from]
		}
		for _, w := range r.turns {
			far := int(w.far)
			switch {
			case w.floor > limit:
			case w.hold < 0:
				for _, s := range t.staying(r.from, far) {
					if soFar.cost+s.cost.cost+w.due <= limit {
						cost := soFar.plus(s.cost).plus(value{cost: s.sum * score.Whole})
						take(cost.plus(c.rest(j, s.state, far)), crossing{r.from, s.state, far, false})
					}
				}
			default:
				for _, l := range t.leaving(r.from) {
					more := l.sum * score.Whole
					if w.floor+more > limit {
						continue
					}
					for _, e := range t.entering(int(w.hold), far) {
						if l.can&e.can == 0 {
							continue
						}
						over := t.o.across(l.view, e.view, w.hold > 0)
						if over.cost < most && soFar.cost+more+over.cost+w.due <= limit {
							cost := soFar.plus(over).plus(value{cost: more + e.sum*score.Whole})
							take(cost.plus(c.rest(j, e.state, far)), crossing{r.from, e.state, far, true})
						}
					}
				}
			}
		}
	}
	return best, ways
}
