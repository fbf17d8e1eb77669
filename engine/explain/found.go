package explain

import (
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Finder gives what tells of an ornament of a score what it asks of the hand, apart
// from what its readiness is called: "1 is on E already"; "" if there is nothing to
// say.
func Finder(s *score.Score, r *rule.Rules, p *plan.Plan) func(gap, site, which int) string {
	return (&teller{book: newBook(s), r: r, p: p}).found
}

func (t *teller) found(gap, site, which int) (asks string) {
	fit := t.fit(gap, site, which)
	o := &t.s.Gaps[gap].Sites[site].Ornaments[which]
	switch fit.Ready {
	case plan.InHand:
		asks = t.with("", t.touches(gap, site, which), " already") + t.with("; but ", t.hurried(gap, site, which), "")
	case plan.FingerFree:
		asks = t.idle(gap, site, which)
	case plan.FingerKept:
		verb := " waits on "
		if o.Likelihood == 0 && !o.On {
			verb = " would wait on "
		}
		asks = t.waiting(gap, site, which, verb)
	case plan.PlacedAgain:
		if len(fit.Touches) > 0 {
			asks = "the hand leaves its strings" + t.with(": set ", t.anew(gap, site, which), "") + ", then comes back"
		}
	}
	if says := t.silences(gap, site, which); says != "" {
		asks = t.with("", asks, "; ") + says
	}
	if fit.Unusual {
		asks = t.with("", asks, "; ") + "not with your usual " + Fingers(o.House[0])
	}
	return asks
}

// Caller gives what calls the top note of an event: "the first D", and with its bar,
// "the first D in bar 2".
func Caller(s *score.Score) func(event int, bar bool) string {
	b := newBook(s)
	return func(event int, bar bool) string {
		if note := len(s.Events[event].Notes) - 1; bar {
			return b.note(event, note)
		} else {
			return b.short(event, note)
		}
	}
}

// Later says how ready the hand is on a later pass: "the second time: placed again".
func Later(pass int, ready plan.Readiness) string {
	return "the " + ordinal(pass) + " time: " + ready.String()
}
