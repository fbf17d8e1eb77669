package plan

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// This file is the definition of the problem. A fingering is as good as Sum
// says, and the best fingering of a score is the complete plan whose Joint is
// least. There is no search in it. What the rulings leave open is decided here:
//
//   - A placing costs the same wherever it is: 24, and 8 h of the time since the
//     stroke before it. The first of a tune has no stroke before it, so no time.
//   - A finger stays over a boundary that is not forced if both placings have it
//     on the same string for written notes. The hand then moves about it: the new
//     placing costs 14 instead of 24, if that is less, half of its 8 h, and no lift
//     is needed. So it does where the last finger played connects.
//   - A rolled chord wider than the hand is taken in part (hand.InPart), alone in
//     its placing.
//   - The thumb slides where it plays alone and then, alone, the string below.
//     That is a placing to which the hand connects, and nothing but the slide is
//     charged besides.
//   - The hand moves over a boundary from the last stroke played from the one
//     placing to the first stroke played from the other, ornaments included.
//     After a rest or a phrase end only the placing and its time are charged.
//   - A private placing is charged like a shared one for its placing, stretches,
//     cramped and shared strings and the fourth finger, and 30 h for each of its
//     two steps; coming back, to the same placing or the next, the hand is set
//     anew: another 24, 8 h and 30 h, and no kind of move.
//   - Within an ornament, its note included, the hand is placed only where there
//     are 200 ms for it, as for a private placing.
//   - A finger that comes down on a string to stop it, after an ornament, is charged
//     nothing: it does so only where it has time (Plan.Stops).
//   - A house fingering bars all other fingers: of a chord, and wherever an ornament
//     sounds, of its strokes and its note. Two may be taken as they come.
//   - Written notes in a placing are note heads; what matters is whether there is
//     but one.
//   - Between two written notes a step looks back one event. Within a gap in
//     which something sounds, a finger back on its string after one other
//     stroke is charged too, the written notes on either side included.

// Sum adds up what one complete plan costs when the pattern sounds[j] of each
// gap j is played. Items, with their gap or placing, are kept if itemise is set.
func Sum(s *score.Score, r *rule.Rules, p *Plan, sounds []int, itemise bool) Bill {
	b := Bill{Bill: rule.Bill{Itemise: itemise}}
	for k := range p.Placings {
		b.at(-1, k, func(b *rule.Bill) { placing(s, r, p, k, b) })
	}
	for j := range s.Gaps {
		b.at(j, -1, func(b *rule.Bill) { gap(s, r, p, j, sounds[j], p.Held(s, j), b) })
	}
	return b
}

// Bill is what a plan costs in thousandths of a charge, and where.
type Bill struct {
	rule.Bill
	Places []Place // beside Items
}

// Place is where a charge arose: a gap or a placing, the other is -1.
type Place struct{ Gap, Placing int }

func (b *Bill) at(gap, placing int, charge func(*rule.Bill)) {
	charge(&b.Bill)
	for len(b.Places) < len(b.Items) {
		b.Places = append(b.Places, Place{gap, placing})
	}
}

// Silent is the choice in which nothing sounds: the first pattern of each gap.
func Silent(s *score.Score) []int { return make([]int, len(s.Gaps)) }

// Joint is the cost that the solver makes least: each gap's patterns weighed by
// their likelihood. A charge depends on the pattern of one gap at most, so it is
// the cost with nothing sounding, and for each pattern of each gap its weight
// times the difference that it makes alone. It is None where anything that may
// sound cannot be played.
func Joint(s *score.Score, r *rule.Rules, p *Plan) Cost {
	sounds := Silent(s)
	silent := Sum(s, r, p, sounds, false)
	barred := silent.Barred
	total := silent.Sum * score.Whole
	for j, g := range s.Gaps {
		for k := 1; k < len(g.Patterns); k++ {
			sounds[j] = k
			b := Sum(s, r, p, sounds, false)
			barred = barred || b.Barred
			total += (b.Sum - silent.Sum) * g.Patterns[k].Weight
		}
		sounds[j] = 0
	}
	if barred {
		return None
	}
	return Cost(total)
}

// placing charges one shared placing for what it holds.
func placing(s *score.Score, r *rule.Rules, p *Plan, k int, b *rule.Bill) {
	pl := &p.Placings[k]
	held, core, notes := hand.Empty(), hand.Empty(), 0
	for i := pl.First; i <= pl.Last; i++ {
		notes += len(s.Events[i].Notes)
		b.Barred = b.Barred || s.Events[i].Liking(p.Events[i].Stroke) < 0
		for f, t := range p.Events[i].Stroke {
			if t != hand.None {
				core[f] = t
				b.Barred = b.Barred || t != pl.Frame[f] // one finger, one string
			}
		}
	}
	r.Work(b, notes, core[0] != hand.None)
	part := p.InPart(s, r, k)
	if part {
		r.Part(b)
		b.Barred = b.Barred || pl.First != pl.Last
	}
	for f, t := range pl.Frame {
		if t == hand.None {
			continue
		}
		within := held
		if part && core[f] != hand.None {
			within = hand.Empty()
		}
		if !r.Hand.Takes(r.Harp, within, f, t) {
			b.Barred = true
			continue
		}
		r.Enter(b, held, f, t)
		held[f] = t
		if pl.Kept[f] {
			r.Keep(b, f)
		}
		b.Barred = b.Barred || core[f] == hand.None && !pl.Kept[f] && !pl.Free[f]
	}
}

// beat is one stroke of a gap: written notes, or one of an ornament.
type beat struct {
	stroke  hand.Frame
	from    From
	since   int32 // milliseconds since the stroke before
	written bool
	within  bool // the step to it lies inside one ornament
}

