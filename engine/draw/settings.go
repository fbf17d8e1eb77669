package draw

import (
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
)

// option is one value of a setting and how it is shown.
type option struct{ value, text string }

// settings draws the harp, the hand, the tempo and the house fingerings as choices
// whose value completes their command.
func settings(v View) string {
	if len(v.Hands) == 0 {
		return ""
	}
	var p pen
	p.instrument(v)
	label := "Tempo"
	if len(v.Tune.Changes) > 0 {
		label = "Tempo at the start (later ones in proportion)"
	}
	p.choose(v, "tempo", "tempo@"+v.Name, label, tempos(v))
	for _, h := range v.House {
		all := []option{{"off", "any fingers"}}
		for _, way := range h.All {
			all = append(all, option{way, way})
		}
		p.choose(v, "house-"+h.Name, "house "+h.Name, "Your usual "+h.Title, chosen(h.Now, all...))
	}
	return p.String()
}

// instrument draws the choices of harp and hand.
func (p *pen) instrument(v View) {
	h := v.Hands[0].Score.Harp
	d := v.Hands[0].Hand
	p.choose(v, "strings", "strings", "Strings", numbers(len(h.Strings), 19, 22, 26, 27, 29, 30, 32, 34, 36, 38, 40, 47))
	p.choose(v, "lowest", "lowest", "Lowest string", lowest0(h))
	p.choose(v, "tuning", "tuning", "Tuned in, levers down", tunings(h))
	p.choose(v, "spacing", "spacing", "From string to string", spacings(h.Spacing))
	p.choose(v, "reach", "reach", "4 and 1 easily hold, strings 14.5 mm apart", reaches(d.Reach))
	p.choose(v, "fingers", "fingers", "Fingers in use", inUse(d.InUse))
	style := chosen("connected", option{"connected", "connected"}, option{"lifted", "lifted"})
	if v.Hands[0].Lifted {
		style.now = "lifted"
	}
	p.choose(v, "style", "style", "From placing to placing", style)
	for _, pair := range hand.Pairs() {
		name := "span" + itoa(pair[0]+1) + itoa(pair[1]+1)
		p.choose(v, name, name, itoa(pair[0]+1)+" and "+itoa(pair[1]+1)+" easily hold", spans(d.Limits[pair[0]][pair[1]].Comfortable))
	}
	if len(v.Hands) == 1 {
		p.choose(v, "hand", "hand@"+v.Name, "Hand", chosen(d.Name, option{"right", "right"}, option{"left", "left"}))
	}
}

// current is a list of options of which the first is the one that holds.
type current struct {
	now string
	all []option
}

// chosen lists options, with the current value added in front if it is none of
// them.
func chosen(now string, all ...option) current {
	for _, o := range all {
		if o.value == now {
			return current{now, all}
		}
	}
	return current{now, append([]option{{now, now}}, all...)}
}

// choose draws one setting.
func (p *pen) choose(v View, name, do, label string, c current) {
	id := v.Name + "-" + name
	p.tag("p", "class", "field")
	p.element("label", label, "for", id)
	p.tag("select", "id", id, "data-do", do)
	for _, o := range c.all {
		p.element("option", o.text, "value", o.value, "selected", either(o.value == c.now, ""))
	}
	p.end("select")
	p.end("p")
}

// numbers lists whole numbers, the current one among them in its place.
func numbers(now int, all ...int) current {
	var options []option
	placed := false
	add := func(n int) { options = append(options, option{itoa(n), itoa(n)}) }
	for _, n := range all {
		if now <= n && !placed {
			placed = true
			if now < n {
				add(now)
			}
		}
		add(n)
	}
	if !placed {
		add(now)
	}
	return current{itoa(now), options}
}

// lowest0 lists the strings a harp may begin with, C1 to C5 (the usual ones and
// what lies between; a guess).
func lowest0(h harp.Harp) current {
	var all []option
	for step := 7; step <= 35; step++ {
		name := pitch.AtStep(step).String()
		all = append(all, option{name, name})
	}
	low := h.Strings[0].Pitch
	low.Alter = 0
	return chosen(low.String(), all...)
}

func tunings(h harp.Harp) current {
	var all []option
	for _, t := range harp.Tunings() {
		all = append(all, option{t, signed(t)})
	}
	return chosen(h.Tuning, all...)
}

// spacings lists 12 to 17 mm in halves, with the current one.
func spacings(now int32) current {
	var all []option
	for mm := int32(12000); mm <= 17000; mm += 500 {
		if now > mm-500 && now < mm {
			all = append(all, option{decimal(now), decimal(now) + " mm"})
		}
		all = append(all, option{decimal(mm), decimal(mm) + " mm"})
	}
	return chosen(decimal(now), all...)
}

// reaches lists hands by what 4 and 1 hold in comfort. The usual hand's limit is
// 7 strings of 14.5 mm, an octave, and 5 mm over (hand.New); a hand that holds n
// strings has n times 14.5 mm and 5 mm over, and is that part of the usual one,
// rounded up so that the last string is within it. 0.75 to 1.25 covers adults
// (Boyle, Boyle and Booker 2015), smaller ones are for children.
func reaches(now int32) current {
	var all []option
	for i, name := range [...]string{"a fifth", "a sixth", "a seventh", "an octave (usual)", "a ninth", "a tenth"} {
		strings := int32(4 + i)
		all = append(all, option{decimal((1000*(strings*14500+5000) + 7*14500 + 5000 - 1) / (7*14500 + 5000)), name})
	}
	for i := range all {
		if all[i].value == decimal(now) {
			return current{decimal(now), all}
		}
	}
	return current{decimal(now), append(all, option{decimal(now), decimal(now) + " of the usual reach"})}
}

// spans lists what two fingers may hold, in millimetres around what they do.
func spans(now int32) current {
	var all []option
	for n := max(2, now/5000-5); n <= now/5000+5; n++ {
		if now > 5000*(n-1) && now < 5000*n {
			all = append(all, option{decimal(now), decimal(now) + " mm"})
		}
		all = append(all, option{itoa(int(5 * n)), itoa(int(5*n)) + " mm"})
	}
	return chosen(decimal(now), all...)
}

func inUse(in [4]bool) current {
	now := ""
	for f, used := range in {
		if used {
			now += itoa(f + 1)
		}
	}
	return chosen(now, option{"1234", "1 2 3 4"}, option{"123", "1 2 3"}, option{"12", "1 2"}, option{"234", "2 3 4"})
}

// tempos lists beats a minute around the current tempo, in the beat that the
// metre is felt in.
func tempos(v View) current {
	q := v.QuarterMS
	if q == 0 {
		q = v.Tune.Tempo.QuarterMS
	}
	if q <= 0 {
		q = 600 // 100 a minute, where a tune was given none
	}
	beat, dotted := "1/4=", v.Tune.Meter.Compound()
	if dotted {
		beat = "3/8="
	}
	list := numbers(perMinute(q, dotted), 40, 50, 60, 66, 72, 76, 80, 84, 88, 92, 96, 100, 104, 108, 112, 116, 120, 132, 144, 160, 176, 200)
	unit := "crotchet = "
	if dotted {
		unit = "dotted crotchet = "
	}
	for i := range list.all {
		list.all[i].value, list.all[i].text = beat+list.all[i].value, unit+list.all[i].text
	}
	list.now = beat + list.now
	return list
}
