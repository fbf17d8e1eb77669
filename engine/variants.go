package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/draw"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/solve"
)

// Variants are the ways to play the notes of one placing, as its fingers are set,
// with at most one ornament on a note.
type Variants struct {
	First, Last string // ids of the first and the last of its notes
	Count       int    // how many ways there are, the plain one among them; mostCounted stands for more
	Tabs        string // "1 on E, 2 on D and 3 on C"
	Listed      []Variant
}

// Variant is one of them: by note of the placing, what is struck on it.
type Variant struct {
	Label string
	Notes [][]Struck
}

// Struck is one stroke: its string as it sounds, its finger, 1 to 4, and whether it
// is an ornament's.
type Struck struct {
	Name   string
	Finger int
	Grace  bool
}

// How many ways are listed, how many of them with one ornament, and how many
// counted (guesses: more are not read, and more is only much).
const (
	mostListed  = 10
	mostAlone   = 8
	mostCounted = 1000
)

// variants finds the ways to play one placing: each ornament by itself, then
// together those that stand in the tune, and then whatever goes with what.
func (f *finder) variants(placing int) Variants {
	pl := &f.plan.Placings[placing]
	choices := solve.Variants(f.score, f.hand.Rules, &f.plan, placing)
	v := Variants{First: f.score.Events[pl.First].Notes[0].ID(), Last: f.score.Events[pl.Last].Notes[0].ID(), Tabs: f.tabs(placing)}
	v.Count = f.countWays(choices, pl.First)
	plain := make([]int, len(choices))
	v.Listed = append(v.Listed, f.variant(pl, choices, plain))
	most := mostAlone
	add := func(taken []int) (more bool) {
		if len(v.Listed) < most {
			v.Listed = append(v.Listed, f.variant(pl, choices, taken))
		}
		return len(v.Listed) < most
	}
	for _, prepared := range [...]bool{true, false} {
		for i := 1; i < longest(choices); i++ { // something on each note before more on one
			for g, list := range choices {
				taken := slices.Clone(plain)
				if taken[g] = i; i < len(list) && many(&list[i]) == 1 && f.prepared(choices, taken) == prepared {
					add(taken)
				}
			}
		}
	}
	most = mostListed
	_ = f.together(choices, plain, 0, 0, true, add) && f.together(choices, plain, 0, 0, false, add)
	return v
}

// longest is how many choices there are where there are most.
func longest(choices [][]plan.Choice) (n int) {
	for _, list := range choices {
		n = max(n, len(list))
	}
	return n
}

// many counts the ornaments of a choice.
func many(c *plan.Choice) (n int) {
	for _, which := range c.Sounds {
		if which >= 0 {
			n++
		}
	}
	return n
}

// together lists what has two ornaments and more, as long as more are wanted:
// where prepared is set, those of nothing but what is prepared, else the others.
func (f *finder) together(choices [][]plan.Choice, taken []int, from, sounding int, prepared bool, found func([]int) bool) (more bool) {
	if from == len(choices) {
		return sounding < 2 || f.prepared(choices, taken) != prepared || f.crowded(choices, taken) || found(taken)
	}
	if !f.together(choices, taken, from+1, sounding, prepared, found) {
		return false
	}
	for i := 1; i < len(choices[from]); i++ {
		with := slices.Clone(taken)
		with[from] = i
		if (!prepared || f.prepared(choices, with)) && !f.together(choices, with, from+1, sounding+many(&choices[from][i]), prepared, found) {
			return false
		}
	}
	return true
}

// sounds reports whether a choice has an ornament on an event.
func (f *finder) sounds(c *plan.Choice, event int) bool {
	for k, which := range c.Sounds {
		if which >= 0 && f.score.Gaps[c.Gap].Sites[k].Event == event {
			return true
		}
	}
	return false
}

// countWays counts what goes together: by gap, the ways in which its next note has
// an ornament, and in which it has none.
func (f *finder) countWays(choices [][]plan.Choice, first int) int {
	with, without := 0, 1
	for g, list := range choices {
		var now [2]int
		for i := range list {
			c := &list[i]
			ways := without
			if !f.sounds(c, first+g-1) {
				ways += with
			}
			at := 0
			if f.sounds(c, first+g) {
				at = 1
			}
			now[at] = min(now[at]+ways, mostCounted)
		}
		without, with = now[0], now[1]
	}
	return min(with+without, mostCounted)
}

// crowded reports whether two ornaments are on one note.
func (f *finder) crowded(choices [][]plan.Choice, taken []int) bool {
	for g := 1; g < len(choices); g++ {
		event := choices[g][0].Gap - 1
		if f.sounds(&choices[g-1][taken[g-1]], event) && f.sounds(&choices[g][taken[g]], event) {
			return true
		}
	}
	return false
}

