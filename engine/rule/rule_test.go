package rule_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/rule"
)

const o = hand.None

// rules are the table's charges for the usual hand on thirteen strings with this
// many micrometres between them.
func rules(t *testing.T, spacing int32) rule.Rules {
	t.Helper()
	h, ok := harp.New(13, pitch.Pitch{Octave: 4}, "C", spacing)
	require.True(t, ok)
	return rule.Rules{Charges: rule.Usual(), Harp: h, Hand: hand.Usual("right")}
}

// items runs a charge and gives what it put on the bill.
func items(charge func(*rule.Bill)) []rule.Item {
	b := rule.Bill{Itemise: true}
	charge(&b)
	return b.Items
}

func one(f int, s int8) hand.Frame {
	frame := hand.Empty()
	frame[f] = s
	return frame
}

// A row without its reason or its source is not a rule.
func TestEveryRowSaysWhy(t *testing.T) {
	names := map[string]bool{}
	for id, row := range rule.Rows() {
		assert.NotEmpty(t, row.Name, id)
		assert.NotEmpty(t, row.Per, row.Name)
		assert.NotEmpty(t, row.Sentence, row.Name)
		assert.NotEmpty(t, row.Source, row.Name)
		assert.Positive(t, row.Charge, row.Name)
		assert.False(t, names[row.Name], row.Name)
		names[row.Name] = true
		assert.Equal(t, row.Charge, rule.Usual()[id])
	}
}

// A hand's movement starts 415 to 529 ms before its note (Chadefaux et al. 2013,
// at second hand), a finger sits on its string about 200 ms before it plucks
// (Chadefaux): from 530 ms there is no hurry, at 200 it is whole. The slopes are
// a guess.
func TestHurryTurnsAtItsKnees(t *testing.T) {
	for _, row := range []struct {
		ms   int32
		want int64
	}{
		{5000, 0}, {531, 0}, {530, 0},
		{529, 3}, // 1/330
		{365, 500},
		{201, 996}, // 329/330
		{200, 1000}, {199, 1015}, {100, 2500}, {0, 4000},
	} {
		assert.Equal(t, row.want, rule.Hurry(row.ms), "%d ms", row.ms)
	}
	for ms := int32(1); ms < 600; ms++ {
		assert.LessOrEqual(t, rule.Hurry(ms), rule.Hurry(ms-1), "%d ms", ms)
	}
}

// 1 and 2 hold "a fifth (or wider)" (Harp Legacy Project): four strings up is a
// fifth. Relaxed to three strings and 2.5 mm, comfortable to five and 5 mm, six
// and 7.25 mm at the most (guesses within that). At 14.5 mm a string:
func TestStretchGrowsWithTheHandsLimits(t *testing.T) {
	r := rules(t, 14500)
	for _, row := range []struct {
		strings int8
		want    []rule.Item
	}{
		{3, nil}, // 43.5 mm of 46
		// 58 mm: 12 of the 31.5 from 46 to 77.5; 3 x 12/31.5 = 1.142
		{4, []rule.Item{{Rule: rule.StretchComfortable, Amount: 1142}}},
		// 72.5 mm: 26.5 of 31.5; 2.523
		{5, []rule.Item{{Rule: rule.StretchComfortable, Amount: 2523}}},
		// 87 mm: 9.5 of the 16.75 from 77.5 to 94.25; 3, and 21 x 9.5/16.75 = 11.910
		{6, []rule.Item{{Rule: rule.StretchComfortable, Amount: 3000}, {Rule: rule.StretchMost, Amount: 11910}}},
	} {
		held := one(1, 2)
		assert.True(t, r.Hand.Takes(r.Harp, held, 0, 2+row.strings))
		assert.Equal(t, row.want, items(func(b *rule.Bill) { r.Enter(b, held, 0, 2+row.strings) }), "%d strings", row.strings)
	}
	assert.False(t, r.Hand.Takes(r.Harp, one(1, 2), 0, 9), "seven strings are 101.5 mm")
}

// A tenth is safe for an adult hand (Sibelius Academy after Chaloupka 1979): 1
// and 4 hold it, and it is the most.
func TestATenthIsTheMost(t *testing.T) {
	r := rules(t, 14500)
	assert.True(t, r.Hand.Takes(r.Harp, one(3, 0), 0, 9))
	assert.False(t, r.Hand.Takes(r.Harp, one(3, 0), 0, 10))
	var b rule.Bill
	r.Enter(&b, one(3, 0), 0, 9)
	// 130.5 mm: 24 of the 31.25 from 106.5 to 137.75; 3 and 21 x 24/31.25 = 16.128
	assert.EqualValues(t, 19128, b.Sum)
}

