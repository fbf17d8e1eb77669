package solve_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// change makes one thing of a passage another, as a reader or another tune may have
// it: all that bears on what a gap costs is among them.
func (d drawing) change(c passage) passage {
	c = c.copy()
	i := d.IntN(len(c.s.Events))
	e, gap := &c.s.Events[i], &c.s.Gaps[d.IntN(len(c.s.Gaps))]
	switch d.IntN(12) {
	case 0:
		e.Weak = 2 - e.Weak
	case 1:
		e.Forced = i > 0 && !e.Forced
	case 2:
		e.Boundary = pick(d, score.Open, score.Set, score.Stay)
	case 3:
		e.Rolled = !e.Rolled
	case 4:
		e.Notes[d.IntN(len(e.Notes))].Pin = int8(d.IntN(5))
	case 5:
		e.Length = int32(pick(d, 120, 200, 450))
		if i+1 < len(c.s.Events) {
			c.s.Events[i+1].Since = e.Length
		}
	case 6:
		e.House = nil
	case 7, 8:
		if n := &e.Notes[0]; len(e.Notes) == 1 {
			n.String = max(0, min(int8(len(c.s.Harp.Strings))-1, n.String+int8(d.among(-2, 2))))
		}
	default:
		for k := range gap.Sites {
			o := &gap.Sites[k].Ornaments[0]
			switch d.IntN(5) {
			case 0:
				o.Likelihood = pick(d, score.Never, score.NowAndThen)
			case 1:
				o.Delay += 50
			case 2:
				o.Strokes[0].At += 20
			case 3:
				o.House = nil
			case 4:
				o.House = slices.Clone(o.House)
				slices.Reverse(o.House)
			}
		}
	}
	c.tidy()
	return c
}

// What was worked out for one passage changes nothing in the plan of another.
func TestMemory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawing{rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "passage"), 10))}
		c := d.housed(d.passage(6, 2))
		for range 12 {
			p, s := solve.Plan(c.s, c.r)
			fresh, left := solve.Afresh(c.s, c.r)
			require.Equal(t, fresh, p)
			require.Equal(t, left, s)
			c = d.change(c)
		}
	})
}
