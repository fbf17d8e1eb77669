package explain

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/source"
)

// strain lists the rules that mean care is due, and how to say it.
var strain = []struct {
	rules []rule.ID
	first string
	then  string
}{
	{[]rule.ID{rule.StretchMost}, "The hand opens wide in ", "Open it slowly; let the low finger go first, and roll a chord where that is kinder."},
	{[]rule.ID{rule.Repeat, rule.RepeatAfter, rule.TooFast}, "One finger repeats quickly in ", "Practise it in small pieces at an easy tempo, and let the hand be loose between them."},
}

// care says where a plan asks much of the hand, and how to be kind to it. No
// source gives a limit in numbers, so none is said; studies only agree that
// pain is common among harpists.
func (t *teller) care() {
	bill := plan.Sum(t.s, t.r, t.p, plan.Silent(t.s), true)
	for _, x := range strain {
		var at []int
		for i, item := range bill.Items {
			b, ok := t.barOf(bill.Places[i])
			if ok && oneOf(item.Rule, x.rules) {
				at = append(at, b)
			}
		}
		source.Order(at, cmp.Compare)
		var bars []string
		for _, b := range slices.Compact(at) {
			bars = append(bars, bar(b))
		}
		if len(bars) == 0 {
			continue
		}
		if len(bars) > 4 {
			bars = append(bars[:3], "other bars")
		}
		t.out = append(t.out, Sentence{Kind: Care, Event: -1,
			Text: x.first + list(bars) + ". " + x.then + " Never force a stretch and rest often; at the first sign of pain stop, and ask your teacher or a health professional."})
	}
}

func oneOf(id rule.ID, ids []rule.ID) bool {
	for _, x := range ids {
		if x == id {
			return true
		}
	}
	return false
}

// barOf finds the written bar of a place on a bill.
func (b *teller) barOf(at plan.Place) (int, bool) {
	event := at.Gap
	if at.Placing >= 0 && at.Placing < len(b.p.Placings) {
		event = b.p.Placings[at.Placing].First
	}
	event = min(event, len(b.s.Events)-1)
	if event < 0 {
		return 0, false
	}
	return b.s.Events[event].Bar, true
}
