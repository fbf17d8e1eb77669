package read

import (
	"slices"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// ties are the notes that a - holds over to the next event.
type ties struct {
	notes  []pitch.Pitch
	next   []pitch.Pitch // inside a chord: its own notes with a -
	uneven bool          // inside a chord: that its lengths differ was said
	place  source.Span
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
// as old files write it.
func (r *reader) joinTies(e *tune.Event) {
	if len(r.ties.notes) == 0 {
		return
	}
	if len(e.Notes) == 0 {
		r.tieInVain(r.ties.place)
	}
	joined := false
	for i, n := range e.Notes {
		e.Notes[i].Tied = slices.Contains(r.ties.notes, n.Pitch)
		joined = joined || e.Notes[i].Tied
	}
	if !joined && len(e.Notes) > 0 {
		r.voice.Events[len(r.voice.Events)-1].Slurs.Open++
		e.Slurs.Close++
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

// slurStart and slurEnd read ( and ), which nest (ABC 2.1, 4.11): on the harp a
// slur changes no finger here.
func (r *reader) slurStart() {
	r.slurs = append(r.slurs, span(r.at, r.at+1))
	r.waiting.slurs++
	r.at++
}

func (r *reader) slurEnd() {
	n, last := len(r.slurs), len(r.voice.Events)-1
	switch {
	case n > 0 && r.waiting.slurs > 0: // nothing between ( and )
		r.slurs = r.slurs[:n-1]
		r.waiting.slurs--
	case n == 0 || last < 0:
		r.say(slurOdd, span(r.at, r.at+1), "This slur ends without a beginning.", "Write ( before its first note, or take it out.")
	default:
		r.slurs = r.slurs[:n-1]
		r.voice.Events[last].Slurs.Close++
	}
	r.at++
}

// endSlurs speaks of slurs that are open at the end, and takes them away again.
func (r *reader) endSlurs() {
	for _, place := range r.slurs {
		r.say(slurOdd, place, "This slur never ends.", "Write ) after its last note, or take it out.")
	}
	r.slurs, r.waiting.slurs = nil, 0
	depth := 0 // of slurs that close later
	for i := len(r.voice.Events) - 1; i >= 0; i-- {
		s := &r.voice.Events[i].Slurs
		depth += s.Close
		s.Open = min(s.Open, depth)
		depth -= s.Open
	}
}
