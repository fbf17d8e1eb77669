package solve_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// fits checks what a plan says of its ornaments, in gaps with one site: those
// that are prepared by the plan itself, those that are never played by asking
// the oracle again with them prepared now and then.
func (o *oracle) fits(p plan.Plan) string {
	for j, g := range o.s.Gaps {
		if len(p.Gaps[j].Fits) != len(g.Sites) {
			return fmt.Sprintf("gap %d: the fits do not run beside the sites", j)
		}
		for k, x := range g.Sites {
			for i, ornament := range x.Ornaments {
				fit, wrong := p.Gaps[j].Fits[k][i], ""
				switch {
				case fit.Touches == nil && fit.Ready < plan.PlacedAgain || fit.Touches != nil && len(fit.Touches) != len(ornament.Strokes):
					wrong = "touches do not run beside its strokes"
				case fit.Moves > 0 && (fit.Touches != nil || fit.Ready != plan.PlacedAgain):
					wrong = "notes would move for it, so it has no touches in this plan"
				case len(g.Sites) == 2:
				case ornament.Likelihood > 0:
					wrong = o.prepared(p, j, i, fit)
				case others(x)+4 <= 16:
					wrong = o.tried(p, j, i, fit)
				}
				if wrong != "" {
					return fmt.Sprintf("%s: %s: %+v", x.ID(i), wrong, fit)
				}
			}
		}
	}
	return ""
}

func others(x score.Site) (sum int32) {
	for _, o := range x.Ornaments {
		sum += o.Likelihood
	}
	return sum
}

// prepared checks an ornament that may sound: its touches are as good as the
// plan's own, and it asks of the hand what they do.
func (o *oracle) prepared(p plan.Plan, j, i int, fit plan.Fit) string {
	at := slices.IndexFunc(o.s.Gaps[j].Patterns, func(x score.Pattern) bool { return int(x.Sounds[0]) == i })
	p.Gaps = slices.Clone(p.Gaps)
	p.Gaps[j].Ways = slices.Clone(p.Gaps[j].Ways)
	p.Gaps[j].Ways[at] = fit.Touches
	if joint := plan.Joint(o.s, o.r, &p); joint != p.Cost {
		return fmt.Sprintf("played so the plan costs %d", joint)
	}
	if want := asks(p, j, fit.Touches); fit.Ready != want {
		return "should be " + want.String()
	}
	return ""
}

// asks reads off the placings what these touches in gap j ask of the hand.
func asks(p plan.Plan, j int, touches []plan.Touch) plan.Readiness {
	most := plan.InHand
	for _, touch := range touches {
		if touch.From == plan.Private {
			return plan.PlacedAgain
		}
		event := j
		if touch.From == plan.Left {
			event = j - 1
		}
		pl := p.Placings[p.Events[event].Placing]
		switch {
		case pl.Kept[touch.Finger]:
			most = max(most, plan.FingerKept)
		case pl.Free[touch.Finger]:
			most = max(most, plan.FingerFree)
		}
	}
	return most
}

// tried checks an ornament that is never played. If fingers that have no work
// can be added for it to the placings as they are, it costs what the cheapest of
// them cost; else it costs the best plan that has it, and if there is none it
// cannot be played. Its house fingering gives way to other fingers where only with
// those no other placing is wanted.
func (o *oracle) tried(p plan.Plan, j, i int, fit plan.Fit) string {
	c := passage{*o.s, *o.r}.copy()
	c.s.Gaps[j].Sites[0].Ornaments[i].Likelihood = 4
	c.s.WeighGap(j)
	with := consult(&c.s, &c.r)
	if house := c.s.Gaps[j].Sites[0].Ornaments[i].House; len(house) > 0 && with.best >= never {
		c.s.Gaps[j].Sites[0].Ornaments[i].House = nil
		c.s.WeighGap(j)
		if with = consult(&c.s, &c.r); fit.Unusual != (with.best < never) {
			return fmt.Sprintf("with any fingers it costs %d", with.best.cost())
		}
	} else if len(house) > 0 {
		near, away := with.lying(p, j, i)
		c.s.Gaps[j].Sites[0].Ornaments[i].House = nil
		c.s.WeighGap(j)
		free := consult(&c.s, &c.r)
		nearer, farther := free.lying(p, j, i)
		switch {
		case fit.Unusual && (near < away || fit.Ready >= plan.PlacedAgain):
			return "its house fingering can be followed"
		case fit.Unusual:
			with = free
		case fit.Ready >= plan.PlacedAgain && nearer < farther:
			return "other fingers have it as the hand lies"
		}
	} else if fit.Unusual {
		return "it has no house fingering"
	}
	added := with.added(p, j, i)
	extra := with.best.cost() - o.best.cost()
	switch {
	case with.best >= never && (fit.Ready != plan.NoTime || fit.Extra != plan.None):
		return "it cannot be played"
	case with.best >= never:
		return ""
	case fit.Ready == plan.NoTime:
		return fmt.Sprintf("it can be played for %d", extra)
	case added < plan.None && (fit.Extra != added || fit.Moves > 0):
		return fmt.Sprintf("added to what is held it costs %d", added)
	case added == plan.None && fit.Extra != extra:
		return fmt.Sprintf("with what moves for it it costs %d", extra)
	case fit.Ready == plan.InHand && !inHand(p, j, fit.Touches, c.s.Gaps[j].Sites[0].Ornaments[i].Strokes):
		return "it is not in the hand"
	}
	return ""
}

