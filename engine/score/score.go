// Package score is everything that may be played by one hand, on the strings
// of one harp, in played order.
package score

import (
	"strconv"

	"readyhand/engine/harp"
	"readyhand/engine/source"
)

// Score is one hand's part. Gap j lies before event j; the last gap lies after
// the last event, so there is one gap more than events.
type Score struct {
	Harp   harp.Harp
	Raised []bool // by string: its lever is up when the tune begins
	Used   []bool // by string: the tune or an ornament of it needs it
	Events []Event
	Gaps   []Gap
	Left   []int // numbers of the written notes that the harp lacks or the hand cannot hold, as met
}

// Event is one written moment as played: one to four strings, lowest first.
// An event whose notes the hand or the harp cannot play is not in the score;
// its notes are in Left.
type Event struct {
	Notes    []Note
	Since    int32    // milliseconds since the previous event's onset; 0 for the first
	Length   int32    // milliseconds
	Onset    [2]int64 // played time, in whole notes
	Span     [2]int64 // length, in whole notes
	Bar      int      // written bar, from 1; 0 a pickup
	Line     int      // line of music in the text, from 0
	Rolled   bool     // a chord played from its lowest note to its highest, not at once
	Weak     int8     // how weak its place in the bar is: 0 where the bar or half of it begins, 1 on another beat, 2 between beats
	Forced   bool     // the hand is off the strings before it: a rest of an eighth or more, or a phrase end
	Boundary Boundary // what the text or the reader asks of the hand here
	House    [][]int8 // the fingers, 0 to 3, that these notes may have, from the lowest string, in order of liking; none: any
}

// Strings gives the strings of an event's notes, lowest first.
func (e *Event) Strings() []int8 {
	strings := make([]int8, len(e.Notes))
	for i, n := range e.Notes {
		strings[i] = n.String
	}
	return strings
}

// Boundary is a wish about placing the hand before an event.
type Boundary int8

const (
	Open Boundary = iota // the solver's choice
	Set                  // the hand is placed here
	Stay                 // the hand is not placed here
)

// Note is one written note on one pass.
type Note struct {
	Written int         // number of the note head, from 1
	Pass    int         // from 1
	String  int8        // from 0 at the lowest
	Raised  bool        // the string sounds with its lever up
	Pin     int8        // finger 1 to 4 asked for, 0 if free
	Source  source.Span // where the note stands in the text
	Pinned  source.Span // where the pin stands; Nowhere if the reader's
}

// ID is the note's name everywhere: "12", on the second pass "12/2".
func (n Note) ID() string { return ID(n.Written, n.Pass) }

// ID names a written note on a pass.
func ID(written, pass int) string {
	if pass == 1 {
		return strconv.Itoa(written)
	}
	return strconv.Itoa(written) + "/" + strconv.Itoa(pass)
}

// Gap holds the sites that lie between two events: at most two, first the one
// that follows the event before, then the one on the beat of the event after.
type Gap struct {
	Sites    []Site
	Patterns []Pattern // what may sound, nothing first; weights sum to 256. Made by Weigh.
}

// Site is one place for ornaments; at most one of them sounds.
type Site struct {
	Written, Pass int  // the note adorned
	Event         int  // its event
	After         bool // the strokes follow the note (its event is the one before the gap), else they come before it
	Ornaments     []Ornament
}

// Ornament is one ornament at a site. Strokes are all its notes but the
// written one.
type Ornament struct {
	Name       string // the catalogue's, or "grace"
	Title      string
	Many       bool // the title is a plural
	Strokes    []Stroke
	Delay      int32 // milliseconds by which the written note sounds later
	On         bool  // it sounds
	Likelihood int32 // 0 never, 4 now and then, 8 often, 16 always: what is prepared, in sixteenths
	Written    bool  // in the tune, not offered
	Source     source.Span
	House      [][]int8 // the fingers, 0 to 3, that its strokes and the note adorned may have, as they are played, in order of liking; none: any
}

// Stroke is one note of an ornament: its string, and the milliseconds from the
// onset of the note adorned, below 0 before it.
type Stroke struct {
	String int8
	At     int32
}

// ID names ornament k of a site: "12.cut", on the second pass "12/2.cut".
func (s Site) ID(k int) string { return ID(s.Written, s.Pass) + "." + s.Ornaments[k].Name }

// Pattern is one choice of what sounds in a gap: Sounds holds, for each site,
// the ornament that sounds or -1. Weight is in 256ths. Since[k] is the time
// from the stroke before to stroke k in milliseconds, the first from the event
// before the gap; Last is the time from the last stroke to the event after it,
// delayed where an ornament delays it. In the first gap Since[0] is 0, in the
// last gap Last is 0. Without strokes Last is the event's Since. Within[k] says
// that the step to stroke k, and Within[len(Strings)] that the step to the event
// after, lies inside one ornament, between two strokes of it or between one and
// its note.
type Pattern struct {
	Sounds  [2]int8
	Weight  int64
	Strings []int8
	Since   []int32
	Last    int32
	Within  []bool
	House   []Run // how its house fingerings let it be played, in order of liking; none: with any fingers
}

