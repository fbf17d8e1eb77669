// Package explain is a plan in a music teacher's words: how the hand gets to
// each placing, what each ornament needs of it, why a finger was taken, and
// what moved after a choice. It gives plain text, never markup.
package explain

import (
	"strconv"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Kind says what a sentence is about.
type Kind int8

const (
	Setting   Kind = iota // how the hand gets to a placing, and what is set
	Ornaments             // what an ornament asks of the hand
	Care                  // care of the player
	Left                  // what could not be played and was left out
	Alike                 // bars that are the same
)

// Sentence is one thing to say about a plan, at its place in the tune.
type Sentence struct {
	Kind  Kind
	Bar   int    // written bar, from 1; 0 a pickup
	Event int    // of the score, where it begins; -1 for the tune as a whole
	ID    string // the written note it begins at ("12"), the same on every pass; "" for the tune as a whole
	Text  string // "Bar 1: set 1 2 3 4 on E, D, C and A."
}

// Plan tells a plan in played order. What would be said again in the same
// words on a later pass is said once.
func Plan(s *score.Score, r *rule.Rules, p *plan.Plan) []Sentence {
	t := &teller{book: newBook(s), r: r, p: p, said: map[string]bool{}}
	if len(p.Events) != len(s.Events) {
		return nil
	}
	for k := range p.Placings {
		t.placing(k)
		for i := p.Placings[k].First; i <= p.Placings[k].Last; i++ {
			t.ornaments(i)
		}
	}
	t.houses()
	t.dropped()
	t.alike()
	t.care()
	return t.out
}

type teller struct {
	*book
	r    *rule.Rules
	p    *plan.Plan
	said map[string]bool
	out  []Sentence
}

// say adds a sentence about an event, unless its bar has heard it before.
func (t *teller) say(kind Kind, event int, text string) {
	e := &t.s.Events[event]
	where := capital(bar(e.Bar))
	key := where + text
	if t.said[key] {
		return
	}
	t.said[key] = true
	id := ""
	if len(e.Notes) > 0 {
		id = strconv.Itoa(e.Notes[0].Written)
		if pass := e.Notes[0].Pass; pass > 1 {
			where += ", " + ordinal(pass) + " time"
		}
	}
	t.out = append(t.out, Sentence{kind, e.Bar, event, id, where + ": " + text})
}

// placing tells how the hand gets to placing k, and what waits in it.
func (t *teller) placing(k int) {
	pl := &t.p.Placings[k]
	t.say(Setting, pl.First, t.how(k, pl)+"."+t.waitingIn(k, pl))
}

// waitingIn tells which fingers wait in placing k: " 2 and 3 rest ready at B, for the
// three strokes on the B alone." Where another finger is on the string too, or comes
// to it, they are at it and not on it.
func (t *teller) waitingIn(k int, pl *plan.Placing) (text string) {
	for f := 0; f < 4; f++ {
		on := pl.Frame[f]
		if !pl.Kept[f] || on == hand.None {
			continue
		}
		who, whom, shared := []string{finger(f)}, t.whom(k, f), false
		for g, s := range pl.Frame {
			shared = shared || g != f && s == on
		}
		for f < 3 && pl.Kept[f+1] && pl.Frame[f+1] == on && t.whom(k, f+1) == whom {
			f++
			who = append(who, finger(f))
		}
		rest, at := " rests ready ", "on "
		if len(who) > 1 {
			rest = " rest ready "
		}
		if shared {
			at = "at "
		}
		text += " " + capital(list(who)) + rest + at + t.apart(on, pl.Frame) + whom + "."
	}
	return text
}

// whom says for which ornaments a kept finger waits: ", for the cut on the first
// D alone".
func (t *teller) whom(k, f int) string {
	var who []string
	for j := range t.s.Gaps {
		for i, site := range t.s.Gaps[j].Sites {
			for w, o := range site.Ornaments {
				if (o.Likelihood > 0 || o.On) && t.uses(j, i, w, k, f) {
					who = append(who, "the "+o.Title+" on "+t.short(site.Event, t.noteOf(site)))
				}
			}
		}
	}
	if len(who) == 0 {
		return ""
	}
	return ", for " + list(who) + " alone"
}

// uses reports whether an ornament plays finger f from placing k.
func (t *teller) uses(gap, site, which, k, f int) bool {
	for _, touch := range t.fit(gap, site, which).Touches {
		if int(touch.Finger) != f {
			continue
		}
		if touch.From == plan.Left && gap > 0 && t.p.Events[gap-1].Placing == k ||
			touch.From == plan.Right && gap < len(t.p.Events) && t.p.Events[gap].Placing == k {
			return true
		}
	}
	return false
}

// fit finds how an ornament suits the hand; where the plan does not say, there
// is no time for it.
func (t *teller) fit(gap, site, which int) plan.Fit {
	if gap < len(t.p.Gaps) && site < len(t.p.Gaps[gap].Fits) && which < len(t.p.Gaps[gap].Fits[site]) {
		return t.p.Gaps[gap].Fits[site][which]
	}
	return plan.Fit{Ready: plan.NoTime}
}

// noteOf gives which note of its event a site adorns.
func (b *book) noteOf(site score.Site) int {
	for i, n := range b.s.Events[site.Event].Notes {
		if n.Written == site.Written {
			return i
		}
	}
	return 0
}

// refused says that a finger asked for, or a setting of the hand, cannot be.
func (t *teller) refused(d *plan.Dropped) string {
	switch d.Wish {
	case score.Stay:
		return "the hand cannot stay where it is for " + t.event(d.Event) + ", as you asked; it is set there."
	case score.Set:
		return "the hand cannot be set before " + t.event(d.Event) + ", as you asked; it stays where it is."
	}
	return "the finger asked for on " + t.event(d.Event) + " cannot be played there; it is left out."
}

// dropped tells what was left out of the plan.
func (t *teller) dropped() {
	for _, d := range t.p.Dropped {
		if len(d.House) > 0 {
			continue // said with the others of its kind
		}
		if d.Event >= 0 && d.Event < len(t.s.Events) {
			t.say(Left, d.Event, t.refused(&d))
			continue
		}
		if d.Gap < 0 || d.Gap >= len(t.s.Gaps) || d.Site >= len(t.s.Gaps[d.Gap].Sites) {
			continue
		}
		site := t.s.Gaps[d.Gap].Sites[d.Site]
		if d.Which < len(site.Ornaments) {
			left := "; it is left out."
			if site.Ornaments[d.Which].Many {
				left = "; they are left out."
			}
			t.say(Left, site.Event, "the "+site.Ornaments[d.Which].Title+" on "+t.short(site.Event, t.noteOf(site))+" cannot be played, "+t.lacking(d.Gap, d.Site, d.Which)+left)
		}
	}
}
