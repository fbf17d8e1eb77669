package explain

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Claim is what is said to decide between two ways.
type Claim struct {
	Text  string    // ": the fourth finger. But it saves a lift."
	Rules []rule.ID // those named: with all others costing nothing, the one way still costs less
	Many  bool      // no few rules decide, only all of them together
	Alike bool      // what decides is that bars that are the same are played the same
}

// claim is a Claim before it is in words.
type claim struct {
	names   []int // matters that the other way brings with it, the weightiest first
	instead []int // those it would bring if it were to do without the others
	saved   int   // the one it saves; -1
	many    bool  // names has the weightiest
	alike   bool
	words   [len(matters)]string // of instead
}

// mostNamed is how many matters are named before it is said that there are many.
const mostNamed = 4

// trial holds two wishes against each other in the part of a score they have to do
// with.
type trial struct {
	excerpt
	r     *rule.Rules
	solve Solver
	taken wish
	here  int // the bar that is spoken of
	costs []tried
	best  *plan.Plan // of the excerpt, with the wish taken
}

// tried is what the wish taken costs where only some matters count.
type tried struct {
	set  few
	cost plan.Cost
}

func newTrial(s *score.Score, r *rule.Rules, p *plan.Plan, event int, taken wish, solve Solver) *trial {
	events := together(s, p, event, taken.note, taken.placing)
	return &trial{excerpt: cut(s, p, events), r: r, solve: solve, taken: taken, here: s.Events[event].Bar}
}

// least is the best plan of the excerpt with a wish where only some matters count.
func (t *trial) least(set few, w wish) (plan.Plan, bool) {
	r := *t.r
	r.Charges = set.only(r.Charges)
	return t.solve(t.with(w), r)
}

// stands reports whether the wish taken is the better where only some matters
// count, and gives the best plan with the other.
func (t *trial) stands(set few, other wish) (bool, plan.Plan) {
	way, ok := t.least(set, other)
	if !ok {
		return true, way // it cannot be played at all
	}
	at := slices.IndexFunc(t.costs, func(x tried) bool { return x.set == set })
	if at < 0 {
		at = len(t.costs)
		own, _ := t.least(set, t.taken)
		t.costs = append(t.costs, tried{set, own.Cost})
	}
	return way.Cost > t.costs[at].cost, way
}

// reason finds as few matters as do: the weightiest, and then, as long as the other
// way could do without those named, what it would do instead.
func (t *trial) reason(w *weighed, other wish) claim {
	c := claim{saved: w.saved()}
	var set few
	if c.saved >= 0 {
		set |= 1 << c.saved
	}
	next, all := -1, w.ranked()
	if len(all) > 0 {
		next = all[0]
	}
	var names []int
	for next >= 0 && len(names) < mostNamed {
		names, set = append(names, next), set|1<<next
		stands, way := t.stands(set, other)
		if stands {
			t.fewer(&c, w, names, set, other)
			return c
		}
		next = t.missing(&c, set, &way)
	}
	if stands, _ := t.stands(1<<len(matters)-1, other); !stands {
		return claim{saved: -1, alike: true}
	}
	return claim{saved: -1, many: true, names: all[:min(len(all), 1)]}
}

// missing is what the best way without paying for the matters named would have to
// pay instead; -1 if nothing.
func (t *trial) missing(c *claim, set few, way *plan.Plan) int {
	if t.best == nil {
		best, _ := t.least(1<<len(matters)-1, t.taken)
		t.best = &best
	}
	w := weigh(&t.s, t.r, t.here, t.best, way)
	for _, m := range w.ranked() {
		if !set.has(m) {
			if c.words[m] = w.brings(m); m == settings && w.placings > 0 {
				c.words[m] = "another placing"
			}
			return m
		}
	}
	return -1
}

