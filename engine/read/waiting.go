package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// waiting is what has been written before a note and waits for it.
type waiting struct {
	graces      []tune.Grace
	gracePlace  source.Span
	decorations []tune.Decoration
	fingers     []asked
	chord       string
	phrase      bool
	phrasePlace source.Span
}

// asked is a finger that the text asks for.
type asked struct {
	finger int8
	source.Span
}

// askFinger keeps a finger from 1 to 4 for the note that follows (ABC 2.1,
// 4.14). A harper has no use for 0 and 5.
func (r *reader) askFinger(digit byte, place source.Span) {
	if digit < '1' || digit > '4' {
		r.say(fingerNotUsed, place, "The harp is played with fingers 1 to 4; this one is not used.", "Write 1 for the thumb up to 4.")
		return
	}
	r.waiting.fingers = append(r.waiting.fingers, asked{int8(digit - '0'), place})
}

// pin gives a note the finger that waits for it.
func (r *reader) pin(n *tune.Note) {
	for i, f := range r.waiting.fingers {
		if i > 0 {
			r.say(twoFingers, f.Span, "This note has two fingers; the first is used.", "Write one finger before a note.")
			continue
		}
		n.Finger, n.Pinned = f.finger, f.Span
	}
	r.waiting.fingers = nil
}

// quoted reads text in double quotes: a bare finger from 1 to 4 as old
// collections write it, an annotation (^ _ < > @), else a chord symbol (ABC
// 2.1, 4.18 and 4.19).
func (r *reader) quoted() {
	from := r.at
	n := strings.IndexByte(r.s[from+1:r.end], '"')
	if n < 0 {
		r.at++
		r.say(unclosedQuote, span(from, from+1), "This text is not closed; what follows is read as music.", `Write " after it too.`)
		return
	}
	text := strings.TrimSpace(r.s[from+1 : from+1+n])
	r.at = from + n + 2
	place := span(from, r.at)
	switch {
	case text == "" || strings.IndexByte("^_<>@", text[0]) >= 0 || text == "N.C.":
	case len(text) == 1 && text[0] >= '0' && text[0] <= '5':
		r.askFinger(text[0], place)
	case text[0] >= 'A' && text[0] <= 'G':
		r.waiting.chord = text
	default:
		r.say(plainText, place, "This text is not a chord; it is not shown.", `Write "^`+text+`" if it is meant as a word over the music.`)
	}
}

// giveWaiting hands everything that waits to an event.
func (r *reader) giveWaiting(e *tune.Event) {
	w := &r.waiting
	if len(e.Notes) == 0 {
		r.nothingOnRest()
	} else if len(w.fingers) > 0 {
		r.pin(&e.Notes[0])
	}
	e.Graces, e.Decorations, e.Chord, e.PhraseEnd = w.graces, w.decorations, w.chord, w.phrase
	if w.phrase && w.phrasePlace.To < e.Source.From && strings.TrimSpace(r.s[w.phrasePlace.To:e.Source.From]) == "" {
		r.say(phraseApart, w.phrasePlace, "The phrase ends after the note that follows this sign.",
			"Write the sign just before the last note of the phrase.")
	}
	*w = waiting{}
}

// nothingOnRest drops what a rest cannot carry.
func (r *reader) nothingOnRest() {
	w := &r.waiting
	if len(w.graces) > 0 {
		r.say(graceAlone, w.gracePlace, "These grace notes stand before a rest; they are left out.", "Write them before a note.")
	}
	for _, d := range w.decorations {
		r.say(decorationAlone, d.Source, "This ornament stands on a rest; it is left out.", "Write it before a note.")
	}
	r.fingersInVain("This finger stands before a rest.")
	w.graces, w.decorations = nil, nil
}

func (r *reader) fingersInVain(message string) {
	for _, f := range r.waiting.fingers {
		r.say(decorationAlone, f.Span, message, "Write it just before its note, such as !2!c.")
	}
	r.waiting.fingers = nil
}

// waitedInVain ends the waiting at a bar line or the end of a line: a sign
// belongs to a note of its own bar. A phrase sign there can only mean the note
// before it. Grace notes and chord symbols wait for the next bar's note.
//
// Elsewhere !breath! and the phrase signs end the phrase after the note that
// they are written before: a decoration stands before its note, and the breath
// is drawn after that note (ABC 2.1, 4.14).
func (r *reader) waitedInVain() {
	w := &r.waiting
	if w.phrase && !r.endPhrase() {
		r.say(phraseNowhere, w.phrasePlace, "No phrase can end here: no note has been played.",
			"Write the sign just before the last note of the phrase.")
	}
	for _, d := range w.decorations {
		r.say(decorationAlone, d.Source, "No note follows this ornament in its bar; it is left out.", "Write it just before its note.")
	}
	r.fingersInVain("No note follows this finger in its bar.")
	w.phrase, w.decorations = false, nil
}
