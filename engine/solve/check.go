package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// mostMisfits is how many places are named where a fingering cannot be played.
const mostMisfits = 3

// Check holds a player's own fingering against the best plan of the same tune. The
// fingers are the pins of the score, the placings its wishes; what it leaves open
// is taken as cheaply as the rest allows. The best plan is the one without either.
func Check(asked score.Score, r rule.Rules) plan.Check {
	free, own := asked, asked
	free.Events, own.Events = slices.Clone(asked.Events), slices.Clone(asked.Events)
	own.Gaps = slices.Clone(asked.Gaps)
	for i := range free.Events {
		e := &free.Events[i]
		e.Notes, e.Boundary = slices.Clone(e.Notes), score.Open
		for k := range e.Notes {
			e.Notes[k].Pin = 0
		}
	}
	unhoused(&own)
	c := plan.Check{Extra: plan.None, Score: &own}
	c.Best, free = Best(free, r)
	c.Misfits = clashes(&own, &r)
	if c.Best.Cost >= plan.None || len(c.Misfits) > 0 {
		return c
	}
	var played score.Score
	c.Own, played = Best(own, r)
	c.Score = &played
	c.Misfits = append(left(&c, &own), hurried(&free, &r, &c)...)
	c.Misfits = c.Misfits[:min(len(c.Misfits), mostMisfits)]
	if c.Playable = len(c.Misfits) == 0 && c.Own.Cost < plan.None; c.Playable {
		c.Extra = c.Own.Cost - c.Best.Cost
	}
	return c
}

// unhoused takes off the house fingerings that other fingers are asked for
// against: of a chord, and of an ornament by the finger of its note.
func unhoused(s *score.Score) {
	for i := range s.Events {
		e := &s.Events[i]
		if !slices.ContainsFunc(e.House, func(way []int8) bool {
			for k, n := range e.Notes {
				if n.Pin != 0 && n.Pin != way[k]+1 {
					return false
				}
			}
			return true
		}) {
			e.House = nil
		}
	}
	for j := range s.Gaps {
		for i, site := range s.Gaps[j].Sites {
			pin := pinOf(&s.Events[site.Event], site.Written)
			for w, o := range site.Ornaments {
				if pin == 0 || len(o.House) == 0 || slices.ContainsFunc(o.House, func(way []int8) bool {
					at := len(way) - 1
					if site.After {
						at = 0
					}
					return way[at]+1 == pin
				}) {
					continue
				}
				s.Gaps[j].Sites = slices.Clone(s.Gaps[j].Sites)
				at := &s.Gaps[j].Sites[i]
				at.Ornaments = slices.Clone(at.Ornaments)
				at.Ornaments[w].House = nil
				s.WeighGap(j)
			}
		}
	}
}

func pinOf(e *score.Event, written int) int8 {
	for _, n := range e.Notes {
		if n.Written == written {
			return n.Pin
		}
	}
	return 0
}

// clashes finds where the fingers asked for cannot be held together: in one chord,
// or in one placing where the hand is asked to stay. From each on it looks as if
// the hand were set there.
func clashes(s *score.Score, r *rule.Rules) []plan.Misfit {
	var found []plan.Misfit
	var holds [4]holding
	for i := range s.Events {
		e := &s.Events[i]
		if e.Forced || e.Boundary != score.Stay || i == 0 {
			holds = [4]holding{}
		}
		m, ok := take(&holds, s, r, i)
		if !ok {
			if found = append(found, m); len(found) == mostMisfits {
				break
			}
			holds = [4]holding{}
			take(&holds, s, r, i)
		}
	}
	return found
}

// Holds reports whether the fingers asked for can all be held as the placings are
// asked for.
func Holds(s *score.Score, r *rule.Rules) bool { return len(clashes(s, r)) == 0 }

// holding is the string of a finger, and the event, from 1, that it took it in; 0
// for none.
type holding struct {
	string int8
	since  int
}

