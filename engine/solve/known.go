package solve

import (
	"cmp"
	"slices"

	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// mostKnown is how many such fingerings are tried in a tune: each asks for a plan
// of its own (a guess).
const mostKnown = 24

// quickMS is how soon strokes on one string follow each other that are one figure
// (a guess: fast is 60 to 120 ms, and a run of eighths about 200).
const quickMS = 250

// KnownWays gives the fingerings that others have written down of what is played
// here, as far as the plan p of s has others, with their price even when they are
// dear; written is the note head they are about, 0 for all. House fingerings of
// ornaments are among them. What cannot be played is left out.
func KnownWays(s score.Score, r rule.Rules, p *plan.Plan, written int) []plan.Other {
	if len(p.Events) != len(s.Events) {
		return nil
	}
	k := known{s: &s, r: r, p: p, written: written}
	for j := range s.Gaps {
		for i, site := range s.Gaps[j].Sites {
			for w, o := range site.Ornaments {
				if o.Likelihood > 0 && site.Pass == 1 && (written == 0 || site.Written == written) {
					k.ornament(j, i, w)
				}
			}
		}
	}
	for i := 0; i < len(s.Events); {
		i += max(1, k.figure(i))
	}
	source.Order(k.found, func(a, b plan.Other) int { return cmp.Compare(a.Extra, b.Extra) })
	return k.found
}

type known struct {
	s *score.Score
	r rule.Rules
	p *plan.Plan

	written, tried int
	found          []plan.Other
}

// ornament tries the fingerings of one ornament, every time it is played.
func (k *known) ornament(j, i, w int) {
	site := k.s.Gaps[j].Sites[i]
	fit := k.p.Gaps[j].Fits[i][w]
	strings, now := []int8{}, []int8{}
	for n, stroke := range site.Ornaments[w].Strokes {
		if n < len(fit.Touches) {
			strings, now = append(strings, stroke.String), append(now, fit.Touches[n].Finger)
		}
	}
	at, main := len(strings), k.s.Adorned(site)
	if site.After {
		at = 0
	}
	strings = slices.Insert(strings, at, main)
	now = slices.Insert(now, at, int8(k.p.Events[site.Event].Finger(main)))
	list := ornament.Fingerings(steps(strings), site.Ornaments[w].Name)
	for _, way := range site.Ornaments[w].House {
		if !slices.ContainsFunc(list, func(f ornament.Fingering) bool { return slices.Equal(f.Fingers, way) }) {
			list = append(list, ornament.Fingering{Fingers: way, Source: "house fingering"})
		}
	}
	for _, f := range list {
		if slices.Equal(f.Fingers, now) {
			continue
		}
		asked := *k.s
		asked.Gaps = slices.Clone(k.s.Gaps)
		for g := range asked.Gaps {
			housed(&asked, g, site.Written, site.Ornaments[w].Name, f.Fingers)
		}
		k.try(asked, plan.Known{Gap: j, Site: i, Which: w, Fingers: f.Fingers, Name: f.Name, Source: f.Source}, site.Event, site.Event)
	}
}

// housed gives an ornament of a written note a house fingering, in one gap.
func housed(s *score.Score, j, written int, name string, fingers []int8) {
	g := &s.Gaps[j]
	for i, site := range g.Sites {
		for w, o := range site.Ornaments {
			if site.Written != written || o.Name != name {
				continue
			}
			g.Sites = slices.Clone(g.Sites)
			g.Sites[i].Ornaments = slices.Clone(site.Ornaments)
			g.Sites[i].Ornaments[w].House = [][]int8{fingers}
			s.WeighGap(j)
			return
		}
	}
}

// stops gives the fingers that come down on a string after a figure that begins on
// this one.
func stops(f ornament.Fingering, first int8) (list []plan.Stop) {
	for _, s := range f.Stops {
		list = append(list, plan.Stop{Finger: s.Finger, String: first + s.Step})
	}
	return list
}

func steps(strings []int8) []int8 {
	list := make([]int8, len(strings))
	for i, t := range strings {
		list[i] = t - strings[0]
	}
	return list
}

// figure tries the fingerings of the written notes from event i on and says how
// many of them make a figure.
func (k *known) figure(i int) int {
	for _, length := range [...]int{4, 3} {
		if i+length > len(k.s.Events) || k.s.Events[i].Notes[0].Pass > 1 {
			continue
		}
		strings, quick := []int8{}, true
		for n := i; n < i+length; n++ {
			e := &k.s.Events[n]
			if len(e.Notes) > 1 || n > i && e.Forced {
				break
			}
			strings = append(strings, e.Notes[0].String)
			quick = quick && (n == i || e.Since <= quickMS)
		}
		if len(strings) < length || length == 3 && (strings[0] != strings[1] || !quick) {
			continue
		}
		list := ornament.Fingerings(steps(strings), "")
		for _, f := range list {
			if k.written == 0 || k.about(i, length) {
				k.asked(i, length, f)
			}
		}
		if len(list) > 0 {
			return length
		}
	}
	return 0
}

// about reports whether the note head asked about is among some events.
func (k *known) about(i, length int) bool {
	return slices.ContainsFunc(k.s.Events[i:i+length], func(e score.Event) bool { return e.Notes[0].Written == k.written })
}

// asked tries written notes with these fingers, every time they come.
func (k *known) asked(i, length int, f ornament.Fingering) {
	asked, same := *k.s, true
	asked.Events = slices.Clone(k.s.Events)
	for n := range length {
		note := k.s.Events[i+n].Notes[0]
		same = same && k.p.Events[i+n].Stroke[f.Fingers[n]] == note.String
		for e := range asked.Events {
			for x, other := range asked.Events[e].Notes {
				if other.Written == note.Written {
					asked.Events[e].Notes = slices.Clone(asked.Events[e].Notes)
					asked.Events[e].Notes[x].Pin = f.Fingers[n] + 1
				}
			}
		}
	}
	if !same {
		k.try(asked, plan.Known{Gap: -1, Fingers: f.Fingers, Name: f.Name, Source: f.Source, Stops: stops(f, k.s.Events[i].Notes[0].String)}, i, i+length-1)
	}
}

// try solves the score as it is asked for.
func (k *known) try(asked score.Score, way plan.Known, from, to int) {
	for _, f := range way.Fingers {
		if !k.r.Hand.InUse[f] {
			return
		}
	}
	if k.tried++; k.tried > mostKnown {
		return
	}
	whole, _ := Best(asked, k.r)
	if len(whole.Dropped) > 0 || whole.Cost >= plan.None || whole.Cost < k.p.Cost {
		return
	}
	o := plan.Other{From: from, To: to, Extra: whole.Cost - k.p.Cost, Near: whole.Cost-k.p.Cost <= plan.NearTie, Known: &way, Whole: &whole}
	for e := range whole.Events {
		if whole.Events[e].Stroke != k.p.Events[e].Stroke || whole.Bounded(e) != k.p.Bounded(e) {
			o.Changes = append(o.Changes, plan.Change{Event: e, Stroke: whole.Events[e].Stroke, Placed: whole.Bounded(e)})
		}
	}
	o.From, o.To = around(o.Changes, from, to)
	k.found = append(k.found, o)
}

// around widens a figure by the changes that lie about it, no more than two
// events apart.
func around(changes []plan.Change, from, to int) (int, int) {
	for _, c := range changes {
		if c.Event > to && c.Event <= to+2 {
			to = c.Event
		}
	}
	for _, c := range slices.Backward(changes) {
		if c.Event < from && c.Event >= from-2 {
			from = c.Event
		}
	}
	return from, to
}
