package engine

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/explain"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
)

// Verdict is a player's own fingering held against the best.
type Verdict struct {
	Playable bool
	Extra    plan.Cost // above the best plan; Unplayable where it cannot be played
	Says     string    // in a sentence
	Reasons  []string  // why, place by place
}

// Misread is a place in a fingering that cannot be read, counted in bytes from 0.
type Misread struct {
	At                  int
	Message, Suggestion string
}

// Own holds a fingering against the best one, and keeps what comes of it in
// a.Verdict. It is written "3 2 1 | 4+2+1": a word for each written note in the order
// of the text, the fingers of a chord from its lowest string joined by +, ? where
// any finger will do, | where the hand is set anew. A note tied to the one before it
// has no word. Between two fingers without | the hand stays placed, unless a
// rest or the end of a phrase is between them; beside a ? it is free. Without any |
// at all, where the hand cannot stay placed for all of it, so is everything.
func (a *Answer) Own(fingering string) *Misread {
	f, wrong := a.read(fingering)
	if wrong != nil {
		return wrong
	}
	var checks []plan.Check
	for i := range a.Hands {
		h := &a.Hands[i]
		asked := f.ask(&h.given, true)
		if !f.bars && !solve.Holds(&asked, &h.Rules) {
			asked = f.ask(&h.given, false)
		}
		checks = append(checks, solve.Check(asked, h.Rules))
	}
	a.Verdict = a.verdict(checks)
	return nil
}

// judged holds the fingers that are written against the best, if every note has
// one; nil if not.
func (a *Answer) judged() *Verdict {
	var checks []plan.Check
	for i := range a.Hands {
		h := &a.Hands[i]
		for _, e := range h.given.Events {
			if slices.ContainsFunc(e.Notes, func(n score.Note) bool { return n.Pin == 0 }) {
				return nil
			}
		}
		if len(h.given.Events) == 0 {
			return nil
		}
	}
	for i := range a.Hands {
		checks = append(checks, solve.Check(a.Hands[i].given, a.Hands[i].Rules))
	}
	return a.verdict(checks)
}

// verdict puts what was found for each hand together; nil if there is no hand.
func (a *Answer) verdict(checks []plan.Check) *Verdict {
	if len(checks) == 0 {
		return nil
	}
	v := &Verdict{Playable: true, Reasons: []string{}}
	for i := range checks {
		c := &checks[i]
		v.Playable = v.Playable && c.Playable
		v.Extra += c.Extra
		for _, line := range explain.Check(&a.Hands[i].Rules, c) {
			if len(checks) > 1 {
				line = strings.ToUpper(a.Hands[i].Rules.Hand.Name[:1]) + a.Hands[i].Rules.Hand.Name[1:] + " hand. " + line
			}
			v.Reasons = append(v.Reasons, line)
		}
	}
	if !v.Playable {
		v.Extra = plan.None
	}
	v.Says = explain.Verdict(v.Playable, v.Extra)
	return v
}

// fingering is a player's own, read: the moments of the tune in the order of the
// text and what is asked of each.
type fingering struct {
	moments []moment
	place   []int // by the number of a note head: its moment
	bars    bool  // some placing is written
}

// moment is what is struck at one time: its note heads, from the lowest string.
type moment struct {
	heads   []int
	hand    int
	name    string // "the D in bar 2", "the chord on D in bar 2"
	fingers []int8 // beside heads: 1 to 4, 0 for any
	set     bool   // the hand is set before it
	loose   bool   // a finger of it is left open
}

