package solve_test

import (
	"fmt"
	"slices"
	"testing"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// variety counts what the drawn passages had in them: a kind that never comes
// up is a kind that was not tested.
type variety map[string]int

// kinds lists all that must come up.
func kinds() []string {
	var all []string
	for _, row := range rule.Rows() {
		all = append(all, "rule: "+row.Name)
	}
	for m := rule.SetAnew; m <= rule.Jump; m++ {
		all = append(all, "move: "+m.String())
	}
	for r := plan.InHand; r <= plan.NoTime; r++ {
		all = append(all, "ready: "+r.String())
	}
	for _, from := range froms {
		all = append(all, "from: "+from)
	}
	for n := 1; n <= 8; n++ {
		all = append(all, fmt.Sprintf("events: %d", n))
	}
	return append(all, "chord: 2", "chord: 3", "rest", "set", "stay", "pin", "as good as the shown",
		"dropped: ornament", "dropped: pin", "cannot be held", "two sites in a gap", "sites in neighbouring gaps",
		"site before the first", "site after the last", "two ornaments at a site", "three ornaments at a site",
		"house: ornament", "house: chord", "house: one of two", "house: the second", "house: costs", "house: an ornament with other fingers",
		"house: a chord with other fingers", "house: never with it", "kept", "free", "sharing costs", "two fingers on a string", "left hand", "plain")
}

var froms = [...]string{"left", "private", "right", "left and private", "private and right", "left and right", "left, private and right"}

func (v variety) count(c passage, p plan.Plan, s score.Score) {
	mark := func(kind string, yes bool) {
		if yes {
			v[kind]++
		}
	}
	mark(fmt.Sprintf("events: %d", len(c.s.Events)), true)
	sites := 0
	for j, g := range c.s.Gaps {
		sites += len(g.Sites)
		mark("two sites in a gap", len(g.Sites) == 2)
		mark("sites in neighbouring gaps", j > 0 && len(g.Sites) > 0 && len(c.s.Gaps[j-1].Sites) > 0)
		mark("site before the first", j == 0 && len(g.Sites) > 0)
		mark("site after the last", j == len(c.s.Events) && len(g.Sites) > 0)
		for _, x := range g.Sites {
			mark("two ornaments at a site", len(x.Ornaments) == 2)
			mark("three ornaments at a site", len(x.Ornaments) == 3)
		}
	}
	mark("plain", sites == 0)
	mark("left hand", c.r.Hand.Name == "left")
	for _, d := range p.Dropped {
		mark("dropped: ornament", d.Gap >= 0 && d.House == nil)
		mark("dropped: pin", d.Event >= 0 && d.House == nil)
		mark("house: an ornament with other fingers", d.Gap >= 0 && d.House != nil)
		mark("house: a chord with other fingers", d.Event >= 0 && d.House != nil)
	}
	v.housed(p, s)
	mark("cannot be held", p.Cost == plan.None)
	if p.Cost == plan.None {
		return
	}
	for i, e := range s.Events {
		mark(fmt.Sprintf("chord: %d", len(e.Notes)), true)
		mark("rest", e.Forced)
		mark("set", e.Boundary == score.Set)
		mark("stay", e.Boundary == score.Stay)
		mark("pin", slices.ContainsFunc(e.Notes, func(n score.Note) bool { return n.Pin != 0 }))
		for n, note := range e.Notes {
			for f, price := range p.Events[i].Prices[n] {
				mark("as good as the shown", price == 0 && f != p.Events[i].Finger(note.String))
			}
		}
	}
	for _, pl := range p.Placings {
		v["move: "+pl.Move.String()]++
		mark("kept", pl.Kept != [4]bool{})
		mark("free", pl.Free != [4]bool{})
		for f, t := range pl.Frame {
			mark("two fingers on a string", t >= 0 && slices.Contains(pl.Frame[f+1:], t))
		}
	}
	mark("sharing costs", solve.Sharing(s, c.r, &p) > 0)
	v.charged(c, p, s)
}

// housed counts the house fingerings.
func (v variety) housed(p plan.Plan, s score.Score) {
	for _, h := range p.House {
		if !h.Followed {
			continue
		}
		kind, ways := "house: chord", [][]int8(nil)
		if h.Gap >= 0 {
			kind, ways = "house: ornament", s.Gaps[h.Gap].Sites[h.Site].Ornaments[h.Which].House
		} else {
			ways = s.Events[h.Event].House
		}
		v[kind]++
		if len(ways) > 1 {
			v["house: one of two"]++
		}
		if h.Extra > 0 {
			v["house: costs"]++
		}
	}
	if p.Cost < plan.None && plan.Second(&s, &p) > 0 {
		v["house: the second"]++
	}
	for j := range p.Gaps {
		for _, fits := range p.Gaps[j].Fits {
			for _, fit := range fits {
				if fit.Unusual {
					v["house: never with it"]++
				}
			}
		}
	}
}

// charged counts the rules on the bills, what ornaments are played from, and
// what they ask of the hand.
func (v variety) charged(c passage, p plan.Plan, s score.Score) {
	rows := rule.Rows()
	found := map[rule.ID]bool{}
	sounds := plan.Silent(&s)
	for j, g := range s.Gaps {
		for k := range g.Patterns {
			sounds[j] = k
			for _, item := range plan.Sum(&s, &c.r, &p, sounds, true).Items {
				found[item.Rule] = true
			}
			if k > 0 {
				v.from(p.Gaps[j].Ways[k])
			}
		}
		sounds[j] = 0
		for _, fits := range p.Gaps[j].Fits {
			for _, fit := range fits {
				v["ready: "+fit.Ready.String()]++
			}
		}
	}
	for id := range found {
		v["rule: "+rows[id].Name]++
	}
}

func (v variety) from(touches []plan.Touch) {
	var at [3]bool
	for _, touch := range touches {
		at[touch.From] = true
	}
	all := map[[3]bool]int{{true, false, false}: 0, {false, true, false}: 1, {false, false, true}: 2,
		{true, true, false}: 3, {false, true, true}: 4, {true, false, true}: 5, {true, true, true}: 6}
	if k, ok := all[at]; ok {
		v["from: "+froms[k]]++
	}
}

// report tells the counts, and fails for a kind that is missing when all must
// have come up.
func (v variety) report(t *testing.T, all bool) {
	for _, kind := range kinds() {
		t.Logf("%6d  %s", v[kind], kind)
		if all && v[kind] == 0 {
			t.Errorf("no drawn passage has this: %s", kind)
		}
	}
}