// fewer leaves out of the matters named what is not needed, and sorts them.
func (t *trial) fewer(c *claim, w *weighed, names []int, set few, other wish) {
	for i := len(names) - 1; i > 0; i-- {
		without := set &^ (1 << names[i])
		if stands, _ := t.stands(without, other); stands {
			names, set = slices.Delete(names, i, i+1), without
		}
	}
	if len(names) > 1 && slices.ContainsFunc(names[1:], func(m int) bool { return w.of[m].more >= worthSaying }) {
		if stands, _ := t.stands(set&^(1<<names[0]), other); stands {
			names = names[1:]
		}
	}
	for _, m := range names {
		if w.of[m].more > 0 {
			c.names = append(c.names, m)
		} else {
			c.instead = append(c.instead, m)
		}
	}
}

// wholly makes the whole tune the excerpt, and reports whether a claim stands there.
func (t *trial) wholly(s *score.Score, p *plan.Plan, event int, c *claim, other wish) bool {
	t.excerpt = excerpt{s: *s, at: together(s, p, event, t.taken.note, t.taken.placing)}
	t.costs, t.best = nil, nil
	if c.many || c.alike {
		return false
	}
	stands, _ := t.stands(c.set(), other)
	return stands
}

// set gives the matters that a claim names.
func (c *claim) set() (n few) {
	for _, m := range append(slices.Clip(c.names), c.instead...) {
		n |= 1 << m
	}
	if c.saved >= 0 {
		n |= 1 << c.saved
	}
	return n
}

// rules gives all rules that a claim names.
func (c *claim) rules() (ids []rule.ID) {
	if c.many || c.alike {
		return nil
	}
	for m := range matters {
		if c.set().has(m) {
			ids = append(ids, matters[m].rules...)
		}
	}
	return ids
}

// text says it after what it costs: ": the fourth finger, or else another placing.
// But it saves a lift."
func (c *claim) text(w *weighed, here int) string {
	var words []string
	for _, m := range c.names {
		words = append(words, w.brings(m)+w.where(m, here))
	}
	switch {
	case c.alike:
		return ", if bars that are the same are to have the same fingers."
	case c.many && len(words) > 0:
		return ": several things together, " + words[0] + " most of all."
	case len(words) == 0:
		return "."
	}
	text := ": " + list(words)
	if len(c.instead) > 0 {
		var instead []string
		for _, m := range c.instead {
			instead = append(instead, c.words[m])
		}
		text += ", or else " + list(instead)
	}
	text += "."
	if c.saved >= 0 {
		text += " But " + w.saves(c.saved) + w.where(c.saved, here) + "."
	}
	return text
}

func where(at, here int) string {
	if at == here {
		return ""
	}
	return " in " + bar(at)
}

// Against says why one way costs more than another that was wished for: a finger
// on a note, or with placing the hand set before it or not. than is the best plan
// with the one, p with the other. Where they are as good nothing is claimed.
func Against(s *score.Score, r *rule.Rules, than, p *plan.Plan, event, note int, placing bool, solve Solver) Claim {
	if p.Cost-than.Cost < worthSaying || solve == nil {
		return Claim{Text: "."}
	}
	taken, other := asks(s, than, event, note, placing), asks(s, p, event, note, placing)
	t := newTrial(s, r, than, event, taken, solve)
	w := weigh(s, r, t.here, than, p)
	c := t.reason(&w, other)
	if t.short && !t.wholly(s, than, event, &c, other) {
		c = t.reason(&w, other)
	}
	return Claim{c.text(&w, t.here), c.rules(), c.many, c.alike}
}

// asks is the wish that a plan fulfils at a note.
func asks(s *score.Score, p *plan.Plan, event, note int, placing bool) wish {
	w := wish{note: note, placing: placing, boundary: score.Stay}
	if p.Bounded(event) {
		w.boundary = score.Set
	}
	if !placing {
		w.finger = int8(p.Events[event].Finger(s.Events[event].Notes[note].String) + 1)
	}
	return w
}

// Asking is a whole score with the wish that a plan p fulfils at a note, wherever
// shown goes with it.
func Asking(s *score.Score, shown, p *plan.Plan, event, note int, placing bool) score.Score {
	x := excerpt{s: *s, at: together(s, shown, event, note, placing)}
	return x.with(asks(s, p, event, note, placing))
}