// A stretch that ends exactly at a limit costs the whole of its row: the limits
// meet.
func TestStretchMeetsAtTheLimits(t *testing.T) {
	for _, row := range []struct {
		limit hand.Limit
		want  int64
	}{
		{hand.Limit{Relaxed: 29000, Comfortable: 40000, Most: 60000}, 0},
		{hand.Limit{Relaxed: 20000, Comfortable: 29000, Most: 60000}, 3000},
		{hand.Limit{Relaxed: 20000, Comfortable: 25000, Most: 29000}, 24000},
	} {
		r := rules(t, 14500)
		r.Hand.Limits[0][1], r.Hand.Limits[1][0] = row.limit, row.limit
		var b rule.Bill
		r.Enter(&b, one(1, 2), 0, 4)
		assert.Equal(t, row.want, b.Sum)
	}
}

// Under 12.5 mm a string is held unplayable with finger pads (Heartland Harps);
// a finger is taken as 12 mm wide (guess), and each started 12 mm that a pair
// lacks is charged.
func TestCrampedCountsWhatAFingerLacks(t *testing.T) {
	for _, row := range []struct {
		spacing int32
		lower   int // the lower finger, below the thumb
		strings int8
		want    int64
	}{
		{14500, 1, 1, 0},     // 14.5 of 12 mm
		{12000, 1, 1, 0},     // just room
		{11900, 1, 1, 6000},  // 0.1 mm lacks
		{14500, 2, 1, 6000},  // 14.5 of 24 mm
		{14500, 3, 1, 12000}, // 14.5 of 36: 21.5 lack, two started
		{14500, 3, 2, 6000},  // 29 of 36
		{14500, 3, 3, 0},     // 43.5 of 36
	} {
		r := rules(t, row.spacing)
		sum := int64(0)
		for _, item := range items(func(b *rule.Bill) { r.Enter(b, one(row.lower, 4), 0, 4+row.strings) }) {
			if item.Rule == rule.Cramped {
				sum += item.Amount
			}
		}
		assert.Equal(t, row.want, sum, "%+v", row)
	}
}

// Two fingers that share a string are not cramped as well, and the fourth finger
// costs wherever it is; in whatever order the fingers come, the sum is the same.
func TestAFrameIsTheSumOfItsFingers(t *testing.T) {
	r := rules(t, 14500)
	assert.Equal(t, []rule.Item{{Rule: rule.SharedString, Amount: 5000}}, items(func(b *rule.Bill) { r.Enter(b, one(1, 4), 0, 4) }))
	frame := hand.Frame{5, 4, 4, 0}
	sums := map[int64]bool{}
	for _, order := range [][4]int{{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}, {1, 3, 0, 2}} {
		var b rule.Bill
		held := hand.Empty()
		for _, f := range order {
			r.Enter(&b, held, f, frame[f])
			held[f] = frame[f]
		}
		sums[b.Sum] = true
	}
	assert.Len(t, sums, 1)
}

// Set a group of up to four at once (UBC Impart 2013); fingers 1 and 2 come
// first (A. Sullivan); one note alone with the index (Christy-Lyn, 10 Rules of Harp
// Fingering, rule 1).
func TestFewNotesAndNoThumb(t *testing.T) {
	r := rules(t, 14500)
	assert.Equal(t, []rule.Item{{Rule: rule.OneNote, Amount: 14000}}, items(func(b *rule.Bill) { r.Work(b, 1, false) }))
	assert.Equal(t, []rule.Item{{Rule: rule.OneNote, Amount: 14000}, {Rule: rule.ThumbAlone, Amount: 4000}}, items(func(b *rule.Bill) { r.Work(b, 1, true) }))
	assert.Equal(t, []rule.Item{{Rule: rule.NoThumb, Amount: 8000}}, items(func(b *rule.Bill) { r.Work(b, 2, false) }))
	assert.Empty(t, items(func(b *rule.Bill) { r.Work(b, 2, true) }))
}

