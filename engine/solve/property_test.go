package solve_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// Turning a passage round in time or in pitch is not among these: on the harp it
// is another passage.

// someone draws a passage of up to so many events. It is drawn evenly, from one
// number of rapid's, whose own small numbers would make small passages only.
func someone(t *rapid.T, events int) (drawing, passage) {
	d := drawing{rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "passage"), uint64(events)))}
	c := d.passage(events, d.IntN(4))
	t.Log("\n" + c.String())
	return d, c
}

// answer solves a passage; a draw that leaves something out is another one's
// business, for a smaller tune may be the cheaper one.
func answer(t *rapid.T, c passage) plan.Plan {
	p, _ := solve.Plan(c.s, c.r)
	if p.Cost == plan.None || len(p.Dropped) > 0 {
		t.Skip("not all of it can be played")
	}
	return p
}

// But for strings that still sound no rule knows a register, so a passage is the same anywhere on a harp whose
// strings are evenly spaced.
func TestAnywhereOnTheHarp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 6)
		c.r.Charges[rule.Ringing] = 0
		up := int8(d.among(1, 10))
		c.s.Harp, _ = harp.New(24, pitch.Pitch{Octave: 3}, "C", c.s.Harp.Spacing)
		c.r.Harp = c.s.Harp
		p := answer(t, c)
		higher := c.copy()
		for i := range higher.s.Events {
			for n := range higher.s.Events[i].Notes {
				higher.s.Events[i].Notes[n].String += up
			}
		}
		for j := range higher.s.Gaps {
			for _, x := range higher.s.Gaps[j].Sites {
				for _, o := range x.Ornaments {
					for k := range o.Strokes {
						o.Strokes[k].String += up
					}
				}
			}
		}
		higher.s.Weigh()
		q, _ := solve.Plan(higher.s, higher.r)
		for i := range q.Events {
			down(&q.Events[i].Stroke, up)
		}
		for k := range q.Placings {
			down(&q.Placings[k].Frame, up)
		}
		assert.Equal(t, p, q)
	})
}

func down(frame *hand.Frame, strings int8) {
	for f := range frame {
		if frame[f] != hand.None {
			frame[f] -= strings
		}
	}
}

// The thumb is high in both hands, so both finger alike.
func TestLeftIsRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, c := someone(t, 6)
		other := c.copy()
		other.r.Hand = sized(c.r.Hand, map[string]string{"left": "right", "right": "left"}[c.r.Hand.Name], c.r.Hand.Reach)
		p, s := solve.Plan(c.s, c.r)
		q, u := solve.Plan(other.s, other.r)
		assert.Equal(t, p, q)
		assert.Equal(t, s, u)
	})
}

// sized gives a hand with the same fingers in use.
func sized(h hand.Hand, name string, reach int32) hand.Hand {
	use := ""
	for f, in := range h.InUse {
		if in {
			use += string(rune('1' + f))
		}
	}
	h, ok := hand.New(name, use, reach)
	if !ok {
		panic("no such hand")
	}
	return h
}

// A larger hand never pays more: it reaches all that the smaller one does, and
// nothing is wider for it. This needs a wide stretch to be dearer than an open
// hand, and every finger to be as thick as before (rule.Cramped does not look at
// the reach).
func TestALargerHandNeverPaysMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 6)
		c.r.Charges[rule.StretchMost] = max(c.r.Charges[rule.StretchMost], c.r.Charges[rule.StretchComfortable])
		p := answer(t, c)
		larger := c.copy()
		larger.r.Hand = sized(c.r.Hand, c.r.Hand.Name, c.r.Hand.Reach+int32(d.among(1, 200)))
		assert.LessOrEqual(t, solve.Least(larger.s, larger.r), p.Cost)
	})
}

