package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// anyFingers takes the house fingerings off the event after gap j and gives them;
// likeThis puts them back.
func (v *solver) anyFingers(j int) [][]int8 {
	if j == len(v.s.Events) {
		return nil
	}
	ways := v.s.Events[j].House
	v.s.Events[j].House = nil
	return ways
}

func (v *solver) likeThis(j int, ways [][]int8) {
	if j < len(v.s.Events) {
		v.s.Events[j].House = ways
	}
}

// asUsual tries gap j, which can be played with any fingers, with one house
// fingering after the other: of the chord after it, then of its ornaments. Those
// that leave no way are left out.
func (v *solver) asUsual(j int, all []score.Site, chord [][]int8) bool {
	if len(chord) > 0 {
		if v.likeThis(j, chord); !v.try(j) {
			v.anyFingers(j)
			v.dropped = append(v.dropped, plan.Dropped{Event: j, Gap: -1, House: chord})
		}
	}
	for k, site := range all {
		for i, o := range site.Ornaments {
			now := &v.s.Gaps[j].Sites[k].Ornaments[i]
			if len(o.House) == 0 || now.Likelihood == 0 {
				now.House = o.House // for one that is only asked about
				continue
			}
			now.House = o.House
			if v.s.WeighGap(j); !v.try(j) {
				now.House = nil
				v.s.WeighGap(j)
				v.dropped = append(v.dropped, plan.Dropped{Event: -1, Gap: j, Site: k, Which: i, House: o.House})
			}
		}
	}
	return v.try(j)
}

// houses tells of every house fingering how it fares, and what following them
// costs: all together, and each one with the others followed.
func (v *solver) houses(p *plan.Plan) {
	if v.s.Housed() {
		p.Usual = max(0, p.Cost-v.free())
	}
	for j := range v.s.Gaps {
		for k, site := range v.s.Gaps[j].Sites {
			for i, o := range site.Ornaments {
				if o.Likelihood > 0 && len(o.House) > 0 {
					p.House = append(p.House, plan.House{Event: -1, Gap: j, Site: k, Which: i, Fingers: v.taken(p, j, k, i), Followed: true,
						Extra: v.freed(p, j, k, i)})
				}
			}
		}
		if j < len(v.s.Events) && len(v.s.Events[j].House) > 0 {
			e := &v.s.Events[j]
			p.House = append(p.House, plan.House{Event: j, Gap: -1, Fingers: e.House[e.Liking(p.Events[j].Stroke)], Followed: true,
				Extra: v.eased(p, j)})
		}
	}
	for _, d := range v.dropped {
		if len(d.House) > 0 {
			p.House = append(p.House, plan.House{Event: d.Event, Gap: d.Gap, Site: d.Site, Which: d.Which, Fingers: d.House[0]})
		}
	}
	source.Order(p.House, func(a, b plan.House) int { return cmp.Compare(max(a.Event, a.Gap), max(b.Event, b.Gap)) })
}

// free is the cost of the best plan with any fingers, in which the same bars are
// alike.
func (v *solver) free() plan.Cost {
	free := sit(v.desk, v.s.Free(), v.r)
	free.forward()
	var figures []score.Figure
	if v.like != nil {
		figures = v.like.figures
	}
	return plan.Cost(free.alike(figures, false).cost)
}

// taken gives the fingers of an ornament and its note where it sounds alone, as
// they are played.
func (v *solver) taken(p *plan.Plan, j, k, i int) []int8 {
	site := v.s.Gaps[j].Sites[k]
	note := p.Events[site.Event].Finger(v.s.Adorned(site))
	for _, way := range site.Ornaments[i].House {
		main := len(way) - 1
		if site.After { // its note comes first
			main = 0
		}
		own := int(way[main]) == note
		for n, touch := range p.Gaps[j].Fits[k][i].Touches {
			at := n
			if site.After {
				at++
			}
			own = own && way[at] == touch.Finger
		}
		if own {
			return way
		}
	}
	return nil
}

// freed is what is saved where one ornament alone may have any fingers, eased
// where one chord may. A bar that is like others need not be so for it.
func (v *solver) freed(p *plan.Plan, j, k, i int) plan.Cost {
	return v.saved(p, v.s.Gaps[j].Sites[k].Event, j, func() {
		v.s.Gaps[j] = anyFingered(v.s.Gaps[j], k, i)
		v.s.WeighGap(j)
	})
}

func (v *solver) eased(p *plan.Plan, j int) plan.Cost {
	takes, ways := v.takes[j], v.anyFingers(j)
	saved := v.saved(p, j, j, func() { v.takes[j] = v.strokesOf(&v.s.Events[j]) })
	v.takes[j] = takes
	v.likeThis(j, ways)
	return saved
}

// saved is what the best plan costs less after a change in gap j, for an event
// beside it. Where all house fingerings together cost nothing, nor does any of
// them.
func (v *solver) saved(p *plan.Plan, event, j int, change func()) (saved plan.Cost) {
	if p.Usual <= 0 {
		return 0
	}
	bar := v.loosen(event, j, p.Cost)
	old := window{gap: v.s.Gaps[j], at: j, from: bar.first, values: v.values.at}
	change()
	v.anew(&bar, &old, func(_ int, _ int32, best value) { saved = plan.Cost(bar.least - best.cost) })
	v.restore(&old)
	v.tighten(&bar)
	return saved
}

// anew works the gaps out anew, for a bar that was loosened, until the states are
// the old ones again; from there on all is as it was. It gives the best plan there
// is now, and a state that it goes through after event at. What stood there before
// is put into old.
func (v *solver) anew(bar *loosened, old *window, found func(at int, state int32, best value)) {
	for g := bar.first; g < len(v.gaps); g++ {
		old.gaps = append(old.gaps, v.gaps[g])
		if g < len(v.layers) {
			old.layers = append(old.layers, v.layers[g])
		}
		if !v.connect(g) {
			return
		}
		if g == len(v.layers) {
			best := v.best()
			found(g-1, v.last(best), best)
			return
		}
		if g > bar.past && v.layers[g].within(&old.layers[g-bar.first]) {
			v.layers[g].beta = old.layers[g-bar.first].beta
			if at, best := v.layers[g].cheapest(); best != never { // else from here on nothing leads to the end
				found(g, at, best)
			}
			return
		}
	}
}

// anyFingered is a gap in which one ornament has no house fingering.
func anyFingered(g score.Gap, k, i int) score.Gap {
	sites := slices.Clone(g.Sites)
	sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
	sites[k].Ornaments[i].House = nil
	return score.Gap{Sites: sites}
}
