// Package choice is what a reader chose, as one line of text.
//
// A choice is a list of sentences; each is what one control says when it is
// used, and what a %%ready line or the command line may say too:
//
//	cut@12 on             on, off, never, now and then, often, always
//	finger@12 2           1 to 4, or free
//	set@12  stay@12       place the hand there, or do not; either@12 takes that back
//	why@12  why off       show why note 12 has its finger
//	offer cut tap@12      on every note where they fit, or on one; offer nothing
//	offer cut on long notes  a dotted crotchet or longer
//	offer irish           a family's graces; offer all, those of the families shown
//	families irish welsh  which are shown beside the usual ones; families usual
//	hand left  fingers 123  reach 0.9
//	span12 80             what 1 and 2 hold in comfort, in millimetres
//	style lifted          connected or lifted
//	strings 34  lowest C2  tuning Eb  spacing 14.5
//	transpose -2  transpose D
//	tempo 1/4=92
//	prepare often         how likely all ornaments are of which nothing else is said
//	calls 3 4             the bars whose ornaments are called late; turns 16, ahead 2, seed 7
//	called all            all that fits the hand is called; called tune, what the tune has
//	house cut 1 2         how an ornament or a chord is always fingered; see house.go
//
// A tune's own lines may define an ornament of its own, by its strings from the
// note: "ornament swirl +2 +1 0", or with after for one that follows the note. It
// can then be spoken of like those of the catalogue.
//
// On a page with several blocks a note carries its block, "cut@b2-12 off", and
// so may a sentence about a whole block, "tempo@b2 1/4=92".
//
// The last sentence on a subject counts. String gives the sentences that count
// in one fixed order: harp, hand and tempo, house fingerings, offers, ornaments,
// fingers, placings, why, calls; within each by block and note. Only the ornaments of one site keep the
// order in which they were spoken of, because it decides: switching one on
// switches the others off, and what was called likely last goes first when
// likelihoods have to share (see site.go). So the text alone decides the result.
package choice

import (
	"cmp"
	"slices"
	"strconv"
)

// Choice is everything that was said. It is a value: what changes it gives a
// new one. The zero Choice says nothing.
type Choice struct {
	said   []said  // sorted by key
	houses []house // sorted by key
	offers []offer // sorted by block
	own    []own   // what tunes define; never said
	sites  []site  // sorted by key
}

// subject is what a sentence settles, where only the last sentence counts.
type subject int8

const (
	stringCount subject = iota
	lowestString
	tuning
	spacing
	reach
	span12 // what a pair of fingers holds
	span13
	span14
	span23
	span24
	span34
	style
	fingersInUse
	whichHand
	transposed
	prepared
	families
	tempo
	finger
	boundary
	why
	calledBars
	turns
	ahead
	seed
	called
)

// said is the last word on one subject. A block of 0 is every block; written
// is 0 where the subject is not a note. What the values mean is the verb's.
type said struct {
	subject        subject
	block, written int
	value          [3]int32
}

func (s said) compare(t said) int {
	return cmp.Or(cmp.Compare(s.subject, t.subject), cmp.Compare(s.block, t.block), cmp.Compare(s.written, t.written))
}

// with gives the choice with one more word said.
func (c Choice) with(s said) Choice {
	list := slices.Clone(c.said)
	if s.subject == why { // one note at a time
		list = slices.DeleteFunc(list, func(t said) bool { return t.subject == why })
	}
	i, found := slices.BinarySearchFunc(list, s, said.compare)
	if found {
		list[i] = s
	} else {
		list = slices.Insert(list, i, s)
	}
	c.said = list
	return c
}

// about finds the last word on a subject that holds for every block.
func (c Choice) about(what subject, written int) ([3]int32, bool) {
	i, found := slices.BinarySearchFunc(c.said, said{subject: what, written: written}, said.compare)
	if !found {
		return [3]int32{}, false
	}
	return c.said[i].value, true
}

