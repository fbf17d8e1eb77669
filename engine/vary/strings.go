package vary

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// note is a note on its string, with the note head it comes from.
type note struct {
	score.Note
	head tune.Note
}

// lever is what is known of a string's lever.
type lever struct {
	asked        bool // a note asked for it
	start, stand bool // up when the tune begins; up now
}

// raised gives the levers that are up when the tune begins: as the first note
// on the string asks, or where no note does, as the key has it.
func (w *writer) raised() []bool {
	up := make([]bool, len(w.levers))
	for i, l := range w.levers {
		p := w.harp.Strings[i].Pitch
		up[i] = l.start
		if !l.asked {
			up[i] = w.tune.Key.Alter[p.Letter] == p.Alter+1
		}
	}
	return up
}

// notes finds the strings of a moment's notes, lowest first.
func (w *writer) notes(m moment) []note {
	var notes []note
	for _, head := range m.struck {
		if head.Beyond { // said where it was read
			w.leave(head)
			continue
		}
		i, _, ok := w.harp.Find(head.Pitch)
		if !ok {
			w.lacks(head.Pitch, m.event.Bar, head.Source, false)
			w.leave(head)
			continue
		}
		s := int8(i)
		if i := slices.IndexFunc(notes, func(n note) bool { return n.String == s }); i >= 0 {
			w.double(head, notes[i].head)
			continue
		}
		w.turn(s, head.Pitch, head.Source)
		notes = append(notes, note{w.pin(head, m.pass, s), head})
	}
	source.Order(notes, func(a, b note) int { return int(a.String) - int(b.String) })
	return notes
}

// double speaks of a note whose string has one already in the same chord.
func (w *writer) double(head, first tune.Note) {
	if head.Pitch == first.Pitch {
		w.say(source.Remark{Span: head.Source, Severity: source.Note, Kind: "same-string",
			Message:    head.Pitch.String() + " stands twice in this chord; one string plays it once.",
			Suggestion: "Leave one of them out."})
		return
	}
	w.leave(head)
	w.say(source.Remark{Span: head.Source, Severity: source.Warning, Kind: "same-string",
		Message:    first.Pitch.String() + " and " + head.Pitch.String() + " are on one string, which cannot play both at once. " + first.Pitch.String() + " is played.",
		Suggestion: "Leave one of them out."})
}

// turn asks for a string's lever as a pitch needs it.
func (w *writer) turn(s int8, p pitch.Pitch, at source.Span) {
	l, up := &w.levers[s], p.Alter != w.harp.Strings[s].Pitch.Alter
	if !l.asked {
		*l = lever{asked: true, start: up, stand: up}
		return
	}
	if l.stand == up {
		return
	}
	l.stand = up
	way := "down"
	if up {
		way = "up"
	}
	w.say(source.Remark{Span: at, Severity: source.Warning, Kind: "lever-change",
		Message: "The lever of the " + w.harp.Strings[s].Pitch.String() + " string has to go " + way + " before this " + p.String() +
			". When, and with which hand, is not worked out yet.",
		Suggestion: "Find a rest or a long note before it in which the left hand can turn the lever, and mark it in the music."})
}

// pin gives a note its string and the finger that the reader, or else the text,
// asks for.
func (w *writer) pin(head tune.Note, pass int, s int8) score.Note {
	n := score.Note{Written: head.Number, Pass: pass, String: s, Source: head.Source, Pinned: source.Nowhere(),
		Raised: head.Pitch.Alter > w.harp.Strings[s].Pitch.Alter}
	finger, said := w.choice.Finger(head.Number)
	if !said && head.Finger >= 1 && head.Finger <= 4 {
		finger, n.Pinned = head.Finger, head.Source
	}
	if finger > 0 && !w.hand.InUse[finger-1] {
		w.say(source.Remark{Span: head.Source, Severity: source.Error, Kind: "finger-not-in-use",
			Message:    "Finger " + strconv.Itoa(int(finger)) + " is asked for here, but only " + w.inUse() + " are in use.",
			Suggestion: "Ask for one of these, or put the finger in use: fingers " + w.wider(finger) + "."})
		finger, n.Pinned = 0, source.Nowhere()
	}
	n.Pin = finger
	return n
}

// inUse lists the fingers in use: "1, 2, 3".
func (w *writer) inUse() string { return strings.Join(strings.Split(w.wider(0), ""), ", ") }

// wider lists the fingers in use and one more: "1234".
func (w *writer) wider(finger int8) string {
	list := ""
	for f, used := range w.hand.InUse {
		if used || f+1 == int(finger) {
			list += strconv.Itoa(f + 1)
		}
	}
	return list
}

// abc writes a pitch as it stands in a tune (ABC notation 2.1, 4.1 and 4.2).
func abc(p pitch.Pitch) string {
	letter := "CDEFGAB"[p.Letter : p.Letter+1]
	marks := ""
	if p.Octave >= 5 {
		letter, marks = strings.ToLower(letter), strings.Repeat("'", int(p.Octave)-5)
	} else if p.Octave < 4 {
		marks = strings.Repeat(",", 4-int(p.Octave))
	}
	return [...]string{"__", "_", "=", "^", "^^"}[p.Alter+2] + letter + marks
}
