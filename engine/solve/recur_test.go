package solve_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// tune is a passage whose bars come again: bars holds the first event of each
// bar, by its letter; those with other ornaments prepared in them have another.
type tune struct {
	passage
	bars   map[byte][]int
	length map[byte]int
}

// repeating draws a passage of at most six events in which one or two bars come
// again. What is asked of a bar is asked of each or of some of those alike, never
// something else of another.
func (d drawing) repeating(sites int) tune {
	c := d.passage(4, 0)
	cut := d.among(1, len(c.s.Events))
	one, two := c.s.Events[:cut], c.s.Events[cut:]
	form := pick(d, "aa", "aab", "aba", "abab", "abba", "aaa", "baa")
	for len(form)/2*len(c.s.Events) > 6 {
		form = form[:len(form)-1]
	}
	if twins(one, two) {
		two = nil
	}
	t := tune{c, map[byte][]int{}, map[byte]int{'a': len(one), 'b': len(two)}}
	t.s.Events = nil
	for n := range form {
		bar := one
		if form[n] == 'b' {
			bar = two
		}
		if len(bar) == 0 {
			continue
		}
		t.bars[form[n]] = append(t.bars[form[n]], len(t.s.Events))
		for i, e := range bar {
			e.Bar, e.Notes = n+1, slices.Clone(e.Notes)
			if i == 0 {
				e.Forced, e.Boundary = d.oneIn(6), score.Open
				if len(t.s.Events) > 0 {
					e.Since = t.s.Events[len(t.s.Events)-1].Length
				}
			} else {
				e.Since = bar[i-1].Length
			}
			if i > 0 && d.oneIn(3) {
				e.Boundary = score.Open
			}
			for k := range e.Notes {
				if d.oneIn(3) {
					e.Notes[k].Pin = 0
				}
			}
			t.s.Events = append(t.s.Events, e)
		}
	}
	low, high := int8(127), int8(0)
	for _, e := range t.s.Events {
		low, high = min(low, e.Notes[0].String), max(high, e.Notes[len(e.Notes)-1].String)
	}
	t.s.Gaps = make([]score.Gap, len(t.s.Events)+1)
	for range sites {
		d.site(&t.s, int(low), int(high-low)+1)
	}
	t.tidy()
	for _, letter := range []byte("ab") {
		for _, first := range t.bars[letter][min(1, len(t.bars[letter])):] {
			if d.oneIn(4) {
				continue
			}
			for i := range t.length[letter] {
				t.adorn(first+i, t.bars[letter][0]+i)
			}
		}
	}
	t.tidy()
	t.apart()
	return t
}

// adorn gives one event the ornaments of another.
func (t *tune) adorn(event, like int) {
	for after := range 2 {
		g := &t.s.Gaps[event+after]
		g.Sites = slices.DeleteFunc(slices.Clone(g.Sites), func(x score.Site) bool { return x.After == (after == 1) })
		for _, x := range t.s.Gaps[like+after].Sites {
			if x.After == (after == 1) {
				x.Event = event
				g.Sites = append(g.Sites, x)
			}
		}
		slices.SortFunc(g.Sites, func(a, b score.Site) int {
			if a.After {
				return -1
			}
			return 1
		})
	}
}

// apart gives bars with other written ornaments a letter of their own.
func (t *tune) apart() {
	of := map[string]byte{}
	next := byte('a')
	bars, length := map[byte][]int{}, map[byte]int{}
	for _, letter := range []byte("ab") {
		for _, first := range t.bars[letter] {
			mark := string(letter)
			for i := first; i < first+t.length[letter]; i++ {
				for after := range 2 {
					for _, x := range t.s.Gaps[i+after].Sites {
						for _, o := range x.Ornaments {
							if x.After == (after == 1) && o.Written && o.Likelihood > 0 {
								mark += fmt.Sprint(i-first, after, o.Delay, o.Strokes)
							}
						}
					}
				}
			}
			if of[mark] == 0 {
				of[mark], next = next, next+1
				length[of[mark]] = t.length[letter]
			}
			bars[of[mark]] = append(bars[of[mark]], first)
		}
	}
	t.bars, t.length = bars, length
}