// One finger repeats at most 5 to 7 times a second (Fujii et al. 2009, tapping):
// under 200 ms it costs, under 150 it is too fast, which bars an ornament and is
// very dear on written notes.
func TestOneFingerOnOneString(t *testing.T) {
	r := rules(t, 14500)
	r.Charges[rule.Ringing] = 0
	same := one(1, 4)
	for _, row := range []struct {
		ms      int32
		written bool
		want    []rule.Item
		barred  bool
	}{
		{200, true, nil, false},
		{199, true, []rule.Item{{Rule: rule.Repeat, Amount: 400}}, false},
		{150, false, []rule.Item{{Rule: rule.Repeat, Amount: 20000}}, false},
		{149, false, []rule.Item{{Rule: rule.Repeat, Amount: 20400}}, true},
		{149, true, []rule.Item{{Rule: rule.Repeat, Amount: 20400}, {Rule: rule.TooFast, Amount: 400000}}, false},
	} {
		b := rule.Bill{Itemise: true}
		r.Step(&b, same, same, row.ms, row.written)
		assert.Equal(t, row.want, b.Items, "%d ms", row.ms)
		assert.Equal(t, row.barred, b.Barred, "%d ms", row.ms)
	}
}

// With a stroke of others between, 90 ms are asked of an ornament (guess).
func TestBackAfterOneStroke(t *testing.T) {
	r := rules(t, 14500)
	for _, row := range []struct {
		middle hand.Frame
		ms     int32
		want   int64
		barred bool
	}{
		{one(0, 5), 200, 0, false},
		{one(0, 5), 199, 200, false},
		{one(0, 5), 90, 22000, false},
		{one(0, 5), 89, 22200, true},
		{one(1, 4), 89, 0, false}, // it does not rest: a repetition, charged as such
		{one(2, 4), 90, 22000, false},
	} {
		var b rule.Bill
		r.Between(&b, one(1, 4), row.middle, one(1, 4), row.ms)
		assert.Equal(t, row.want, b.Sum, "%+v", row)
		assert.Equal(t, row.barred, b.Barred, "%+v", row)
	}
	var b rule.Bill
	r.Between(&b, one(1, 4), one(0, 5), one(1, 3), 50)
	assert.Zero(t, b.Sum, "another string")
}

// On one string 3 2 1 is easy, each finger arriving as the last leaves; back to
// a finger lower in the hand is not (guess).
func TestBackToALowerFinger(t *testing.T) {
	r := rules(t, 14500)
	r.Charges[rule.Ringing] = 0
	assert.Empty(t, items(func(b *rule.Bill) { r.Step(b, one(2, 4), one(1, 4), 100, false) }))
	assert.Equal(t, []rule.Item{{Rule: rule.Back, Amount: 14000}},
		items(func(b *rule.Bill) { r.Step(b, one(1, 4), one(2, 4), 200, false) }))
	assert.Equal(t, []rule.Item{{Rule: rule.Back, Amount: 14000}},
		items(func(b *rule.Bill) { r.Step(b, one(0, 4), one(3, 4), 530, true) }))
}

// across charges a move, without the placing that it leads to.
func across(r rule.Rules, b *rule.Bill, from, to hand.Frame, ms int32) rule.Move {
	m := r.Across(b, &rule.Crossing{From: from, To: to, Since: ms, Written: true})
	if b.Items = slices.DeleteFunc(b.Items, func(x rule.Item) bool {
		return x.Rule == rule.NewPlacing || x.Rule == rule.Carried || x.Rule == rule.PlacingTime || x.Rule == rule.Ringing
	}); len(b.Items) == 0 {
		b.Items = nil
	}
	return m
}

