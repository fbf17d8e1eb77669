// Package vary writes out, on the strings of one harp, everything in a tune
// that may be played: the notes in played order and, at each site, every
// ornament.
package vary

import (
	"slices"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Score writes out one voice of a tune (from 0) for one harp and hand, as the
// choice has it. A note that the harp does not have or the hand cannot hold is
// an error at its place and is left out, so that there is a score in any case.
// Times are milliseconds at the tempo chosen, else the tune's; where that changes,
// in the same proportion. The remarks are in the order of the text; what a tune's
// own lines say must already be in the choice (Settings).
func Score(t tune.Tune, voice int, c choice.Choice, h harp.Harp, hd hand.Hand) (score.Score, []source.Remark) {
	w := &writer{
		tune: t, choice: c, harp: h, hand: hd,
		rows: c.Ornaments(), offers: c.Offers(), houses: c.Houses(), clock: t.Clock(quarter(t, c)),
		levers: make([]lever, len(h.Strings)),
		used:   make([]bool, len(h.Strings)),
		tops:   map[int]int{}, seen: map[source.Remark]bool{}, wanting: map[source.Span]bool{},
	}
	w.score.Harp = h
	w.score.Gaps = make([]score.Gap, 1)
	if voice >= 0 && voice < len(t.Voices) && len(h.Strings) > 0 {
		w.holds()
		w.bars = bars(t.Voices[voice], t.Meter)
		struck := moments(t.Voices[voice])
		w.score.Events = make([]score.Event, 0, len(struck))
		w.score.Gaps = append(make([]score.Gap, 0, len(struck)+1), score.Gap{})
		for _, m := range struck {
			w.write(m)
		}
		for k, a := range w.adorned {
			w.adorn(k, a)
		}
		w.sayLacks()
		w.sayRolled()
		w.missing(t.Voices[voice])
	}
	w.score.Raised, w.score.Used = w.raised(), w.used
	w.score.Weigh()
	return w.score, source.Sort(w.remarks)
}

// writer is a score being written.
type writer struct {
	tune   tune.Tune
	choice choice.Choice
	rows   []ornament.Row
	offers offers
	houses []choice.House
	harp   harp.Harp
	hand   hand.Hand
	clock  tune.Clock

	score   score.Score
	adorned []adorned       // by event
	held    map[string]bool // by name: the hand can play the ornament
	onset   tune.Frac       // of the last event written
	off     bool            // the hand came off the strings before a moment that was left out
	bars    []tune.Frac     // by written bar: where its beats are counted from
	levers  []lever         // by string
	used    []bool          // by string
	tops    map[int]int
	lacking []lack
	rolled  []tooWide
	wanting map[source.Span]bool // the places of the notes that want something
	remarks []source.Remark
	seen    map[source.Remark]bool
}

// quarter gives how long a quarter lasts at the start. 600 ms, 100 a minute, is for
// a tune that was given none (guess).
func quarter(t tune.Tune, c choice.Choice) int32 {
	if q, ok := c.Tempo(); ok {
		return q
	}
	if t.Tempo.QuarterMS > 0 {
		return t.Tempo.QuarterMS
	}
	return 600
}

// say keeps a remark, once.
func (w *writer) say(r source.Remark) {
	if !w.seen[r] {
		w.seen[r] = true
		w.remarks = append(w.remarks, r)
	}
}

// leave notes that a written note is left out.
func (w *writer) leave(n tune.Note) {
	if !slices.Contains(w.score.Left, n.Number) {
		w.score.Left = append(w.score.Left, n.Number)
	}
}

// write writes one moment: the strings of its notes, what the hand can hold of
// them, then the event.
func (w *writer) write(m moment) {
	graces := w.graces(m.event)
	notes, rolled := w.hold(w.notes(m), rolled(m.event))
	w.off = w.off || m.forced
	if len(notes) == 0 {
		return
	}
	k := len(w.score.Events)
	e := score.Event{
		Length: w.clock.Lasts(m.onset, m.length),
		Onset:  [2]int64{m.onset.N, m.onset.D},
		Span:   [2]int64{m.length.N, m.length.D},
		Bar:    m.event.Bar, Line: m.event.Line,
		Weak: w.weak(m.event), Rolled: rolled,
	}
	if k > 0 {
		e.Since = max(0, w.clock.Lasts(w.onset, m.onset.Sub(w.onset)))
		e.Forced = w.off
		e.Boundary = w.boundary(notes, e.Forced)
	}
	w.onset, w.off = m.onset, false
	top := notes[len(notes)-1]
	for _, n := range notes {
		e.Notes = append(e.Notes, n.Note)
		w.used[n.String] = true
		w.tops[n.Written] = top.Written
	}
	e.House = w.shape(e.Notes)
	w.score.Events = append(w.score.Events, e)
	w.score.Gaps = append(w.score.Gaps, score.Gap{})
	w.adorned = append(w.adorned, adorned{m.event, graces})
}

// adorned is what stands in the tune at an event: its signs, and the strings of its
// grace notes.
type adorned struct {
	event  *tune.Event
	graces []int8
}

// adorn writes the sites of event k.
func (w *writer) adorn(k int, a adorned) {
	before, after := w.sites(a, k)
	if len(before.Ornaments) > 0 {
		w.score.Gaps[k].Sites = append(w.score.Gaps[k].Sites, before)
	}
	if len(after.Ornaments) > 0 {
		w.score.Gaps[k+1].Sites = append(w.score.Gaps[k+1].Sites, after)
	}
}

// boundary gives what is asked of the hand before an event; of a chord's notes
// the highest that was spoken of counts.
func (w *writer) boundary(notes []note, forced bool) score.Boundary {
	for _, n := range slices.Backward(notes) {
		wish, said := w.choice.Boundary(n.Written)
		if !said {
			continue
		}
		if wish == score.Stay && forced {
			w.say(source.Remark{Span: n.Source, Severity: source.Warning, Kind: "stay-after-rest",
				Message:    "The hand comes off the strings before this note, at a rest or the end of a phrase, so it cannot stay placed.",
				Suggestion: "Leave out stay here, or the rest or phrase mark before it."})
			return score.Open
		}
		return wish
	}
	return score.Open
}
