package read

import (
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
	over   int // bar lines to the end of this layer
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
	key := keyText(t.Key)
	if v := t.Voices[0]; v.ID == "" && v.Clef != "" {
		key += " clef=" + v.Clef
	}
	w.field("K", key)
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
	if (!isMark || other || k != w.now && m.Kind != tune.Bar) && w.mayTurn(other) {
		w.newline()
	}
	switch {
	case isMark && m.Kind == tune.Over: // it lies over its voice, or the layer below
		if w.now != k-1 {
			w.turnTo(k - p.voice.Layer)
		}
		p.over = m.Back
	case isMark && m.Line && w.inLayerOf(k) && w.hands[w.now].over == 1: // it ends the layer too
	default:
		w.turnTo(k)
	}
	if isMark && m.Line {
		p.over--
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
	if k == w.now && (w.begun || p.voice.ID == "" || len(w.hands) == 1) {
		return
	}
	w.space()
	w.fresh = false
	w.WriteString("[V:" + p.voice.ID + "]")
}

func (w *writer) space() {
	if !w.fresh {
		w.WriteString(" ")
	}
}
