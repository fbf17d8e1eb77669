package choice

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/source"
)

// Calls is what was asked of the late calls of a tune: From and To are written
// bars, 0 where none were named.
type Calls struct {
	From, To int
	Turns    int  // how often the part is played
	Ahead    int  // how many beats before its note an ornament is called; 0 if nothing was said
	Seed     int  // which order the calls come in
	All      bool // all that fits the hand is called, not only what the tune has
}

// MostSeed is the highest number that an order of calls has.
const MostSeed = 999

// The usual late calls, and the most of each (guesses: sixteen turns of two bars
// take two minutes, and after 64 nobody is fresh).
const (
	usualTurns, mostTurns = 16, 64
	mostAhead             = 8
	usualSeed             = 1
	mostBar               = 9999
)

// Calls gives what was asked of the late calls; ask it of InBlock.
func (c Choice) Calls() Calls {
	x := Calls{Turns: usualTurns, Seed: usualSeed}
	if v, ok := c.about(calledBars, 0); ok {
		x.From, x.To = int(v[0]), int(v[1])
	}
	v, _ := c.about(called, 0)
	x.All = v[0] == 1
	for _, is := range []struct {
		what subject
		n    *int
	}{{turns, &x.Turns}, {ahead, &x.Ahead}, {seed, &x.Seed}} {
		if v, ok := c.about(is.what, 0); ok {
			*is.n = int(v[0])
		}
	}
	return x
}

// checkBars reads "3 4" or "3", bars of the tune.
func checkBars(words string) ([3]int32, *Fault) {
	first, last, two := strings.Cut(words, " ")
	if !two {
		last = first
	}
	from, ok := count(first, mostBar)
	to, fine := count(last, mostBar)
	if !ok || !fine || to < from {
		return one(0), &Fault{source.Quote(words) + " are no bars of a tune.", "Write the first and the last: calls 3 4."}
	}
	return [3]int32{int32(from), int32(to)}, nil
}

func writeBars(v [3]int32) string { return strconv.Itoa(int(v[0])) + " " + strconv.Itoa(int(v[1])) }

// whichCalled by their value: the ornaments that the tune has, or all.
var whichCalled = [2]string{"tune", "all"}

func checkCalled(words string) ([3]int32, *Fault) {
	i := slices.Index(whichCalled[:], strings.ToLower(words))
	if i < 0 {
		return one(0), &Fault{"Called late are the ornaments of the tune, or all that fit the hand, not " + source.Quote(words) + ".", "Write called all, or called tune."}
	}
	return one(int32(i)), nil
}

func writeCalled(v [3]int32) string { return whichCalled[v[0]] }

// checkUpTo reads a whole number from 1.
func checkUpTo(most int, message, suggestion string) func(string) ([3]int32, *Fault) {
	return func(words string) ([3]int32, *Fault) {
		n, ok := count(words, most)
		if !ok {
			return one(0), &Fault{message + ", not " + source.Quote(words) + ".", suggestion}
		}
		return one(int32(n)), nil
	}
}
