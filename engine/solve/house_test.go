package solve_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// A house fingering is followed at every place of a tune, also where others would
// be cheaper or as cheap (K29; common practice, no source). Fingers of an ornament
// are those of its strokes and its note as they are played.
func TestOneWayEverywhere(t *testing.T) {
	for _, row := range []struct {
		why, passage string
		house        [][]int8
		want         []string
		free         bool // nothing costs anything
	}{
		{"left alone, the cut is what its neighbours make of it", "0:cut +2 _ 0:cut -1 -2", nil, []string{"2 3", "1 2"}, false},
		{"always with the thumb", "0:cut +2 _ 0:cut -1 -2", [][]int8{{0, 1}}, []string{"1 2", "1 2"}, false},
		{"always without", "0:cut +2 _ 0:cut -1 -2", [][]int8{{1, 2}}, []string{"2 3", "2 3"}, false},
		{"of two the cheaper each time", "0:cut +2 _ 0:cut -1 -2", [][]int8{{0, 1}, {1, 2}}, []string{"2 3", "1 2"}, false},
		{"three strokes, then up or down", "0:three-strokes +3 _ 0:three-strokes -1 -2", [][]int8{{2, 1, 0}, {3, 2, 1}}, []string{"4 3 2", "3 2 1"}, false},
		{"and in the one way", "0:three-strokes +3 _ 0:three-strokes -1 -2", [][]int8{{2, 1, 0}}, []string{"3 2 1", "3 2 1"}, false},
		{"where all is as cheap, the first", "0:cut", [][]int8{{1, 3}, {0, 2}}, []string{"2 4"}, true},
		{"and the other way round", "0:cut", [][]int8{{0, 2}, {1, 3}}, []string{"1 3"}, true},
	} {
		x := try(t, 14500, "right", "1234", 500)
		s := x.write(row.passage)
		for j := range s.Gaps {
			for _, x := range s.Gaps[j].Sites {
				x.Ornaments[0].House = row.house
			}
		}
		s.Weigh()
		r := x.rules
		if row.free {
			r.Charges = rule.Charges{}
		}
		p, solved := solve.Plan(s, r)
		var got []string
		for j, g := range solved.Gaps {
			for _, x := range g.Sites {
				text := ""
				for _, touch := range p.Gaps[j].Fits[0][0].Touches {
					text += fmt.Sprint(touch.Finger+1, " ")
				}
				got = append(got, text+fmt.Sprint(p.Events[x.Event].Finger(solved.Adorned(x))+1))
			}
		}
		assert.Equal(t, row.want, got, row.why)
		assert.Empty(t, p.Dropped, row.why)
	}
}

// housed puts house fingerings on some of a passage's chords and ornaments.
func (d drawing) housed(c passage) passage {
	for i := range c.s.Events {
		if e := &c.s.Events[i]; len(e.Notes) > 1 && d.oneIn(3) || d.oneIn(30) {
			e.House = d.chordHouse(&c, e.Notes)
		}
	}
	for j := range c.s.Gaps {
		for _, x := range c.s.Gaps[j].Sites {
			for i := range x.Ornaments {
				if d.oneIn(3) {
					x.Ornaments[i].House = d.ornamentHouse(&c.s, x, x.Ornaments[i])
				}
			}
		}
	}
	c.s.Weigh()
	return c
}

// chordHouse draws one or two house fingerings of a chord, now and then ones that
// no hand can take.
func (d drawing) chordHouse(c *passage, notes []score.Note) [][]int8 {
	var strings []int8
	for _, n := range notes {
		strings = append(strings, n.String)
	}
	can := c.r.Hand.Fingerings(c.r.Harp, strings)
	var list [][]int8
	for range pick(d, 1, 1, 2) {
		way := make([]int8, len(notes))
		for i := range way {
			way[i] = int8(d.IntN(4))
			if len(can) > 0 && !d.oneIn(8) {
				way[i] = int8(finger(can[d.IntN(len(can))], strings[i]))
			}
		}
		if len(can) > 0 && !d.oneIn(5) {
			all := can[d.IntN(len(can))]
			for i, t := range strings {
				way[i] = int8(finger(all, t))
			}
		}
		list = withWay(list, way)
	}
	return list
}