// Crossings are of single fingers: rising, 2, 3 or 4 passes under the thumb; and
// falling, the thumb over 2, 3 or 4 (3 under 1 and 1 over 3: D. Hall, ex. 13; 4
// under 1 and 1 over 4: S. Ballard). How far it goes, three strings and 2.5 mm,
// is a guess. What cannot cross or connect is a lift.
func TestCrossingsAndWhereTheyEnd(t *testing.T) {
	type row struct {
		what     string
		from, to hand.Frame
		move     rule.Move
		want     []rule.Item
	}
	r := rules(t, 14500)
	const ms = 600 // no hurry
	lift := func(strings int64) []rule.Item {
		items := []rule.Item{{Rule: rule.Lift, Amount: 10000}}
		if strings > 0 {
			items = append(items, rule.Item{Rule: rule.LiftWay, Amount: 2000 * strings})
		}
		return items
	}
	for _, x := range []row{
		{"2 under, when there is time to lift", one(0, 4), one(1, 5), rule.Jump, lift(2)},
		{"3 under", one(0, 4), one(2, 5), rule.Under, []rule.Item{{Rule: rule.UnderBy3, Amount: 8000}}},
		{"4 under", one(0, 4), one(3, 5), rule.Under, []rule.Item{{Rule: rule.UnderBy4, Amount: 6000}}},
		{"1 over 2", one(1, 4), one(0, 3), rule.Over, []rule.Item{{Rule: rule.OverFrom2, Amount: 14000}}},
		{"1 over 3", one(2, 4), one(0, 3), rule.Over, []rule.Item{{Rule: rule.OverFrom3, Amount: 8000}}},
		{"1 over 4", one(3, 4), one(0, 3), rule.Over, []rule.Item{{Rule: rule.OverFrom4, Amount: 6000}}},
		{"past the next string", one(0, 4), one(3, 6), rule.Under, []rule.Item{{Rule: rule.UnderBy4, Amount: 6000}, {Rule: rule.CrossFar, Amount: 4000}}},
		{"three strings, just", one(3, 6), one(0, 3), rule.Over, []rule.Item{{Rule: rule.OverFrom4, Amount: 6000}, {Rule: rule.CrossFar, Amount: 4000}}},
		// Four strings are 58 mm of 46. The hand goes from a thumb on 4 to one three
		// strings above 8.
		{"too far to cross", one(0, 4), one(3, 8), rule.Jump, lift(7)},
		{"a chord cannot cross", hand.Frame{4, 3, o, o}, one(3, 5), rule.Jump, lift(4)},
		{"nor can it be crossed to", one(0, 4), hand.Frame{o, 6, 5, o}, rule.Jump, lift(3)},
		{"falling in order connects", one(0, 4), one(1, 3), rule.Connect, nil},
		{"rising in order connects", one(2, 4), one(1, 5), rule.Connect, nil},
		{"connecting wide costs its stretch", one(1, 2), one(0, 6), rule.Connect, []rule.Item{{Rule: rule.StretchComfortable, Amount: 1142}}},
		{"chord to chord in order connects", hand.Frame{8, 7, o, o}, hand.Frame{o, o, 6, 5}, rule.Connect, nil},
		{"not a finger that holds already", one(0, 4), one(0, 5), rule.Jump, lift(1)},
		{"not a string that is held", one(1, 4), one(0, 4), rule.Jump, lift(1)},
	} {
		b := rule.Bill{Itemise: true}
		assert.Equal(t, x.move, across(r, &b, x.from, x.to, ms), x.what)
		assert.Equal(t, x.want, b.Items, x.what)
		assert.False(t, b.Barred)
	}
}

// When there is not, 2 passes under too: 18 and 5, against 10, 4 and 20 for a lift.
func TestTwoPassesUnderInHaste(t *testing.T) {
	b := rule.Bill{Itemise: true}
	assert.Equal(t, rule.Under, across(rules(t, 14500), &b, one(0, 4), one(1, 5), 200))
	assert.Equal(t, []rule.Item{{Rule: rule.UnderBy2, Amount: 18000}, {Rule: rule.CrossTime, Amount: 5000}}, b.Items)
}

// The move is the cheapest there is: where a lift costs nothing, a crossing is
// not taken; a connection is, for it comes first.
func TestTheCheapestMoveIsTaken(t *testing.T) {
	r := rules(t, 14500)
	r.Charges[rule.Lift], r.Charges[rule.LiftWay] = 0, 0
	assert.Equal(t, rule.Jump, across(r, &rule.Bill{}, one(0, 4), one(3, 5), 600))
	assert.Equal(t, rule.Connect, across(r, &rule.Bill{}, one(0, 4), one(1, 3), 600))
	r.Charges[rule.UnderBy4] = 0
	assert.Equal(t, rule.Under, across(r, &rule.Bill{}, one(0, 4), one(3, 5), 600))
}