// again gives the letters of the bars that come again.
func (t tune) again() (letters []byte) {
	for letter := byte('a'); t.length[letter] > 0; letter++ {
		if len(t.bars[letter]) > 1 {
			letters = append(letters, letter)
		}
	}
	return letters
}

// twins reports whether the two bars a tune is drawn from are alike themselves.
func twins(one, two []score.Event) bool {
	if len(one) != len(two) {
		return false
	}
	for i := range one {
		x, y := one[i], two[i]
		if x.Length != y.Length || !slices.EqualFunc(x.Notes, y.Notes, func(m, n score.Note) bool { return m.String == n.String }) {
			return false
		}
	}
	return true
}

// crowded reports whether the ornaments of a gap play more strings than the oracle
// has time for.
func (t tune) crowded() bool {
	for j := range t.s.Gaps {
		if len(sounding(&t.s, j)) > most {
			return true
		}
	}
	return false
}

// labellings goes through all ways to finger some bars, those with one letter
// alike: each event's fingers, and whether the hand is set before each but the
// first of a bar.
func (t tune) labellings(letters []byte, found func(c passage)) {
	c := t.copy()
	var slots [][]int
	var inner []bool
	for _, letter := range letters {
		for i := range t.length[letter] {
			var events []int
			for _, first := range t.bars[letter] {
				events = append(events, first+i)
			}
			slots, inner = append(slots, events), append(inner, i > 0)
		}
	}
	var from func(k int)
	from = func(k int) {
		if k == len(slots) {
			found(c)
			return
		}
		kept := make([]score.Event, len(slots[k]))
		for n, e := range slots[k] {
			kept[n] = c.s.Events[e]
		}
		wishes := []score.Boundary{score.Open}
		if inner[k] && !t.s.Events[slots[k][0]].Forced {
			wishes = []score.Boundary{score.Set, score.Stay}
		}
		free := t.s.Events[slots[k][0]]
		free.Notes = slices.Clone(free.Notes)
		for n := range free.Notes {
			free.Notes[n].Pin = 0
		}
		for _, stroke := range takes(&c.s, &c.r, free) {
			for _, wish := range wishes {
				if held(&c.s, slots[k], stroke, wish) {
					from(k + 1)
				}
				for n, e := range slots[k] {
					c.s.Events[e] = kept[n]
				}
			}
		}
	}
	from(0)
}

// held asks for a stroke and a placing at some events, unless something else was
// asked for there.
func held(s *score.Score, events []int, stroke hand.Frame, wish score.Boundary) bool {
	for _, i := range events {
		e := s.Events[i]
		if wish != score.Open && e.Boundary != score.Open && e.Boundary != wish {
			return false
		}
		e.Boundary = max(e.Boundary, wish)
		e.Notes = slices.Clone(e.Notes)
		for n := range e.Notes {
			f := int8(finger(stroke, e.Notes[n].String)) + 1
			if e.Notes[n].Pin != 0 && e.Notes[n].Pin != f {
				return false
			}
			e.Notes[n].Pin = f
		}
		s.Events[i] = e
	}
	return true
}

// size is how many labellings there are at most.
func (t tune) size() int {
	size := 1
	for _, letter := range t.again() {
		for i := range t.length[letter] {
			e := t.s.Events[t.bars[letter][0]+i]
			for n := range e.Notes {
				e.Notes = slices.Clone(e.Notes)
				e.Notes[n].Pin = 0
			}
			size *= max(1, len(takes(&t.s, &t.r, e)))
			if i > 0 {
				size *= 2
			}
		}
	}
	return size
}

