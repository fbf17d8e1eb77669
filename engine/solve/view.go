package solve

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// view is all that a gap's strokes can ask of one side of it: what just played
// or plays next, and which fingers hold a string that an ornament here needs.
type view struct {
	stroke hand.Frame
	frame  hand.Frame
	set    uint8 // fingers of frame that are on their string: used for written notes, or kept
}

func (w *view) mark() mark { return mark{word(w.frame), word(w.stroke), uint32(w.set)} }

// views are what the sides of a gap can ask, by number. Where nothing may sound
// that is the stroke beside it alone.
type views struct {
	finder
	list  []view
	kinds []int   // beside list: the number of its stroke
	sorts []int32 // by view and variant: what of the view the variant can ask, by number
}

func (w *views) clear() {
	w.finder.clear()
	w.list, w.kinds, w.sorts = w.list[:0], w.kinds[:0], w.sorts[:0]
}

// look gives the number of the view of a frame, whose stroke has number kind.
func (o *opening) look(side *views, stroke hand.Frame, kind int, frame hand.Frame, set uint8) int {
	if len(o.strings) == 0 {
		return kind
	}
	w := o.view(stroke, frame, set)
	at, added := side.find(w.mark())
	if added {
		side.list, side.kinds = append(side.list, w), append(side.kinds, kind)
		for i := range o.variants {
			side.sorts = append(side.sorts, o.sort(i, side == &o.lefts, w, kind))
		}
	}
	return at
}

// view makes the view of a frame: only fingers that may play this gap's strings
// count.
func (o *opening) view(stroke, frame hand.Frame, set uint8) view {
	w := view{stroke: stroke, frame: hand.Empty()}
	for f, t := range frame {
		if t != hand.None && o.uses(f, t) >= 0 {
			w.frame[f] = t
			w.set |= set & (1 << f)
		}
	}
	return w
}

// uses gives the place of a string among the gap's, -1 if it is not one of them
// or no stroke on it may have finger f.
func (o *opening) uses(f int, t int8) int {
	i := index(o.strings, t)
	if i >= 0 && o.useful[i]&(1<<f) == 0 {
		return -1
	}
	return i
}

// Of what a side of a gap holds, one ornament can ask only for its own strings:
// many views are the same to it, and what it costs is worked out once for those.

// sort is what one variant of what may sound makes of the views.
type sort struct {
	lefts, rights []view
	near, far     []int     // beside lefts and rights: the number of the stroke
	tails, heads  []half    // beside lefts and rights; nil if not worked out yet
	stayed        []int64   // by left view and far stroke: what it costs where the placing goes on; -1 if not known yet
	before        []int64   // by left view, far stroke and whether a finger stays: all of it played before the boundary
	after         []int64   // by right view, near stroke and whether a finger stays: all of it played after
	joined        [][]int64 // by left view, then right view and whether a finger stays: over a boundary
}

func (s *sort) clear() {
	s.lefts, s.rights, s.near, s.far, s.tails, s.heads = s.lefts[:0], s.rights[:0], s.near[:0], s.far[:0], s.tails[:0], s.heads[:0]
	s.stayed, s.before, s.after, s.joined = s.stayed[:0], s.before[:0], s.after[:0], s.joined[:0]
}

// sort gives the number of what variant i can ask of a view whose stroke has number
// kind.
func (o *opening) sort(i int, left bool, w view, kind int) int32 {
	v := &o.variants[i]
	strings := o.v.s.Gaps[o.j].Patterns[v.pattern].Strings
	for f, t := range w.frame {
		if t != hand.None && index(strings, t) < 0 {
			w.frame[f] = hand.None
			w.set &^= 1 << f
		}
	}
	s := &o.sorts[i]
	if !left {
		at := remember(&s.rights, w, len(s.rights)+1)
		if at == len(s.heads) {
			s.far, s.heads, s.after = append(s.far, kind), append(s.heads, nil), unsolved(s.after, 2*len(o.near))
		}
		return int32(at)
	}
	at := remember(&s.lefts, w, len(s.lefts)+1)
	if at == len(s.tails) {
		s.near, s.tails = append(s.near, kind), append(s.tails, nil)
		s.stayed, s.before = unsolved(s.stayed, len(o.far)), unsolved(s.before, 2*len(o.far))
		if at < cap(s.joined) {
			s.joined = s.joined[:at+1]
			s.joined[at] = s.joined[at][:0]
		} else {
			s.joined = append(s.joined, nil)
		}
	}
	return int32(at)
}