// prepared reports whether all that sounds is prepared in the tune.
func (f *finder) prepared(choices [][]plan.Choice, taken []int) bool {
	for g, i := range taken {
		c := &choices[g][i]
		for k, which := range c.Sounds {
			if which >= 0 && f.score.Gaps[c.Gap].Sites[k].Ornaments[which].Likelihood == 0 {
				return false
			}
		}
	}
	return true
}

// variant writes one out.
func (f *finder) variant(pl *plan.Placing, choices [][]plan.Choice, taken []int) Variant {
	v := Variant{Notes: make([][]Struck, pl.Last-pl.First+1)}
	var labels []string
	for e := pl.First; e <= pl.Last; e++ {
		note := &v.Notes[e-pl.First]
		labels = append(labels, f.strokes(&choices[e-pl.First][taken[e-pl.First]], e, note)...)
		var names []string
		var fingers []int
		for _, n := range f.score.Events[e].Notes {
			names, fingers = append(names, n.Name(f.score)), append(fingers, f.plan.Events[e].Finger(n.String)+1)
		}
		for i := range names {
			*note = append(*note, Struck{Name: names[i], Finger: fingers[i]})
		}
		after := e - pl.First + 1
		labels = append(labels, f.strokes(&choices[after][taken[after]], e, note)...)
	}
	v.Label = strings.Join(labels, ", ")
	if v.Label == "" {
		v.Label = "plain"
	}
	return v
}

// strokes adds those of a choice that belong to an event, and says what they are.
func (f *finder) strokes(c *plan.Choice, event int, note *[]Struck) (labels []string) {
	n := 0
	for k, which := range c.Sounds {
		if which < 0 {
			continue
		}
		site := f.score.Gaps[c.Gap].Sites[k]
		o := &site.Ornaments[which]
		if site.Event == event {
			labels = append(labels, o.Title+" on "+f.call()(event, false))
			for i, stroke := range o.Strokes {
				*note = append(*note, Struck{f.score.Name(stroke.String), int(c.Touches[n+i].Finger) + 1, true})
			}
		}
		n += len(o.Strokes)
	}
	return labels
}

// tabs says which fingers the placing has set, and which may drop in.
func (f *finder) tabs(placing int) string {
	pl := &f.plan.Placings[placing]
	var words []string
	for finger, t := range pl.Frame {
		if t != hand.None {
			words = append(words, strconv.Itoa(finger+1)+" on "+f.score.Name(t))
		}
	}
	return strings.Join(words, ", ")
}

// count says how many ways there are.
func (v *Variants) count() string {
	switch {
	case v.Count == 1:
		return "From here the notes of this placing can be played plain, and in no other way."
	case v.Count >= mostCounted:
		return "There are more than " + strconv.Itoa(mostCounted-1) + " ways to play these notes from this one placing."
	}
	return "There are " + strconv.Itoa(v.Count) + " ways to play these notes from this one placing."
}

// left says how many ways are not listed.
func (v *Variants) left() string {
	if v.Count == mostCounted || v.Count == len(v.Listed) {
		return ""
	}
	return "And " + strconv.Itoa(v.Count-len(v.Listed)) + " more, of the same put together."
}

// drawn is what a page shows of them; nil where there is but one way.
func (v *Variants) drawn() *draw.Variants {
	if v.Count < 2 {
		return nil
	}
	d := draw.Variants{Count: v.count(), Tabs: v.Tabs, Left: v.left()}
	for _, x := range v.Listed {
		row := draw.Variant{Label: x.Label}
		for _, note := range x.Notes {
			var struck []draw.Struck
			for _, s := range note {
				struck = append(struck, draw.Struck{Name: s.Name, Finger: strconv.Itoa(s.Finger), Grace: s.Grace})
			}
			row.Notes = append(row.Notes, struck)
		}
		d.Rows = append(d.Rows, row)
	}
	return &d
}

// text writes them for plan.
func (v *Variants) text() string {
	var b strings.Builder
	b.WriteString(v.count() + " (" + v.Tabs + ")\n")
	if v.Count < 2 {
		return b.String()
	}
	widths, label := make([]int, len(v.Listed[0].Notes)), 0
	for _, x := range v.Listed {
		label = max(label, len(x.Label))
		for i, note := range x.Notes {
			widths[i] = max(widths[i], len(strokesOn(note)))
		}
	}
	for _, x := range v.Listed {
		line := "  " + x.Label + strings.Repeat(" ", label-len(x.Label)+2)
		for i, note := range x.Notes {
			line += strokesOn(note) + strings.Repeat(" ", widths[i]-len(strokesOn(note))+2)
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	if left := v.left(); left != "" {
		b.WriteString("  " + left + "\n")
	}
	return b.String()
}

// strokesOn writes the strokes on one note: "(E5 1) D5 2".
func strokesOn(note []Struck) string {
	var words []string
	for _, s := range note {
		word := s.Name + " " + strconv.Itoa(s.Finger)
		if s.Grace {
			word = "(" + word + ")"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}
