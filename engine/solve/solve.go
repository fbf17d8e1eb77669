// Package solve finds the best plan of a score.
//
// The score is a chain of gaps and events. After an event all that the rest of
// the tune can ask is what the hand holds, what just played, and which fingers
// have had a written note: a state. Gaps lead from state to state, either in the
// same placing or over a boundary; a gap's cost is the weighed sum over all that
// may sound in it, each played as cheaply as the two placings allow. The least
// cost over all paths, forward and backward, gives the plan and its prices.
package solve

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Plan gives the best plan of a score in which bars that come again are played
// alike (score.Figures), and the score it is a plan of: the same, but that an
// ornament or a pin that cannot be played is left out of it and named in
// Plan.Dropped. Every event must be one that the hand can hold
// (hand.Fingerings not empty), else there is no plan: no events, and the cost is
// plan.None. What is given is not altered.
func Plan(given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	return newSolver(given, r).plan()
}

func (v *solver) plan() (plan.Plan, score.Score) {
	defer v.rise()
	p := v.solve()
	if p.Cost < plan.None {
		p.Proof = plan.Proof{Moments: v.moments(), Least: p.Cost - p.Likeness.Gap}
		v.prices(&p)
		v.fits(&p)
		v.houses(&p)
	}
	return p, v.s
}

// moments counts the events after which the least cost of what leads there and of
// what follows is that of the plan: all, if forward and backward agree.
func (v *solver) moments() (agree int) {
	best := v.best()
	for i := range v.layers {
		least := never
		for k := range v.layers[i].states {
			if c := v.layers[i].alpha[k].plus(v.layers[i].beta[k]); c.less(least) {
				least = c
			}
		}
		if least == best {
			agree++
		}
	}
	return agree
}

// Best is Plan without what is told about it: prices and fits are left empty.
func Best(given score.Score, r rule.Rules) (plan.Plan, score.Score) {
	p, v := best(given, r)
	defer v.rise()
	return p, v.s
}

func best(given score.Score, r rule.Rules) (plan.Plan, *solver) {
	v := newSolver(given, r)
	return v.solve(), v
}

func (v *solver) solve() plan.Plan {
	v.forward()
	if v.best().cost >= most {
		return plan.Plan{Cost: plan.None, Dropped: v.dropped}
	}
	v.alike(v.s.Figures(), true)
	if v.like == nil {
		v.backward()
	}
	p := v.build(v.walk())
	p.Cost = plan.Cost(v.best().cost)
	if v.like != nil {
		p.Likeness = v.like.told
	}
	return p
}

// Least gives the cost of the best plan alone, plan.None if there is none.
func Least(given score.Score, r rule.Rules) plan.Cost {
	v := newSolver(given, r)
	defer v.rise()
	v.forward()
	return min(plan.None, plan.Cost(v.alike(v.s.Figures(), false).cost))
}

type solver struct {
	s       score.Score
	r       rule.Rules
	takes   []*strokes // by event: the strokes it may be played with
	layers  []layer    // by event
	gaps    []edges    // by gap
	dropped []plan.Dropped
	path    []*step   // the plan found: the state after each event
	like    *likeness // nil where no bar comes again
	*desk
}

func newSolver(given score.Score, r rule.Rules) *solver {
	d := desks.Get().(*desk)
	d.begin(&r)
	return sit(d, given, r)
}

// sit begins to solve a score at a desk that is ready for its rules.
//
//go:noinline
func sit(d *desk, given score.Score, r rule.Rules) *solver {
	s := given
	s.Events = append([]score.Event(nil), given.Events...)
	s.Gaps = append([]score.Gap(nil), given.Gaps...)
	n := len(s.Events)
	return &solver{s: s, r: r, desk: d, takes: make([]*strokes, n), layers: make([]layer, n), gaps: make([]edges, len(s.Gaps))}
}

// rise leaves the desk to others; nothing of the solver is to be used any more.
func (v *solver) rise() { desks.Put(v.desk) }

// forward finds the least cost to every state. Where nothing leads on, it
// leaves out what stands in the way, and no more: house fingerings of the gap
// first, then its ornaments, in their order; then, if that is not enough, pins of
// the event after it and its wish about the boundary.
func (v *solver) forward() {
	for j := range v.s.Gaps {
		if v.try(j) {
			continue
		}
		if v.without(j) {
			continue
		}
		if j == len(v.s.Events) || !v.unpin(j) {
			return // an event that the hand cannot hold: there is no plan
		}
	}
}

// try works out gap j and reports whether anything leads on.
func (v *solver) try(j int) bool {
	if j < len(v.s.Events) {
		v.takes[j] = v.strokesOf(&v.s.Events[j])
	}
	return v.connect(j)
}