// take adds the fingers asked for in an event to those that hold a string, and
// says what cannot be held.
func take(holds *[4]holding, s *score.Score, r *rule.Rules, i int) (plan.Misfit, bool) {
	e := &s.Events[i]
	part := e.Rolled && fingered(e) && slices.Contains(r.Hand.InPart(r.Harp, e.Strings()), asked(e))
	for _, n := range e.Notes {
		f := int(n.Pin) - 1
		if f < 0 {
			continue
		}
		m := plan.Misfit{Event: i, With: -1, Finger: f, Other: -1, Gap: -1}
		if !r.Hand.InUse[f] {
			m.Kind = plan.FingerNotInUse
			return m, false
		}
		if h := holds[f]; h.since > 0 && h.string != n.String {
			m.Kind, m.With, m.Other = plan.TwoStrings, h.since-1, f
			return m, false
		}
		for g, h := range holds {
			m.With, m.Other = h.since-1, g
			switch {
			case h.since == 0 || part && h.since == i+1 && g != f:
			case g < f && n.String > h.string || g > f && n.String < h.string || g != f && n.String == h.string && h.since == i+1:
				m.Kind = plan.OutOfOrder
				return m, false
			case g != f && r.Harp.Distance(n.String, h.string) > r.Hand.Limits[f][g].Most:
				m.Kind = plan.OutOfReach
				return m, false
			}
		}
		holds[f] = holding{n.String, i + 1}
	}
	return plan.Misfit{}, true
}

// fingered reports whether a finger is asked for on each note of an event, asked
// gives the stroke they make.
func fingered(e *score.Event) bool {
	return !slices.ContainsFunc(e.Notes, func(n score.Note) bool { return n.Pin == 0 })
}

func asked(e *score.Event) hand.Frame {
	stroke := hand.Empty()
	for _, n := range e.Notes {
		stroke[n.Pin-1] = n.String
	}
	return stroke
}

// left finds what the solver had to leave out to play these fingers and need not
// leave out otherwise: ornaments, which have no way left, or fingers, of which it
// then finds the first that cannot follow those before it.
func left(c *plan.Check, own *score.Score) []plan.Misfit {
	var found []plan.Misfit
	fingers := c.Own.Cost >= plan.None
	for _, d := range c.Own.Dropped {
		switch {
		case len(d.House) > 0 || d.Gap >= 0 && slices.ContainsFunc(c.Best.Dropped, func(b plan.Dropped) bool {
			return b.Gap == d.Gap && b.Site == d.Site && b.Which == d.Which && len(b.House) == 0
		}):
		case d.Gap >= 0:
			event := own.Gaps[d.Gap].Sites[d.Site].Event
			found = append(found, plan.Misfit{Kind: plan.NoTimeToPlay, Event: event, With: -1, Finger: -1, Other: -1,
				Gap: d.Gap, Site: d.Site, Which: d.Which})
		default:
			fingers = true
			found = append(found, plan.Misfit{Kind: plan.PinIgnored, Event: d.Event, With: -1, Finger: -1, Other: -1, Gap: -1})
		}
	}
	if fingers && len(found) == 0 {
		found = append(found, plan.Misfit{Kind: plan.PinIgnored, Event: 0, With: -1, Finger: -1, Other: -1, Gap: -1})
	}
	source.Order(found, func(a, b plan.Misfit) int { return a.Event - b.Event })
	return found
}

// hurried finds where these fingers must repeat faster than a finger can, and the
// best plan's need not.
func hurried(free *score.Score, r *rule.Rules, c *plan.Check) []plan.Misfit {
	var found []plan.Misfit
	if c.Own.Cost >= plan.None {
		return nil
	}
	mine, best := tooFast(c.Score, r, &c.Own), tooFast(free, r, &c.Best)
	for _, e := range mine {
		if !slices.Contains(best, e) {
			found = append(found, plan.Misfit{Kind: plan.NoTimeToPlay, Event: e, With: e - 1, Finger: -1, Other: -1, Gap: -1})
		}
	}
	return found
}

// tooFast lists the events that are played faster than one finger can repeat.
func tooFast(s *score.Score, r *rule.Rules, p *plan.Plan) []int {
	var events []int
	bill := plan.Sum(s, r, p, plan.Silent(s), true)
	for i, item := range bill.Items {
		if item.Rule == rule.TooFast {
			events = append(events, bill.Places[i].Gap)
		}
	}
	return events
}
