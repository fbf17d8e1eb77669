package draw

import "readyhand/engine/rule"

// legend tells how to read the picture, sign by sign, with one line of it for
// paper; it is the same for every block.
var legend = newLegend()

func newLegend() string {
	var p pen
	p.element("p", "Discs are notes with their fingers, 1 the thumb; diamonds ornaments, filled if played, open if left out; tabs the fingers set. C strings are dashed, F strings thick.", "class", "onpaper")
	p.tag("details", "class", "key")
	p.element("summary", "How to read the picture")
	p.element("p", "Strings run across, the highest on top, and time runs from left to right. Fingers: 1 is the thumb, 4 the ring finger. A shaded field is one placing of the hand.")
	p.element("p", "Effort is counted: a few more or less are nothing you would feel; setting the whole hand anew takes "+itoa(int(rule.Usual()[rule.NewPlacing]/1000))+
		". A figure for the whole tune says what would be saved without that one thing; such figures overlap, so do not add them up.", "class", "effort")
	p.tag("ul")
	for _, s := range signsOfPicture() {
		p.tag("li")
		p.tag("svg", "viewBox", "0 0 30 24", "width", "30", "height", "24", "fill", "none", "stroke", "currentColor", "aria-hidden", "true")
		p.raw(s.drawn)
		p.end("svg")
		p.raw(" ")
		p.element("span", s.means)
		p.end("li")
	}
	p.end("ul")
	p.end("details")
	return p.String()
}

// sign is one row of the legend: how it is drawn, and what it means.
type sign struct{ drawn, means string }

func signsOfPicture() []sign {
	var all []sign
	add := func(means string, draw func(p *pen)) {
		var p pen
		draw(&p)
		all = append(all, sign{p.String(), means})
	}
	path := func(p *pen, class, d string) { p.leaf("path", "class", class, "d", d) }
	disc := func(p *pen) { p.leaf("circle", "cx", "12", "cy", "12", "r", itoa(beadSize)) }
	within := func(p *pen, class string, draw func()) {
		p.tag("g", "class", class)
		draw()
		p.end("g")
	}
	add("a finger set on its string before its note; it does not sound", func(p *pen) { path(p, "tab", tab(5, 12, 8, 0)) })
	add("a finger that waits there for an ornament alone", func(p *pen) {
		path(p, "tab outer", tab(3, 12, 11, 0))
		path(p, "tab", tab(3, 12, 8, 0))
	})
	add("drawn thin: a finger that is there from the line before", func(p *pen) {
		within(p, "carried", func() { path(p, "tab", tab(5, 12, 8, 0)) })
	})
	add("a written note, with its finger; a longer tail in the same line is a longer note", func(p *pen) {
		within(p, "bead", func() {
			p.leaf("line", "class", "tail", "x1", "12", "y1", "12", "x2", "29", "y2", "12", "stroke-width", "4")
			disc(p)
		})
	})
	add("the note you asked about", func(p *pen) {
		within(p, "bead", func() {
			p.leaf("circle", "class", "ring", "cx", "12", "cy", "12", "r", "11")
			disc(p)
		})
	})
	add("a note with the finger you asked for", func(p *pen) {
		within(p, "bead", func() {
			p.leaf("circle", "cx", "12", "cy", "15", "r", itoa(beadSize))
			path(p, "pin", "M8 0h8l-4 6z")
		})
	})
	add("beside a note: its finger when the bar comes again", func(p *pen) {
		within(p, "bead", func() { p.leaf("circle", "class", "again", "cx", "12", "cy", "12", "r", "6") })
	})
	add("an ornament that is played", func(p *pen) { within(p, "ornament on", func() { path(p, "gem", diamond(12, 12, 8)) }) })
	add("one that is left out", func(p *pen) { within(p, "ornament off", func() { path(p, "gem", diamond(12, 12, 8)) }) })
	add("one the hand is not ready for: written notes must move first", func(p *pen) {
		within(p, "ornament off unready", func() { path(p, "gem", diamond(12, 12, 8)) })
	})
	add("one for which the hand must leave its strings", func(p *pen) { within(p, "ornament on", func() { path(p, "gem", square(12, 12, 7)) }) })
	add("after an ornament: a finger comes down on the string and stops it", func(p *pen) { p.halt(4, 12, 6, -4, 9, -1) })
	add("very small: something more fits the hand there", func(p *pen) { path(p, "hint", diamond(12, 12, 3)) })
	add("beside the name of a string: its lever is up", func(p *pen) { p.leaf("path", "class", "lever", "d", "M10 16l4 -8", "stroke-width", "2") })
	for _, m := range [...]struct{ d, means string }{
		{glyphs[rule.SetAnew], "set: the fingers are set on the strings"},
		{glyphs[rule.Connect], "connect: the next fingers come while the last still holds"},
		{glyphs[rule.Slide], "slide: the thumb slides to the string below"},
		{glyphs[rule.Shift], "stays: the finger named stays on its string, the others are set again"},
		{glyphs[rule.Under], "under: the finger named passes under the thumb"},
		{glyphs[rule.Over], "over: the thumb passes over the finger named"},
		{glyphs[rule.Jump], "lift: the hand comes up, and down elsewhere"},
		{off, "come off: the hand leaves the strings and is set again"},
		{stays, "stay: the hand stays as it was set in the line before"},
	} {
		add(m.means, func(p *pen) { path(p, "move", "M6 6m0 0"+relative(m.d)) })
	}
	return all
}
