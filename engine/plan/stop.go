package plan

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/ornament"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Stop is a finger that comes down on a string to silence it, and then is on it: of
// a figure, after its last stroke. Finger 4 is the little one, which plays nothing
// here. It lies there until event Until, whose strokes or whose placing take it away,
// or an ornament that is prepared on the way there; Until is the number of events if
// nothing does. Of a known fingering of written notes Until says nothing.
type Stop struct {
	Finger, String int8
	Until          int
	Rings          Rings
}

// Rings says that a finger leaves a string to ring that it would stop, and why.
type Rings int8

const (
	Stopped    Rings = iota // it does not: the string is stopped
	Wanted                  // the finger must too soon be on another string
	ComesAgain              // another finger too soon plays the string again
	Sounds                  // it is the string of the note itself, or of its chord, which is to sound on
)

// Stops gives the fingers, of those in use, that come down on a string after one
// ornament of a site, as the plan plays it or would play it: those that its source
// names, where the fingers that it takes, its note's among them, are those of a
// fingering that others have written down, and all play from the placing of its note.
// A string to be stopped is one that a finger beside it has just played, so it is
// within reach.
//
// What nobody has time for is left out: what comes down on a string is off its own,
// and as a finger that drops in (score and rules call it free) it needs 400 ms until
// it, or another finger on that string, plays next, whatever of what is prepared will
// sound. So a stop costs nothing.
func (p *Plan) Stops(s *score.Score, inUse [4]bool, gap, site, which int) (list []Stop) {
	x := &s.Gaps[gap].Sites[site]
	strings, fingers := p.figure(s, gap, site, which)
	if strings == nil {
		return nil
	}
	steps := make([]int8, len(strings))
	for i, t := range strings {
		steps[i] = t - strings[0]
	}
	for _, f := range ornament.Fingerings(steps, x.Ornaments[which].Name) {
		if len(f.Stops) == 0 || !slices.Equal(f.Fingers, fingers) {
			continue
		}
		for _, stop := range f.Stops {
			if !inUse[min(stop.Finger, 3)] { // who has no fourth finger in use has no fifth
				continue
			}
			st := Stop{Finger: stop.Finger, String: strings[0] + stop.Step}
			p.follow(s, gap, site, which, &st)
			list = append(list, st)
		}
		break
	}
	return list
}

// Halts gives those of Stops that do stop their string.
func (p *Plan) Halts(s *score.Score, inUse [4]bool, gap, site, which int) (list []Stop) {
	for _, stop := range p.Stops(s, inUse, gap, site, which) {
		if stop.Rings == Stopped {
			list = append(list, stop)
		}
	}
	return list
}

// figure gives the strings and fingers of an ornament and its note in the order of
// play; nil where it has no way, or does not all play from the placing of its note.
func (p *Plan) figure(s *score.Score, gap, site, which int) (strings, fingers []int8) {
	x := &s.Gaps[gap].Sites[site]
	touches, strokes := p.touches(s, gap, site, which), x.Ornaments[which].Strokes
	if len(strokes) == 0 || len(touches) != len(strokes) {
		return nil, nil
	}
	home := Left
	if !x.After && p.Bounded(gap) {
		home = Right
	}
	for i, touch := range touches {
		if touch.From != home {
			return nil, nil
		}
		strings, fingers = append(strings, strokes[i].String), append(fingers, touch.Finger)
	}
	at, main := len(strings), s.Adorned(*x)
	if x.After {
		at = 0
	}
	return slices.Insert(strings, at, main), slices.Insert(fingers, at, int8(p.Events[x.Event].Finger(main)))
}

// touches gives how an ornament is played, also in a plan that has not been asked how
// ornaments suit it.
func (p *Plan) touches(s *score.Score, gap, site, which int) []Touch {
	if gap >= len(p.Gaps) {
		return nil
	}
	if fits := p.Gaps[gap].Fits; site < len(fits) && which < len(fits[site]) {
		return fits[site][which].Touches
	}
	alone := [2]int8{-1, -1}
	alone[site] = int8(which)
	for k, way := range p.Gaps[gap].Ways {
		if s.Gaps[gap].Patterns[k].Sounds == alone {
			return way
		}
	}
	return nil
}

// follow finds how long a finger can lie on a string after an ornament, and whether
// it is worth it.
func (p *Plan) follow(s *score.Score, gap, site, which int, st *Stop) {
	x := &s.Gaps[gap].Sites[site]
	o := &x.Ornaments[which]
	since := -o.Delay // milliseconds from the stop to the onset of the event before gap g
	if x.After {
		since = -o.Strokes[len(o.Strokes)-1].At
	}
	if p.Events[x.Event].Finger(st.String) >= 0 {
		st.Rings = Sounds
	}
	st.Until = len(p.Events)
	for g := x.Event + 1; ; g++ {
		for k, way := range p.Gaps[g].Ways {
			if k == 0 || k >= len(s.Gaps[g].Patterns) || len(way) != len(s.Gaps[g].Patterns[k].Strings) {
				continue
			}
			pattern := &s.Gaps[g].Patterns[k]
			own := 0 // strokes up to the ornament's last
			if g == gap {
				if pattern.Sounds[site] != int8(which) && (o.Likelihood > 0 || pattern.Sounds[site] >= 0) {
					continue
				}
				own = played(&s.Gaps[g], pattern, site)
			}
			at := since
			for n, touch := range way {
				at += pattern.Since[n]
				stroke := hand.Empty()
				stroke[touch.Finger] = pattern.Strings[n]
				if n >= own && p.takes(st, stroke, p.over(g, touch.From), touch.From != Left, at) {
					st.Until = min(st.Until, g)
					break
				}
			}
		}
		if g == len(p.Events) {
			return
		}
		since += s.Events[g].Since
		var next *Placing
		if p.Bounded(g) {
			next = &p.Placings[p.Events[g].Placing]
		}
		if p.takes(st, p.Events[g].Stroke, next, next != nil, since) {
			st.Until = min(st.Until, g)
			return
		}
	}
}

// over gives the placing that the hand has come to when a stroke of an ornament in gap
// g plays from there; nil if it is not a new one that is shared.
func (p *Plan) over(g int, from From) *Placing {
	if from != Right {
		return nil
	}
	return &p.Placings[p.Events[g].Placing]
}

// played counts the strokes of a pattern up to the last of the ornament at a site; all
// that come before that site where it is silent.
func played(g *score.Gap, pattern *score.Pattern, site int) (n int) {
	for k := 0; k <= site; k++ {
		if which := pattern.Sounds[k]; which >= 0 {
			n += len(g.Sites[k].Ornaments[which].Strokes)
		}
	}
	return n
}

// takes reports whether a stroke so many milliseconds after a stop ends it: one of its
// finger or on its string, or where the hand has left for another placing, which is
// next if that is a shared one. What comes too soon leaves the string to ring.
func (p *Plan) takes(st *Stop, stroke hand.Frame, next *Placing, left bool, at int32) bool {
	plays, on := hand.None, hand.None // the finger, and where it is set
	if f := st.Finger; f < 4 {
		plays = stroke[f]
		if on = plays; on == hand.None && next != nil && !next.Free[f] {
			on = next.Frame[f]
		}
	}
	why := Wanted
	switch {
	case plays != st.String && slices.Contains(stroke[:], st.String):
		why = ComesAgain
	case on == st.String: // it is there already
		return true
	case on == hand.None:
		return left
	}
	if at < rule.DropLeast && st.Rings == Stopped {
		st.Rings = why
	}
	return true
}