// asPlayed asks for what a plan does in the bars that come again, but in one
// (from 0, in played order; -1 for none).
func (t tune) asPlayed(p plan.Plan, but int) passage {
	c := t.copy()
	for _, letter := range t.again() {
		for _, first := range t.bars[letter] {
			if first == but {
				continue
			}
			for i := first; i < first+t.length[letter]; i++ {
				wish := score.Open
				switch {
				case i == first || t.s.Events[i].Forced:
				case p.Bounded(i):
					wish = score.Set
				default:
					wish = score.Stay
				}
				held(&c.s, []int{i}, p.Events[i].Stroke, wish)
			}
		}
	}
	return c
}

// bar gives the first event of the bar that comes again and has an event, else -1.
func (t tune) bar(event int) int {
	for _, letter := range t.again() {
		for _, first := range t.bars[letter] {
			if first <= event && event < first+t.length[letter] {
				return first
			}
		}
	}
	return -1
}

// moving counts the ornaments that could be played if written notes moved.
func moving(p plan.Plan) (n int) {
	for _, g := range p.Gaps {
		for _, fits := range g.Fits {
			for _, f := range fits {
				if f.Ready == plan.PlacedAgain && len(f.Touches) == 0 {
					n++
				}
			}
		}
	}
	return n
}

// check compares an answer with a loop over all ways to finger bars alike alike,
// each asked of the oracle.
func (t tune) check() (wrong string, p plan.Plan) {
	free := consult(&t.s, &t.r)
	p, s := solve.Plan(t.s, t.r)
	if free.best >= never || len(p.Dropped) > 0 {
		return "", plan.Plan{}
	}
	if l := solve.Least(t.s, t.r); l != p.Cost {
		return fmt.Sprintf("Least %d, Plan %d", l, p.Cost), p
	}
	if !assert.ObjectsAreEqual(t.s.Events, s.Events) {
		return "the score that comes back asks for something else", p
	}
	best := never
	t.labellings(t.again(), func(c passage) { best = min(best, consult(&c.s, &c.r).best) })
	switch {
	case best >= never && len(t.again()) == 1:
		if p.Likeness.Figures != 0 || p.Cost != free.best.cost() {
			return "no way to play them alike, and yet it is said so", p
		}
		return "", p
	case best >= never: // one of the two may still be
		return "", p
	case p.Cost != best.cost() || p.Cost != plan.Joint(&t.s, &t.r, &p):
		return fmt.Sprintf("the best is %d, the plan says %d and costs %d", best.cost(), p.Cost, plan.Joint(&t.s, &t.r, &p)), p
	case p.Likeness.Extra != p.Cost-free.best.cost() || p.Likeness.Gap != 0 || p.Likeness.Figures != len(t.again()):
		return fmt.Sprintf("told %+v; it costs %d more", p.Likeness, p.Cost-free.best.cost()), p
	}
	if faults := plan.Judge(&t.s, &t.r, &p); len(faults) > 0 {
		return fmt.Sprint("the plan cannot be played: ", faults), p
	}
	for _, letter := range t.again() {
		for _, first := range t.bars[letter] {
			for i := range t.length[letter] {
				at := t.bars[letter][0] + i
				if p.Events[first+i].Stroke != p.Events[at].Stroke || i > 0 && p.Bounded(first+i) != p.Bounded(at) {
					return fmt.Sprintf("event %d is not played as event %d", first+i+1, at+1), p
				}
			}
		}
	}
	if wrong := t.prices(p); wrong != "" {
		return wrong, p
	}
	return t.offers(p), p
}

// prices checks what each finger costs, in a bar that comes again with that bar
// alone free.
func (t tune) prices(p plan.Plan) string {
	for i, e := range p.Events {
		c := t.asPlayed(p, t.bar(i))
		o := consult(&c.s, &c.r)
		for n := range e.Prices {
			for f, price := range e.Prices[n] {
				want := plan.None
				if o.prices[i][n][f] < plan.None {
					want = max(0, o.best.cost()+o.prices[i][n][f]-p.Cost)
				}
				if price != want {
					return fmt.Sprintf("event %d, note %d, finger %d: price %d, should be %d", i+1, n+1, f+1, price, want)
				}
			}
		}
	}
	return ""
}

