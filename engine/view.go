package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// view gathers what draw shows of an answer: the one way from an answer to its
// picture, for the static page and the browser alike.
func (a Answer) view(name string, notes []string) draw.View {
	v := draw.View{Name: name, Tune: a.Block.Hands, Text: a.Block.Text, QuarterMS: a.Tempo.QuarterMS,
		Remarks: a.Remarks, Notes: notes}
	for i := range a.Hands {
		h := &a.Hands[i]
		part := draw.Hand{Hand: h.Rules.Hand, Lifted: h.Rules.Lifted, Voice: i, Score: &h.Score, Plan: &h.Plan}
		for _, s := range explain.Plan(&h.Score, &h.Rules, &h.Plan) {
			part.Said = append(part.Said, draw.Sentence{Kind: int8(s.Kind), Bar: s.Bar, Event: s.Event, ID: s.ID, Text: s.Text})
		}
		for _, o := range explain.Each(&h.Score, &h.Plan) {
			part.Ornaments = append(part.Ornaments, draw.Ornament(o))
		}
		v.Hands = append(v.Hands, part)
	}
	v.House = a.houses()
	if a.Verdict != nil {
		v.Verdict = &draw.Verdict{Playable: a.Verdict.Playable, Says: a.Verdict.Says, Reasons: a.Verdict.Reasons}
	}
	if written, ok := a.Choice.Why(); ok {
		v.Why = a.why(name, written)
	}
	return v
}

// houses lists the ornaments of a tune that may have a house fingering, in the
// order of the catalogue.
func (a Answer) houses() []draw.House {
	here := map[string]bool{}
	for i := range a.Hands {
		for _, g := range a.Hands[i].Score.Gaps {
			for _, site := range g.Sites {
				for _, o := range site.Ornaments {
					here[o.Name] = true
				}
			}
		}
	}
	var list []draw.House
	for _, row := range ornament.Rows() {
		if here[row.Name] {
			list = append(list, draw.House{Name: row.Name, Title: row.Title, Now: a.Choice.HouseWords(row.Name),
				All: choice.Fingerings(row.Name, a.Hands[0].Rules.Hand.InUse)})
		}
	}
	return list
}

// why explains the finger of a written note, as it is first played; nil if no
// hand plays it.
func (a Answer) why(name string, written int) *draw.Why {
	for i := range a.Hands {
		h := &a.Hands[i]
		if len(h.Plan.Events) != len(h.Score.Events) {
			continue
		}
		for event, e := range h.Score.Events {
			for note, n := range e.Notes {
				if n.Written == written {
					w := h.why(i, event, note)
					w.Ways = h.beside(name, written)
					return w
				}
			}
		}
	}
	return nil
}

// why explains one note's finger, and the placing if the hand is set there.
func (h *Hand) why(index, event, note int) *draw.Why {
	best, ask := h.asked(event, note)
	r := explain.Finger(&h.Score, &h.Rules, &best, ask, event, note)
	set, _ := h.set(event, note)
	w := &draw.Why{Written: h.Score.Events[event].Notes[note].Written, Hand: index, Event: event, Note: note, Title: r.Title, Text: r.Text, Set: set}
	for _, o := range r.Others {
		w.Others = append(w.Others, draw.Other{Finger: o.Finger, Near: o.Near, Effort: o.Effort, Text: o.Text})
	}
	return w
}

// asked works out what the other fingers of a note would make of the tune. Another
// finger is asked for as the command does it, every time the note comes, so its
// price, put into the plan, is of all passes together.
func (h *Hand) asked(event, note int) (plan.Plan, explain.Asked) {
	best, ask := h.Plan, explain.Asked{Solve: solve.Loose}
	best.Events = append([]plan.Event(nil), best.Events...)
	prices := &best.Events[event].Prices
	*prices = append([][4]plan.Cost(nil), *prices...)
	n := h.Score.Events[event].Notes[note]
	if n.Pin != 0 {
		free, _ := solve.Best(asked(h.Score, n.Written, 0), h.Rules)
		ask.Free = &free
		return best, ask
	}
	for f := range int8(4) {
		if best.Events[event].Stroke[f] == n.String || (*prices)[note][f] == plan.None && !h.Score.Housed() {
			continue // a house fingering gives way to a finger that is asked for
		}
		other, _ := solve.Best(asked(h.Score, n.Written, f+1), h.Rules)
		if lost(&other) > lost(&best) {
			(*prices)[note][f] = plan.None
			continue
		}
		(*prices)[note][f], ask.Others[f] = max(0, other.Cost-best.Cost), &other
	}
	return best, ask
}

// set explains why the hand is set before a note; "" where it is not, or has no
// choice.
func (h *Hand) set(event, note int) (string, explain.Claim) {
	return explain.Set(&h.Score, &h.Rules, &h.Plan, h.kept(event, note), event, note, solve.Loose)
}

// kept is the best plan in which the hand stays where it is before a note at which
// it is set; nil where it has no choice.
func (h *Hand) kept(event, note int) *plan.Plan {
	e := &h.Score.Events[event]
	if event == 0 || !h.Plan.Bounded(event) || e.Forced || e.Boundary != score.Open {
		return nil
	}
	if p, _ := solve.Best(wished(h.Score, e.Notes[note].Written, score.Stay), h.Rules); lost(&p) <= lost(&h.Plan) {
		return &p
	}
	return nil
}

// lost counts what a plan left out, but for house fingerings.
func lost(p *plan.Plan) (n int) {
	for _, d := range p.Dropped {
		if len(d.House) == 0 {
			n++
		}
	}
	return n
}

// asked is the score with a finger asked for on a note, every time it comes.
func asked(s score.Score, written int, finger int8) score.Score {
	s.Events = append([]score.Event(nil), s.Events...)
	for i := range s.Events {
		e := &s.Events[i]
		e.Notes = append([]score.Note(nil), e.Notes...)
		for k := range e.Notes {
			if e.Notes[k].Written == written {
				e.Notes[k].Pin = finger
			}
		}
	}
	return s
}

// wished is the score with something asked of the hand before a note, every time it
// comes.
func wished(s score.Score, written int, boundary score.Boundary) score.Score {
	s.Events = append([]score.Event(nil), s.Events...)
	for i := range s.Events {
		for _, n := range s.Events[i].Notes {
			if n.Written == written {
				s.Events[i].Boundary = boundary
			}
		}
	}
	return s
}
