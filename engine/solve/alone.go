package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Alone gives every way to finger one ornament from a hand that is set once, and
// what the score costs with it: exactly that fingering asked for, and always
// sounding. The score has one ornament in all. Where period is more than 0 its
// strokes, the note among them, are fingered alike after so many: those of a trill.
// Ways that there is no time for are left out.
func Alone(s score.Score, r rule.Rules, period int) []plan.Alone {
	j, k := only(&s)
	if j < 0 {
		return nil
	}
	site := s.Gaps[j].Sites[k]
	strings, _ := struck(&s, site, site.Ornaments[0])
	a := alone{s: s, r: r, gap: j, site: k, strings: strings, period: period}
	if period == 0 || period > len(strings) {
		a.period = len(strings)
	}
	a.choose(hand.Empty(), nil)
	return a.found
}

// only finds the one ornament of a score; the gap is -1 if it has none.
func only(s *score.Score) (gap, site int) {
	for j, g := range s.Gaps {
		for k := range g.Sites {
			if len(g.Sites[k].Ornaments) == 1 {
				return j, k
			}
		}
	}
	return -1, -1
}

// struck lists the strings of an ornament and its note, as they are played, and
// which of them is the note.
func struck(s *score.Score, site score.Site, o score.Ornament) (strings []int8, main int) {
	for _, stroke := range o.Strokes {
		strings = append(strings, stroke.String)
	}
	if main = len(strings); site.After {
		main = 0
	}
	return slices.Insert(strings, main, s.Adorned(site)), main
}

// alone is the search for them.
type alone struct {
	s         score.Score
	r         rule.Rules
	gap, site int
	strings   []int8
	period    int
	found     []plan.Alone
}

// choose fingers one stroke after the other: each by any finger that can be on its
// string beside those that are on theirs.
func (a *alone) choose(frame hand.Frame, fingers []int8) {
	n := len(fingers)
	if n == a.period {
		a.price(frame, fingers)
		return
	}
	for f := range int8(4) {
		if a.r.Hand.Takes(a.r.Harp, frame, int(f), a.strings[n]) {
			with := frame
			with[f] = a.strings[n]
			a.choose(with, append(slices.Clone(fingers), f))
		}
	}
}

// price solves the score with one fingering.
func (a *alone) price(frame hand.Frame, fingers []int8) {
	if half := len(fingers) / 2; a.period < len(a.strings) && slices.Equal(fingers[:half], fingers[half:]) {
		fingers = fingers[:half]
	}
	v := newSolver(a.s, a.r)
	defer v.rise()
	g := &v.s.Gaps[a.gap]
	g.Sites = slices.Clone(g.Sites)
	o := g.Sites[a.site].Ornaments[0]
	o.Likelihood, o.On = score.Always, true
	o.House = [][]int8{slices.Repeat(fingers, len(a.strings)/len(fingers)+1)[:len(a.strings)]}
	g.Sites[a.site].Ornaments = []score.Ornament{o}
	v.s.WeighGap(a.gap)
	if v.forward(); len(v.dropped) == 0 && v.best().cost < most {
		a.found = append(a.found, plan.Alone{Fingers: fingers, Frame: frame, Cost: plan.Cost(v.best().cost)})
	}
}
