package vary

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// grace is the name of grace notes that are no ornament of the catalogue.
const grace = "grace"

// graces finds the strings of an event's grace notes; it gives none of them if
// the harp lacks one, and asks for their levers.
func (w *writer) graces(e *tune.Event) []int8 {
	var list []int8
	for _, g := range e.Graces {
		if g.Beyond { // said where it was read
			return nil
		}
		i, _, ok := w.harp.Find(g.Pitch)
		if !ok {
			w.lacks(g.Pitch, e.Bar, g.Source, true)
			return nil
		}
		list = append(list, int8(i))
	}
	for i, g := range e.Graces {
		w.turn(list[i], g.Pitch, g.Source)
	}
	return list
}

// sites gives the two sites of event k: on its beat, and spread after it.
func (w *writer) sites(a adorned, k int) (before, after score.Site) {
	e := w.score.Events[k]
	top := e.Notes[len(e.Notes)-1]
	before = score.Site{Written: top.Written, Pass: top.Pass, Event: k}
	after = before
	after.After = true
	var named ornament.Row // the grace notes
	if len(a.graces) > 0 {
		steps := make([]int8, len(a.graces))
		for i, s := range a.graces {
			steps[i] = s - top.String
		}
		row, ok := ornament.Graces(steps)
		if !ok {
			row = ornament.Grace(steps)
		}
		at := source.Span{From: a.event.Graces[0].Source.From, To: a.event.Graces[len(a.graces)-1].Source.To}
		w.put(&before, row, at)
		named = row
	}
	for _, d := range a.event.Decorations {
		row, ok := w.decoration(d.Name)
		if !ok {
			continue // no ornament: a fermata, an accent
		}
		if row.Time == ornament.Spread {
			w.put(&after, row, d.Source)
		} else {
			w.put(&before, row, d.Source)
		}
	}
	for time, s := range []*score.Site{ornament.OnBeat: &before, ornament.Spread: &after} {
		said := w.choice.Site(s.Written, ornament.Time(time))
		heard := said
		if said.Chosen == grace && !has(*s, grace) {
			heard.Chosen = "" // what does not stand here silences nothing
		}
		w.settle(s, ornament.Time(time), heard)
		w.strangers(*s, said, named)
	}
	return before, after
}

// put adds a written ornament to a site.
func (w *writer) put(s *score.Site, row ornament.Row, at source.Span) {
	if has(*s, row.Name) {
		return // the same twice: a cut as grace note and as a sign
	}
	o, lack := w.ornament(*s, row)
	switch lack {
	case noString:
		w.say(source.Remark{Span: at, Severity: source.Warning, Kind: "ornament-outside-harp",
			Message:    "The " + row.Title + " needs a string that this harp does not have; it is left out.",
			Suggestion: "Choose another ornament, or a harp that has the string."})
		return
	case noNext:
		w.say(source.Remark{Span: at, Severity: source.Warning, Kind: "ornament-without-next",
			Message:    "The " + row.Title + " leads to a note " + far(row.Next) + " away, and the next one is not; it is left out.",
			Suggestion: "Choose another ornament here."})
		return
	case noHand:
		if row.Family == ornament.Own {
			return // said of the ornament itself
		}
	}
	if Quick(o, row, w.score.Events[s.Event].Length) {
		w.say(source.Remark{Span: at, Severity: source.Warning, Kind: "ornament-quick",
			Message:    "The " + row.Title + " is very quick here: so short a note leaves its strings little time.",
			Suggestion: "Choose a shorter ornament, a longer note or a slower tempo."})
	}
	o.Written, o.Source = true, at
	if len(s.Ornaments) > 0 {
		w.say(source.Remark{Span: at, Severity: source.Note, Kind: "two-ornaments",
			Message:    "Two ornaments stand on this note; one can sound, and the " + s.Ornaments[0].Title + " does.",
			Suggestion: "Switch on the " + row.Title + " to hear it instead."})
	}
	s.Ornaments = append(s.Ornaments, o)
}

// settle adds what is offered at a site or was spoken of, and says what sounds
// and what is prepared.
func (w *writer) settle(s *score.Site, time ornament.Time, said choice.Site) {
	rows := w.rows
	if len(w.offers.on(0))+len(w.offers.on(s.Written))+len(said.Asked) == 0 && !said.Sounds {
		rows = nil // nothing is offered here, and nothing was asked for: most notes of most tunes
	}
	for _, row := range rows {
		if row.Time != time || has(*s, row.Name) {
			continue
		}
		offered, here := w.offered(*s, row.Name)
		here = here || wanted(said, row.Name)
		if !offered && !here {
			continue
		}
		o, lack := w.ornament(*s, row)
		if lack == fits {
			s.Ornaments = append(s.Ornaments, o)
		} else if here {
			w.unfit(*s, row, lack)
		}
	}
	w.prepare(s, said)
	switchOn(s, said)
	for _, o := range s.Ornaments {
		for _, stroke := range o.Strokes {
			w.used[stroke.String] = true
		}
	}
}

