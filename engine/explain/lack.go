package explain

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Lack is what is wanting where an ornament cannot be played.
type Lack int8

const (
	TooFast    Lack = iota // the fingers for it cannot follow so fast, or the hand has no time to be set
	NoFinger               // the notes struck with its own, or a finger asked for, leave no finger for a string of it
	BeyondHand             // there are fingers, but the hand does not open so far
)

// String says it, of one ornament or of many alike.
func (l Lack) String() string {
	return [...]string{"no hand can be ready for it at this tempo", "no finger is left for it", "wider than your hand"}[l]
}

// Help says what to do about it.
func (l Lack) Help() string {
	return [...]string{
		"Slow down, choose a shorter ornament, or leave it out.",
		"Free a finger that is asked for here, leave out a note of the chord, or choose another ornament.",
		"Choose an ornament on nearer strings, or a wider reach if your hand opens further.",
	}[l]
}

// Lacking says what is wanting for an ornament that cannot be played on its note. One
// on the beat is quick, so that one placing must hold its strings beside all that is
// struck with its note: it is the tempo only if the hand could do that. So it is of a
// trill. Another that is spread after its note could have the hand set for it, given
// time.
func Lacking(s *score.Score, r *rule.Rules, gap, site, which int) Lack {
	st := &s.Gaps[gap].Sites[site]
	if row, _ := ornament.Named(st.Ornaments[which].Name); st.After && !row.Repeat {
		return TooFast
	}
	e := &s.Events[st.Event]
	need := e.Strings()
	strokes := st.Ornaments[which].Strokes
	for i, stroke := range strokes {
		next, until := e.Strings(), st.Ornaments[which].Delay
		if i+1 < len(strokes) {
			next, until = []int8{strokes[i+1].String}, strokes[i+1].At
		}
		soon := slices.Contains(next, stroke.String) && until-stroke.At < rule.RepeatLeast
		if soon || !slices.Contains(need, stroke.String) {
			need = append(need, stroke.String) // another finger, on this string or on that
		}
	}
	slices.Sort(need)
	slices.Reverse(need)
	order, reach := holds(r, e, need, hand.Empty(), 0)
	switch {
	case !order:
		return NoFinger
	case !reach:
		return BeyondHand
	}
	return TooFast
}

// holds reports whether there are fingers from one on for strings, the highest first,
// those asked for on the notes of an event among them, and whether the hand reaches
// them as well.
func holds(r *rule.Rules, e *score.Event, need []int8, held hand.Frame, from int) (order, reach bool) {
	if len(need) == 0 {
		return !slices.ContainsFunc(e.Notes, func(n score.Note) bool {
			return n.Pin != 0 && slices.Index(held[:], n.String) != int(n.Pin)-1 // of several fingers on a string the note has the last
		}), r.Hand.Valid(r.Harp, held)
	}
	for f := from; f < 4; f++ {
		if !r.Hand.InUse[f] {
			continue
		}
		with := held
		with[f] = need[0]
		fingers, opens := holds(r, e, need[1:], with, f+1)
		order, reach = order || fingers, reach || fingers && opens
	}
	return order, reach
}

// lacking says what is wanting for an ornament in a sentence about it.
func (t *teller) lacking(gap, site, which int) string {
	lack := Lacking(t.s, t.r, gap, site, which)
	if lack == BeyondHand {
		return "your hand does not open so far"
	}
	return lack.String()
}

// leftOut reports an ornament that the plan had to leave out.
func (t *teller) leftOut(gap, site, which int) bool {
	return slices.ContainsFunc(t.p.Dropped, func(d plan.Dropped) bool {
		return len(d.House) == 0 && d.Event < 0 && d.Gap == gap && d.Site == site && d.Which == which
	})
}

// barred is a finger that cannot play a note, and why; "" where that is not known.
type barred struct{ finger, why string }

// whyNot says why a finger cannot play a note: an ornament of it, or what is struck with
// it, would have no finger then, or the hand does not open so far.
func whyNot(s *score.Score, r *rule.Rules, event, note, f int) string {
	asked := *s
	asked.Events = slices.Clone(s.Events)
	e := &asked.Events[event]
	e.Notes = slices.Clone(e.Notes)
	e.Notes[note].Pin = int8(f) + 1
	for j := event; j <= event+1; j++ {
		for k, site := range s.Gaps[j].Sites {
			for i, o := range site.Ornaments {
				if site.Event == event && o.Likelihood > 0 && Lacking(&asked, r, j, k, i) == NoFinger {
					return "it leaves none for the " + o.Title
				}
			}
		}
	}
	need := e.Strings()
	slices.Reverse(need)
	switch order, reach := holds(r, e, need, hand.Empty(), 0); {
	case !order:
		return "it leaves none for the rest of the chord"
	case !reach:
		return "the hand does not open so far"
	}
	return ""
}

// told says which fingers cannot play a note, those for one reason together: " 1 cannot
// play it here: it leaves none for the cut."
func told(cannot []barred) (text string) {
	for i, x := range cannot {
		if slices.ContainsFunc(cannot[:i], func(y barred) bool { return x.why == y.why }) {
			continue
		}
		var who []string
		for _, y := range cannot[i:] {
			if x.why == y.why {
				who = append(who, y.finger)
			}
		}
		text += " " + list(who) + " cannot play it here"
		if x.why != "" {
			text += ": " + x.why
		}
		text += "."
	}
	return text
}
