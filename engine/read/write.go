package read

import (
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/tune"
)

// Write prints a tune as strict ABC 2.1 that reads as the same tune again: the
// same notes and lengths, bars, repeats, signs, fingers, words and %%ready lines.
// Every altered note carries its own accidental, because printed practice lets one
// hold in one octave only and others read it so.
func Write(t tune.Tune) string {
	w := writer{t: t}
	w.header()
	for i := range t.Voices {
		w.hands = append(w.hands, pen{voice: &t.Voices[i], key: t.Key, line: -1, lyrics: sings(&t.Voices[i])})
	}
	for {
		k := w.next()
		if k < 0 {
			break
		}
		w.item(k)
	}
	w.newline()
	return w.String()
}

// writer is the text so far.
type writer struct {
	strings.Builder
	t     tune.Tune
	hands []pen // by voice
	now   int   // the voice that is written
	begun bool  // something of the music is written
	fresh bool  // at the start of a line
}

// pen is what is known of one voice while it is written.
type pen struct {
	voice  *tune.Voice
	event  int // the next one
	mark   int // the next one
	line   int // of the last event, -1 before the first
	turned bool
	key    pitch.Key
	set    [7]bool // letters that had an accidental in this bar
	tuplet tune.Tuplet
	tied   bool // a tie leads to the next event
	lyrics bool
	sung   int // events up to here have their words written
}

func sings(v *tune.Voice) bool {
	for _, e := range v.Events {
		if len(e.Lyrics) > 0 {
			return true
		}
	}
	return false
}

// header writes everything up to K:, which ends it.
func (w *writer) header() {
	t := w.t
	w.field("X", "1")
	extra := false
	for _, f := range t.Fields {
		extra = extra || f.Letter == 'T'
	}
	if t.Title != "" || extra {
		w.field("T", escaped(t.Title))
	}
	for _, f := range t.Fields {
		w.field(string(rune(f.Letter)), escaped(f.Text))
	}
	if t.Rhythm != "" {
		w.field("R", escaped(t.Rhythm))
	}
	if t.Parts != "" {
		w.field("P", t.Parts)
	}
	w.field("M", meterText(t.Meter))
	w.field("L", "1/8")
	if q := tempoText(t.Tempo); q != "" {
		w.field("Q", q)
	}
	for _, s := range t.Settings {
		w.WriteString(ready + " " + s.Text + "\n")
	}
	if t.Voices[0].ID != "" {
		for _, v := range t.Voices {
			if v.Layer == 0 {
				w.field("V", voiceText(v))
			}
		}
	}
	w.field("K", keyText(t.Key))
	w.fresh = true
}

func (w *writer) field(letter, text string) {
	if text != "" && (text[0] == ':' || text[0] == '|') { // a note and a repeat, else
		text = " " + text
	}
	w.WriteString(letter + ":" + text + "\n")
}

// next finds the voice whose next item stands first in the text, -1 at the end.
func (w *writer) next() int {
	best, at := -1, int32(0)
	for k := range w.hands {
		p := &w.hands[k]
		here := int32(0)
		switch m, e := p.nextMark(), p.nextEvent(); {
		case m != nil && (e == nil || m.Event <= p.event):
			here = m.Source.From
		case e != nil:
			here = e.Source.From
		default:
			continue
		}
		if best < 0 || here < at {
			best, at = k, here
		}
	}
	return best
}

func (p *pen) nextMark() *tune.Mark {
	if p.mark < len(p.voice.Marks) {
		return &p.voice.Marks[p.mark]
	}
	return nil
}

func (p *pen) nextEvent() *tune.Event {
	if p.event < len(p.voice.Events) {
		return &p.voice.Events[p.event]
	}
	return nil
}

// item writes the next mark or event of a voice.
func (w *writer) item(k int) {
	p := &w.hands[k]
	m, e := p.nextMark(), p.nextEvent()
	isMark := m != nil && (e == nil || m.Event <= p.event)
	other := p.voice.ID != w.hands[w.now].voice.ID
	if (!isMark || k != w.now) && w.mayTurn(other) {
		w.newline()
	}
	if !isMark || m.Kind != tune.Over && (m.Kind != tune.Bar || p.voice.Layer > 0 || !w.inLayerOf(k)) {
		w.turnTo(k)
	}
	w.now = k
	w.begun = true
	if isMark {
		p.mark++
		w.writeMark(p, m)
		return
	}
	p.event++
	w.writeEvent(p, e)
}

// mayTurn reports whether a new line is due here, if it is not due anyway: some
// voice has one before its next event, and none goes on in the same line.
func (w *writer) mayTurn(due bool) bool {
	for k := range w.hands {
		p := &w.hands[k]
		e := p.nextEvent()
		switch {
		case e == nil || p.line < 0:
		case e.Line == p.line:
			return false
		default:
			due = due || !p.turned
		}
	}
	return due
}

