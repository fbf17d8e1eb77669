// Package hand is what one hand can hold and reach.
package hand

import "readyhand/engine/harp"

// Frame is what a placing holds: the string of each finger, thumb first; None
// where the finger holds nothing. Strings count from 0 at the lowest.
type Frame [4]int8

// None is the string of a finger that holds nothing.
const None int8 = -1

// Empty is the frame of a hand that holds nothing.
func Empty() Frame { return Frame{None, None, None, None} }

// Limit is how far apart two fingers may be, in micrometres: without effort,
// in comfort, and at the most.
type Limit struct{ Relaxed, Comfortable, Most int32 }

// Hand is one player's hand. Left and right are the same function of the
// strings: the thumb has the highest string in both.
type Hand struct {
	Name   string // "right" or "left"
	InUse  [4]bool
	Reach  int32       // per mille of the usual adult hand
	Limits [4][4]Limit // by finger, 0 the thumb; symmetric; the diagonal is unused
}

// The usual hand's limits in strings of 14.5 mm. Guesses, bounded by what was
// read: 1-4 a tenth (Sibelius Academy after Chaloupka 1979), 1-2 "a fifth (or
// wider)" (Harp Legacy Project), 2-3 a fourth (Simplearp); no measured 2-3,
// 3-4, 2-4 spans on a harp exist. 3-4 is narrower than 2-3 (from memory); 2-4
// opens as far as 2-3 and 3-4 together, at the most an octave (forked fingers,
// Bunting 1840 p. 26).
var usual = []struct {
	a, b                       int
	relaxed, comfortable, most int32
}{
	{1, 2, 3, 5, 6},
	{1, 3, 4, 6, 7},
	{1, 4, 5, 7, 9},
	{2, 3, 1, 3, 4},
	{3, 4, 2, 3, 3},
	{2, 4, 3, 5, 7},
}

// New gives a hand with these fingers in use ("123"), its reach in per mille of
// the usual hand. It reports false for a finger other than 1 to 4, none at all,
// or a reach outside 500-1500 (a scale of 0.75-1.25 covers adults, Boyle, Boyle
// and Booker 2015; children are smaller).
func New(name, inUse string, reach int32) (Hand, bool) {
	h := Hand{Name: name, Reach: reach}
	for _, f := range inUse {
		if f < '1' || f > '4' || h.InUse[f-'1'] {
			return Hand{}, false
		}
		h.InUse[f-'1'] = true
	}
	if inUse == "" || reach < 500 || reach > 1500 || name != "right" && name != "left" {
		return Hand{}, false
	}
	for _, u := range usual {
		// The additions keep the limits off the string grid.
		l := Limit{
			Relaxed:     (u.relaxed*14500 + 2500) * reach / 1000,
			Comfortable: (u.comfortable*14500 + 5000) * reach / 1000,
			Most:        (u.most*14500 + 7250) * reach / 1000,
		}
		h.Limits[u.a-1][u.b-1], h.Limits[u.b-1][u.a-1] = l, l
	}
	return h, true
}

// Pairs lists the pairs of fingers, 0 the thumb, in the order of their spans'
// names: 1-2, 1-3, 1-4, 2-3, 2-4, 3-4.
func Pairs() [6][2]int { return [6][2]int{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}} }

// WithSpan gives the hand with another comfortable limit, in micrometres, for one
// pair of fingers; the relaxed and the greatest grow with it.
func (h Hand) WithSpan(f, g int, comfortable int32) Hand {
	l := h.Limits[f][g]
	scale := func(um int32) int32 { return int32(int64(um) * int64(comfortable) / int64(l.Comfortable)) }
	l = Limit{Relaxed: scale(l.Relaxed), Comfortable: comfortable, Most: scale(l.Most)}
	h.Limits[f][g], h.Limits[g][f] = l, l
	return h
}

// Usual is the hand that is meant when nobody says.
func Usual(name string) Hand {
	h, _ := New(name, "1234", 1000)
	return h
}

// Pair reports whether finger f on string a and finger g on string b (fingers
// 0 to 3) can be held together: the thumb's side on the higher string, within
// the limits. Two fingers may share a string.
func (h Hand) Pair(on harp.Harp, f int, a int8, g int, b int8) bool {
	if f > g {
		f, a, g, b = g, b, f, a
	}
	return a >= b && on.Distance(a, b) <= h.Limits[f][g].Most
}

// Takes reports whether finger f can be added to a frame on string s; a frame
// that has it there already takes it.
func (h Hand) Takes(on harp.Harp, frame Frame, f int, s int8) bool {
	if !h.InUse[f] {
		return false
	}
	if frame[f] != None {
		return frame[f] == s
	}
	for g, t := range frame {
		if t != None && !h.Pair(on, f, s, g, t) {
			return false
		}
	}
	return true
}

// Valid reports whether the whole frame can be held.
func (h Hand) Valid(on harp.Harp, frame Frame) bool {
	held := Empty()
	for f, s := range frame {
		if s == None {
			continue
		}
		if !h.Takes(on, held, f, s) {
			return false
		}
		held[f] = s
	}
	return true
}

// Fingerings lists every way to take these strings (lowest first, none twice)
// at one moment, each as a frame, the smallest fingers from the top string first.
func (h Hand) Fingerings(on harp.Harp, strings []int8) []Frame {
	var all []Frame
	var add func(frame Frame, next int, finger int)
	add = func(frame Frame, next, finger int) {
		if next < 0 {
			all = append(all, frame)
			return
		}
		for f := finger; f < 4; f++ {
			if h.Takes(on, frame, f, strings[next]) {
				with := frame
				with[f] = strings[next]
				add(with, next-1, f+1)
			}
		}
	}
	add(Empty(), len(strings)-1, 0)
	return all
}

// InPart lists the ways to take a rolled chord that is too wide to be held: the
// other fingers hold theirs, and the thumb comes to the highest string while the
// finger below it plays, up to two strings of 14.5 mm beyond what the two can
// open (guess). The order is that of Fingerings.
func (h Hand) InPart(on harp.Harp, strings []int8) []Frame {
	n := len(strings) - 1
	if n < 1 || !h.InUse[0] {
		return nil
	}
	var all []Frame
	for _, frame := range h.Fingerings(on, strings[:n]) {
		if frame[0] != None {
			continue
		}
		next := 1
		for frame[next] == None {
			next++
		}
		frame[0] = strings[n]
		if on.Distance(frame[0], frame[next]) <= h.Limits[0][next].Most+beyond && !h.Valid(on, frame) {
			all = append(all, frame)
		}
	}
	return all
}

// beyond is two strings of 14.5 mm.
const beyond = 29000
