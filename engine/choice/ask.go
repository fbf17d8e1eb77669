package choice

import (
	"cmp"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/pitch"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// These answer for what was said of every block; ask them of InBlock.

// topStep is C10, the first step without a name.
const topStep = 70

func (c Choice) count() int {
	if v, ok := c.about(stringCount, 0); ok {
		return int(v[0])
	}
	return harp.UsualStrings
}

func (c Choice) lowest() pitch.Pitch {
	if v, ok := c.about(lowestString, 0); ok {
		return pitch.AtStep(int(v[0]))
	}
	return usualLowest(c.count())
}

// usualLowest is the string that a harp of so many strings usually begins with:
// 22 strings C4, 26 C3, 34 and 36 C2 (from memory); those between go with the
// nearest smaller, and from 40 up the concert harp's C1 (guesses).
func usualLowest(strings int) pitch.Pitch {
	switch {
	case strings < 26:
		return pitch.Pitch{Octave: 4}
	case strings < 34:
		return pitch.Pitch{Octave: 3}
	case strings < 40:
		return pitch.Pitch{Octave: 2}
	}
	return pitch.Pitch{Octave: 1}
}

// Harp gives the harp that was chosen; what was not said is as on the usual
// one. Strings that would lie above B9, where names end, are left off.
func (c Choice) Harp() harp.Harp {
	tuned, spaced := harp.Tunings()[0], int32(harp.UsualSpacing)
	if v, ok := c.about(tuning, 0); ok {
		tuned = harp.Tunings()[v[0]]
	}
	if v, ok := c.about(spacing, 0); ok {
		spaced = v[0]
	}
	lowest := c.lowest()
	h, ok := harp.New(min(c.count(), topStep-lowest.Step()), lowest, tuned, spaced)
	if !ok {
		return harp.Default()
	}
	return h
}

// Hand gives the hand that plays: the one chosen, else the one named, "right"
// or "left", with the fingers in use, the reach and the spans that were chosen.
func (c Choice) Hand(name string) hand.Hand {
	inUse, stretch := "1234", int32(1000)
	if v, ok := c.about(whichHand, 0); ok {
		name = hands[v[0]]
	}
	if v, ok := c.about(fingersInUse, 0); ok {
		inUse = writeFingers(v)
	}
	if v, ok := c.about(reach, 0); ok {
		stretch = v[0]
	}
	h, ok := hand.New(name, inUse, stretch)
	if !ok {
		return hand.Usual("right")
	}
	for i, pair := range hand.Pairs() {
		if v, ok := c.about(span12+subject(i), 0); ok {
			h = h.WithSpan(pair[0], pair[1], v[0])
		}
	}
	return h
}

// Lifted reports whether the hand comes off the strings between placings.
func (c Choice) Lifted() bool {
	v, _ := c.about(style, 0)
	return v[0] == 1
}

// Tempo gives the milliseconds of a quarter note, if a tempo was chosen.
func (c Choice) Tempo() (quarterMS int32, ok bool) {
	v, ok := c.about(tempo, 0)
	if !ok {
		return 0, false
	}
	return quarter(v), true
}

// Finger gives the finger asked for on a note, 0 if it is to be free; said is
// false where nothing was said.
func (c Choice) Finger(written int) (asked int8, said bool) {
	v, ok := c.about(finger, written)
	return int8(v[0]), ok
}

// Boundary gives what is asked of the hand before a note; said is false where
// nothing was said.
func (c Choice) Boundary(written int) (wish score.Boundary, said bool) {
	v, ok := c.about(boundary, written)
	return score.Boundary(v[0]), ok
}

// Why gives the note whose finger is to be explained.
func (c Choice) Why() (written int, ok bool) {
	for _, s := range c.said {
		if s.subject == why && s.block == 0 {
			return s.written, true
		}
	}
	return 0, false
}

// Site is what was said of the ornaments at one site: the likelihoods asked
// for, the last spoken of first; the one switched on last, if any, beside which
// all others are silent, and whether it still sounds; and, while none was
// switched on, those switched off.
type Site struct {
	Asked  []Asked
	Chosen string
	Sounds bool
	Silent []string
}

// Asked is a likelihood that was asked for, in sixteenths.
type Asked struct {
	Name       string
	Likelihood int32
}

// Site gives what was said of the ornaments on the beat of a note, or of those
// spread after it.
func (c Choice) Site(written int, time ornament.Time) Site {
	i, found := slices.BinarySearchFunc(c.sites, site{written: written, time: time}, site.compare)
	if !found {
		return Site{}
	}
	s := c.sites[i]
	answer := Site{Chosen: s.chosen, Sounds: s.sounds, Silent: slices.Clone(s.silent)}
	for _, l := range slices.Backward(s.levels) {
		answer.Asked = append(answer.Asked, Asked{l.name, l.value})
	}
	return answer
}

// Written lists every note that something was said of, once each, in order.
func (c Choice) Written() []int {
	var list []int
	for _, s := range c.said {
		if s.block == 0 && s.written > 0 {
			list = append(list, s.written)
		}
	}
	var offers []Offer
	if len(c.offers) > 0 && c.offers[0].block == 0 {
		offers = c.offers[0].items
	}
	for _, o := range offers {
		if o.Written > 0 {
			list = append(list, o.Written)
		}
	}
	for _, s := range c.sites {
		if s.block == 0 {
			list = append(list, s.written)
		}
	}
	source.Order(list, cmp.Compare)
	return slices.Compact(list)
}
