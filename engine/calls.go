package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/explain"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/solve"
	"readyhand/engine/tune"
)

// Calls is a list of late calls: a part of a tune is played turn after turn, a bar
// of rest between, and on each turn it is called at the last moment how one note is
// played: plain, or with an ornament that the hand can play as it is placed. Times
// are milliseconds from the start of a bar that is counted in.
type Calls struct {
	choice.Calls            // From and To are the bars of the part
	Hand         string     // "right" or "left"
	BeatMS       int32      // a beat where the part begins: so it is counted in, and so it rests
	Beats        int        // of a bar that is counted in or rested; a free metre has four
	TurnMS       int32      // from turn to turn, the bar of rest included
	Bars         int        // of the tune
	Own          bool       // the tune has ornaments, so that there is something to choose
	List         []Call     // none where the part has nothing to decide
	Can          []Callable // what may be called, note by note
}

// Call is one of them.
type Call struct {
	Turn   int    // from 1
	Word   string // "plain", "cut"
	Note   string // "the first D in bar 1"
	At     int32  // when it is called
	Sounds int32  // when the note would sound that it is for
}

// Callable is a note and the ornaments that may be called on it.
type Callable struct {
	Note  string
	Words []string

	Event int // of the hand's score
}

// callWindow is how many bars are called if nobody says which (a guess: as much as
// one remembers).
const callWindow = 2

// plainOf is how often a note is called plain: one time in so many (guess; who
// decides must also be able to leave it).
const plainOf = 3

// aheadMS is how long before its note a call comes, in milliseconds, if nobody says how
// many beats: as many as that takes (guess: to hear a word, and to think of a finger).
const aheadMS = 1200

// unsaid is how many beats before its note a call comes if nobody says.
func unsaid(beatMS int32) int { return int((aheadMS + beatMS - 1) / max(1, beatMS)) }

// Calls gives the late calls of a tune as it is fingered. The same tune, hand and
// seed give the same list.
func (a *Answer) Calls() Calls {
	c := Calls{Calls: a.Choice.Calls()}
	said, own := c.Ahead > 0, a.ownOrnaments()
	c.Own = len(own) > 0
	if c.All {
		own = nil
	}
	var beat tune.Frac
	beat, c.Beats = a.beat()
	c.BeatMS = beat.Milliseconds(a.Tempo.QuarterMS)
	for i := range a.Hands {
		for _, e := range a.Hands[i].Score.Events {
			c.Bars = max(c.Bars, e.Bar)
		}
	}
	if !said {
		c.Ahead = unsaid(c.BeatMS)
	}
	for i := range a.Hands {
		h := &a.Hands[i]
		if len(h.Plan.Events) != len(h.Score.Events) || len(h.Score.Events) == 0 {
			continue
		}
		if from, to, can := a.part(i, c.Calls, own); len(can) > 0 {
			c.From, c.To, c.Hand, c.Can = from, to, h.Rules.Hand.Name, can
			c.call(a, h, said)
			return c
		}
	}
	return c
}

// ownOrnaments lists the titles of what stands in the tune, written or offered.
func (a *Answer) ownOrnaments() (titles []string) {
	for i := range a.Hands {
		for _, g := range a.Hands[i].given.Gaps {
			for _, site := range g.Sites {
				for _, o := range site.Ornaments {
					if o.Name != "grace" && !slices.Contains(titles, o.Title) {
						titles = append(titles, o.Title)
					}
				}
			}
		}
	}
	return titles
}

// beat gives the length of a beat in whole notes, and how many a bar has.
func (a *Answer) beat() (beat tune.Frac, beats int) {
	m := a.Block.Hands.Meter
	switch {
	case m.Beats == 0:
		return tune.Frac{N: 1, D: 4}, 4
	case m.Compound():
		return tune.Frac{N: 3, D: 8}, int(m.Beats / 3)
	}
	return tune.NewFrac(1, m.Unit), int(m.Beats)
}

// ahead gives how long before an event it is called, in milliseconds: so many beats,
// each as long as where it begins, and before the part as they are counted in.
func (a *Answer) ahead(h *Hand, first, event, beats int) (ms int32) {
	onset := func(event int) tune.Frac {
		return tune.NewFrac(h.Score.Events[event].Onset[0], h.Score.Events[event].Onset[1])
	}
	beat, _ := a.beat()
	clock, start, at := a.Clock(), onset(first), onset(event)
	for range beats {
		if at = at.Sub(beat); at.Less(start) {
			at = start
		}
		ms += beat.Milliseconds(clock.Quarter(at))
	}
	return ms
}

