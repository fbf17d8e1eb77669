// Package plan is the answer: which finger plays which string, where the hand
// is placed, what decided it, and the judge that says what a plan costs.
package plan

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Plan is a complete fingering of a score. Events and Gaps run beside the
// score's.
type Plan struct {
	Events   []Event
	Placings []Placing
	Gaps     []Gap
	Cost     Cost // of the joint plan, all that may sound weighed
	Dropped  []Dropped
	Likeness Likeness
	Proof    Proof
	House    []House // the house fingerings there are, followed or not, in played order
	Usual    Cost    // what following them costs above the best plan without them
}

// Likeness is what it takes that bars alike have the same fingers: Extra above
// the best plan without that, of which Gap may not be needed, where the search
// for the best was stopped. Figures counts the different bars that come again.
type Likeness struct {
	Figures    int
	Extra, Gap Cost
}

// Proof is that no fingering costs less than Least: at so many moments, events of
// the score, the best way there and the best way on from there add up to the plan's
// cost. Least is below the cost by Likeness.Gap.
type Proof struct {
	Moments int
	Least   Cost
}

// Cost is an amount in 256ths of a thousandth of a charge: charges are
// thousandths, likelihoods 256ths, so that every sum is a whole number.
type Cost int64

// Charge is one charge as a Cost, and None the cost of what cannot be played.
const (
	Charge Cost = 1000 * score.Whole
	None   Cost = 1 << 60
)

// NearTie is the extra effort up to which two ways are called nearly equal
// (guess: half a new placing).
const NearTie = 12 * Charge

// Event is how one event of the score is played.
type Event struct {
	Stroke  hand.Frame // the string of each finger that plays
	Placing int        // its placing, from 0
	Prices  [][4]Cost  // by note of the event and finger: what taking that finger costs above the best; None where it cannot
}

// Finger gives the finger, 0 to 3, that plays a string in this event, or -1.
func (e Event) Finger(s int8) int {
	for f, t := range e.Stroke {
		if t == s {
			return f
		}
	}
	return -1
}

// Placing is one setting of the hand, for events First to Last.
type Placing struct {
	First, Last int
	Frame       hand.Frame // every string it holds
	Kept        [4]bool    // fingers set for ornaments alone, waiting on their string
	Free        [4]bool    // fingers that drop in for ornaments alone, not set
	Move        rule.Move  // how the hand gets here
}

// Gap is how the ornaments in a gap are played. Ways runs beside the patterns
// of the score's gap, Fits beside its sites and their ornaments.
type Gap struct {
	Ways [][]Touch
	Fits [][]Fit
}

// Fit is how one ornament suits the hand as it is placed. Touches run beside
// its strokes: how it is played as things stand, or would be if it were
// switched on now; nil where there is no time, and where written notes would
// have to move for it first (PlacedAgain, Moves of them in one of the best plans
// with it; 0 if only fingers that wait for other ornaments would).
type Fit struct {
	Ready   Readiness
	Touches []Touch
	Extra   Cost // what preparing it adds, at its likelihood, or at now and then for one that is never played
	Moves   int  // written notes that take another finger or placing for it
	Unusual bool // its house fingering cannot be played here, or not from the hand as it lies: it is taken with other fingers
}

// Readiness is what an ornament asks of the placed hand.
type Readiness int8

const (
	InHand      Readiness = iota // fingers already set, for written notes or, where it is never played, for other ornaments
	FingerFree                   // a finger with no work here drops in; nothing is set beforehand
	FingerKept                   // a finger must rest ready on its string
	PlacedAgain                  // the hand must be placed anew for it, or otherwise from the start
	NoTime                       // it cannot be played here
)

// String gives the words of plan -json.
func (r Readiness) String() string {
	return [...]string{"in the hand", "finger free", "finger kept", "placed again", "no time"}[r]
}

// Touch is one stroke of an ornament: its finger, 0 to 3, and what it plays
// from.
type Touch struct {
	Finger int8
	From   From
}

// From says which frame a stroke of an ornament is played from.
type From int8

const (
	Left    From = iota // the placing of the event before; the only shared one where the hand is not placed in this gap
	Private             // a placing of the ornament's own
	Right               // the placing of the event after
)

// String gives a word for it.
func (f From) String() string { return [...]string{"left", "private", "right"}[f] }

// House is one house fingering and how it fares: of the chord of an event, or of an
// ornament that is prepared. Where it is not followed Fingers are the first asked.
type House struct {
	Event            int // of the chord; -1
	Gap, Site, Which int // of the ornament; Gap -1
	Fingers          []int8
	Followed         bool
	Extra            Cost // what following it here costs, the others followed
}

// Dropped is an ornament or a pin that could not be played and was left out, or,
// with its fingers in House, only the house fingering of an ornament or a chord.
type Dropped struct {
	Event int            // of the pin; -1
	Wish  score.Boundary // of an event: that it was set, or stayed, if it was this and no pin
	Gap   int            // of the ornament; -1
	Site  int
	Which int // which ornament of the site
	House [][]int8
}

// Bounded reports whether the hand is placed in gap j: before the first event,
// or between two placings.
func (p *Plan) Bounded(j int) bool {
	return j == 0 || j < len(p.Events) && p.Events[j].Placing != p.Events[j-1].Placing
}

// Stays says which fingers of placing k are on the same string in the one before
// it, both times for written notes. Where the hand does not come off the strings
// between, they stay there.
func (p *Plan) Stays(k int) (stays [4]bool) {
	if k == 0 {
		return stays
	}
	a, b := &p.Placings[k-1], &p.Placings[k]
	for f, t := range b.Frame {
		stays[f] = t != hand.None && a.Frame[f] == t && !a.Kept[f] && !a.Free[f] && !b.Kept[f] && !b.Free[f]
	}
	return stays
}

// Held reports whether a finger stays on its string over a boundary in gap j.
func (p *Plan) Held(s *score.Score, j int) bool {
	return j > 0 && j < len(p.Events) && p.Bounded(j) && !s.Events[j].Forced && p.Stays(p.Events[j].Placing) != [4]bool{}
}

// InPart reports whether placing k begins with a rolled chord that the hand takes
// in part.
func (p *Plan) InPart(s *score.Score, r *rule.Rules, k int) bool {
	i := p.Placings[k].First
	if !s.Events[i].Rolled {
		return false
	}
	for _, stroke := range r.Hand.InPart(r.Harp, s.Events[i].Strings()) {
		if stroke == p.Events[i].Stroke {
			return true
		}
	}
	return false
}
