package plan

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// This file is for tests. It knows nothing of how a plan was found: it looks
// whether a hand can play it, and whether it does what was asked. It asks the
// rules only which move is the cheapest, and how long a finger needs to drop in.

// Fault is one thing that is wrong with a plan, and where: event, gap and
// placing count from 0 and are -1 where they say nothing; Finger is 0 to 3, or
// -1.
type Fault struct {
	Kind                Kind
	Event, Gap, Placing int
	Pattern, Stroke     int // of the gap
	Finger              int
}

// Kind is what is wrong.
type Kind int8

const (
	Incomplete     Kind = iota // events, placings, gaps or ways do not run beside the score
	TooManyNotes               // more than four notes at once
	Unplayed                   // a note that no finger plays
	PlayedTwice                // a note that two fingers play
	StrayFinger                // a finger plays where no note is written
	FingerNotInUse             // a finger that the player does not use
	OutOfOrder                 // a finger lies above one nearer the thumb
	OutOfReach                 // two fingers are farther apart than the hand can open
	TwoStrings                 // one finger has two strings in one placing
	PinIgnored                 // a note has another finger than the one asked for
	NotSet                     // the hand is not placed where it must be
	SetAgainstWish             // the hand is placed where it was asked not to be
	NoWork                     // a finger holds a string that nothing says why
	KeptInVain                 // a finger is kept or free that written notes use, or that no ornament does
	WrongMove                  // the hand cannot get here as it is said to
	NotHeld                    // an ornament's finger is not on its string where it is played from
	NotThere                   // an ornament is played from a placing that is not there
	BackAgain                  // an ornament goes back to a placing that it has left
	NoTimeToDrop               // a finger that is not set has no time to drop in
	NoTimeToPlay               // an ornament is faster than the fingers that play it
	NotAsUsual                 // a chord or an ornament has other fingers than its house fingering
)

var faults = [...]string{
	Incomplete:     "the plan is not complete",
	TooManyNotes:   "more than four notes at once",
	Unplayed:       "no finger plays this note",
	PlayedTwice:    "two fingers play this note",
	StrayFinger:    "this finger plays where nothing is written",
	FingerNotInUse: "this finger is not in use",
	OutOfOrder:     "the fingers are out of order",
	OutOfReach:     "the hand does not open so wide",
	TwoStrings:     "one finger has two strings in one placing",
	PinIgnored:     "another finger was asked for",
	NotSet:         "the hand must be placed here",
	SetAgainstWish: "the hand was asked to stay here",
	NoWork:         "this finger holds a string for nothing",
	KeptInVain:     "this finger waits for nothing, or is needed anyhow",
	WrongMove:      "the hand cannot get here like this",
	NotHeld:        "this finger is not on the ornament's string",
	NotThere:       "there is no placing to play the ornament from",
	BackAgain:      "the ornament goes back to a placing that it has left",
	NoTimeToDrop:   "this finger has no time to drop in",
	NoTimeToPlay:   "the ornament is too fast for these fingers",
	NotAsUsual:     "this has a house fingering, which is another",
}

// String says what is wrong, in words.
func (k Kind) String() string { return faults[k] }

// Judge lists all that is wrong with a plan of a score; nothing, if a hand can
// play it and it does what was asked.
func Judge(s *score.Score, r *rule.Rules, p *Plan) []Fault {
	g := judge{s: s, r: r, p: p}
	if !g.complete() {
		g.fault(Incomplete, Fault{Event: -1, Gap: -1, Placing: -1, Finger: -1})
		return g.found
	}
	for i := range s.Events {
		g.event(i)
		g.asked(i)
	}
	for k := range p.Placings {
		g.placing(k)
		g.moved(k)
	}
	for j := range s.Gaps {
		for k := 1; k < len(s.Gaps[j].Patterns); k++ {
			g.ornaments(j, k)
		}
	}
	return g.found
}

type judge struct {
	s     *score.Score
	r     *rule.Rules
	p     *Plan
	found []Fault
}

func (g *judge) fault(k Kind, at Fault) {
	at.Kind = k
	g.found = append(g.found, at)
}

