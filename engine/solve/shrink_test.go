package solve_test

import (
	"fmt"
	"slices"
	"strings"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// shrink gives the smallest passage found that is still bad.
func (c passage) shrink(bad func(passage) bool) passage {
	for again := true; again; {
		again = false
		for _, smaller := range c.smaller() {
			if bad(smaller) {
				c, again = smaller, true
				break
			}
		}
	}
	return c
}

// smaller lists passages with one thing less, the largest things first.
func (c passage) smaller() []passage {
	var all []passage
	less := func(change func(p *passage)) {
		p := c.copy()
		change(&p)
		p.tidy()
		all = append(all, p)
	}
	for i := range c.s.Events {
		if len(c.s.Events) > 1 {
			less(func(p *passage) { p.drop(i) })
		}
	}
	for j, g := range c.s.Gaps {
		for k := range g.Sites {
			less(func(p *passage) { p.s.Gaps[j].Sites = slices.Delete(p.s.Gaps[j].Sites, k, k+1) })
			c.plainer(j, k, less)
		}
	}
	for i := range c.s.Events {
		c.freer(i, less)
	}
	for id, usual := range rule.Usual() {
		if c.r.Charges[id] != usual {
			less(func(p *passage) { p.r.Charges[id] = usual })
		}
	}
	return all
}

// plainer takes ornaments from a site, and strokes from them.
func (c passage) plainer(j, k int, less func(func(*passage))) {
	ornaments := c.s.Gaps[j].Sites[k].Ornaments
	for o := range ornaments {
		if len(ornaments) > 1 {
			less(func(p *passage) {
				at := &p.s.Gaps[j].Sites[k]
				at.Ornaments = slices.Delete(at.Ornaments, o, o+1)
			})
		}
		for n := range ornaments[o].Strokes {
			if len(ornaments[o].Strokes) > 1 {
				less(func(p *passage) {
					at := &p.s.Gaps[j].Sites[k].Ornaments[o]
					at.Strokes, at.House = slices.Delete(at.Strokes, n, n+1), nil
				})
			}
		}
		for n := range ornaments[o].House {
			less(func(p *passage) {
				at := &p.s.Gaps[j].Sites[k].Ornaments[o]
				at.House = slices.Delete(slices.Clone(at.House), n, n+1)
			})
		}
	}
}

// freer takes notes, pins and wishes from an event.
func (c passage) freer(i int, less func(func(*passage))) {
	e := c.s.Events[i]
	for n, note := range e.Notes {
		if len(e.Notes) > 1 {
			less(func(p *passage) {
				p.s.Events[i].Notes, p.s.Events[i].House = slices.Delete(p.s.Events[i].Notes, n, n+1), nil
			})
		}
		if note.Pin != 0 {
			less(func(p *passage) { p.s.Events[i].Notes[n].Pin = 0 })
		}
	}
	for n := range e.House {
		less(func(p *passage) { p.s.Events[i].House = slices.Delete(slices.Clone(e.House), n, n+1) })
	}
	if e.Forced {
		less(func(p *passage) { p.s.Events[i].Forced = false })
	}
	if e.Boundary != score.Open {
		less(func(p *passage) { p.s.Events[i].Boundary = score.Open })
	}
}

// drop takes out an event, the gap before it and what adorns it.
func (c *passage) drop(i int) {
	g := &c.s.Gaps[i+1]
	g.Sites = slices.DeleteFunc(g.Sites, func(x score.Site) bool { return x.After })
	c.s.Events = slices.Delete(c.s.Events, i, i+1)
	c.s.Gaps = slices.Delete(c.s.Gaps, i, i+1)
	if i == len(c.s.Events) { // what came after the last note may not come before it
		c.s.Gaps[i].Sites = nil
	}
}

// String writes a passage so that it can be played.
func (c passage) String() string {
	var b strings.Builder
	use := ""
	for f, in := range c.r.Hand.InUse {
		if in {
			use += fmt.Sprint(f + 1)
		}
	}
	fmt.Fprintf(&b, "%s hand, fingers %s, reach %d per mille; strings %d micrometres apart\n", c.r.Hand.Name, use, c.r.Hand.Reach, c.r.Harp.Spacing)
	name := func(t int8) string { return c.s.Harp.Strings[t].Pitch.String() }
	for j, g := range c.s.Gaps {
		for k, x := range g.Sites {
			for _, o := range x.Ornaments {
				fmt.Fprintf(&b, "      %s (%d/16) of event %d:", x.ID(slices.IndexFunc(x.Ornaments, func(y score.Ornament) bool { return y.Name == o.Name })), o.Likelihood, x.Event+1)
				for _, stroke := range o.Strokes {
					fmt.Fprintf(&b, " %s at %d ms", name(stroke.String), stroke.At)
				}
				fmt.Fprintf(&b, "; the note %d ms later (site %d of gap %d)%s\n", o.Delay, k, j, asUsual(o.House))
			}
		}
		if j == len(c.s.Events) {
			break
		}
		e := c.s.Events[j]
		fmt.Fprintf(&b, "  %d.", j+1)
		for _, n := range e.Notes {
			fmt.Fprintf(&b, " %s", name(n.String))
			if n.Pin != 0 {
				fmt.Fprintf(&b, " (finger %d)", n.Pin)
			}
		}
		fmt.Fprintf(&b, ", %d ms after the one before", e.Since)
		if e.Forced {
			b.WriteString(", after a rest")
		}
		b.WriteString([...]string{"", ", the hand set here", ", the hand not set here"}[e.Boundary] + asUsual(e.House) + "\n")
	}
	for id, row := range rule.Rows() {
		if c.r.Charges[id] != row.Charge {
			fmt.Fprintf(&b, "  %s: %d\n", row.Name, c.r.Charges[id])
		}
	}
	return b.String()
}

// told writes a plan so that it can be played: for each event its fingers, a bar
// before each placing, and what it is held with; then how ornaments are played.
func told(p plan.Plan, s score.Score) string {
	if p.Cost == plan.None || len(p.Events) == 0 {
		return "no plan"
	}
	var b strings.Builder
	name := func(t int8) string { return s.Harp.Strings[t].Pitch.String() }
	for i, e := range p.Events {
		if p.Bounded(i) {
			pl := p.Placings[e.Placing]
			fmt.Fprintf(&b, "| (%v:", pl.Move)
			for f, t := range pl.Frame {
				if t >= 0 {
					fmt.Fprintf(&b, " %d on %s%s", f+1, name(t), map[[2]bool]string{{true, false}: " kept", {false, true}: " free"}[[2]bool{pl.Kept[f], pl.Free[f]}])
				}
			}
			b.WriteString(") ")
		}
		for _, n := range s.Events[i].Notes {
			fmt.Fprintf(&b, "%s:%d ", name(n.String), e.Finger(n.String)+1)
		}
	}
	for j, g := range p.Gaps {
		for k, touches := range g.Ways {
			for n, touch := range touches {
				fmt.Fprintf(&b, "\n  gap %d, pattern %d, %s: %d from the %s", j, k, name(s.Gaps[j].Patterns[k].Strings[n]), touch.Finger+1,
					[...]string{"placing before", "ornament's own placing", "placing after"}[touch.From])
			}
		}
	}
	fmt.Fprintf(&b, "\n  cost %d, left out %v\n", p.Cost, p.Dropped)
	return b.String()
}
