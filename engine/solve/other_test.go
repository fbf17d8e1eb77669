package solve_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// The other ways are held against a loop over every stroke and every placing of
// every event. What each costs the oracle says, with all of it asked for.

// labelling is one way to play every event.
type labelling []plan.Change

type labellings struct {
	c     passage
	shown labelling
	best  plan.Cost
	all   []labelling
	cost  map[string]plan.Cost
}

func shownAs(p *plan.Plan) labelling {
	var l labelling
	for i, e := range p.Events {
		l = append(l, plan.Change{Event: i, Stroke: e.Stroke, Placed: p.Bounded(i)})
	}
	return l
}

// count gives how many labellings a passage has.
func labels(c *passage) int {
	n := 1
	for i, e := range c.s.Events {
		ways := 0
		if i == 0 || mayPlace(&c.s, i) {
			ways++
		}
		if i > 0 && goesOn(&c.s, i) {
			ways++
		}
		n *= ways * len(takes(&c.s, &c.r, e))
	}
	return n
}

func everyLabelling(c passage, p *plan.Plan) *labellings {
	l := &labellings{c: c, shown: shownAs(p), best: p.Cost, cost: map[string]plan.Cost{}}
	l.add(nil)
	return l
}

func (l *labellings) add(so labelling) {
	i := len(so)
	if i == len(l.c.s.Events) {
		l.all = append(l.all, so)
		l.cost[fmt.Sprint(so)] = l.worth(so)
		return
	}
	for _, stroke := range takes(&l.c.s, &l.c.r, l.c.s.Events[i]) {
		for _, placed := range []bool{false, true} {
			if placed && (i == 0 || mayPlace(&l.c.s, i)) || !placed && i > 0 && goesOn(&l.c.s, i) {
				l.add(append(slices.Clip(so), plan.Change{Event: i, Stroke: stroke, Placed: placed}))
			}
		}
	}
}

// worth asks the oracle what a labelling costs.
func (l *labellings) worth(so labelling) plan.Cost {
	c := l.c.copy()
	for i, x := range so {
		e := &c.s.Events[i]
		for n := range e.Notes {
			e.Notes[n].Pin = int8(slices.Index(x.Stroke[:], e.Notes[n].String) + 1)
		}
		switch {
		case i == 0 || e.Forced:
			e.Boundary = score.Open
		case x.Placed:
			e.Boundary = score.Set
		default:
			e.Boundary = score.Stay
		}
	}
	return consult(&c.s, &c.r).best.cost()
}

func (l *labellings) differs(so labelling) (at []int) {
	for i := range so {
		if so[i] != l.shown[i] {
			at = append(at, i)
		}
	}
	return at
}

// extra is what a labelling costs above the plan shown, None where it cannot be
// played.
func (l *labellings) extra(so labelling) plan.Cost {
	if c := l.cost[fmt.Sprint(so)]; c < plan.None {
		return c - l.best
	}
	return plan.None
}

// near lists the ways within the band that a person would call different.
func (l *labellings) near() []string {
	type found struct {
		so       labelling
		at       []int
		extra    plan.Cost
		from, to int
	}
	var list []found
	for _, so := range l.all {
		at := l.differs(so)
		if x := l.extra(so); len(at) > 0 && x <= plan.NearTie && !l.outdone(so, at, x) && !l.beside(so, at, x) {
			list = append(list, found{so, at, x, at[0], at[len(at)-1]})
		}
	}
	slices.SortStableFunc(list, func(a, b found) int {
		if a.extra != b.extra {
			return int(min(1, max(-1, a.extra-b.extra)))
		}
		return len(a.at) - len(b.at)
	})
	said, texts := map[string]bool{}, []string{}
	for _, f := range list {
		fingers := ""
		for _, i := range f.at {
			if f.so[i].Stroke != l.shown[i].Stroke {
				fingers += fmt.Sprint(i, f.so[i].Stroke)
			}
		}
		if key := fmt.Sprint(f.from, f.to, fingers); !said[key] {
			said[key] = true
			texts = append(texts, fmt.Sprint(f.from, "-", f.to, " ", fingers, " +", f.extra))
		}
	}
	slices.Sort(texts)
	return texts
}

// outdone: another labelling has every finger and every placing that differs in this
// one, and costs less.
func (l *labellings) outdone(so labelling, at []int, x plan.Cost) bool {
	return slices.ContainsFunc(l.all, func(other labelling) bool {
		return l.extra(other) < x && !slices.ContainsFunc(at, func(i int) bool {
			if so[i].Placed != l.shown[i].Placed && other[i].Placed != so[i].Placed {
				return true
			}
			return slices.ContainsFunc(l.c.s.Events[i].Notes, func(n score.Note) bool {
				f := finger(so[i].Stroke, n.String)
				return f != finger(l.shown[i].Stroke, n.String) && f != finger(other[i].Stroke, n.String)
			})
		})
	})
}

// beside: it is two ways side by side that cost no more together.
func (l *labellings) beside(so labelling, at []int, x plan.Cost) bool {
	for _, cut := range at[1:] {
		early, late := slices.Clone(so), slices.Clone(so)
		copy(early[cut:], l.shown[cut:])
		copy(late[:cut], l.shown[:cut])
		a, b := l.extra(early), l.extra(late)
		if a < plan.None && b < plan.None && a+b <= x {
			return true
		}
	}
	return false
}

