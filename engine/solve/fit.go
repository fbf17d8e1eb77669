package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Again is Plan for a score that asks the same as one that was solved before
// (score.Alike) but in which other ornaments sound. The plan is the same, and lies
// where it lay; only how an ornament is played beside another in its gap is worked
// out anew.
func Again(before *plan.Plan, solved *score.Score, given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	v := newSolver(*solved, r)
	defer v.rise()
	for j := range v.s.Gaps {
		v.s.Gaps[j].Sites = sounding(solved.Gaps[j].Sites, given.Gaps[j].Sites)
	}
	p := *before
	for j := range v.s.Gaps {
		if len(v.s.Gaps[j].Sites) < 2 || v.s.Now(j) == solved.Now(j) {
			continue
		}
		if &p.Gaps[0] == &before.Gaps[0] {
			p.Gaps = slices.Clone(before.Gaps)
		}
		p.Gaps[j].Fits = slices.Clone(before.Gaps[j].Fits)
		for k, fits := range p.Gaps[j].Fits {
			p.Gaps[j].Fits[k] = slices.Clone(fits)
			for i := range fits {
				if fits[i].Touches != nil {
					p.Gaps[j].Fits[k][i] = v.placed(&p, j, k, i)
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
	f := v.fitting(p)
	f.counts = true
	for j := range v.s.Gaps {
		p.Gaps[j].Fits = f.gap(j)
	}
	f.finish()
}

// fitting works out how ornaments suit a plan: first what can be told from the
// placings as they are, then all the others together.
type fitting struct {
	v      *solver
	p      *plan.Plan
	asks   []ask
	copies [][2]*plan.Fit
	known  map[string]plan.Fit // of ornaments alone, by what they depend on
	counts bool                // the notes that move are counted
}

func (v *solver) fitting(p *plan.Plan) *fitting {
	return &fitting{v: v, p: p, known: map[string]plan.Fit{}}
}

// gap makes room for the fits of a gap, and fills in those it can.
func (f *fitting) gap(j int) [][]plan.Fit {
	sites := f.v.s.Gaps[j].Sites
	all := make([][]plan.Fit, len(sites))
	for k, site := range sites {
		fits := make([]plan.Fit, len(site.Ornaments))
		for i := range site.Ornaments {
			o := &site.Ornaments[i]
			if same := slices.IndexFunc(site.Ornaments[:i], func(b score.Ornament) bool { return playedAlike(o, &b) }); same >= 0 {
				f.copies = append(f.copies, [2]*plan.Fit{&fits[i], &fits[same]})
				continue
			}
			fits[i] = f.placed(j, k, i)
			if fits[i].Ready >= plan.PlacedAgain && o.Likelihood == 0 && len(o.House) > 0 {
				if fit := f.asItLies(j, k, i); fit.Ready < plan.PlacedAgain {
					fits[i] = fit
					continue
				}
			}
			if fits[i].Ready == plan.NoTime && o.Likelihood == 0 {
				f.asks = append(f.asks, ask{fit: &fits[i], j: j, k: k, i: i})
			}
		}
		all[k] = fits
	}
	return all
}

// placed is solver.placed, worked out once for notes and hands alike.
func (f *fitting) placed(j, k, i int) plan.Fit {
	v, m := f.v, &f.v.memory
	if sounds := v.s.Now(j); sounds[1-k] >= 0 {
		return v.placed(f.p, j, k, i)
	}
	m.key = m.key[:0]
	m.put(v.s.Gaps[j].Sites[k].Ornaments[i].Likelihood)
	v.signHands(f.p, j)
	v.signOrnament(j, k, i)
	if known, ok := f.known[string(m.key)]; ok {
		return known
	}
	key := string(m.key)
	fit := v.placed(f.p, j, k, i)
	f.known[key] = fit
	return fit
}

// signHands writes down how the hand is placed on both sides of gap j.
func (v *solver) signHands(p *plan.Plan, j int) {
	m := &v.memory
	for _, event := range [...]int{j - 1, j} {
		if there := 0 <= event && event < len(p.Events); there {
			st := held(p, event)
			for _, n := range st.mark() {
				m.put(int32(n))
			}
		} else {
			m.add(0xff)
		}
	}
	if j < len(p.Events) {
		e := &v.s.Events[j]
		m.yes(p.Bounded(j))
		m.yes(e.Forced)
		m.yes(p.Held(&v.s, j))
		m.add(byte(e.Weak))
	}
}

// finish fills in the rest.
func (f *fitting) finish() {
	f.v.otherwise(f.p, f.asks, f.counts)
	for _, a := range f.asks {
		if a.fit.Ready == plan.NoTime && len(f.v.s.Gaps[a.j].Sites[a.k].Ornaments[a.i].House) > 0 {
			*a.fit = f.unusual(a)
		}
	}
	for _, c := range f.copies {
		*c[0] = *c[1]
	}
}

// unusual is the fit of an ornament with other fingers than its house fingerings.
//
//go:noinline
func (f *fitting) unusual(a ask) plan.Fit {
	v, p := f.v, f.p
	old := v.s.Gaps[a.j]
	v.s.Gaps[a.j] = anyFingered(old, a.k, a.i)
	fit := v.placed(p, a.j, a.k, a.i)
	if fit.Ready == plan.NoTime {
		v.otherwise(p, []ask{{fit: &fit, j: a.j, k: a.k, i: a.i}}, f.counts)
	}
	fit.Unusual = fit.Ready < plan.NoTime
	v.s.Gaps[a.j] = old
	return fit
}

// asItLies is the fit, from the placings as they are, of an ornament that is never
// played, with other fingers than its house fingerings: these give way where the hand
// as it lies has the ornament only so.
func (f *fitting) asItLies(j, k, i int) plan.Fit {
	v := f.v
	old := v.s.Gaps[j]
	v.s.Gaps[j] = anyFingered(old, k, i)
	fit := f.placed(j, k, i)
	fit.Unusual = true
	v.s.Gaps[j] = old
	return fit
}

// placed is the fit of an ornament from the placings as they are: alone for its
// readiness, together with what else sounds in the gap for how it is played now.
func (v *solver) placed(p *plan.Plan, j, k, i int) plan.Fit {
	sounds := [2]int8{-1, -1}
	sounds[k] = int8(i)
	likelihood := v.s.Gaps[j].Sites[k].Ornaments[i].Likelihood
	alone := v.add(p, j, sounds, likelihood)
	now := v.s.Now(j)
	if other := now[1-k]; other >= 0 && alone.Ready != plan.NoTime {
		sounds[1-k] = other
		both := v.add(p, j, sounds, likelihood)
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
				fit = plan.Fit{Ready: ready(touches, waited(left.state, lefts, likelihood), waited(right.state, rights, likelihood)), Touches: touches, Extra: extra}
			}
		}
	}
	return fit
}

// waited is a side of a gap as an ornament finds it: fingers that wait there already
// for other ornaments need not be set for one that is never played. The first of the
// sides that there may be is as the plan has it.
func waited(side state, sides []played, likelihood int32) state {
	if already := sides[0].kept; likelihood == 0 {
		side.core |= already
		side.kept &^= already
	}
	return side
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
