// Package engine takes a tune in, and gives a plan, its picture and its words.
//
//	text --read--> tune --vary--> score --solve--> plan --draw-----> picture
//	                                                  \--explain--> words
package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/harp"
	"readyhand/engine/plan"
	"readyhand/engine/read"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
	"readyhand/engine/tune"
	"readyhand/engine/vary"
)

// Block is one tune block of a lesson, read.
type Block struct {
	Text    source.Text
	Tune    tune.Tune
	Own     choice.Choice   // what its own %%ready lines ask
	Remarks []source.Remark // what reading had to say
}

// Read reads one tune in ABC with its %%ready lines.
func Read(abc string) Block {
	b := Block{Text: source.NewText(abc)}
	var own []source.Remark
	b.Tune, b.Remarks = read.Tune(b.Text)
	b.Own, own = vary.Settings(b.Tune)
	b.Remarks = source.Sort(append(b.Remarks, own...))
	return b
}

// Answer is a tune fingered for one harp and hand, as one choice has it.
type Answer struct {
	Block   Block
	Choice  choice.Choice // the reader's on top of the block's own
	Harp    harp.Harp
	Tempo   tune.Tempo
	Hands   []Hand
	Remarks []source.Remark // of reading and of playing, in the order of the text
}

// Ornament is one ornament of a score, for those who know only this package.
type Ornament = score.Ornament

// Hand is one hand's part.
type Hand struct {
	Rules rule.Rules
	Score score.Score
	Plan  plan.Plan
}

// Answer works the tune out for what a reader says, sentence by sentence
// ("tuning C", "cut@12 off"; see choice). A sentence that cannot be obeyed is
// an error among the remarks, and is left out.
func (b Block) Answer(sentences ...string) Answer {
	var c choice.Choice
	var faults []source.Remark
	for _, s := range sentences {
		changed, fault := choice.Do(c, s)
		c = changed
		if fault != nil {
			faults = append(faults, source.Remark{Span: source.Nowhere(), Severity: source.Error,
				Kind: "unknown-sentence", Message: fault.Message, Suggestion: fault.Suggestion})
		}
	}
	a := b.answer(c)
	a.Remarks = source.Sort(append(a.Remarks, faults...))
	return a
}

func (b Block) answer(reader choice.Choice) Answer {
	c := reader.Over(b.Own)
	a := Answer{Block: b, Choice: c, Harp: c.Harp(), Tempo: b.Tune.Tempo, Remarks: b.Remarks}
	if quarter, ok := c.Tempo(); ok {
		a.Tempo = tune.Tempo{QuarterMS: quarter, From: "as chosen"}
	}
	for i, v := range b.Tune.Voices {
		hd := c.Hand(side(v, i))
		s, remarks := vary.Score(b.Tune, i, c, a.Harp, hd)
		r := rule.Rules{Charges: rule.Usual(), Harp: a.Harp, Hand: hd}
		p, s := solve.Plan(s, r)
		a.Hands = append(a.Hands, Hand{Rules: r, Score: s, Plan: p})
		a.Remarks = append(a.Remarks, remarks...)
		a.Remarks = append(a.Remarks, trouble(s, p)...)
	}
	a.Remarks = source.Sort(a.Remarks)
	return a
}

// side is the hand that plays a voice where nobody says: the left a bass clef
// or a second voice, else the right.
func side(v tune.Voice, i int) string {
	if v.Clef == "bass" || i > 0 {
		return "left"
	}
	return "right"
}

// Errors reports whether something could not be read or played.
func (a Answer) Errors() bool {
	worst, any := source.Worst(a.Remarks)
	return any && worst == source.Error
}
