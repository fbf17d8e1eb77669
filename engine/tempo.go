package engine

import (
	"strconv"

	"readyhand/engine/draw"
	"readyhand/engine/tune"
)

// mostTempos is how many changes of tempo are told one by one (guess: more than a
// tune of this kind has).
const mostTempos = 4

// Tempos gives the tempo from the start on and its changes in written time, as they
// are played.
func (a *Answer) Tempos() []tune.Pace { return a.Block.Hands.Tempos(a.Tempo.QuarterMS) }

// Clock tells time as a tune is played, for those who know only this package.
type Clock = tune.Clock

// Clock tells time as the tune is played.
func (a *Answer) Clock() Clock { return a.Block.Hands.Clock(a.Tempo.QuarterMS) }

// quarter is how long a quarter lasts when an event of a score is played, in
// milliseconds.
func (a *Answer) quarter(e *Event) int32 {
	return a.Clock().Quarter(tune.NewFrac(e.Onset[0], e.Onset[1]))
}

// Stroke gives when a stroke of an ornament sounds and for how long, in whole notes of
// played time: it comes so many milliseconds after an onset and lasts so many.
func Stroke(clock Clock, after [2]int64, at, lasts int32) (onset, length [2]int64) {
	note := tune.NewFrac(after[0], after[1])
	from := clock.After(note, at)
	to := clock.After(note, at+lasts).Sub(from)
	return [2]int64{from.N, from.D}, [2]int64{to.N, to.D}
}

// tempo says the tempo as the page does, where it is from, and from where on it is
// another: "crotchet = 60 (Q: line), 48 from bar 5 on".
func (a *Answer) tempo() string {
	said := draw.Paces(&a.Block.Hands, a.Tempo.QuarterMS)
	text := said[0] + " (" + a.Tempo.From + ")"
	changes := a.Tempos()[1:]
	for i, p := range changes {
		if i == mostTempos {
			return text + ", and so on"
		}
		text += ", "
		if _, chosen := a.Choice.Tempo(); chosen && i == 0 {
			text += "in proportion "
		}
		text += said[i+1] + " " + a.from(p.At)
	}
	return text
}

// from names a written time by its bar: "from bar 5 on", "within bar 5".
func (a *Answer) from(at tune.Frac) string {
	bar, before := -1, -1
	for _, v := range a.Block.Hands.Voices {
		for i := range v.Events {
			e := &v.Events[i]
			if e.Onset.Less(at) {
				before = max(before, e.Bar)
			} else if bar < 0 || e.Bar < bar {
				bar = e.Bar
			}
		}
	}
	word := "from bar " + strconv.Itoa(bar) + " on"
	if bar == before {
		word = "within bar " + strconv.Itoa(bar)
	}
	return word
}
