package vary

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/source"
)

// hold gives the notes of a moment that the hand can hold, lowest first, and
// whether they are played from the lowest to the highest: as the tune has it, or
// because they are too wide for less. What even so cannot be held is left out:
// from the bottom in the right hand, which has the tune on top, from the top in
// the left.
func (w *writer) hold(notes []note, rolled bool) ([]note, bool) {
	all := notes
	if len(notes) > 1 && !rolled && len(w.ways(notes, false)) == 0 && len(w.ways(notes, true)) > 0 {
		rolled = true
		w.roll(notes)
	}
	for len(notes) > 1 && len(w.ways(notes, rolled)) == 0 {
		if w.hand.Name == "left" {
			notes = notes[:len(notes)-1]
		} else {
			notes = notes[1:]
		}
	}
	if len(notes) < len(all) {
		w.tooMuch(all, notes)
	}
	w.free(notes, rolled)
	return notes, rolled
}

// roll keeps that a chord is rolled which is written together.
func (w *writer) roll(notes []note) {
	at := notes[0].Source
	for _, n := range notes {
		if n.Source.From < at.From {
			at = n.Source
		}
	}
	if i := slices.IndexFunc(w.rolled, func(r tooWide) bool { return r.at == at }); i < 0 {
		w.rolled = append(w.rolled, tooWide{at, w.wide(notes)})
	}
}

// tooWide is a written chord that has to be rolled, and what is too wide in it.
type tooWide struct {
	at   source.Span
	wide string
}

// sayRolled says which chords are rolled, once for the tune, at the first of them.
func (w *writer) sayRolled() {
	if len(w.rolled) == 0 {
		return
	}
	source.Order(w.rolled, func(a, b tooWide) int { return int(a.at.From) - int(b.at.From) })
	r := source.Remark{Span: w.rolled[0].at, Severity: source.Warning, Kind: "rolled",
		Message:    w.rolled[0].wide + " Roll it from the lowest note: the thumb comes to its string while the finger below it plays.",
		Suggestion: "Leave a note out if that is too much. In the tune, !arpeggio! before a chord asks for it to be rolled."}
	switch n := len(w.rolled) - 1; {
	case n == 1:
		r.Message += " One more chord is as wide for this hand."
	case n > 1:
		r.Message += " " + strconv.Itoa(n) + " more chords are as wide for this hand."
	}
	w.say(r)
}

// ways lists how the hand can take the notes at once, or rolled.
func (w *writer) ways(notes []note, rolled bool) []hand.Frame {
	if len(notes) > 4 {
		return nil // more than a hand has fingers for
	}
	var on []int8
	for _, n := range notes {
		on = append(on, n.String)
	}
	if rolled {
		return append(w.hand.Fingerings(w.harp, on), w.hand.InPart(w.harp, on)...)
	}
	return w.hand.Fingerings(w.harp, on)
}

// tooMuch says why a chord cannot be held, and which of its notes are left out.
func (w *writer) tooMuch(all, held []note) {
	at, names := source.Nowhere(), ""
	for _, n := range all {
		if slices.Contains(held, n) {
			continue
		}
		w.leave(n.head)
		if at == source.Nowhere() || n.Source.From < at.From {
			at = n.Source
		}
		if names != "" {
			names += ", "
		}
		names += n.head.Pitch.String()
	}
	r := source.Remark{Span: at, Severity: source.Error}
	inUse := 0
	for _, used := range w.hand.InUse {
		if used {
			inUse++
		}
	}
	switch {
	case len(all) > 4:
		r.Kind, r.Message = "too-many-notes", "These are "+strconv.Itoa(len(all))+" notes at once; a hand plays at most four."
		r.Suggestion = "Give some of them to the other hand."
	case len(all) > inUse:
		r.Kind, r.Message = "too-few-fingers", "These are "+strconv.Itoa(len(all))+" notes at once, but in use are only fingers "+w.inUse()+"."
		r.Suggestion = "Write fewer notes, or put more fingers in use."
	default:
		r.Kind, r.Message = "too-wide", w.wide(all)
		r.Suggestion = "Play " + names + " first and then go to the others, written one after another; or give " + names + " to the other hand."
		if held[0] == all[0] {
			r.Suggestion = "Play the others first and then go to " + names + ", written one after another; or give " + names + " to the other hand."
		}
		if len(held) == 1 {
			r.Suggestion = strings.Replace(r.Suggestion, "the others", w.called(held[0]), 1)
		}
	}
	r.Message += " Left out here: " + names + "."
	w.say(r)
}

// wide says what is too wide in a chord that has fingers enough: all of it, or
// the two notes in it that no fingers can take. Of the ways to give it fingers,
// that is told of in which least is out of reach.
func (w *writer) wide(all []note) string {
	first, last := 0, 3
	for !w.hand.InUse[first] {
		first++
	}
	for !w.hand.InUse[last] {
		last--
	}
	low, high := all[0], all[len(all)-1]
	if !w.hand.Pair(w.harp, first, high.String, last, low.String) {
		return "From " + w.called(low) + " to " + w.called(high) + " is wider than this hand opens."
	}
	least, text := int32(1<<30), "This hand cannot hold these notes at once."
	for _, fingers := range w.spread(len(all)) {
		over, said := int32(0), ""
		for apart := range len(fingers) { // neighbours first: they say most plainly what is wrong
			for i := apart; i < len(fingers); i++ {
				k := i - apart
				lower, upper := all[len(all)-1-i], all[len(all)-1-k]
				lacks := w.harp.Distance(upper.String, lower.String) - w.hand.Limits[fingers[i]][fingers[k]].Most
				over += max(0, lacks)
				if lacks > 0 && said == "" {
					said = "The whole would fit the hand, but from " + w.called(lower) + " to " + w.called(upper) + " is too wide for " +
						strconv.Itoa(fingers[i]+1) + " and " + strconv.Itoa(fingers[k]+1) + ", which must take them here."
				}
			}
		}
		if said != "" && over < least {
			least, text = over, said
		}
	}
	return text
}

// spread lists the ways to choose n of the fingers in use, from the thumb on.
func (w *writer) spread(n int) [][]int {
	ways := [][]int{nil}
	for f := range 4 {
		if !w.hand.InUse[f] {
			continue
		}
		for _, way := range slices.Clone(ways) {
			if len(way) < n {
				ways = append(ways, append(slices.Clone(way), f))
			}
		}
	}
	return slices.DeleteFunc(ways, func(way []int) bool { return len(way) != n })
}

func (w *writer) called(n note) string { return n.head.Pitch.String() }

// free takes the fingers asked for off a chord that no hand can hold with them.
func (w *writer) free(notes []note, rolled bool) {
	asked := slices.IndexFunc(notes, func(n note) bool { return n.Pin > 0 })
	if asked < 0 || len(notes) < 2 {
		return
	}
	for _, frame := range w.ways(notes, rolled) {
		if !slices.ContainsFunc(notes, func(n note) bool { return n.Pin > 0 && frame[n.Pin-1] != n.String }) {
			return
		}
	}
	w.say(source.Remark{Span: notes[asked].Source, Severity: source.Error, Kind: "impossible-fingers",
		Message:    "This chord cannot be held with the fingers asked for; they are left open.",
		Suggestion: "The thumb takes the highest string, then 2, 3 and 4 downward, each its own; or ask for fewer fingers."})
	for i := range notes {
		notes[i].Pin, notes[i].Pinned = 0, source.Nowhere()
	}
}
