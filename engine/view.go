package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
)

// view gathers what draw shows of an answer: the one way from an answer to its
// picture, for the static page and the browser alike. What may come later is not in
// it. Of what was gathered for the answer before (nil if there is none), what is
// told of a plan serves as long as the plan is the same.
func (a Answer) view(name string, notes []string, before *draw.Drawn) draw.View {
	v := draw.View{Name: name, Tune: a.Block.Hands, Text: a.Block.Text, QuarterMS: a.Tempo.QuarterMS,
		Remarks: a.Remarks, Notes: notes}
	for i := range a.Hands {
		h := &a.Hands[i]
		part := draw.Hand{Hand: h.Rules.Hand, Lifted: h.Rules.Lifted, Voice: i, Score: &h.Score, Plan: &h.Plan}
		if before != nil && before.Serves(&v, i, &part) {
			part.Said, part.Ornaments = before.View.Hands[i].Said, before.View.Hands[i].Ornaments
		} else {
			inWords(h, &part)
		}
		v.Hands = append(v.Hands, part)
	}
	v.House = a.houses()
	v.Prepare = choice.LikelihoodWord(a.Choice.Prepared())
	if a.Verdict != nil {
		v.Verdict = &draw.Verdict{Playable: a.Verdict.Playable, Says: a.Verdict.Says, Reasons: a.Verdict.Reasons}
	}
	if written, ok := a.Choice.Why(); ok {
		v.Why = a.why(name, written)
	}
	return v
}

// inWords puts a hand's plan and its ornaments into words.
func inWords(h *Hand, part *draw.Hand) {
	for _, s := range explain.Plan(&h.Score, &h.Rules, &h.Plan) {
		part.Said = append(part.Said, draw.Sentence{Kind: int8(s.Kind), Bar: s.Bar, Event: s.Event, ID: s.ID, Text: s.Text})
	}
	for _, o := range explain.Each(&h.Score, &h.Rules, &h.Plan) {
		part.Ornaments = append(part.Ornaments, draw.Ornament(o))
	}
}

// houses lists the ornaments of a tune that may have a house fingering, in the
// order of the catalogue.
func (a Answer) houses() []draw.House {
	here := map[string]bool{}
	for i := range a.Hands {
		for _, g := range a.Hands[i].Score.Gaps {
			for _, site := range g.Sites {
				for _, o := range site.Ornaments {
					here[o.Name] = true
				}
			}
		}
	}
	var list []draw.House
	for _, row := range a.Choice.Ornaments() {
		if here[row.Name] {
			list = append(list, draw.House{Name: row.Name, Title: row.Title, Now: a.Choice.HouseWords(row.Name),
				All: a.Choice.Fingerings(row.Name, a.Hands[0].Rules.Hand.InUse)})
		}
	}
	return list
}
