package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
)

// chartTempos are the tempos of a chart, in crotchets a minute; the note is a
// crotchet (guesses: a slow air, a walking tune, a dance).
var chartTempos = [tempos]int{60, 100, 140}

const tempos = 3

// Chart is every ornament in every fingering that one hand allows, on a crotchet
// that is struck alone, at three tempos. A price is what note and ornament cost
// above the note without it, with the best finger.
type Chart struct {
	Rules  rule.Rules
	String int8        // of the note, from 0 at the lowest
	On     string      // its name, levers down: "C5"
	Tempos [tempos]int // crotchets a minute
	Rows   []Charted

	note Block // alone
}

// Charted is one ornament of a chart.
type Charted struct {
	Row    ornament.Row
	Lacks  bool         // the harp lacks a string for it
	Times  [tempos]bool // whether there is time for it
	Starts [4]Start     // by the finger of its note, 0 the thumb
}

// Start is how an ornament is played when its note has one finger.
type Start struct {
	Ready [tempos]plan.Readiness // of a hand set for the note alone
	Ways  []ChartWay             // the cheapest first
}

// ChartWay is one fingering of an ornament, from a hand that is set once.
type ChartWay struct {
	Fingers []int8            // 0 to 3, as they play, the note's own among them
	Prices  [tempos]plan.Cost // Unplayable where there is no time
	Free    []int             // the fingers in use that have nothing to do, 0 to 3
	Stops   []ornament.Stop   // those that come down on a string to silence it; strings are counted from the note
	Known   []ornament.Fingering
	House   bool // the house fingering of the course or of the reader, or one of two
}

// chart works a chart out for what was chosen, of the ornaments named; of all if
// none are.
func chart(c choice.Choice, names []string) *Chart {
	x := &Chart{Tempos: chartTempos, Rules: rule.Rules{Charges: rule.Usual(), Harp: c.Harp(), Hand: c.Hand("right"), Lifted: c.Lifted()}}
	x.String = chartString(x.Rules.Harp)
	x.On = x.Rules.Harp.Strings[x.String].Pitch.String()
	x.note = Read(chartTune(x.Rules.Harp) + chartNote(x.Rules.Harp.Strings[x.String].Pitch) + "\n")
	var plain [tempos]plan.Cost
	for i := range tempos {
		plain[i] = solve.Least(x.struck(c, i, 0, ""), x.Rules)
	}
	for _, row := range ornament.Rows() {
		if len(names) == 0 || slices.Contains(names, row.Name) {
			x.Rows = append(x.Rows, x.row(c, row, plain))
		}
	}
	return x
}

// chartString is the string a chart is about: C5, below which a string rings so
// long that it matters when it is struck again (rule.Ringing), or the nearest one
// with an octave on both sides; on a small harp the middle one.
func chartString(h harp.Harp) int8 {
	last := len(h.Strings) - 1
	at := 5*7 - h.Strings[0].Pitch.Step()
	if last < 14 {
		return int8(last / 2)
	}
	return int8(max(7, min(last-7, at)))
}

// struck is the score of the note alone at one of the tempos; with next, of it and
// of a note so many strings higher after it; with an ornament, that is there too if
// it can be, always.
func (x *Chart) struck(c choice.Choice, tempo int, next int8, name string) score.Score {
	b := x.note
	if next != 0 {
		h := x.Rules.Harp
		b = Read(chartTune(h) + chartNote(h.Strings[x.String].Pitch) + chartNote(h.Strings[x.String+next].Pitch) + "\n")
	}
	sentences := []string{"tempo 1/4=" + strconv.Itoa(x.Tempos[tempo])}
	if name != "" {
		sentences = append(sentences, "offer nothing", "offer "+name+"@1", name+"@1 always", name+"@1 on")
	}
	for _, s := range sentences {
		c, _ = choice.Do(c, s)
	}
	hand, _ := b.score(c, 0)
	return hand.given
}

