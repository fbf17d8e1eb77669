// Package engine takes a tune in, and gives a plan, its picture and its words.
//
//	text --read--> tune --vary--> score --solve--> plan --draw-----> picture
//	                                                  \--explain--> words
package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
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
	Tune    tune.Tune       // as it is written
	Hands   tune.Tune       // as two hands play it: one voice, or the right hand's and the left's
	Own     choice.Choice   // what its own %%ready lines ask
	Remarks []source.Remark // what reading had to say

	charts *charted // it holds a chart and no tune; else nil
	lately *lately  // of a page's block; else nil
}

// IsChart reports whether a block holds a chart and no tune.
func (b *Block) IsChart() bool { return b.charts != nil }

// Read reads one tune in ABC with its %%ready lines.
func Read(abc string) Block {
	b := Block{Text: source.NewText(abc)}
	if b.Text.Line(1) == ChartLine {
		return readChart(b.Text)
	}
	var own, hands []source.Remark
	b.Tune, b.Remarks = read.Tune(b.Text)
	b.Hands, hands = vary.Hands(b.Tune)
	b.Own, own = vary.Settings(b.Tune)
	b.Remarks = source.Sort(append(append(b.Remarks, own...), hands...))
	return b
}

// Answer is a tune fingered for one harp and hand, as one choice has it.
type Answer struct {
	Block   Block
	Choice  choice.Choice // the reader's on top of the block's own
	Harp    harp.Harp
	Tempo   tune.Tempo
	Hands   []Hand
	Verdict *Verdict        // of the fingering asked for, where there is one for every note; else nil
	Remarks []source.Remark // of reading and of playing, in the order of the text
	Chart   *Chart          // of a block that holds one and no tune; else nil
}

// Ornament is one ornament of a score, for those who know only this package.
type Ornament = score.Ornament

// Event is one moment of a score, for those who know only this package.
type Event = score.Event

// KnownFingering is a fingering that others have written down, for those who know only
// this package.
type KnownFingering = ornament.Fingering

// Charge is one charge as a cost, and Unplayable the cost of what cannot be played,
// for those who know only this package.
const (
	Charge     = plan.Charge
	Unplayable = plan.None
)

// Hand is one hand's part.
type Hand struct {
	Rules rule.Rules
	Score score.Score
	Plan  plan.Plan

	given  score.Score // as it was written out, before the solver left anything out
	others *others
}

// Near gives the known word that was probably meant by another, false if none is
// like it.
func Near(word string, known []string) (string, bool) { return source.Near(word, known) }

// Check says what is wrong with a sentence, and what to say instead; ok if
// nothing is.
func Check(sentence string) (message, suggestion string, ok bool) {
	if _, fault := choice.Do(choice.Choice{}, sentence); fault != nil {
		return fault.Message, fault.Suggestion, false
	}
	return "", "", true
}

// Answer works the tune out for what a reader says, sentence by sentence
// ("tuning C", "cut@12 off"; see choice). A sentence that cannot be obeyed is
// an error among the remarks, and is left out.
func (b Block) Answer(sentences ...string) Answer {
	c := b.Own.Nothing() // it knows what the tune defines
	var faults []source.Remark
	for _, s := range sentences {
		changed, fault := choice.Do(c, s)
		c = changed
		if fault != nil {
			faults = append(faults, source.Remark{Span: source.Nowhere(), Severity: source.Error,
				Kind: "unknown-sentence", Message: fault.Message, Suggestion: fault.Suggestion})
		}
	}
	a := b.answer(c, nil)
	a.Remarks = source.Sort(append(a.Remarks, faults...))
	return a
}

// answer works the tune out for a reader's choice. Where the score asks the same
// as before, the plan of before still holds.
func (b Block) answer(reader choice.Choice, before *Answer) Answer {
	c := reader.Over(b.Own)
	if b.IsChart() {
		return Answer{Block: b, Choice: c, Harp: c.Harp(), Remarks: b.Remarks, Chart: chart(c, b.charts.names)}
	}
	b, moved := b.transposed(c)
	a := Answer{Block: b, Choice: c, Harp: c.Harp(), Tempo: b.Tune.Tempo, Remarks: append(moved, b.Remarks...)}
	if quarter, ok := c.Tempo(); ok {
		a.Tempo = tune.Tempo{QuarterMS: quarter, From: "as chosen"}
	}
	same := before != nil && len(before.Hands) == len(b.Hands.Voices)
	for i := range b.Hands.Voices {
		h, remarks := b.score(c, i)
		a.Remarks = append(a.Remarks, remarks...)
		if before != nil && i < len(before.Hands) && before.Hands[i].serves(&h) {
			h.Plan, h.Score = solve.Again(&before.Hands[i].Plan, &before.Hands[i].Score, h.given, h.Rules)
			h.others = before.Hands[i].others
		} else {
			h.Plan, h.Score = solve.Plan(h.given, h.Rules)
			h.others, same = &others{}, false
			if before != nil && i < len(before.Hands) && before.Hands[i].others != nil {
				done := before.Hands[i].others.exercises
				h.others.exercises = done[max(0, len(done)-mostExercises):]
			}
		}
		a.Hands = append(a.Hands, h)
		a.Remarks = append(a.Remarks, trouble(h.Score, &h.Rules, h.Plan)...)
		a.Remarks = append(a.Remarks, low(&h.Score, &h.Rules)...)
	}
	if same {
		a.Verdict = before.Verdict
	} else {
		a.Verdict = a.judged()
	}
	a.Remarks = source.Sort(a.Remarks)
	return a
}

// score writes one voice out, not yet solved.
func (b Block) score(c choice.Choice, voice int) (Hand, []source.Remark) {
	said := c.String()
	if w := b.lately.find(said, voice); w != nil {
		return w.hand, w.remarks
	}
	h, remarks := b.writeOut(c, voice)
	b.lately.keep(scored{said, voice, h, remarks})
	return h, remarks
}

func (b Block) writeOut(c choice.Choice, voice int) (Hand, []source.Remark) {
	on, hd := c.Harp(), c.Hand(vary.Side(b.Hands, voice))
	if len(b.Hands.Voices) > 1 { // whatever is said: each voice has a hand of its own
		hd.Name = vary.Side(b.Hands, voice)
	}
	s, remarks := vary.Score(b.Hands, voice, c, on, hd)
	return Hand{Rules: rule.Rules{Charges: rule.Usual(), Harp: on, Hand: hd, Lifted: c.Lifted()}, given: s}, remarks
}

// Sharing is what keeping every decision open costs the tune without its ornaments.
func (h *Hand) Sharing() plan.Cost { return solve.Sharing(h.Score, h.Rules, &h.Plan) }

// Stops gives the fingers that come down on a string after an ornament of a site, and
// stop it.
func (h *Hand) Stops(gap, site, which int) []plan.Stop {
	return h.Plan.Halts(&h.Score, h.Rules.Hand.InUse, gap, site, which)
}

// serves reports whether the plan of a hand is also the plan of another.
func (h *Hand) serves(other *Hand) bool {
	return h.Rules.Hand == other.Rules.Hand && h.Rules.Lifted == other.Rules.Lifted && h.given.Alike(&other.given)
}

// has reports whether a note head of this number is written in the tune.
func (b Block) has(written int) bool {
	for _, v := range b.Tune.Voices {
		for _, e := range v.Events {
			for _, n := range e.Notes {
				if n.Number == written {
					return true
				}
			}
		}
	}
	return false
}