// strangers speaks of what was said of ornaments that a site does not have:
// switching off what is not there, or grace notes by that name which have one of
// their own. What was switched on here and set back is not spoken of, nor what
// is offered everywhere and does not fit on this note. graces is the row of the
// note's grace notes.
func (w *writer) strangers(s score.Site, said choice.Site, graces ornament.Row) {
	r := source.Remark{Span: w.place(s), Severity: source.Warning, Kind: "no-such-ornament"}
	for _, name := range spokenOf(said) {
		row, _ := w.choice.Ornament(name)
		switch {
		case has(s, name):
			continue
		case name == grace && graces.Name != "":
			r.Message = "These grace notes are " + article(graces) + ", and go by that name."
			r.Suggestion = "Write " + graces.Name + "@" + strconv.Itoa(s.Written) + "."
		case name == grace:
			r.Message = "There are no grace notes on this note: what was said of them changes nothing."
			r.Suggestion = "Write an ornament by its name, such as cut, or leave this out."
		case wanted(said, name), said.Chosen != "", w.offers.everywhere(name):
			continue // said already, or nothing to say
		default:
			r.Message = "There is no " + row.Title + " on this note: what was said of it changes nothing."
			r.Suggestion = "Leave it out, or offer it first: offer " + name + "@" + strconv.Itoa(s.Written) + "."
		}
		r.Span = w.saidAt(name, s.Written, r.Span)
		w.say(r)
	}
}

// spokenOf lists the ornaments that something was said of, once each.
func spokenOf(said choice.Site) []string {
	names := slices.Clone(said.Silent)
	for _, a := range said.Asked {
		names = append(names, a.Name)
	}
	if said.Chosen != "" {
		names = append(names, said.Chosen)
	}
	source.Order(names, cmp.Compare)
	return slices.Compact(names)
}

func (w *writer) place(s score.Site) source.Span {
	notes := w.score.Events[s.Event].Notes
	return notes[len(notes)-1].Source
}

// has reports whether a site has an ornament of this name.
func has(s score.Site, name string) bool { return index(s, name) >= 0 }

func index(s score.Site, name string) int {
	return slices.IndexFunc(s.Ornaments, func(o score.Ornament) bool { return o.Name == name })
}

// wanted reports whether an ornament was switched on or called likely.
func wanted(said choice.Site, name string) bool {
	return said.Chosen == name && said.Sounds ||
		slices.ContainsFunc(said.Asked, func(a choice.Asked) bool { return a.Name == name && a.Likelihood > choice.Never })
}

// prepare shares the 16 of a site out: first to those spoken of, the last one
// first, then to the others in their order, of whom the written ones would come
// now and then.
func (w *writer) prepare(s *score.Site, said choice.Site) {
	left := choice.Always
	give := func(i int, wish int32) {
		o := &s.Ornaments[i]
		o.Likelihood = score.Share(wish, left)
		left -= o.Likelihood
		if o.Likelihood < wish {
			w.say(source.Remark{Span: w.place(*s), Severity: source.Note, Kind: "likelihood-lowered",
				Message: "The ornaments of one note share their likelihood: the " + o.Title + " is now " +
					choice.LikelihoodWord(o.Likelihood) + " prepared, not " + choice.LikelihoodWord(wish) + ".",
				Suggestion: "Call another of them less likely."})
		}
	}
	asked := make([]bool, len(s.Ornaments))
	for _, a := range said.Asked {
		if i := index(*s, a.Name); i >= 0 {
			asked[i] = true
			give(i, a.Likelihood)
		}
	}
	for i, o := range s.Ornaments {
		if !asked[i] && o.Written {
			give(i, w.choice.Prepared())
		}
	}
}

// switchOn says which ornament of a site sounds: the one switched on, beside
// which the others are silent even where it cannot be played itself; else the
// first written one that was not switched off. One that is never prepared is
// silent.
func switchOn(s *score.Site, said choice.Site) {
	on := slices.IndexFunc(s.Ornaments, func(o score.Ornament) bool { return o.Written })
	if said.Chosen != "" {
		on = index(*s, said.Chosen)
		if !said.Sounds {
			return
		}
	}
	if on >= 0 && s.Ornaments[on].Likelihood > choice.Never && !slices.Contains(said.Silent, s.Ornaments[on].Name) {
		s.Ornaments[on].On = true
	}
}

// spoken reports whether an ornament was spoken of or offered on a note.
func (w *writer) spoken(written int) bool {
	if len(w.offers.on(written)) > 0 {
		return true
	}
	for _, time := range []ornament.Time{ornament.OnBeat, ornament.Spread} {
		said := w.choice.Site(written, time)
		if len(said.Asked)+len(said.Silent) > 0 {
			return true
		}
	}
	return false
}

// article calls an ornament one of its kind: "a cut", "an upper mordent", "three
// strokes".
func article(row ornament.Row) string {
	switch {
	case row.Many:
		return row.Title
	case row.Title != "" && strings.IndexByte("aeiou", row.Title[0]) >= 0:
		return "an " + row.Title
	}
	return "a " + row.Title
}