// offers checks the ornaments that are never played and could only be if written
// notes moved: what they cost with their bar alone free.
func (t tune) offers(p plan.Plan) string {
	for j, g := range t.s.Gaps {
		for k, x := range g.Sites {
			for i, o := range x.Ornaments {
				fit := p.Gaps[j].Fits[k][i]
				if o.Likelihood > 0 || fit.Ready < plan.PlacedAgain || len(fit.Touches) > 0 {
					continue
				}
				c := t.asPlayed(p, t.bar(x.Event))
				plain := consult(&c.s, &c.r).best
				at := &c.s.Gaps[j].Sites[k]
				room := score.Always - score.NowAndThen
				for n := range at.Ornaments {
					at.Ornaments[n].Likelihood = score.Share(at.Ornaments[n].Likelihood, room)
					room -= at.Ornaments[n].Likelihood
				}
				at.Ornaments[i].Likelihood = score.NowAndThen
				c.s.WeighGap(j)
				with := consult(&c.s, &c.r).best
				switch {
				case with >= never && fit.Ready == plan.NoTime:
				case with >= never || fit.Ready == plan.NoTime:
					return fmt.Sprintf("gap %d, ornament %d: %v, but with it %v", j, i+1, fit.Ready, with)
				case fit.Extra != with.cost()-plain.cost():
					return fmt.Sprintf("gap %d, ornament %d: extra %d, should be %d", j, i+1, fit.Extra, with.cost()-plain.cost())
				}
			}
		}
	}
	return ""
}

func TestBarsAlike(t *testing.T) {
	cases := 300
	if runtime.GOOS == "js" {
		cases = 30
	}
	checked, dearer, unlike, offered := 0, 0, 0, 0
	for n := 0; checked < cases; n++ {
		d := drawing{rand.New(rand.NewPCG(uint64(n), 7))}
		c := d.repeating(d.IntN(3))
		if len(c.again()) == 0 || c.size() > 200 || c.crowded() {
			continue
		}
		wrong, p := c.check()
		require.Empty(t, wrong, "tune %d\n%s", n, c)
		if len(p.Events) == 0 {
			continue
		}
		checked++
		if p.Likeness.Extra > 0 {
			dearer++
		}
		if p.Likeness.Figures == 0 {
			unlike++
		}
		offered += moving(p)
	}
	t.Logf("%d tunes, %d of them dearer for it, %d without a way, %d ornaments for which notes would move", checked, dearer, unlike, offered)
	assert.Greater(t, dearer, cases/8)
	assert.Greater(t, offered, cases/30)
}

// What comes again costs no less for being played alike, and a tune in which
// nothing comes again is played as ever.
func TestNothingComesAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawing{rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "tune"), 8))}
		c := d.repeating(d.IntN(3))
		if c.crowded() {
			return
		}
		p, _ := solve.Plan(c.s, c.r)
		apart := c.copy()
		for i := range apart.s.Events {
			apart.s.Events[i].Bar = 1 // one long bar
		}
		q, _ := solve.Plan(apart.s, apart.r)
		require.Zero(t, q.Likeness)
		require.LessOrEqual(t, q.Cost, p.Cost)
		require.Equal(t, q.Cost+p.Likeness.Extra, p.Cost)
		if p.Likeness.Figures == 0 {
			p.Likeness, q.Likeness = plan.Likeness{}, plan.Likeness{}
			require.Equal(t, q, p)
		}
	})
}

