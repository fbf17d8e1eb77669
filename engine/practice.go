package engine

import (
	"readyhand/engine/choice"
	"readyhand/engine/draw"
)

// drawnDrills gathers what draw shows of the exercises.
func (a *Answer) drawnDrills() (list []draw.Drill) {
	for _, d := range a.Drills() {
		x := draw.Drill{Title: d.Title, Why: d.Why, How: d.How, ABC: d.ABC}
		if len(a.Hands) > 1 {
			x.Title += " (" + d.Hand + " hand)"
		}
		if d.Care != "" {
			x.Notes = []string{d.Care}
		}
		for _, c := range d.Columns {
			x.Columns = append(x.Columns, [2]string{c.Notes, c.Fingers})
		}
		list = append(list, x)
	}
	return list
}

// drawnCalls gathers what draw shows of the late calls; nil where the tune has
// nothing to call in any of its bars.
func (a *Answer) drawnCalls() *draw.Calls {
	c := a.Calls()
	if len(c.List) == 0 && c.From == 0 && (!c.Own || c.All) {
		return nil
	}
	x := draw.Calls{Says: c.says(), Own: c.Own, All: c.All, From: c.From, To: c.To, Bars: c.Bars, Turns: c.Turns, Ahead: c.Ahead, Seed: c.Seed, Next: c.Seed + 1,
		BeatMS: int(c.BeatMS), Beats: c.Beats, MS: int(c.TurnMS)}
	if x.Next > choice.MostSeed {
		x.Next = 1
	}
	if len(c.List) == 0 {
		x.Says = c.nothing()
	}
	for _, call := range c.List {
		x.List = append(x.List, draw.Call{Word: call.Word, Note: call.Note, At: int(call.At), Sounds: int(call.Sounds)})
	}
	return &x
}