// A finger may hop to another string when the music is not too fast (E. Volpé
// Bligh, Writing for the Pedal Harp); the hand moves as one, so two fingers hop
// for the price of one. A finger that repeats its string over a boundary is as
// slow as in a placing.
func TestHopsAndRepeatsOverABoundary(t *testing.T) {
	r := rules(t, 14500)
	sum := func(id rule.ID, from, to hand.Frame, ms int32) int64 {
		var sum int64
		for _, item := range items(func(b *rule.Bill) { across(r, b, from, to, ms) }) {
			if item.Rule == id {
				sum += item.Amount
			}
		}
		return sum
	}
	assert.EqualValues(t, 0, sum(rule.Hop, one(0, 4), one(0, 6), 530))
	assert.EqualValues(t, 8000, sum(rule.Hop, one(0, 4), one(0, 6), 365))
	assert.EqualValues(t, 16000, sum(rule.Hop, hand.Frame{4, 3, o, o}, hand.Frame{7, 5, o, o}, 200))
	assert.EqualValues(t, 0, sum(rule.Hop, one(0, 4), one(1, 3), 200))
	assert.EqualValues(t, 20000, sum(rule.Repeat, one(0, 4), one(0, 4), 150))
	assert.EqualValues(t, 400000, sum(rule.TooFast, one(0, 4), one(0, 4), 149))
}

// A step to a placing of an ornament's own, or back, needs 200 ms (guess); the
// first placing of a tune needs none.
func TestAwayNeedsTime(t *testing.T) {
	r := rules(t, 14500)
	away := func(ms int32, timed bool) rule.Bill {
		b := rule.Bill{Itemise: true}
		r.Away(&b, ms, timed)
		return b
	}
	assert.True(t, away(199, true).Barred)
	b := away(200, true)
	assert.False(t, b.Barred)
	assert.Equal(t, []rule.Item{{Rule: rule.NewPlacing, Amount: 24000}, {Rule: rule.PlacingTime, Amount: 8000}, {Rule: rule.AwayTime, Amount: 30000}}, b.Items)
	assert.EqualValues(t, 24000, away(530, true).Sum)
	b = away(0, false)
	assert.False(t, b.Barred)
	assert.EqualValues(t, 24000, b.Sum)
}

// crossed gives what a crossing is charged, and by which move.
func crossed(r rule.Rules, x rule.Crossing) (rule.Move, []rule.Item) {
	b := rule.Bill{Itemise: true}
	x.Written = true
	return r.Across(&b, &x), b.Items
}

// 3 is set on its new string while 1 still plays (Fionn, Etüde 3er-Gruppen): a
// placing that begins while a finger holds is less than a new one, and so is one
// into which a finger stays, with no lift then. Off the beat each costs more.
func TestAFingerThatHolds(t *testing.T) {
	r := rules(t, 14500)
	m, items := crossed(r, rule.Crossing{From: one(0, 6), To: one(2, 5), Since: 530})
	assert.Equal(t, rule.Connect, m)
	assert.Equal(t, []rule.Item{{Rule: rule.Carried, Amount: 14000}}, items)

	m, items = crossed(r, rule.Crossing{From: one(0, 6), To: one(0, 8), Since: 530, Held: true, Weak: 1})
	assert.Equal(t, rule.Shift, m)
	assert.Equal(t, []rule.Item{{Rule: rule.NewPlacing, Amount: 24000}, {Rule: rule.WeakBeat, Amount: 2500}, {Rule: rule.LiftWay, Amount: 4000}}, items, "the same finger hops: no lift, but a new placing")

	m, items = crossed(r, rule.Crossing{From: one(0, 6), To: one(3, 9), Since: 530, Held: true, Weak: 2})
	assert.Equal(t, rule.Under, m)
	assert.Equal(t, []rule.Item{{Rule: rule.Carried, Amount: 14000}, {Rule: rule.WeakBeat, Amount: 5000}, {Rule: rule.UnderBy4, Amount: 6000}, {Rule: rule.CrossFar, Amount: 4000}}, items)

	m, items = crossed(r, rule.Crossing{From: one(0, 6), To: one(0, 8), Since: 530})
	assert.Equal(t, rule.Jump, m)
	assert.Equal(t, []rule.Item{{Rule: rule.NewPlacing, Amount: 24000}, {Rule: rule.Lift, Amount: 10000}, {Rule: rule.LiftWay, Amount: 4000}}, items)

	r.Charges[rule.Carried] = 30000
	_, items = crossed(r, rule.Crossing{From: one(0, 6), To: one(2, 5), Since: 530})
	assert.Equal(t, []rule.Item{{Rule: rule.NewPlacing, Amount: 24000}}, items, "the cheaper of the two")
}