// Whole is the sum of a gap's weights.
const Whole = 256

// The dial of likelihoods, in sixteenths.
const (
	Never      int32 = 0
	NowAndThen int32 = 4
	Often      int32 = 8
	Always     int32 = 16
)

// Share gives the likelihood that a wish keeps when this much of the 16 is left
// at its site: the wish, or the next word of the dial below it that fits.
func Share(wish, left int32) int32 {
	if wish <= left {
		return wish
	}
	for _, dial := range [...]int32{Always, Often, NowAndThen} {
		if dial <= min(wish, left) {
			return dial
		}
	}
	return Never
}

// Weigh works out the patterns of every gap from the likelihoods of its
// sites' ornaments. Likelihoods of one site must add up to at most 16.
func (s *Score) Weigh() {
	for j := range s.Gaps {
		s.WeighGap(j)
	}
}

// WeighGap is Weigh for one gap.
func (s *Score) WeighGap(j int) {
	g := &s.Gaps[j]
	g.Patterns = nil
	for a, wa := range options(g, 0) {
		for b, wb := range options(g, 1) {
			if wa*wb > 0 || a == 0 && b == 0 {
				p := s.Sounding(j, [2]int8{int8(a) - 1, int8(b) - 1})
				p.Weight = wa * wb
				g.Patterns = append(g.Patterns, p)
			}
		}
	}
}

// options gives the weights, in sixteenths, of nothing and of each ornament at
// a gap's site; a site that is not there is always silent.
func options(g *Gap, site int) []int64 {
	if site >= len(g.Sites) {
		return []int64{16}
	}
	w := []int64{16}
	for _, o := range g.Sites[site].Ornaments {
		w[0] -= int64(o.Likelihood)
		w = append(w, int64(o.Likelihood))
	}
	return w
}

// Sounding gives the pattern of a gap in which these ornaments sound, with
// weight 0.
func (s *Score) Sounding(gap int, sounds [2]int8) Pattern {
	p := Pattern{Sounds: sounds}
	var before, next int32 // when the event before sounded is 0; next: when the event after would
	if gap < len(s.Events) {
		next = s.Events[gap].Since
	}
	if gap == 0 {
		before, next = 0, s.early(sounds)
	}
	delay, inside := int32(0), false
	for k, site := range s.Gaps[gap].Sites {
		if sounds[k] < 0 {
			continue
		}
		o := site.Ornaments[sounds[k]]
		start := next
		if site.After {
			start = 0
		}
		for n, stroke := range o.Strokes {
			at := max(before, start+stroke.At)
			p.Within = append(p.Within, n > 0 || site.After)
			p.Strings = append(p.Strings, stroke.String)
			p.Since = append(p.Since, at-before)
			before = at
		}
		delay += o.Delay
		inside = !site.After && len(o.Strokes) > 0
	}
	p.Within = append(p.Within, inside)
	if gap < len(s.Events) {
		p.Last = max(0, next+delay-before)
	}
	p.House = s.runs(gap, sounds)
	return p
}

// early is how long before the first beat of all an ornament that sounds there
// begins, in milliseconds: nothing is before it that it could take its time from.
func (s *Score) early(sounds [2]int8) int32 {
	for k, site := range s.Gaps[0].Sites {
		if sounds[k] >= 0 && len(site.Ornaments[sounds[k]].Strokes) > 0 {
			return max(0, -site.Ornaments[sounds[k]].Strokes[0].At)
		}
	}
	return 0
}

// Now gives what sounds in a gap as the ornaments stand.
func (s *Score) Now(gap int) [2]int8 {
	sounds := [2]int8{-1, -1}
	for k, site := range s.Gaps[gap].Sites {
		for i, o := range site.Ornaments {
			if o.On {
				sounds[k] = int8(i)
			}
		}
	}
	return sounds
}

// Name gives the note's sounding pitch: "F#4".
func (n Note) Name(s Score) string { return s.Harp.Strings[n.String].Sounding(n.Raised).String() }

// Name gives the sounding pitch of a string as the levers are set when the tune
// begins.
func (s Score) Name(t int8) string { return s.Harp.Strings[t].Sounding(s.Raised[t]).String() }

// Plays reports whether a written note is among the events.
func (s *Score) Plays(written int) bool {
	for _, e := range s.Events {
		for _, n := range e.Notes {
			if n.Written == written {
				return true
			}
		}
	}
	return false
}
