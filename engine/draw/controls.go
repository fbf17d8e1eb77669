package draw

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/ornament"
)

// tools are the commands about the whole page's choices.
func tools() string {
	var p pen
	p.raw(`<button type="button" class="tool" data-do="undo">Take back</button>`,
		`<button type="button" class="tool" data-do="as written">As written</button>`)
	return p.String()
}

// group is a run of systems whose offered ornaments stand together.
type group struct {
	sheet    *sheet
	from, to int // systems
}

const groupsMost = 8 // of offered ornaments: few enough to look through

// groups parts the systems; how many there are depends on the tune alone.
func (s *sheet) groups() []group {
	n := len(s.systems)
	each := max(1, (n+groupsMost-1)/groupsMost)
	var all []group
	for i := 0; i < n; i += each {
		all = append(all, group{s, i, min(n, i+each)})
	}
	return all
}

// entry is an ornament with its words.
type entry struct {
	hand *Hand
	site at
	Ornament
}

// entries lists the ornaments, of the group's notes or of all, that were
// written or that are offered.
func entries(v *View, written bool, within func(note int) bool) []entry {
	var all []entry
	for k := range v.Hands {
		h := &v.Hands[k]
		for _, o := range h.Ornaments {
			a := at{o.Gap, o.Site}
			site := a.of(h.Score)
			if site.Ornaments[o.Which].Written == written && (within == nil || within(site.Written)) {
				all = append(all, entry{h, a, o})
			}
		}
	}
	return all
}

// within reports whether a note's ornaments stand in the group.
func (g group) within(note int) bool {
	i, ok := g.sheet.systemOf[note]
	return ok && i >= g.from && i < g.to
}

func (g group) bars() string {
	first, last := -1, 0
	for k, columns := range g.sheet.columns {
		from, to := g.sheet.systems[g.from].from[k], g.sheet.systems[g.to-1].to[k]
		if from < to {
			if b := columns[from].event.Bar; first < 0 || b < first {
				first = b
			}
			last = max(last, columns[to-1].event.Bar)
		}
	}
	if first == last {
		return capital(barName(last))
	}
	if first <= 0 {
		return "Up to bar " + strconv.Itoa(last)
	}
	return "Bars " + strconv.Itoa(first) + " to " + strconv.Itoa(last)
}

// offered folds a group's ornaments under what they are and what of them sounds;
// where nothing is offered there is nothing to unfold.
func (g group) offered(v View) string {
	all := entries(&v, false, g.within)
	if len(all) == 0 {
		return ""
	}
	var p pen
	p.tag("details", "class", "more")
	p.tag("summary")
	p.text(g.bars() + ": " + itoa(len(all)) + " more to try")
	var on []string
	for _, e := range all {
		if o := e.site.of(e.hand.Score).Ornaments[e.Which]; o.On {
			on = append(on, e.Label)
		}
	}
	if len(on) > 0 {
		p.text("; now played: " + strings.Join(on, "; "))
	}
	p.end("summary")
	p.raw(controls(&v, all))
	p.end("details")
	return p.String()
}

// written heads the ornaments that stand in the tune.
func written(v *View, all []entry) string {
	if len(all) == 0 {
		return ""
	}
	var p pen
	p.element("h4", "Ornaments in the tune")
	p.prepare(v, choice.Likelihoods())
	return p.String()
}

// sharing tells what it costs to keep them ready.
func sharing(v *View) string {
	var p pen
	if len(entries(v, true, nil)) > 0 {
		for _, line := range v.Shared {
			p.element("p", line, "class", "shared")
		}
	}
	return p.String()
}

// controls draws one set of controls for each ornament: a switch, how ready the
// hand is, and, folded under the present word, how likely it is to be played.
func controls(v *View, all []entry) string {
	if len(all) == 0 {
		return ""
	}
	var p pen
	var met []string
	for _, e := range all {
		name := e.site.of(e.hand.Score).Ornaments[e.Which].Name
		first := !slices.Contains(met, name)
		if first {
			met = append(met, name)
		}
		p.control(v, e, first)
	}
	return p.String()
}

// control draws one; first says that none of its kind stands before it.
func (p *pen) control(v *View, e entry, first bool) {
	site := e.site.of(e.hand.Score)
	o := &site.Ornaments[e.Which]
	note := v.Name + "-" + itoa(site.Written)
	id := note + "." + o.Name
	p.tag("div", "class", "choice", "role", "group", "aria-label", e.Label)
	p.toggle(id, o.Name+"@"+note, e.Label, o.On)
	p.element("span", e.Ready, "class", "state")
	is := choice.LikelihoodWord(o.Likelihood)
	p.tag("details", "class", "dial")
	p.tag("summary")
	p.element("span", "How likely:", "class", "ask")
	p.text(" " + is)
	p.end("summary")
	for _, word := range choice.Likelihoods() {
		p.button(id+"."+strings.ReplaceAll(word, " ", "-"), "level", o.Name+"@"+note+" "+word, word, "aria-pressed", truth(word == is))
	}
	p.end("details")
	if first {
		p.pupil(o.Name)
	}
	p.end("div")
}

// pupil draws the sentence for the pupil who meets an ornament.
func (p *pen) pupil(name string) {
	if row, ok := ornament.Named(name); ok {
		p.element("p", row.Says, "class", "pupil")
	}
}

func (p *pen) toggle(id, verb, label string, on bool) {
	word := "on"
	if on {
		word = "off"
	}
	p.button(id, "toggle", verb+" "+word, label, "aria-pressed", truth(on))
}
