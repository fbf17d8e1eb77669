package engine

import (
	"strings"

	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

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
					a.look(w, i)
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
		if lost(&other) > 0 {
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
	if p, _ := solve.Best(wished(h.Score, e.Notes[note].Written, score.Stay), h.Rules); lost(&p) == 0 {
		return &p
	}
	return nil
}

// lost counts what a plan left out, but for house fingerings. A hand's score is
// without what its plan left out: solved again it loses only what is asked for besides.
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

// costly says what a finger, or a setting of the hand, that was just asked for
// costs, and why: "It takes 12 more effort: the fourth finger."; "" where it takes
// none. before is the hand without the wish.
func (h *Hand) costly(before *Hand, written int, placing bool) string {
	extra := h.Plan.Cost - before.Plan.Cost
	effort := explain.Effort(extra)
	if extra <= 0 || effort == "0" {
		return ""
	}
	text := "It takes " + effort + " more effort"
	for event, e := range h.Score.Events {
		for note, n := range e.Notes {
			if n.Written != written || !sameNotes(&before.Plan, &h.Plan) {
				continue
			}
			free := before.Score.Events[event].Notes[note].Pin == 0
			if placing {
				free = before.Score.Events[event].Boundary == score.Open
			}
			if !free {
				return text + "."
			}
			return text + explain.Against(&h.Score, &h.Rules, &before.Plan, &h.Plan, event, note, placing, solve.Loose).Text
		}
	}
	return text + "."
}

// sameNotes reports whether two plans are of the same events.
func sameNotes(p, q *plan.Plan) bool { return len(p.Events) > 0 && len(p.Events) == len(q.Events) }

// asksFor reports what a command asks of one note: a finger, or that the hand is set
// there or stays.
func asksFor(command string) (finger string, placing, ok bool) {
	word, finger, _ := strings.Cut(command, " ")
	switch {
	case strings.Contains(command, ";"):
		return "", false, false
	case strings.HasPrefix(word, "finger@"):
		return finger, false, finger != "free"
	}
	return "", true, strings.HasPrefix(word, "set@") || strings.HasPrefix(word, "stay@")
}
