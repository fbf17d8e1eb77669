package explain

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// Solver finds the best plan of a score in which bars that come again need not be
// alike; false where something had to be left out.
type Solver func(s score.Score, r rule.Rules) (plan.Plan, bool)

// farthest is how many events on either side of a note are looked at first, where
// neither a rest nor the end of a phrase comes before (guess: a finger seldom makes
// a difference beyond two placings). What is found then is tried on the whole tune.
const farthest = 12

// excerpt is the part of a score that a wish has to do with: what lies around its
// events, to the next rest or end of a phrase. There the hand is off the strings,
// so nothing beyond makes a difference.
type excerpt struct {
	s     score.Score
	at    []int // the events of the wish, in it
	short bool  // it ends where a hand may be on the strings
}

// cut takes an excerpt about these events, in order.
func cut(s *score.Score, p *plan.Plan, events []int) excerpt {
	x := excerpt{s: score.Score{Harp: s.Harp, Raised: s.Raised, Used: s.Used}}
	to := 0
	for i := 0; i < len(events); i++ {
		from := max(to, start(s, p, events[i]))
		joined := from == to && to > 0
		to = end(s, p, events[i])
		for ; i+1 < len(events) && events[i+1] < to; i++ {
			to = end(s, p, events[i+1])
		}
		x.add(s, from, to, joined)
		x.short = x.short || from > 0 && !joined && !off(s, from) || to < len(s.Events) && !off(s, to)
	}
	x.s.Gaps = append(x.s.Gaps, score.Gap{})
	if to == len(s.Events) {
		x.s.Gaps[len(x.s.Gaps)-1] = shifted(s.Gaps[to], len(x.s.Events)-to)
	}
	x.s.WeighGap(len(x.s.Gaps) - 1)
	x.find(s, events)
	return x
}

// add takes the events from one to before another, and the gaps before them. Unless
// they go on from what is there, the hand is set at the first of them.
func (x *excerpt) add(s *score.Score, from, to int, joined bool) {
	first := len(x.s.Events)
	x.s.Events = append(x.s.Events, s.Events[from:to]...)
	for j := from; j < to; j++ {
		x.s.Gaps = append(x.s.Gaps, shifted(s.Gaps[j], first-from))
	}
	if from > 0 && !joined {
		x.s.Gaps[first] = score.Gap{}
		x.s.WeighGap(first)
		x.s.Events[first].Forced = true
	}
}

// find notes where events of the score are in the excerpt.
func (x *excerpt) find(s *score.Score, events []int) {
	next := 0
	for _, e := range events {
		id := s.Events[e].Notes[0].ID()
		for ; next < len(x.s.Events) && x.s.Events[next].Notes[0].ID() != id; next++ {
		}
		x.at = append(x.at, next)
	}
}

// shifted is a gap whose events have other numbers.
func shifted(g score.Gap, by int) score.Gap {
	g.Sites = slices.Clone(g.Sites)
	for i := range g.Sites {
		g.Sites[i].Event += by
	}
	return g
}

// start and end find the next place where the hand is off the strings and no
// ornament is played, or where it is placed far away.
func start(s *score.Score, p *plan.Plan, event int) int {
	for i := event; i > 0; i-- {
		if off(s, i) || i <= event-farthest && p.Bounded(i) {
			return i
		}
	}
	return 0
}

func end(s *score.Score, p *plan.Plan, event int) int {
	for i := event + 1; i < len(s.Events); i++ {
		if off(s, i) || i >= event+farthest && p.Bounded(i) {
			return i
		}
	}
	return len(s.Events)
}

func off(s *score.Score, i int) bool { return s.Events[i].Forced && len(s.Gaps[i].Patterns) < 2 }

// wish is something asked of the hand: a finger on a note, or to be set or to stay
// before an event.
type wish struct {
	note     int  // of its event, for a finger
	finger   int8 // 1 to 4; 0 for any
	boundary score.Boundary
	placing  bool // it is about the placing
}

// with is the excerpt with a wish at each of its events.
func (x *excerpt) with(w wish) score.Score {
	s := x.s
	s.Events = slices.Clone(x.s.Events)
	for _, i := range x.at {
		e := &s.Events[i]
		if w.placing {
			e.Boundary = w.boundary
			continue
		}
		e.Notes = slices.Clone(e.Notes)
		e.Notes[w.note].Pin = w.finger
	}
	return s
}

// together lists the events that go with one: every time that it is played, and
// those of bars that are the same and are played so.
func together(s *score.Score, p *plan.Plan, event, note int, placing bool) []int {
	written := s.Events[event].Notes[note].Written
	in := func(e int) bool {
		return slices.ContainsFunc(s.Events[e].Notes, func(n score.Note) bool { return n.Written == written })
	}
	var list []int
	for e := range s.Events {
		if in(e) {
			list = append(list, e)
		}
	}
	for _, f := range s.Figures() {
		for k := range f.Length {
			if placing && k == 0 || !sameFingers(p, f) {
				continue
			}
			if slices.ContainsFunc(f.At, func(at int) bool { return in(at + k) }) {
				for _, at := range f.At {
					list = append(list, at+k)
				}
			}
		}
	}
	source.Order(list, cmp.Compare)
	return slices.Compact(list)
}
