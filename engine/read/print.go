package read

import (
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// writeMark writes what stands between two events.
func (w *writer) writeMark(p *pen, m *tune.Mark) {
	w.space()
	switch m.Kind {
	case tune.NewKey:
		p.key = m.Key
		w.WriteString("[K:" + keyText(m.Key) + "]")
	case tune.NewMeter:
		w.WriteString("[M:" + meterText(m.Meter) + "]")
	case tune.NewTempo:
		w.WriteString("[Q:" + tempoText(m.Tempo) + "]")
	case tune.Part:
		w.WriteString("[P:" + escaped(m.Part) + "]")
	case tune.Over:
		p.key = w.hands[w.now-p.voice.Layer].key
		w.WriteString(strings.Repeat("&", m.Back))
	case tune.Bar:
		if m.Line {
			p.set = [7]bool{}
		}
		w.barLine(m, p.voice.Layer > 0)
	}
	w.fresh = false
}

// barLine writes a bar line and the ending that begins there, in the forms that
// others read best, but always one bar line in a layer, which ends with one.
func (w *writer) barLine(m *tune.Mark, layer bool) {
	switch ends, starts := strings.Repeat(":", m.Ends), strings.Repeat(":", m.Starts); {
	case !m.Line:
	case m.Ends == 1 && m.Starts == 1 && !m.Double:
		w.WriteString("::")
	case m.Double && m.Starts > 0 && !layer:
		w.WriteString(ends + "|| |" + starts)
	case m.Double:
		w.WriteString(ends + "||" + starts)
	default:
		w.WriteString(ends + "|" + starts)
	}
	sign := ""
	if !m.Line || m.Starts > 0 {
		sign = "["
	}
	for pass := range mostPasses + 1 {
		if m.Passes>>pass&1 == 1 {
			w.WriteString(sign + strconv.Itoa(pass))
			sign = ","
		}
	}
}

// writeEvent writes a note, chord or rest with everything that belongs to it, in
// the order of ABC 2.1, 4.20.
func (w *writer) writeEvent(p *pen, e *tune.Event) {
	if !e.Joined {
		w.space()
	}
	w.fresh, p.turned, p.line = false, false, e.Line
	if e.Tuplet.P != 0 {
		p.tuplet = e.Tuplet
		w.WriteString("(" + number(e.Tuplet.P) + ":" + number(e.Tuplet.Q) + ":" + number(e.Tuplet.R))
	}
	w.WriteString(strings.Repeat("(", e.Slurs.Open))
	if len(e.Graces) > 0 {
		w.WriteString("{")
		outside := p.set
		for _, g := range e.Graces {
			w.head(p, g.Pitch, g.Beyond)
		}
		w.WriteString("}")
		p.set = outside
	}
	if e.Chord != "" {
		w.WriteString(`"` + escaped(e.Chord) + `"`)
	}
	for _, text := range e.Texts {
		w.WriteString(`"` + escaped(text) + `"`)
	}
	for _, d := range e.Decorations {
		w.WriteString("!" + d.Name + "!")
	}
	if e.PhraseEnd {
		w.WriteString("!breath!")
	}
	w.notes(p, e)
	w.WriteString(strings.Repeat(")", e.Slurs.Close))
}

// notes writes the note heads or the rest, the length and the ties.
func (w *writer) notes(p *pen, e *tune.Event) {
	length := w.length(p, e)
	var tied []tune.Note
	if next := p.nextEvent(); next != nil {
		tied = next.Notes
	}
	switch {
	case e.Whole > 0:
		w.WriteString(restSign(e, "Z", "X") + strconv.Itoa(e.Whole))
		return
	case len(e.Notes) == 0:
		w.WriteString(restSign(e, "z", "x") + length)
		return
	case len(e.Notes) > 1:
		w.WriteString("[")
	}
	ties := false
	for _, n := range e.Notes {
		if n.Finger > 0 {
			w.WriteString("!" + strconv.Itoa(int(n.Finger)) + "!")
		}
		w.head(p, n.Pitch, n.Beyond)
		tie := false
		for _, next := range tied {
			tie = tie || next.Tied && next.Pitch == n.Pitch
		}
		switch {
		case tie && len(e.Notes) > 1:
			w.WriteString("-")
		case tie:
			length += "-"
		}
		ties = ties || tie
	}
	if len(e.Notes) > 1 {
		w.WriteString("]")
	}
	w.WriteString(length)
	p.tied = ties
}

func restSign(e *tune.Event, seen, unseen string) string {
	if e.Unseen {
		return unseen
	}
	return seen
}

// head writes one note without its length.
func (w *writer) head(p *pen, n pitch.Pitch, beyond bool) {
	octave := int(n.Octave)
	if beyond { // as far out as it was written
		if octave--; octave > 4 {
			octave += 2
		}
	}
	if n.Alter != 0 || p.key.Alter[n.Letter] != 0 || p.set[n.Letter] || p.tied {
		p.set[n.Letter] = true
		w.WriteString([...]string{"__", "_", "=", "^", "^^"}[n.Alter+2])
	}
	letter := "CDEFGAB"[n.Letter : n.Letter+1]
	if octave >= 5 {
		letter = strings.ToLower(letter) + strings.Repeat("'", octave-5)
	} else {
		letter += strings.Repeat(",", 4-octave)
	}
	w.WriteString(letter)
}

// length writes an event's length in eighths, as it stands inside its tuplet.
func (w *writer) length(p *pen, e *tune.Event) string {
	f := e.Length.Mul(tune.Frac{N: 8, D: 1})
	if e.Whole == 0 && p.tuplet.R > 0 {
		f = f.Mul(tune.NewFrac(p.tuplet.P, p.tuplet.Q))
		p.tuplet.R--
	}
	text := ""
	if f.N != 1 {
		text = number(f.N)
	}
	if f.D != 1 {
		text += "/" + number(f.D)
	}
	return text
}

func number(n int64) string { return strconv.FormatInt(n, 10) }

// words writes the lyrics of the events written since the last.
func (w *writer) words(p *pen) {
	events := p.voice.Events[p.sung:p.event]
	p.sung = p.event
	verses := 1
	for _, e := range events {
		verses = max(verses, len(e.Lyrics))
	}
	for verse := range verses {
		w.WriteString("w:")
		for _, e := range events {
			var l tune.Lyric
			if verse < len(e.Lyrics) {
				l = e.Lyrics[verse]
			}
			switch {
			case len(e.Notes) == 0:
			case l.Hold:
				w.WriteString(" _")
			case l == tune.Lyric{}:
				w.WriteString(" *")
			case l.Hyphen:
				w.WriteString(" " + covered.Replace(escaped(l.Text)) + "-")
			default:
				w.WriteString(" " + covered.Replace(escaped(l.Text)))
			}
		}
		w.WriteString("\n")
	}
}
