package engine

import (
	"slices"
	"strconv"

	"readyhand/engine/choice"
	"readyhand/engine/explain"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/source"
	"readyhand/engine/vary"
)

// Found is one ornament on one written note: what it would ask of the hand as it
// is placed, if it alone were offered there, beside what stands on the note; if it has
// no way so, in the place of that.
type Found struct {
	ID       string // of the note, on its pass: "12/2"
	Ornament string // "upper-mordent"
	Title    string
	Fit      plan.Fit
	Fingers  []int    // of its strokes and the note, 1 to 4, in played order; none where written notes would move for it
	Instead  []string // the names of the ornaments in whose place it is judged; Fit is then beside the tune without them

	written, pass    int
	gap, site, which int      // in the finder's score; gap -1 where it does not fit the note at all
	why              string   // it does not fit the note
	later            string   // what is otherwise on a later pass
	quick            bool     // its strokes have little time
	clear            *cleared // where it is judged in the place of others; else nil
}

// finder is a hand's part with ornaments offered beside those that stand in it.
type finder struct {
	hand  *Hand
	score score.Score
	plan  plan.Plan
	rows  []ornament.Row
	names func(event int, bar bool) string // nil until it is asked for

	clears []*cleared
}

// Finder lists for every note that hand i strikes, as it is first played, what
// each ornament of the families shown would ask; where a later pass asks otherwise,
// it follows. Ornaments that stand on a note are listed in any case. An ornament
// belongs to the top note of a chord.
func (a *Answer) Finder(i int) []Found {
	f := a.finder(i, nil, 0)
	var list []Found
	first := map[[2]string]int{} // by written note and ornament: where in the list, plus 1
	for event := range f.score.Events {
		for _, x := range f.on(event) {
			key := [2]string{score.ID(x.written, 1), x.Ornament}
			at := first[key]
			if at == 0 {
				list = append(list, x)
				first[key] = len(list)
				continue
			}
			if was := &list[at-1]; was.Fit.Ready != x.Fit.Ready || was.Fit.Extra != x.Fit.Extra || !slices.Equal(was.Fingers, x.Fingers) || !slices.Equal(was.Instead, x.Instead) {
				list = append(list, x)
			}
		}
	}
	return list
}

// finder offers the ornaments shown on some notes of a hand, on all if none are
// named, and works out what they ask on one of them, or on all where that is 0.
func (a *Answer) finder(i int, notes []int, written int) finder {
	f := finder{hand: &a.Hands[i]}
	for _, row := range a.Choice.Ornaments() {
		if a.Choice.Shows(row.Family) {
			f.rows = append(f.rows, row)
		}
	}
	f.score = a.offering(i, notes)
	if len(f.hand.Plan.Events) != len(f.score.Events) {
		f.score = f.hand.Score
	}
	f.plan = solve.Offered(f.score, f.hand.Rules, &f.hand.Plan, func(gap int) bool {
		return written == 0 || slices.ContainsFunc(f.score.Gaps[gap].Sites, func(s score.Site) bool { return s.Written == written })
	})
	return f
}

// offering is a hand's score as it was solved, with more ornaments in its sites.
func (a *Answer) offering(i int, notes []int) score.Score {
	sentence := "offer"
	for _, n := range notes {
		sentence += " all@" + strconv.Itoa(n)
	}
	if notes == nil {
		sentence += " all"
	}
	offers, fault := choice.Line(a.Choice.Nothing(), sentence)
	if fault != nil {
		return a.Hands[i].Score
	}
	with, _ := a.Block.score(offers.Over(a.Choice), i)
	s := with.given
	solved := &a.Hands[i].Score
	s.Events = solved.Events
	for j := range min(len(s.Gaps), len(solved.Gaps)) {
		for k := range s.Gaps[j].Sites {
			site := &s.Gaps[j].Sites[k]
			for _, own := range solved.Gaps[j].Sites {
				if own.Written == site.Written && own.Pass == site.Pass && own.After == site.After {
					stand(site.Ornaments, own.Ornaments)
				}
			}
		}
	}
	s.Weigh()
	return s
}

// stand puts the ornaments that stand in a tune, as they were solved, among those
// that are offered.
func stand(all, own []score.Ornament) {
	for i := range all {
		if at := slices.IndexFunc(own, func(o score.Ornament) bool { return o.Name == all[i].Name }); at >= 0 {
			all[i] = own[at]
		}
	}
}

