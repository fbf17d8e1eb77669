package vary

import (
	"slices"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Hands gives a tune as two hands play it: one voice, or two, the right hand's
// first. A voice's clef or name says whose it is; where nothing does, the first
// is the right hand's and the others are the left's. Voices of one hand, and what
// & lays over a voice, are played together. A voice that does not go with the
// others of its hand is left out, with a remark at its place.
func Hands(t tune.Tune) (tune.Tune, []source.Remark) {
	if len(t.Voices) < 2 {
		return t, nil
	}
	var remarks []source.Remark
	var voices []tune.Voice
	sides, guessed := sides(t.Voices)
	for _, left := range []bool{false, true} {
		var hand *tune.Voice
		for i, v := range t.Voices {
			if sides[i] != left || len(v.Events) == 0 {
				continue
			}
			if guessed[i] {
				remarks = append(remarks, source.Remark{Span: v.Events[0].Source, Severity: source.Note, Kind: "hand-guessed",
					Message:    "Which hand plays this voice is not said; it is taken for the " + handName(left) + " hand.",
					Suggestion: `Write clef=bass or name="left hand" in its V: line, or clef=treble or name="right hand".`})
			}
			if hand == nil {
				hand = &v
				continue
			}
			both, ok := together(*hand, v)
			if !ok {
				remarks = append(remarks, source.Remark{Span: v.Events[0].Source, Severity: source.Warning, Kind: "voice-left-out",
					Message:    "This voice does not have the bars and repeats of the one before it, so one hand cannot play both; it is not shown.",
					Suggestion: "Give both the same bars, with the same repeats and endings, or a block each."})
				continue
			}
			*hand = both
		}
		if hand != nil {
			voices = append(voices, *hand)
		}
	}
	if len(voices) == 0 {
		voices = t.Voices[:1]
	}
	t.Voices = voices
	return t, remarks
}

// Side names the hand that plays voice i of a tune that Hands gave.
func Side(t tune.Tune, i int) string {
	if len(t.Voices) > 1 {
		return handName(i > 0)
	}
	said, _ := said(t.Voices[i])
	return handName(said)
}

func handName(left bool) string {
	if left {
		return "left"
	}
	return "right"
}

// sides says of each voice whether it is the left hand's, and whether that is a
// guess. A layer goes with its voice.
func sides(voices []tune.Voice) (left, guessed []bool) {
	left, guessed = make([]bool, len(voices)), make([]bool, len(voices))
	many, lefts, rights := 0, 0, 0
	for i, v := range voices {
		if v.Layer > 0 {
			continue
		}
		side, sure := said(v)
		left[i], guessed[i] = side, !sure
		many++
		switch {
		case sure && side:
			lefts++
		case sure || i == 0:
			rights++
		}
	}
	for i, v := range voices {
		switch {
		case v.Layer > 0:
			left[i], guessed[i] = left[i-1], false
		case many > 1 && (lefts == many || rights == many): // one hand cannot have all
			left[i], guessed[i] = i > 0, i > 0
		case guessed[i]:
			left[i] = i > 0 && lefts == 0
			guessed[i] = many > 1 && i > 0
		}
	}
	return left, guessed
}

// said tells whether a voice is called the left hand's, and whether anything says
// so: its name first, else its clef.
func said(v tune.Voice) (left, sure bool) {
	for word := range strings.FieldsSeq(strings.ToLower(v.Name + " " + v.ID)) {
		switch strings.ReplaceAll(word, ".", "") {
		case "left", "lh", "bass":
			return true, true
		case "right", "rh", "treble":
			return false, true
		}
	}
	return v.Clef == "bass" || v.Clef == "tenor", v.Clef != ""
}

// pair is what begins at one written time in two voices: events of the one and
// of the other, -1 for none.
type pair struct {
	at   tune.Frac
	a, b int
}

// together lays two voices into one. ok is false where they come apart when they
// are played: what is written at one time must sound at one time.
func together(a, b tune.Voice) (both tune.Voice, ok bool) {
	pairs := pairs(a.Events, b.Events)
	both = a
	both.Events, both.Marks, both.Played = nil, nil, nil
	both.Bars = max(a.Bars, b.Bars)
	ofA, ofB := make([]int, len(a.Events)), make([]int, len(b.Events)) // where each event went, -1 for a rest that was dropped
	until := tune.Frac{N: 0, D: 1}                                     // a note sounds to here
	for _, p := range pairs {
		e := join(a.Events, b.Events, p, until)
		if e == nil {
			put(ofA, p.a, -1)
			put(ofB, p.b, -1)
			if n := len(both.Events); n > 0 {
				last := &both.Events[n-1]
				last.PhraseEnd = last.PhraseEnd || ends(a.Events, p.a) || ends(b.Events, p.b)
			}
			continue
		}
		end := e.Onset.Add(e.Length)
		if len(e.Notes) > 0 && until.Less(end) {
			until = end
		}
		if n := len(both.Events); n > 0 {
			cut(&both.Events[n-1], e.Onset)
			e.Bar, e.Line = max(e.Bar, both.Events[n-1].Bar), max(e.Line, both.Events[n-1].Line)
		}
		put(ofA, p.a, len(both.Events))
		put(ofB, p.b, len(both.Events))
		both.Events = append(both.Events, *e)
	}
	for _, m := range a.Marks {
		at := len(both.Events)
		for k := m.Event; k < len(ofA); k++ {
			if ofA[k] >= 0 {
				at = ofA[k]
				break
			}
		}
		m.Event = at
		both.Marks = append(both.Marks, m)
	}
	both.Played, ok = playTogether(a, b, ofA, ofB, len(both.Events))
	return both, ok
}

func put(list []int, i, value int) {
	if i >= 0 {
		list[i] = value
	}
}

func ends(events []tune.Event, i int) bool { return i >= 0 && events[i].PhraseEnd }

// pairs gives the written times of two voices in order.
func pairs(a, b []tune.Event) []pair {
	var list []pair
	for i, k := 0, 0; i < len(a) || k < len(b); {
		switch {
		case k == len(b) || i < len(a) && a[i].Onset.Less(b[k].Onset):
			list = append(list, pair{a[i].Onset, i, -1})
			i++
		case i == len(a) || b[k].Onset.Less(a[i].Onset):
			list = append(list, pair{b[k].Onset, -1, k})
			k++
		default:
			list = append(list, pair{a[i].Onset, i, k})
			i, k = i+1, k+1
		}
	}
	return list
}

// join makes one event of what begins at one time; nil if that is only a rest and
// a note still sounds.
func join(a, b []tune.Event, p pair, until tune.Frac) *tune.Event {
	var found []tune.Event
	if p.a >= 0 {
		found = append(found, a[p.a])
	}
	if p.b >= 0 {
		found = append(found, b[p.b])
	}
	source.Order(found, func(x, y tune.Event) int { return min(1, len(y.Notes)) - min(1, len(x.Notes)) }) // notes before rests
	e := found[0]
	if len(e.Notes) == 0 && p.at.Less(until) {
		return nil
	}
	e.Tuplet, e.Joined, e.Whole = tune.Tuplet{}, false, 0
	if len(found) == 1 || len(e.Notes) == 0 {
		return &e
	}
	f := found[1]
	e.PhraseEnd = e.PhraseEnd || f.PhraseEnd
	if e.Chord == "" {
		e.Chord = f.Chord
	}
	if len(f.Notes) == 0 {
		return &e
	}
	long := e.Length
	if long.Less(f.Length) {
		long = f.Length
	}
	e.Notes = append(holding(e, long), holding(f, long)...)
	e.Length = long
	e.Graces = append(slices.Clone(e.Graces), f.Graces...)
	e.Decorations = append(slices.Clone(e.Decorations), f.Decorations...)
	return &e
}

// holding gives an event's notes with their own lengths, in one of another length.
func holding(e tune.Event, long tune.Frac) []tune.Note {
	notes := slices.Clone(e.Notes)
	for i := range notes {
		if notes[i].Length == (tune.Frac{}) && e.Length != long {
			notes[i].Length = e.Length
		}
	}
	return notes
}

// cut ends an event where the next begins; its notes sound on.
func cut(e *tune.Event, at tune.Frac) {
	length := at.Sub(e.Onset)
	if e.Length == length {
		return
	}
	if length.Less(e.Length) {
		e.Notes = holding(*e, length)
	}
	e.Length = length
}

// playTogether gives the order in which two voices are played as one.
func playTogether(a, b tune.Voice, ofA, ofB []int, events int) ([]tune.Step, bool) {
	var steps []tune.Step
	onsets := make([][2][]tune.Frac, events) // of each event, when the one voice plays it and the other
	for k, v := range []tune.Voice{a, b} {
		of := [][]int{ofA, ofB}[k]
		for _, s := range v.Played {
			e := of[s.Event]
			if e < 0 {
				continue
			}
			onsets[e][k] = append(onsets[e][k], s.Onset)
			steps = append(steps, tune.Step{Event: e, Pass: s.Pass, Onset: s.Onset})
		}
	}
	for _, of := range onsets {
		if len(of[0]) > 0 && len(of[1]) > 0 && !slices.Equal(of[0], of[1]) {
			return nil, false
		}
	}
	source.Order(steps, func(s, t tune.Step) int {
		switch {
		case s.Onset.Less(t.Onset):
			return -1
		case t.Onset.Less(s.Onset):
			return 1
		}
		return s.Event - t.Event
	})
	return slices.Compact(steps), true
}
