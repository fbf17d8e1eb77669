package explain

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// Played is a score with its plan.
type Played struct {
	Score *score.Score
	Plan  *plan.Plan
}

// NothingMoves is what Change says first where nothing does. EitherWay may follow
// it where an ornament was switched on or off.
const (
	NothingMoves = "Nothing moves."
	EitherWay    = "With it or without it, every finger keeps its string."
)

// barsShown is in how many bars moved notes are named before the rest are
// counted.
const barsShown = 3

// Change says what a choice moved: "Nothing moves." first if no written note
// changed its finger and no placing its beginning, otherwise which did, bar by
// bar; then which fingers now wait, and which need not any longer. It is one
// short sentence an element, for one hand.
func Change(before, after Played) []string {
	if len(before.Plan.Events) != len(before.Score.Events) || len(after.Plan.Events) != len(after.Score.Events) {
		return nil
	}
	b := newBook(after.Score)
	old := index(before)
	var bars []moved
	for i := range after.Score.Events {
		e := &after.Score.Events[i]
		for k, n := range e.Notes {
			if was, ok := old[n.ID()]; ok {
				bars = b.moves(bars, before, after.Plan, was, i, k)
			}
		}
	}
	now, then := waits(after), waits(before)
	wait := append(only(now, then, "Now ", " waits on "), only(then, now, "", " no longer waits on ")...)
	return append(tell(bars), wait...)
}

// moved is what moved in one bar.
type moved struct {
	bar         int
	notes       []string // that have another finger
	now, was    []string // their fingers
	set, notset []string // notes at which the hand is now set, and no longer is
}

// spot is where a note stands in a score.
type spot struct{ event, note int }

// moves adds how one note changed, which stood at was and is now a note of event i,
// unless its bar has it already from another pass. Its string may have another
// number now: the harp may be another, or the key.
func (b *book) moves(bars []moved, before Played, after *plan.Plan, was spot, i, note int) []moved {
	n := b.s.Events[i].Notes[note]
	old := before.Plan.Events[was.event].Finger(before.Score.Events[was.event].Notes[was.note].String)
	now := after.Events[i].Finger(n.String)
	begun, begins := before.Plan.Bounded(was.event), after.Bounded(i)
	refingered := old != now && now >= 0 && old >= 0
	if !refingered && (note > 0 || begun == begins) {
		return bars
	}
	number, name := b.s.Events[i].Bar, b.short(i, note)
	if len(bars) == 0 || !slices.ContainsFunc(bars, func(m moved) bool { return m.bar == number }) {
		bars = append(bars, moved{bar: number})
	}
	m := &bars[slices.IndexFunc(bars, func(m moved) bool { return m.bar == number })]
	if refingered && !slices.Contains(m.notes, name) {
		m.notes, m.now, m.was = append(m.notes, name), append(m.now, strconv.Itoa(now+1)), append(m.was, strconv.Itoa(old+1))
	}
	switch {
	case note > 0 || begun == begins:
	case begins && !slices.Contains(m.set, name):
		m.set = append(m.set, name)
	case begun && !slices.Contains(m.notset, name):
		m.notset = append(m.notset, name)
	}
	return bars
}

// text says it: "Bar 2: the C and the B are now 1 2, not 2 1; the hand is set at
// the C, no longer at the B."
func (m *moved) text() string {
	var parts []string
	if len(m.notes) > 0 {
		verb := " is now "
		if len(m.notes) > 1 {
			verb = " are now "
		}
		parts = append(parts, list(m.notes)+verb+strings.Join(m.now, " ")+", not "+strings.Join(m.was, " "))
	}
	switch {
	case len(m.set) > 0 && len(m.notset) > 0:
		parts = append(parts, "the hand is set at "+list(m.set)+", no longer at "+list(m.notset))
	case len(m.set) > 0:
		parts = append(parts, "the hand is now set at "+list(m.set))
	case len(m.notset) > 0:
		parts = append(parts, "the hand is no longer set at "+list(m.notset))
	}
	return capital(bar(m.bar)) + ": " + strings.Join(parts, "; ") + "."
}

// tell says what moved, or that nothing did.
func tell(bars []moved) []string {
	if len(bars) == 0 {
		return []string{NothingMoves}
	}
	var out []string
	for i := range bars {
		if i == barsShown && len(bars) > barsShown+1 {
			return append(out, "And in "+many(len(bars)-barsShown)+" more bars.")
		}
		out = append(out, bars[i].text())
	}
	return out
}

func many(n int) string {
	if n < len(counts) {
		return counts[n]
	}
	return "many"
}

var counts = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

// index finds each note by its id.
func index(p Played) map[string]spot {
	at := map[string]spot{}
	for i := range p.Score.Events {
		for k, n := range p.Score.Events[i].Notes {
			at[n.ID()] = spot{i, k}
		}
	}
	return at
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