// complete reports whether everything is there that the rest looks at.
func (g *judge) complete() bool {
	s, p := g.s, g.p
	if len(p.Events) != len(s.Events) || len(p.Gaps) != len(s.Gaps) || len(s.Gaps) != len(s.Events)+1 {
		return false
	}
	next := 0
	for k, pl := range p.Placings {
		if pl.First != next || pl.Last < pl.First || pl.Last >= len(p.Events) || !g.strings(pl.Frame) {
			return false
		}
		for i := pl.First; i <= pl.Last; i++ {
			if p.Events[i].Placing != k || !g.strings(p.Events[i].Stroke) {
				return false
			}
		}
		next = pl.Last + 1
	}
	if next != len(p.Events) {
		return false
	}
	for j := range s.Gaps {
		if len(p.Gaps[j].Ways) != len(s.Gaps[j].Patterns) {
			return false
		}
		for k, way := range p.Gaps[j].Ways {
			if len(way) != len(s.Gaps[j].Patterns[k].Strings) {
				return false
			}
			for _, touch := range way {
				if touch.Finger < 0 || touch.Finger > 3 || touch.From < Left || touch.From > Right {
					return false
				}
			}
		}
	}
	return true
}

func (g *judge) strings(frame hand.Frame) bool {
	for _, t := range frame {
		if t != hand.None && (t < 0 || int(t) >= len(g.r.Harp.Strings)) {
			return false
		}
	}
	return true
}

// event looks at one event: each note played by one finger, the one asked for,
// and no finger without a note.
func (g *judge) event(i int) {
	e, stroke := &g.s.Events[i], g.p.Events[i].Stroke
	at := Fault{Event: i, Gap: -1, Placing: -1, Finger: -1}
	if len(e.Notes) > 4 {
		g.fault(TooManyNotes, at)
	}
	for _, n := range e.Notes {
		fingers := 0
		for f, t := range stroke {
			if t != n.String {
				continue
			}
			fingers++
			if at.Finger = f; n.Pin != 0 && f != int(n.Pin)-1 {
				g.fault(PinIgnored, at)
			}
		}
		at.Finger = -1
		switch {
		case fingers == 0:
			g.fault(Unplayed, at)
		case fingers > 1:
			g.fault(PlayedTwice, at)
		}
	}
	if len(e.House) > 0 && len(e.Notes) <= 4 {
		var fingers []int8
		for _, n := range e.Notes {
			fingers = append(fingers, int8(slices.Index(stroke[:], n.String)))
		}
		if !among(e.House, fingers) {
			g.fault(NotAsUsual, at)
		}
	}
	for f, t := range stroke {
		written := t == hand.None
		for _, n := range e.Notes {
			written = written || n.String == t
		}
		if at.Finger = f; !written {
			g.fault(StrayFinger, at)
		}
	}
}

// asked looks at the wishes about placing the hand before an event. Off the
// strings is off the strings, whatever was asked.
func (g *judge) asked(i int) {
	e, at := &g.s.Events[i], Fault{Event: i, Gap: -1, Placing: -1, Finger: -1}
	switch bounded := g.p.Bounded(i); {
	case i == 0:
	case !bounded && (e.Forced || e.Boundary == score.Set):
		g.fault(NotSet, at)
	case bounded && !e.Forced && e.Boundary == score.Stay:
		g.fault(SetAgainstWish, at)
	}
}

// placing looks at what one placing holds, and why.
func (g *judge) placing(k int) {
	pl := &g.p.Placings[k]
	part := g.p.InPart(g.s, g.r, k)
	if part && pl.First != pl.Last {
		g.fault(OutOfReach, Fault{Event: pl.First, Gap: -1, Placing: k, Finger: 0})
	}
	if part {
		rest := pl.Frame
		rest[0] = hand.None
		g.frame(rest, Fault{Event: -1, Gap: -1, Placing: k})
	} else {
		g.frame(pl.Frame, Fault{Event: -1, Gap: -1, Placing: k})
	}
	var written [4]bool
	for i := pl.First; i <= pl.Last; i++ {
		for f, t := range g.p.Events[i].Stroke {
			if t == hand.None {
				continue
			}
			if written[f] = true; t != pl.Frame[f] {
				g.fault(TwoStrings, Fault{Event: i, Gap: -1, Placing: k, Finger: f})
			}
		}
	}
	for f, t := range pl.Frame {
		at := Fault{Event: -1, Gap: -1, Placing: k, Finger: f}
		ready := pl.Kept[f] || pl.Free[f]
		switch {
		case t != hand.None && !written[f] && !ready:
			g.fault(NoWork, at)
		case ready && (t == hand.None || written[f] || pl.Kept[f] && pl.Free[f] || !g.touched(pl, f)):
			g.fault(KeptInVain, at)
		}
	}
}

