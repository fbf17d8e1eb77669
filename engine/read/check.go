package read

import (
	"slices"

	"readyhand/engine/tune"
)

// numberBars numbers the written bars from 1. A short bar before the first bar
// line is a pickup, bar 0. Where a repeat or double bar parts a bar in two (a
// pickup to the second part), both halves are one bar, as players count.
func (r *reader) numberBars() {
	if r.over.main != nil {
		r.numberLayer()
		return
	}
	bars := r.bars.closed
	marks := map[int]tune.Mark{}
	for _, m := range r.voice.Marks {
		if m.Kind == tune.Bar {
			marks[m.Event] = m
		}
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

// numberLayer gives a layer the bars that it lies over, and speaks of what lasts
// longer than those.
func (r *reader) numberLayer() {
	main := r.over.main
	k := 0
	for i := range r.voice.Events {
		e := &r.voice.Events[i]
		for k+1 < len(main.voice.Events) && !e.Onset.Less(main.voice.Events[k+1].Onset) {
			k++
		}
		e.Bar = main.voice.Events[k].Bar
	}
	r.voice.Bars = main.voice.Bars
	k = 0
	for _, b := range r.bars.closed {
		for k+1 < len(main.bars.closed) && !b.start.Less(main.bars.closed[k+1].start) {
			k++
		}
		if k < len(main.bars.closed) && main.bars.closed[k].start.Add(main.bars.closed[k].length).Less(b.start.Add(b.length)) {
			r.say(barTooLong, r.place(b.from, b.to), "This part lasts longer than the bar that it lies over.",
				"Make it as long as the bar before its &.")
		}
	}
}

// short and full hold a bar against its meter; neither is said of a bar that
// cannot be held against it.
func (b bar) short() bool { return b.held() && b.length.Less(barLength(b.meter)) }
func (b bar) long() bool  { return b.held() && barLength(b.meter).Less(b.length) }
func (b bar) held() bool  { return b.meter.Beats > 0 && !b.exempt }

// completes reports that a repeat or double bar parts this bar from the one
// before, and that together they make at most one. Endings are bars of their own.
func (b bar) completes(before bar) bool {
	if !turns(b.left) || b.left.Passes != 0 || !b.short() || !before.short() {
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
	if r.over.main != nil {
		return
	}
	places, all := r.doubts()
	if all {
		return
	}
	bars := r.bars.closed
	repeats := false
	for _, m := range r.voice.Marks {
		repeats = repeats || m.Ends > 0
	}
	for i, b := range bars {
		last := i == len(bars)-1
		switch {
		case (b.long() || b.short()) && b.among(places):
		case b.long():
			r.say(barTooLong, r.place(b.from, b.to), r.holds(b), "Look for a missing bar line, or a note that is too long.")
		case !b.short() || i == 0 && r.pickup():
		case last && (repeats || r.pickup()):
		case !last && (turns(b.left) || turns(b.right)):
		default:
			r.say(barTooShort, r.place(b.from, b.to), r.holds(b), "Look for a missing note or rest, or a bar line too many.")
		}
	}
}

// unsure are the remarks after which it is not known how long a bar was meant to be:
// to say that it is too long or too short would be to say the same again.
var unsure = []kind{accidentalAlone, badBroken, badNoteLength, badTuplet, decorationAlone, emptyChord, oldChord,
	sharpAfter, strayNumber, tupletShort, unclosedChord, unclosedGraces, unclosedQuote, unknownLetter}

// doubts gives where such remarks stand; all is true where no bar can be held
// against its meter, because notes have another length than was meant.
func (r *reader) doubts() (places []int32, all bool) {
	for _, said := range r.remarks {
		if slices.ContainsFunc(unsure, func(k kind) bool { return kindRows[k].name == said.Kind }) {
			places = append(places, said.From)
		}
		all = all || said.Kind == kindRows[badLength].name
	}
	return places, all
}

// among reports a bar in which one of these places lies.
func (b bar) among(places []int32) bool {
	return slices.ContainsFunc(places, func(at int32) bool {
		return b.left.Source.From <= at && (at < b.right.Source.To || !b.right.Line)
	})
}

func (r *reader) holds(b bar) string {
	full := barLength(b.meter)
	note := counting(b.meter.Unit, b.length, full)
	return "This bar holds " + note.count(b.length) + "; in " + b.meter.Text + " it holds " + note.count(full) + "."
}