// ornamentHouse draws one or two house fingerings of an ornament: a finger for each
// string, in order, but now and then as it comes.
func (d drawing) ornamentHouse(s *score.Score, x score.Site, o score.Ornament) [][]int8 {
	main := s.Events[x.Event].Notes[0].String
	var on []int8
	for _, stroke := range o.Strokes {
		on = append(on, stroke.String)
	}
	if x.After {
		on = append([]int8{main}, on...)
	} else {
		on = append(on, main)
	}
	down := slices.Clone(on)
	slices.Sort(down)
	slices.Reverse(down)
	down = slices.Compact(down)
	var list [][]int8
	for range pick(d, 1, 1, 2) {
		way := make([]int8, len(on))
		first := d.IntN(max(1, 5-len(down)))
		for i, t := range on {
			way[i] = min(3, int8(first+slices.Index(down, t)))
			if d.oneIn(12) {
				way[i] = int8(d.IntN(4))
			}
		}
		list = withWay(list, way)
	}
	return list
}

func withWay(list [][]int8, way []int8) [][]int8 {
	if slices.ContainsFunc(list, func(w []int8) bool { return slices.Equal(w, way) }) {
		return list
	}
	return append(list, way)
}

// asUsual tells house fingerings.
func asUsual(ways [][]int8) string {
	if len(ways) == 0 {
		return ""
	}
	var list []string
	for _, way := range ways {
		text := ""
		for _, f := range way {
			text += fmt.Sprint(f + 1)
		}
		list = append(list, text)
	}
	return ", always " + strings.Join(list, " or ")
}

// liked says which of an event's house fingerings a stroke is, 0 the first; 0 too
// where it has none, -1 where it is another.
func liked(e score.Event, stroke hand.Frame) int {
	for rank, way := range e.House {
		same := true
		for i, n := range e.Notes {
			same = same && finger(stroke, n.String) == int(way[i])
		}
		if same {
			return rank
		}
	}
	if len(e.House) > 0 {
		return -1
	}
	return 0
}

// usual says how often the fingers of what sounds in a gap are a second house
// fingering, -1 where they are none of them.
func (o *oracle) usual(x scene, k int, touches []plan.Touch) (seconds int) {
	for at, site := range o.s.Gaps[x.gap].Sites {
		which := o.s.Gaps[x.gap].Patterns[k].Sounds[at]
		if which < 0 {
			continue
		}
		ornament := site.Ornaments[which]
		stroke, event := x.right, o.s.Events[site.Event]
		if site.After {
			stroke = x.left
		}
		main := finger(stroke, event.Notes[slices.IndexFunc(event.Notes, func(n score.Note) bool { return n.Written == site.Written })].String)
		rank := slices.IndexFunc(ornament.House, func(way []int8) bool {
			note, others := way[len(way)-1], way[:len(way)-1]
			if site.After {
				note, others = way[0], way[1:]
			}
			for n, f := range others {
				if touches[n].Finger != f {
					return false
				}
			}
			return int(note) == main
		})
		touches = touches[len(ornament.Strokes):]
		if len(ornament.House) > 0 && rank < 0 {
			return -1
		}
		seconds += max(0, rank)
	}
	return seconds
}

