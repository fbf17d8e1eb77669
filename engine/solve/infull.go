package solve

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// inFull is otherwise for one ornament, as the gaps are worked out anew: of plans that
// are equally good with it this settles for one.
func (v *solver) inFull(p *plan.Plan, j, k, i int) plan.Fit {
	bar := v.loosen(v.s.Gaps[j].Sites[k].Event, j, p.Cost)
	old := window{gap: v.s.Gaps[j], at: j, from: bar.first, values: v.values.at}
	v.s.Gaps[j] = prepared(v.s.Gaps[j], k, i)
	v.s.WeighGap(j)
	fit := plan.Fit{Ready: plan.NoTime, Extra: plan.None}
	v.anew(&bar, &old, func(at int, state int32, best value) { fit = v.moving(p, &bar, at, state, best) })
	v.restore(&old)
	v.tighten(&bar)
	return fit
}

// within reports whether a layer has the states of another, and none can be
// reached that could not be there: only for those is it known what follows.
func (l *layer) within(m *layer) bool {
	if !slices.Equal(l.states, m.states) {
		return false
	}
	for k := range l.states {
		if l.alpha[k].cost < most && m.alpha[k].cost >= most {
			return false
		}
	}
	return true
}

// window is what stood in the gaps and layers from one on.
type window struct {
	from   int
	at     int // the gap whose ornaments were others
	gap    score.Gap
	gaps   []edges
	layers []layer
	values place // how much room was taken
}

func (v *solver) restore(w *window) {
	v.s.Gaps[w.at] = w.gap
	copy(v.gaps[w.from:], w.gaps)
	copy(v.layers[w.from:], w.layers)
	v.values.at = w.values
}

// moving counts the written notes in which the best plan through a state after
// event at, with an ornament prepared for which a bar is loosened, differs from
// the plan found: back and forth from there, until both are in the same state.
func (v *solver) moving(p *plan.Plan, bar *loosened, at int, state int32, best value) plan.Fit {
	fit := plan.Fit{Ready: plan.PlacedAgain, Extra: plan.Cost(best.cost - bar.least)}
	count := func(event int, state int32, bounded bool) {
		if v.layers[event].states[state].stroke != p.Events[event].Stroke || bounded != p.Bounded(event) {
			fit.Moves += len(v.s.Events[event].Notes)
		}
	}
	for e, s := at, state; e >= 0; e-- {
		from, bounded := v.back(e, s)
		count(e, s, bounded)
		if e <= bar.first && from == v.path[max(0, e-1)].state {
			break
		}
		s = from
	}
	for e, s := at+1, state; e < len(v.layers) && s != v.path[e-1].state; e++ {
		next, bounded := v.ahead(e, s)
		count(e, next, bounded)
		s = next
	}
	return fit
}

// prepared is a gap with ornament i of site k played now and then, the others of
// its site making room.
func prepared(g score.Gap, k, i int) score.Gap {
	sites := slices.Clone(g.Sites)
	sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
	room := score.Always - score.NowAndThen
	for n := range sites[k].Ornaments {
		o := &sites[k].Ornaments[n]
		o.Likelihood = score.Share(o.Likelihood, room)
		room -= o.Likelihood
	}
	sites[k].Ornaments[i].Likelihood = score.NowAndThen
	return score.Gap{Sites: sites}
}
