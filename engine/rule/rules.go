package rule

import (
	"readyhand/engine/hand"
	"readyhand/engine/harp"
)

// Rules are the charges as they apply to one hand on one harp.
type Rules struct {
	Charges Charges
	Harp    harp.Harp
	Hand    hand.Hand
	Lifted  bool // the player's style: the hand comes off the strings between placings, which then costs nothing of itself
}

// Same reports whether the rules charge the same for everything: whose hand it is does
// not matter.
func (r *Rules) Same(s *Rules) bool {
	h := r.Hand
	h.Name, h.Reach = s.Hand.Name, s.Hand.Reach // of which the limits were made
	return r.Charges == s.Charges && r.Lifted == s.Lifted && h == s.Hand && r.Harp.Spacing == s.Harp.Spacing && r.Harp.Same(s.Harp)
}

// Item is one charge on a bill, in thousandths.
type Item struct {
	Rule   ID
	Amount int64
}

// Bill adds up charges. Barred says that something on it cannot be played.
// Items are kept only where Itemise is set.
type Bill struct {
	Sum     int64
	Barred  bool
	Itemise bool
	Items   []Item
}

// Add puts a charge on the bill; nothing is added for 0.
func (b *Bill) Add(id ID, amount int64) {
	b.Sum += amount
	if b.Itemise && amount != 0 {
		b.Items = append(b.Items, Item{id, amount})
	}
}

func (r *Rules) charge(b *Bill, id ID) { b.Add(id, r.Charges[id]) }

// Place charges a new placing that has this many milliseconds since the stroke
// before; timed is false for the first of a tune.
func (r *Rules) Place(b *Bill, ms int32, timed bool) {
	r.charge(b, NewPlacing)
	if timed {
		b.Add(PlacingTime, r.Charges[PlacingTime]*Hurry(ms)/1000)
	}
}

// Work charges a placing for how many written notes it holds and whether the
// thumb plays one of them.
func (r *Rules) Work(b *Bill, notes int, thumb bool) {
	switch {
	case notes > 1 && !thumb:
		r.charge(b, NoThumb)
	case notes == 1:
		r.charge(b, OneNote)
		if thumb {
			r.charge(b, ThumbAlone)
		}
	}
}

// Enter charges finger f (0 the thumb) joining a frame on string s: its pairs
// with the fingers held, a shared string, the fourth finger. The sum over a
// whole frame does not depend on the order in which its fingers join.
func (r *Rules) Enter(b *Bill, held hand.Frame, f int, s int8) {
	shared := false
	for g, t := range held {
		switch {
		case t == hand.None:
		case t == s:
			shared = true
		default:
			r.pair(b, f, s, g, t)
		}
	}
	if shared {
		r.charge(b, SharedString)
	}
	if f == 3 {
		r.charge(b, FourthFinger)
	}
}

// pair charges two fingers on two strings for being far apart or cramped.
func (r *Rules) pair(b *Bill, f int, s int8, g int, t int8) {
	d := r.Harp.Distance(s, t)
	r.stretch(b, f, g, d)
	fingers := int32(max(f-g, g-f))
	if lack := fingerWidth*fingers - d; lack > 0 {
		b.Add(Cramped, r.Charges[Cramped]*int64((lack+fingerWidth-1)/fingerWidth))
	}
}

// Part charges a rolled chord that the hand takes in part, see hand.InPart: like
// any other, but a pair that is out of reach is as wide as the hand opens.
func (r *Rules) Part(b *Bill) { r.charge(b, InPart) }

func (r *Rules) stretch(b *Bill, f, g int, d int32) {
	l := r.Hand.Limits[f][g]
	d = min(d, l.Most)
	switch {
	case d <= l.Relaxed:
	case d <= l.Comfortable:
		b.Add(StretchComfortable, r.Charges[StretchComfortable]*int64(d-l.Relaxed)/int64(l.Comfortable-l.Relaxed))
	default:
		r.charge(b, StretchComfortable)
		b.Add(StretchMost, (r.Charges[StretchMost]-r.Charges[StretchComfortable])*int64(d-l.Comfortable)/int64(l.Most-l.Comfortable))
	}
}

// Keep charges a finger that waits on a string for ornaments alone; the thumb does
// so for nothing.
func (r *Rules) Keep(b *Bill, f int) {
	if f > 0 {
		r.charge(b, KeptFinger)
	}
}

// Step charges two strokes that follow each other from one placing. written
// says that both are written notes: then what is too fast is dear, else barred.
func (r *Rules) Step(b *Bill, from, to hand.Frame, ms int32, written bool) {
	r.again(b, from, to, ms, written)
	r.ringing(b, from, to)
	for f, s := range from {
		for g := f + 1; g < 4; g++ {
			if s != hand.None && to[g] == s {
				r.charge(b, Back)
				b.Barred = b.Barred || !written && ms < RepeatLeast // a guess: no finger passes behind another so fast
				return
			}
		}
	}
}

// again charges one finger that plays one string in two strokes running.
func (r *Rules) again(b *Bill, from, to hand.Frame, ms int32, written bool) {
	for f, s := range from {
		if s == hand.None || to[f] != s {
			continue
		}
		if ms < sharp {
			b.Add(Repeat, r.Charges[Repeat]*int64(sharp-ms))
		}
		if ms < RepeatLeast {
			r.tooFast(b, written)
		}
		return
	}
}

func (r *Rules) tooFast(b *Bill, written bool) {
	if written {
		r.charge(b, TooFast)
		return
	}
	b.Barred = true
}

// Between charges a finger that is back on its string after one stroke of
// others: first and last are the strokes around it, ms the time between them.
func (r *Rules) Between(b *Bill, first, middle, last hand.Frame, ms int32) {
	for f, s := range first {
		if s == hand.None || last[f] != s || middle[f] != hand.None {
			continue
		}
		if ms < sharp {
			b.Add(RepeatAfter, r.Charges[RepeatAfter]*int64(sharp-ms))
		}
		if ms < afterLeast {
			b.Barred = true
		}
		return
	}
}

// Away charges a step into or out of a private placing: the hand is set anew
// and travels. Less than 200 ms bars it. timed is false where nothing was
// played before.
func (r *Rules) Away(b *Bill, ms int32, timed bool) {
	r.Place(b, ms, timed)
	if !timed {
		return
	}
	b.Add(AwayTime, r.Charges[AwayTime]*Hurry(ms)/1000)
	if ms < AwayLeast {
		b.Barred = true
	}
}
