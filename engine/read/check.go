package read

import (
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// numberBars numbers the written bars from 1. A short bar before the first bar
// line is a pickup, bar 0. Where a repeat or double bar parts a bar in two (a
// pickup to the second part), both halves are one bar, as players count.
func (r *reader) numberBars() {
	bars := r.bars.closed
	marks := map[int]mark{}
	for _, m := range r.bars.marks {
		marks[m.event] = m
	}
	number := 0
	for i := range bars {
		b := &bars[i]
		b.left, b.right = marks[b.from], marks[b.to]
		switch {
		case i == 0 && r.pickup():
		case i > 0 && number > 0 && b.completes(bars[i-1]):
		default:
			number++
		}
		for e := b.from; e < b.to; e++ {
			r.voice.Events[e].Bar = number
		}
		number += b.rested
	}
	r.voice.Bars = number
}

// short and full hold a bar against its meter; neither is said of a bar that
// cannot be held against it.
func (b bar) short() bool { return b.held() && b.length.Less(barLength(b.meter)) }
func (b bar) long() bool  { return b.held() && barLength(b.meter).Less(b.length) }
func (b bar) held() bool  { return b.meter.Beats > 0 && !b.exempt }

// completes reports that a repeat or double bar parts this bar from the one
// before, and that together they make at most one. Endings are bars of their own.
func (b bar) completes(before bar) bool {
	if !b.left.turns() || b.left.passes != 0 || !b.short() || !before.short() {
		return false
	}
	return !barLength(b.meter).Less(b.length.Add(before.length))
}

// pickup reports a first bar that is short, with others after it.
func (r *reader) pickup() bool {
	bars := r.bars.closed
	return len(bars) > 1 && bars[0].short()
}

// checkBars holds every bar against the meter. Short ones are all right where
// the bar may go on elsewhere: a pickup, around repeats, endings and double
// bars, and at the end of a tune that has a pickup or a repeat.
func (r *reader) checkBars() {
	bars := r.bars.closed
	repeats := false
	for _, m := range r.bars.marks {
		repeats = repeats || m.ends > 0
	}
	for i, b := range bars {
		last := i == len(bars)-1
		switch {
		case b.long():
			r.say(barTooLong, r.barPlace(b), r.holds(b), "Look for a missing bar line, or a note that is too long.")
		case !b.short() || i == 0 && r.pickup():
		case last && (repeats || r.pickup()):
		case !last && (b.left.turns() || b.right.turns()):
		default:
			r.say(barTooShort, r.barPlace(b), r.holds(b), "Look for a missing note or rest, or a bar line too many.")
		}
	}
}

func (r *reader) holds(b bar) string {
	full := barLength(b.meter)
	note := counting(b.meter.Unit, b.length, full)
	return "This bar holds " + note.count(b.length) + "; in " + b.meter.Text + " it holds " + note.count(full) + "."
}

func (r *reader) barPlace(b bar) source.Span {
	return source.Span{From: r.voice.Events[b.from].Source.From, To: r.voice.Events[b.to-1].Source.To}
}

// closeVoice puts the voice into the tune.
func (r *reader) closeVoice() { r.t.Voices = []tune.Voice{r.voice} }
