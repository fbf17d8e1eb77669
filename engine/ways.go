package engine

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
)

// Way is another way to play a part of one hand's tune.
type Way struct {
	From, To string // ids of the first and the last written note that it changes
	Extra    plan.Cost
	Near     bool // a near-tie
	Fingers  []Fingered
	Set      []string // the ids of notes before which the hand is set, and is not in the plan
	Stay     []string // the ids of notes before which it stays, and is set in the plan
	Now, Was string   // its fingers, and those of the plan: "3 2 | 1"
	Buys     string   // what it has that the plan has not

	words explain.Way
	other plan.Other
}

// Fingered is a note, by its id, and its finger, 1 to 4.
type Fingered struct {
	ID     string
	Finger int
}

// Ways gives the other ways to play parts of a hand's tune, the cheapest first:
// all near-ties, some dearer ones, and the fingerings that others have written down.
func (h *Hand) Ways() []Way {
	var list []Way
	for _, o := range h.known(solve.Others(h.Score, h.Rules, &h.Plan), 0) {
		if h.stands(&o) {
			list = append(list, h.way(o))
		}
	}
	return list
}

// known puts to some ways the fingerings that others have written down of one
// written note, 0 for all; each needs a plan of its own.
func (h *Hand) known(list []plan.Other, written int) []plan.Other {
	list = slices.Clone(list)
	for _, k := range solve.KnownWays(h.Score, h.Rules, &h.Plan, written) {
		at := slices.IndexFunc(list, func(o plan.Other) bool { return o.Extra == k.Extra && slices.Equal(o.Changes, k.Changes) })
		if at >= 0 {
			list[at].Known = k.Known
			continue
		}
		list = append(list, k)
	}
	source.Order(list, func(a, b plan.Other) int { return cmp.Compare(a.Extra, b.Extra) })
	return list
}

// near gives the near-ties. What was found once is kept.
func (h *Hand) near() []plan.Other {
	if h.others == nil {
		return solve.NearTies(h.Score, h.Rules, &h.Plan)
	}
	if !h.others.known {
		h.others.known, h.others.near = true, solve.NearTies(h.Score, h.Rules, &h.Plan)
	}
	return h.others.near
}

// others are the near-ties of a hand's tune, once they were asked for.
type others struct {
	known bool
	near  []plan.Other

	drilled   bool
	drills    []Drill
	exercises []exercised // also of plans before this one
	called    []called    // what may be called late, once it was asked for

	shares bool // shared is known
	shared string
}

// stands reports whether who takes a way has just that way: where notes come again,
// bars alike may all take other fingers still, for less.
func (h *Hand) stands(o *plan.Other) bool {
	if o.Whole != nil || !o.Again && len(h.Score.Figures()) == 0 {
		return true
	}
	taken := solve.Taken(h.Score, h.Rules, &h.Plan, o)
	return taken.Cost == h.Plan.Cost+o.Extra
}

// way puts one into words.
func (h *Hand) way(o plan.Other) Way {
	whole := solve.Whole(h.Score, h.Rules, &h.Plan, &o)
	w := Way{Extra: o.Extra, Near: o.Near, other: o, words: explain.Another(&h.Score, &h.Rules, &h.Plan, &o, &whole)}
	w.Now, w.Was, w.Buys = w.words.Now, w.words.Was, w.words.Buys
	w.From = h.Score.Events[o.From].Notes[0].ID()
	last := h.Score.Events[o.To].Notes
	w.To = last[len(last)-1].ID()
	if k := o.Known; k != nil && k.Gap >= 0 {
		w.Fingers = h.strokes(k)
	}
	for _, c := range o.Changes {
		switch first := h.Score.Events[c.Event].Notes[0].ID(); {
		case c.Event == 0 || c.Placed == h.Plan.Bounded(c.Event):
		case c.Placed:
			w.Set = append(w.Set, first)
		default:
			w.Stay = append(w.Stay, first)
		}
		for _, n := range h.Score.Events[c.Event].Notes {
			if f := slices.Index(c.Stroke[:], n.String); f != h.Plan.Events[c.Event].Finger(n.String) {
				w.Fingers = append(w.Fingers, Fingered{n.ID(), f + 1})
			}
		}
	}
	return w
}

