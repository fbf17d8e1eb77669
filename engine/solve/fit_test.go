package solve_test

import (
	"fmt"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
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
				case fit.Ready != plan.NoTime && len(fit.Touches) != len(ornament.Strokes):
					wrong = "touches do not run beside its strokes"
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

// tried checks an ornament that is never played: it is said to be playable where
// it is, never for less than the best plan that has it, and for just that where
// written notes move.
func (o *oracle) tried(p plan.Plan, j, i int, fit plan.Fit) string {
	c := passage{*o.s, *o.r}.copy()
	c.s.Gaps[j].Sites[0].Ornaments[i].Likelihood = 4
	c.s.WeighGap(j)
	with := consult(&c.s, &c.r)
	if with.best >= never {
		if fit.Ready != plan.NoTime || fit.Extra != plan.None {
			return "it cannot be played"
		}
		return ""
	}
	extra := with.best.cost() - o.best.cost()
	switch {
	case fit.Ready == plan.NoTime:
		return fmt.Sprintf("it can be played for %d", extra)
	case fit.Extra < extra:
		return fmt.Sprintf("it costs %d", extra)
	case fit.Moves > 0 && fit.Extra != extra:
		return fmt.Sprintf("with notes moving it costs %d", extra)
	case fit.Ready == plan.InHand && !inHand(p, j, fit.Touches, c.s.Gaps[j].Sites[0].Ornaments[i].Strokes):
		return "it is not in the hand"
	}
	return ""
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
