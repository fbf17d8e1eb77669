package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// state is what the rest of the tune can ask once an event has played.
type state struct {
	frame  hand.Frame // what the placing holds so far
	stroke hand.Frame // what the event just played
	core   uint8      // fingers of frame that a written note has used
	kept   uint8      // fingers of frame kept for ornaments alone so far; the rest are free
	notes  uint8      // written notes of the placing so far, 2 standing for more
	owed   uint8      // the finger, from 1, that stayed from the placing before for a written note yet to come; 0 none
}

// set gives the fingers of a placing that are on their string.
func (st *state) set() uint8 { return st.core | st.kept | st.waits() }

// waits is the finger that is owed a written note, as a bit.
func (st *state) waits() uint8 { return 1 << st.owed >> 1 }

func (st *state) mark() mark {
	return mark{word(st.frame), word(st.stroke), uint32(st.core) | uint32(st.kept)<<8 | uint32(st.notes)<<16 | uint32(st.owed)<<24}
}

// mark is an item of a list as a number.
type mark [3]uint32

func word(f hand.Frame) uint32 {
	return uint32(uint8(f[0])) | uint32(uint8(f[1]))<<8 | uint32(uint8(f[2]))<<16 | uint32(uint8(f[3]))<<24
}

// finder tells where an item lies in a list, by its mark.
type finder struct {
	marks []mark
	slots []int32 // by what is left of a mark: a place in the list, from 1; the next slots if it is another's
}

//go:noinline
func (l *finder) clear() {
	if len(l.slots) == 0 {
		l.slots = make([]int32, 256)
	}
	l.marks = l.marks[:0]
	clear(l.slots)
}

// find gives the place of an item, new if it was not there.
func (l *finder) find(m mark) (at int, added bool) {
	slot := l.slot(m)
	for ; l.slots[slot] != 0; slot = (slot + 1) & (len(l.slots) - 1) {
		if at := int(l.slots[slot]) - 1; l.marks[at] == m {
			return at, false
		}
	}
	l.marks = append(l.marks, m)
	l.slots[slot] = int32(len(l.marks))
	if 2*len(l.marks) > len(l.slots) {
		l.slots = make([]int32, 2*len(l.slots))
		for i, m := range l.marks {
			slot := l.slot(m)
			for l.slots[slot] != 0 {
				slot = (slot + 1) & (len(l.slots) - 1)
			}
			l.slots[slot] = int32(i) + 1
		}
	}
	return len(l.marks) - 1, true
}

// at gives the place of an item, -1 if it is not there.
func (l *finder) at(m mark) int {
	for slot := l.slot(m); l.slots[slot] != 0; slot = (slot + 1) & (len(l.slots) - 1) {
		if at := int(l.slots[slot]) - 1; l.marks[at] == m {
			return at
		}
	}
	return -1
}

// place gives the place of a state to which a terrain leads, -1 if it does not.
//
//go:noinline
func (t *terrain) place(m mark) int {
	if t.where == nil {
		size := 16
		for size < 2*len(t.states) {
			size *= 2
		}
		t.where = &finder{marks: make([]mark, 0, len(t.states)), slots: make([]int32, 2*size)}
		for k := range t.states {
			t.where.find(t.states[k].mark())
		}
	}
	at := t.where.at(m)
	if at >= 0 && t.dead[at] {
		return -1
	}
	return at
}

func (l *finder) slot(m mark) int {
	sum := (uint64(m[0])<<32 | uint64(m[1])) * 0x9e3779b97f4a7c15
	sum = (sum ^ sum>>29 ^ uint64(m[2])) * 0xbf58476d1ce4e5b9
	return int(sum>>32) & (len(l.slots) - 1)
}

// played is a state with what its placing costs more for it.
type played struct {
	state
	sum int64
}

// play adds stroke b of an event to a placing; false if the hand cannot hold both.
func (v *solver) play(st state, e *score.Event, strokes *strokes, b int) (played, bool) {
	next := played{state: st}
	stroke := strokes.list[b]
	next.stroke = stroke
	part := strokes.part[b]
	if part {
		for f, t := range st.frame {
			if st.notes > 0 || t != hand.None && t != stroke[f] {
				return next, false // alone in its placing
			}
		}
		next.sum += v.chart.part
	}
	for f, t := range stroke {
		bit := uint8(1) << f
		switch {
		case t == hand.None:
			continue
		case st.frame[f] == t:
		case part:
			next.sum += v.chart.enter(next.frame, f, t)
			next.frame[f] = t
		default:
			c, ok := v.chart.joins(next.frame, f, t)
			if !ok {
				return next, false
			}
			next.sum += c
			next.frame[f] = t
		}
		if next.kept&bit != 0 {
			next.sum -= v.chart.keep[f]
			next.kept &^= bit
		}
		if int(next.owed) == f+1 {
			next.owed = 0
		}
		next.core |= bit
	}
	next.notes = uint8(min(2, int(st.notes)+len(e.Notes)))
	next.sum += v.chart.work[next.notes][next.core&1] - v.chart.work[st.notes][st.core&1]
	return next, true
}

// keeping adds to a list the states that come of st by keeping fingers ready, or
// letting them drop in, for the ornaments of this gap: on each string at most as
// many as there are strokes on it in all that may sound. One more would wait for
// something later, and can as well be set then.
func (o *opening) keeping(list []played, st played) []played {
	if len(o.strings) == 0 {
		return append(list, st)
	}
	return o.keepFrom(list, st, 0)
}

func (o *opening) keepFrom(list []played, st played, f int) []played {
	if f == 4 {
		return append(list, st)
	}
	list = o.keepFrom(list, st, f+1)
	bit, chart := uint8(1)<<f, &o.v.chart
	if t := st.frame[f]; t != hand.None {
		if i := o.uses(f, t); i >= 0 && st.set()&bit == 0 && o.room[i] > 0 {
			st.sum += chart.keep[f]
			st.kept |= bit
			o.room[i]--
			list = o.keepFrom(list, st, f+1)
			o.room[i]++
		}
		return list
	}
	for i, t := range o.strings {
		if o.useful[i]&bit == 0 || o.room[i] == 0 {
			continue
		}
		c, ok := chart.joins(st.frame, f, t)
		if !ok {
			continue
		}
		o.room[i]--
		with := st
		with.frame[f] = t
		with.sum += c
		if o.drops[i] {
			list = o.keepFrom(list, with, f+1)
		}
		with.sum += chart.keep[f]
		with.kept |= bit
		list = o.keepFrom(list, with, f+1)
		o.room[i]++
	}
	return list
}
