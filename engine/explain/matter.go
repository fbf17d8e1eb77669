package explain

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// matter is what some rules are about, as a teacher would say what another way
// brings with it, or would save.
type matter struct {
	rules []rule.ID
	more  string // "3 takes 12 more effort: the fourth finger"
	less  string // "It would save the fourth finger."
}

// matters hold every rule once.
var matters = [...]matter{
	{[]rule.ID{rule.NewPlacing, rule.Carried, rule.SameShape}, "setting the hand with no finger holding on", "setting the hand with no finger holding on"},
	{[]rule.ID{rule.PlacingTime}, "less time to set the hand", "setting the hand in haste"},
	{[]rule.ID{rule.WeakBeat}, "setting the hand off the beat", "setting the hand off the beat"},
	{[]rule.ID{rule.OneNote, rule.ThumbAlone}, "a placing for one note alone", "a placing for one note alone"},
	{[]rule.ID{rule.NoThumb}, "a placing without the thumb", "a placing without the thumb"},
	{[]rule.ID{rule.StretchComfortable, rule.StretchMost}, "a wider reach", "reaching so wide"},
	{[]rule.ID{rule.Cramped}, "fingers crowded together", "crowding the fingers"},
	{[]rule.ID{rule.FourthFinger}, "the fourth finger", "the fourth finger"},
	{[]rule.ID{rule.InPart}, "a chord taken in part", "taking a chord in part"},
	{[]rule.ID{rule.KeptThumb, rule.KeptFinger}, "a finger waiting for an ornament", "a finger waiting for an ornament"},
	{[]rule.ID{rule.AwayTime}, "haste in leaving for an ornament", "haste in leaving for an ornament"},
	{[]rule.ID{rule.SharedString}, "two fingers on one string", "two fingers on one string"},
	{[]rule.ID{rule.Back, rule.BackTime}, "a finger lower in the hand following on the same string", "a finger lower in the hand following on the same string"},
	{[]rule.ID{rule.ThumbSlide}, "a slide of the thumb", "a slide of the thumb"},
	{[]rule.ID{rule.Lift}, "a lift", "a lift"},
	{[]rule.ID{rule.LiftWay}, "a longer way for the hand", "some of the way the hand goes"},
	{[]rule.ID{rule.LiftTime}, "haste in moving the hand", "haste in moving the hand"},
	{[]rule.ID{rule.Repeat, rule.RepeatAfter, rule.TooFast}, "a finger back on its string too soon", "a finger back on its string too soon"},
	{[]rule.ID{rule.Ringing}, "touching a low string that still sounds", "touching a low string that still sounds"},
	{[]rule.ID{rule.Hop}, "a hasty hop", "a hasty hop"},
	{[]rule.ID{rule.UnderBy2, rule.UnderBy3, rule.UnderBy4, rule.OverFrom2, rule.OverFrom3, rule.OverFrom4, rule.CrossFar}, "a crossing", "a crossing"},
}

// settings is the matter of setting the hand, the first.
const settings = 0

// of finds the matter that each rule belongs to.
func matterOf() (of [rule.Count]int) {
	for m := range matters {
		for _, id := range matters[m].rules {
			of[id] = m
		}
	}
	return of
}

// few is a set of matters, a bit for each.
type few uint32

func (n few) has(m int) bool { return n&(1<<m) != 0 }

// only are the charges of the matters named; all others cost nothing.
func (n few) only(all rule.Charges) rule.Charges {
	for m := range matters {
		if !n.has(m) {
			for _, id := range matters[m].rules {
				all[id] = 0
			}
		}
	}
	return all
}

// weighed is what each matter costs more in one plan than in another, and the bar
// where most of that arises.
type weighed [len(matters)]struct {
	more plan.Cost
	bar  int
}

// weigh compares two plans of a score, matter by matter. Where much of a matter
// arises in the bar that is spoken of, it is that bar that is named.
func weigh(s *score.Score, r *rule.Rules, here int, than, p *plan.Plan) weighed {
	type part struct {
		matter, bar int
		more        plan.Cost
	}
	var parts []part
	of := matterOf()
	add := func(p *plan.Plan, sign plan.Cost) {
		for _, e := range entries(s, r, p) {
			parts = append(parts, part{of[e.rule], e.bar, sign * e.amount})
		}
	}
	add(p, 1)
	add(than, -1)
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Or(cmp.Compare(a.matter, b.matter), cmp.Compare(a.bar, b.bar)) })
	var w weighed
	var greatest [len(matters)]plan.Cost
	for i := 0; i < len(parts); {
		m, bar, more := parts[i].matter, parts[i].bar, plan.Cost(0)
		for ; i < len(parts) && parts[i].matter == m && parts[i].bar == bar; i++ {
			more += parts[i].more
		}
		w[m].more += more
		size := max(more, -more)
		if bar == here {
			size *= 2
		}
		if size > greatest[m] {
			greatest[m], w[m].bar = size, bar
		}
	}
	return w
}

// ranked lists the matters that cost more, the most first.
func (w *weighed) ranked() (list []int) {
	for m := range w {
		if w[m].more > 0 {
			list = append(list, m)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(w[b].more, w[a].more) })
	return list
}

// saved is the matter that costs most less, -1 if none is worth saying.
func (w *weighed) saved() int {
	best := -1
	for m := range w {
		if w[m].more <= -worthSaying && (best < 0 || w[m].more < w[best].more) {
			best = m
		}
	}
	return best
}