// The thumb slides to the next string down with ease (E. Volpé Bligh, Writing for
// the Pedal Harp): to no other, and in no other way.
func TestTheThumbSlides(t *testing.T) {
	r := rules(t, 14500)
	m, items := crossed(r, rule.Crossing{From: one(0, 6), To: one(0, 5), Since: 150})
	assert.Equal(t, rule.Slide, m)
	// It holds while the others are set: 14, and half of 8 x 1.75.
	assert.Equal(t, []rule.Item{{Rule: rule.Carried, Amount: 14000}, {Rule: rule.PlacingTime, Amount: 7000}, {Rule: rule.ThumbSlide, Amount: 7000}}, items)
	for _, x := range [][2]hand.Frame{{one(0, 6), one(0, 4)}, {one(0, 5), one(0, 6)}, {one(1, 6), one(1, 5)}, {one(0, 6), {5, 3, o, o}}} {
		m, _ := crossed(r, rule.Crossing{From: x[0], To: x[1], Since: 150})
		assert.NotEqual(t, rule.Slide, m, "%v to %v", x[0], x[1])
	}
}

// Moving one shape along neighbouring strings with one fingering is an early
// exercise (common practice, no source): the hand keeps its shape, and only its way
// and the time to set it count.
func TestTheSameShapeMoves(t *testing.T) {
	r := rules(t, 14500)
	_, all := crossed(r, rule.Crossing{From: hand.Frame{7, o, 2, o}, To: hand.Frame{8, o, 3, o}, Since: 200})
	assert.Equal(t, []rule.Item{{Rule: rule.SameShape, Amount: 8000}, {Rule: rule.PlacingTime, Amount: 8000}, {Rule: rule.LiftWay, Amount: 2000}}, all)
	placing := func(from, to hand.Frame) rule.ID {
		_, items := crossed(r, rule.Crossing{From: from, To: to, Since: 530})
		return items[0].Rule
	}
	sixth := hand.Frame{7, o, 2, o}
	assert.Equal(t, rule.SameShape, placing(sixth, hand.Frame{8, o, 3, o}))
	assert.Equal(t, rule.SameShape, placing(sixth, hand.Frame{5, o, 0, o}))
	assert.Equal(t, rule.NewPlacing, placing(sixth, hand.Frame{8, o, 4, o}), "another shape")
	assert.Equal(t, rule.NewPlacing, placing(sixth, hand.Frame{8, o, o, 3}), "other fingers")
	assert.Equal(t, rule.NewPlacing, placing(one(1, 4), one(1, 6)), "one finger has no shape")
}

// D5: the same repeat costs more low than high, for the buzz grows with the swing
// of low strings (T. Goss). From C5 up, nothing (guess).
func TestALowStringStillSounds(t *testing.T) {
	h, _ := harp.New(34, pitch.Pitch{Octave: 2}, "C", 14500)
	r := rules(t, 14500)
	r.Harp = h
	last := int64(1 << 40)
	for _, s := range []int8{0, 7, 14, 20} { // C2, C3, C4, B4
		var b rule.Bill
		r.Step(&b, one(1, s), one(1, s), 600, true)
		assert.Positive(t, b.Sum)
		assert.Less(t, b.Sum, last)
		last = b.Sum
	}
	var b rule.Bill
	r.Step(&b, one(1, 21), one(1, 21), 600, true)
	assert.Zero(t, b.Sum, "C5")
	assert.Equal(t, []rule.Item{{Rule: rule.Ringing, Amount: 6000}}, items(func(b *rule.Bill) { r.Step(b, one(1, 0), one(0, 0), 600, true) }), "by another finger too")
	_, items := crossed(r, rule.Crossing{From: one(1, 7), To: one(0, 7), Since: 530})
	assert.Contains(t, items, rule.Item{Rule: rule.Ringing, Amount: 4000}, "two octaves below, by any finger of a new placing")
}

// Lifting between placings is a recognised way of playing (Little Lessons 58, On
// Scales): a player whose style it is neither connects nor crosses, and the lift
// itself is then no effort; its way and its haste are.
func TestLiftedStyle(t *testing.T) {
	r := rules(t, 14500)
	r.Lifted = true
	for _, x := range [][2]hand.Frame{{one(0, 4), one(3, 5)}, {one(3, 4), one(0, 3)}, {one(0, 6), one(2, 5)}} {
		m, items := crossed(r, rule.Crossing{From: x[0], To: x[1], Since: 530})
		assert.Equal(t, rule.Jump, m)
		for _, item := range items {
			assert.Contains(t, []rule.ID{rule.NewPlacing, rule.LiftWay}, item.Rule)
		}
	}
}