// chartTune heads the tune of which a chart is worked out.
func chartTune(h harp.Harp) string { return "X:1\nM:4/4\nL:1/4\nK:" + h.Tuning + "\n" }

// chartNote writes a string in ABC (2.1, 4.1), in the key it is tuned in.
func chartNote(p pitch.Pitch) string {
	letter := pitch.Pitch{Letter: p.Letter}.Name()
	if p.Octave >= 5 {
		return strings.ToLower(letter) + strings.Repeat("'", int(p.Octave)-5)
	}
	return letter + strings.Repeat(",", 4-int(p.Octave))
}

// row charts one ornament.
func (x *Chart) row(c choice.Choice, row ornament.Row, plain [tempos]plan.Cost) Charted {
	r := Charted{Row: row, Lacks: x.lacks(row)}
	if r.Lacks {
		return r
	}
	period := 0
	if row.Repeat {
		period = 2 * len(row.Steps)
	}
	var before score.Score
	var found []plan.Alone
	var ready [4]plan.Readiness
	for i := range tempos {
		least := plain[i]
		if row.Next != 0 {
			least = solve.Least(x.struck(c, i, row.Next, ""), x.Rules)
		}
		s := x.struck(c, i, row.Next, row.Name)
		site := theSite(&s)
		if r.Times[i] = site != nil; site == nil {
			for f := range r.Starts {
				r.Starts[f].Ready[i] = plan.NoTime
			}
			continue
		}
		if i == 0 || !sameTimes(&s, &before) { // most take as long at any tempo
			found, ready = solve.Alone(s, x.Rules, period), x.ready(s)
		}
		before = s
		for _, way := range found {
			r.add(x, way, site, i, way.Cost-least)
		}
		for f := range r.Starts {
			r.Starts[f].Ready[i] = ready[f]
		}
	}
	for f := range r.Starts {
		source.Order(r.Starts[f].Ways, cheaper)
	}
	return r
}

// lacks reports whether an ornament needs a string that the harp does not have.
func (x *Chart) lacks(row ornament.Row) bool {
	for _, step := range append(slices.Clone(row.Steps), row.Next) {
		if at := int(x.String) + int(step); at < 0 || at >= len(x.Rules.Harp.Strings) {
			return true
		}
	}
	return false
}

// theSite finds the one site of a score with one ornament; nil if there is none.
func theSite(s *score.Score) *score.Site {
	for j := range s.Gaps {
		for k := range s.Gaps[j].Sites {
			return &s.Gaps[j].Sites[k]
		}
	}
	return nil
}

// sameTimes reports whether two scores with the same strings go equally fast.
func sameTimes(s, t *score.Score) bool {
	x, y := theSite(s), theSite(t)
	return x != nil && y != nil && x.Ornaments[0].Delay == y.Ornaments[0].Delay && slices.Equal(x.Ornaments[0].Strokes, y.Ornaments[0].Strokes) &&
		slices.EqualFunc(s.Events, t.Events, func(a, b score.Event) bool { return a.Since == b.Since })
}

// ready gives by the finger of the note how ready the hand is that is set for the
// note alone.
func (x *Chart) ready(s score.Score) (ready [4]plan.Readiness) {
	s.Gaps = slices.Clone(s.Gaps)
	for j := range s.Gaps {
		s.Gaps[j].Sites = slices.Clone(s.Gaps[j].Sites)
		for k := range s.Gaps[j].Sites {
			o := s.Gaps[j].Sites[k].Ornaments[0]
			o.Likelihood, o.On, o.House = score.Never, false, nil
			s.Gaps[j].Sites[k].Ornaments = []score.Ornament{o}
		}
	}
	s.Weigh()
	for f := range ready {
		ready[f] = plan.NoTime
		if !x.Rules.Hand.InUse[f] {
			continue
		}
		p, _ := solve.Plan(asked(s, 1, int8(f+1)), x.Rules)
		for _, g := range p.Gaps {
			for _, fits := range g.Fits {
				ready[f] = fits[0].Ready
			}
		}
	}
	return ready
}

