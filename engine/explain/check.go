package explain

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// Verdict says in a sentence how a player's own fingering fares.
func Verdict(playable bool, extra plan.Cost) string {
	e := Effort(extra)
	switch {
	case !playable:
		return "This fingering cannot be played as it stands."
	case e == "0":
		return "This fingering can be played, and nothing takes less effort."
	case extra < 0:
		return "This fingering can be played. It takes " + Effort(-extra) + " less effort than the one found here, which keeps bars that are the same alike."
	}
	return "This fingering can be played. It takes " + e + " more effort than the best."
}

// Names gives a way to name what each event of a score plays: "the D in bar 2".
func Names(s *score.Score) func(event int) string {
	b := newBook(s)
	return func(event int) string { return b.event(event) + " in " + bar(s.Events[event].Bar) }
}

// placesShown is how many places a check tells of before the rest are counted.
const placesShown = 6

// Check says why: where a fingering cannot be played, or where it differs from the
// best, what costs more there, and what the cheaper one does instead. Where
// nothing costs more there is nothing to say.
func Check(r *rule.Rules, c *plan.Check) []string {
	b := newBook(c.Score)
	var said []string
	for _, m := range c.Misfits {
		said = append(said, b.misfit(&m))
	}
	if !c.Playable {
		return said
	}
	places := b.places(r, c)
	for i, p := range places {
		if i == placesShown && len(places) > placesShown+1 {
			return append(said, "And at "+many(len(places)-placesShown)+" more places.")
		}
		said = append(said, b.place(c, p))
	}
	return said
}

// asked lists the notes of a chord that one finger is asked to play.
func (b *book) asked(event, f int) string {
	var names []string
	for k, n := range b.s.Events[event].Notes {
		if int(n.Pin) == f+1 {
			names = append(names, b.short(event, k))
		}
	}
	return list(names)
}

// misfit says where and why fingers cannot be played.
func (b *book) misfit(m *plan.Misfit) string {
	note := func(event, f int) string { // the note that a finger plays
		for k, n := range b.s.Events[event].Notes {
			if int(n.Pin) == f+1 {
				return b.short(event, k)
			}
		}
		return b.event(event)
	}
	at := capital(bar(b.s.Events[m.Event].Bar)) + ": "
	here, there, chord := note(m.Event, m.Finger), "", m.With == m.Event
	if m.With >= 0 {
		there = note(m.With, m.Other)
		if m.With != m.Event && b.s.Events[m.With].Bar != b.s.Events[m.Event].Bar {
			there += " in " + bar(b.s.Events[m.With].Bar)
		}
	}
	again := ", unless the hand is set again before " + here
	if chord {
		again = ""
	}
	switch m.Kind {
	case plan.FingerNotInUse:
		return at + number(m.Finger) + " on " + here + " is a finger that is not in use."
	case plan.TwoStrings:
		if chord {
			return at + number(m.Finger) + " cannot play " + b.asked(m.Event, m.Finger) + " at once."
		}
		return at + number(m.Finger) + " is on " + there + " and cannot take " + here + " too" + again + "."
	case plan.OutOfOrder:
		higher, on, lower, under := number(m.Finger), here, number(m.Other), there
		if m.Finger > m.Other { // the finger farther from the thumb is the higher one
			return at + higher + " on " + on + " would lie above " + lower + " on " + under + again + "."
		}
		return at + lower + " on " + under + " would lie above " + higher + " on " + on + again + "."
	case plan.OutOfReach:
		return at + "the hand does not open from " + number(m.Other) + " on " + there + " to " + number(m.Finger) + " on " + here + again + "."
	case plan.NoTimeToPlay:
		if m.Gap >= 0 {
			site := b.s.Gaps[m.Gap].Sites[m.Site]
			return at + "with these fingers none can reach the " + site.Ornaments[m.Which].Title + " on " + b.short(site.Event, (&teller{book: b}).noteOf(site)) + " in time."
		}
		return at + b.event(m.Event) + " comes faster than one finger can play its string again."
	}
	return at + "the finger or the placing asked for on " + b.event(m.Event) + " cannot be played after the notes before it."
}

// differs is a stretch of events in which two plans differ, and what the one costs
// more there, rule by rule.
type differs struct {
	from, to int
	more     [rule.Count]plan.Cost
}

func (d *differs) sum() (sum plan.Cost) {
	for _, c := range d.more {
		sum += c
	}
	return sum
}

// places parts the difference of two bills into the stretches it comes from; those
// where it is nothing to speak of are left out.
func (b *book) places(r *rule.Rules, c *plan.Check) []differs {
	var list []differs
	for i := range c.Own.Events {
		if c.Own.Events[i].Stroke == c.Best.Events[i].Stroke && c.Own.Bounded(i) == c.Best.Bounded(i) {
			continue
		}
		if n := len(list); n > 0 && (i == list[n-1].to+1 || goesOn(&c.Own, list[n-1].to, i) || goesOn(&c.Best, list[n-1].to, i)) {
			list[n-1].to = i
			continue
		}
		list = append(list, differs{from: i, to: i})
	}
	if len(list) == 0 {
		return nil
	}
	add := func(p *plan.Plan, sign plan.Cost) {
		each(b.s, r, p, func(id rule.ID, at plan.Place, amount plan.Cost) {
			first, last := at.Gap, at.Gap
			if at.Placing >= 0 {
				first, last = p.Placings[at.Placing].First, p.Placings[at.Placing].Last
			}
			nearest(list, first, last).more[id] += sign * amount
		})
	}
	add(&c.Own, 1)
	add(&c.Best, -1)
	return slices.DeleteFunc(list, func(d differs) bool { return d.sum() < worthSaying && d.sum() > -worthSaying })
}

// goesOn reports whether two events are in one placing.
func goesOn(p *plan.Plan, a, b int) bool { return p.Events[a].Placing == p.Events[b].Placing }

// nearest finds the stretch that events from one to another belong to, or lie
// nearest to.
func nearest(list []differs, first, last int) *differs {
	apart := func(d differs) int { return max(0, d.from-last, first-d.to) }
	best := 0
	for i := range list {
		if apart(list[i]) < apart(list[best]) {
			best = i
		}
	}
	return &list[best]
}

// place tells one stretch: what it costs more, why, and what would cost less.
func (b *book) place(c *plan.Check, d differs) string {
	own, other := Digits(b.s, &c.Own, d.from, d.to), Digits(b.s, &c.Best, d.from, d.to)
	at := b.stretch(d.from, d.to) + ": "
	if d.sum() < 0 {
		return at + own + " takes " + Effort(-d.sum()) + " less effort there than " + other + ", which is paid for elsewhere."
	}
	ids := make([]rule.ID, 0, rule.Count)
	for id, more := range d.more {
		if more >= worthSaying {
			ids = append(ids, rule.ID(id))
		}
	}
	source.Order(ids, func(a, b rule.ID) int { return cmp.Compare(d.more[b], d.more[a]) })
	var why []string
	for _, id := range ids[:min(len(ids), 2)] {
		why = append(why, rule.Rows()[id].Sentence)
	}
	text := at + own + " takes " + Effort(d.sum()) + " more effort than " + other + "."
	if len(why) > 0 {
		text += " Against it: " + list(why) + "."
	}
	return text
}
