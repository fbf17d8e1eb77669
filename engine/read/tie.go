package read

import (
	"slices"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// ties are the notes that a - holds over to the next event.
type ties struct {
	notes []pitch.Pitch
	next  []pitch.Pitch // inside a chord: its own notes with a -
	place source.Span
}

// tie reads a - after a note or chord (ABC 2.1, 4.11).
func (r *reader) tie() {
	place := span(r.at, r.at+1)
	r.at++
	n := len(r.voice.Events)
	if n == 0 || len(r.voice.Events[n-1].Notes) == 0 {
		r.tieInVain(place)
		return
	}
	r.ties.notes, r.ties.place = nil, place
	for _, note := range r.voice.Events[n-1].Notes {
		r.ties.notes = append(r.ties.notes, note.Pitch)
	}
}

// joinTies marks the notes that are held on. A tie to another pitch is a slur,
// as old files write it, and changes nothing.
func (r *reader) joinTies(e *tune.Event) {
	if len(r.ties.notes) > 0 && len(e.Notes) == 0 {
		r.tieInVain(r.ties.place)
	}
	for i, n := range e.Notes {
		e.Notes[i].Tied = slices.Contains(r.ties.notes, n.Pitch)
	}
	r.ties = ties{}
}

// endTies speaks of a tie at the end of the tune.
func (r *reader) endTies() {
	if len(r.ties.notes) > 0 {
		r.tieInVain(r.ties.place)
	}
	r.ties = ties{}
}

func (r *reader) tieInVain(place source.Span) {
	r.say(tieAlone, place, "This tie does not join two notes.", "Write - between two notes of one pitch: c2-c.")
}

// slurStart and slurEnd only see that slurs are in pairs: on the harp a slur
// changes no finger here.
func (r *reader) slurStart() {
	r.slurs = append(r.slurs, span(r.at, r.at+1))
	r.at++
}

func (r *reader) slurEnd() {
	if n := len(r.slurs); n > 0 {
		r.slurs = r.slurs[:n-1]
	} else {
		r.say(slurOdd, span(r.at, r.at+1), "This slur ends without a beginning.", "Write ( before its first note, or take it out.")
	}
	r.at++
}

func (r *reader) endSlurs() {
	for _, place := range r.slurs {
		r.say(slurOdd, place, "This slur never ends.", "Write ) after its last note, or take it out.")
	}
}
