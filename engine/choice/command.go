package choice

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/score"
	"readyhand/engine/source"
)

// Fault says what is wrong with a sentence, and what to write instead.
type Fault struct{ Message, Suggestion string }

// shape is what follows a verb's "@".
type shape int8

const (
	ofBlock shape = iota // nothing, or a block: the sentence holds for a whole block or all
	ofNote               // a note
)

// verb is one kind of sentence: its first word, what it settles, and how the
// words after it are checked and written again. A verb without check takes no
// words; its value is fixed.
type verb struct {
	word    string
	subject subject
	shape   shape
	check   func(words string) ([3]int32, *Fault)
	write   func(value [3]int32) string
	fixed   int32
}

// verbs in the order of their subjects, which is the order of String.
func verbs() []verb {
	return []verb{
		{word: "strings", subject: stringCount, check: checkStrings, write: writeNumber},
		{word: "lowest", subject: lowestString, check: checkLowest, write: writeLowest},
		{word: "tuning", subject: tuning, check: checkTuning, write: writeTuning},
		{word: "spacing", subject: spacing, check: checkSpacing, write: writeThousandths},
		{word: "reach", subject: reach, check: checkReach, write: writeThousandths},
		{word: "span12", subject: span12, check: checkSpan, write: writeThousandths},
		{word: "span13", subject: span13, check: checkSpan, write: writeThousandths},
		{word: "span14", subject: span14, check: checkSpan, write: writeThousandths},
		{word: "span23", subject: span23, check: checkSpan, write: writeThousandths},
		{word: "span24", subject: span24, check: checkSpan, write: writeThousandths},
		{word: "span34", subject: span34, check: checkSpan, write: writeThousandths},
		{word: "style", subject: style, check: checkStyle, write: writeStyle},
		{word: "fingers", subject: fingersInUse, check: checkFingers, write: writeFingers},
		{word: "hand", subject: whichHand, check: checkHand, write: writeHand},
		{word: "transpose", subject: transposed, check: checkTranspose, write: writeTranspose},
		{word: "prepare", subject: prepared, check: checkLikelihood, write: writeLikelihood},
		{word: "families", subject: families, check: checkFamilies, write: writeFamilies},
		{word: "tempo", subject: tempo, check: checkTempo, write: writeTempo},
		{word: "finger", subject: finger, shape: ofNote, check: checkFinger, write: writeFinger},
		{word: "set", subject: boundary, shape: ofNote, fixed: int32(score.Set)},
		{word: "stay", subject: boundary, shape: ofNote, fixed: int32(score.Stay)},
		{word: "either", subject: boundary, shape: ofNote, fixed: int32(score.Open)},
		{word: "why", subject: why, shape: ofNote},
		{word: "calls", subject: calledBars, check: checkBars, write: writeBars},
		{word: "turns", subject: turns, check: checkUpTo(mostTurns, "A part is played 1 to "+strconv.Itoa(mostTurns)+" times", "Write for instance turns 16."), write: writeNumber},
		{word: "ahead", subject: ahead, check: checkUpTo(mostAhead, "A call comes 1 to "+strconv.Itoa(mostAhead)+" beats before its note", "Write for instance ahead 2."), write: writeNumber},
		{word: "seed", subject: seed, check: checkUpTo(MostSeed, "An order of calls has a number from 1 to "+strconv.Itoa(MostSeed), "Write for instance seed 7."), write: writeNumber},
		{word: "called", subject: called, check: checkCalled, write: writeCalled},
	}
}

// grace is the name of grace notes that are no ornament of the catalogue.
const grace = "grace"

// Most is how many characters of choices a page address carries.
const Most = 2000

// Do obeys one sentence. The choice it gives says what was said, as String
// would; on a fault it is the old one. Refused are also a choice that no longer
// fits a page address, and a harp that goes up beyond B9, where names end.
func Do(c Choice, sentence string) (Choice, *Fault) {
	changed, fault := obey(c, sentence)
	switch {
	case fault != nil:
		return c, fault
	case len(changed.String()) > Most:
		return c, &Fault{"So many choices no longer fit into the address of this page.", "Put some of them back first."}
	case c.fits() && !changed.fits():
		return c, tooHigh()
	}
	return changed, nil
}

// Line obeys one sentence of a tune's own lines: it may define an ornament, may not
// ask why, and names no block, because it stands in one; such lines may be as long
// as they like.
func Line(c Choice, sentence string) (Choice, *Fault) {
	if _, defines := Defines(sentence); defines {
		return ownSentence(c, sentence)
	}
	changed, fault := obey(c, sentence)
	_, asks := changed.Why()
	elsewhere := changed.filter(func(block int, _ bool) bool { return block != 0 })
	switch {
	case fault != nil:
		return c, fault
	case asks:
		return c, &Fault{"Why is for the reader to ask; a tune's own lines cannot.", "Leave this line out."}
	case !elsewhere.Empty():
		return c, &Fault{"A line inside a tune speaks of its own block only.", "Leave out the block: cut@12, not cut@b2-12."}
	case c.fits() && !changed.fits():
		return c, tooHigh()
	}
	return changed, nil
}

func tooHigh() *Fault {
	return &Fault{"So many strings from there go up beyond any harp.", "Take fewer strings, or a lower lowest string."}
}