// add puts a fingering among those of its finger, with its price at one tempo.
func (r *Charted) add(x *Chart, way plan.Alone, site *score.Site, tempo int, price plan.Cost) {
	main := 0
	if !site.After {
		main = (len(site.Ornaments[0].Strokes)) % len(way.Fingers)
	}
	start := &r.Starts[way.Fingers[main]]
	at := slices.IndexFunc(start.Ways, func(w ChartWay) bool { return slices.Equal(w.Fingers, way.Fingers) })
	if at < 0 {
		at = len(start.Ways)
		w := ChartWay{Fingers: way.Fingers, Prices: [tempos]plan.Cost{Unplayable, Unplayable, Unplayable}}
		for _, k := range written(r.Row) {
			if slices.Equal(shortest(k.Fingers, len(r.Row.Steps), r.Row.Repeat), way.Fingers) {
				w.Known = append(w.Known, k)
			}
		}
		busy := way.Frame
		for _, s := range r.stops(x, w.Known) {
			if w.Stops = append(w.Stops, s); s.Finger < 4 {
				busy[s.Finger] = x.String + s.Step
			}
		}
		for f, t := range busy {
			if t == hand.None && x.Rules.Hand.InUse[f] {
				w.Free = append(w.Free, f)
			}
		}
		for _, h := range site.Ornaments[0].House {
			w.House = w.House || slices.Equal(shortest(h, len(r.Row.Steps), r.Row.Repeat), way.Fingers)
		}
		start.Ways = append(start.Ways, w)
	}
	start.Ways[at].Prices[tempo] = price
}

// stops gives the fingers that come down on a string after an ornament, as the first
// says that wrote it down so, of those in use. What goes on and on stops nothing.
func (r *Charted) stops(x *Chart, known []ornament.Fingering) (list []ornament.Stop) {
	for _, k := range known {
		if r.Row.Repeat || len(list) > 0 {
			break
		}
		for _, s := range k.Stops {
			if s.Step += r.Row.Steps[0]; s.Step != 0 && x.Rules.Hand.InUse[min(s.Finger, 3)] { // the note is to ring
				list = append(list, s)
			}
		}
	}
	return list
}

// written gives the fingerings of an ornament that others have written down; of one
// that goes on and on as often as they are different, and of a long one.
func written(row ornament.Row) (list []ornament.Fingering) {
	steps := slices.Clone(row.Steps)
	for i := range steps {
		steps[i] -= row.Steps[0]
	}
	if !row.Repeat {
		return ornament.Fingerings(steps, row.Name)
	}
	for _, k := range ornament.Fingerings(slices.Repeat(steps, 2), row.Name) {
		if len(shortest(k.Fingers, len(row.Steps), true)) == len(k.Fingers) { // else it is a grace of its own
			list = append(list, k)
		}
	}
	return append(list, ornament.Fingerings(slices.Repeat(steps, 4), row.Name)...)
}

// shortest gives the fingers of one that goes on and on as often as they are
// different.
func shortest(fingers []int8, steps int, repeat bool) []int8 {
	for _, n := range [...]int{steps, 2 * steps} {
		if repeat && n < len(fingers) && slices.Equal(slices.Repeat(fingers[:n], len(fingers)/n+1)[:len(fingers)], fingers) {
			return fingers[:n]
		}
	}
	return fingers
}

// cheaper compares two fingerings by what they cost at the first tempo at which that
// differs; where it never does, one that others have written down comes first.
func cheaper(a, b ChartWay) int {
	for i := range a.Prices {
		if a.Prices[i] != b.Prices[i] {
			if a.Prices[i] < b.Prices[i] {
				return -1
			}
			return 1
		}
	}
	if known := len(a.Known) > 0; known != (len(b.Known) > 0) {
		if known {
			return -1
		}
		return 1
	}
	return slices.Compare(a.Fingers, b.Fingers)
}
