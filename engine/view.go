package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
)

// view gathers what draw shows of an answer: the one way from an answer to its
// picture, for the static page and the browser alike.
func (a Answer) view(name string, notes []string) draw.View {
	v := draw.View{Name: name, Tune: a.Block.Hands, Text: a.Block.Text, QuarterMS: a.Tempo.QuarterMS,
		Remarks: a.Remarks, Notes: notes}
	for i := range a.Hands {
		h := &a.Hands[i]
		part := draw.Hand{Hand: h.Rules.Hand, Lifted: h.Rules.Lifted, Voice: i, Score: &h.Score, Plan: &h.Plan}
		for _, s := range explain.Plan(&h.Score, &h.Rules, &h.Plan) {
			part.Said = append(part.Said, draw.Sentence{Kind: int8(s.Kind), Bar: s.Bar, Event: s.Event, ID: s.ID, Text: s.Text})
		}
		for _, o := range explain.Each(&h.Score, &h.Plan) {
			part.Ornaments = append(part.Ornaments, draw.Ornament(o))
		}
		v.Hands = append(v.Hands, part)
	}
	v.House = a.houses()
	v.Drills, v.Caution, v.Calls = a.drawnDrills(), drillCaution, a.drawnCalls()
	v.Prepare, v.Shared = choice.LikelihoodWord(a.Choice.Prepared()), a.shared()
	if a.Verdict != nil {
		v.Verdict = &draw.Verdict{Playable: a.Verdict.Playable, Says: a.Verdict.Says, Reasons: a.Verdict.Reasons}
	}
	if written, ok := a.Choice.Why(); ok {
		v.Why = a.why(name, written)
	}
	return v
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
