package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Variants says what may sound while one placing of a plan lasts, each stroke from
// that placing as it is set: by gap, from the one before its first note to the one
// after its last, every choice of what sounds there, nothing first. Gaps do not
// bear on each other, so any choices of theirs go together. Of ornaments of one
// site that ask the same only the first is among them.
func Variants(s score.Score, r rule.Rules, p *plan.Plan, placing int) [][]plan.Choice {
	pl := &p.Placings[placing]
	v := newSolver(s, r)
	defer v.rise()
	list := make([][]plan.Choice, 0, pl.Last-pl.First+2)
	for j := pl.First; j <= pl.Last+1; j++ {
		list = append(list, v.choices(p, j, placing))
	}
	return list
}

func (v *solver) choices(p *plan.Plan, j, placing int) []plan.Choice {
	pl, g := &p.Placings[placing], &v.s.Gaps[j]
	which := [2][]int8{{-1}, {-1}}
	for k, site := range g.Sites {
		if site.Event < pl.First || site.Event > pl.Last || k > 1 {
			continue
		}
		for i, o := range site.Ornaments {
			if !slices.ContainsFunc(site.Ornaments[:i], func(b score.Ornament) bool { return sameStrokes(&o, &b) }) {
				which[k] = append(which[k], int8(i))
			}
		}
	}
	list := []plan.Choice{{Gap: j, Sounds: [2]int8{-1, -1}}}
	for _, a := range which[0] {
		for _, b := range which[1] {
			if sounds := [2]int8{a, b}; a >= 0 || b >= 0 {
				if touches, ok := v.fromHere(p, j, placing, sounds); ok {
					list = append(list, plan.Choice{Gap: j, Sounds: sounds, Touches: touches})
				}
			}
		}
	}
	return list
}

// sameStrokes reports whether two ornaments sound the same.
func sameStrokes(a, b *score.Ornament) bool {
	return a.Delay == b.Delay && slices.Equal(a.Strokes, b.Strokes)
}

// fromHere plays a pattern as cheaply as it can be done with no other fingers than
// those of one placing, on the strings they have.
func (v *solver) fromHere(p *plan.Plan, j, placing int, sounds [2]int8) ([]plan.Touch, bool) {
	pattern := v.s.Sounding(j, sounds)
	o := v.open(j, []score.Pattern{{}, pattern})
	o.away = false
	left, right, stay := v.sides(p, o)
	if j > 0 && p.Events[j-1].Placing != placing {
		left.frame, left.set = hand.Empty(), 0
	}
	if j < len(p.Events) && p.Events[j].Placing != placing {
		right.frame, right.set = hand.Empty(), 0
	}
	var touches []plan.Touch
	_, ok := o.least(&pattern, left, right, stay, &touches)
	return touches, ok
}
