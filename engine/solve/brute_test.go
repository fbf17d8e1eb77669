package solve_test

import (
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// The oracle itself is held against a bare loop: every complete plan of a very
// short passage, each asked for its plan.Joint, with nothing left out beforehand
// but frames that no hand can hold.

type brute struct {
	s      *score.Score
	r      *rule.Rules
	best   worth
	first  []hand.Frame
	prices [][][4]worth
	asked  int
}

func loop(s *score.Score, r *rule.Rules) *brute {
	b := &brute{s: s, r: r, best: never}
	for _, e := range s.Events {
		all := make([][4]worth, len(e.Notes))
		for n := range all {
			all[n] = [4]worth{never, never, never, never}
		}
		b.prices = append(b.prices, all)
	}
	p := plan.Plan{Gaps: make([]plan.Gap, len(s.Gaps))}
	for j, g := range s.Gaps {
		p.Gaps[j].Ways = make([][]plan.Touch, len(g.Patterns))
	}
	b.events(p)
	return b
}

// events goes through the strokes of every event and the boundaries before it.
func (b *brute) events(p plan.Plan) {
	i := len(p.Events)
	if i == len(b.s.Events) {
		b.frames(p, 0)
		return
	}
	for _, stroke := range takes(b.s, b.r, b.s.Events[i]) {
		for _, bounded := range []bool{false, true} {
			q := p
			q.Placings = slices.Clone(p.Placings)
			switch {
			case bounded && i > 0 && !mayPlace(b.s, i), !bounded && (i == 0 || !goesOn(b.s, i)):
				continue
			case bounded:
				q.Placings = append(q.Placings, plan.Placing{First: i, Last: i, Frame: stroke})
			default:
				pl := &q.Placings[len(q.Placings)-1]
				pl.Last = i
				for f, t := range stroke {
					if t != hand.None {
						pl.Frame[f] = t // a finger on two strings is barred by the frame
					}
				}
			}
			q.Events = append(slices.Clip(p.Events), plan.Event{Stroke: stroke, Placing: len(q.Placings) - 1})
			b.events(q)
		}
	}
}

// frames goes through what fingers 4k to 4k+3, those of placing k, may hold
// besides.
func (b *brute) frames(p plan.Plan, at int) {
	if at == 4*len(p.Placings) {
		b.ways(p, 0, 1)
		return
	}
	b.frames(p, at+1)
	k, f := at/4, at%4
	pl := p.Placings[k]
	if pl.Frame[f] != hand.None {
		return
	}
	for t := range int8(len(b.s.Harp.Strings)) {
		if !b.heard(t, pl) || !b.r.Hand.Takes(b.r.Harp, pl.Frame, f, t) {
			continue
		}
		for _, kept := range []bool{false, true} {
			q := p
			q.Placings = slices.Clone(p.Placings)
			x := &q.Placings[k]
			x.Frame[f], x.Kept[f], x.Free[f] = t, kept, !kept
			b.frames(q, at+1)
		}
	}
}

// heard reports whether an ornament beside or in a placing plays a string.
func (b *brute) heard(t int8, pl plan.Placing) bool {
	for j := pl.First; j <= pl.Last+1; j++ {
		if slices.Contains(sounding(b.s, j), t) {
			return true
		}
	}
	return false
}

// ways goes through the fingers and frames of every stroke of every ornament.
func (b *brute) ways(p plan.Plan, j, k int) {
	switch {
	case j == len(b.s.Gaps):
		b.ask(p)
	case k == len(b.s.Gaps[j].Patterns):
		b.ways(p, j+1, 1)
	case len(p.Gaps[j].Ways[k]) == len(b.s.Gaps[j].Patterns[k].Strings):
		b.ways(p, j, k+1)
	default:
		before := p.Gaps[j].Ways[k]
		for f := range int8(4) {
			for from := plan.Left; from <= plan.Right; from++ {
				p.Gaps[j].Ways[k] = append(slices.Clip(before), plan.Touch{Finger: f, From: from})
				b.ways(p, j, k)
			}
		}
		p.Gaps[j].Ways[k] = before
	}
}

func (b *brute) ask(p plan.Plan) {
	b.asked++
	cost := plan.Joint(b.s, b.r, &p)
	if cost >= plan.None {
		return
	}
	w := worth(cost)<<asCost + worth(plan.Second(b.s, &p))*asSecond
	var strokes []hand.Frame
	for i, e := range p.Events {
		strokes = append(strokes, e.Stroke)
		if e.Stroke[3] != hand.None {
			w += asFourth
		}
		if i > 0 && p.Bounded(i) && !b.s.Events[i].Forced {
			w += moved(b.r.Across(&rule.Bill{}, crossing(b.s, i, p.Events[i-1].Stroke, e.Stroke, p.Held(b.s, i))))
		}
		for n, note := range b.s.Events[i].Notes {
			at := &b.prices[i][n][finger(e.Stroke, note.String)]
			*at = min(*at, worth(cost)<<asCost)
		}
	}
	o := oracle{s: b.s}
	if w < b.best || w == b.best && o.earlier(strokes, b.first) {
		b.best, b.first = w, strokes
	}
}

// earlier reports whether the one fingering has the smaller fingers where the
// two first differ.
func (o *oracle) earlier(a, b []hand.Frame) bool {
	for i := range a {
		if a[i] != b[i] {
			return o.smaller(i, a[i], b[i])
		}
	}
	return false
}

// tiny draws a passage that a bare loop can go through.
func tiny(n int) (passage, bool) {
	d := drawing{rand.New(rand.NewPCG(uint64(n), 1))}
	c := d.housed(d.passage(3, 1+d.IntN(2)))
	strokes, fingers := 0, 0
	for _, g := range c.s.Gaps {
		for _, p := range g.Patterns {
			strokes += len(p.Strings)
		}
	}
	for _, in := range c.r.Hand.InUse {
		if in {
			fingers++
		}
	}
	small := len(c.s.Events) == 2 && (fingers < 3 && strokes <= 3 || strokes <= 2) || len(c.s.Events) == 3 && fingers < 3 && strokes == 1
	return c, small && strokes > 0
}

func TestOracleIsABareLoop(t *testing.T) {
	most := 60
	if runtime.GOOS == "js" {
		most = 6
	}
	asked, playable := 0, 0
	for n, done := 0, 0; done < most; n++ {
		c, ok := tiny(n)
		if !ok {
			continue
		}
		done++
		b, o := loop(&c.s, &c.r), consult(&c.s, &c.r)
		require.Equal(t, b.best, o.best, "passage %d\n%s", n, c)
		asked += b.asked
		if b.best >= never {
			continue
		}
		playable++
		require.Equal(t, b.first, o.first(), "passage %d\n%s", n, c)
		for i := range b.prices {
			for k := range b.prices[i] {
				for f, w := range b.prices[i][k] {
					want := plan.None
					if w < never {
						want = w.cost() - b.best.cost()
					}
					require.Equal(t, want, o.prices[i][k][f], "passage %d, event %d, note %d, finger %d\n%s", n, i+1, k+1, f+1, c)
				}
			}
		}
	}
	t.Logf("%d passages, %d of them playable, %d complete plans", most, playable, asked)
	assert.Greater(t, playable, most/3)
}