// added is the least that it costs to play ornament i of gap j now and then, with
// no more than fingers added to what the placings of a plan hold.
func (o *oracle) added(p plan.Plan, j, i int) plan.Cost {
	near, away := o.lying(p, j, i)
	return min(near, away)
}

// lying is added, without a placing of the ornament's own and with one.
func (o *oracle) lying(p plan.Plan, j, i int) (near, away plan.Cost) {
	k := slices.IndexFunc(o.s.Gaps[j].Patterns, func(x score.Pattern) bool { return int(x.Sounds[0]) == i })
	l, r, none := hand.Empty(), hand.Empty(), plan.Placing{Frame: hand.Empty()}
	left, right := none, none
	if j > 0 {
		l, left = p.Events[j-1].Stroke, p.Placings[p.Events[j-1].Placing]
	}
	if j < len(p.Events) {
		r, right = p.Events[j].Stroke, p.Placings[p.Events[j].Placing]
	}
	near, away = plan.None, plan.None
	for _, w := range o.play(scene{j, p.Bounded(j), p.Held(o.s, j), l, r})[k] {
		var bill rule.Bill
		if o.add(&bill, left, j, w.left) && o.add(&bill, right, j, w.right) {
			least := &near
			if slices.ContainsFunc(w.touches, func(t plan.Touch) bool { return t.From == plan.Private }) {
				least = &away
			}
			*least = min(*least, plan.Cost(bill.Sum*score.Whole+w.cost*o.s.Gaps[j].Patterns[k].Weight))
		}
	}
	return near, away
}

// add charges what a placing needs more than it holds, and reports whether it
// can hold it.
func (o *oracle) add(b *rule.Bill, pl plan.Placing, j int, need uint64) bool {
	for f := range 4 {
		for _, t := range o.strings[j] {
			wants := need >> o.bit(j, f, t) & (there | set)
			switch {
			case wants == 0:
				continue
			case pl.Frame[f] == hand.None && o.r.Hand.Takes(o.r.Harp, pl.Frame, f, t):
				o.r.Enter(b, pl.Frame, f, t)
				pl.Frame[f], pl.Free[f] = t, true
			case pl.Frame[f] != t:
				return false
			}
			if wants&set != 0 && pl.Free[f] {
				o.r.Keep(b, f)
				pl.Free[f] = false
			}
		}
	}
	return true
}

// inHand reports whether every finger is on its string already, for written
// notes or for another ornament.
func inHand(p plan.Plan, j int, touches []plan.Touch, strokes []score.Stroke) bool {
	for n, touch := range touches {
		event := j
		if touch.From == plan.Left {
			event = j - 1
		}
		pl := p.Placings[p.Events[event].Placing]
		if touch.From == plan.Private || pl.Frame[touch.Finger] == hand.None || pl.Frame[touch.Finger] != strokes[n].String || pl.Free[touch.Finger] {
			return false
		}
	}
	return true
}

// B4 before the first note would leave no hand from which the two ornaments that
// follow can be played: there is no time for it, and that is all. (Found by
// chance, and made small.)
func TestAnOfferThatBarsWhatFollows(t *testing.T) {
	c := passage{r: rule.Rules{Charges: rule.Usual()}}
	c.r.Hand, _ = hand.New("left", "124", 749)
	c.r.Harp, _ = harp.New(12, pitch.Pitch{Octave: 4}, "C", 14500)
	c.s = score.Score{Harp: c.r.Harp, Gaps: make([]score.Gap, 3), Events: []score.Event{
		{Notes: []score.Note{{Pass: 1, String: 8}}, Length: 75},
		{Notes: []score.Note{{Pass: 1, String: 6}}, Since: 75, Length: 75},
	}}
	add := func(gap int, after bool, ornaments ...score.Ornament) {
		x := site(&c.s, gap, after)
		x.Ornaments = ornaments
		c.s.Gaps[gap].Sites = []score.Site{x}
	}
	one := func(name string, on int8, at, delay, likelihood int32) score.Ornament {
		return score.Ornament{Name: name, Strokes: []score.Stroke{{String: on, At: at}}, Delay: delay, Likelihood: likelihood}
	}
	add(0, false, one("first", 7, 0, 90, 16), one("second", 6, 0, 65, 0))
	add(1, false, one("first", 8, 0, 210, 4))
	add(2, true, one("first", 4, 37, 0, 4))
	c.tidy()
	wrong, p, _ := compare(c)
	require.Empty(t, wrong)
	assert.Equal(t, plan.Fit{Ready: plan.NoTime, Extra: plan.None}, p.Gaps[0].Fits[0][1])
}
