package vary

import (
	"slices"
	"strconv"

	"readyhand/engine/hand"
	"readyhand/engine/source"
)

// hold gives the notes of a moment that the hand can hold, lowest first. What
// it cannot is left out: from the bottom in the right hand, which has the tune
// on top, from the top in the left.
func (w *writer) hold(notes []note) []note {
	all := notes
	for len(notes) > 1 && len(w.ways(notes)) == 0 {
		if w.hand.Name == "left" {
			notes = notes[:len(notes)-1]
		} else {
			notes = notes[1:]
		}
	}
	if len(notes) < len(all) {
		w.tooMuch(all, notes)
	}
	w.free(notes)
	return notes
}

// ways lists how the hand can take the notes at once.
func (w *writer) ways(notes []note) []hand.Frame {
	if len(notes) > 4 {
		return nil // more than a hand has fingers for
	}
	var on []int8
	for _, n := range notes {
		on = append(on, n.String)
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
		span := int(all[len(all)-1].String-all[0].String) + 1
		r.Kind, r.Message = "too-wide", "This hand cannot hold these notes at once: they reach over "+strconv.Itoa(span)+" strings."
		r.Suggestion = "Write them one after another, rolled from the lowest, or give one to the other hand."
	}
	r.Message += " Left out here: " + names + "."
	w.say(r)
}

// free takes the fingers asked for off a chord that no hand can hold with them.
func (w *writer) free(notes []note) {
	asked := slices.IndexFunc(notes, func(n note) bool { return n.Pin > 0 })
	if asked < 0 || len(notes) < 2 {
		return
	}
	for _, frame := range w.ways(notes) {
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
