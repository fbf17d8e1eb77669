package draw

import "readyhand/engine/tune"

// pace is a tempo and where it begins, in written time.
type pace struct {
	at     tune.Frac
	beats  int  // a minute
	dotted bool // the metre there is felt in dotted crotchets
}

// String says how fast: "dotted crotchet = 100".
func (p pace) String() string {
	if p.dotted {
		return "dotted crotchet = " + itoa(p.beats)
	}
	return "crotchet = " + itoa(p.beats)
}

// paces lists the tempo at the start and its changes, as they are played; none where
// a tune was given no tempo.
func paces(v *View) (list []pace) {
	q := v.QuarterMS
	if q == 0 {
		q = v.Tune.Tempo.QuarterMS
	}
	if q <= 0 {
		return nil
	}
	return pacesOf(&v.Tune, q)
}

// Paces says the tempo of a tune at the start, whose first quarter lasts so long, and
// its changes, as they are played: "dotted crotchet = 100", "80".
func Paces(t *tune.Tune, quarterMS int32) (said []string) {
	list := pacesOf(t, quarterMS)
	for i, p := range list {
		if i > 0 && p.dotted == list[i-1].dotted {
			said = append(said, itoa(p.beats))
		} else {
			said = append(said, p.String())
		}
	}
	return said
}

func pacesOf(t *tune.Tune, quarterMS int32) (list []pace) {
	m := t.Meter
	var voice tune.Voice
	if len(t.Voices) > 0 {
		voice = t.Voices[0]
	}
	for _, p := range t.Tempos(quarterMS) {
		for len(voice.Marks) > 0 && voice.Marks[0].Event < len(voice.Events) && !p.At.Less(voice.Events[voice.Marks[0].Event].Onset) {
			if voice.Marks[0].Kind == tune.NewMeter {
				m = voice.Marks[0].Meter
			}
			voice.Marks = voice.Marks[1:]
		}
		list = append(list, pace{p.At, perMinute(p.QuarterMS, m.Compound()), m.Compound()})
	}
	return list
}

// mostPaces is how many changes of tempo are told one by one (guess).
const mostPaces = 4

// later tells the changes of tempo: ", later 120, then dotted crotchet = 60".
func later(list []pace) string {
	text, word := "", ", later "
	for i, p := range list[1:] {
		if i == mostPaces {
			return text + ", and so on"
		}
		if text += word; p.dotted == list[i].dotted {
			text += itoa(p.beats)
		} else {
			text += p.String()
		}
		word = ", then "
	}
	return text
}

// note is a tempo as it stands over a line.
type note struct {
	x, row int // row from 0, the lowest
	text   string
}

// paced gives each new tempo its place over the first note or rest that has it, in
// rows of their own.
func (l *line) paced() {
	var ends []int // of the last text in each row
	for c := range l.spots {
		sp := &l.spots[c]
		if sp.tempo == "" {
			continue
		}
		x := sp.x - beadSize
		if c == 0 {
			x = gutter
		} else if sp.bar >= 0 {
			x = sp.bar + 2
		}
		wide := textWide(sp.tempo, nameSize)
		x = min(x, l.width-wide)
		row := 0
		for row < len(ends) && ends[row] > x {
			row++
		}
		if row == len(ends) {
			ends = append(ends, 0)
		}
		ends[row] = x + wide + 6
		l.paces = append(l.paces, note{x, row, sp.tempo})
	}
	l.sky = 1 + len(ends)*nameRow
}

// tempos writes the new tempos over a line.
func (a *art) tempos() {
	for _, n := range a.line.paces {
		a.label("pace", "start", nameSize, n.x, a.line.sky-n.row*nameRow-2, n.text)
	}
}

// tempos writes a row with the new tempos of a line; none where there is none.
func (p *pen) tempos(cells []cell) {
	any := false
	for i := range cells {
		any = any || cells[i].tempo != ""
	}
	if !any {
		return
	}
	p.tag("tr", "class", "tempos")
	p.element("th", "Tempo", "scope", "row")
	for i := 0; i < len(cells); {
		n := 1
		for i+n < len(cells) && cells[i+n].tempo == "" {
			n++
		}
		p.element("td", cells[i].tempo, "colspan", itoa(n))
		i += n
	}
	p.end("tr")
}
