package solve

// What this file tells of the gaps is all that the ways beside the plan shown ask
// of how a gap is worked out.

// lane leads from a state before a gap to one after it. At the start of a tune and
// at its end there is one state, 0.
type lane struct {
	from, to int32
	placed   bool // the hand is set in this gap
	cost     int64
}

// lanes lists the ways through gap j that lie on a whole plan of no more than this
// cost.
func (v *solver) lanes(j int, limit int64) []lane {
	g := &v.gaps[j]
	var list []lane
	for _, e := range g.stay {
		if v.soFar(j, e.from)+e.value.cost+v.toGo(j+1, e.to) <= limit {
			list = append(list, lane{e.from, e.to, false, e.value.cost})
		}
	}
	leaves := make([][]edge, g.ports)
	for _, l := range g.leave {
		leaves[l.to] = append(leaves[l.to], l.edge)
	}
	if j == 0 {
		leaves[0] = []edge{{}}
	}
	for _, e := range g.over {
		cost, state := e.value.cost, e.to
		if g.alpha[e.from].cost+cost+v.toGo(j+1, state) > limit {
			continue
		}
		for _, l := range leaves[e.from] {
			if c := l.value.cost + cost; v.soFar(j, l.from)+c+v.toGo(j+1, state) <= limit {
				list = append(list, lane{l.from, state, true, c})
			}
		}
	}
	return list
}

// soFar is the least cost from the start to a state before gap j, toGo the
// least from it to the end.
func (v *solver) soFar(j int, state int32) int64 {
	if j == 0 {
		return 0
	}
	return v.layers[j-1].alpha[state].cost
}

func (v *solver) toGo(j int, state int32) int64 {
	switch {
	case j == 0:
		return v.best().cost
	case j > len(v.layers):
		return 0
	}
	return v.layers[j-1].beta[state].cost
}
