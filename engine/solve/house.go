package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/score"
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
		p.Usual = p.Cost - Least(v.s.Free(), v.r)
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
				Extra: v.loosened(p, j)})
		}
	}
	for _, d := range v.dropped {
		if len(d.House) > 0 {
			p.House = append(p.House, plan.House{Event: d.Event, Gap: d.Gap, Site: d.Site, Which: d.Which, Fingers: d.House[0]})
		}
	}
	slices.SortStableFunc(p.House, func(a, b plan.House) int { return cmp.Compare(max(a.Event, a.Gap), max(b.Event, b.Gap)) })
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

// freed is what is saved where one ornament alone may have any fingers, loosened
// where one chord may.
func (v *solver) freed(p *plan.Plan, j, k, i int) plan.Cost {
	old := v.s.Gaps[j]
	v.s.Gaps[j] = anyFingered(old, k, i)
	v.s.WeighGap(j)
	saved := v.saved(p, j)
	v.s.Gaps[j] = old
	return saved
}

func (v *solver) loosened(p *plan.Plan, j int) plan.Cost {
	old, ways := v.options[j], v.anyFingers(j)
	v.options[j] = v.strokes(&v.s.Events[j])
	saved := v.saved(p, j)
	v.options[j] = old
	v.likeThis(j, ways)
	return saved
}

// saved is what the best plan costs less after a change in gap j. Where all house
// fingerings together cost nothing, nor does any of them.
func (v *solver) saved(p *plan.Plan, j int) plan.Cost {
	best := p.Cost
	if p.Usual > 0 {
		v.anew(j, func(_ int, _ int32, now value) { best = plan.Cost(now.cost) })
	}
	return p.Cost - best
}

// anyFingered is a gap in which one ornament has no house fingering.
func anyFingered(g score.Gap, k, i int) score.Gap {
	sites := slices.Clone(g.Sites)
	sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
	sites[k].Ornaments[i].House = nil
	return score.Gap{Sites: sites}
}
