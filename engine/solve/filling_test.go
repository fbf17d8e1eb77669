package solve_test

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// This file is the oracle's second half: whole placings, and whole plans made
// of them.

// fill lists every way to play events a to b from one placing.
func (o *oracle) fill(a, b int) {
	var strokes []hand.Frame
	var next func(core hand.Frame)
	next = func(core hand.Frame) {
		i := a + len(strokes)
		if i > b {
			o.prepare(filling{first: a, last: b, strokes: append([]hand.Frame(nil), strokes...), core: core, frame: core}, core, 0)
			return
		}
		for _, stroke := range o.strokes[i] {
			if with, ok := o.join(core, stroke); ok && (a == b || !o.wide(stroke)) {
				strokes = append(strokes, stroke)
				next(with)
				strokes = strokes[:len(strokes)-1]
			}
		}
	}
	next(hand.Empty())
}

// prepare goes through every choice of kept and free fingers from finger f on.
func (o *oracle) prepare(v filling, core hand.Frame, f int) {
	if f == 4 {
		o.complete(v)
		return
	}
	o.prepare(v, core, f+1)
	if core[f] != hand.None {
		return
	}
	for t := range int8(len(o.s.Harp.Strings)) {
		use := o.serves(v, int8(f), t)
		if use == 0 || !o.r.Hand.Takes(o.r.Harp, v.frame, f, t) {
			continue
		}
		with := v
		with.frame[f] = t
		if use&set != 0 {
			with.kept[f] = true
			o.prepare(with, core, f+1)
			with.kept[f] = false
		}
		if use&there != 0 {
			with.free[f] = true
			o.prepare(with, core, f+1)
		}
	}
}

// serves says whether a finger on a string is any use to ornaments that lie
// beside or in a placing, kept or free.
func (o *oracle) serves(v filling, f, t int8) uint64 {
	key := [2]int8{f, t}
	use := o.wanted[after][v.first][key] | o.wanted[before][v.last+1][key]
	for j := v.first + 1; j <= v.last; j++ {
		use |= o.wanted[through][j][key]
	}
	return use
}

// complete charges a filling and adds it, if it can be played.
func (o *oracle) complete(v filling) {
	p, at := o.stage(v.first, v.last, v.strokes...)
	pl := &p.Placings[at]
	pl.Frame, pl.Kept, pl.Free = v.frame, v.kept, v.free
	b := plan.Sum(o.s, o.r, &p, plan.Silent(o.s), true)
	if b.Barred {
		return
	}
	v.own = worth(part(b, plan.Place{Gap: -1, Placing: at})*score.Whole) << asCost
	for i, stroke := range v.strokes {
		if stroke[3] != hand.None {
			v.own += asFourth
		}
		v.own += worth(liked(o.s.Events[v.first+i], stroke)) * asSecond
		if j := v.first + i; i > 0 {
			w := o.across(edge{j, false, o.side(j, v.strokes[i-1], v.frame, v.free), o.side(j, stroke, hand.Empty(), v.free)})
			if w >= never {
				return
			}
			v.own += w
		}
	}
	v.from = o.side(v.first, v.strokes[0], v.frame, v.free)
	v.to = o.side(v.last+1, v.strokes[len(v.strokes)-1], v.frame, v.free)
	v.from.core, v.to.core = v.core, v.core
	v.alpha, v.beta = never, never
	o.fills[v.first] = append(o.fills[v.first], v)
}

// back works out beta, from the last placing to the first.
func (o *oracle) back() {
	n := len(o.s.Events)
	none := side{stroke: hand.Empty()}
	for a := n - 1; a >= 0; a-- {
		for i := range o.fills[a] {
			v := &o.fills[a][i]
			if v.last == n-1 {
				v.beta = o.across(edge{n, false, v.to, none})
			}
		}
	}
	for b := n - 2; b >= 0; b-- {
		onward := map[side]worth{} // by the first look of the next placing
		for _, w := range o.fills[b+1] {
			if w.beta < never {
				least(onward, w.from, w.own+w.beta)
			}
		}
		memo := map[side]worth{}
		for a := range b + 1 {
			for i := range o.fills[a] {
				v := &o.fills[a][i]
				if v.last != b {
					continue
				}
				w, ok := memo[v.to]
				if !ok {
					w = never
					for from, rest := range onward {
						if e := o.across(edge{b + 1, true, v.to, from}); e < never {
							w = min(w, e+rest)
						}
					}
					memo[v.to] = w
				}
				v.beta = w
			}
		}
	}
}