// part finds the bars that are called, those asked for or else the first that have
// something to call, and what that is: of the ornaments named, or of all if none are.
// What was found once is kept.
func (a *Answer) part(i int, asked choice.Calls, own []string) (from, to int, can []Callable) {
	h := &a.Hands[i]
	said := a.Choice.OnlyHouse().String() + strings.Join(own, ",")
	for _, family := range [...]ornament.Family{ornament.Irish, ornament.Welsh} {
		if a.Choice.Shows(family) {
			said += " " + family.String()
		}
	}
	if h.others != nil {
		for _, x := range h.others.called {
			if x.asked == [2]int{asked.From, asked.To} && x.said == said {
				return x.from, x.to, x.can
			}
		}
	}
	from, to = asked.From, asked.To
	if from > 0 {
		can = a.callable(i, from, to, own)
	} else {
		for from, to = 1, callWindow; from <= h.lastBar() && len(can) == 0; from, to = from+callWindow, to+callWindow {
			can = a.callable(i, from, to, own)
		}
		from, to = from-callWindow, min(to-callWindow, h.lastBar())
	}
	if h.others != nil {
		h.others.called = append(h.others.called, called{[2]int{asked.From, asked.To}, said, from, to, can})
	}
	return from, to, can
}

// called is what was found for one wish about the bars.
type called struct {
	asked    [2]int
	said     string // what else it hangs on: house fingerings, ornaments and families
	from, to int
	can      []Callable
}

func (h *Hand) lastBar() (last int) {
	for _, e := range h.Score.Events {
		last = max(last, e.Bar)
	}
	return last
}

// inPart reports whether an event is in some bars, as they are first played.
func (h *Hand) inPart(event, from, to int) bool {
	e := &h.Score.Events[event]
	return from <= e.Bar && e.Bar <= to && e.Notes[0].Pass == 1
}

// callable lists the notes of some bars and what the placed hand can play on them:
// what is in the hand, what a free finger drops in for, and that for which a finger
// waits already; of the ornaments named, if any are.
func (a *Answer) callable(i, from, to int, own []string) (can []Callable) {
	h := &a.Hands[i]
	var notes []int
	for e := range h.Score.Events {
		if h.inPart(e, from, to) {
			on := h.Score.Events[e].Notes
			notes = append(notes, on[len(on)-1].Written)
		}
	}
	if len(notes) == 0 {
		return nil
	}
	s := a.offering(i, notes)
	near := func(j int) bool {
		return j < len(s.Events) && h.inPart(j, from, to) || j > 0 && h.inPart(j-1, from, to)
	}
	p := solve.Placed(s, h.Rules, &h.Plan, near)
	names := explain.Names(&h.Score)
	for e := range s.Events {
		if !h.inPart(e, from, to) {
			continue
		}
		x := Callable{Note: names(e), Event: e}
		for _, j := range [...]int{e, e + 1} {
			for k, site := range s.Gaps[j].Sites {
				for i, o := range site.Ornaments {
					fit := &p.Gaps[j].Fits[k][i]
					ready := fit.Ready <= plan.FingerFree || fit.Ready == plan.FingerKept && o.Likelihood > 0
					mine := len(own) == 0 || slices.Contains(own, o.Title)
					if mine && site.Event == e && ready && o.Name != "grace" && !slices.Contains(x.Words, o.Title) {
						x.Words = append(x.Words, o.Title)
					}
				}
			}
		}
		if len(x.Words) > 0 {
			can = append(can, x)
		}
	}
	return can
}

