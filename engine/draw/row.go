package draw

import (
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// cell is one column of the sheet line: names over fingers, the highest note
// first.
type cell struct {
	class   string
	names   []string
	fingers []string
	again   []string // fingers of another pass, "" where they agree
	tempo   string   // that begins here
	bar     int      // that begins here; -1 none
	band    int      // of the line, -1 none
}

// row draws a line as a table to read and print: the bars, a bracket over the
// notes that are placed together, the names and the fingers; and under it the
// answer about one of its notes, if one was asked about.
func row(v *View, s *sheet, l *line) string {
	cells := l.cells()
	var p pen
	if len(cells) == 0 {
		return ""
	}
	p.tag("div", "class", "scroll")
	p.tag("table")
	p.raw("<tbody>")
	p.tempos(cells)
	p.bars(cells)
	p.brackets(l, cells)
	p.letters("Note", "names", cells, func(c *cell) ([]string, []string) { return c.names, nil })
	p.letters("Finger", "fingers", cells, func(c *cell) ([]string, []string) { return c.fingers, c.again })
	p.raw("</tbody>")
	p.end("table")
	p.end("div")
	if v.Why != nil && l.has(v, v.Why) {
		p.raw(whyPanel(v, s))
	}
	return p.String()
}

// has reports whether a note that was asked about stands in the line.
func (l *line) has(v *View, w *Why) bool {
	if w.Hand < 0 || w.Hand >= len(v.Hands) || l.hand != &v.Hands[w.Hand] {
		return false
	}
	for c := range l.spots {
		for _, n := range l.spots[c].column.event.Notes {
			if n.Number == w.Written {
				return true
			}
		}
	}
	return false
}

// cells lists what sounds in a line, as things stand.
func (l *line) cells() []cell {
	var cells []cell
	for c := range l.spots {
		sp := &l.spots[c]
		from := len(cells)
		cells = append(cells, l.sounding(sp.before)...)
		cells = append(cells, l.written(sp))
		cells = append(cells, l.sounding(sp.after)...)
		for i := from; i < len(cells); i++ {
			cells[i].bar, cells[i].band = -1, -1
		}
		if sp.first || c == 0 {
			cells[from].bar = sp.column.event.Bar
		}
		cells[from].tempo = sp.tempo
		if sp.first && c > 0 {
			cells[from].class += " barred"
		}
		for b := range l.bands {
			for i := from; i < len(cells); i++ {
				if c >= l.bands[b].first && c <= l.bands[b].last {
					cells[i].band = b
				}
			}
		}
	}
	return cells
}

// sounding gives the strokes of an ornament that sounds.
func (l *line) sounding(f *figure) []cell {
	if f == nil || !f.of(l.hand.Score).Ornaments[f.which].On {
		return nil
	}
	var cells []cell
	for _, st := range f.strokes {
		c := cell{class: "grace", names: []string{printed(sounding(l.hand.Score, st.string))}, fingers: []string{"–"}}
		if st.finger >= 0 {
			c.fingers[0] = itoa(int(st.finger) + 1)
		}
		cells = append(cells, c)
	}
	if f.cut {
		cells = append(cells, cell{class: "grace", names: []string{"…"}, fingers: []string{""}})
	}
	return cells
}

// written gives a written moment: its notes from the highest down.
func (l *line) written(sp *spot) cell {
	c := cell{class: "note"}
	notes := sp.column.event.Notes
	switch {
	case len(notes) == 0:
		return cell{class: "rest", names: []string{"rest"}, fingers: []string{""}}
	case sp.cont:
		return cell{class: "held", names: []string{"held"}, fingers: []string{""}}
	}
	order := make([]int, 0, len(notes))
	for i := range notes {
		at := len(order)
		for at > 0 && notes[order[at-1]].Pitch.Step() < notes[i].Pitch.Step() {
			at--
		}
		order = append(order[:at], append([]int{i}, order[at:]...)...)
	}
	for _, i := range order {
		n := &notes[i]
		name, finger, again := printed(n.Pitch), "–", ""
		if n.Tied {
			name = "(" + name + ")"
		}
		if t := l.stringOf(sp, n.Number); t != hand.None {
			if f := l.hand.Plan.Events[sp.event].Finger(t); f >= 0 {
				finger = itoa(f + 1)
			}
			if f := l.again(sp, t); f >= 0 {
				again = itoa(f + 1)
			}
		}
		c.names, c.fingers, c.again = append(c.names, name), append(c.fingers, finger), append(c.again, again)
	}
	return c
}

// stringOf gives the string of a written note as the score has it.
func (l *line) stringOf(sp *spot, written int) int8 {
	if sp.event < 0 || sp.event >= len(l.hand.Plan.Events) {
		return hand.None
	}
	var notes []score.Note = l.hand.Score.Events[sp.event].Notes
	for _, n := range notes {
		if n.Written == written {
			return n.String
		}
	}
	return hand.None
}

// bars writes the numbers of the bars over their notes.
func (p *pen) bars(cells []cell) {
	p.tag("tr", "class", "bars")
	p.element("th", "Bar", "scope", "row")
	for i := 0; i < len(cells); {
		n := 1
		for i+n < len(cells) && cells[i+n].bar < 0 {
			n++
		}
		text := ""
		if cells[i].bar > 0 {
			text = strconv.Itoa(cells[i].bar)
		}
		p.element("td", text, "class", either(i > 0 && strings.Contains(cells[i].class, "barred"), "barred"), "colspan", itoa(n))
		i += n
	}
	p.end("tr")
}

// brackets writes a bracket over each placing, with the way to it.
func (p *pen) brackets(l *line, cells []cell) {
	p.tag("tr", "class", "placings")
	p.element("th", "Hand", "scope", "row")
	for i := 0; i < len(cells); {
		n := 1
		for i+n < len(cells) && cells[i+n].band == cells[i].band {
			n++
		}
		if cells[i].band < 0 {
			p.leaf("td", "colspan", itoa(n))
		} else {
			b := l.bands[cells[i].band]
			class := "placing"
			if b.carried {
				class += " carried"
			}
			p.element("td", l.comes(b)+l.waits(b), "class", class, "colspan", itoa(n))
		}
		i += n
	}
	p.end("tr")
}

// waits says which fingers wait on a string in a placing, "; 1 waits on E", and
// whether it is a rolled chord wider than the hand.
func (l *line) waits(b band) string {
	pl := &l.hand.Plan.Placings[b.placing]
	text := ""
	for f, kept := range pl.Kept {
		if kept && pl.Frame[f] != hand.None {
			text += "; " + itoa(f+1) + " waits on " + printed(sounding(l.hand.Score, pl.Frame[f]))
		}
	}
	rules := rule.Rules{Harp: l.hand.Score.Harp, Hand: l.hand.Hand}
	if !b.carried && l.hand.Plan.InPart(l.hand.Score, &rules, b.placing) {
		text += "; roll the chord, the thumb comes last"
	}
	return text
}

// letters writes a row of the table.
func (p *pen) letters(head, class string, cells []cell, of func(*cell) (words, again []string)) {
	p.tag("tr", "class", class)
	p.element("th", head, "scope", "row")
	for i := range cells {
		words, again := of(&cells[i])
		p.tag("td", "class", cells[i].class)
		for k, w := range words {
			if k > 0 {
				p.raw("<br>")
			}
			p.text(w)
			if k < len(again) && again[k] != "" {
				p.element("small", ", then "+again[k])
			}
		}
		p.end("td")
	}
	p.end("tr")
}

// either gives a value if it holds, and else leaves its attribute out.
func either(holds bool, value string) string {
	if holds {
		return value
	}
	return "-"
}
