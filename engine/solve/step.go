package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
)

// This file remembers what steps in a gap with ornaments cost, by the ways of their
// strokes and the time between: many patterns and placings have the same.

// timed says which of the times remembered this is, -1 if it is not.
func (o *opening) timed(since int32) int {
	if len(o.strings) == 0 {
		return -1
	}
	time := remember(&o.sinces, since, mostTimes)
	if need := len(o.sinces) * mostIDs * mostIDs; len(o.desk.known) < need {
		o.desk.known = append(o.desk.known, make([]int64, need-len(o.desk.known))...)
	}
	return time
}

// What an opening remembers of its steps at most; beyond, they are worked out
// each time.
const (
	mostTimes = 8
	mostIDs   = 60
	mostLines = 4  // strings whose strokes are remembered: 4 fingers in 3 frames each
	mostEnds  = 12 // 60-4*12: strokes of the events on either side
)

func remember[T comparable](list *[]T, item T, most int) int {
	for i, known := range *list {
		if known == item {
			return i
		}
	}
	if len(*list) == most {
		return -1
	}
	*list = append(*list, item)
	return len(*list) - 1
}

// way is one stroke of an ornament, event a written one.
func (o *opening) way(stroke hand.Frame, t int8, from plan.From, f int8, drops bool) way {
	w := way{stroke: stroke, from: from, finger: f, drops: drops, id: -1}
	if line := index(o.strings, t); line < mostLines {
		w.id = (line*4+int(f))*3 + int(from)
	}
	return w
}

func (o *opening) event(stroke hand.Frame, from plan.From) way {
	w := way{stroke: stroke, from: from, written: true, id: -1}
	if len(o.strings) > 0 {
		w.id = remember(&o.ends, end{stroke, from}, mostEnds)
		if w.id >= 0 {
			w.id += 4 * 3 * mostLines
		}
	}
	return w
}

type end struct {
	stroke hand.Frame
	from   plan.From
}

// remembered is charge, worked out once; time is which of the opening's sinces.
func (o *opening) remembered(x, y *way, since int32, time int) int64 {
	if time < 0 || x.id < 0 || y.id < 0 || o.held && x.from != y.from {
		return o.charge(x, y, since)
	}
	at := (time*mostIDs+x.id)*mostIDs + y.id
	known := &o.desk.known[at]
	if *known == 0 {
		*known = 1 + o.charge(x, y, since)
		o.noted = append(o.noted, int32(at))
	}
	return *known - 1
}

func (o *opening) charge(x, y *way, since int32) int64 {
	var bill rule.Bill
	switch {
	case x.from == y.from:
		o.v.r.Step(&bill, x.stroke, y.stroke, since, x.written && y.written)
	case x.from == plan.Private || y.from == plan.Private:
		o.v.r.Away(&bill, since, true)
	default:
		c := o.crossing(x.stroke, y.stroke, since, x.written && y.written)
		o.v.r.Across(&bill, &c)
	}
	if bill.Barred {
		return most
	}
	return bill.Sum
}
