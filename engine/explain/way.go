package explain

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// Way is another way to play a part of a tune, in words.
type Way struct {
	Where  string // "Bar 2, from the first C to the A"
	Now    string // how it is fingered here: "3 2 | 1"
	Was    string // how it is in the plan shown
	Effort string // what it costs more, in whole charges: "12"
	Buys   string // "no fourth finger"; what it has that the plan shown has not, "" if nothing
	Toll   string // "the hand comes off the strings": what most speaks against it; "" if nothing does
	Tip    string // of a near-tie: "With 2 on the D before it, this is the easier way."; "" if nothing beside it makes it so
}

// Another tells another way; whole is the complete plan with it.
func Another(s *score.Score, r *rule.Rules, shown *plan.Plan, o *plan.Other, whole *plan.Plan) Way {
	b := newBook(s)
	w := Way{Where: b.stretch(o.From, o.To), Effort: Effort(o.Extra)}
	w.Now, w.Was = b.differing(shown, whole, o)
	gains := gained(s, r, shown, whole, o)
	w.Buys, w.Toll = b.buys(r, shown, whole, o, &gains), toll(&gains)
	if o.Tip != nil {
		w.Tip = "With " + Digits(s, &plan.Plan{Events: tipped(s, o.Tip)}, o.Tip.Event, o.Tip.Event) + " on " + b.short(o.Tip.Event, len(s.Events[o.Tip.Event].Notes)-1)
		if len(s.Events[o.Tip.Event].Notes) > 1 {
			w.Tip = "With " + Digits(s, &plan.Plan{Events: tipped(s, o.Tip)}, o.Tip.Event, o.Tip.Event) + " on the chord"
		}
		where := " before it"
		if o.Tip.Event > o.To {
			where = " after it"
		}
		w.Tip += where + ", this is the easier way."
	}
	return w
}

// tipped are the events of a plan of which only the one of a tip matters.
func tipped(s *score.Score, t *plan.Tip) []plan.Event {
	events := make([]plan.Event, len(s.Events))
	events[t.Event].Stroke = t.Stroke
	return events
}

// stretch names the notes from one event to another: "Bar 2, the C", "Bar 2, from
// the C to the A", "From the C in bar 2 to the A in bar 3".
func (b *book) stretch(from, to int) string {
	x, y := &b.s.Events[from], &b.s.Events[to]
	first, last := b.event(from), b.event(to)
	if pass := x.Notes[0].Pass; pass > 1 {
		first += ", " + ordinal(pass) + " time,"
	}
	switch {
	case from == to:
		return capital(bar(x.Bar)) + ", " + first
	case x.Bar == y.Bar:
		return capital(bar(x.Bar)) + ", from " + first + " to " + last
	}
	return "From " + first + " in " + bar(x.Bar) + " to " + last + " in " + bar(y.Bar)
}

// event names what an event plays.
func (b *book) event(i int) string {
	if len(b.s.Events[i].Notes) > 1 {
		return "the chord on " + b.short(i, 0)
	}
	return b.short(i, 0)
}

// Digits writes the fingers of events from one to another as a fingering is
// written: "3 2 1 | 4+2+1". The first has a bar line before it only where the
// hand is set there and the plan tells of placings.
func Digits(s *score.Score, p *plan.Plan, from, to int) string {
	var words []string
	for i := from; i <= to; i++ {
		if len(p.Placings) > 0 && p.Bounded(i) && i > 0 {
			words = append(words, "|")
		}
		var fingers []string
		for _, n := range s.Events[i].Notes {
			fingers = append(fingers, strconv.Itoa(p.Events[i].Finger(n.String)+1))
		}
		words = append(words, strings.Join(fingers, "+"))
	}
	return strings.Join(words, " ")
}

// differing gives the fingers of a way and of the plan shown. Where both set the
// hand at the first note, or neither does, that is not said. An ornament's own
// fingers, its note included, are added, or stand alone where no written note has
// another.
func (b *book) differing(shown, whole *plan.Plan, o *plan.Other) (now, was string) {
	now, was = Digits(b.s, whole, o.From, o.To), Digits(b.s, shown, o.From, o.To)
	a, aPlaced := strings.CutPrefix(now, "| ")
	c, cPlaced := strings.CutPrefix(was, "| ")
	if aPlaced == cPlaced {
		now, was = a, c
	}
	k := o.Known
	if k == nil || k.Gap < 0 {
		return now, was
	}
	own := Fingers(k.Fingers) + " for the " + b.s.Gaps[k.Gap].Sites[k.Site].Ornaments[k.Which].Title
	if now == was {
		return own, Fingers(b.ornament(shown, k))
	}
	return now + ", with " + own, was
}

