package draw

import (
	"strings"

	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// head says what is played, how fast, on what: title, key, metre, tempo, hand,
// harp and levers.
func head(v View) string {
	var p pen
	if v.Tune.Title != "" {
		p.element("h3", v.Tune.Title)
	}
	p.tag("ul", "class", "facts")
	fact := func(s string) {
		if s != "" {
			p.element("li", s)
		}
	}
	fact(keyName(v.Tune.Key.Name))
	fact(v.Tune.Meter.Text)
	fact(tempo(v))
	var hands []string
	for _, h := range v.Hands {
		hands = append(hands, h.Hand.Name+" hand")
	}
	fact(strings.Join(hands, " and "))
	if len(v.Hands) > 0 {
		s := v.Hands[0].Score
		fact(instrument(s.Harp))
		fact(levers(v))
	}
	p.end("ul")
	p.quiet(v)
	return p.String()
}

// quiet draws the quiet lines about the whole block.
func (p *pen) quiet(v View) {
	for _, n := range v.Notes {
		p.element("p", n, "class", "quiet")
	}
	if v.Theirs {
		p.tag("p", "class", "quiet")
		p.text("The harp in this address is not your own. ")
		p.button(v.Name+"-my-harp", "small", "my harp", "Switch to yours")
		p.end("p")
	}
}

// keyName prints the sign of a tonic: "E♭ major".
func keyName(name string) string {
	if len(name) > 1 && (name[1] == 'b' || name[1] == '#') {
		return name[:1] + signed(name[1:2]) + name[2:]
	}
	return name
}

// signed prints the sign of a flat or sharp.
func signed(s string) string { return strings.NewReplacer("b", "♭", "#", "♯").Replace(s) }

// tempo says how fast: "dotted crotchet = 100".
func tempo(v View) string {
	list := paces(&v)
	if len(list) == 0 {
		return ""
	}
	text := list[0].String()
	if (v.QuarterMS == 0 || v.QuarterMS == v.Tune.Tempo.QuarterMS) && strings.HasPrefix(v.Tune.Tempo.From, "no Q:") {
		text += " (no tempo is written: a guess)"
	}
	return text + later(list)
}

// perMinute turns the milliseconds of a quarter into beats a minute, rounded.
func perMinute(quarterMS int32, dotted bool) int {
	over, under := 60000, int(quarterMS)
	if dotted {
		over, under = 40000, int(quarterMS)
	}
	return (2*over + under) / (2 * under)
}

func instrument(h harp.Harp) string {
	if len(h.Strings) == 0 {
		return ""
	}
	return itoa(len(h.Strings)) + " strings from " + printed(h.Strings[0].Pitch) + itoa(int(h.Strings[0].Pitch.Octave)) +
		", tuned in " + signed(h.Tuning) + ", " + decimal(h.Spacing) + " mm apart"
}

// levers says which levers to raise before the tune begins, over the whole harp,
// as a harper sets them for a key: by letter where all strings of a letter
// agree, else string by string.
func levers(v View) string {
	h := v.Hands[0].Score.Harp
	var names []string
	for letter := range int8(7) {
		var up, down []string
		name := ""
		for t, s := range h.Strings {
			if s.Pitch.Letter != letter {
				continue
			}
			high := false
			for _, hand := range v.Hands {
				high = high || raised(hand.Score, int8(t))
			}
			name = pitch.Pitch{Letter: letter}.Name()
			if octave := name + itoa(int(s.Pitch.Octave)); high {
				up = append(up, octave)
			} else {
				down = append(down, octave)
			}
		}
		switch {
		case len(up) == 0:
		case len(down) == 0:
			names = append(names, name)
		case len(up) > len(down):
			names = append(names, name+" (but not "+strings.Join(down, ", ")+")")
		default:
			names = append(names, up...)
		}
	}
	if len(names) == 0 {
		return "no lever up"
	}
	return "levers up: " + strings.Join(names, ", ")
}

// remarks lists what is to be said about the tune, each with the bar it is
// about.
func remarks(v View) string {
	if len(v.Remarks) == 0 {
		return ""
	}
	var p pen
	p.tag("ul")
	for _, r := range v.Remarks {
		p.tag("li", "class", r.Severity.String())
		p.tag("p")
		if e := about(v.Tune, r.Span); e != nil {
			p.element("strong", capital(barName(e.Bar))+":")
			p.text(" ")
		}
		p.text(r.Message)
		if r.Suggestion != "" {
			p.text(" " + r.Suggestion)
		}
		p.end("p")
		p.end("li")
	}
	p.end("ul")
	return p.String()
}

// about finds the moment that a place in the text belongs to, with its signs and
// grace notes; nil if it belongs to none.
func about(t tune.Tune, at source.Span) *tune.Event {
	in := func(s source.Span) bool { return s.From >= 0 && s.From <= at.From && at.From < s.To }
	if at.From < 0 {
		return nil
	}
	for i := range t.Voices {
		for k := range t.Voices[i].Events {
			e := &t.Voices[i].Events[k]
			found := in(e.Source)
			for _, n := range e.Notes {
				found = found || in(n.Source) || in(n.Pinned)
			}
			for _, g := range e.Graces {
				found = found || in(g.Source)
			}
			for _, d := range e.Decorations {
				found = found || in(d.Source)
			}
			if found {
				return e
			}
		}
	}
	return nil
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// abc shows the tune as it was written. A line break first in a pre element is
// lost in reading HTML, so those at the start are left out.
func abc(v View) string {
	var p pen
	p.element("pre", strings.TrimLeft(plain(v.Text.String), "\n"), "class", "abc")
	return p.String()
}

// words tells the plan: how the fingering fares that is written on every note, what
// is set where, hand by hand, then the rest.
func words(v View) string {
	var p pen
	p.verdict(v.Verdict)
	for k := range v.Hands {
		h := &v.Hands[k]
		if len(h.Said) == 0 {
			continue
		}
		title := "How the hand goes"
		if len(v.Hands) > 1 {
			title = capital(h.Hand.Name) + " hand"
		}
		p.element("h4", title)
		p.tag("ul")
		for _, s := range h.Said {
			if s.Kind != 2 {
				p.element("li", s.Text, "class", [...]string{"setting", "ornament", "care", "left", "alike"}[s.Kind])
			}
		}
		p.end("ul")
		for _, s := range h.Said {
			if s.Kind == 2 {
				p.element("p", s.Text, "class", "care")
			}
		}
	}
	return p.String()
}

// verdict tells how a fingering fares that was asked for on every note.
func (p *pen) verdict(c *Verdict) {
	if c == nil {
		return
	}
	p.element("h4", "The fingers as they are written")
	p.element("p", c.Says, "class", "verdict")
	if len(c.Reasons) == 0 {
		return
	}
	p.tag("ul")
	for _, r := range c.Reasons {
		p.element("li", r)
	}
	p.end("ul")
}
