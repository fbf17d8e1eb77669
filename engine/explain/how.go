package explain

import (
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
)

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
		verb := " stays on "
		if strings.Contains(who, " ") && who != finger(0) {
			verb = " stay on "
		}
		stays = "; " + who + verb + where
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
		held, on := t.stroke(keep, all, from)
		for f := range to {
			if keep[f] != hand.None {
				to[f] = hand.None // it is there already
			}
		}
		if who, where = t.stroke(to, all, from); who != "" {
			on += " and set " + who + " on " + where
		}
		return "keep " + held + " on " + on + t.follow(pl, from, keep)
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