// touched reports whether an ornament that may sound uses finger f of a placing.
func (g *judge) touched(pl *Placing, f int) bool {
	for j := pl.First; j <= pl.Last+1; j++ {
		from := Left
		if j == pl.First {
			from = Right
		}
		for _, way := range g.p.Gaps[j].Ways {
			for _, touch := range way {
				if touch.From == from && int(touch.Finger) == f {
					return true
				}
			}
		}
	}
	return false
}

// frame looks whether a hand can hold this.
func (g *judge) frame(frame hand.Frame, at Fault) {
	for f, t := range frame {
		if t == hand.None {
			continue
		}
		if at.Finger = f; !g.r.Hand.InUse[f] {
			g.fault(FingerNotInUse, at)
		}
		for b, u := range frame[:f] {
			switch {
			case u == hand.None:
			case t > u:
				g.fault(OutOfOrder, at)
			case g.r.Harp.Distance(t, u) > g.r.Hand.Limits[b][f].Most:
				g.fault(OutOfReach, at)
			}
		}
	}
}

// moved looks at how the hand gets to a placing.
func (g *judge) moved(k int) {
	pl := &g.p.Placings[k]
	at := Fault{Event: pl.First, Gap: pl.First, Placing: k, Finger: -1}
	if k == 0 || g.s.Events[pl.First].Forced {
		if pl.Move != rule.SetAnew {
			g.fault(WrongMove, at)
		}
		return
	}
	e := &g.s.Events[pl.First]
	x := rule.Crossing{From: g.p.Events[pl.First-1].Stroke, To: g.p.Events[pl.First].Stroke, Since: e.Since,
		Written: true, Weak: e.Weak, Held: g.p.Stays(k) != [4]bool{}}
	if pl.Move != g.r.Across(&rule.Bill{}, &x) {
		g.fault(WrongMove, at)
	}
}

// ornaments looks at pattern k of gap j: each stroke from where it is said to
// be played, and in time.
func (g *judge) ornaments(j, k int) {
	pattern, way := &g.s.Gaps[j].Patterns[k], g.p.Gaps[j].Ways[k]
	at := Fault{Event: -1, Gap: j, Placing: -1, Pattern: k, Finger: -1}
	private := hand.Empty()
	for n, touch := range way {
		f, t := touch.Finger, pattern.Strings[n]
		at.Stroke, at.Finger = n, int(f)
		if n > 0 && way[n-1].From > touch.From {
			g.fault(BackAgain, at)
		}
		if touch.From == Private {
			if private[f] != hand.None && private[f] != t {
				g.fault(TwoStrings, at)
			}
			private[f] = t
			continue
		}
		if touch.From == Left && j == 0 || touch.From == Right && !(j < len(g.s.Events) && g.p.Bounded(j)) {
			g.fault(NotThere, at)
			continue
		}
		event := j
		if touch.From == Left {
			event = j - 1
		}
		pl := &g.p.Placings[g.p.Events[event].Placing]
		if pl.Frame[f] != t {
			g.fault(NotHeld, at)
		}
		same := n > 0 && way[n-1].From == touch.From || n == 0 && j > 0 && touch.From == Left
		if pl.Free[f] && !(same && pattern.Since[n] >= rule.DropLeast) {
			g.fault(NoTimeToDrop, at)
		}
	}
	at.Stroke, at.Finger = -1, -1
	g.frame(private, at)
	g.time(j, k)
	if !g.usual(j, pattern.Sounds, way) {
		g.fault(NotAsUsual, at)
	}
}

// usual looks at the house fingerings of what sounds in a gap: all its strokes in
// turn, and its note where it stands among them.
func (g *judge) usual(j int, sounds [2]int8, way []Touch) bool {
	for k, site := range g.s.Gaps[j].Sites {
		if sounds[k] < 0 {
			continue
		}
		o := &site.Ornaments[sounds[k]]
		var fingers []int8
		for _, touch := range way[:len(o.Strokes)] {
			fingers = append(fingers, touch.Finger)
		}
		way = way[len(o.Strokes):]
		at := len(fingers)
		if site.After {
			at = 0
		}
		notes := g.s.Events[site.Event].Notes
		main := notes[len(notes)-1]
		for _, n := range notes {
			if n.Written == site.Written {
				main = n
				break
			}
		}
		fingers = slices.Insert(fingers, at, int8(slices.Index(g.p.Events[site.Event].Stroke[:], main.String)))
		if len(o.House) > 0 && !among(o.House, fingers) {
			return false
		}
	}
	return true
}

func among(ways [][]int8, fingers []int8) bool {
	return slices.ContainsFunc(ways, func(way []int8) bool { return slices.Equal(way, fingers) })
}