// on lists what may be played on an event's top note, as the catalogue has it.
func (f *finder) on(event int) (list []Found) {
	e := &f.score.Events[event]
	top := e.Notes[len(e.Notes)-1]
	for _, j := range [...]int{event, event + 1} {
		for k, site := range f.score.Gaps[j].Sites {
			if site.Event != event {
				continue
			}
			for i, o := range site.Ornaments {
				x := Found{ID: top.ID(), Ornament: o.Name, Title: o.Title, Fit: f.plan.Gaps[j].Fits[k][i],
					written: top.Written, pass: top.Pass, gap: j, site: k, which: i}
				if x.Fit.Ready == plan.NoTime && o.Likelihood == score.Never {
					f.inPlace(&x)
				}
				if x.Fit.Ready == plan.NoTime {
					x.why = explain.Lacking(&f.score, &f.hand.Rules, j, k, i).String()
				}
				x.Fingers, x.quick = f.fingers(&x), f.quick(&o, e.Length)
				list = append(list, x)
			}
		}
	}
	for _, row := range f.rows {
		if !slices.ContainsFunc(list, func(x Found) bool { return x.Ornament == row.Name }) {
			list = append(list, f.without(event, row))
		}
	}
	place := func(x Found) int {
		return slices.IndexFunc(f.rows, func(r ornament.Row) bool { return r.Name == x.Ornament })
	}
	source.Order(list, func(a, b Found) int { return place(a) - place(b) })
	return list
}

// Why an ornament does not fit a note at all.
const (
	tooShort    = "the note is too short for it"
	shortBefore = "the note before is too short for it"
	noNext      = "it leads to another note than the next"
	noString    = "this harp has no string for it"
	noFingers   = "the fingers in use cannot hold its strings"
)

// without is an ornament that a note has no room for.
func (f *finder) without(event int, row ornament.Row) Found {
	e := &f.score.Events[event]
	top := e.Notes[len(e.Notes)-1]
	x := Found{ID: top.ID(), Ornament: row.Name, Title: row.Title, written: top.Written, pass: top.Pass, gap: -1,
		Fit: plan.Fit{Ready: plan.NoTime, Extra: plan.None}, why: noFingers}
	strokes, _, enough := row.Strokes(e.Length, e.Span[0]%3 == 0)
	early := int32(0)
	if len(strokes) > 0 {
		early = -strokes[0].At
	}
	switch {
	case row.Next != 0 && !f.leads(event, row.Next):
		x.why = noNext
	case !enough:
		x.why = tooShort
	case early > 0 && event > 0 && e.Since < 2*early:
		x.why = shortBefore
	}
	for _, step := range row.Steps {
		if t := int(top.String) + int(step); t < 0 || t >= len(f.score.Harp.Strings) {
			x.why = noString
		}
	}
	return x
}

// leads reports whether the hand goes on from an event to a note so many strings
// higher or lower.
func (f *finder) leads(event int, by int8) bool {
	if event+1 == len(f.score.Events) || f.score.Events[event+1].Forced {
		return false
	}
	from, to := f.score.Events[event].Notes, f.score.Events[event+1].Notes
	far := to[len(to)-1].String - from[len(from)-1].String
	return far == by || far == -by
}

// fingers are those of an ornament's strokes and its note, 1 to 4.
func (f *finder) fingers(x *Found) (list []int) {
	site := &f.score.Gaps[x.gap].Sites[x.site]
	strokes := site.Ornaments[x.which].Strokes
	if len(x.Fit.Touches) != len(strokes) {
		return nil
	}
	for _, touch := range x.Fit.Touches {
		list = append(list, int(touch.Finger)+1)
	}
	at := len(list)
	if site.After {
		at = 0
	}
	return slices.Insert(list, at, f.plan.Events[site.Event].Finger(f.score.Adorned(*site))+1)
}

// quick reports an ornament whose strokes have little time.
func (f *finder) quick(o *score.Ornament, length int32) bool {
	at := slices.IndexFunc(f.rows, func(r ornament.Row) bool { return r.Name == o.Name })
	return at >= 0 && vary.Quick(*o, f.rows[at], length)
}

// call gives what calls notes by their names.
func (f *finder) call() func(event int, bar bool) string {
	if f.names == nil {
		f.names = explain.Caller(&f.score)
	}
	return f.names
}
