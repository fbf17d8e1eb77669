package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// pair groups the events that go together: a note on its passes, and what stands
// at the same place of bars that come again with the same fingers.
func (d *detours) pair() {
	s := &d.v.s
	d.passes, d.bars = make([][]int, len(s.Events)), make([][]int, len(s.Events))
	first := map[int][][]int{} // by note head: the events that play it, by their strings
	for e := range s.Events {
		n, strings := s.Events[e].Notes[0].Written, s.Events[e].Strings()
		at := slices.IndexFunc(first[n], func(group []int) bool { return slices.Equal(s.Events[group[0]].Strings(), strings) })
		if at < 0 {
			at = len(first[n])
			first[n] = append(first[n], nil)
		}
		first[n][at] = append(first[n][at], e)
	}
	for _, groups := range first {
		share(d.passes, groups)
	}
	for _, f := range s.Figures() {
		var alike [][]int // its bars, by how they are played
		for _, a := range f.At {
			at := slices.IndexFunc(alike, func(group []int) bool { return d.goTogether(group[0], a, f.Length) })
			if at < 0 {
				at = len(alike)
				alike = append(alike, nil)
			}
			alike[at] = append(alike[at], a)
		}
		for _, bars := range alike {
			for k := range f.Length {
				group := slices.Clone(bars)
				for i := range group {
					group[i] += k
				}
				share(d.bars, [][]int{group})
			}
		}
	}
}

// share gives each event its group, if it is not alone in it.
func share(all, groups [][]int) {
	for _, group := range groups {
		for _, e := range group {
			if len(group) > 1 {
				all[e] = group
			}
		}
	}
}

// goTogether reports whether the plan shown has the same fingers in two bars,
// and sets the hand at the same places inside them.
func (d *detours) goTogether(a, b, length int) bool {
	for k := range length {
		x, y := d.shown(a+k), d.shown(b+k)
		if x.stroke != y.stroke || k > 0 && x.placed != y.placed {
			return false
		}
	}
	return true
}

// tip looks just before a near-tie and just after it for another stroke that would
// make it the cheaper way; nil if there is none. It takes the one with which the
// tune costs least.
func (d *detours) tip(o *plan.Other) *plan.Tip {
	var found *plan.Tip
	least := d.limit + 1
	changed := func(e int) *plan.Change {
		for i := range o.Changes {
			if o.Changes[i].Event == e {
				return &o.Changes[i]
			}
		}
		return nil
	}
	for _, e := range [...]int{o.From - 1, o.To + 1} {
		if e < 0 || e >= len(d.v.s.Events) || changed(e) != nil {
			continue
		}
		for _, stroke := range d.strokes(e) {
			if stroke == d.p.Events[e].Stroke {
				continue
			}
			ask := func(other bool) int64 {
				return d.least(min(e, o.From), max(e, o.To), func(j, way int) bool {
					is := d.gaps[j].ways[way]
					switch c := changed(j); {
					case j == e:
						return is.stroke == stroke
					case c == nil:
						return true
					case other:
						return is == taking{c.Stroke, c.Placed}
					}
					return is == d.shown(j)
				})
			}
			if with := ask(true); with < least && with < ask(false) {
				least, found = with, &plan.Tip{Event: e, Stroke: stroke}
			}
		}
	}
	return found
}

// strokes lists the strokes an event may have.
func (d *detours) strokes(e int) []hand.Frame {
	var list []hand.Frame
	for _, way := range d.gaps[e].ways {
		if !slices.Contains(list, way.stroke) {
			list = append(list, way.stroke)
		}
	}
	return list
}

// Whole gives the complete plan of another way: the plan p of s with its changes.
func Whole(s score.Score, r rule.Rules, p *plan.Plan, o *plan.Other) plan.Plan {
	if o.Whole != nil {
		return *o.Whole
	}
	s.Events = slices.Clone(s.Events)
	next := 0
	for i := range s.Events {
		is := taking{p.Events[i].Stroke, p.Bounded(i)}
		if next < len(o.Changes) && o.Changes[next].Event == i {
			is = taking{o.Changes[next].Stroke, o.Changes[next].Placed}
			next++
		}
		pin(&s.Events[i], is.stroke, is.placed)
	}
	whole, _ := Best(s, r)
	return whole
}

// Taken gives the best plan once a way is asked for: its fingers and its placings,
// where they are others than those of p.
func Taken(s score.Score, r rule.Rules, p *plan.Plan, o *plan.Other) plan.Plan {
	s.Events = slices.Clone(s.Events)
	for _, c := range o.Changes {
		e := &s.Events[c.Event]
		e.Notes = slices.Clone(e.Notes)
		for k := range e.Notes {
			n := &e.Notes[k]
			if f := slices.Index(c.Stroke[:], n.String); f != p.Events[c.Event].Finger(n.String) {
				n.Pin = int8(f + 1)
			}
		}
		switch {
		case e.Forced || c.Placed == p.Bounded(c.Event):
		case c.Placed:
			e.Boundary = score.Set
		default:
			e.Boundary = score.Stay
		}
	}
	whole, _ := Best(s, r)
	return whole
}

// pin asks for a stroke, and for the hand to be set before it or not.
func pin(e *score.Event, stroke hand.Frame, placed bool) {
	e.Notes = slices.Clone(e.Notes)
	for k := range e.Notes {
		e.Notes[k].Pin = int8(slices.Index(stroke[:], e.Notes[k].String) + 1)
	}
	switch {
	case e.Forced:
		e.Boundary = score.Open
	case placed:
		e.Boundary = score.Set
	default:
		e.Boundary = score.Stay
	}
}
