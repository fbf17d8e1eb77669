package plan

import (
	"readyhand/engine/hand"
	"readyhand/engine/score"
)

// Other is another way to play a part of a tune: everything else stays as the
// plan shows it.
type Other struct {
	From, To int      // the first event that is played otherwise, and the last, where it is first played
	Extra    Cost     // above the plan shown
	Near     bool     // within NearTie
	Again    bool     // its notes come more than once: it is taken each time
	Changes  []Change // in played order, every time the notes come
	Tip      *Tip     // a near-tie: what would make it the cheaper way; nil if nothing beside it does
	Known    *Known   // a fingering that others have written down; nil for any other
	Whole    *Plan    // the complete plan with it; nil where it has not been worked out
}

// Change is one event that is played otherwise: with other fingers, or with the
// hand set before it where it was not, or not set where it was.
type Change struct {
	Event  int
	Stroke hand.Frame
	Placed bool
}

// Tip is a stroke beside a near-tie, just before it or after it: were it asked
// for, the other way would be the cheaper.
type Tip struct {
	Event  int
	Stroke hand.Frame
}

// Known is a fingering of a figure that others have written down: of an ornament,
// its note included, or of written notes.
type Known struct {
	Gap, Site, Which int    // of the ornament as it is first played; Gap -1 for written notes
	Fingers          []int8 // 0 to 3
	Name, Source     string // as of ornament.Fingering
	Stops            []Stop // after written notes; of an ornament the whole plan knows them
}

// Check is a player's own fingering held against the best.
type Check struct {
	Playable bool
	Extra    Cost         // above the best plan, None where it cannot be played
	Own      Plan         // the best plan with these fingers; of no use where it cannot be played
	Best     Plan         // the best with any
	Score    *score.Score // of both plans
	Misfits  []Misfit     // where it cannot be played, the first places
}

// Misfit is one place where a fingering cannot be played. Event is where it shows;
// With, for two notes of one placing, the event before it that it clashes with, or
// itself for a chord; -1 if none.
type Misfit struct {
	Kind             Kind
	Event, With      int
	Finger, Other    int // 0 to 3, of the two events; -1
	Gap, Site, Which int // of an ornament that has no way left; Gap -1
}

// Alone is one way to finger an ornament of a score that has no other, from a hand
// that is set once.
type Alone struct {
	Fingers []int8     // 0 to 3, beside its strokes and its note as they are played; of one that goes on and on, as often as they are different
	Frame   hand.Frame // what the hand holds for it
	Cost    Cost       // of the score with it always sounding
}

// Choice is what sounds in one gap, by site, and how it is played.
type Choice struct {
	Gap     int
	Sounds  [2]int8 // the ornament that sounds at each of its sites, or -1
	Touches []Touch
}
