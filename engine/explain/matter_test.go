package explain

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// Every rule belongs to one matter, so that none is left out of a reason.
func TestMattersHoldEveryRule(t *testing.T) {
	var seen [rule.Count]int
	for _, m := range matters {
		assert.NotEmpty(t, m.more)
		assert.NotEmpty(t, m.less)
		for _, id := range m.rules {
			seen[id]++
		}
	}
	for id, n := range seen {
		assert.Equal(t, 1, n, rule.Rows()[id].Name)
	}
	assert.Contains(t, matters[settings].rules, rule.NewPlacing)
	assert.Less(t, len(matters), 32, "they fit in a set")
}

// wander is a random passage without ornaments, now and then a rest in it.
func wander(t testing.TB, draw *rand.Rand) (score.Score, rule.Rules) {
	given, r, _ := passage(t)
	s := score.Score{Harp: given.Harp, Raised: given.Raised}
	at := 12 + draw.IntN(12)
	for i := range 10 + draw.IntN(20) {
		at = max(2, min(31, at+draw.IntN(7)-3))
		e := score.Event{Since: int32(150 + draw.IntN(600)), Length: 300, Bar: 1 + i/4, Weak: 2 * int8(i%2), Forced: draw.IntN(8) == 0,
			Notes: []score.Note{{Written: 2*i + 1, Pass: 1, String: int8(at)}}}
		if draw.IntN(4) == 0 {
			e.Notes = append([]score.Note{{Written: 2*i + 2, Pass: 1, String: int8(at - 2)}}, e.Notes...)
		}
		s.Events = append(s.Events, e)
	}
	s.Events[0].Forced, s.Events[0].Since = false, 0
	s.Gaps = make([]score.Gap, len(s.Events)+1)
	s.Weigh()
	r.Lifted = draw.IntN(5) == 0
	return s, *r
}

// TestExcerpts: between places where the hand is off the strings, what one finger
// costs more than another is the same in the excerpt as in the whole.
func TestExcerpts(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 2))
	exact, short := 0, 0
	for range 150 {
		s, r := wander(t, draw)
		p, ok := solve.Loose(s, r)
		assert.True(t, ok)
		e := draw.IntN(len(s.Events))
		f := int8(1 + draw.IntN(4))
		x := cut(&s, &p, []int{e})
		if x.short {
			short++
			continue
		}
		whole := excerpt{s: s, at: []int{e}}
		taken := asks(&s, &p, e, 0, false)
		a, ok := solve.Loose(x.with(wish{finger: f}), r)
		b, okToo := solve.Loose(whole.with(wish{finger: f}), r)
		assert.Equal(t, okToo, ok)
		if !ok {
			continue
		}
		exact++
		c, _ := solve.Loose(x.with(taken), r)
		d, _ := solve.Loose(whole.with(taken), r)
		assert.Equal(t, b.Cost-d.Cost, a.Cost-c.Cost)
	}
	assert.Greater(t, exact, 60)
	assert.Greater(t, short, 5)
}

// TestWhySo: what is said of a move suffices. With all charges but those named at
// nothing the next best move is still the dearer; and of two strokes that are said
// to clash, the two fingers named clash alone.
func TestWhySo(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 4))
	moves, clashes, costs := map[rule.Move]int{}, 0, 0
	for range 400 {
		s, r := wander(t, draw)
		p, _ := solve.Loose(s, r)
		tell := &teller{book: newBook(&s), r: &r, p: &p}
		for k := 1; k < len(p.Placings); k++ {
			y, x := tell.whySo(k), tell.crossing(k)
			if x.Forced {
				assert.Empty(t, y.text(tell))
				continue
			}
			moves[y.move]++
			if y.clash != nil {
				clashes++
				alone := rule.Crossing{From: hand.Empty(), To: hand.Empty(), Since: x.Since, Held: x.Held}
				alone.From[y.clash.f], alone.To[y.clash.g] = x.From[y.clash.f], x.To[y.clash.g]
				for _, o := range r.Offers(&alone) {
					assert.NotEqual(t, rule.Connect, o.Move, y.text(tell))
				}
			}
			if y.next == rule.SetAnew || y.extra < worthSaying {
				continue
			}
			costs++
			var set few
			for _, m := range y.names {
				set |= 1 << m
			}
			if y.saved >= 0 {
				set |= 1 << y.saved
			}
			less := r
			less.Charges = set.only(r.Charges)
			sums := map[rule.Move]int64{}
			for _, o := range less.Offers(&x) {
				sums[o.Move] = o.Bill.Sum
			}
			assert.Less(t, sums[y.move], sums[y.next], y.text(tell))
			assert.LessOrEqual(t, len(y.names), 3)
		}
	}
	t.Log(moves, "clashes:", clashes, "next best moves:", costs)
	for _, m := range []rule.Move{rule.Connect, rule.Shift, rule.Under, rule.Over, rule.Jump} {
		assert.Greater(t, moves[m], 10, m.String())
	}
	assert.Greater(t, clashes, 50)
	assert.Greater(t, costs, 500)
}

