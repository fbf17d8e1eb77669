package tune

import (
	"slices"

	"readyhand/engine/source"
)

// Pace is how long a quarter lasts from a time on, in whole notes from the start.
type Pace struct {
	At        Frac
	QuarterMS int32
}

// Pace works out where the Q: lines inside a tune change its tempo, in whichever
// voice they stand: in written time, and as it is played. On every pass the tempo
// holds that is written at the place. What changes nothing is left out.
func (t *Tune) Pace() {
	longest, end := -1, Frac{N: 0, D: 1} // the voice that plays longest, and the end of all that is written
	var until Frac
	var list []Pace
	for i := range t.Voices {
		v := &t.Voices[i]
		if v.Layer > 0 || len(v.Events) == 0 || len(v.Played) == 0 {
			continue
		}
		last := v.Played[len(v.Played)-1]
		if to := last.Onset.Add(v.Events[last.Event].Length); longest < 0 || until.Less(to) {
			longest, until = i, to
		}
		if to := v.end(); end.Less(to) {
			end = to
		}
		for _, m := range v.Marks {
			if m.Kind != NewTempo || m.Tempo.QuarterMS == 0 {
				continue
			}
			at := v.end()
			if m.Event < len(v.Events) {
				at = v.Events[m.Event].Onset
			}
			list = append(list, Pace{at, m.Tempo.QuarterMS})
		}
	}
	source.Order(list, func(a, b Pace) int { return int(a.At.Sub(b.At).N) })
	t.Changes, t.paces = nil, nil
	for i, p := range list {
		now := t.Tempo.QuarterMS
		if n := len(t.Changes); n > 0 {
			now = t.Changes[n-1].QuarterMS
		}
		if p.QuarterMS != now && p.At.Less(end) && (i+1 == len(list) || list[i+1].At != p.At) {
			t.Changes = append(t.Changes, p)
		}
	}
	if len(t.Changes) > 0 {
		t.paces = t.played(&t.Voices[longest])
	}
}

// end is where the written music of a voice ends; it has some.
func (v *Voice) end() Frac {
	last := &v.Events[len(v.Events)-1]
	return last.Onset.Add(last.Length)
}

// played gives the tempos as a voice plays them.
func (t *Tune) played(v *Voice) []Pace {
	written := Clock(append([]Pace{{Frac{N: 0, D: 1}, t.Tempo.QuarterMS}}, t.Changes...))
	var list []Pace
	for _, s := range v.Played {
		e := &v.Events[s.Event]
		i := written.at(e.Onset)
		at, end := s.Onset, e.Onset.Add(e.Length)
		for {
			if n := len(list); n == 0 || list[n-1].QuarterMS != written[i].QuarterMS {
				list = append(list, Pace{at, written[i].QuarterMS})
			}
			if i++; i == len(written) || !written[i].At.Less(end) {
				break
			}
			at = s.Onset.Add(written[i].At.Sub(e.Onset))
		}
	}
	return list
}

// Tempos gives the tempo from the start on and its changes in written time, where
// the first quarter lasts so long: the others change in the same proportion.
func (t *Tune) Tempos(quarterMS int32) []Pace {
	return append([]Pace{{Frac{N: 0, D: 1}, quarterMS}}, t.scaled(t.Changes, quarterMS)...)
}

// Clock tells time as the tune is played, where its first quarter lasts so long.
func (t *Tune) Clock(quarterMS int32) Clock {
	if len(t.paces) == 0 {
		return Clock{{Frac{N: 0, D: 1}, quarterMS}}
	}
	return t.scaled(t.paces, quarterMS)
}

// No quarter lasts less or longer, as no reader can ask for less or longer (choice).
const (
	leastQuarterMS = 20
	mostQuarterMS  = 30000
)

// scaled gives tempos in proportion to the first, each to the nearest millisecond.
func (t *Tune) scaled(list []Pace, quarterMS int32) []Pace {
	list = slices.Clone(list)
	was := int64(max(1, t.Tempo.QuarterMS))
	for i := range list {
		ms := (2*int64(list[i].QuarterMS)*int64(quarterMS) + was) / (2 * was)
		list[i].QuarterMS = int32(min(max(ms, leastQuarterMS), mostQuarterMS))
	}
	return list
}

// Clock is how long a quarter lasts from played time to played time; the first
// holds from the start.
type Clock []Pace

// at finds the tempo that holds at a time.
func (c Clock) at(t Frac) int {
	low, high := 0, len(c)
	for low < high {
		if mid := (low + high) / 2; t.Less(c[mid].At) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return max(0, low-1)
}

// Quarter gives the milliseconds of a quarter at a played time.
func (c Clock) Quarter(at Frac) int32 { return c[c.at(at)].QuarterMS }

// Lasts gives the milliseconds of a length from a played time on, rounded to the
// nearest.
func (c Clock) Lasts(from, length Frac) int32 {
	if len(c) == 1 {
		return length.Milliseconds(c[0].QuarterMS)
	}
	end, sum := from.Add(length), Frac{N: 0, D: 1} // sum of each stretch times its quarter
	for i := c.at(from); from.Less(end); i++ {
		to := end
		if i+1 < len(c) && c[i+1].At.Less(end) {
			to = c[i+1].At
		}
		sum, from = sum.Add(to.Sub(from).Mul(Frac{N: int64(c[i].QuarterMS), D: 1})), to
	}
	return sum.Milliseconds(1)
}

// After gives the played time so many milliseconds after another, or before it
// where they are below 0.
func (c Clock) After(from Frac, ms int32) Frac {
	left := NewFrac(int64(ms), 4) // whole notes, times the milliseconds of a quarter
	i := c.at(from)
	for ms > 0 && i+1 < len(c) {
		here := c[i+1].At.Sub(from).Mul(Frac{N: int64(c[i].QuarterMS), D: 1})
		if !here.Less(left) {
			break
		}
		i++
		left, from = left.Sub(here), c[i].At
	}
	for ms < 0 && i > 0 {
		here := from.Sub(c[i].At).Mul(Frac{N: int64(c[i].QuarterMS), D: 1})
		if left.Add(here).N >= 0 {
			break
		}
		left, from = left.Add(here), c[i].At
		i--
	}
	return from.Add(left.Mul(Frac{N: 1, D: int64(c[i].QuarterMS)}))
}