// hard draws a tune of 12 bars of four notes, in which three bars come in any
// order: harder than music.
func (d drawing) hard() passage {
	c := d.passage(4, 0)
	c.r.Hand, _ = hand.New("right", "1234", 1000)
	c.s.Events = nil
	var bars [3][4]int8
	for b := range bars {
		at := d.among(0, 11)
		for i := range bars[b] {
			bars[b][i] = int8(at)
			at = min(11, max(0, at+d.among(-3, 3)))
		}
	}
	for n := range 12 {
		for _, t := range bars[d.IntN(3)] {
			e := score.Event{Bar: n + 1, Length: 250, Since: 250, Notes: []score.Note{{Pass: 1, String: t}}}
			c.s.Events = append(c.s.Events, e)
		}
	}
	c.s.Gaps = make([]score.Gap, len(c.s.Events)+1)
	c.tidy()
	return c
}

// firstBar checks what the fingers of the first bar cost by asking for each, with the
// other bars that come again held as they are.
func (c passage) firstBar(t *testing.T, p plan.Plan) {
	t.Helper()
	c = c.copy()
	for _, f := range c.s.Figures() {
		for _, at := range f.At {
			for i := at; i < at+f.Length; i++ {
				wish := score.Open
				switch {
				case at == 0:
					continue
				case i == at:
				case p.Bounded(i):
					wish = score.Set
				default:
					wish = score.Stay
				}
				held(&c.s, []int{i}, p.Events[i].Stroke, wish)
			}
		}
	}
	for i := range c.s.Events {
		c.s.Events[i].Bar = 1
	}
	for i := range 4 {
		for f := range int8(4) {
			c.s.Events[i].Notes[0].Pin = f + 1
			q, _ := solve.Best(c.s, c.r)
			want := max(0, q.Cost-p.Cost)
			if len(q.Dropped) > 0 {
				want = plan.None
			}
			require.Equal(t, want, p.Events[i].Prices[0][f], "event %d, finger %d", i+1, f+1)
		}
		c.s.Events[i].Notes[0].Pin = 0
	}
}

// What is proved to be the best is what a search through everything finds; what
// is not is not better, and what it might be too dear is said.
func TestHardTunes(t *testing.T) {
	tunes := 40
	if runtime.GOOS == "js" {
		tunes = 5
	}
	long, open := 0, 0
	for n := range tunes {
		c := drawing{rand.New(rand.NewPCG(uint64(n), 9))}.hard()
		p, _ := solve.Plan(c.s, c.r)
		best, looks := solve.Exhausted(c.s, c.r)
		require.LessOrEqual(t, best, p.Cost, "tune %d", n)
		require.LessOrEqual(t, p.Cost-p.Likeness.Gap, best, "tune %d", n)
		if p.Likeness.Gap > 0 {
			open++
		}
		c.firstBar(t, p)
		if looks > 12 {
			long++
		}
	}
	t.Logf("%d tunes, %d of them a long search, %d not settled", tunes, long, open)
	assert.GreaterOrEqual(t, long, tunes/5)
	assert.Less(t, open, tunes/4)
}

// A finger asked for in one bar is taken in all that are like it, and that this is
// the best with it is proved.
func TestAskedInOneBar(t *testing.T) {
	asked, open := 0, 0
	for n := range 8 {
		c := drawing{rand.New(rand.NewPCG(uint64(n), 9))}.hard()
		first := c.s.Figures()[0]
		for f := range 4 {
			c.s.Events[first.At[0]+1].Notes[0].Pin = int8(f + 1)
			p, s := solve.Plan(c.s, c.r)
			if figures := s.Figures(); p.Cost == plan.None || len(p.Dropped) > 0 || len(figures) == 0 {
				continue
			}
			for _, at := range first.At {
				require.Equal(t, c.s.Events[first.At[0]+1].Notes[0].String, p.Events[at+1].Stroke[f], "tune %d, the bar from event %d", n, at+1)
			}
			if asked++; p.Likeness.Gap > 0 {
				open++
			}
		}
	}
	t.Log(asked, open)
	assert.Positive(t, asked)
	assert.Less(t, open, asked/4)
}
