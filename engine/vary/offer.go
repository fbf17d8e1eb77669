package vary

import (
	"cmp"
	"slices"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// offers are what is offered: first what is everywhere, then note by note.
type offers []choice.Offer

// on gives what is offered on one note, 0 for what is offered everywhere.
func (all offers) on(written int) offers {
	from, _ := slices.BinarySearchFunc(all, written, func(o choice.Offer, n int) int { return cmp.Compare(o.Written, n) })
	to, _ := slices.BinarySearchFunc(all, written+1, func(o choice.Offer, n int) int { return cmp.Compare(o.Written, n) })
	return all[from:to]
}

// everywhere reports an ornament that is offered on all notes, or on the long ones.
func (all offers) everywhere(name string) bool {
	return slices.ContainsFunc(all.on(0), func(o choice.Offer) bool { return o.Name == name })
}

// A long note lasts a dotted crotchet or longer, whatever the metre: what stands
// out among the quavers and crotchets of a dance tune (a guess).
const (
	longN = 3
	longD = 8
)

// offered reports whether an ornament is offered at a site, and whether by its name
// for this one note.
func (w *writer) offered(s score.Site, name string) (is, here bool) {
	span := w.score.Events[s.Event].Span
	long := span[0]*longD >= span[1]*longN
	for _, o := range w.offers.on(0) {
		is = is || o.Name == name && (long || !o.Long)
	}
	for _, o := range w.offers.on(s.Written) {
		is = is || o.Name == name
		here = here || o.Name == name && !o.Among
	}
	return is, here
}

// holds finds the ornaments that this hand can play, and speaks of those of the
// tune's own that it cannot.
func (w *writer) holds() {
	w.held = map[string]bool{}
	for _, row := range w.rows {
		w.held[row.Name] = playable(row, w.hand, w.harp)
		if row.Family == ornament.Own && !w.held[row.Name] {
			w.say(source.Remark{Span: w.defined(row.Name), Severity: source.Error, Kind: "ornament-unplayable",
				Message:    "This hand cannot play the " + row.Title + ": its strings want other fingers than there are, or a wider hand.",
				Suggestion: "Take fewer or nearer strings, or let it follow its note: write after at the end, and 0 first."})
		}
	}
}

// againLeast is how soon, in milliseconds, a finger lower in the hand can follow
// another on one string within an ornament.
const againLeast = 150

// playable reports whether a hand has fingers for a quick ornament: all its strings
// in one placing, and on one string the lower finger first. One that is spread over
// its note may have the hand set anew.
func playable(row ornament.Row, h hand.Hand, on harp.Harp) bool {
	low, high := slices.Min(row.Steps), slices.Max(row.Steps)
	if row.Time == ornament.Spread || int(high)-int(low) >= len(on.Strings) {
		return true // not the hand's lack
	}
	var try func(held hand.Frame, last, k int) bool
	try = func(held hand.Frame, last, k int) bool {
		if k == len(row.Steps) {
			return true
		}
		again := k > 0 && row.Steps[k] == row.Steps[k-1] && row.Quick < againLeast
		for f := range 4 {
			if s := row.Steps[k] - low; h.Takes(on, held, f, s) && !(again && f >= last) {
				with := held
				with[f] = s
				if try(with, f, k+1) {
					return true
				}
			}
		}
		return false
	}
	return try(hand.Empty(), 0, 0)
}
