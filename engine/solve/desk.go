package solve

import (
	"sync"

	"readyhand/engine/rule"
)

// desk is the solver's place to work, and what it keeps for the next tune.
type desk struct {
	memory memory
	chart  chart

	edges     arena[edge]
	leavings  arena[leaving]
	allStates arena[state]
	small     arena[uint8]
	flags     arena[bool]
	allHolds  arena[hold]
	numbers   arena[int32]
	values    arena[value]

	// a gap that is being worked out
	opening opening
	found   finder
	states  []state
	kinds   []uint8
	stay    []edge
	leave   []leaving
	over    []edge
	list    []played
	ports   []port
	portAt  []int32 // by view and hold: the port, -1 if there is none yet
	entries []entry
	holds   []hold // after one that stands for none
	with    []span // by hold: its entries

	ends   []end   // strokes of the events on either side, as they come up
	sinces []int32 // times between strokes, as they come up
	known  []int64 // cost plus 1 of a step, by its time and the ids of its ways; 0 not known yet
	noted  []int32 // which of them are known

	halves     arena[[]brink]
	halfBrinks arena[brink]
	brinks     []brink
	beats      []beat
	togo       []int64
	best       []int64

	trial trial
	other *desk // for what follows while a gap is being worked out here; nil until it is needed
}

// second is another desk for the same rules.
func (d *desk) second(r *rule.Rules) *desk {
	if d.other == nil {
		d.other = newDesk()
	}
	if d.other.chart.r == nil || !d.other.chart.r.Same(r) {
		d.other.begin(r)
	}
	return d.other
}

// desks are those nobody sits at. What was worked out at one is still there when the
// next tune is solved, or the same with a change.
var desks = sync.Pool{New: func() any { return newDesk() }}

func newDesk() *desk { return &desk{holds: make([]hold, 1)} }

// begin clears the desk for a tune; what is known of gaps stays, if the rules are
// the same and it is not too much.
func (d *desk) begin(r *rule.Rules) {
	d.values.clear()
	if d.edges.large() || d.leavings.large() {
		d.memory, d.chart.r = memory{}, nil
	}
	if d.chart.r == nil || !d.chart.r.Same(r) {
		d.memory.clear()
		d.edges.clear()
		d.leavings.clear()
		d.allStates.clear()
		d.small.clear()
		d.flags.clear()
		d.allHolds.clear()
		d.numbers.clear()
		d.chart.begin(*r)
	}
}

//go:noinline
func (v *solver) nevers(n int) []value {
	list := v.desk.values.take(n)
	fill(list)
	return list
}

// clean makes room for the steps of the next gap.
//
//go:noinline
func (d *desk) clean() {
	for _, at := range d.noted {
		d.known[at] = 0
	}
	d.ends, d.sinces, d.noted = d.ends[:0], d.sinces[:0], d.noted[:0]
	d.halves.at, d.halfBrinks.at = place{}, place{}
}

// arena gives out slices of one large one, to be taken back all at once.
type arena[T any] struct {
	chunks [][]T
	at     place
}

// place is how much of an arena is given out.
type place struct{ chunk, used int }

func (a *arena[T]) take(n int) []T {
	for ; a.at.chunk < len(a.chunks); a.at = (place{a.at.chunk + 1, 0}) {
		if c := a.chunks[a.at.chunk]; len(c)-a.at.used >= n {
			a.at.used += n
			return c[a.at.used-n : a.at.used : a.at.used]
		}
	}
	a.chunks = append(a.chunks, make([]T, max(n, 2048)))
	a.at = place{len(a.chunks) - 1, n}
	return a.chunks[a.at.chunk][:n:n]
}

// clear takes all back; of a tune that was very long, the room too.
func (a *arena[T]) clear() {
	if a.large() {
		a.chunks = nil
	}
	a.at = place{}
}

// large reports whether more is given out than most tunes need.
func (a *arena[T]) large() bool { return a.at.chunk > 24 }

func (a *arena[T]) copy(list []T) []T {
	room := a.take(len(list))
	copy(room, list)
	return room
}