// call draws the calls: each note once in a shuffled order before any comes again. said
// is whether it was asked how many beats before.
func (c *Calls) call(a *Answer, h *Hand, said bool) {
	first, last := -1, 0
	for e := range h.Score.Events {
		if h.inPart(e, c.From, c.To) {
			if first < 0 {
				first = e
			}
			last = e
		}
	}
	beat, _ := a.beat()
	c.BeatMS = beat.Milliseconds(a.quarter(&h.Score.Events[first]))
	if !said {
		c.Ahead = unsaid(c.BeatMS)
	}
	bar := c.BeatMS * int32(c.Beats)
	c.TurnMS = h.since(first, last) + h.Score.Events[last].Length + bar
	order := draws(c.Seed)
	var bag []int
	before := int32(0)
	for turn := range c.Turns {
		if len(bag) == 0 {
			bag = order.shuffled(len(c.Can))
		}
		note := &c.Can[bag[0]]
		bag = bag[1:]
		call := Call{Turn: turn + 1, Word: "plain", Note: note.Note}
		if order.below(plainOf) > 0 {
			call.Word = note.Words[order.below(len(note.Words))]
		}
		call.Sounds = bar + int32(turn)*c.TurnMS + h.since(first, note.Event)
		call.At = max(before, call.Sounds-a.ahead(h, first, note.Event, c.Ahead))
		before = call.Sounds
		c.List = append(c.List, call)
	}
}

// since is how long after one event another sounds, in milliseconds.
func (h *Hand) since(from, to int) (ms int32) {
	for e := from + 1; e <= to; e++ {
		ms += h.Score.Events[e].Since
	}
	return ms
}

// draws are numbers in an order that a seed decides: splitmix64 (G. L. Steele, D.
// Lea and C. H. Flood, 2014).
type draws uint64

func (d *draws) next() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below draws a number from 0 to n-1.
func (d *draws) below(n int) int { return int(d.next() % uint64(n)) }

// shuffled draws an order of so many things.
func (d *draws) shuffled(n int) []int {
	order := make([]int, n)
	for i := range order {
		k := d.below(i + 1)
		order[i] = order[k]
		order[k] = i
	}
	return order
}

// bars names the part that is called.
func (c *Calls) bars() string {
	if c.From == c.To {
		return "bar " + strconv.Itoa(c.From)
	}
	return "bars " + strconv.Itoa(c.From) + " to " + strconv.Itoa(c.To)
}

// says tells how the calls are practised.
func (c *Calls) says() string {
	what := "what"
	if c.Own && !c.All {
		what = "what of this tune's ornaments"
	}
	return "Play " + c.bars() + " over and over with the " + c.Hand + " hand, a bar of rest after each turn. " + capital(c.beats()) +
		" before its note you are told how to play it: plain, or with " + what + " your hand can play as it is set. Nothing else changes."
}

// beats says how long before its note a call comes.
func (c *Calls) beats() string {
	if c.Ahead == 1 {
		return "one beat"
	}
	if c.Ahead < len(beatCounts) {
		return beatCounts[c.Ahead] + " beats"
	}
	return strconv.Itoa(c.Ahead) + " beats"
}

// beatCounts are as many beats as may be asked for, in words.
var beatCounts = [...]string{"", "", "two", "three", "four", "five", "six", "seven", "eight"}

// told says in a line what is called now.
func (c *Calls) told() string {
	if len(c.List) == 0 {
		return c.nothing()
	}
	turns := " turns, "
	if c.Turns == 1 {
		turns = " turn, "
	}
	return "Late calls: " + c.bars() + ", " + strconv.Itoa(c.Turns) + turns + c.beats() + " before the note, order " + strconv.Itoa(c.Seed) + "."
}

// nothing says that there is nothing to call.
func (c *Calls) nothing() string {
	none, rest := "no ornament", ""
	if c.Own && !c.All {
		none, rest = "none of the tune's ornaments", " Ask for all that fits the hand."
	}
	if c.From > 0 {
		return "In " + c.bars() + " the hand as it is placed has " + none + " to play, so there is nothing to call." + rest
	}
	return "The hand as it is placed has " + none + " to play anywhere in this tune, so there is nothing to call." + rest
}

// Text tells the calls turn by turn.
func (c *Calls) Text() string {
	if len(c.List) == 0 {
		return c.nothing() + "\n"
	}
	var b strings.Builder
	b.WriteString(c.told() + "\n" + c.says() + "\n\n")
	for _, call := range c.List {
		b.WriteString(padded("turn "+strconv.Itoa(call.Turn), 9) + padded(seconds(call.At), 9) + call.Word + ", on " + call.Note + "\n")
	}
	return b.String()
}

// seconds writes a time from the start: "1:05.2".
func seconds(ms int32) string {
	tenths := (ms + 50) / 100
	s := strconv.Itoa(int(tenths/10%60)) + "." + strconv.Itoa(int(tenths%10))
	if tenths/10%60 < 10 {
		s = "0" + s
	}
	return strconv.Itoa(int(tenths/600)) + ":" + s
}