// Between is the part of Sum that belongs to gap j alone, with pattern k
// sounding in it, and with a finger that stays over its boundary if held.
func Between(s *score.Score, r *rule.Rules, p *Plan, j, k int, held bool) rule.Bill {
	var b rule.Bill
	gap(s, r, p, j, k, held, &b)
	return b
}

// gap charges the strokes from the event before gap j to the event after it,
// with pattern k sounding between them.
func gap(s *score.Score, r *rule.Rules, p *Plan, j, k int, held bool, b *rule.Bill) {
	beats, private := line(s, p, j, k)
	if k > 0 {
		barred, held := !allowed(p, j, beats), hand.Empty()
		for f, t := range private {
			if t != hand.None {
				barred = barred || !r.Hand.Takes(r.Harp, held, f, t)
				if !barred {
					r.Enter(b, held, f, t)
				}
				held[f] = t
			}
		}
		b.Barred = b.Barred || barred || !usual(s, p, j, k)
	}
	if j == 0 && len(beats) > 0 {
		r.Place(b, 0, false)
	}
	var e score.Event
	if j < len(s.Events) {
		e = s.Events[j]
	}
	for i := 1; i < len(beats); i++ {
		x, y := &beats[i-1], &beats[i]
		switch {
		case x.from == y.from:
			r.Step(b, x.stroke, y.stroke, y.since, x.written && y.written)
		case x.from == Private || y.from == Private:
			r.Away(b, y.since, true)
		default:
			b.Barred = b.Barred || y.within && y.since < rule.AwayLeast
			r.Across(b, &rule.Crossing{From: x.stroke, To: y.stroke, Since: y.since, Written: x.written && y.written,
				Forced: e.Forced, Weak: e.Weak, Held: held})
		}
		if i > 1 {
			r.Between(b, beats[i-2].stroke, x.stroke, y.stroke, x.since+y.since)
		}
	}
}

// line lays out the strokes of gap j with pattern k sounding, the written
// notes on either side included, and what the private placing holds.
func line(s *score.Score, p *Plan, j, k int) (beats []beat, private hand.Frame) {
	private = hand.Empty()
	if j > 0 {
		beats = append(beats, beat{stroke: p.Events[j-1].Stroke, written: true})
	}
	pattern := s.Gaps[j].Patterns[k]
	for i, t := range pattern.Strings {
		touch := p.Gaps[j].Ways[k][i]
		stroke := hand.Empty()
		stroke[touch.Finger] = t
		if touch.From == Private {
			private[touch.Finger] = t
		}
		beats = append(beats, beat{stroke, touch.From, pattern.Since[i], false, pattern.Within[i]})
	}
	if j < len(s.Events) {
		from := Left
		if p.Bounded(j) {
			from = Right
		}
		beats = append(beats, beat{p.Events[j].Stroke, from, pattern.Last, true, pattern.Within[len(pattern.Strings)]})
	}
	return beats, private
}

// usual reports whether the strokes of pattern k in gap j, and the notes they adorn,
// have the fingers of one of the house fingerings there are.
func usual(s *score.Score, p *Plan, j, k int) bool {
	pattern := &s.Gaps[j].Patterns[k]
	return len(pattern.House) == 0 || p.run(pattern, j, p.Gaps[j].Ways[k]) != nil
}

// run finds the house fingering that the strokes of a pattern in gap j follow; nil
// if they follow none.
func (p *Plan) run(pattern *score.Pattern, j int, way []Touch) *score.Run {
next:
	for i := range pattern.House {
		run := &pattern.House[i]
		if j > 0 && !run.Before.Suits(p.Events[j-1].Stroke) ||
			j < len(p.Events) && !run.After.Suits(p.Events[j].Stroke) {
			continue
		}
		for n, f := range run.Strokes {
			if f != score.Any && way[n].Finger != f {
				continue next
			}
		}
		return run
	}
	return nil
}

// Second counts, over all that may sound, the house fingerings that are the second
// in liking: of plans that cost the same, one with fewer is better.
func Second(s *score.Score, p *Plan) int {
	n := 0
	for i := range s.Events {
		n += max(0, s.Events[i].Liking(p.Events[i].Stroke))
	}
	for j := range s.Gaps {
		for k := range s.Gaps[j].Patterns {
			if run := p.run(&s.Gaps[j].Patterns[k], j, p.Gaps[j].Ways[k]); run != nil {
				n += run.Rank
			}
		}
	}
	return n
}

// allowed reports whether each stroke of an ornament can be played from where
// it is said to be: the frames in order, each finger on the string it holds
// there, and a finger that is not set only after time to drop in since a
// stroke of the same placing.
func allowed(p *Plan, j int, beats []beat) bool {
	private := hand.Empty()
	for i, y := range beats {
		if y.written {
			continue
		}
		if i > 0 && beats[i-1].from > y.from {
			return false
		}
		var at int
		switch y.from {
		case Private:
			for f, t := range y.stroke {
				if t != hand.None && private[f] != hand.None && private[f] != t {
					return false
				}
				if t != hand.None {
					private[f] = t
				}
			}
			continue
		case Left:
			if j == 0 {
				return false
			}
			at = p.Events[j-1].Placing
		case Right:
			if !p.Bounded(j) {
				return false
			}
			at = p.Events[j].Placing
		}
		pl := &p.Placings[at]
		for f, t := range y.stroke {
			if t == hand.None {
				continue
			}
			timely := i > 0 && beats[i-1].from == y.from && y.since >= rule.DropLeast
			if pl.Frame[f] != t || pl.Free[f] && !timely {
				return false
			}
		}
	}
	return true
}