// unsolved adds to a list so many costs that are not known yet.
func unsolved(list []int64, n int) []int64 {
	for range n {
		list = append(list, -1)
	}
	return list
}

// stayed is the least cost of variant i of a pattern where the placing goes on.
func (o *opening) stayed(i int, p *score.Pattern, left int32, far int) int64 {
	s := &o.sorts[i]
	known := &s.stayed[int(left)*len(o.far)+far]
	if *known < 0 {
		o.held = false
		*known = o.staying(i, p, o.tail(i, p, left), far)
	}
	return *known
}

func (o *opening) staying(i int, p *score.Pattern, tails half, far int) int64 {
	stroke, n := o.far[far], len(p.Strings)
	if o.run != nil && !o.run.After.Suits(stroke) {
		return most
	}
	least := o.bridge(p, n, tails[n], []brink{{way: o.event(stroke, plan.Left)}})
	for _, m := range o.apart[i] {
		if m.until == n {
			least = min(least, m.cost+cheapest(tails[m.from], false))
		}
	}
	return least
}

// joined works out the least cost of variant i over a boundary.
func (o *opening) joined(i int, left, right int32, held bool) {
	row, at := &o.sorts[i].joined[left], 2*int(right)
	if held {
		at++
	}
	if at >= len(*row) {
		*row = unsolved(*row, 2*len(o.sorts[i].rights)-len(*row))
	}
	o.held, o.run = held, o.variants[i].run
	(*row)[at] = o.join(i, &o.v.s.Gaps[o.j].Patterns[o.variants[i].pattern], left, right)
}

// join is the least cost of variant i of a pattern between two views.
func (o *opening) join(i int, p *score.Pattern, l, r int32) int64 {
	left, right := o.tail(i, p, l), o.head(i, p, r)
	n, least := len(p.Strings), most
	switch {
	case o.j == 0:
		least = cheapest(right[0], true)
	case o.j == len(o.v.s.Events):
		least = cheapest(left[n], false)
	default:
		least = min(o.early(i, p, l, r), o.late(i, p, l, r))
		for a := 1; a < n; a++ {
			least = min(least, o.link(p, a, left[a], right[a]))
		}
	}
	for _, m := range o.apart[i] {
		c := m.cost
		if m.from > 0 || o.j > 0 {
			c += cheapest(left[m.from], false)
		}
		if m.until < n || o.j < len(o.v.s.Events) {
			c += cheapest(right[m.until], true)
		}
		least = min(least, c)
	}
	if o.j == 0 {
		var first rule.Bill
		o.v.r.Place(&first, 0, false)
		least += first.Sum
	}
	return least
}

// early is what a pattern costs that is played before the boundary, late after it:
// of the other side only the stroke counts.
func (o *opening) early(i int, p *score.Pattern, l, r int32) int64 {
	s, n := &o.sorts[i], len(p.Strings)
	known := &s.before[2*(int(l)*len(o.far)+s.far[r])]
	if o.held {
		known = &s.before[2*(int(l)*len(o.far)+s.far[r])+1]
	}
	if *known < 0 {
		*known = o.link(p, n, s.tails[l][n], s.heads[r][n])
	}
	return *known
}

func (o *opening) late(i int, p *score.Pattern, l, r int32) int64 {
	s := &o.sorts[i]
	known := &s.after[2*(int(r)*len(o.near)+s.near[l])]
	if o.held {
		known = &s.after[2*(int(r)*len(o.near)+s.near[l])+1]
	}
	if *known < 0 {
		*known = o.link(p, 0, s.tails[l][0], s.heads[r][0])
	}
	return *known
}

// tail and head give the halves of what variant i can ask of a view, by number.
func (o *opening) tail(i int, p *score.Pattern, left int32) half {
	s := &o.sorts[i]
	if s.tails[left] == nil {
		s.tails[left] = o.tails(p, s.lefts[left])
	}
	return s.tails[left]
}

func (o *opening) head(i int, p *score.Pattern, right int32) half {
	s := &o.sorts[i]
	if s.heads[right] == nil {
		s.heads[right] = o.heads(p, s.rights[right])
	}
	return s.heads[right]
}