// A slower tempo never pays more: with all times longer, and also with the quick
// notes of ornaments on the beat as quick as before, so long as no ornament is
// longer than its note: else it pushes the quick ones together.
func TestASlowerTempoNeverPaysMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 6)
		p := answer(t, c)
		slow, quick := int32(d.among(1001, 3000)), d.oneIn(2)
		longer := func(ms int32) int32 { return ms * slow / 1000 }
		slower := c.copy()
		for i := range slower.s.Events {
			e := &slower.s.Events[i]
			e.Since, e.Length = longer(e.Since), longer(e.Length)
		}
		for j := range slower.s.Gaps {
			for _, x := range slower.s.Gaps[j].Sites {
				for k := range x.Ornaments {
					o := &x.Ornaments[k]
					if quick && !x.After && o.Strokes[0].At >= 0 {
						continue
					}
					o.Delay = longer(o.Delay)
					for n := range o.Strokes {
						o.Strokes[n].At = longer(o.Strokes[n].At)
					}
				}
			}
		}
		slower.s.Weigh()
		if quick && slices.ContainsFunc(slower.s.Gaps, runsOver) {
			t.Skip("an ornament longer than its note")
		}
		assert.LessOrEqual(t, solve.Least(slower.s, slower.r), p.Cost)
	})
}

// runsOver reports whether what follows a note runs into what stands before the
// next: whether a stroke waits for the one before it.
func runsOver(g score.Gap) bool {
	return len(g.Sites) == 2 && slices.ContainsFunc(g.Patterns, func(p score.Pattern) bool {
		return len(p.Since) > 0 && slices.Contains(p.Since[1:], 0)
	})
}

// A pin never makes a fingering cheaper; it costs the price that was told.
func TestAPinCostsItsPrice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 8)
		p := answer(t, c)
		i := d.IntN(len(c.s.Events))
		n, f := d.IntN(len(c.s.Events[i].Notes)), d.IntN(4)
		if c.s.Events[i].Notes[n].Pin != 0 {
			t.Skip("pinned already")
		}
		pinned := c.copy()
		pinned.s.Events[i].Notes[n].Pin = int8(f + 1)
		q, _ := solve.Plan(pinned.s, pinned.r)
		price := p.Events[i].Prices[n][f]
		if price == plan.None {
			assert.NotEmpty(t, q.Dropped)
			return
		}
		assert.Empty(t, q.Dropped)
		assert.Equal(t, p.Cost+price, q.Cost)
		assert.Equal(t, f, q.Events[i].Finger(pinned.s.Events[i].Notes[n].String))
	})
}

// What is never played bends nothing: the plan is the one without it.
func TestNeverIsNotThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 6)
		never, none := c.copy(), c.copy()
		j := d.IntN(len(c.s.Gaps))
		none.s.Gaps[j] = score.Gap{}
		for k := range never.s.Gaps[j].Sites {
			for o := range never.s.Gaps[j].Sites[k].Ornaments {
				never.s.Gaps[j].Sites[k].Ornaments[o].Likelihood = 0
			}
		}
		never.s.Weigh()
		none.s.Weigh()
		p, _ := solve.Plan(never.s, never.r)
		q, _ := solve.Plan(none.s, none.r)
		assert.Equal(t, bare(q), bare(p))
	})
}

// bare is a plan without what is said of ornaments that are never played.
func bare(p plan.Plan) plan.Plan {
	p.Gaps = slices.Clone(p.Gaps)
	for j := range p.Gaps {
		p.Gaps[j].Fits = nil
	}
	return p
}

