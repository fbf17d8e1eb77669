package choice

import (
	"cmp"
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// A likelihood is how often the hand has to be ready for an ornament, in
// sixteenths of the times its place is played.
const (
	Never      = score.Never
	NowAndThen = score.NowAndThen
	Often      = score.Often
	Always     = score.Always
)

var likelihoods = []struct {
	Word  string
	Value int32
}{{"never", Never}, {"now and then", NowAndThen}, {"often", Often}, {"always", Always}}

// Likelihoods gives the words of the dial, the least likely first.
func Likelihoods() []string { return []string{"never", "now and then", "often", "always"} }

// LikelihoodWord gives the word for a likelihood in sixteenths.
func LikelihoodWord(value int32) string {
	word := likelihoods[0].Word
	for _, l := range likelihoods {
		if value >= l.Value {
			word = l.Word
		}
	}
	return word
}

// site is what was said of the ornaments on the beat of one note, or of those
// spread after it. On and off say what sounds, likelihood what is prepared:
//
//   - on: it sounds, the site's others do not; if it was never prepared it now
//     is, as likely as all are (see usually)
//   - off: it is silent; what is prepared stays
//   - never: not prepared, and so silent
//   - now and then, often, always: what is prepared; what sounds stays
//
// Likelihoods of one site have 16 to share. The one spoken of last has all it
// asks for, the one before it what is left, and so on; those not spoken of
// share the rest. One that gets nothing is silent.
type site struct {
	block, written int
	time           ornament.Time
	levels         []level  // oldest first
	chosen         string   // the one last switched on; the others are off
	sounds         bool     // chosen still sounds
	silent         []string // switched off while none was chosen; sorted
}

type level struct {
	name  string
	value int32
}

// spoken is one sentence's ornament and its word.
type spoken struct{ name, word string }

func (s site) compare(t site) int {
	return cmp.Or(cmp.Compare(s.block, t.block), cmp.Compare(s.written, t.written), cmp.Compare(s.time, t.time))
}

// when says at which of a note's two sites an ornament stands.
func (c Choice) when(block int, name string) ornament.Time {
	row, _ := c.row(block, name) // grace notes are on the beat
	return row.Time
}

// speaking gives the choice after "name@written word"; both are known words.
func (c Choice) speaking(block, written int, name, word string) Choice {
	s := site{block: block, written: written, time: c.when(block, name)}
	list := slices.Clone(c.sites)
	i, found := slices.BinarySearchFunc(list, s, site.compare)
	if found {
		list[i] = list[i].say(name, word, c.usually(block))
	} else {
		list = slices.Insert(list, i, s.say(name, word, c.usually(block)))
	}
	c.sites = list
	return c
}

// say applies the rules above.
func (s site) say(name, word string, usually int32) site {
	switch word {
	case "on":
		if s.left(name) == Never {
			s = s.prepare(name, usually)
		}
		s.chosen, s.sounds, s.silent = name, true, nil
		return s
	case "off":
		return s.silence(name)
	}
	for _, l := range likelihoods {
		if l.Word == word {
			s = s.prepare(name, l.Value)
		}
	}
	if word == "never" {
		s = s.silence(name)
	}
	return s
}

func (s site) prepare(name string, value int32) site {
	levels := make([]level, 0, len(s.levels)+1)
	for _, l := range s.levels {
		if l.name != name {
			levels = append(levels, l)
		}
	}
	s.levels = append(levels, level{name, value})
	return s
}

func (s site) silence(name string) site {
	if s.chosen != "" {
		s.sounds = s.sounds && s.chosen != name
		return s
	}
	if i, found := slices.BinarySearch(s.silent, name); !found {
		s.silent = slices.Insert(slices.Clone(s.silent), i, name)
	}
	return s
}

// left gives what an ornament has of the site's 16 after those spoken of since.
func (s site) left(name string) int32 {
	rest := Always
	for _, l := range slices.Backward(s.levels) {
		has := score.Share(l.value, rest)
		if l.name == name {
			return has
		}
		rest -= has
	}
	return Never
}

// spoken gives the fewest sentences that make the site what it is, where what is
// switched on is usually so likely.
func (s site) spoken(usually int32) []spoken {
	var list []spoken
	for _, l := range s.levels {
		if l.name != s.chosen {
			list = append(list, spoken{l.name, LikelihoodWord(l.value)})
			continue
		}
		if l.value != usually && l.value != Never {
			list = append(list, spoken{l.name, LikelihoodWord(l.value)})
		}
		list = append(list, spoken{l.name, "on"})
		if l.value == Never {
			list = append(list, spoken{l.name, "never"})
		} else if !s.sounds {
			list = append(list, spoken{l.name, "off"})
		}
	}
	for _, name := range s.silent {
		if !slices.Contains(s.levels, level{name, Never}) {
			list = append(list, spoken{name, "off"})
		}
	}
	return list
}

// usually is how likely what is switched on in a block becomes, if it was never
// prepared: as all are, and now and then where those are never.
func (c Choice) usually(block int) int32 {
	for i := range c.said {
		if s := &c.said[i]; s.subject == prepared && s.block == block && s.value[0] > Never {
			return s.value[0]
		}
	}
	if block > 0 {
		return c.usually(0)
	}
	return NowAndThen
}

// Prepared gives how likely the ornaments are that stand in the tune, where
// nothing else is said of one.
func (c Choice) Prepared() int32 {
	if v, ok := c.about(prepared, 0); ok {
		return v[0]
	}
	return NowAndThen
}

func checkLikelihood(words string) (value [3]int32, fault *Fault) {
	for _, l := range likelihoods {
		if l.Word == strings.Join(strings.Fields(strings.ToLower(words)), " ") {
			value[0] = l.Value
			return value, nil
		}
	}
	return value, &Fault{source.Quote(words) + " does not say how likely the ornaments are.", "Write prepare never, now and then, often or always."}
}

func writeLikelihood(value [3]int32) string { return LikelihoodWord(value[0]) }
