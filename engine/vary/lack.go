package vary

import (
	"slices"
	"strconv"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// lack is one thing that this harp lacks, and the written notes that want it:
// strings above it or below it, or one pitch that no lever gives. It is said
// once, at the first of them.
type lack struct {
	want
	count int
	first place
}

// want tells lacks apart.
type want struct {
	grace bool        // grace notes want it
	side  string      // "above" or "below" the harp; "" within it
	pitch pitch.Pitch // within the harp: what no lever gives
}

// place is a written note and where it stands.
type place struct {
	pitch pitch.Pitch
	bar   int
	at    source.Span
}

// lacks keeps that the harp has no string for a note, once for each note.
func (w *writer) lacks(p pitch.Pitch, bar int, at source.Span, grace bool) {
	if w.wanting[at] {
		return
	}
	w.wanting[at] = true
	wants := want{grace: grace, pitch: p}
	if w.harp.At(p.Step()) < 0 {
		wants = want{grace: grace, side: "above"}
		if p.Step() < w.harp.Strings[0].Pitch.Step() {
			wants.side = "below"
		}
	}
	here := place{p, bar, at}
	i := slices.IndexFunc(w.lacking, func(l lack) bool { return l.want == wants })
	if i < 0 {
		w.lacking = append(w.lacking, lack{wants, 1, here})
		return
	}
	l := &w.lacking[i]
	l.count++
	if at.From < l.first.at.From {
		l.first = here
	}
}

// sayLacks says what the harp lacks. A grace note that is left out is less than
// a note of the tune.
func (w *writer) sayLacks() {
	for _, l := range w.lacking {
		r := source.Remark{Span: l.first.at, Severity: source.Error}
		what := "note"
		if l.grace {
			r.Severity, what = source.Warning, "grace note"
		}
		if l.side != "" {
			w.outside(&r, l, what)
		} else {
			w.noLever(&r, l, what)
		}
		w.say(r)
	}
}

// outside says that notes lie above or below the harp.
func (w *writer) outside(r *source.Remark, l lack, what string) {
	low, high := w.harp.Strings[0].Pitch, w.harp.Strings[len(w.harp.Strings)-1].Pitch
	where := l.side + " this harp, which goes from " + low.String() + " to " + high.String()
	r.Kind = "outside-harp"
	r.Message = "The " + what + " " + l.first.pitch.String() + " lies " + where + "."
	if l.count > 1 {
		r.Message = strconv.Itoa(l.count) + " " + what + "s lie " + where + "; the first is " + l.first.String() + "."
	}
	way := "down"
	if l.side == "below" {
		way = "up"
	}
	has := "choose a harp that has the string."
	if l.count > 1 {
		has = "choose a harp that has the strings."
	}
	r.Suggestion = "Write the passage an octave " + way + ", or " + has
	if n := w.fits(way); n > 0 {
		by := strconv.Itoa(7 * n)
		if way == "down" {
			by = "-" + by
		}
		r.Suggestion = [...]string{"An octave ", "Two octaves "}[n-1] + way + " the whole tune fits: write %%ready transpose " + by + " in it, or " + has
	}
}

// fits gives how many octaves up or down the harp has strings for all of the tune, one
// or two; 0 if that is not so, or the tune has been moved already.
func (w *writer) fits(way string) int {
	if w.tune.Moved != (tune.Move{}) {
		return 0
	}
	for n := 1; n <= 2; n++ {
		by := tune.Move{Letters: 7 * n, Semitones: 12 * n}
		if way == "down" {
			by = tune.Move{Letters: -7 * n, Semitones: -12 * n}
		}
		if moved, ok := w.tune.MovedTo(by); ok && lacks(w.harp, moved) == 0 {
			return n
		}
	}
	return 0
}

// noLever says that no lever gives a pitch, and what to write instead.
func (w *writer) noLever(r *source.Remark, l lack, what string) {
	p := l.pitch
	s := w.harp.Strings[w.harp.At(p.Step())]
	r.Kind = "no-lever"
	r.Message = "No lever gives " + p.String() + ": on this harp, tuned to " + w.harp.Tuning + ", that string sounds " +
		s.Pitch.String() + ", or " + s.Sounding(true).String() + " with its lever up."
	if l.count > 1 {
		r.Message += " " + strconv.Itoa(l.count) + " " + what + "s ask for it; the first is in " + barName(l.first.bar) + "."
	}
	r.Suggestion = "Leave the note out, or choose a harp tuned otherwise."
	if q, ok := w.harp.Respell(p); ok {
		i, up, _ := w.harp.Find(q)
		stand := "down"
		if up {
			stand = "up"
		}
		r.Suggestion = "Write " + q.String() + " (" + abc(q) + "): the " + w.harp.Strings[i].Pitch.Name() + " string with its lever " + stand + "."
	}
}

// String gives a note with its bar: "B4 in bar 1".
func (p place) String() string { return p.pitch.String() + " in " + barName(p.bar) }

// barName is a bar as spoken.
func barName(bar int) string {
	if bar == 0 {
		return "the pickup"
	}
	return "bar " + strconv.Itoa(bar)
}

// notStruck speaks of a note of which something was said and which is not
// struck: it was left out, or is tied to the one before it.
func (w *writer) notStruck(n tune.Note) {
	r := source.Remark{Span: w.saidAt("", n.Number, n.Source), Severity: source.Note, Kind: "note-not-struck"}
	left := slices.Contains(w.score.Left, n.Number)
	switch {
	case left && (n.Beyond || w.wanting[n.Source]):
		return // that the harp lacks it is said already
	case left:
		r.Message = "This note is left out of its chord, and so is what was said of it."
		r.Suggestion = "Choose for another note of the chord."
	case n.Tied:
		r.Message = "This note is tied to the one before it and is not struck again; what was said of it is dropped."
		r.Suggestion = "Choose for the note before it."
	default:
		r.Message = "This note is never struck by itself; what was said of it is dropped."
		r.Suggestion = "Choose for a note that is struck."
	}
	w.say(r)
}