// A rest parts a tune: it costs what its two parts cost, and the time of the
// placing after the rest, which is nothing once h is 0. (An ornament in the rest
// itself belongs to both parts, so there is none.)
func TestARestPartsTheTune(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, a := someone(t, 5)
		b := d.passage(5, d.IntN(4))
		b.r = a.r
		b.s.Harp = a.s.Harp
		a.s.Gaps[len(a.s.Events)] = score.Gap{}
		b.s.Gaps[0] = score.Gap{}
		a.tidy()
		b.tidy()
		p, q := answer(t, a), answer(t, b)
		whole := a.copy()
		ms := int32(d.among(100, 1500))
		rest := len(a.s.Events)
		whole.s.Events = append(whole.s.Events, b.copy().s.Events...)
		whole.s.Gaps = append(whole.s.Gaps[:rest], b.copy().s.Gaps...)
		whole.tidy()
		whole.s.Events[rest].Since, whole.s.Events[rest].Forced = ms, true
		whole.s.Weigh()
		time := plan.Cost(a.r.Charges[rule.PlacingTime]*rule.Hurry(ms)/1000) * score.Whole
		assert.Equal(t, p.Cost+q.Cost+time, solve.Least(whole.s, whole.r))
	})
}

// Longer tunes than the oracle's: the plan costs what it says, it can be played,
// the shown finger is the cheapest on every note, so alpha and beta add up to the
// same at every event.
func TestLongTunesHoldTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, c := someone(t, 40)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost == plan.None {
			t.Skip("not all of it can be held")
		}
		assert.Equal(t, p.Cost, plan.Joint(&s, &c.r, &p))
		assert.Empty(t, plan.Judge(&s, &c.r, &p))
		for i, e := range p.Events {
			for n, note := range s.Events[i].Notes {
				assert.Zero(t, slices.Min(e.Prices[n][:]))
				assert.Zero(t, e.Prices[n][e.Finger(note.String)])
			}
		}
	})
}

// The judge and the definition agree on what a hand can play, though the one
// knows nothing of costs: they are asked about good plans with one thing changed.
func TestTheJudgeAgreesWithTheCost(t *testing.T) {
	bars := []plan.Kind{plan.FingerNotInUse, plan.OutOfOrder, plan.OutOfReach, plan.TwoStrings, plan.NoWork,
		plan.NotHeld, plan.NotThere, plan.BackAgain, plan.NoTimeToDrop, plan.NoTimeToPlay, plan.NotAsUsual}
	agreed := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		d, c := someone(t, 4)
		c = d.housed(c)
		p, s := solve.Plan(c.s, c.r)
		if p.Cost == plan.None {
			t.Skip("no plan to spoil")
		}
		d.spoil(&s, &p)
		hard := slices.ContainsFunc(plan.Judge(&s, &c.r, &p), func(f plan.Fault) bool { return slices.Contains(bars, f.Kind) })
		agreed[hard]++
		assert.Equal(t, hard, plan.Joint(&s, &c.r, &p) == plan.None, "%v\n%s\n%+v", plan.Judge(&s, &c.r, &p), c, p)
	})
	require.NotZero(t, agreed[true])
	require.NotZero(t, agreed[false])
}

// spoil changes one thing in a plan, or in the times of its score.
func (d drawing) spoil(s *score.Score, p *plan.Plan) {
	k := d.IntN(len(p.Placings))
	i := d.IntN(len(p.Events))
	f := d.IntN(4)
	t := int8(d.IntN(len(s.Harp.Strings)))
	pl := &p.Placings[k]
	switch d.IntN(7) {
	case 0:
		pl.Frame[f] = t
	case 1:
		pl.Frame[f], pl.Kept[f] = t, true
	case 2:
		pl.Kept[f], pl.Free[f] = pl.Free[f], pl.Kept[f]
	case 3:
		p.Events[i].Stroke[f] = t
	default:
		for j := range s.Gaps {
			for n := 1; n < len(s.Gaps[j].Patterns); n++ {
				way := p.Gaps[j].Ways[n]
				x := d.IntN(len(way))
				switch d.IntN(4) {
				case 0:
					way[x].From = plan.From(d.IntN(3))
				case 1:
					way[x].Finger = int8(f)
				case 2:
					s.Gaps[j].Patterns[n].Since[x] = int32(d.IntN(500))
				default:
					s.Gaps[j].Patterns[n].Last = int32(d.IntN(300))
				}
				if d.oneIn(2) {
					return
				}
			}
		}
	}
}
