package solve_test

import (
	"cmp"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// This file is the oracle's first half: one gap between two strokes.

// play lists for each pattern of a gap the ways to play it between two
// strokes. Of two ways that need the same the cheaper is kept.
func (o *oracle) play(x scene) [][]way {
	if w, ok := o.ways[x]; ok {
		return w
	}
	j, r := x.gap, x.right
	p := o.set(x)
	held := [3]hand.Frame{hand.Empty(), hand.Empty(), r}
	if j > 0 {
		held[plan.Left] = p.Placings[p.Events[j-1].Placing].Frame
	}
	all := make([][]way, len(o.s.Gaps[j].Patterns))
	for k := 1; k < len(all); k++ {
		o.try(x, k, p, held, held, nil, func(w way) {
			if !slices.ContainsFunc(all[k], func(v way) bool { return v.serves(w) }) {
				all[k] = append(slices.DeleteFunc(all[k], w.serves), w)
			}
		})
	}
	o.ways[x] = all
	return all
}

// serves reports whether a way is never worse than another: no dearer, and
// needing no more.
func (w way) serves(v way) bool {
	return w.better(v) >= 0 && w.left&^v.left == 0 && w.right&^v.right == 0
}

// better compares two ways by what they cost, then by how they are liked: 1 for the
// better one, 0 where they are alike.
func (w way) better(v way) int {
	return cmp.Or(cmp.Compare(v.cost, w.cost), cmp.Compare(v.rank, w.rank))
}

// try goes through every finger and frame for the strokes of a pattern that
// remain.
func (o *oracle) try(x scene, k int, p plan.Plan, bare, held [3]hand.Frame, touches []plan.Touch, found func(way)) {
	j, bounded := x.gap, x.bounded
	pattern := o.s.Gaps[j].Patterns[k]
	n := len(touches)
	if n == len(pattern.Strings) {
		if w, ok := o.charge(x, k, p, bare, held, touches); ok {
			found(w)
		}
		return
	}
	for from := plan.Left; from <= plan.Right; from++ {
		if from == plan.Left && j == 0 || from == plan.Right && (!bounded || j == len(o.s.Events)) || n > 0 && touches[n-1].From > from {
			continue
		}
		for f := range 4 {
			if o.r.Hand.Takes(o.r.Harp, held[from], f, pattern.Strings[n]) {
				with := held
				with[from][f] = pattern.Strings[n]
				o.try(x, k, p, bare, with, append(slices.Clip(touches), plan.Touch{Finger: int8(f), From: from}), found)
			}
		}
	}
}

// charge asks the definition what a way costs beside silence, with every finger that it
// needs kept, and then of each whether it could be free instead.
func (o *oracle) charge(at scene, k int, p plan.Plan, bare, held [3]hand.Frame, touches []plan.Touch) (way, bool) {
	j := at.gap
	w := way{touches: touches}
	p.Placings = slices.Clone(p.Placings)
	p.Gaps[j].Ways[k] = touches
	type loose struct {
		at   *plan.Placing
		f    int
		need *uint64
		bit  int
	}
	var extra []loose
	for _, from := range []plan.From{plan.Left, plan.Right} {
		event, need := j-1, &w.left
		if from == plan.Right {
			event, need = j, &w.right
		}
		for f, t := range held[from] {
			if t != bare[from][f] {
				pl := &p.Placings[p.Events[event].Placing]
				pl.Frame[f], pl.Kept[f] = t, true
				extra = append(extra, loose{pl, f, need, o.bit(j, f, t)})
			}
		}
	}
	if w.rank = o.usual(at, k, touches); w.rank < 0 {
		return w, false
	}
	silent := plan.Between(o.s, o.r, &p, j, 0, at.held)
	b := plan.Between(o.s, o.r, &p, j, k, at.held)
	if b.Barred || silent.Barred {
		return w, false
	}
	w.cost = b.Sum - silent.Sum
	for _, x := range extra {
		*x.need |= there << x.bit
		x.at.Kept[x.f], x.at.Free[x.f] = false, true
		if plan.Between(o.s, o.r, &p, j, k, at.held).Barred {
			*x.need |= set << x.bit
		}
		x.at.Kept[x.f], x.at.Free[x.f] = true, false
	}
	return w, true
}

// across gives the least that a gap costs between two sides.
func (o *oracle) across(e edge) worth {
	if w, ok := o.edges[e]; ok {
		return w
	}
	w := o.silence(e)
	ways := o.play(scene{e.gap, e.bounded, o.held(e), e.left.stroke, e.right.stroke})
	for k := 1; k < len(ways); k++ {
		least, found := way{}, false
		for _, v := range ways[k] {
			if v.left&^e.left.have|v.right&^e.right.have == 0 && (!found || v.better(least) > 0) {
				least, found = v, true
			}
		}
		if !found {
			w = never
			break
		}
		w += worth(least.cost*o.s.Gaps[e.gap].Patterns[k].Weight)<<asCost + worth(least.rank)*asSecond
	}
	o.edges[e] = w
	return w
}

// silence is a gap with nothing sounding in it.
func (o *oracle) silence(e edge) worth {
	j, x := e.gap, scene{e.gap, e.bounded, o.held(e), e.left.stroke, e.right.stroke}
	if w, ok := o.silent[x]; ok {
		return w
	}
	p := o.set(x)
	w := worth(plan.Between(o.s, o.r, &p, j, 0, x.held).Sum*score.Whole) << asCost
	if j > 0 && j < len(o.s.Events) && e.bounded && !o.s.Events[j].Forced {
		w += moved(o.r.Across(&rule.Bill{}, crossing(o.s, j, x.left, x.right, x.held)))
	}
	o.silent[x] = w
	return w
}

func crossing(s *score.Score, j int, from, to hand.Frame, held bool) *rule.Crossing {
	e := &s.Events[j]
	return &rule.Crossing{From: from, To: to, Since: e.Since, Written: true, Forced: e.Forced, Weak: e.Weak, Held: held}
}

func moved(m rule.Move) worth {
	switch m {
	case rule.Jump:
		return asLift
	case rule.Under, rule.Over:
		return asCross
	}
	return 0
}

// part is what a bill charges at one place.
func part(b plan.Bill, at plan.Place) int64 {
	sum := int64(0)
	for i, item := range b.Items {
		if b.Places[i] == at {
			sum += item.Amount
		}
	}
	return sum
}