// newline ends the line of music, and writes the words under it.
func (w *writer) newline() {
	if !w.fresh {
		w.WriteString("\n")
	}
	w.fresh = true
	for k := range w.hands {
		w.hands[k].turned = true
	}
	main := w.now - w.hands[w.now].voice.Layer
	inLayer, over := main != w.now, w.next() < 0
	for n := range w.hands {
		k := (main + n) % len(w.hands)
		p := &w.hands[k]
		if !p.lyrics || p.sung == p.event || k != main && inLayer && !over {
			continue
		}
		if k != main { // of a voice that shares the line
			w.field("V", p.voice.ID)
			w.now, main = k, k
		}
		w.words(p)
	}
}

// inLayerOf reports whether a layer of voice k is being written.
func (w *writer) inLayerOf(k int) bool {
	return w.now > k && w.hands[w.now].voice.Layer == w.now-k
}

// turnTo says whose music follows.
func (w *writer) turnTo(k int) {
	p := &w.hands[k]
	if k == w.now && (w.begun || p.voice.ID == "" || k == 0 && len(w.hands) == 1) || p.voice.Layer > 0 {
		if !w.begun && p.voice.ID == "" && p.voice.Clef != "" {
			w.WriteString("[K:clef=" + p.voice.Clef + "]")
			w.fresh = false
		}
		return
	}
	w.space()
	w.fresh = false
	if n := p.mark - 1; w.inLayerOf(k) && n >= 0 && p.voice.Marks[n].Line && p.voice.Marks[n].Event == p.event {
		w.WriteString("|") // a layer over an empty bar
		return
	}
	w.WriteString("[V:" + p.voice.ID + "]")
}

func (w *writer) space() {
	if !w.fresh {
		w.WriteString(" ")
	}
}

// writeMark writes what stands between two events.
func (w *writer) writeMark(p *pen, m *tune.Mark) {
	w.space()
	switch m.Kind {
	case tune.NewKey:
		p.key = m.Key
		w.WriteString("[K:" + keyText(m.Key) + "]")
	case tune.NewMeter:
		w.WriteString("[M:" + meterText(m.Meter) + "]")
	case tune.Part:
		w.WriteString("[P:" + escaped(m.Part) + "]")
	case tune.Over:
		p.key = w.hands[w.now-p.voice.Layer].key
		w.WriteString(strings.Repeat("&", m.Back))
	case tune.Bar:
		p.set = [7]bool{}
		if m.Line {
			w.WriteString(strings.Repeat(":", m.Ends) + "|")
			if m.Double {
				w.WriteString("|")
			}
			w.WriteString(strings.Repeat(":", m.Starts))
		}
		if m.Passes != 0 {
			sign := "["
			for pass := range mostPasses + 1 {
				if m.Passes>>pass&1 == 1 {
					w.WriteString(sign + strconv.Itoa(pass))
					sign = ","
				}
			}
		}
	}
	w.fresh = false
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

// covered covers what has a meaning of its own under the music (ABC 2.1, 5.1).
var covered = strings.NewReplacer("~", `\~`, " ", "~", "-", `\-`, "_", `\_`, "*", `\*`, "|", `\|`)

// escaped covers what has a meaning of its own in a text (ABC 2.1, 8.2).
func escaped(s string) string {
	if !strings.ContainsAny(s, `\%&`) {
		return s
	}
	return strings.NewReplacer(`\`, `\\`, "%", `\%`, "&", `\&`).Replace(s)
}

// meterText, keyText, tempoText and voiceText are what stands after M:, K:, Q:
// and V:.
func meterText(m tune.Meter) string {
	if m.Beats == 0 {
		return "none"
	}
	return m.Text
}

// keyText makes "D phrygian with F#, C natural" "D phrygian ^f =c", and what has
// accidentals and no mode exp.
func keyText(k pitch.Key) string {
	name, list, _ := strings.Cut(k.Name, " with ")
	tonic, mode, _ := strings.Cut(name, " ")
	switch {
	case name == noSignature && list == "":
		return "none"
	case name == noSignature:
		name = "exp"
	case mode == "":
		name = tonic + " exp"
	}
	for _, item := range strings.Split(list, ", ") {
		if p, ok := pitch.Parse(strings.TrimSuffix(item, " natural") + "4"); ok {
			name += " " + [...]string{"__", "_", "=", "^", "^^"}[p.Alter+2] + strings.ToLower("CDEFGAB"[p.Letter:p.Letter+1])
		}
	}
	return name
}

func tempoText(q tune.Tempo) string {
	text := ""
	if q.Words != "" {
		text = `"` + escaped(q.Words) + `"`
	}
	if q.Beats > 0 {
		text += " " + number(q.Beat.N) + "/" + number(q.Beat.D) + "=" + number(q.Beats)
	}
	return strings.TrimSpace(text)
}

func voiceText(v tune.Voice) string {
	text := v.ID
	if v.Name != "" {
		text += ` name="` + escaped(v.Name) + `"`
	}
	if v.Clef != "" {
		text += " clef=" + v.Clef
	}
	return text
}
