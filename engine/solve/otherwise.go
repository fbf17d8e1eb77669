package solve

import (
	"slices"

	"readyhand/engine/plan"
)

// ask is an ornament that is never played and has no way from the placings as they
// are, with where its fit is to go.
type ask struct {
	fit     *plan.Fit
	j, k, i int
	next    int  // the next ask of the same kind, -1 if there is none
	open    bool // best plans with it differ in how many notes they move
}

// otherwise fills in the fits of such ornaments: what the best plan with each of them,
// played now and then, costs more, and how many written notes it moves. A bar that is
// like others need not be so for it. Asks that differ only in what lies before
// their gap and after it are answered together. Where notes are not to be counted,
// none move.
func (v *solver) otherwise(p *plan.Plan, asks []ask, counted bool) {
	if len(asks) == 0 {
		return
	}
	room := v.values.at
	plain := v.aside(p)
	bars := map[int32]*aside{}
	u := *v
	u.s.Gaps = slices.Clone(v.s.Gaps)
	var found []crossing
	for _, first := range v.alikeAsks(&u, asks) {
		j := asks[first].j
		u.s.Gaps[j] = prepared(v.s.Gaps[j], asks[first].k, asks[first].i)
		u.s.WeighGap(j)
		t := u.trial(j)
		t.every = counted
		for n := first; n >= 0; n = asks[n].next {
			a := &asks[n]
			c := plain
			if event := v.s.Gaps[a.j].Sites[a.k].Event; v.like != nil && v.like.start[event] >= 0 {
				start := v.like.start[event]
				if c = bars[start]; c == nil {
					c = plain.bar(int(start))
					bars[start] = c
				}
			}
			var best value
			best, found = t.try(c, a.j, found)
			if best != never {
				a.fit.Ready, a.fit.Extra = plan.PlacedAgain, plan.Cost(best.cost-c.least)
				if counted {
					a.fit.Moves, a.open = v.moved(c, a, found)
				}
			}
		}
		u.s.Gaps[j] = v.s.Gaps[j]
	}
	v.values.at = room
	for n := range asks {
		if a := &asks[n]; a.open {
			*a.fit = v.inFull(p, a.j, a.k, a.i)
		}
	}
}

// alikeAsks sorts asks by all that their gap depends on, and gives the first of each kind.
func (v *solver) alikeAsks(u *solver, asks []ask) (firsts []int) {
	lasts := map[string]int{}
	for n := range asks {
		a := &asks[n]
		a.next = -1
		if v.signSides(a.j); len(v.s.Gaps[a.j].Patterns) == 1 {
			v.memory.add(0xff)
			v.signOrnament(a.j, a.k, a.i)
		} else {
			u.s.Gaps[a.j] = prepared(v.s.Gaps[a.j], a.k, a.i)
			u.s.WeighGap(a.j)
			v.memory.add(0xfe)
			u.signPatterns(a.j)
			u.s.Gaps[a.j] = v.s.Gaps[a.j]
		}
		if last, ok := lasts[string(v.memory.key)]; ok {
			asks[last].next = n
			lasts[string(v.memory.key)] = n
		} else {
			firsts = append(firsts, n)
			lasts[string(v.memory.key)] = n
		}
	}
	return firsts
}

// moved counts the notes that move for an ornament with which the best plans go these
// ways over its gap; open if they do not all move as many.
func (v *solver) moved(c *aside, a *ask, found []crossing) (notes int, open bool) {
	all := untold
	for i := range found {
		x := &found[i]
		before, after, by := c.led(a.j-1, x.from), tally{}, 0
		if a.j < len(v.s.Events) {
			by = c.differs(a.j, x.to.stroke, x.placed)
			after = c.follows(a.j, x.to, x.kind)
		}
		all.widen(by, tally{before.least + after.least, before.most + after.most})
	}
	return all.least, all.least != all.most
}