// filter keeps what was said of the blocks and subjects that keep allows.
func (c Choice) filter(keep func(block int, harp bool) bool) Choice {
	kept := c.Nothing()
	for _, s := range c.said {
		if keep(s.block, s.subject <= fingersInUse) {
			kept.said = append(kept.said, s)
		}
	}
	for _, h := range c.houses {
		if keep(h.block, false) {
			kept.houses = append(kept.houses, h)
		}
	}
	for _, o := range c.offers {
		if keep(o.block, false) {
			kept.offers = append(kept.offers, o)
		}
	}
	for _, s := range c.sites {
		if keep(s.block, false) {
			kept.sites = append(kept.sites, s)
		}
	}
	return kept
}

// Over gives this choice on top of a base, as if every sentence of the base
// had been said first: a reader's choice over the tune's own lines.
func (c Choice) Over(base Choice) Choice { return c.over(base, c.usually) }

// over is Over where what was switched on was usually so likely.
func (c Choice) over(base Choice, usually func(block int) int32) Choice {
	for _, o := range c.own {
		base = base.defining(o)
	}
	for _, s := range c.said {
		base = base.with(s)
	}
	for _, h := range c.houses {
		base = base.housing(h)
	}
	for _, o := range c.offers {
		base = base.offering(o)
	}
	for _, s := range c.sites {
		for _, l := range s.spoken(usually(s.block)) {
			base = base.speaking(s.block, s.written, l.name, l.word)
		}
	}
	return base
}

// InBlock gives what holds in one block ("b2"): what was said of every block,
// and over it what was said of this one, now without its name.
func (c Choice) InBlock(name string) Choice {
	number, ok := blockNumber(name)
	everywhere := c.filter(func(block int, _ bool) bool { return block == 0 })
	if !ok {
		return everywhere
	}
	here := c.filter(func(block int, _ bool) bool { return block == number })
	for i := range here.said {
		here.said[i].block = 0
	}
	for i := range here.houses {
		here.houses[i].block = 0
	}
	here.own = nil
	for _, o := range c.own {
		if o.block == number {
			here = here.defining(own{row: o.row})
		}
	}
	everywhere.own = nil
	for i := range here.offers {
		here.offers[i].block = 0
	}
	for i := range here.sites {
		here.sites[i].block = 0
	}
	return here.over(everywhere, func(int) int32 { return c.usually(number) })
}

// OnlyHarp gives what a reader keeps for every lesson: the harp, the reach and
// the fingers in use, where they were said of every block.
func (c Choice) OnlyHarp() Choice {
	return c.filter(func(block int, harp bool) bool { return harp && block == 0 })
}

// Kept is OnlyHarp and the house fingerings: the player's own, in every lesson.
func (c Choice) Kept() Choice { return c.OnlyHouse().Over(c.OnlyHarp()) }

// WithoutHarp is all but OnlyHarp.
func (c Choice) WithoutHarp() Choice {
	return c.filter(func(block int, harp bool) bool { return !harp || block != 0 })
}

// Equal reports whether two choices say the same.
func (c Choice) Equal(d Choice) bool { return c.String() == d.String() }

// Empty reports whether nothing was said.
func (c Choice) Empty() bool { return len(c.said)+len(c.houses)+len(c.offers)+len(c.sites) == 0 }

// Most blocks of a page and notes of a block that a sentence can name (guesses,
// far above any lesson).
const (
	mostBlocks = 999
	mostNotes  = 99999
)

// blockNumber reads "b2".
func blockNumber(name string) (int, bool) {
	if name == "" || name[0] != 'b' {
		return 0, false
	}
	return count(name[1:], mostBlocks)
}

// count reads a whole number from 1 to most, in digits alone.
func count(digits string, most int) (int, bool) {
	if digits == "" || len(digits) > 6 {
		return 0, false
	}
	for i := range len(digits) {
		if digits[i] < '0' || digits[i] > '9' {
			return 0, false
		}
	}
	n, err := strconv.Atoi(digits)
	return n, err == nil && n >= 1 && n <= most
}