// told is what the solver says in the form of near.
func tellOthers(list []plan.Other, shown labelling) []string {
	texts := []string{}
	for _, o := range list {
		if !o.Near {
			continue
		}
		fingers := ""
		for _, c := range o.Changes {
			if c.Stroke != shown[c.Event].Stroke {
				fingers += fmt.Sprint(c.Event, c.Stroke)
			}
		}
		texts = append(texts, fmt.Sprint(o.From, "-", o.To, " ", fingers, " +", o.Extra))
	}
	slices.Sort(texts)
	return texts
}

func TestNearTiesAreAllThere(t *testing.T) {
	want := 150
	if runtime.GOOS == "js" {
		want = 15
	}
	met := map[string]int{}
	for n, done := 0, 0; done < want; n++ {
		d := drawing{rand.New(rand.NewPCG(uint64(n), 7))}
		c := d.passage(2+d.IntN(4), d.IntN(2))
		p, s := solve.Plan(c.s, c.r)
		if p.Cost >= plan.None || len(s.Figures()) > 0 {
			continue
		}
		c.s = s
		if size := labels(&c); size < 4 || size > 700 {
			continue
		}
		done++
		l := everyLabelling(c, &p)
		require.Equal(t, plan.Cost(0), l.extra(l.shown), "passage %d\n%s", n, c)
		list := solve.Others(s, c.r, &p)
		require.Equal(t, l.near(), tellOthers(list, l.shown), "passage %d\n%s", n, c)
		for _, o := range list {
			l.check(t, n, o, &p)
			met["tips"] += map[bool]int{true: 1}[o.Tip != nil]
			met["other placings alone"] += map[bool]int{true: 1}[len(fingered(o, &p)) == 0]
			met["over several events"] += map[bool]int{true: 1}[len(o.Changes) > 1]
			met[map[bool]string{true: "near", false: "dearer"}[o.Near]]++
		}
		met["with ornaments"] += map[bool]int{true: 1}[slices.ContainsFunc(s.Gaps, func(g score.Gap) bool { return len(g.Patterns) > 1 })]
		met["with chords"] += map[bool]int{true: 1}[slices.ContainsFunc(s.Events, func(e score.Event) bool { return len(e.Notes) > 1 })]
	}
	t.Log(met)
	for _, what := range []string{"near", "dearer", "tips", "other placings alone", "over several events", "with ornaments", "with chords"} {
		assert.Positive(t, met[what], what)
	}
}

// fingered are the changes that are of fingers.
func fingered(o plan.Other, p *plan.Plan) (list []plan.Change) {
	for _, c := range o.Changes {
		if c.Stroke != p.Events[c.Event].Stroke {
			list = append(list, c)
		}
	}
	return list
}

// check holds one way to what is said of it: its cost, by the definition and by
// the loop; that the hand can play it; and what would make it the cheaper.
func (l *labellings) check(t *testing.T, n int, o plan.Other, p *plan.Plan) {
	t.Helper()
	so := slices.Clone(l.shown)
	for _, c := range o.Changes {
		require.NotEqual(t, so[c.Event], c, "a change is one")
		so[c.Event] = c
	}
	require.Equal(t, l.extra(so), o.Extra, "passage %d %+v\n%s", n, o, l.c)
	require.GreaterOrEqual(t, o.Extra, plan.Cost(0))
	whole := solve.Whole(l.c.s, l.c.r, p, &o)
	require.Equal(t, so, shownAs(&whole), "passage %d", n)
	require.Equal(t, p.Cost+o.Extra, plan.Joint(&l.c.s, &l.c.r, &whole), "passage %d", n)
	require.Empty(t, plan.Judge(&l.c.s, &l.c.r, &whole), "passage %d", n)
	if o.Tip == nil {
		return
	}
	least := func(as labelling) plan.Cost {
		low := plan.None
		for _, other := range l.all {
			has := other[o.Tip.Event].Stroke == o.Tip.Stroke
			for _, c := range o.Changes {
				has = has && other[c.Event] == as[c.Event]
			}
			if has {
				low = min(low, l.extra(other))
			}
		}
		return low
	}
	require.NotEqual(t, p.Events[o.Tip.Event].Stroke, o.Tip.Stroke)
	require.Less(t, least(so), least(l.shown), "passage %d: with %v the other way is the cheaper", n, *o.Tip)
}

// A tune of its own: what the plan and the band would leave unsaid is a fault, so
// every finger whose price is within the band is in one of the ways, at that price.
func TestEveryNearPriceIsInAWay(t *testing.T) {
	seen := 0
	for n := range 60 {
		c := draw(n)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost >= plan.None || len(s.Figures()) > 0 {
			continue
		}
		list := solve.Others(s, c.r, &p)
		for i, e := range p.Events {
			for k, note := range s.Events[i].Notes {
				for f, price := range e.Prices[k] {
					if price > plan.NearTie || e.Stroke[f] == note.String {
						continue
					}
					seen++
					assert.True(t, slices.ContainsFunc(list, func(o plan.Other) bool {
						return o.Extra == price && slices.ContainsFunc(o.Changes, func(c plan.Change) bool {
							return c.Event == i && c.Stroke[f] == note.String
						})
					}), "passage %d, event %d, finger %d for %d\n%s", n, i+1, f+1, price, c)
				}
			}
		}
	}
	assert.Greater(t, seen, 50)
}
