package explain

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// Played is a score with its plan.
type Played struct {
	Score *score.Score
	Plan  *plan.Plan
}

// movesShown is how many moved notes are named before the rest are counted.
const movesShown = 6

// Change says what a choice moved: "Nothing moves." first if no written note
// changed its finger and no placing its beginning, otherwise which did; then
// which fingers now wait, and which need not any longer. It is one short
// sentence an element, for one hand.
func Change(before, after Played) []string {
	if len(before.Plan.Events) != len(before.Score.Events) || len(after.Plan.Events) != len(after.Score.Events) {
		return nil
	}
	b := newBook(after.Score)
	old := index(before)
	var out []string
	moved := 0
	said := map[string]bool{}
	for i := range after.Score.Events {
		for k, n := range after.Score.Events[i].Notes {
			was, ok := old[n.ID()]
			text := ""
			if ok {
				text = moves(b, before.Plan, after.Plan, was, i, k)
			}
			if text == "" || said[text] {
				continue
			}
			said[text] = true
			if moved++; moved <= movesShown {
				out = append(out, text)
			}
		}
	}
	switch {
	case moved == 0:
		out = append(out, "Nothing moves.")
	case moved > movesShown:
		out = append(out, "And "+many(moved-movesShown)+" more.")
	}
	now, then := waits(after), waits(before)
	wait := append(only(now, then, "Now ", " waits on "), only(then, now, "", " no longer waits on ")...)
	if moved == 0 && len(wait) == 0 {
		out = append(out, "With it or without it, every finger keeps its string.")
	}
	return append(out, wait...)
}

func many(n int) string {
	if n < len(counts) {
		return counts[n]
	}
	return "many"
}

var counts = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// index finds the event of each note by its id.
func index(p Played) map[string]int {
	at := map[string]int{}
	for i := range p.Score.Events {
		for _, n := range p.Score.Events[i].Notes {
			at[n.ID()] = i
		}
	}
	return at
}

// moves says how one note changed from event was to event i; "" if it did not.
func moves(b *book, before, after *plan.Plan, was, i, note int) string {
	n := b.s.Events[i].Notes[note]
	old, now := before.Events[was].Finger(n.String), after.Events[i].Finger(n.String)
	begun, begins := before.Bounded(was), after.Bounded(i)
	name := capital(b.note(i, note))
	switch {
	case old != now && now >= 0 && old >= 0:
		return name + " is now " + number(now) + ", before it was " + number(old) + "."
	case old != now && now >= 0:
		return name + " is now " + number(now) + "."
	case note > 0:
		return ""
	case begins && !begun:
		return "The hand is now set at " + b.note(i, note) + "."
	case begun && !begins:
		return "The hand is no longer set at " + b.note(i, note) + "."
	}
	return ""
}

// waiting is a finger kept on a string for ornaments, from a bar on.
type waiting struct {
	finger int
	name   string
	bar    int
}

func waits(p Played) []waiting {
	b := &book{s: p.Score}
	var all []waiting
	for _, pl := range p.Plan.Placings {
		for f, kept := range pl.Kept {
			if kept && pl.Frame[f] != hand.None {
				all = append(all, waiting{f, b.str(pl.Frame[f]), p.Score.Events[pl.First].Bar})
			}
		}
	}
	return all
}

// only tells of those that are in one list and not in the other, each once.
func only(in, not []waiting, lead, verb string) []string {
	var out []string
	told := append([]waiting(nil), not...)
	for _, w := range in {
		if found(told, w) {
			continue
		}
		told = append(told, w)
		out = append(out, capital(lead+finger(w.finger)+verb+w.name+" in "+bar(w.bar)+"."))
	}
	return out
}

func found(all []waiting, w waiting) bool {
	for _, x := range all {
		if x == w {
			return true
		}
	}
	return false
}
