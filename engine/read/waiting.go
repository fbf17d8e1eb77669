package read

import (
	"slices"
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
	texts       []string
	slurs       int
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

// quoted reads text in double quotes. What is not closed goes to the end of its line:
// so abc2midi has it, and abcjs where the line is short.
func (r *reader) quoted() {
	from := r.at
	n := r.find(1, `"`)
	if n < 0 {
		r.at = r.end
		place, what, help := span(from, from+1), "text", `Write " after it too.`
		if n := chordStart(r.s[from+1 : r.end]); n > 0 {
			place, what, help = span(from, from+1+n), "chord", `Write "`+r.s[from+1:from+1+n]+`".`
		}
		r.say(unclosedQuote, place, "This "+what+" is not closed; the rest of the line is taken for text.", help)
		return
	}
	r.at = from + n + 1
	r.giveText(strings.TrimSpace(r.s[from+1:from+n]), span(from, r.at))
}

// giveText keeps a text in quotes for the note that follows: a bare finger from
// 1 to 4 as old collections write it, an annotation (^ _ < > @), else a chord
// symbol (ABC 2.1, 4.18 and 4.19).
func (r *reader) giveText(text string, place source.Span) {
	w := &r.waiting
	text = plainText(text)
	switch {
	case text == "":
	case len(text) == 1 && text[0] >= '0' && text[0] <= '5':
		r.askFinger(text[0], place)
	case strings.IndexByte("^_<>@", text[0]) >= 0:
		if len(w.texts) < mostBeside {
			w.texts = append(w.texts, strings.ReplaceAll(text, `"`, "'"))
		}
	case text == "N.C.":
	case isChord(text):
		w.chord = text
	default:
		r.say(plainWords, place, "This text is not a chord; it is not shown.", `Write "^`+text+`" if it is meant as a word over the music.`)
	}
}

// isChord reports a chord symbol (ABC 2.1, 4.18, which asks to be liberal): a
// letter from A to G, sharp or flat, then what chords are made of.
func isChord(text string) bool {
	if text[0] < 'A' || text[0] > 'G' {
		return false
	}
	rest := text[1:]
	for rest != "" {
		n := 0
		for _, piece := range []string{"maj", "min", "dim", "aug", "sus", "add", "omit", "no", "Maj", "Min", "♯", "♭", "°", "ø", "Δ"} {
			if strings.HasPrefix(rest, piece) {
				n = len(piece)
			}
		}
		if n == 0 && strings.IndexByte("mMb#+-=^7o965432110()/,ABCDEFGacdefg ", rest[0]) >= 0 {
			n = 1
		}
		if n == 0 {
			return false
		}
		rest = rest[n:]
	}
	return true
}

// chordStart is how many letters of music can only be a chord symbol: "Am" of "Am c2",
// but none of "A c2", which may be a note.
func chordStart(music string) int {
	n := 0
	if music != "" && music[0] >= 'A' && music[0] <= 'G' {
		if n = 1; len(music) > 1 && music[1] == '#' {
			n = 2
		}
		for _, kind := range []string{"maj7", "min7", "maj", "min", "m7", "m", "dim", "sus4", "sus2", "7"} {
			if strings.HasPrefix(music[n:], kind) {
				return n + len(kind)
			}
		}
	}
	if n == 1 {
		return 0
	}
	return n
}

// giveWaiting hands everything that waits to an event. What stands under the
// music, in a line of signs, is never apart from it.
func (r *reader) giveWaiting(e *tune.Event, under bool) {
	w := &r.waiting
	if len(e.Notes) == 0 {
		r.nothingOnRest()
	} else if len(w.fingers) > 0 {
		r.pin(&e.Notes[0])
	}
	e.Graces, e.Decorations = append(e.Graces, w.graces...), append(e.Decorations, w.decorations...)
	e.Texts, e.Slurs.Open = append(e.Texts, w.texts...), e.Slurs.Open+w.slurs
	if w.chord != "" {
		e.Chord = w.chord
	}
	e.PhraseEnd = e.PhraseEnd || w.phrase
	if w.phrase && !under && w.phrasePlace.To < e.Source.From && strings.TrimSpace(r.s[w.phrasePlace.To:e.Source.From]) == "" {
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
	w.decorations = slices.DeleteFunc(w.decorations, func(d tune.Decoration) bool {
		if adorning(d.Name) {
			r.say(decorationAlone, d.Source, "This ornament stands on a rest; it is left out.", "Write it before a note.")
		}
		return adorning(d.Name)
	})
	r.fingersInVain("This finger stands before a rest.")
	w.graces = nil
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
	for _, d := range w.decorations { // others may stand at a bar line
		if !adorning(d.Name) {
			continue
		}
		r.say(decorationAlone, d.Source, "No note follows this ornament in its bar; it is left out.", "Write it just before its note.")
	}
	r.fingersInVain("No note follows this finger in its bar.")
	w.phrase, w.decorations = false, nil
}
