package solve

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// A bar that comes again has the same fingers each time, and the hand is set at
// the same places inside it. The score is solved without that first. Where bars
// alike then differ, each way to settle the difference is followed, in all of
// them at once, the cheapest first, until no way left can be cheaper than the
// best found.

// likeness is what was settled for the bars that come again.
type likeness struct {
	told    plan.Likeness
	figures []score.Figure
	best    value            // of the plan with it
	start   []int32          // by event: the first of its bar, if that comes again; else -1
	length  []int32          // by event that starts such a bar: its events
	alone   []int64          // by such an event: the least cost if its bar alone is fingered otherwise
	wishes  []score.Boundary // by event: what a figure settles about the hand being set there
	strokes []int16          // by event: which of its strokes a figure settles, -1 none
	prices  [][][4]plan.Cost // by event, note and finger
}

// alike settles figures of a score that forward has been through, and gives the
// cost of the best plan with them; what is shown of it is worked out if that is
// asked for.
func (v *solver) alike(figures []score.Figure, shown bool) value {
	best := v.best()
	if len(figures) == 0 || best.cost >= most {
		return best
	}
	l := v.lattice(figures)
	fixed, cost, bound := l.alike()
	if fixed == nil {
		figures, l, fixed, cost, bound = v.someAlike(figures)
	}
	if fixed == nil {
		return best
	}
	v.like = &likeness{best: cost, figures: figures, told: plan.Likeness{Figures: len(figures),
		Extra: plan.Cost(cost.cost - best.cost), Gap: plan.Cost(cost.cost - bound.cost)}}
	if shown {
		v.like.bars(figures, len(v.s.Events))
		v.like.priced(l, fixed)
		v.settle(l, fixed)
	}
	return cost
}

// someAlike leaves out figures that cannot be played alike beside those before
// them.
func (v *solver) someAlike(all []score.Figure) (figures []score.Figure, l *lattice, fixed []fix, cost, bound value) {
	for _, f := range all {
		some := append(slices.Clip(figures), f)
		m := v.lattice(some)
		if settled, c, b := m.alike(); settled != nil {
			figures, l, fixed, cost, bound = some, m, settled, c, b
		}
	}
	return figures, l, fixed, cost, bound
}

// bars notes where the bars that come again lie.
func (k *likeness) bars(figures []score.Figure, events int) {
	k.start = make([]int32, events)
	k.length = make([]int32, events)
	k.alone = make([]int64, events)
	for e := range k.start {
		k.start[e] = -1
	}
	for _, f := range figures {
		for _, at := range f.At {
			k.length[at] = int32(f.Length)
			for e := at; e < at+f.Length; e++ {
				k.start[e] = int32(at)
			}
		}
	}
}

// priced works out what each finger costs on each note while the figures stay as
// they are: inside one, if this one bar were fingered otherwise. Nothing costs
// less than nothing: where a bar keeps its fingers only because others are like
// it, another finger would cost no more.
func (k *likeness) priced(l *lattice, fixed []fix) {
	k.prices = l.v.blank()
	l.clear()
	l.forward(fixed)
	l.backward(fixed)
	free := l.free()
	for e := 0; e < len(l.alpha); {
		if k.start[e] < 0 {
			l.prices(e, k.best.cost, k.prices[e])
			e++
			continue
		}
		end := e + int(k.length[e])
		was := l.aside(e, end)
		l.again(free, fixed, e, end)
		k.alone[e] = most
		for i := range l.alpha[e] {
			k.alone[e] = min(k.alone[e], l.alpha[e][i].plus(l.beta[e][i]).cost)
		}
		for i := e; i < end; i++ {
			l.prices(i, k.best.cost, k.prices[i])
		}
		l.putBack(e, end, was)
		e = end
	}
}

// again works out the events from one to before another with something settled
// inside, and something else after.
func (l *lattice) again(inside, after []fix, from, to int) {
	for j := from; j < to; j++ {
		l.onward(inside, j)
	}
	l.homeward(after, inside, to)
	for j := to - 1; j > from; j-- {
		l.homeward(inside, inside, j)
	}
}

