package solve

import "slices"

// toll is added to what an event of a figure costs, by the stroke it takes, and
// where the hand stays before it. Those of one slot come to nothing together, so
// that a plan in which the figures are played alike costs what it did, while one
// in which they differ may cost more: the least that any can cost rises.
type toll struct {
	strokes []int64
	stay    int64
}

// rounds is how often tolls are shifted: more brings little (measured).
const rounds = 25

// raise sets tolls, given the cost of some plan with all figures alike, and gives
// the least that any such plan can cost with them. Where the bars of a figure
// differ, what a bar does pays for it, and the others are paid for the same: by
// as much at a time as would close the gap if every shift told (Polyak's step for
// a subgradient), and by half of that whenever it did not help for a while.
func (l *lattice) raise(best value) (bound value) {
	l.tolls = make([]toll, len(l.alpha))
	for _, s := range l.slots {
		for _, e := range s.events {
			l.tolls[e].strokes = make([]int64, len(s.strokes))
		}
	}
	high, kept := value{cost: -most}, l.tolls
	stale, share := 0, int64(1)
	for range rounds {
		c := l.forward(l.asked)
		if high.less(c) {
			high, kept, stale = c, l.copied(), 0
		} else if stale++; stale == 3 {
			stale, share = 0, 2*share
		}
		if !l.shift(l.path(l.asked, c), (best.cost-c.cost)/share) {
			break
		}
	}
	l.tolls = kept
	l.anew()
	return high
}

func (l *lattice) copied() []toll {
	all := slices.Clone(l.tolls)
	for e := range all {
		all[e].strokes = slices.Clone(all[e].strokes)
	}
	return all
}

// anew forgets what was worked out: the tolls are others.
func (l *lattice) anew() { l.ahead, l.home = nil, nil }

// clear takes all tolls off.
func (l *lattice) clear() {
	if l.tolls != nil {
		l.tolls = nil
		l.anew()
	}
}

// shift shifts the tolls by what a path does differently in bars alike; false if
// nothing.
func (l *lattice) shift(path []taken, gap int64) bool {
	norm := int64(0)
	l.uneven(path, func(_ *int64, by int64) { norm += by * by })
	if norm == 0 {
		return false
	}
	l.uneven(path, func(toll *int64, by int64) { *toll += gap / norm * by })
	l.anew()
	return true
}

// uneven goes through the tolls of all slots where a path does not do the same
// each time: by how much more often than its share, in units that add up to
// nothing, an event does what the toll is for.
func (l *lattice) uneven(path []taken, found func(toll *int64, by int64)) {
	for i := range l.slots {
		s := &l.slots[i]
		times, stays := make([]int64, len(s.strokes)), int64(0)
		for _, e := range s.events {
			times[s.which(path[e].stroke)]++
			if !path[e].bounded {
				stays++
			}
		}
		n := int64(len(s.events))
		for _, e := range s.events {
			own := int(s.which(path[e].stroke))
			for k, c := range times {
				if k == own && c != n {
					found(&l.tolls[e].strokes[k], n-c)
				} else if k != own && c != 0 {
					found(&l.tolls[e].strokes[k], -c)
				}
			}
			switch {
			case !s.inner || stays == 0 || stays == n:
			case path[e].bounded:
				found(&l.tolls[e].stay, -stays)
			default:
				found(&l.tolls[e].stay, n-stays)
			}
		}
	}
}
