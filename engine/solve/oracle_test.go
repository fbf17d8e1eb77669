package solve_test

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// The oracle finds the best fingering of a short passage by going through all
// of them: every way to take every event, every choice of boundaries, every
// finger that may be kept or free, every way to play what may sound. It knows
// nothing of states or of the solver. What a piece of a fingering costs it
// reads off plan.Sum of a complete plan that has the piece in it; since Sum adds
// up gap by gap and placing by placing, each piece is asked for once.

// worth is what the best is best by: the cost, then house fingerings that are the
// second in liking, then lifts, crossings and fourth fingers with nothing sounding.
// It is one number, so it can be added.
type worth int64

const (
	never    worth = 1 << 61
	asSecond worth = 1 << 15
	asLift   worth = 1 << 10
	asCross  worth = 1 << 5
	asFourth worth = 1
	asCost         = 24 // bits
)

func (w worth) cost() plan.Cost {
	if w >= never {
		return plan.None
	}
	return plan.Cost(w >> asCost)
}

// seconds is how often what is best has a second fingering.
func (w worth) seconds() int { return int(w >> 15 & 0x1ff) }

// side is how a placing looks from a gap: what it plays beside the gap, and
// which of the gap's strings it has to offer, a bit for each finger and string
// that is there at all and one for each that is set.
type side struct {
	stroke hand.Frame
	have   uint64
	core   hand.Frame // at the ends of a placing: what its written notes hold
}

const (
	there = uint64(1)
	set   = uint64(2)
)

// edge is a gap between two strokes: whether the hand is placed in it, and what
// its sides are.
type edge struct {
	gap         int
	bounded     bool
	left, right side
}

// scene is a gap between two strokes, whatever else their placings hold but for
// a finger that stays.
type scene struct {
	gap           int
	bounded, held bool
	left, right   hand.Frame
}

// way is one way to play a pattern: what it costs beside silence, and what it
// needs of the sides.
type way struct {
	cost        int64
	rank        int // how many of its house fingerings are the second
	left, right uint64
	touches     []plan.Touch
}

// filling is one placing with everything that it plays.
type filling struct {
	first, last int
	strokes     []hand.Frame
	core, frame hand.Frame // for written notes, and with all that is kept or free
	kept, free  [4]bool
	own         worth
	from, to    side  // as its first and its last gap see it
	alpha, beta worth // least before it, gap included; least after it
}

type oracle struct {
	s       *score.Score
	r       *rule.Rules
	strokes [][]hand.Frame // by event: every way to take it
	strings [][]int8       // by gap: the strings of all that may sound in it
	ways    map[scene][][]way
	edges   map[edge]worth
	silent  map[scene]worth
	fills   [][]filling // by first event
	wanted  [3][]map[[2]int8]uint64
	best    worth
	prices  [][][4]plan.Cost
}

// The parts of wanted: what a gap asks of the placing before it, of the one
// after it, and of one that goes on through it.
const (
	before = iota
	after
	through
)

// consult asks the oracle.
func consult(s *score.Score, r *rule.Rules) *oracle {
	o := &oracle{s: s, r: r, ways: map[scene][][]way{}, edges: map[edge]worth{}, silent: map[scene]worth{}, best: never}
	for i, e := range s.Events {
		o.strokes = append(o.strokes, takes(s, r, e))
		if len(o.strokes[i]) == 0 {
			return o
		}
	}
	for j := range s.Gaps {
		o.strings = append(o.strings, sounding(s, j))
	}
	o.want()
	o.fills = make([][]filling, len(s.Events))
	for a := range s.Events {
		for b := a; b < len(s.Events) && (b == a || goesOn(s, b)); b++ {
			if a == 0 || mayPlace(s, a) {
				o.fill(a, b)
			}
		}
	}
	o.back()
	o.forth()
	return o
}

// takes lists the ways to take an event that obey its pins and are as usual.
func takes(s *score.Score, r *rule.Rules, e score.Event) []hand.Frame {
	var strings []int8
	for _, n := range e.Notes {
		strings = append(strings, n.String)
	}
	all := r.Hand.Fingerings(r.Harp, strings)
	if e.Rolled {
		all = append(all, r.Hand.InPart(r.Harp, strings)...)
	}
	return slices.DeleteFunc(all, func(f hand.Frame) bool {
		return liked(e, f) < 0 || slices.ContainsFunc(e.Notes, func(n score.Note) bool {
			return n.Pin != 0 && f[n.Pin-1] != n.String
		})
	})
}

// goesOn reports whether a placing may go on into event i, mayPlace whether a
// new one may begin with it. Off the strings is off the strings, whatever is
// asked.
func goesOn(s *score.Score, i int) bool {
	return !s.Events[i].Forced && s.Events[i].Boundary != score.Set
}

func mayPlace(s *score.Score, i int) bool {
	return s.Events[i].Forced || s.Events[i].Boundary != score.Stay
}

func sounding(s *score.Score, j int) []int8 {
	var all []int8
	for _, p := range s.Gaps[j].Patterns {
		for _, t := range p.Strings {
			if !slices.Contains(all, t) {
				all = append(all, t)
			}
		}
	}
	return all
}

// bit is the place of a finger on a string in what a gap needs and a side has.
func (o *oracle) bit(j, f int, t int8) int {
	return 2 * (8*f + slices.Index(o.strings[j], t))
}

