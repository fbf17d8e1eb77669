package explain

import (
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// Need is a finger on a string that is named for an ornament.
type Need struct {
	Finger int // 0 to 3
	String int8
}

// Needs lists the fingers that the words on an ornament name, besides those of the
// notes themselves: of one that waits those that wait, if the plan has any waiting.
func Needs(s *score.Score, p *plan.Plan, gap, site, which int) (list []Need) {
	t := &teller{book: &book{s: s}, p: p}
	all := t.touched(gap, site, which)
	if t.fit(gap, site, which).Ready == plan.FingerKept {
		all = waitingOf(all)
	}
	for _, x := range all {
		list = append(list, Need{x.finger, x.string})
	}
	return list
}

// waitingOf gives those that wait or drop in for ornaments alone, all if none waits.
func waitingOf(all []touch) []touch {
	var own []touch
	waits := false
	for _, x := range all {
		waits = waits || x.kept
		if x.kept || x.free {
			own = append(own, x)
		}
	}
	if waits {
		return own
	}
	return all
}
