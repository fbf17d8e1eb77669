package solve_test

import (
	"math/rand/v2"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// passage is a short score and the rules it is to be fingered by.
type passage struct {
	s score.Score
	r rule.Rules
}

// drawing draws passages by chance: the same ones each time, or as a test of
// properties has it.
type drawing struct{ chance }

type chance interface{ IntN(n int) int }

// draw gives passage number n.
func draw(n int) passage {
	d := drawing{rand.New(rand.NewPCG(uint64(n), 20240229))}
	if d.oneIn(3) {
		return d.housed(d.passage(8, 0))
	}
	return d.housed(d.passage(4, 1+d.IntN(3)))
}

func (d drawing) oneIn(n int) bool { return d.IntN(n) == 0 }

// among draws a number from low to high, both included.
func (d drawing) among(low, high int) int { return low + d.IntN(high-low+1) }

func pick[T any](d drawing, from ...T) T { return from[d.IntN(len(from))] }

// passage draws a passage of at most so many events and just so many sites (or
// fewer, where they do not find room).
func (d drawing) passage(events, sites int) passage {
	c := passage{r: rule.Rules{Charges: d.charges(), Hand: d.hand(), Lifted: d.oneIn(8)}}
	c.r.Harp = d.harp()
	c.s.Harp = c.r.Harp
	width := d.among(2, 9)
	lowest := d.IntN(len(c.s.Harp.Strings) - width)
	n := d.among(1, events)
	if events > 4 && d.oneIn(2) {
		n = d.among(1, 5)
	} else if sites > 0 {
		n = d.among(2, events)
	}
	tempo := pick(d, 100, 150, 200, 300, 450, 600, 1000, 1400)
	chords := pick(d, 1, 1, 2, 3)
	for i := range n {
		e := score.Event{Length: int32(tempo) * int32(pick(d, 1, 1, 1, 2, 3)) / 2}
		if i > 0 {
			e.Since = c.s.Events[i-1].Length
		}
		e.Length = min(1500, max(60, e.Length))
		e.Forced = i > 0 && d.oneIn(10)
		e.Weak = int8(pick(d, 0, 0, 1, 2))
		e.Boundary = pick(d, score.Open, score.Open, score.Open, score.Open, score.Open, score.Open, score.Open, score.Set, score.Stay, score.Open)
		e.Notes, e.Rolled = d.notes(&c, lowest, width, chords)
		c.s.Events = append(c.s.Events, e)
	}
	c.s.Gaps = make([]score.Gap, n+1)
	for range sites {
		d.site(&c.s, lowest, width)
	}
	c.tidy()
	return c
}

func (d drawing) charges() rule.Charges {
	c := rule.Usual()
	switch d.IntN(4) {
	case 0: // any, some of them nothing
		for i := range c {
			if d.oneIn(6) {
				c[i] = 0
			} else {
				c[i] = c[i] * int64(d.IntN(3001)) / 1000
			}
		}
	case 1: // round and few, so that many fingerings are as good
		for i := range c {
			c[i] = int64(d.IntN(4)) * 10000
		}
		c[rule.Repeat], c[rule.RepeatAfter] = int64(d.IntN(2))*500, int64(d.IntN(2))*500
	}
	return c
}

func (d drawing) hand() hand.Hand {
	name := pick(d, "right", "left")
	use := pick(d, "1234", "1234", "1234", "123", "123", "12", "23", "124", "134", "234", "1")
	h, ok := hand.New(name, use, int32(pick(d, 1000, 1000, d.among(700, 1300))))
	if !ok {
		panic("a hand that cannot be drawn")
	}
	return h
}

func (d drawing) harp() harp.Harp {
	h, ok := harp.New(12, pitch.Pitch{Octave: 4}, "C", int32(pick(d, 14500, 14500, 14500, d.among(10000, 17000))))
	if !ok {
		panic("a harp that cannot be drawn")
	}
	return h
}

// notes draws a chord, lowest first. Most can be held; one in sixty is left as
// it comes. Some notes are pinned.
func (d drawing) notes(c *passage, lowest, width, most int) ([]score.Note, bool) {
	asItComes, rolled := d.oneIn(60), d.oneIn(4)
	wide := rolled && most > 1 && d.oneIn(2) // rather a chord that is taken in part
	for tries := 0; ; tries++ {
		var on []int8
		for range d.among(1, most) {
			t := int8(lowest + d.IntN(width))
			if !slices.Contains(on, t) {
				on = append(on, t)
			}
		}
		slices.Sort(on)
		if !asItComes && len(c.r.Hand.Fingerings(c.r.Harp, on)) == 0 && (!rolled || len(c.r.Hand.InPart(c.r.Harp, on)) == 0) {
			continue
		}
		if wide && tries < 40 && len(c.r.Hand.InPart(c.r.Harp, on)) == 0 {
			continue
		}
		var notes []score.Note
		for _, t := range on {
			note := score.Note{Pass: 1, String: t}
			if d.oneIn(12) {
				note.Pin = int8(d.among(1, 4))
			}
			notes = append(notes, note)
		}
		return notes, rolled
	}
}

// most is how many strings the ornaments of one gap may play: beyond this the
// oracle takes too long.
const most = 5

// site draws a place for ornaments in a gap that has room for it.
func (d drawing) site(s *score.Score, lowest, width int) {
	j := d.IntN(len(s.Gaps))
	if j > 1 && len(s.Gaps[j-1].Sites) > 0 && d.oneIn(2) {
		j = pick(d, j, j-1)
	}
	after := d.oneIn(2) && j > 0 || j == len(s.Events)
	at := site(s, j, after)
	if slices.ContainsFunc(s.Gaps[j].Sites, func(x score.Site) bool { return x.After == after }) {
		return
	}
	left, strokes := int32(16), 0
	for k := range pick(d, 1, 1, 1, 2, 3) {
		o := d.ornament(s, j, after, lowest, width)
		if strokes += len(o.Strokes); strokes > 6 {
			break
		}
		o.Name = [...]string{"first", "second", "third"}[k]
		o.Likelihood = min(left, int32(pick(d, 0, 4, 4, 8, 16)))
		left -= o.Likelihood
		at.Ornaments = append(at.Ornaments, o)
	}
	if d.oneIn(2) {
		at.Ornaments[d.IntN(len(at.Ornaments))].On = true
	}
	s.Gaps[j].Sites = append(s.Gaps[j].Sites, at)
	slices.SortFunc(s.Gaps[j].Sites, func(a, b score.Site) int {
		if a.After {
			return -1
		}
		return 1
	})
	s.WeighGap(j)
	if g := &s.Gaps[j]; len(sounding(s, j)) > most {
		g.Sites = slices.DeleteFunc(g.Sites, func(x score.Site) bool { return x.After == after })
	}
}

func site(s *score.Score, j int, after bool) score.Site {
	if after {
		return score.Site{Pass: 1, Event: j - 1, After: true}
	}
	return score.Site{Pass: 1, Event: j}
}

// ornament draws one to four strokes near the note adorned: quick ones on the
// beat, before it, or spread over the note.
func (d drawing) ornament(s *score.Score, j int, after bool, lowest, width int) score.Ornament {
	n := pick(d, 1, 1, 2, 2, 3, 4)
	if len(s.Gaps[j].Sites) > 0 {
		n = min(n, 2)
	}
	at := j
	if after {
		at = j - 1
	}
	quick := int32(pick(d, 65, 65, 90, 130, 210))
	if d.oneIn(4) { // where a rule turns, and one less
		quick = int32(pick(d, 89, 90, 149, 150, 199, 200, 399, 400, 400, 529, 530))
	}
	o := score.Ornament{Title: "ornament", Written: d.oneIn(2)}
	main := s.Events[at].Notes[0].String
	spread := s.Events[at].Length / int32(n+1)
	earlier := d.oneIn(4)
	for i := range n {
		t := max(0, min(int8(len(s.Harp.Strings)-1), main+int8(d.among(-2, 2))))
		if d.oneIn(4) {
			t = int8(lowest + d.IntN(width))
		}
		stroke := score.Stroke{String: t}
		switch {
		case after && earlier:
			stroke.At = int32(i+1) * quick
		case after:
			stroke.At = int32(i+1) * spread
		case earlier:
			stroke.At = int32(i-n) * quick
		default:
			stroke.At = int32(i) * quick
			o.Delay = int32(n) * quick
		}
		o.Strokes = append(o.Strokes, stroke)
	}
	return o
}

// tidy makes the numbers fit again after a change: notes, sites, times, what
// may sound.
func (c *passage) tidy() {
	n, played := 0, int64(0)
	for i := range c.s.Events {
		e := &c.s.Events[i]
		if e.Onset = [2]int64{played, 1000}; i == 0 {
			e.Since, e.Forced = 0, false
		}
		e.Span = [2]int64{int64(e.Length), 1000}
		played += int64(e.Length)
		for k := range e.Notes {
			n++
			e.Notes[k].Written = n
		}
	}
	for j := range c.s.Gaps {
		for k := range c.s.Gaps[j].Sites {
			x := &c.s.Gaps[j].Sites[k]
			old := x.After
			*x = score.Site{Pass: 1, Event: j, After: old, Ornaments: x.Ornaments}
			if old {
				x.Event = j - 1
			}
			x.Written = c.s.Events[x.Event].Notes[0].Written
		}
	}
	c.s.Weigh()
}

// copy gives a passage that can be changed apart.
func (c passage) copy() passage {
	s := c.s
	s.Events = slices.Clone(s.Events)
	for i := range s.Events {
		s.Events[i].Notes = slices.Clone(s.Events[i].Notes)
	}
	s.Gaps = slices.Clone(s.Gaps)
	for j := range s.Gaps {
		sites := slices.Clone(s.Gaps[j].Sites)
		for k := range sites {
			sites[k].Ornaments = slices.Clone(sites[k].Ornaments)
			for o := range sites[k].Ornaments {
				sites[k].Ornaments[o].Strokes = slices.Clone(sites[k].Ornaments[o].Strokes)
			}
		}
		s.Gaps[j].Sites = sites
		s.Gaps[j].Patterns = slices.Clone(s.Gaps[j].Patterns)
	}
	c.s = s
	return c
}