// read reads a fingering for the notes that are played.
func (a *Answer) read(text string) (fingering, *Misread) {
	f := fingering{moments: a.moments()}
	for i, m := range f.moments {
		for _, n := range m.heads {
			f.place = append(f.place, slices.Repeat([]int{-1}, max(0, n+1-len(f.place)))...)
			f.place[n] = i
		}
	}
	next, set := 0, false
	for at := 0; at < len(text); {
		switch {
		case text[at] == ' ' || text[at] == '\t' || text[at] == '\n' || text[at] == '\r':
			at++
		case text[at] == '|' && set:
			return f, &Misread{at, "Two | follow each other.", "Write one | where the hand is set anew."}
		case text[at] == '|':
			set = true
			at++
		default:
			end := at + 1
			for end < len(text) && !strings.ContainsRune(" \t\n\r|", rune(text[end])) {
				end++
			}
			if next == len(f.moments) {
				return f, &Misread{at, "Here is a finger too many: the tune has " + count(next) + ".", "Write one for each written note or chord, in the order of the text."}
			}
			m := &f.moments[next]
			if wrong := m.take(text[at:end], at); wrong != nil {
				return f, wrong
			}
			f.bars = f.bars || set && next > 0
			m.set, set = set, false
			next++
			at = end
		}
	}
	if next == 0 && len(f.moments) > 0 {
		return f, &Misread{0, "No finger is written here.", "Write one for each written note or chord, in the order of the text, such as 3 2 1 | 4+2+1."}
	}
	if next < len(f.moments) {
		return f, &Misread{len(text), "The fingering ends after " + count(next) + "; the next is " + f.moments[next].name + ", and there are " + strconv.Itoa(len(f.moments)) + " in all.",
			"Write a finger for each written note or chord, or ? to leave one open."}
	}
	return f, nil
}

func count(n int) string {
	if n == 1 {
		return "one written note or chord"
	}
	return strconv.Itoa(n) + " written notes and chords"
}

// take reads the fingers of one moment.
func (m *moment) take(word string, at int) *Misread {
	signs := strings.Split(word, "+")
	if word == "?" {
		signs = slices.Repeat(signs, len(m.heads))
	}
	example := "Write 1, 2, 3 or 4, or ? to leave it open."
	if len(m.heads) > 1 {
		example = "Write " + strconv.Itoa(len(m.heads)) + " fingers from its lowest string, such as " + [...]string{"2+1", "3+2+1", "4+3+2+1"}[min(len(m.heads), 4)-2] + ", or ? to leave it open."
	}
	for _, s := range signs {
		f := strings.Index("?1234", s)
		if len(s) != 1 || f < 0 {
			return &Misread{at, source.Quote(word) + " is no finger for " + m.name + ".", example}
		}
		m.fingers = append(m.fingers, int8(f))
		m.loose = m.loose || f == 0
		at += len(s) + 1
	}
	if len(signs) != len(m.heads) {
		return &Misread{at - len(word) - 1, source.Quote(word) + " does not fit " + m.name + ", which has " + strconv.Itoa(len(m.heads)) + " to play.", example}
	}
	return nil
}

// moments lists what is struck, in the order of the text.
func (a *Answer) moments() []moment {
	var list []moment
	seen := map[int]bool{}
	for i := range a.Hands {
		s := &a.Hands[i].given
		names := explain.Names(s)
		for e := range s.Events {
			m := moment{hand: i, name: names(e)}
			for _, n := range s.Events[e].Notes {
				if !seen[n.Written] {
					seen[n.Written] = true
					m.heads = append(m.heads, n.Written)
				}
			}
			if len(m.heads) > 0 {
				list = append(list, m)
			}
		}
	}
	source.Order(list, func(a, b moment) int { return cmp.Compare(slices.Min(a.heads), slices.Min(b.heads)) })
	return list
}

// ask writes a fingering on a hand's score, every time a note comes. With placings,
// the hand stays where none is written, but for a note that another was played
// before than stands before it in the text.
func (f *fingering) ask(given *score.Score, placings bool) score.Score {
	s := *given
	s.Events = slices.Clone(given.Events)
	before := -1 // the moment played before
	for e := range s.Events {
		event := &s.Events[e]
		event.Notes = slices.Clone(event.Notes)
		event.Boundary = score.Open
		at := -1
		for k := range event.Notes {
			n := &event.Notes[k]
			at = f.place[n.Written]
			m := &f.moments[at]
			n.Pin, n.Pinned = m.fingers[slices.Index(m.heads, n.Written)], source.Nowhere()
		}
		m := &f.moments[at]
		switch {
		case event.Forced || !placings:
		case m.set:
			event.Boundary = score.Set
		case before >= 0 && f.follows(before, at) && !m.loose && !f.moments[before].loose:
			event.Boundary = score.Stay
		}
		before = at
	}
	return s
}

// follows reports whether one moment comes next after another of the same hand in
// the text.
func (f *fingering) follows(before, at int) bool {
	for i := before + 1; i < at; i++ {
		if f.moments[i].hand == f.moments[at].hand {
			return false
		}
	}
	return before < at
}