// strokes are those of an ornament that have another finger in a known fingering.
func (h *Hand) strokes(k *plan.Known) (list []Fingered) {
	site := h.Score.Gaps[k.Gap].Sites[k.Site]
	fingers := k.Fingers[:len(k.Fingers)-1]
	if site.After {
		fingers = k.Fingers[1:]
	}
	touches := h.Plan.Gaps[k.Gap].Fits[k.Site][k.Which].Touches
	for n, f := range fingers {
		if n >= len(touches) || touches[n].Finger != f {
			list = append(list, Fingered{site.ID(k.Which) + "." + strconv.Itoa(n+1), int(f) + 1})
		}
	}
	return list
}

// Line tells a way in one line: "Bar 2, the D: 3, not 2. It takes 4 more effort.
// For it: no fourth finger."
func (w Way) Line() string {
	text := w.words.Where + ": " + w.Now
	if w.Now != w.Was {
		text += ", not " + w.Was
	}
	text += w.words.Price()
	if w.Buys != "" && w.Buys != explain.AsGood {
		text += " For it: " + w.Buys + "."
	}
	return text
}

// takes is the command that takes a way; "" where there is none. An ornament's
// fingers are asked for as a house fingering, if the tune has it on one note only.
func (h *Hand) takes(block string, o *plan.Other) string {
	if k := o.Known; k != nil && k.Gap >= 0 && o.Whole != nil {
		site := h.Score.Gaps[k.Gap].Sites[k.Site]
		name := site.Ornaments[k.Which].Name
		if h.count(name) > 1 || name == "grace" {
			return ""
		}
		return "house@" + block + " " + name + " " + explain.Fingers(k.Fingers)
	}
	var words []string
	say := func(text string) {
		if !slices.Contains(words, text) {
			words = append(words, text)
		}
	}
	for _, c := range o.Changes {
		e := &h.Score.Events[c.Event]
		for _, n := range e.Notes {
			if f := slices.Index(c.Stroke[:], n.String); f != h.Plan.Events[c.Event].Finger(n.String) {
				say("finger@" + block + "-" + strconv.Itoa(n.Written) + " " + strconv.Itoa(f+1))
			}
		}
		at := "@" + block + "-" + strconv.Itoa(e.Notes[0].Written)
		switch {
		case e.Forced || c.Event == 0 || c.Placed == h.Plan.Bounded(c.Event):
		case c.Placed:
			say("set" + at)
		default:
			say("stay" + at)
		}
	}
	return strings.Join(words, ";")
}

// count says on how many written notes an ornament of this name may sound.
func (h *Hand) count(name string) int {
	var notes []int
	for _, g := range h.Score.Gaps {
		for _, site := range g.Sites {
			for _, o := range site.Ornaments {
				if o.Name == name && o.Likelihood > 0 && !slices.Contains(notes, site.Written) {
					notes = append(notes, site.Written)
				}
			}
		}
	}
	return len(notes)
}

// mostBeside is how many ways are told beside one note (guess: more are not read).
const mostBeside = 6

// beside gives the cheapest ways that touch a note, for its panel.
func (h *Hand) beside(block string, written int) []draw.Way {
	var list []draw.Way
	for _, o := range h.known(h.near(), written) {
		if len(list) == mostBeside || !touches(&h.Score, &o, written) || !h.stands(&o) {
			continue
		}
		w := h.way(o)
		text := w.Line()
		if w.words.Toll != "" {
			text += " Against it: " + w.words.Toll + "."
		}
		if w.words.Tip != "" {
			text += " " + w.words.Tip
		}
		list = append(list, draw.Way{Near: o.Near, Text: text, Do: h.takes(block, &o)})
	}
	return list
}

// touches reports whether a way lies about a written note.
func touches(s *score.Score, o *plan.Other, written int) bool {
	about := func(e int) bool {
		return slices.ContainsFunc(s.Events[e].Notes, func(n score.Note) bool { return n.Written == written })
	}
	for e := o.From; e <= o.To; e++ {
		if about(e) {
			return true
		}
	}
	return slices.ContainsFunc(o.Changes, func(c plan.Change) bool { return about(c.Event) })
}