// houses checks what a plan says of its house fingerings, by asking again without
// them: without all, and without one after the other.
func (o *oracle) houses(p plan.Plan) string {
	told := 0
	for _, h := range p.House {
		if h.Followed {
			told++
		}
	}
	there := 0
	without := func(free score.Score) plan.Cost {
		free.Weigh()
		return o.best.cost() - consult(&free, o.r).best.cost()
	}
	extra := func(event, gap, site, which int) string {
		there++
		at := slices.IndexFunc(p.House, func(h plan.House) bool {
			return h.Followed && h.Event == event && h.Gap == gap && h.Site == site && h.Which == which
		})
		if at < 0 {
			return "a house fingering is not told of"
		}
		c, ways := passage{*o.s, *o.r}.copy(), [][]int8(nil)
		if gap >= 0 {
			ornament := &c.s.Gaps[gap].Sites[site].Ornaments[which]
			ways, ornament.House = ornament.House, nil
		} else {
			ways, c.s.Events[event].House = c.s.Events[event].House, nil
		}
		if !slices.ContainsFunc(ways, func(way []int8) bool { return slices.Equal(way, p.House[at].Fingers) }) {
			return fmt.Sprintf("fingers %v are none of %v", p.House[at].Fingers, ways)
		}
		if want := without(c.s); p.House[at].Extra != want {
			return fmt.Sprintf("house fingering %+v costs %d", p.House[at], want)
		}
		return ""
	}
	for j, g := range o.s.Gaps {
		for k, x := range g.Sites {
			for i, ornament := range x.Ornaments {
				if len(ornament.House) > 0 && ornament.Likelihood > 0 {
					if wrong := extra(-1, j, k, i); wrong != "" {
						return wrong
					}
				}
			}
		}
		if j < len(o.s.Events) && len(o.s.Events[j].House) > 0 {
			if wrong := extra(j, -1, 0, 0); wrong != "" {
				return wrong
			}
		}
	}
	if told != there {
		return fmt.Sprintf("%d house fingerings are told of, there are %d", told, there)
	}
	if want := without(o.s.Free()); p.Usual != want {
		return fmt.Sprintf("the house costs %d, should be %d", p.Usual, want)
	}
	return ""
}

// In bars that come again house fingerings are followed as elsewhere, and each
// costs what its own bar alone would save without it.
func TestOneWayInBarsAlike(t *testing.T) {
	cases := 120
	if runtime.GOOS == "js" {
		cases = 12
	}
	checked, dear := 0, 0
	for n := 0; checked < cases; n++ {
		d := drawing{rand.New(rand.NewPCG(uint64(n), 9))}
		c := d.repeating(d.IntN(3))
		c.asUsual(d)
		if len(c.again()) == 0 || c.size() > 200 || c.crowded() || !c.s.Housed() {
			continue
		}
		wrong, p := c.check()
		require.Empty(t, wrong, "tune %d\n%s", n, c)
		if len(p.Events) == 0 || p.Likeness.Figures < len(c.again()) {
			continue
		}
		checked++
		require.Empty(t, c.housePrices(p), "tune %d\n%s", n, c)
		for _, h := range p.House {
			if h.Extra > 0 {
				dear++
			}
		}
	}
	t.Logf("%d tunes, %d house fingerings that cost something", checked, dear)
	assert.Greater(t, dear, cases/10)
}

// asUsual puts house fingerings on a tune: on chords alike the same, on ornaments
// that are prepared.
func (t *tune) asUsual(d drawing) {
	t.passage = d.housed(t.passage)
	for letter, first := range t.bars {
		for i := range t.length[letter] {
			for _, at := range first {
				t.s.Events[at+i].House = t.s.Events[first[0]+i].House
			}
		}
	}
	for j := range t.s.Gaps {
		for _, x := range t.s.Gaps[j].Sites {
			for i := range x.Ornaments {
				if x.Ornaments[i].Likelihood == 0 {
					x.Ornaments[i].House = nil
				}
			}
		}
	}
	t.s.Weigh()
}

// housePrices checks what house fingerings cost: all of them with bars alike
// alike, each with its bar alone free.
func (t tune) housePrices(p plan.Plan) string {
	free := t
	free.s = t.s.Free()
	least := never
	free.labellings(t.again(), func(c passage) { least = min(least, consult(&c.s, &c.r).best) })
	if want := p.Cost - least.cost(); p.Usual != want {
		return fmt.Sprintf("the house costs %d, should be %d", p.Usual, want)
	}
	for _, h := range p.House {
		event := h.Event
		if h.Gap >= 0 {
			event = t.s.Gaps[h.Gap].Sites[h.Site].Event
		}
		c := t.asPlayed(p, t.bar(event))
		with := consult(&c.s, &c.r).best.cost()
		if h.Gap >= 0 {
			c.s.Gaps[h.Gap].Sites[h.Site].Ornaments[h.Which].House = nil
		} else {
			c.s.Events[event].House = nil
		}
		c.s.Weigh()
		want := with - consult(&c.s, &c.r).best.cost()
		if p.Usual == 0 {
			want = 0
		}
		if h.Extra != want {
			return fmt.Sprintf("house fingering %+v costs %d", h, want)
		}
	}
	return ""
}