func (o *oracle) side(j int, stroke, frame hand.Frame, free [4]bool) side {
	v := side{stroke: stroke}
	for f, t := range frame {
		if t == hand.None || !slices.Contains(o.strings[j], t) {
			continue
		}
		v.have |= there << o.bit(j, f, t)
		if !free[f] {
			v.have |= set << o.bit(j, f, t)
		}
	}
	return v
}

// want finds out which fingers on which strings could serve a gap's ornaments,
// whatever the written notes beside it take: only these are ever kept or free.
func (o *oracle) want() {
	for part := range o.wanted {
		o.wanted[part] = make([]map[[2]int8]uint64, len(o.s.Gaps))
		for j := range o.s.Gaps {
			o.wanted[part][j] = map[[2]int8]uint64{}
		}
	}
	for j := range o.s.Gaps {
		for _, l := range o.beside(j - 1) {
			for _, r := range o.beside(j) {
				for _, bounded := range []bool{false, true} {
					if !o.possible(j, l, r, bounded) {
						continue
					}
					ways := o.play(scene{j, bounded, false, l, r})
					if bounded {
						ways = append(slices.Clip(ways), o.play(scene{j, bounded, true, l, r})...)
					}
					for _, ways := range ways {
						for _, w := range ways {
							part := before
							if !bounded && j < len(o.s.Events) {
								part = through
							}
							o.note(part, j, w.left)
							o.note(after, j, w.right)
						}
					}
				}
			}
		}
	}
}

func (o *oracle) note(part, j int, need uint64) {
	for f := range 4 {
		for _, t := range o.strings[j] {
			if n := need >> o.bit(j, f, t) & (there | set); n != 0 {
				o.wanted[part][j][[2]int8{int8(f), t}] |= n
			}
		}
	}
}

// beside gives the strokes of an event, or the empty one where there is none.
func (o *oracle) beside(i int) []hand.Frame {
	if i < 0 || i >= len(o.s.Events) {
		return []hand.Frame{hand.Empty()}
	}
	return o.strokes[i]
}

// possible reports whether these two strokes can lie beside gap j.
func (o *oracle) possible(j int, l, r hand.Frame, bounded bool) bool {
	switch {
	case j == 0:
		return bounded
	case j == len(o.s.Events):
		return !bounded
	case bounded:
		return mayPlace(o.s, j)
	}
	_, ok := o.join(l, r)
	return ok && goesOn(o.s, j) && !o.wide(l) && !o.wide(r)
}

// wide reports whether a stroke is one that the hand takes in part.
func (o *oracle) wide(stroke hand.Frame) bool { return !o.r.Hand.Valid(o.r.Harp, stroke) }

// join puts two strokes into one frame.
func (o *oracle) join(held, stroke hand.Frame) (hand.Frame, bool) {
	if held == hand.Empty() {
		return stroke, true // a chord in part too
	}
	for f, t := range stroke {
		if t != hand.None {
			if !o.r.Hand.Takes(o.r.Harp, held, f, t) {
				return held, false
			}
			held[f] = t
		}
	}
	return held, true
}

// stage makes a complete plan in which nothing but events first to last, one
// placing, matters: every other event has a placing of its own, and its first
// fingering. It gives the number of the placing.
func (o *oracle) stage(first, last int, strokes ...hand.Frame) (plan.Plan, int) {
	p := plan.Plan{Gaps: make([]plan.Gap, len(o.s.Gaps))}
	for j, g := range o.s.Gaps {
		p.Gaps[j].Ways = make([][]plan.Touch, len(g.Patterns))
	}
	at := -1
	for i := range o.s.Events {
		stroke := o.strokes[i][0]
		if i >= first && i <= last {
			stroke = strokes[i-first]
		}
		if i > first && i <= last {
			pl := &p.Placings[at]
			pl.Last = i
			pl.Frame, _ = o.join(pl.Frame, stroke)
		} else {
			p.Placings = append(p.Placings, plan.Placing{First: i, Last: i, Frame: stroke})
		}
		if i == first {
			at = len(p.Placings) - 1
		}
		p.Events = append(p.Events, plan.Event{Stroke: stroke, Placing: len(p.Placings) - 1})
	}
	return p, at
}

// set is stage for a gap and the strokes beside it.
func (o *oracle) set(x scene) plan.Plan {
	j, l, r, bounded := x.gap, x.left, x.right, x.bounded
	switch {
	case j == 0:
		p, _ := o.stage(0, 0, r)
		return p
	case j == len(o.s.Events):
		p, _ := o.stage(j-1, j-1, l)
		return p
	case !bounded:
		p, _ := o.stage(j-1, j, l, r)
		return p
	}
	p, at := o.stage(j-1, j-1, l)
	p.Events[j].Stroke = r
	p.Placings[at+1].Frame = r
	return p
}

// held reports whether a finger stays on its string from the one side of a
// boundary to the other.
func (o *oracle) held(e edge) bool {
	if !e.bounded || e.gap == 0 || e.gap == len(o.s.Events) || o.s.Events[e.gap].Forced {
		return false
	}
	for f, t := range e.left.core {
		if t != hand.None && e.right.core[f] == t {
			return true
		}
	}
	return false
}
