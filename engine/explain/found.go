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
		asks = t.with("", t.withFingers(gap, site, which), ", ") + "not your usual " + Usual(o.Name, o.House[0]) + t.with("; ", asks, "")
	}
	return asks
}

// withFingers says with which fingers an ornament and its note are played from the placings
// as they are: "with 2 3"; "" if it is not.
func (t *teller) withFingers(gap, site, which int) string {
	st := t.s.Gaps[gap].Sites[site]
	touches := t.fit(gap, site, which).Touches
	if len(touches) == 0 || len(touches) != len(st.Ornaments[which].Strokes) {
		return ""
	}
	_, own := t.own(gap, site)
	var all []int8
	for _, x := range touches {
		all = append(all, x.Finger)
	}
	if st.After {
		all = append([]int8{int8(own)}, all...)
	} else {
		all = append(all, int8(own))
	}
	return "with " + Fingers(all)
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
