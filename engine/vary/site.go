package vary

import (
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
	if row.Time == ornament.Spread && quick(o, row, w.score.Events[s.Event].Length) {
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

// decoration finds the ornament that a sign means: one of the tune's own, or of
// the catalogue.
func (w *writer) decoration(name string) (ornament.Row, bool) {
	for _, row := range w.rows {
		if row.Family == ornament.Own && row.Name == strings.ToLower(name) {
			return row, true
		}
	}
	return ornament.Decoration(name)
}

// why an ornament does not fit a note.
type why int8

const (
	fits     why = iota
	noString     // the harp lacks one
	noNext       // the next note is not where the ornament leads
	noTime
	noHand // this hand cannot hold it
)

// ornament writes a row's strokes on the strings of a site's note, and says why it
// does not fit it. Where time or hand are wanting it can still be written out.
func (w *writer) ornament(s score.Site, row ornament.Row) (o score.Ornament, lack why) {
	e := w.score.Events[s.Event]
	main := e.Notes[len(e.Notes)-1].String
	toward, ok := row.Towards(w.next(s.Event))
	if !ok {
		return o, noNext
	}
	strokes, delay, enough := toward.Strokes(e.Length, e.Span[0]%3 == 0)
	o = score.Ornament{Name: row.Name, Title: row.Title, Delay: delay, Source: source.Nowhere()}
	for _, stroke := range strokes {
		at := int(main) + int(stroke.Step)
		if at < 0 || at >= len(w.harp.Strings) {
			return o, noString
		}
		o.Strokes = append(o.Strokes, score.Stroke{String: int8(at), At: stroke.At})
	}
	o.House = w.house(toward, len(strokes))
	switch early := -strokes[0].At; {
	case !enough, early > 0 && s.Event > 0 && e.Since < 2*early: // the note before keeps half of its time
		return o, noTime
	case !w.held[row.Name]:
		return o, noHand
	}
	return o, fits
}

// next says how many strings the next note lies above the top of an event, below 0
// under it; 0 where the hand comes off before it, or there is none.
func (w *writer) next(event int) int8 {
	if event+1 == len(w.score.Events) || w.score.Events[event+1].Forced {
		return 0
	}
	top := func(e score.Event) int8 { return e.Notes[len(e.Notes)-1].String }
	return top(w.score.Events[event+1]) - top(w.score.Events[event])
}

// quick reports strokes of a spread ornament that follow each other faster than
// they should.
func quick(o score.Ornament, row ornament.Row, length int32) bool {
	last := int32(0)
	for _, s := range o.Strokes {
		if s.At-last < row.Every {
			return true
		}
		last = s.At
	}
	return !row.Repeat && length-last < row.Every
}

// settle adds what is offered at a site or was spoken of, and says what sounds
// and what is prepared.
func (w *writer) settle(s *score.Site, time ornament.Time, said choice.Site) {
	for _, row := range w.rows {
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

// unfit says why an ornament named for this note is not offered.
func (w *writer) unfit(s score.Site, row ornament.Row, lack why) {
	r := source.Remark{Span: w.place(s), Severity: source.Warning, Kind: "ornament-does-not-fit"}
	is := article(row.Title) + row.Title
	switch lack {
	case noString:
		r.Message = "On this note " + is + " needs a string that this harp does not have; it is not offered."
		r.Suggestion = "Choose another ornament, or a harp that has the string."
	case noNext:
		r.Message = "The " + row.Title + " leads to a note " + far(row.Next) + " away, and the next one is not; it is not offered."
		r.Suggestion = "Choose another ornament here."
	case noHand:
		if row.Family == ornament.Own {
			return // said of the ornament itself
		}
		r.Message = "The fingers in use cannot hold the strings of " + is + "; it is not offered."
		r.Suggestion = "Choose another ornament, or set more fingers or a wider reach."
	default:
		r.Message = "There is no time for " + is + " on this note; it is not offered."
		r.Suggestion = "Choose a shorter ornament, or a slower tempo."
	}
	w.say(r)
}

// far names an interval by its strings.
func far(strings int8) string {
	if strings == 2 {
		return "a third"
	}
	return strconv.Itoa(int(strings)) + " strings"
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
			r.Message = "These grace notes are " + article(graces.Title) + graces.Title + ", and go by that name."
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
	slices.Sort(names)
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

// article gives "a " or "an " for the name of an ornament.
func article(name string) string {
	if strings.HasSuffix(name, "s") { // three strokes
		return ""
	}
	if name != "" && strings.IndexByte("aeiou", name[0]) >= 0 {
		return "an "
	}
	return "a "
}
