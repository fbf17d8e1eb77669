package solve_test

import (
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// unasked is a score with no finger and no placing asked for.
func unasked(c passage) passage {
	c = c.copy()
	for i := range c.s.Events {
		e := &c.s.Events[i]
		e.Boundary = score.Open
		for k := range e.Notes {
			e.Notes[k].Pin = 0
		}
	}
	return c
}

// hasty counts where one finger repeats faster than a finger can.
func hasty(c *passage, p *plan.Plan) (n int) {
	bill := plan.Sum(&c.s, &c.r, p, plan.Silent(&c.s), true)
	for _, item := range bill.Items {
		if item.Rule == rule.TooFast {
			n++
		}
	}
	return n
}

// A fingering is asked for at random, with any number of notes left open and any
// placings. The oracle says whether it can be played, and for what.
func TestCheckIsTheOracles(t *testing.T) {
	want := 900
	if runtime.GOOS == "js" {
		want = 40
	}
	met := map[string]int{}
	for n, done := 0, 0; done < want; n++ {
		d := drawing{rand.New(rand.NewPCG(uint64(n), 11))}
		c := d.passage(5, d.IntN(3))
		for i := range c.s.Events {
			c.s.Events[i].House = nil
			d.askFor(&c.s.Events[i])
		}
		for j := range c.s.Gaps {
			for k := range c.s.Gaps[j].Sites {
				for i := range c.s.Gaps[j].Sites[k].Ornaments {
					c.s.Gaps[j].Sites[k].Ornaments[i].House = nil
				}
			}
		}
		c.s.Weigh()
		free := unasked(c)
		best := consult(&free.s, &free.r)
		if best.best >= never || len(free.s.Figures()) > 0 || len(c.s.Figures()) > 0 {
			continue
		}
		done++
		kept := c.copy()
		got := solve.Check(c.s, c.r)
		require.Equal(t, kept.s, c.s, "the score given is not altered")
		own := consult(&c.s, &c.r)
		require.Equal(t, got.Playable, len(got.Misfits) == 0, "passage %d: where it cannot be played, a place is named\n%s", n, c)
		if own.best >= never {
			met["cannot be played"]++
			require.False(t, got.Playable, "passage %d\n%s", n, c)
			require.Equal(t, plan.None, got.Extra)
			met["after the notes before"] += map[bool]int{true: 1}[got.Misfits[0].Kind == plan.PinIgnored]
			met["an ornament"] += map[bool]int{true: 1}[got.Misfits[0].Gap >= 0]
			met["two strings"] += map[bool]int{true: 1}[got.Misfits[0].Kind == plan.TwoStrings]
			met["order"] += map[bool]int{true: 1}[got.Misfits[0].Kind == plan.OutOfOrder]
			met["reach"] += map[bool]int{true: 1}[got.Misfits[0].Kind == plan.OutOfReach]
			continue
		}
		if !got.Playable {
			met["too fast"]++
			require.Equal(t, plan.NoTimeToPlay, got.Misfits[0].Kind, "passage %d: %+v\n%s", n, got.Misfits, c)
			p, s := solve.Best(c.s, c.r)
			q, u := solve.Best(free.s, free.r)
			require.Greater(t, hasty(&passage{s, c.r}, &p), 0)
			require.True(t, hasty(&passage{s, c.r}, &p) > hasty(&passage{u, c.r}, &q) || hasty(&passage{u, c.r}, &q) > 0)
			continue
		}
		met["playable"]++
		require.Equal(t, own.best.cost()-best.best.cost(), got.Extra, "passage %d\n%s", n, c)
		require.GreaterOrEqual(t, got.Extra, plan.Cost(0))
		require.Equal(t, plan.Joint(got.Score, &c.r, &got.Own)-plan.Joint(got.Score, &c.r, &got.Best), got.Extra)
	}
	t.Log(met)
	for _, what := range []string{"playable", "cannot be played", "too fast", "after the notes before", "an ornament", "two strings", "order", "reach"} {
		assert.True(t, met[what] > 0 || runtime.GOOS == "js", "never met, so never tested: %s", what) // in node there are few
	}
}

// askFor draws fingers and a placing for one event.
func (d drawing) askFor(e *score.Event) {
	loose := d.oneIn(4)
	for k := range e.Notes {
		e.Notes[k].Pin = int8(1 + d.IntN(4))
		if loose && d.oneIn(2) {
			e.Notes[k].Pin = 0
		}
	}
	if len(e.Notes) > 1 && d.oneIn(2) { // rather in order
		slices.SortFunc(e.Notes, func(a, b score.Note) int { return int(a.String - b.String) })
		for k := range e.Notes {
			e.Notes[k].Pin = int8(min(4, len(e.Notes)-k))
		}
	}
	e.Boundary = pick(d, score.Open, score.Set, score.Set, score.Stay)
	if e.Forced {
		e.Boundary = score.Open
	}
}