// TestClashes holds how it is said why a hand cannot hold on.
func TestClashes(t *testing.T) {
	s, r, p := passage(t)
	tell := &teller{book: newBook(s), r: r, p: p}
	one := func(f int, name string) hand.Frame {
		frame := hand.Empty()
		frame[f] = str(t, s.Harp, name)
		return frame
	}
	for _, c := range []struct {
		from, to hand.Frame
		want     string
	}{
		{one(1, "D5"), one(1, "D5"), "2 plays the same string again"},
		{one(1, "D5"), one(1, "F5"), "2 is needed again at once, on F"},
		{one(1, "D5"), one(0, "D5"), "1 comes to the string that 2 has just played"},
		{one(1, "D5"), one(0, "C5"), "1 on C would lie on the wrong side of 2 on D"},
		{one(3, "D4"), one(0, "D6"), "1 does not reach high D while 4 is on low D"},
	} {
		clash := tell.clash(c.from, c.to)
		if assert.NotNil(t, clash, c.want) {
			assert.Equal(t, c.want, clash.text(tell))
		}
	}
	assert.Nil(t, tell.clash(one(3, "A4"), one(0, "D5")))
}

// TestWhySet: where the hand is set, it is said what it would cost to leave it where
// it is.
func TestWhySet(t *testing.T) {
	s, r, _ := passage(t)
	s.Events[5].Forced = false
	s.Gaps[2].Sites, s.Gaps[0].Sites = nil, nil
	s.Weigh()
	p, scored := solve.Plan(*s, *r)
	at := 0
	for j := 1; j < len(scored.Events); j++ {
		if p.Bounded(j) {
			at = j
		}
	}
	assert.Positive(t, at)
	wished := scored
	wished.Events = append([]score.Event(nil), scored.Events...)
	wished.Events[at].Boundary = score.Stay
	kept, _ := solve.Best(wished, *r)
	text, claim := Set(&scored, r, &p, &kept, at, 0, solve.Loose)
	assert.Regexp(t, `^The hand is set here\. (Set at the .* instead|Kept where it is), it would take `+Effort(kept.Cost-p.Cost)+` more effort: [a-z]`, text)
	assert.NotEmpty(t, claim.Rules)

	text, _ = Set(&scored, r, &p, nil, at, 0, solve.Loose)
	assert.Contains(t, text, "The hand has to be set here")
	wished.Events[at].Boundary = score.Set
	text, _ = Set(&wished, r, &p, nil, at, 0, solve.Loose)
	assert.Contains(t, text, "The hand is set here, as you asked.")
	text, _ = Set(&scored, r, &p, &kept, 0, 0, solve.Loose)
	assert.Empty(t, text, "a tune begins somewhere")
}

// Placings that are counted are counted in all bars and every time, and that is said;
// a bar that is spoken of already is not named again.
func TestSpans(t *testing.T) {
	for _, row := range []struct {
		x    span
		here int
		want string
	}{
		{span{}, 1, ""}, {span{3, 3, 1}, 3, ""}, {span{5, 5, 1}, 3, " in bar 5"}, {span{3, 5, 1}, 3, " in bars 3 to 5"},
		{span{3, 5, 2}, 3, " in bars 3 to 5, both times together"}, {span{3, 3, 2}, 3, ", both times together"}, {span{3, 4, 1}, 3, " in bars 3 and 4"},
		{span{0, 2, 1}, 1, " from the pickup to bar 2"}, {span{2, 4, 3}, 1, " in bars 2 to 4, every time together"},
	} {
		assert.Equal(t, row.want, row.x.text(row.here))
	}
	s, _, p := passage(t)
	other := *p
	other.Events = append([]plan.Event(nil), p.Events...)
	other.Events[3].Placing, other.Events[4].Placing, other.Events[5].Placing, other.Events[6].Placing = 1, 1, 2, 3
	assert.Equal(t, span{1, 2, 1}, spans(s, p, &other))
	s.Events[6].Notes = []score.Note{{Written: 7, Pass: 2, String: s.Events[6].Notes[0].String}}
	assert.Equal(t, span{1, 2, 2}, spans(s, p, &other))
	assert.Equal(t, span{}, spans(s, &other, p), "nothing is set there alone")
}
