package explain

import (
	"cmp"
	"slices"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/source"
)

// stopInTime ends all that is said in care of the player.
const stopInTime = " Rest often, and never play through pain: at its first sign stop, and ask your teacher or a health professional."

// care says where a plan asks much of the hand, and how to be kind to it. No
// source gives a limit in numbers, so none is said; studies only agree that
// pain is common among harpists.
func (t *teller) care() {
	for _, text := range [...]string{t.wide(), t.quick(), t.turns()} {
		if text != "" {
			t.out = append(t.out, Sentence{Kind: Care, Event: -1, Text: text})
		}
	}
	if n := len(t.out); n > 0 && t.out[n-1].Kind == Care {
		t.out[n-1].Text += stopInTime
	}
}

// wide says between which fingers the hand opens wide, and in which bars.
func (t *teller) wide() string {
	bars, chord := [4][4][]int{}, false
	bill := plan.Sum(t.s, t.r, t.p, plan.Silent(t.s), true)
	for i, item := range bill.Items {
		b, ok := t.barOf(bill.Places[i])
		if !ok || item.Rule != rule.StretchMost {
			continue
		}
		t.pairs(bill.Places[i], func(f, g int, together bool) {
			bars[f][g], chord = append(bars[f][g], b), chord || together
		})
	}
	var words []string
	for _, pair := range hand.Pairs() {
		if at := bars[pair[0]][pair[1]]; len(at) > 0 {
			words = append(words, "between "+number(pair[1])+" and "+number(pair[0])+" in "+within(at))
		}
	}
	switch {
	case len(words) == 0:
		return ""
	case chord:
		return "The hand opens wide " + strings.Join(words, "; ") + ". Open it slowly and never force it; let the low finger go first, and roll a chord where that is kinder."
	}
	return "The hand opens wide " + strings.Join(words, "; ") + ". Open it slowly and never force it; let the low finger go first."
}

// pairs gives the fingers that are farther apart at a place than is comfortable, and
// whether they play together there.
func (t *teller) pairs(at plan.Place, found func(f, g int, together bool)) {
	from, to, first, last := hand.Empty(), hand.Empty(), 0, -1
	switch {
	case at.Placing >= 0:
		pl := &t.p.Placings[at.Placing]
		from, to, first, last = pl.Frame, pl.Frame, pl.First, pl.Last
	case at.Gap > 0 && at.Gap < len(t.p.Events):
		from, to = t.p.Events[at.Gap-1].Stroke, t.p.Events[at.Gap].Stroke
	}
	for _, pair := range hand.Pairs() {
		f, g := pair[0], pair[1]
		apart := func(high, low int8) bool {
			return high != hand.None && low != hand.None && t.s.Harp.Distance(high, low) > t.r.Hand.Limits[f][g].Comfortable
		}
		if apart(from[f], to[g]) || apart(to[f], from[g]) {
			found(f, g, slices.ContainsFunc(t.p.Events[first:last+1], func(e plan.Event) bool {
				return e.Stroke[f] != hand.None && e.Stroke[g] != hand.None
			}))
		}
	}
}

// quick says in which bars one finger repeats quickly.
func (t *teller) quick() string {
	var bars []int
	bill := plan.Sum(t.s, t.r, t.p, plan.Silent(t.s), true)
	for i, item := range bill.Items {
		switch item.Rule {
		case rule.Repeat, rule.RepeatAfter, rule.TooFast:
			if b, ok := t.barOf(bill.Places[i]); ok {
				bars = append(bars, b)
			}
		}
	}
	if len(bars) == 0 {
		return ""
	}
	return "One finger repeats quickly in " + within(bars) + ". Practise it in small pieces at an easy tempo, and let the hand be loose between them."
}

// turns says in which bars two fingers take turns for the whole of a note: nothing
// in the catalogue tires a hand sooner (common practice, no source).
func (t *teller) turns() string {
	title := ""
	var bars []int
	for j, g := range t.s.Gaps {
		for i, site := range g.Sites {
			for k, o := range site.Ornaments {
				row, _ := ornament.Named(o.Name)
				if row.Repeat && (o.On || o.Written || o.Likelihood > 0) && t.fit(j, i, k).Ready != plan.NoTime {
					title, bars = o.Title, append(bars, t.s.Events[site.Event].Bar)
				}
			}
		}
	}
	if len(bars) == 0 {
		return ""
	}
	return "Two fingers take quick turns for the " + title + " in " + within(bars) + ", which tires the hand: make it shorter, or change to other fingers."
}

// barsNamed is how many bars are named before the rest are counted (guess: more are
// not looked up).
const barsNamed = 12

// within names bars, each once, in their order: "bar 2", "the pickup and bars 2, 3
// and 5".
func within(bars []int) string {
	bars = slices.Clone(bars)
	source.Order(bars, cmp.Compare)
	bars = slices.Compact(bars)
	pickup := ""
	if bars[0] == 0 {
		if pickup, bars = bar(0), bars[1:]; len(bars) == 0 {
			return pickup
		}
		pickup += " and "
	}
	if len(bars) == 1 {
		return pickup + bar(bars[0])
	}
	words := numbers(bars)
	if n := len(words) - barsNamed; n > 1 {
		words = append(words[:barsNamed], many(n)+" more")
	}
	return pickup + "bars " + list(words)
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
