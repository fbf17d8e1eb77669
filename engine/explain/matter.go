package explain

import (
	"cmp"
	"slices"
	"strconv"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// matter is what some rules are about, as a teacher would say what another way
// brings with it, or has over the one taken. Where a rule is only charged less or
// more, and not more or less often, the words are the graded ones, if there are any.
type matter struct {
	rules       []rule.ID
	more, less  string // "3 takes 12 more effort: the fourth finger. But the hand opens less."
	worse, ease string
}

// matters hold every rule once.
var matters = [...]matter{
	{rules: []rule.ID{rule.NewPlacing, rule.Carried, rule.SameShape}, more: "setting the hand with no finger holding on", less: "a finger holds on while the hand is set"},
	{rules: []rule.ID{rule.PlacingTime}, more: "less time to set the hand", less: "there is more time to set the hand"},
	{rules: []rule.ID{rule.WeakBeat}, more: "setting the hand off the beat", less: "it saves setting the hand off the beat",
		worse: "setting the hand on a weaker beat", ease: "the hand is set on a stronger beat"},
	{rules: []rule.ID{rule.OneNote}, more: "a placing for one note alone", less: "it saves a placing for one note alone"},
	{rules: []rule.ID{rule.ThumbAlone}, more: "one note alone for the thumb", less: "it saves one note alone for the thumb"},
	{rules: []rule.ID{rule.NoThumb}, more: "a placing without the thumb", less: "it saves a placing without the thumb"},
	{rules: []rule.ID{rule.StretchComfortable, rule.StretchMost}, more: "a wider reach", less: "the hand opens less"},
	{rules: []rule.ID{rule.Cramped}, more: "fingers crowded together", less: "the fingers have more room"},
	{rules: []rule.ID{rule.FourthFinger}, more: "the fourth finger", less: "it saves the fourth finger"},
	{rules: []rule.ID{rule.InPart}, more: "a chord taken in part", less: "it saves taking a chord in part"},
	{rules: []rule.ID{rule.KeptFinger}, more: "a finger kept ready for an ornament", less: "it saves keeping a finger ready for an ornament",
		worse: "another finger kept ready for an ornament", ease: "another finger is kept ready for the ornament"},
	{rules: []rule.ID{rule.AwayTime}, more: "haste in leaving for an ornament", less: "there is less haste in leaving for an ornament"},
	{rules: []rule.ID{rule.SharedString}, more: "two fingers on one string", less: "it saves two fingers on one string"},
	{rules: []rule.ID{rule.Back}, more: "a finger lower in the hand following on the same string", less: "it saves a finger lower in the hand following on the same string"},
	{rules: []rule.ID{rule.ThumbSlide}, more: "a slide of the thumb", less: "it saves a slide of the thumb"},
	{rules: []rule.ID{rule.Lift}, more: "a lift", less: "it saves a lift"},
	{rules: []rule.ID{rule.LiftWay}, more: "a longer way for the hand", less: "the hand has less far to go"},
	{rules: []rule.ID{rule.LiftTime}, more: "haste in moving the hand", less: "there is less haste in moving the hand"},
	{rules: []rule.ID{rule.Repeat, rule.RepeatAfter, rule.TooFast}, more: "a finger back on its string too soon", less: "it saves a finger coming back to its string too soon",
		worse: "a finger back on its string sooner", ease: "a finger has more time to come back to its string"},
	{rules: []rule.ID{rule.Ringing}, more: "touching a low string that still sounds", less: "it saves touching a low string that still sounds",
		worse: "touching a lower string that still sounds", ease: "the string that is touched while it sounds is a higher one"},
	{rules: []rule.ID{rule.Hop}, more: "a hasty hop", less: "it saves a hasty hop", worse: "a hastier hop", ease: "the hop is less hasty"},
	{rules: []rule.ID{rule.UnderBy2, rule.UnderBy3, rule.UnderBy4, rule.OverFrom2, rule.OverFrom3, rule.OverFrom4, rule.CrossFar, rule.CrossTime},
		more: "a crossing", less: "it saves a crossing", worse: "a harder crossing", ease: "the crossing is easier"},
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

// weighed is what each matter costs more in one plan than in another, how much
// oftener it is charged there, and the bar where most of it arises; and how many
// placings more there are.
type weighed struct {
	of       [len(matters)]weight
	rules    [rule.Count]plan.Cost
	placings int
	set      span // where the hand is set in the one and not in the other, if it is set oftener or less often
}

// span is where in a tune something is more than once: from one written bar to
// another, and how often these are played.
type span struct{ from, to, passes int }

// spans finds where the hand is set in one plan and not in another.
func spans(s *score.Score, than, p *plan.Plan) (x span) {
	var passes []int
	for i := range min(len(p.Events), len(than.Events)) {
		if n := &s.Events[i].Notes[0]; p.Bounded(i) && !than.Bounded(i) {
			if len(passes) == 0 {
				x.from, x.to = s.Events[i].Bar, s.Events[i].Bar
			}
			x.from, x.to = min(x.from, s.Events[i].Bar), max(x.to, s.Events[i].Bar)
			if !slices.Contains(passes, n.Pass) {
				passes = append(passes, n.Pass)
			}
		}
	}
	x.passes = len(passes)
	return x
}

// text says it where something else is spoken of: " in bars 3 to 5, both times
// together".
func (x span) text(here int) string {
	text, to := "", " to "
	if x.to == x.from+1 {
		to = " and "
	}
	switch {
	case x.passes == 0:
		return ""
	case x.from != x.to:
		text = " from " + bar(x.from) + " to " + bar(x.to)
		if x.from > 0 {
			text = " in bars " + strconv.Itoa(x.from) + to + strconv.Itoa(x.to)
		}
	case x.from != here:
		text = " in " + bar(x.from)
	}
	switch x.passes {
	case 1:
	case 2:
		text += ", both times together"
	default:
		text += ", every time together"
	}
	return text
}

// where says where most of a matter arises, unless it is in the bar that is spoken
// of; of placings that are counted, where all of them are.
func (w *weighed) where(m, here int) string {
	if m == settings && w.placings != 0 {
		x := w.set
		if w.placings == 1 || w.placings == -1 {
			x.passes = min(x.passes, 1) // one cannot be in two of them
		}
		return x.text(here)
	}
	return where(w.of[m].bar, here)
}

type weight struct {
	more  plan.Cost
	often int
	bar   int
}

// weigh compares two plans of a score, matter by matter. Where much of a matter
// arises in the bar that is spoken of, it is that bar that is named.
func weigh(s *score.Score, r *rule.Rules, here int, than, p *plan.Plan) weighed {
	w := weighed{placings: len(p.Placings) - len(than.Placings)}
	if w.placings > 0 {
		w.set = spans(s, than, p)
	} else if w.placings < 0 {
		w.set = spans(s, p, than)
	}
	type part struct {
		matter, bar int
		more        plan.Cost
	}
	var parts []part
	of := matterOf()
	add := func(p *plan.Plan, sign int) {
		for _, e := range entries(s, r, p) {
			m, more := of[e.rule], plan.Cost(sign)*e.amount
			parts = append(parts, part{m, e.bar, more})
			w.of[m].more += more
			w.of[m].often += sign * e.often
			w.rules[e.rule] += more
		}
	}
	add(p, 1)
	add(than, -1)
	source.Order(parts, func(a, b part) int { return cmp.Or(cmp.Compare(a.matter, b.matter), cmp.Compare(a.bar, b.bar)) })
	var greatest [len(matters)]plan.Cost
	for i := 0; i < len(parts); {
		m, bar, more := parts[i].matter, parts[i].bar, plan.Cost(0)
		for ; i < len(parts) && parts[i].matter == m && parts[i].bar == bar; i++ {
			more += parts[i].more
		}
		if w.of[m].more < 0 {
			more = -more
		}
		if bar == here {
			more *= 2
		}
		if more > greatest[m] {
			greatest[m], w.of[m].bar = more, bar
		}
	}
	return w
}

// ranked lists the matters that cost more, the most first.
func (w *weighed) ranked() (list []int) {
	for m := range w.of {
		if w.of[m].more > 0 {
			list = append(list, m)
		}
	}
	source.Order(list, func(a, b int) int { return cmp.Compare(w.of[b].more, w.of[a].more) })
	return list
}

// saved is the matter that costs most less, -1 if none is worth saying.
func (w *weighed) saved() int {
	best := -1
	for m := range w.of {
		if w.of[m].more <= -worthSaying && (best < 0 || w.of[m].more < w.of[best].more) {
			best = m
		}
	}
	return best
}

// brings says what a matter is that costs more: "one placing more".
func (w *weighed) brings(m int) string {
	switch {
	case m != settings && w.of[m].often <= 0 && matters[m].worse != "":
		return matters[m].worse
	case m != settings:
		return matters[m].more
	case w.placings == 1:
		return "one placing more"
	case w.placings > 1:
		return many(w.placings) + " placings more"
	case w.rules[rule.Carried] < 0:
		return matters[m].more
	case w.rules[rule.SameShape] < 0:
		return "giving up the shape of the hand"
	}
	return "leaving the strings for an ornament"
}

// saves says what there is for a matter that costs less: "it saves one placing".
func (w *weighed) saves(m int) string {
	switch {
	case m != settings && w.of[m].often >= 0 && matters[m].ease != "":
		return matters[m].ease
	case m != settings:
		return matters[m].less
	case w.placings == -1:
		return "it saves one placing"
	case w.placings < -1:
		return "it saves " + many(-w.placings) + " placings"
	case w.rules[rule.Carried] > 0:
		return matters[m].less
	case w.rules[rule.SameShape] > 0:
		return "the hand keeps its shape"
	}
	return "the hand need not leave the strings for an ornament"
}
