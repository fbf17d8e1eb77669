package solve_test

import (
	"slices"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// This file writes passages as published fingerings are given, and asks for the
// price of one.

// root is string 0 of a passage: C4, in the middle of the usual harp.
const root = 14

// trial is a harp, a hand, and how a passage is played.
type trial struct {
	t     require.TestingT
	rules rule.Rules
	ms    int32  // of the shortest note
	beat  int32  // so many of the shortest notes; 0 a free metre
	root  int8   // the string of a passage's 0
	metre string // of passages in ABC; "" for others
}

// try is a trial in the middle of the usual harp, without a metre.
func try(t require.TestingT, spacing int32, name, inUse string, ms int32) trial {
	return trial{t: t, rules: rules(spaced(t, spacing), name, inUse), ms: ms, root: root}
}

func spaced(t require.TestingT, um int32) harp.Harp {
	h, ok := harp.New(34, pitch.Pitch{Octave: 2}, "C", um)
	require.True(t, ok)
	return h
}

func rules(h harp.Harp, name, fingers string) rule.Rules {
	hd, _ := hand.New(name, fingers, 1000)
	return rule.Rules{Charges: rule.Usual(), Harp: h, Hand: hd}
}

// write makes a score of a passage in strings from its 0: "0 +1 {0 +4} -2". A
// note lasts x.ms, "+2*3" three times as long; "_" is a rest; "~{0 +4 +10}" is
// rolled. Ornaments are named after their note: "0:cut" (now and then).
func (x trial) write(passage string) score.Score {
	if x.metre != "" {
		return x.abc(passage)
	}
	s := score.Score{Harp: x.rules.Harp}
	adorned := map[int]string{}
	onset, last, forced := int32(0), int32(0), false // in shortest notes
	for _, word := range chords(passage) {
		notes, name, _ := strings.Cut(word, ":")
		notes, times, _ := strings.Cut(notes, "*")
		length := int32(1)
		if times != "" {
			length = int32(x.number(times))
		}
		if notes == "_" {
			onset, forced = onset+length, len(s.Events) > 0
			continue
		}
		e := score.Event{Since: (onset - last) * x.ms, Length: length * x.ms, Forced: forced, Weak: x.weak(onset)}
		notes, e.Rolled = strings.CutPrefix(notes, "~")
		for _, n := range strings.Fields(strings.Trim(notes, "{}")) {
			e.Notes = append(e.Notes, score.Note{Written: len(s.Events) + 1, Pass: 1, String: x.root + x.number(n)})
		}
		if name != "" {
			adorned[len(s.Events)] = name
		}
		s.Events = append(s.Events, e)
		onset, last, forced = onset+length, onset, false
	}
	s.Gaps = make([]score.Gap, len(s.Events)+1)
	for i := range s.Events {
		if adorned[i] != "" {
			x.adorn(&s, i, adorned[i])
		}
	}
	s.Weigh()
	return s
}

func (x trial) number(word string) int8 {
	n, err := strconv.Atoi(strings.TrimPrefix(word, "+"))
	require.NoError(x.t, err, word)
	return int8(n)
}

// adorn puts an ornament of the catalogue on an event.
func (x trial) adorn(s *score.Score, i int, name string) {
	row, ok := ornament.Named(name)
	require.True(x.t, ok, name)
	e := &s.Events[i]
	strokes, delay, _ := row.Strokes(e.Length, false)
	o := score.Ornament{Name: row.Name, Delay: delay, On: true, Likelihood: score.NowAndThen, Written: true}
	for _, k := range strokes {
		o.Strokes = append(o.Strokes, score.Stroke{String: e.Notes[0].String + k.Step, At: k.At})
	}
	gap, after := i, row.Time == ornament.Spread
	if after {
		gap++
	}
	s.Gaps[gap].Sites = append(s.Gaps[gap].Sites, score.Site{Written: i + 1, Pass: 1, Event: i, After: after, Ornaments: []score.Ornament{o}})
}

// chords splits a passage at blanks outside braces.
func chords(passage string) []string {
	var words []string
	depth, start := 0, 0
	for i, c := range passage + " " {
		switch {
		case c == '{':
			depth++
		case c == '}':
			depth--
		case c == ' ' && depth == 0:
			if i > start {
				words = append(words, passage[start:i])
			}
			start = i + 1
		}
	}
	return words
}

// read writes a plan's fingers as players do: "2 1 2 3 | {4 2 1}", a chord from
// its lowest string.
func read(p plan.Plan) string {
	var words []string
	for i, e := range p.Events {
		if i > 0 && p.Bounded(i) {
			words = append(words, "|")
		}
		words = append(words, chordWord(e.Stroke))
	}
	return strings.Join(words, " ")
}

// chordWord gives the fingers of a stroke, "2" or "{4 2 1}".
func chordWord(stroke hand.Frame) string {
	var fingers []string
	for f := 3; f >= 0; f-- {
		if stroke[f] != hand.None {
			fingers = append(fingers, strconv.Itoa(f+1))
		}
	}
	word := strings.Join(fingers, " ")
	if len(fingers) > 1 {
		word = "{" + word + "}"
	}
	return word
}

// answer plans a passage.
func (x trial) answer(passage string) string {
	p, _ := solve.Best(x.write(passage), x.rules)
	return read(p)
}

// pinned is a passage with the fingers of read asked for, and where "|" stands
// among them its placings too.
func (x trial) pinned(passage, fingers string) score.Score {
	s := x.write(passage)
	i, set := 0, false
	for _, word := range chords(fingers) {
		if word == "|" {
			set = true
			continue
		}
		require.Less(x.t, i, len(s.Events), "%s: %s", passage, fingers)
		e := &s.Events[i]
		list := strings.Fields(strings.Trim(word, "{}"))
		require.Len(x.t, e.Notes, len(list), "%s: %s", passage, fingers)
		for n := range list {
			e.Notes[n].Pin = x.number(list[n])
		}
		switch {
		case set:
			e.Boundary = score.Set
		case strings.Contains(fingers, "|") && i > 0:
			e.Boundary = score.Stay
		}
		i, set = i+1, false
	}
	require.Len(x.t, s.Events, i, "%s: %s", passage, fingers)
	return s
}

// price gives what a fingering costs, plan.None where it cannot be played.
func (x trial) price(passage, fingers string) plan.Cost {
	s := x.pinned(passage, fingers)
	for i := range s.Events {
		if len(x.ways(&s.Events[i])) == 0 {
			return plan.None
		}
	}
	p, s := solve.Best(s, x.rules)
	if len(p.Dropped) > 0 || len(plan.Judge(&s, &x.rules, &p)) > 0 {
		return plan.None
	}
	return p.Cost
}

// least gives what the best fingering costs.
func (x trial) least(passage string) plan.Cost { return solve.Least(x.write(passage), x.rules) }

// ways lists the fingerings of an event that its pins allow.
func (x trial) ways(e *score.Event) []hand.Frame {
	all := x.rules.Hand.Fingerings(x.rules.Harp, e.Strings())
	if e.Rolled {
		all = append(all, x.rules.Hand.InPart(x.rules.Harp, e.Strings())...)
	}
	return slices.DeleteFunc(all, func(f hand.Frame) bool {
		return slices.ContainsFunc(e.Notes, func(n score.Note) bool { return n.Pin != 0 && f[n.Pin-1] != n.String })
	})
}

// third gives the cost of the third cheapest of all ways to finger a passage;
// two that have the same fingers and other placings are one. It takes the best,
// and then the best of those that agree with it up to a note and not there, for
// every note (Lawler 1972): each way is in just one of these sets.
func (x trial) third(passage string) plan.Cost {
	type set struct {
		best  plan.Plan
		fixed int // events that all its ways share
	}
	s := x.write(passage)
	best, _ := solve.Best(s, x.rules)
	sets := []set{{best, 0}}
	for count := 1; len(sets) > 0; count++ {
		at := 0
		for k := range sets {
			if sets[k].best.Cost < sets[at].best.Cost {
				at = k
			}
		}
		of := sets[at]
		if count == 3 {
			return of.best.Cost
		}
		sets = slices.Delete(sets, at, at+1)
		for i := of.fixed; i < len(s.Events); i++ {
			for _, stroke := range x.ways(&s.Events[i]) {
				if stroke == of.best.Events[i].Stroke {
					continue
				}
				q := s
				q.Events = slices.Clone(s.Events)
				for k := range i {
					pin(&q.Events[k], of.best.Events[k].Stroke)
				}
				pin(&q.Events[i], stroke)
				p, _ := solve.Best(q, x.rules)
				sets = append(sets, set{p, i + 1})
			}
		}
	}
	return plan.None
}

func pin(e *score.Event, stroke hand.Frame) {
	e.Notes = slices.Clone(e.Notes)
	for n := range e.Notes {
		e.Notes[n].Pin = int8(slices.Index(stroke[:], e.Notes[n].String)) + 1
	}
}

// weak says how weak a place is: between beats or not, each beat beginning a bar.
func (x trial) weak(onset int32) int8 {
	if x.beat > 0 && onset%x.beat != 0 {
		return 2
	}
	return 0
}
