package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Again is Plan for a score that asks the same as one that was solved before
// (score.Alike) but in which other ornaments sound. The plan is the same; only
// how an ornament is played beside another in its gap is worked out anew.
func Again(before *plan.Plan, solved *score.Score, given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	v := newSolver(*solved, r)
	defer v.rise()
	for j := range v.s.Gaps {
		v.s.Gaps[j].Sites = sounding(solved.Gaps[j].Sites, given.Gaps[j].Sites)
	}
	p := *before
	p.Gaps = slices.Clone(before.Gaps)
	for j := range v.s.Gaps {
		if len(v.s.Gaps[j].Sites) < 2 || v.s.Now(j) == solved.Now(j) {
			continue
		}
		p.Gaps[j].Fits = slices.Clone(before.Gaps[j].Fits)
		for k, fits := range p.Gaps[j].Fits {
			p.Gaps[j].Fits[k] = slices.Clone(fits)
			for i := range fits {
				if fits[i].Touches != nil {
					p.Gaps[j].Fits[k][i] = v.fit(&p, j, k, i)
				}
			}
		}
	}
	return p, v.s
}

// sounding are sites with the ornaments on that are on in others, but for those
// that were left out.
func sounding(sites, others []score.Site) []score.Site {
	sites = slices.Clone(sites)
	for k := range sites {
		sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
		for i := range sites[k].Ornaments {
			o, other := &sites[k].Ornaments[i], others[k].Ornaments[i]
			o.On = other.On && o.Likelihood == other.Likelihood
		}
	}
	return sites
}

// fits says how each ornament suits the finished placings. One that is prepared
// is played as the plan has it. For one that is never played the cheapest way
// is found to add it to the plan as it stands, no written note moving; where
// there is none, the tune is solved with it as far as that makes a difference.
func (v *solver) fits(p *plan.Plan) {
	for j := range v.s.Gaps {
		g := &v.s.Gaps[j]
		p.Gaps[j].Fits = make([][]plan.Fit, len(g.Sites))
		for k, site := range g.Sites {
			p.Gaps[j].Fits[k] = make([]plan.Fit, len(site.Ornaments))
			for i := range site.Ornaments {
				p.Gaps[j].Fits[k][i] = v.fit(p, j, k, i)
			}
		}
	}
}

// fit is fits for one ornament: alone for its readiness, together with what
// else sounds in the gap for how it is played now.
func (v *solver) fit(p *plan.Plan, j, k, i int) plan.Fit {
	sounds := [2]int8{-1, -1}
	sounds[k] = int8(i)
	asked := &v.s.Gaps[j].Sites[k].Ornaments[i]
	alone := v.add(p, j, sounds, asked.Likelihood)
	if alone.Ready == plan.NoTime && asked.Likelihood == 0 {
		alone = v.otherwise(p, j, k, i)
		if alone.Ready < plan.NoTime || len(asked.House) == 0 {
			return alone
		}
		old := v.s.Gaps[j]
		v.s.Gaps[j] = anyFingered(old, k, i)
		alone = v.fit(p, j, k, i)
		alone.Unusual = alone.Ready < plan.NoTime
		v.s.Gaps[j] = old
		return alone
	}
	now := v.s.Now(j)
	if other := now[1-k]; other >= 0 && alone.Ready != plan.NoTime {
		sounds[1-k] = other
		both := v.add(p, j, sounds, v.s.Gaps[j].Sites[k].Ornaments[i].Likelihood)
		from, n := 0, len(v.s.Gaps[j].Sites[k].Ornaments[i].Strokes)
		if k == 1 {
			from = len(v.s.Gaps[j].Sites[0].Ornaments[other].Strokes)
		}
		if len(both.Touches) >= from+n {
			alone.Touches = both.Touches[from : from+n]
		}
	}
	return alone
}

// add finds the cheapest way to play a pattern from the placings as they are,
// with fingers that may be kept or dropped in besides where it is never played.
func (v *solver) add(p *plan.Plan, j int, sounds [2]int8, likelihood int32) plan.Fit {
	pattern := v.s.Sounding(j, sounds)
	silent := v.s.Sounding(j, [2]int8{-1, -1})
	o := v.open(j, []score.Pattern{pattern})
	_, _, stay := v.sides(p, o)
	weight := int64(likelihood) * 16
	if likelihood == 0 {
		weight = int64(score.NowAndThen) * 16
	}
	fit := plan.Fit{Ready: plan.NoTime, Extra: plan.None}
	lefts, rights := v.sets(p, o, likelihood == 0)
	for i := range lefts {
		for k := range rights {
			left, right := &lefts[i], &rights[k]
			a := o.view(left.stroke, left.frame, left.core|left.kept)
			b := o.view(right.stroke, right.frame, right.core|right.kept)
			var touches []plan.Touch
			with, ok := o.least(&pattern, a, b, stay, &touches)
			if !ok {
				continue
			}
			without, _ := o.least(&silent, a, b, stay, nil)
			extra := plan.Cost((left.sum+right.sum)*score.Whole + (with-without)*weight)
			if extra < fit.Extra {
				fit = plan.Fit{Ready: ready(touches, left.state, right.state), Touches: touches, Extra: extra}
			}
		}
	}
	return fit
}

// sets lists what the two sides of a gap may hold: the placings as they are,
// and with more fingers for the gap's strings if more is set.
func (v *solver) sets(p *plan.Plan, o *opening, more bool) (lefts, rights []played) {
	none := state{frame: hand.Empty(), stroke: hand.Empty()}
	stay := o.j > 0 && o.j < len(p.Events) && !p.Bounded(o.j)
	side := func(there bool, event int) []played {
		if !there {
			return []played{{state: none}}
		}
		st := played{state: held(p, event)}
		if more && !(stay && event == o.j) {
			return o.keeping(nil, st)
		}
		return []played{st}
	}
	return side(o.j > 0, o.j-1), side(o.j < len(p.Events), o.j)
}

// held is the placing of an event as a state.
func held(p *plan.Plan, event int) state {
	pl := &p.Placings[p.Events[event].Placing]
	st := state{frame: pl.Frame, stroke: p.Events[event].Stroke}
	for f, t := range pl.Frame {
		bit := uint8(1) << f
		switch {
		case t == hand.None || pl.Free[f]:
		case pl.Kept[f]:
			st.kept |= bit
		default:
			st.core |= bit
		}
	}
	return st
}

// ready reads off the touches what an ornament asks of the hand.
func ready(touches []plan.Touch, left, right state) plan.Readiness {
	worst := plan.InHand
	for _, t := range touches {
		bit := uint8(1) << t.Finger
		side := left
		if t.From == plan.Right {
			side = right
		}
		switch {
		case t.From == plan.Private:
			worst = max(worst, plan.PlacedAgain)
		case side.kept&bit != 0:
			worst = max(worst, plan.FingerKept)
		case side.core&bit == 0:
			worst = max(worst, plan.FingerFree)
		}
	}
	return worst
}

// otherwise is the fit of an ornament that is never played and has no way from
// the placings as they are: what the best plan with it, played now and then,
// costs more, and how many written notes it moves. A bar that is like others need
// not be so for it.
func (v *solver) otherwise(p *plan.Plan, j, k, i int) plan.Fit {
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