// ornament gives the fingers of an ornament and its note in a plan, in played order.
func (b *book) ornament(p *plan.Plan, k *plan.Known) []int8 {
	site := b.s.Gaps[k.Gap].Sites[k.Site]
	fit := (&teller{book: b, p: p}).fit(k.Gap, k.Site, k.Which)
	var own []int8
	for _, touch := range fit.Touches {
		own = append(own, touch.Finger)
	}
	at := len(own)
	if site.After {
		at = 0
	}
	return slices.Insert(own, at, int8(p.Events[site.Event].Finger(b.s.Adorned(site))))
}

// gain is what a rule charges less in the other way, and whether it still charges
// anything in the bars that it changes.
type gain struct {
	amount plan.Cost
	still  bool
}

// gained compares two bills, rule by rule.
func gained(s *score.Score, r *rule.Rules, shown, whole *plan.Plan, o *plan.Other) (list [rule.Count]gain) {
	var here []int
	for _, c := range o.Changes {
		here = append(here, s.Events[c.Event].Bar, s.Events[whole.Placings[whole.Events[c.Event].Placing].First].Bar)
	}
	for _, e := range entries(s, r, shown) {
		list[e.rule].amount += e.amount
	}
	for _, e := range entries(s, r, whole) {
		list[e.rule].amount -= e.amount
		list[e.rule].still = list[e.rule].still || slices.Contains(here, e.bar)
	}
	return list
}

// ranked lists the rules whose bills differ enough to be told, the greatest
// difference first.
func ranked(gains *[rule.Count]gain) []rule.ID {
	var ids []rule.ID
	for id, g := range gains {
		if g.amount >= worthSaying || g.amount <= -worthSaying {
			ids = append(ids, rule.ID(id))
		}
	}
	size := func(id rule.ID) plan.Cost { return max(gains[id].amount, -gains[id].amount) }
	source.Order(ids, func(a, b rule.ID) int { return cmp.Compare(size(b), size(a)) })
	return ids
}

// worthSaying is the least difference that is told (guess).
const worthSaying = plan.Charge / 2

// toll is what most speaks against a way: a rule that charges more, and with it
// all that are about the same thing.
func toll(gains *[rule.Count]gain) string {
	for _, id := range ranked(gains) {
		together := placingRules
		for _, topic := range topics {
			if slices.Contains(topic.rules, id) {
				together = topic.rules
			}
		}
		if gains[id].amount < 0 && of(gains, together) <= -worthSaying {
			return rule.Rows()[id].Sentence
		}
	}
	return ""
}

// topics are what a way may buy: the rules that charge less, what is said where
// nothing of it is left in the bars that change, and what where something is.
var topics = []struct {
	rules      []rule.ID
	none, less string
}{
	{[]rule.ID{rule.FourthFinger}, "no fourth finger", "the fourth finger less often"},
	{[]rule.ID{rule.OneNote}, "no placing for one note alone", "fewer placings for one note alone"},
	{[]rule.ID{rule.ThumbAlone}, "no note for the thumb alone", "fewer notes for the thumb alone"},
	{[]rule.ID{rule.NoThumb}, "the thumb has its part in every group of notes", "the thumb has its part in more of the groups"},
	{[]rule.ID{rule.StretchComfortable, rule.StretchMost}, "the hand stays closed", "the hand opens less"},
	{[]rule.ID{rule.Cramped}, "no cramped fingers", "more room for the fingers"},
	{[]rule.ID{rule.InPart}, "the chord held at once", "fewer chords taken in part"},
	{[]rule.ID{rule.KeptFinger}, "no finger waits on a string", "fewer fingers wait on a string"},
	{[]rule.ID{rule.AwayTime}, "no haste to leave for an ornament", "less haste to leave for an ornament"},
	{[]rule.ID{rule.SharedString}, "no two fingers on one string", "fewer fingers on one string"},
	{[]rule.ID{rule.Back}, "no lower finger has to follow on the same string", "a lower finger follows less often on the same string"},
	{[]rule.ID{rule.ThumbSlide}, "no slide", "fewer slides"},
	{[]rule.ID{rule.Lift}, "no lift", "fewer lifts"},
	{[]rule.ID{rule.LiftWay}, "a shorter way for the hand", "a shorter way for the hand"},
	{[]rule.ID{rule.LiftTime, rule.PlacingTime}, "time to place the hand", "more time to place the hand"},
	{[]rule.ID{rule.WeakBeat}, "the hand is placed on the beat", "more of the placings on the beat"},
	{[]rule.ID{rule.Repeat, rule.RepeatAfter, rule.TooFast}, "no finger repeats in haste", "fewer hasty repeats"},
	{[]rule.ID{rule.Ringing}, "no finger comes down on a low string that still sounds", "a finger comes down less often on a low string that still sounds"},
	{[]rule.ID{rule.Hop}, "no hasty hop", "less haste to hop"},
	{[]rule.ID{rule.UnderBy2, rule.UnderBy3, rule.UnderBy4, rule.OverFrom2, rule.OverFrom3, rule.OverFrom4}, "no crossing", "an easier crossing"},
	{[]rule.ID{rule.CrossFar}, "no wide crossing", "fewer wide crossings"},
	{[]rule.ID{rule.CrossTime}, "no hasty crossing", "less haste to cross"},
}

