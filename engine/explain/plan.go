// Package explain is a plan in a music teacher's words: how the hand gets to
// each placing, what each ornament needs of it, why a finger was taken, and
// what moved after a choice. It gives plain text, never markup.
package explain

import (
	"strconv"
	"strings"

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
		for j := p.Placings[k].First; j <= p.Placings[k].Last; j++ {
			t.ornaments(j)
		}
	}
	t.ornamentsIn(len(s.Gaps) - 1)
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

// set says which fingers are set together for written notes: "set 1 2 3 on E, D
// and C".
func (t *teller) set(pl *plan.Placing) string {
	frame := written(pl)
	who, where := t.fingers(frame, rising(frame, t.p.Events[pl.First].Stroke))
	return "set " + strings.Join(who, " ") + " on " + list(where)
}

// written is what a placing holds for written notes.
func written(pl *plan.Placing) hand.Frame {
	frame := pl.Frame
	for f := range frame {
		if pl.Kept[f] || pl.Free[f] {
			frame[f] = hand.None
		}
	}
	return frame
}

// follow says which fingers come after those of the first stroke, as they are
// wanted: "; 2, 3 and 4 follow on B, A and G". While a finger of the placing
// before still holds its string they cannot all be set at once.
func (t *teller) follow(pl *plan.Placing, from, keep hand.Frame) string {
	frame, first := written(pl), t.p.Events[pl.First].Stroke
	up := rising(frame, first)
	for f := range frame {
		if first[f] != hand.None || keep[f] != hand.None {
			frame[f] = hand.None
		}
	}
	who, where := t.fingers(frame, up, written(pl), from)
	switch len(who) {
	case 0:
		return ""
	case 1:
		return "; " + who[0] + " follows on " + where[0]
	}
	return "; " + list(who) + " follow on " + list(where)
}

// stroke says which fingers a stroke uses, and on which strings, from the lowest.
func (t *teller) stroke(stroke hand.Frame, among ...hand.Frame) (who, where string) {
	fingers, on := t.fingers(stroke, true, among...)
	return list(fingers), list(on)
}

// rising reports whether the lowest finger of a frame plays first.
func rising(frame, first hand.Frame) bool {
	for f := 3; f > 0; f-- {
		if frame[f] != hand.None {
			return first[f] != hand.None
		}
	}
	return false
}

// how says how the hand gets to a placing and what it finds there. A hand that
// comes off sets its fingers together; otherwise those of the first stroke come
// while the last still hold, and the others follow.
func (t *teller) how(k int, pl *plan.Placing) string {
	part := t.p.InPart(t.s, t.r, k)
	if k == 0 {
		if part {
			return t.roll(pl)
		}
		return t.set(pl)
	}
	if part {
		return t.leave(k, pl) + t.roll(pl)
	}
	last := t.p.Placings[k-1].Last
	from, to := t.p.Events[last].Stroke, t.p.Events[pl.First].Stroke
	all := written(pl)
	if pl.Move == rule.Jump {
		from = hand.Empty() // the hand is off those strings
	}
	keep := t.staying(k, pl)
	stays := ""
	if who, where := t.stroke(keep, all); who != "" && pl.Move != rule.Shift {
		stays = "; " + who + " stays on " + where
	}
	who, where := t.stroke(to, all, from)
	switch pl.Move {
	case rule.Connect:
		hold, on := t.stroke(from, all)
		is := " is still on "
		if hold == "1" {
			hold = finger(0)
		} else if len(hold) > 1 {
			is = " are still on "
		}
		return "while " + hold + is + on + ", bring " + who + " to " + where + t.follow(pl, from, keep) + stays
	case rule.Slide:
		return "slide the thumb down to " + where + t.follow(pl, from, keep) + stays
	case rule.Shift:
		held, on := t.stroke(keep, all)
		return "keep " + held + " on " + on + " and move " + who + " to " + where + t.follow(pl, from, keep)
	case rule.Under:
		return "pass " + who + " under the thumb to " + where + t.follow(pl, from, keep) + stays
	case rule.Over:
		return "bring the thumb over " + finger(lowest(from)) + " to " + where + t.follow(pl, from, keep) + stays
	case rule.Jump:
		if way, same := shape(t.p.Events[last].Stroke, to); same {
			return "keep the shape of the hand and carry it " + steps(way) + ": " + who + " on " + where + t.follow(pl, from, keep)
		}
		return "lift after " + t.struck(last) + " and come down with " + who + " on " + where + t.follow(pl, from, keep) + stays
	}
	return t.leave(k, pl) + t.set(pl)
}