// aside puts away what again will change and makes room for it, putBack puts it back.
func (l *lattice) aside(from, to int) (was passes) {
	was = passes{slices.Clone(l.alpha[from:to]), slices.Clone(l.out[from:to]), slices.Clone(l.beta[from:to]), slices.Clone(l.back[from+1 : to+1]), l.v.values.at}
	for j := from; j < to; j++ {
		for _, costs := range [...]*[]value{&l.alpha[j], &l.out[j], &l.beta[j], &l.back[j+1]} {
			*costs = l.v.values.take(len(*costs))
		}
	}
	return was
}

func (l *lattice) putBack(from, to int, was passes) {
	copy(l.alpha[from:to], was.alpha)
	copy(l.out[from:to], was.out)
	copy(l.beta[from:to], was.beta)
	copy(l.back[from+1:to+1], was.back)
	l.v.values.at = was.room
}

// passes is what was found for some events.
type passes struct {
	alpha, out, beta, back [][]value
	room                   place
}

// prices fills in by note and finger what the best plan with it costs above best.
func (l *lattice) prices(event int, best int64, prices [][4]plan.Cost) {
	strokes := l.v.takes[event].list
	l.least = append(l.least[:0], make([]int64, len(strokes))...)
	for b := range l.least {
		l.least[b] = most
	}
	alpha, beta := l.alpha[event], l.beta[event]
	for k, b := range l.v.gaps[event].kinds {
		l.least[b] = min(l.least[b], alpha[k].plus(beta[k]).cost)
	}
	priced(l.v.s.Events[event].Notes, strokes, l.least, best, prices)
}

// priced fills in what each finger costs on each note, given the least cost of a plan
// with each stroke.
func priced(notes []score.Note, strokes []hand.Frame, least []int64, best int64, prices [][4]plan.Cost) {
	for n := range prices {
		prices[n] = [4]plan.Cost{plan.None, plan.None, plan.None, plan.None}
		for b, stroke := range strokes {
			for f, t := range stroke {
				if t == notes[n].String && least[b] < most {
					prices[n][f] = min(prices[n][f], max(0, plan.Cost(least[b]-best)))
				}
			}
		}
	}
}

// settle keeps to the figures as they were settled; the lattice has gone through
// them so.
func (v *solver) settle(l *lattice, fixed []fix) {
	v.like.wishes = make([]score.Boundary, len(v.s.Events))
	v.like.strokes = make([]int16, len(v.s.Events))
	for e := range v.s.Events {
		v.like.strokes[e] = -1
		if s := l.slot[e]; s >= 0 {
			v.like.strokes[e] = int16(slices.Index(v.takes[e].list, l.slots[s].strokes[fixed[s].stroke]))
			if l.slots[s].inner {
				v.like.wishes[e] = fixed[s].boundary
			}
		}
		v.layers[e].alpha, v.layers[e].beta = l.alpha[e], l.beta[e]
	}
	for j := range v.gaps {
		v.gaps[j].alpha, v.gaps[j].beta = l.out[j], l.back[j]
	}
}

// loosened is a bar whose figure is taken off it for a while.
type loosened struct {
	first, past int   // the first gap that is another for it, and the last
	least       int64 // cost of the best plan with the bar so
	strokes     []int16
	wishes      []score.Boundary
}

// loosen takes the figure off the bar of an event, where it has one, for what
// happens in gap j.
func (v *solver) loosen(event, j int, best plan.Cost) loosened {
	b := loosened{first: j, past: j, least: int64(best)}
	if v.like == nil {
		return b
	}
	if start := v.like.start[event]; start >= 0 {
		end := int(start + v.like.length[start])
		b.first, b.past, b.least = int(start), max(j, end-1), v.like.alone[start]
		b.strokes = slices.Clone(v.like.strokes[start:end])
		b.wishes = slices.Clone(v.like.wishes[start:end])
		for e := int(start); e < end; e++ {
			v.like.strokes[e], v.like.wishes[e] = -1, score.Open
		}
	}
	return b
}

// tighten puts a figure on again.
func (v *solver) tighten(b *loosened) {
	if b.strokes != nil {
		copy(v.like.strokes[b.first:], b.strokes)
		copy(v.like.wishes[b.first:], b.wishes)
	}
}