// fits reports whether the harp of every block ends where names of strings do.
func (c Choice) fits() bool {
	blocks := []Choice{c}
	for _, s := range c.said {
		if s.block != 0 && s.subject <= lowestString {
			blocks = append(blocks, c.InBlock("b"+strconv.Itoa(s.block)))
		}
	}
	for _, b := range blocks {
		if b.lowest().Step()+b.count() > topStep {
			return false
		}
	}
	return true
}

// obey is Do without its limits, so that Parse reads whatever String wrote.
func obey(c Choice, sentence string) (Choice, *Fault) {
	words := strings.Fields(sentence)
	if len(words) == 0 {
		return c, &Fault{"Nothing was said.", "Write for instance cut@12 off, or tempo 1/4=92."}
	}
	word, at, placed := strings.Cut(strings.ToLower(words[0]), "@")
	rest := strings.Join(words[1:], " ")
	switch {
	case word == "offer" || word == "house":
		block, fault := 0, (*Fault)(nil)
		if placed {
			block, fault = whole(at, word)
		}
		if fault != nil {
			return c, fault
		}
		if word == "house" {
			return houseSentence(c, block, strings.Fields(strings.ToLower(rest)))
		}
		return offerSentence(c, block, strings.ToLower(rest))
	case word == "why" && !placed && strings.ToLower(rest) == "off":
		c.said = slices.DeleteFunc(slices.Clone(c.said), func(s said) bool { return s.subject == why })
		return c.tidy(), nil
	case word == "ornament":
		return c, &Fault{"A new ornament is defined in the tune itself.", "Write it into the block, on a line of its own: %%ready " + strings.Join(words, " ") + "."}
	case c.speaksOf(word):
		return ornamentSentence(c, word, at, strings.ToLower(rest))
	}
	for _, v := range verbs() {
		if v.word == word {
			return v.obey(c, at, placed, rest)
		}
	}
	return c, c.unheard(word, rest)
}

// speaksOf reports a word that names an ornament.
func (c Choice) speaksOf(word string) bool {
	_, ok := c.row(0, word)
	return ok || word == grace
}

// tidy makes an empty list nil, so that equal choices are equal values.
func (c Choice) tidy() Choice {
	if len(c.said) == 0 {
		c.said = nil
	}
	return c
}

// ornamentSentence obeys "NAME@ID word".
func ornamentSentence(c Choice, name, at, word string) (Choice, *Fault) {
	block, written, fault := note(at, name)
	if at == "" {
		fault = unplaced(name, word, false)
	}
	if fault != nil {
		return c, fault
	}
	if word == "" {
		return c, &Fault{"After " + name + "@" + at + " nothing is said.", "Write on, off, never, now and then, often or always after it."}
	}
	if word != "on" && word != "off" && !slices.Contains(Likelihoods(), word) {
		return c, &Fault{"What should happen to the " + name + " is not clear: " + source.Quote(word) + ".",
			"Write on, off, never, now and then, often or always."}
	}
	return c.speaking(block, written, name, word), nil
}

// obey checks the words of one verb and says them.
func (v verb) obey(c Choice, at string, placed bool, rest string) (Choice, *Fault) {
	s := said{subject: v.subject, value: [3]int32{v.fixed}}
	var fault *Fault
	switch {
	case v.shape == ofNote:
		if s.block, s.written, fault = note(at, v.word); at == "" {
			fault = unplaced(v.word, rest, v.check != nil)
		}
	case placed:
		s.block, fault = whole(at, v.word)
	}
	if fault != nil {
		return c, fault
	}
	if v.check != nil {
		if s.value, fault = v.check(rest); fault != nil && rest == "" {
			fault.Message = "After " + v.word + " nothing is said."
			if placed {
				fault.Message = "After " + v.word + "@" + at + " nothing is said."
			}
		}
	} else if rest != "" {
		fault = &Fault{"After " + v.word + "@" + at + " nothing more is said.", "Leave out " + source.Quote(rest) + "."}
	}
	if fault != nil {
		if v.shape == ofNote {
			fault.Suggestion = strings.ReplaceAll(fault.Suggestion, v.word+"@12", v.word+"@"+at)
		}
		return c, fault
	}
	return c.with(s), nil
}

// note reads "12" or "b2-12".
func note(at, word string) (block, written int, fault *Fault) {
	number := at
	if name, after, ok := strings.Cut(at, "-"); ok {
		if _, from := count(name, mostNotes); from {
			return 0, 0, &Fault{source.Quote(at) + " is not the number of a note.", "Write a sentence for each note: " + word + "@" + name + "."}
		}
		if block, ok = blockNumber(name); !ok {
			return 0, 0, &Fault{"There is no block called " + source.Quote(name) + ".", "Write b1, b2 and so on: " + word + "@b2-12."}
		}
		number = after
	}
	first, _, pass := strings.Cut(number, "/")
	written, ok := count(first, mostNotes)
	switch {
	case ok && !pass:
		return block, written, nil
	case ok:
		return 0, 0, &Fault{"What is said of a note holds each time it comes.", "Write " + word + place(block, written) + "."}
	case number == "":
		return 0, 0, &Fault{"Which note is meant is not said.", "Write its number after @: " + word + "@12."}
	}
	return 0, 0, &Fault{source.Quote(number) + " is not the number of a note.", "Write a number from 1: " + word + "@12."}
}

// whole reads "b2".
func whole(at, word string) (block int, fault *Fault) {
	block, ok := blockNumber(at)
	if !ok {
		return 0, &Fault{word + " is said of a whole block, not of " + source.Quote(at) + ".", "Write " + word + " alone, or " + word + "@b2."}
	}
	return block, nil
}
