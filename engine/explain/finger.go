package explain

import (
	"cmp"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// NearTie is the extra effort up to which two fingers are called nearly equal.
const NearTie = plan.NearTie

// Reasons say why a note has its finger.
type Reasons struct {
	Title  string // "The first D in bar 1"
	Finger int    // 1 to 4, the one taken; 0 if none
	Text   string // what decided it, in a sentence or two
	Claim  Claim  // of a finger that was asked for, against the best
	Others []Other
}

// Other is another finger that can play the same note.
type Other struct {
	Finger int    // 1 to 4
	Near   bool   // within NearTie of the finger taken
	Effort string // what it costs more, in whole charges: "12"
	Text   string // "3 costs 12 more effort: the fourth finger. But it saves a lift."
	Claim  Claim
}

// Asked is what was worked out for a note that is asked about.
type Asked struct {
	Others [4]*plan.Plan // by finger, 0 the thumb: the best plan with it on the note; nil where it was not worked out or cannot be played
	Free   *plan.Plan    // the best plan with any finger on the note, where one was asked for; else nil
	Solve  Solver        // nil: no reasons are given
}

// Finger says why a note of an event has its finger: what each other finger costs
// more, and for what reasons. What is named decides: with all else costing nothing
// the finger taken is still the better.
func Finger(s *score.Score, r *rule.Rules, best *plan.Plan, asked Asked, event, note int) Reasons {
	b := newBook(s)
	if event < 0 || event >= len(best.Events) || event >= len(s.Events) || note >= len(s.Events[event].Notes) {
		return Reasons{}
	}
	n := s.Events[event].Notes[note]
	taken := best.Events[event].Finger(n.String)
	out := Reasons{Title: capital(b.note(event, note)), Finger: taken + 1}
	if n.Pin != 0 {
		var cost string
		cost, out.Claim = Pinned(s, r, best, asked, event, note)
		out.Text = verdict(b, best, event, note, taken, nil) + cost + " Press \"any finger\" to see what the others would cost."
		return out
	}
	var near []string
	var cannot []barred
	for f := range 4 {
		if f == taken || !r.Hand.InUse[f] {
			continue
		}
		price := plan.None
		if note < len(best.Events[event].Prices) {
			price = best.Events[event].Prices[note][f]
		}
		if price >= plan.None {
			cannot = append(cannot, barred{number(f), whyNot(s, r, event, note, f)})
			continue
		}
		o := Other{Finger: f + 1, Near: price <= NearTie, Effort: Effort(price)}
		against := "."
		switch {
		case unusual(asked.Others[f], best):
			o.Near, against = false, ", but it is not your usual fingering."
		case asked.Others[f] != nil:
			o.Claim = Against(s, r, best, asked.Others[f], event, note, false, asked.Solve)
			against = o.Claim.Text
		}
		o.Text = number(f) + " " + costs(price) + against
		if o.Near {
			near = append(near, number(f))
		}
		out.Others = append(out.Others, o)
	}
	out.Text = verdict(b, best, event, note, taken, near)
	if taken >= 0 {
		out.Text += told(cannot)
	}
	out.Text += elsewhere(s, best, event)
	return out
}

// elsewhere says in which other bars a finger would change too.
func elsewhere(s *score.Score, best *plan.Plan, event int) string {
	switch bars := sisters(s, best, event); len(bars) {
	case 0:
		return ""
	case 1:
		return " Another finger is for bar " + bars[0] + " too, which is the same."
	default:
		return " Another finger is for bars " + list(bars) + " too, which are the same."
	}
}

// Pinned says what a finger costs that was asked for, and why; best is the plan with
// it.
func Pinned(s *score.Score, r *rule.Rules, best *plan.Plan, asked Asked, event, note int) (string, Claim) {
	if asked.Free == nil {
		return "", Claim{}
	}
	at := s.Events[event].Notes[note].String
	own, free := best.Events[event].Finger(at), asked.Free.Events[event].Finger(at)
	price := best.Cost - asked.Free.Cost
	switch effort := Effort(price); {
	case own == free || price <= 0 && effort == "0":
		return " Nothing takes less effort.", Claim{}
	case price < 0:
		return " It takes " + Effort(-price) + " less effort than " + number(free) + ", your usual finger here.", Claim{}
	case effort == "0":
		return " " + number(free) + " is as good.", Claim{}
	default:
		c := Against(s, r, asked.Free, best, event, note, false, asked.Solve)
		return " It takes " + effort + " more effort than " + number(free) + c.Text, c
	}
}

func costs(price plan.Cost) string {
	e := Effort(price)
	switch {
	case price < 0 && e != "0":
		return "would take " + Effort(-price) + " less effort"
	case price == 0:
		return "is as good"
	case e == "0":
		return "is as good, but for a trifle"
	case price <= NearTie:
		return "is nearly as good, with " + e + " more effort"
	}
	return "costs " + e + " more effort"
}

// verdict says in one breath how firm the choice is.
func verdict(b *book, best *plan.Plan, event, note, taken int, near []string) string {
	n := b.s.Events[event].Notes[note]
	if taken < 0 {
		return "No finger can take this note as things stand."
	}
	text := "Finger " + number(taken)
	if taken == 0 {
		text = capital(finger(0))
	}
	if n.Pin != 0 {
		text += ", as you asked"
	}
	switch pl := best.Placings[best.Events[event].Placing]; {
	case pl.First == event:
		text += "; the hand is set here"
	case played(best, pl.First, event, taken):
		text += "; it comes back to " + b.called(n)
	case pl.Frame[taken] == n.String:
		text += "; it is on " + b.called(n) + " already"
	}
	text += "." + b.usual(best, event, note)
	if len(near) > 0 {
		text += " " + list(append([]string{number(taken)}, near...)) + " are close here: try each, choose one, and keep to it."
	}
	return text
}

// played reports whether a finger has had a note since an event, before another.
func played(p *plan.Plan, since, before, f int) bool {
	for _, e := range p.Events[since:before] {
		if e.Stroke[f] != hand.None {
			return true
		}
	}
	return false
}

// entry is what one rule charges in one bar, all that may sound weighed.
type entry struct {
	rule   rule.ID
	bar    int
	amount plan.Cost
	often  int
}

// entries itemises a plan's joint cost by rule and bar.
func entries(s *score.Score, r *rule.Rules, p *plan.Plan) []entry {
	t := &teller{book: &book{s: s}, p: p}
	var all []entry
	each(s, r, p, func(id rule.ID, at plan.Place, amount plan.Cost) {
		b, _ := t.barOf(at)
		all = append(all, entry{id, b, amount, 1})
	})
	return merge(all)
}

// each gives the items of a plan's joint cost, and where they arise. A gap's
// charges depend on its own pattern alone, so that one bill for the first pattern
// of all gaps, one for the second and so on hold them all.
func each(s *score.Score, r *rule.Rules, p *plan.Plan, found func(id rule.ID, at plan.Place, amount plan.Cost)) {
	most := 1
	for _, g := range s.Gaps {
		most = max(most, len(g.Patterns))
	}
	sounds := plan.Silent(s)
	for k := range most {
		for j, g := range s.Gaps {
			sounds[j] = 0
			if k < len(g.Patterns) && j < len(p.Gaps) && k < len(p.Gaps[j].Ways) {
				sounds[j] = k
			}
		}
		bill := plan.Sum(s, r, p, sounds, true)
		for i, item := range bill.Items {
			at := bill.Places[i]
			weight := int64(score.Whole)
			if at.Gap >= 0 {
				if k > 0 && sounds[at.Gap] != k {
					continue
				}
				weight = s.Gaps[at.Gap].Patterns[k].Weight
			} else if k > 0 {
				continue
			}
			found(item.Rule, at, plan.Cost(item.Amount*weight))
		}
	}
}

// merge adds up entries of one rule in one bar.
func merge(all []entry) []entry {
	source.Order(all, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.rule, b.rule), cmp.Compare(a.bar, b.bar))
	})
	var out []entry
	for _, e := range all {
		if n := len(out); n > 0 && out[n-1].rule == e.rule && out[n-1].bar == e.bar {
			out[n-1].amount += e.amount
			out[n-1].often += e.often
			continue
		}
		out = append(out, e)
	}
	return out
}