func least(m map[side]worth, at side, w worth) {
	if old, ok := m[at]; !ok || w < old {
		m[at] = w
	}
}

// forth works out alpha, from the first placing to the last, and with it the
// best and the prices.
func (o *oracle) forth() {
	n := len(o.s.Events)
	reached := make([]map[side]worth, n) // by the last event, and the last look
	for a := range n {
		memo := map[side]worth{}
		for i := range o.fills[a] {
			v := &o.fills[a][i]
			w, ok := memo[v.from]
			if !ok {
				w = o.enter(a, v.from, reached)
				memo[v.from] = w
			}
			v.alpha = w
			if w >= never {
				continue
			}
			if reached[v.last] == nil {
				reached[v.last] = map[side]worth{}
			}
			least(reached[v.last], v.to, w+v.own)
			if v.beta < never {
				o.best = min(o.best, w+v.own+v.beta)
			}
		}
	}
	o.price()
}

func (o *oracle) enter(a int, from side, reached []map[side]worth) worth {
	if a == 0 {
		return o.across(edge{0, true, side{stroke: hand.Empty()}, from})
	}
	w := never
	for to, before := range reached[a-1] {
		if e := o.across(edge{a, true, to, from}); e < never {
			w = min(w, before+e)
		}
	}
	return w
}

// price works out what each finger on each note costs above the best.
func (o *oracle) price() {
	for _, e := range o.s.Events {
		all := make([][4]plan.Cost, len(e.Notes))
		for n := range all {
			all[n] = [4]plan.Cost{plan.None, plan.None, plan.None, plan.None}
		}
		o.prices = append(o.prices, all)
	}
	for _, fills := range o.fills {
		for _, v := range fills {
			if v.alpha >= never || v.beta >= never {
				continue
			}
			above := (v.alpha + v.own + v.beta).cost() - o.best.cost()
			for i, stroke := range v.strokes {
				for n, note := range o.s.Events[v.first+i].Notes {
					f := finger(stroke, note.String)
					at := &o.prices[v.first+i][n][f]
					*at = min(*at, above)
				}
			}
		}
	}
}

func finger(stroke hand.Frame, t int8) int { return plan.Event{Stroke: stroke}.Finger(t) }

// first gives the strokes of the best fingering with the smallest fingers from
// the left, chords compared from the highest string.
func (o *oracle) first() []hand.Frame {
	type place struct {
		v  *filling
		at int // events of it behind us
	}
	var now []place
	for i := range o.fills[0] {
		if v := &o.fills[0][i]; v.alpha < never && v.beta < never && v.alpha+v.own+v.beta == o.best {
			now = append(now, place{v, 0})
		}
	}
	var strokes []hand.Frame
	for i := range o.s.Events {
		smallest := now[0].v.strokes[now[0].at]
		for _, x := range now {
			if s := x.v.strokes[x.at]; o.smaller(i, s, smallest) {
				smallest = s
			}
		}
		strokes = append(strokes, smallest)
		var then []place
		passed := map[side]worth{} // placings that end here, and how they were reached
		for _, x := range now {
			switch {
			case x.v.strokes[x.at] != smallest:
			case x.v.last > i:
				then = append(then, place{x.v, x.at + 1})
			default:
				least(passed, x.v.to, x.v.alpha+x.v.own)
			}
		}
		if i+1 < len(o.s.Events) {
			entered := map[side]bool{}
			for k := range o.fills[i+1] {
				v := &o.fills[i+1][k]
				ok, known := entered[v.from]
				if !known {
					for to, behind := range passed {
						e := o.across(edge{i + 1, true, to, v.from})
						ok = ok || e < never && behind+e == v.alpha
					}
					entered[v.from] = ok
				}
				if ok && v.beta < never && v.alpha+v.own+v.beta == o.best {
					then = append(then, place{v, 0})
				}
			}
		}
		now = then
	}
	return strokes
}

func (o *oracle) smaller(i int, a, b hand.Frame) bool {
	notes := o.s.Events[i].Notes
	for n := len(notes) - 1; n >= 0; n-- {
		if f, g := finger(a, notes[n].String), finger(b, notes[n].String); f != g {
			return f < g
		}
	}
	return false
}
