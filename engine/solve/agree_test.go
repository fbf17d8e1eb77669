package solve_test

import (
	"flag"
	"fmt"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

var (
	cases = flag.Int("cases", 0, "how many drawn passages the solver is compared on; 0: as many as the suite has time for")
	only  = flag.Int("passage", -1, "the one drawn passage to compare on")
)

// compare gives what is wrong with the solver's answer to a passage, by the
// oracle; nothing is "".
func compare(c passage) (wrong string, p plan.Plan, s score.Score) {
	defer func() {
		if e := recover(); e != nil {
			wrong = fmt.Sprint("panic: ", e)
		}
	}()
	kept := c.copy()
	p, s = solve.Plan(c.s, c.r)
	if !assert.ObjectsAreEqual(kept.s, c.s) {
		return "the score given was altered", p, s
	}
	if l := solve.Least(c.s, c.r); l != p.Cost {
		return fmt.Sprintf("Least %d, Plan %d", l, p.Cost), p, s
	}
	full := consult(&c.s, &c.r)
	if full.best < never && len(p.Dropped) > 0 {
		return fmt.Sprintf("dropped %v, but all can be played for %d", p.Dropped, full.best.cost()), p, s
	}
	if full.best >= never && len(p.Dropped) == 0 && p.Cost < plan.None {
		return fmt.Sprintf("cost %d, but it cannot be played", p.Cost), p, s
	}
	held := !slices.ContainsFunc(c.s.Events, func(e score.Event) bool {
		e.Notes, e.House = slices.Clone(e.Notes), nil
		for i := range e.Notes {
			e.Notes[i].Pin = 0
		}
		return len(takes(&c.s, &c.r, e)) == 0
	})
	if !held {
		if p.Cost != plan.None || len(p.Events) != 0 {
			return "a plan of what no hand can hold", p, s
		}
		return "", p, s
	}
	o := full
	if len(p.Dropped) > 0 {
		o = consult(&s, &c.r)
		if wrong := needless(c, p, s); wrong != "" {
			return wrong, p, s
		}
	}
	return o.judge(p), p, s
}

// needless looks whether anything was left out that could have been played with
// all the rest that was not. Ornaments are tried one by one; where a site is
// never silent, the last of them can take silence itself away, and with it what
// stood in the way of an earlier one, so such gaps are not held to it.
func needless(c passage, p plan.Plan, s score.Score) string {
	left := passage{s, c.r}
	could := func(put func(*score.Score)) bool {
		q := left.copy()
		put(&q.s)
		q.s.Weigh()
		return consult(&q.s, &q.r).best < never
	}
	for _, d := range p.Dropped {
		if len(d.House) > 0 {
			if could(func(s *score.Score) {
				if d.Gap >= 0 {
					s.Gaps[d.Gap].Sites[d.Site].Ornaments[d.Which].House = d.House
				} else {
					s.Events[d.Event].House = d.House
				}
			}) {
				return fmt.Sprintf("a house fingering was left out for nothing: %+v", d)
			}
			continue
		}
		if d.Gap >= 0 {
			if always(c.s.Gaps[d.Gap]) {
				continue
			}
			if could(func(s *score.Score) {
				s.Gaps[d.Gap].Sites[d.Site].Ornaments[d.Which] = c.s.Gaps[d.Gap].Sites[d.Site].Ornaments[d.Which]
			}) {
				return fmt.Sprintf("left out for nothing: %+v", d)
			}
			continue
		}
		was, is := c.s.Events[d.Event], s.Events[d.Event]
		if was.Boundary != is.Boundary && could(func(s *score.Score) { s.Events[d.Event].Boundary = was.Boundary }) {
			return fmt.Sprintf("the wish about placing the hand before event %d was left out for nothing", d.Event+1)
		}
		for n := range was.Notes {
			if was.Notes[n].Pin != is.Notes[n].Pin && could(func(s *score.Score) { s.Events[d.Event].Notes[n].Pin = was.Notes[n].Pin }) {
				return fmt.Sprintf("the finger asked for on note %d of event %d was left out for nothing", n+1, d.Event+1)
			}
		}
	}
	return ""
}

// always reports whether a gap has a site at which something always sounds.
func always(g score.Gap) bool {
	return slices.ContainsFunc(g.Sites, func(x score.Site) bool { return others(x) == 16 })
}

// judge compares a plan with the best of its own score.
func (o *oracle) judge(p plan.Plan) string {
	if o.best >= never {
		return "no plan of the score that is left"
	}
	if joint := plan.Joint(o.s, o.r, &p); joint != o.best.cost() || p.Cost != joint {
		return fmt.Sprintf("the best is %d, the plan says %d and costs %d", o.best.cost(), p.Cost, joint)
	}
	if faults := plan.Judge(o.s, o.r, &p); len(faults) > 0 {
		return fmt.Sprint("the plan cannot be played: ", faults)
	}
	for i, e := range p.Events {
		for n := range e.Prices {
			for f, price := range e.Prices[n] {
				if price != o.prices[i][n][f] {
					return fmt.Sprintf("event %d, note %d, finger %d: price %d, should be %d", i+1, n+1, f+1, price, o.prices[i][n][f])
				}
			}
		}
	}
	if wrong := o.moves(p); wrong != "" {
		return wrong
	}
	var strokes []hand.Frame
	for _, e := range p.Events {
		strokes = append(strokes, e.Stroke)
	}
	if first := o.first(); !slices.Equal(first, strokes) {
		return fmt.Sprintf("as good, and first: %v, not %v", first, strokes)
	}
	if n := plan.Second(o.s, &p); n != o.best.seconds() {
		return fmt.Sprintf("%d house fingerings are the second in liking, should be %d", n, o.best.seconds())
	}
	if wrong := o.fits(p); wrong != "" {
		return wrong
	}
	if wrong := o.houses(p); wrong != "" {
		return wrong
	}
	return o.sharing(p)
}

// moves checks how the hand is said to get to each placing.
func (o *oracle) moves(p plan.Plan) string {
	for k, pl := range p.Placings {
		want := rule.SetAnew
		if e := o.s.Events[pl.First]; k > 0 && !e.Forced {
			want = o.r.Across(&rule.Bill{}, crossing(o.s, pl.First, p.Events[pl.First-1].Stroke, p.Events[pl.First].Stroke, p.Held(o.s, pl.First)))
		}
		if pl.Move != want {
			return fmt.Sprintf("placing %d: move %v, should be %v", k+1, pl.Move, want)
		}
	}
	return ""
}

// sharing checks the price of keeping every decision open.
func (o *oracle) sharing(p plan.Plan) string {
	bare := *o.s
	bare.Gaps = make([]score.Gap, len(o.s.Gaps))
	bare.Weigh()
	plain := consult(&bare, o.r)
	silent := plan.Sum(o.s, o.r, &p, plan.Silent(o.s), false)
	if want := plan.Cost(silent.Sum*score.Whole) - plain.best.cost(); solve.Sharing(*o.s, *o.r, &p) != want {
		return fmt.Sprintf("sharing %d, should be %d", solve.Sharing(*o.s, *o.r, &p), want)
	}
	return ""
}

func TestOracle(t *testing.T) {
	n := *cases
	if n == 0 {
		n = 10000
		if runtime.GOOS == "js" {
			n = 200
		}
	}
	if *only >= 0 {
		c := draw(*only)
		t.Log("\n" + c.String())
		wrong, p, s := compare(c)
		t.Log("\n" + told(p, s))
		require.Empty(t, wrong)
		return
	}
	seen, bad := agree(n)
	for _, i := range bad[:min(5, len(bad))] {
		wrong, _, _ := compare(draw(i))
		small := draw(i).shrink(func(p passage) bool { w, _, _ := compare(p); return w != "" })
		why, q, left := compare(small)
		t.Errorf("passage %d: %s\nthe smallest like it: %s\n%s%s", i, wrong, why, small, told(q, left))
	}
	t.Logf("%d drawn passages, %d answered otherwise than by the oracle; what they had in them:", n, len(bad))
	seen.report(t, n >= 2000)
}

// agree compares the first n drawn passages, as many at a time as there are
// processors: what they had in them, and those that are answered wrongly.
func agree(n int) (seen variety, bad []int) {
	var next atomic.Int64
	var at sync.Mutex
	var all sync.WaitGroup
	seen = variety{}
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			own := variety{}
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				c := draw(i)
				wrong, p, s := compare(c)
				if wrong == "" {
					own.count(c, p, s)
					continue
				}
				at.Lock()
				bad = append(bad, i)
				at.Unlock()
			}
			at.Lock()
			defer at.Unlock()
			for kind, times := range own {
				seen[kind] += times
			}
		})
	}
	all.Wait()
	slices.Sort(bad)
	return seen, bad
}