// placingRules charge what setting the hand costs.
var placingRules = []rule.ID{rule.NewPlacing, rule.Carried, rule.SameShape}

// AsGood is what a way buys that is as good, where no rule speaks for it. One that only
// costs more buys nothing, and nothing is said.
const AsGood = "as good: take the one that lies better"

// mostBuys is how many things are said that a way buys.
const mostBuys = 2

// buys says what a way has that the plan shown has not: where the hand is set, if
// that is another place with more time; how many placings fewer; then the rules
// that charge less, and whether the thumb stays free.
func (b *book) buys(r *rule.Rules, shown, whole *plan.Plan, o *plan.Other, gains *[rule.Count]gain) string {
	var words []string
	add := func(text string) {
		if text != "" && len(words) < mostBuys && !slices.Contains(words, text) {
			words = append(words, text)
		}
	}
	add(b.free(shown, whole, o))
	add(b.later(shown, whole, o))
	if n := len(shown.Placings) - len(whole.Placings); n == 1 {
		add("one placing fewer")
	} else if n > 1 {
		add(many(n) + " placings fewer")
	} else if of(gains, placingRules) >= worthSaying {
		add("a finger holds while the others are set")
	}
	for _, id := range ranked(gains) {
		for _, topic := range topics {
			if gains[id].amount > 0 && slices.Contains(topic.rules, id) && of(gains, topic.rules) >= worthSaying {
				if still(gains, topic.rules) {
					add(topic.less)
				} else {
					add(topic.none)
				}
			}
		}
	}
	text := list(words)
	if k := o.Known; k != nil && k.Name != "" {
		text += "; it is " + k.Name + " (" + k.Source + ")"
	}
	if o.Known != nil {
		t := &teller{book: b, r: r, p: whole}
		for _, stop := range t.stopsOf(o.Known) {
			text += "; " + t.stopped(&stop)
		}
	}
	if text == "" && o.Extra == 0 {
		return AsGood
	}
	return strings.TrimPrefix(text, "; ")
}

// of adds up what some rules charge less.
func of(gains *[rule.Count]gain, rules []rule.ID) (sum plan.Cost) {
	for _, id := range rules {
		sum += gains[id].amount
	}
	return sum
}

func still(gains *[rule.Count]gain, rules []rule.ID) bool {
	return slices.ContainsFunc(rules, func(id rule.ID) bool { return gains[id].still })
}

// free says that the thumb, which the plan shown uses here, stays free for the
// next note, if it takes that and it is a higher one.
func (b *book) free(shown, whole *plan.Plan, o *plan.Other) string {
	next := o.To + 1
	if next >= len(b.s.Events) || whole.Events[next].Stroke[0] == hand.None {
		return ""
	}
	used := false
	for i := o.From; i <= o.To; i++ {
		if whole.Events[i].Stroke[0] != hand.None || b.s.Events[i].Notes[len(b.s.Events[i].Notes)-1].String >= whole.Events[next].Stroke[0] {
			return ""
		}
		used = used || shown.Events[i].Stroke[0] != hand.None
	}
	if !used {
		return ""
	}
	return "the thumb stays free for the " + b.str(whole.Events[next].Stroke[0]) + " above"
}

// later says where the hand is set instead, if it is set at another place with
// more time.
func (b *book) later(shown, whole *plan.Plan, o *plan.Other) string {
	set, not := -1, -1
	for i := o.From; i <= o.To; i++ {
		switch a, c := whole.Bounded(i), shown.Bounded(i); {
		case a && !c && set < 0:
			set = i
		case c && !a && not < 0:
			not = i
		case a != c:
			return ""
		}
	}
	if set < 0 || not < 0 || b.s.Events[set].Since <= b.s.Events[not].Since {
		return ""
	}
	return "the hand is placed after " + (&teller{book: b}).struck(set-1) + ", with more time"
}

// Price says in a sentence what a way costs.
func (w Way) Price() string {
	if w.Effort == "0" {
		return ". It is as good."
	}
	return ". It takes " + w.Effort + " more effort."
}
