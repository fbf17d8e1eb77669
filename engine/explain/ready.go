package explain

import (
	"strings"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Ornament is one ornament of a site in words. Gap, Site and Which find it in
// the score, on the first pass that has it.
type Ornament struct {
	Gap, Site, Which int
	Label            string // "cut on the first D, bar 1"
	Ready            string // "in the hand: 1 is on E already"
}

// Each names every ornament of a score once, written notes in played order,
// and says how ready the hand is for it. A later pass on which that differs is
// said after the first.
func Each(s *score.Score, r *rule.Rules, p *plan.Plan) []Ornament {
	t := &teller{book: newBook(s), r: r, p: p}
	var all []Ornament
	first := map[string]int{} // by written note and name: where in all, plus 1
	differs := map[string]bool{}
	for j := range s.Gaps {
		for i, site := range s.Gaps[j].Sites {
			for k, o := range site.Ornaments {
				ready := t.ready(j, i, k)
				id := score.ID(site.Written, 1) + "." + o.Name
				at := first[id]
				if at == 0 {
					label := o.Title + " on " + t.short(site.Event, t.noteOf(site)) + ", " + bar(s.Events[site.Event].Bar)
					all = append(all, Ornament{j, i, k, label, ready})
					first[id] = len(all)
					continue
				}
				if all[at-1].Ready != ready && !differs[id] {
					differs[id] = true
					all[at-1].Ready += "; the " + ordinal(site.Pass) + " time " + ready
				}
			}
		}
	}
	return all
}

// ready says in a few words what an ornament asks of the hand.
func (t *teller) ready(gap, site, which int) string {
	text := t.asks(gap, site, which)
	if o := &t.s.Gaps[gap].Sites[site].Ornaments[which]; o.On || o.Written || o.Likelihood > 0 {
		text += t.with("; ", t.silences(gap, site, which), "")
	}
	if t.fit(gap, site, which).Unusual {
		text += "; not with your usual " + Usual(t.s.Gaps[gap].Sites[site].Ornaments[which].Name, t.s.Gaps[gap].Sites[site].Ornaments[which].House[0])
	}
	return text
}

func (t *teller) asks(gap, site, which int) string {
	fit := t.fit(gap, site, which)
	o := t.s.Gaps[gap].Sites[site].Ornaments[which]
	extra := ""
	if effort := Effort(fit.Extra); fit.Extra > 0 && effort != "0" {
		extra = " (" + effort + " more effort)"
	}
	idle := o.Likelihood == 0 && !o.On
	switch fit.Ready {
	case plan.InHand:
		return "in the hand" + t.with(": ", t.touches(gap, site, which), " already") + t.with("; but ", t.hurried(gap, site, which), "")
	case plan.FingerFree:
		return "finger free" + t.with(": ", t.idle(gap, site, which), "") + extra
	case plan.FingerKept:
		verb := " waits on "
		if idle {
			verb = " would wait on "
		}
		return "finger kept: " + t.waiting(gap, site, which, verb) + others(fit.Moves) + extra
	case plan.PlacedAgain:
		if len(fit.Touches) == 0 {
			return "placed again: the hand would be set otherwise" + others(fit.Moves) + extra
		}
		return "placed again: the hand leaves for it" + extra
	}
	if lack := Lacking(t.s, t.r, gap, site, which); lack != TooFast {
		return lack.String()
	}
	return "no time at this tempo"
}

// others says how many written notes would be fingered otherwise.
func others(notes int) string {
	switch notes {
	case 0:
		return ""
	case 1:
		return ", and one note moves"
	}
	return ", and " + many(notes) + " notes move"
}

func (t *teller) with(before, words, after string) string {
	if words == "" {
		return ""
	}
	return before + words + after
}

// touch is a finger on a string, and whether a written note or only an
// ornament put it there.
type touch struct {
	finger     int
	string     int8
	kept, free bool
}

// touched lists the fingers and strings that an ornament uses besides the
// note's own finger on its string, each once, in the order they play.
func (t *teller) touched(gap, site, which int) []touch {
	fit := t.fit(gap, site, which)
	st := t.s.Gaps[gap].Sites[site]
	own, taken := t.own(gap, site)
	var all []touch
	for i, stroke := range st.Ornaments[which].Strokes {
		if i >= len(fit.Touches) {
			break
		}
		x := touch{finger: int(fit.Touches[i].Finger), string: stroke.String}
		if pl := t.from(gap, fit.Touches[i].From); pl != nil {
			x.kept, x.free = pl.Kept[x.finger] && pl.Frame[x.finger] == x.string, pl.Free[x.finger] && pl.Frame[x.finger] == x.string
		}
		if (stroke.String != own || x.finger != taken) && !has(all, x) {
			all = append(all, x)
		}
	}
	return all
}

func has(all []touch, x touch) bool {
	for _, y := range all {
		if x == y {
			return true
		}
	}
	return false
}

// own gives the string of the note that a site adorns, and the finger that plays
// it, -1 if none does.
func (t *teller) own(gap, site int) (on int8, taken int) {
	st := t.s.Gaps[gap].Sites[site]
	on = t.s.Events[st.Event].Notes[t.noteOf(st)].String
	if st.Event >= len(t.p.Events) {
		return on, -1
	}
	return on, t.p.Events[st.Event].Finger(on)
}

// from finds the shared placing that a stroke is played from; nil for one of
// its own.
func (t *teller) from(gap int, from plan.From) *plan.Placing {
	event := gap
	switch {
	case from == plan.Private:
		return nil
	case from == plan.Left:
		event = gap - 1
	}
	if event < 0 || event >= len(t.p.Events) {
		return nil
	}
	return &t.p.Placings[t.p.Events[event].Placing]
}

// touches says where the fingers are: "1 is on E and 3 on C".
func (t *teller) touches(gap, site, which int) string {
	var words []string
	for i, x := range t.touched(gap, site, which) {
		verb := " on "
		if i == 0 {
			verb = " is on "
		}
		words = append(words, number(x.finger)+verb+t.str(x.string))
	}
	return list(words)
}

// quickMS is how soon one finger back on its string is quick (Fujii et al. 2009:
// one finger taps 5 to 7 times a second at most).
const quickMS = 200

// hurried says that the finger of an ornament's first stroke has only just played
// the same string for the note before; "" if it has time.
func (t *teller) hurried(gap, site, which int) string {
	fit, st := t.fit(gap, site, which), t.s.Gaps[gap].Sites[site]
	strokes := st.Ornaments[which].Strokes
	if gap == 0 || len(fit.Touches) == 0 || fit.Touches[0].From != plan.Left {
		return ""
	}
	since := strokes[0].At
	if !st.After {
		since += t.s.Events[gap].Since
	}
	f := fit.Touches[0].Finger
	if since >= quickMS || t.p.Events[gap-1].Stroke[f] != strokes[0].String {
		return ""
	}
	return number(int(f)) + " must be quick, it has only just played " + t.str(strokes[0].String)
}

// idle says which fingers drop in: "drop 1 on E".
func (t *teller) idle(gap, site, which int) string {
	var words []string
	for _, x := range t.touched(gap, site, which) {
		words = append(words, number(x.finger)+" on "+t.str(x.string))
	}
	if len(words) == 0 {
		return ""
	}
	return "drop " + list(words)
}

// waiting says which fingers wait: those kept if the plan keeps any, else all
// that the ornament would need.
func (t *teller) waiting(gap, site, which int, verb string) string {
	all := waitingOf(t.touched(gap, site, which))
	var words []string
	for i := 0; i < len(all); {
		var who []string
		on, drops := all[i].string, all[i].free
		for ; i < len(all) && all[i].string == on; i++ {
			who = append(who, number(all[i].finger))
		}
		does := verb
		if drops {
			does = " drops in on "
		}
		if len(who) > 1 {
			does = strings.Replace(verb, "waits", "wait", 1)
		}
		if own, taken := t.own(gap, site); on == own && taken >= 0 {
			// Several fingers are never on one string at once.
			words = append(words, list(append(who, number(taken)))+" come to "+t.str(on)+" one after the other")
			continue
		}
		words = append(words, list(who)+does+t.str(on))
	}
	if len(words) > 0 {
		return list(words)
	}
	return "a finger" + strings.TrimSuffix(verb, " on ") + " ready"
}

// ornaments tells of what is written, sounds or is prepared on an event: on its
// beat, then after it.
func (t *teller) ornaments(event int) {
	for _, after := range [...]bool{false, true} {
		j := event
		if after {
			j++
		}
		for i, site := range t.s.Gaps[j].Sites {
			if site.After != after {
				continue
			}
			for k, o := range site.Ornaments {
				if o.On || o.Written || o.Likelihood > 0 {
					if text := t.ornament(j, i, k); text != "" {
						t.say(Ornaments, site.Event, text)
					}
				}
			}
		}
	}
}

// ornament says what an ornament needs, and what is stopped after it.
func (t *teller) ornament(gap, site, which int) string {
	text := t.needs(gap, site, which)
	if text == "" {
		return ""
	}
	for _, stop := range t.stops(gap, site, which) {
		text += " " + capital(t.stopped(&stop)) + "."
	}
	return text
}

// needs is one sentence on what an ornament needs.
func (t *teller) needs(gap, site, which int) string {
	st := t.s.Gaps[gap].Sites[site]
	o := &st.Ornaments[which]
	what := "the " + o.Title + " on " + t.short(st.Event, t.noteOf(st))
	is, asks, takes := " is ", " asks ", " takes "
	if o.Many {
		is, asks, takes = " are ", " ask ", " take "
	}
	fit := t.fit(gap, site, which)
	switch fit.Ready {
	case plan.InHand:
		return what + is + "in the hand" + t.with("; ", t.touches(gap, site, which), " already") + ". Play it or not, nothing changes." + t.with(" But ", t.hurried(gap, site, which), ".")
	case plan.FingerFree:
		return what + asks + "for no finger on a string beforehand" + t.with("; there is time to ", t.idle(gap, site, which), "") + "."
	case plan.FingerKept:
		if o.Likelihood == 0 && !o.On {
			return what + is + "not prepared; for it " + t.waiting(gap, site, which, " would wait on ") + others(fit.Moves) + "."
		}
		return what + is + "ready: " + t.waiting(gap, site, which, " waits on ") + "."
	case plan.PlacedAgain:
		if len(fit.Touches) == 0 {
			return what + is + "not prepared; the hand would be set otherwise for it" + others(fit.Moves) + "."
		}
		return what + takes + "the hand off its strings" + t.with(": set ", t.anew(gap, site, which), " for it") + ", then come back."
	}
	if t.leftOut(gap, site, which) {
		return "" // said of what is left out
	}
	return what + " cannot be played: " + t.lacking(gap, site, which) + "."
}

// anew says what an ornament's own placing sets: "3 2 on B C".
func (t *teller) anew(gap, site, which int) string {
	fit := t.fit(gap, site, which)
	strokes := t.s.Gaps[gap].Sites[site].Ornaments[which].Strokes
	var words []string
	seen := map[string]bool{}
	for i, x := range fit.Touches {
		if x.From != plan.Private || i >= len(strokes) {
			continue
		}
		word := number(int(x.Finger)) + " on " + t.str(strokes[i].String)
		if !seen[word] {
			seen[word] = true
			words = append(words, word)
		}
	}
	return list(words)
}