// without tries gap j with those of its ornaments that can be played, and then
// with those house fingerings that they and the event after it can have.
func (v *solver) without(j int) bool {
	all, chord := v.s.Gaps[j].Sites, v.anyFingers(j)
	some := silenced(all)
	v.sites(j, some)
	if !v.try(j) {
		v.sites(j, all)
		v.likeThis(j, chord)
		return false
	}
	for k, site := range all {
		for i, o := range site.Ornaments {
			if o.Likelihood == 0 {
				continue
			}
			o.House = nil
			some[k].Ornaments[i] = o
			v.s.WeighGap(j)
			if !v.try(j) {
				some[k].Ornaments[i].Likelihood, some[k].Ornaments[i].On = 0, false
				v.s.WeighGap(j)
				v.dropped = append(v.dropped, plan.Dropped{Event: -1, Gap: j, Site: k, Which: i})
			}
		}
	}
	return v.asUsual(j, all, chord)
}

// silenced are sites of which nothing sounds.
func silenced(all []score.Site) []score.Site {
	silent := make([]score.Site, len(all))
	for k, site := range all {
		silent[k] = site
		silent[k].Ornaments = append([]score.Ornament(nil), site.Ornaments...)
		for i := range site.Ornaments {
			silent[k].Ornaments[i].Likelihood, silent[k].Ornaments[i].On = 0, false
		}
	}
	return silent
}

// sites puts other sites into gap j.
//
//go:noinline
func (v *solver) sites(j int, sites []score.Site) {
	v.s.Gaps[j] = score.Gap{Sites: sites}
	v.s.WeighGap(j)
}

// unpin tries gap j with those of the pins of the event after it, and then of
// its wish about the boundary, that can be obeyed; ornaments give way to both.
func (v *solver) unpin(j int) bool {
	e := &v.s.Events[j]
	at, pins := len(v.dropped), 0
	v.dropped = append(v.dropped, plan.Dropped{Event: j, Gap: -1})
	asked, wish, all := e.Notes, e.Boundary, v.s.Gaps[j].Sites
	e.Notes = append([]score.Note(nil), asked...)
	for i := range e.Notes {
		e.Notes[i].Pin = 0
	}
	e.Boundary = score.Open
	chord := v.anyFingers(j)
	v.sites(j, silenced(all))
	if !v.try(j) {
		v.sites(j, all)
		return false
	}
	for i, n := range asked {
		if e.Notes[i].Pin = n.Pin; n.Pin != 0 && !v.try(j) {
			e.Notes[i].Pin = 0
			pins++
		}
	}
	if e.Boundary = wish; wish != score.Open && !v.try(j) {
		e.Boundary = score.Open
		if pins == 0 {
			v.dropped[at].Wish = wish
		}
	}
	v.sites(j, all)
	v.likeThis(j, chord)
	return v.try(j) || v.without(j)
}

// Sharing is what keeping every decision open costs the plain tune: the plan p of s
// with nothing sounding, less the best plan of the tune without its sites, in which
// the same bars are alike.
func Sharing(s score.Score, r rule.Rules, p *plan.Plan) plan.Cost {
	if len(p.Events) == 0 || !slices.ContainsFunc(s.Gaps, func(g score.Gap) bool { return len(g.Patterns) > 1 }) {
		return 0 // nothing is prepared
	}
	silent := plan.Sum(&s, &r, p, plan.Silent(&s), false)
	v := newSolver(s, r)
	defer v.rise()
	v.forward()
	v.alike(s.Figures(), false)
	plain := sit(v.desk, s, r)
	plain.s.Gaps = make([]score.Gap, len(s.Gaps))
	plain.s.Weigh()
	plain.forward()
	var figures []score.Figure
	if v.like != nil {
		figures = v.like.figures
	}
	return plan.Cost(silent.Sum*score.Whole - plain.alike(figures, false).cost)
}

// prices fills in what each finger costs on each note.
func (v *solver) prices(p *plan.Plan) {
	if v.like != nil {
		for i := range p.Events {
			p.Events[i].Prices = v.like.prices[i]
		}
		return
	}
	best, all := v.best().cost, v.blank()
	var least []int64
	for i, l := range v.layers {
		least = least[:0]
		for range v.takes[i].list {
			least = append(least, most)
		}
		for k, b := range v.gaps[i].kinds {
			least[b] = min(least[b], l.alpha[k].plus(l.beta[k]).cost)
		}
		priced(v.s.Events[i].Notes, v.takes[i].list, least, best, all[i])
		p.Events[i].Prices = all[i]
	}
}

// blank makes room for the prices of all notes.
func (v *solver) blank() [][][4]plan.Cost {
	notes, all := 0, make([][][4]plan.Cost, len(v.s.Events))
	for i := range v.s.Events {
		notes += len(v.s.Events[i].Notes)
	}
	room := make([][4]plan.Cost, notes)
	for i := range all {
		n := len(v.s.Events[i].Notes)
		all[i], room = room[:n:n], room[n:]
	}
	return all
}
