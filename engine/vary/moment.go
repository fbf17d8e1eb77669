package vary

import (
	"slices"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// moment is one written event on one pass, as it is struck.
type moment struct {
	event  *tune.Event
	pass   int
	onset  tune.Frac
	length tune.Frac   // with the notes tied on to it
	struck []tune.Note // those that are not tied to a note before
	forced bool        // the hand is off the strings before it
}

// rest is how long the strings must be silent for the hand to be off them.
var rest = tune.Frac{N: 1, D: 8}

// moments gives what one voice strikes, in played order.
func moments(v tune.Voice) []moment {
	list := make([]moment, 0, len(v.Played))
	var before []sounding // what sounds up to here or further
	var end tune.Frac     // when the last note ends
	end.D = 1
	phrase := false // a phrase ended since the last note struck
	for i, step := range v.Played {
		if step.Event < 0 || step.Event >= len(v.Events) {
			continue
		}
		if i > 0 && step.Event != v.Played[i-1].Event+1 {
			before = before[:0] // a repeat or a part: no tie leads there
		}
		e := &v.Events[step.Event]
		if len(e.Notes) == 0 {
			phrase = phrase || e.PhraseEnd
			continue
		}
		before = slices.DeleteFunc(before, func(s sounding) bool { return s.end.Less(step.Onset) })
		m := moment{event: e, pass: step.Pass, onset: step.Onset, length: e.Length}
		for _, n := range e.Notes {
			if !n.Tied || !sounds(before, n, step.Onset) {
				m.struck = append(m.struck, n)
			}
		}
		if len(m.struck) > 0 {
			m.forced = phrase || !step.Onset.Sub(end).Less(rest)
			phrase = false
			list = append(list, m)
		} else if len(list) > 0 {
			last := &list[len(list)-1]
			last.length = step.Onset.Add(e.Length).Sub(last.onset)
		}
		for _, n := range e.Notes {
			to := step.Onset.Add(e.Length)
			if n.Length.D > 0 {
				to = step.Onset.Add(n.Length)
			}
			before = append(before, sounding{n.Pitch, to})
			if end.Less(to) {
				end = to
			}
		}
		phrase = phrase || e.PhraseEnd
	}
	return list
}

// sounding is a string that sounds up to a played time.
type sounding struct {
	pitch pitch.Pitch
	end   tune.Frac
}

// sounds reports whether a note's pitch is among those that sound up to it.
func sounds(before []sounding, n tune.Note, at tune.Frac) bool {
	return slices.Contains(before, sounding{n.Pitch, at})
}