// leave says when the hand comes off before placing k: "come off after the A, then ".
func (t *teller) leave(k int, pl *plan.Placing) string {
	last := t.p.Placings[k-1].Last
	switch {
	case pl.Move != rule.SetAnew && pl.Move != rule.Jump:
		return ""
	case pl.Move == rule.Jump:
		return "lift after " + t.struck(last) + ", then "
	case t.rests(last):
		return "come off in the rest, then "
	}
	return "come off after " + t.struck(last) + ", then "
}

// roll tells of a rolled chord wider than the hand: "roll this chord: set 4 and 2 on A
// and E; the thumb comes to C while 2 plays".
func (t *teller) roll(pl *plan.Placing) string {
	stroke := t.p.Events[pl.First].Stroke
	held := stroke
	held[0] = hand.None
	who, where := t.stroke(held, stroke)
	next := 1
	for next < 3 && held[next] == hand.None {
		next++
	}
	return "roll this chord: set " + who + " on " + where + "; the thumb comes to " + t.apart(stroke[0], stroke) + " while " + number(next) + " plays"
}

// steps says how far a hand is carried: "up one string".
func steps(way int8) string {
	side := "up "
	if way < 0 {
		side, way = "down ", -way
	}
	if way == 1 {
		return side + "one string"
	}
	return side + many(int(way)) + " strings"
}

// staying are the fingers that stay on their strings from the placing before, but
// for those that play at once.
func (t *teller) staying(k int, pl *plan.Placing) hand.Frame {
	keep := hand.Empty()
	if pl.Move == rule.SetAnew || pl.Move == rule.Jump {
		return keep
	}
	for f, on := range t.p.Stays(k) {
		if on && (t.p.Events[pl.First].Stroke[f] == hand.None || pl.Move == rule.Shift) {
			keep[f] = pl.Frame[f]
		}
	}
	return keep
}

// longMS is how long a note lasts that a teacher would call long, if it is longer
// than the one before it (guess).
const longMS = 800

// struck names what an event plays: "the long A", "the chord".
func (t *teller) struck(event int) string {
	e := &t.s.Events[event]
	long := ""
	if e.Length >= longMS && (event == 0 || e.Length > t.s.Events[event-1].Length) {
		long = "long "
	}
	if len(e.Notes) != 1 {
		return "the " + long + "chord"
	}
	return "the " + long + t.called(e.Notes[0])
}

// rests reports whether silence is written between an event and the next.
func (t *teller) rests(event int) bool {
	if event+1 >= len(t.s.Events) {
		return false
	}
	a, b := &t.s.Events[event], &t.s.Events[event+1]
	return b.Since > a.Length+1 // a millisecond for rounding
}

// lowest gives the last finger that a stroke uses.
func lowest(stroke hand.Frame) int {
	for f := 3; f > 0; f-- {
		if stroke[f] != hand.None {
			return f
		}
	}
	return 0
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

// dropped tells what was left out of the plan.
func (t *teller) dropped() {
	for _, d := range t.p.Dropped {
		if len(d.House) > 0 {
			continue // said with the others of its kind
		}
		if d.Event >= 0 && d.Event < len(t.s.Events) {
			t.say(Left, d.Event, "the finger asked for on "+t.short(d.Event, 0)+" cannot be played there; it is left out.")
			continue
		}
		if d.Gap < 0 || d.Gap >= len(t.s.Gaps) || d.Site >= len(t.s.Gaps[d.Gap].Sites) {
			continue
		}
		site := t.s.Gaps[d.Gap].Sites[d.Site]
		if d.Which < len(site.Ornaments) {
			t.say(Left, site.Event, "the "+site.Ornaments[d.Which].Title+" on "+t.short(site.Event, t.noteOf(site))+" cannot be played with these fingers at this speed; it is left out.")
		}
	}
}
