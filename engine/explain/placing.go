package explain

import (
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
)

// Set says why the hand is set before an event and not left where it was, and why
// it gets there as it does. kept is the best plan in which it stays there; nil
// where nothing of the kind can be played. "" where the hand has no choice, or is
// not set.
func Set(s *score.Score, r *rule.Rules, p, kept *plan.Plan, event, note int, solve Solver) (string, Claim) {
	if event <= 0 || event >= len(p.Events) || !p.Bounded(event) || s.Events[event].Forced {
		return "", Claim{}
	}
	t := &teller{book: newBook(s), r: r, p: p}
	here, c := t.whyHere(kept, event, note, solve)
	return here + t.whySo(p.Events[event].Placing).text(t), c
}

// whyHere says what it would cost not to set the hand before an event.
func (t *teller) whyHere(kept *plan.Plan, event, note int, solve Solver) (string, Claim) {
	switch {
	case t.s.Events[event].Boundary == score.Set:
		return "The hand is set here, as you asked.", Claim{}
	case kept == nil:
		return "The hand has to be set here: kept where it is, it could not play all that is wanted.", Claim{}
	}
	text := "The hand is set here."
	if at := instead(t.p, kept, event); at >= 0 {
		text += " Set at " + t.short(at, 0)
		if t.s.Events[at].Bar != t.s.Events[event].Bar {
			text += " in " + bar(t.s.Events[at].Bar)
		}
		text += " instead, it"
	} else {
		text += " Kept where it is, it"
	}
	price := kept.Cost - t.p.Cost
	if Effort(price) == "0" || price <= 0 {
		return text + " would be as good.", Claim{}
	}
	c := Against(t.s, t.r, t.p, kept, event, note, true, solve)
	return text + " would take " + Effort(price) + " more effort" + c.Text, c
}

// instead finds where a plan sets the hand and another does not, nearest to an
// event; -1 if nowhere near.
func instead(shown, p *plan.Plan, event int) int {
	for d := 1; d <= farthest; d++ {
		for _, at := range [...]int{event + d, event - d} {
			if at > 0 && at < len(p.Events) && p.Bounded(at) && !shown.Bounded(at) {
				return at
			}
		}
	}
	return -1
}

// does says each kind of move, and what it would be to make it instead.
var does = [...]struct{ so, instead string }{
	rule.Connect: {" It connects", "To connect"},
	rule.Slide:   {" The thumb slides", "To slide"},
	rule.Shift:   {" It moves about a finger that stays", "To move about the finger that stays"},
	rule.Under:   {" It passes under the thumb", "To pass under the thumb"},
	rule.Over:    {" The thumb comes over", "To bring the thumb over"},
	rule.Jump:    {" It lifts", "To lift"},
}

// so is why the hand gets to a placing as it does: the clash of two fingers that
// keeps it from holding on, and what the next best move would cost more.
type so struct {
	move, next rule.Move // next: SetAnew if there is no other
	along      bool      // it keeps its shape
	clash      *clash
	extra      plan.Cost
	names      []int // matters that the next best move brings with it
	saved      int   // the one it saves; -1
	w          weighed
}

// whySo finds why the hand gets to placing k as it does.
func (t *teller) whySo(k int) so {
	pl, x := &t.p.Placings[k], t.crossing(k)
	y := so{move: pl.Move, saved: -1}
	offers := t.r.Offers(&x)
	taken, next := -1, -1
	for i := range offers {
		switch {
		case offers[i].Move == pl.Move:
			taken = i
		case next < 0 || offers[i].Bill.Sum < offers[next].Bill.Sum:
			next = i
		}
	}
	if taken < 0 {
		return so{saved: -1}
	}
	_, y.along = shape(x.From, x.To)
	if y.along = y.along && pl.Move == rule.Jump; pl.Move == rule.Jump && !y.along && !t.r.Lifted {
		y.clash = t.clash(x.From, x.To)
	}
	if next >= 0 {
		y.w = bills(&offers[taken].Bill, &offers[next].Bill)
		y.next, y.extra = offers[next].Move, plan.Cost(offers[next].Bill.Sum-offers[taken].Bill.Sum)*score.Whole
		y.names, y.saved = outweigh(&y.w)
	}
	return y
}

// text says it: " It lifts: 2 is needed again at once, on F. ..."; "" where there is
// nothing to say.
func (y so) text(t *teller) string {
	dearer := y.next != rule.SetAnew && y.extra >= worthSaying
	if y.move == rule.SetAnew || y.clash == nil && !dearer {
		return ""
	}
	text := does[y.move].so
	if y.along {
		text = " It keeps its shape and moves along"
	}
	if y.clash != nil {
		text += ": " + y.clash.text(t)
	}
	text += "."
	if !dearer {
		return text
	}
	text += " " + does[y.next].instead + " here would take " + Effort(y.extra) + " more effort"
	var words []string
	for _, m := range y.names {
		word := y.w.brings(m)
		if y.next == rule.Jump && slices.Contains(matters[m].rules, rule.LiftTime) {
			word = "lifting in haste"
		}
		words = append(words, word)
	}
	if len(words) > 0 {
		text += ": " + list(words)
	}
	text += "."
	if y.saved >= 0 {
		text += " But " + y.w.saves(y.saved) + "."
	}
	return text
}

// crossing is the step to placing k with nothing sounding in it.
func (t *teller) crossing(k int) rule.Crossing {
	at := t.p.Placings[k].First
	e := &t.s.Events[at]
	return rule.Crossing{From: t.p.Events[at-1].Stroke, To: t.p.Events[at].Stroke, Since: e.Since,
		Written: true, Weak: e.Weak, Forced: e.Forced, Held: t.p.Held(t.s, at)}
}

// bills compares two bills, matter by matter.
func bills(than, b *rule.Bill) (w weighed) {
	of := matterOf()
	add := func(b *rule.Bill, sign int) {
		for _, item := range b.Items {
			m, more := &w.of[of[item.Rule]], plan.Cost(sign)*plan.Cost(item.Amount)*score.Whole
			m.more, m.often = m.more+more, m.often+sign
			w.rules[item.Rule] += more
		}
	}
	add(b, 1)
	add(than, -1)
	return w
}

// outweigh names the matters that speak against the dearer of two ways, as few as
// outweigh the one that speaks for it.
func outweigh(w *weighed) (names []int, saved int) {
	sum := plan.Cost(0)
	if saved = w.saved(); saved >= 0 {
		sum = w.of[saved].more
	}
	for _, m := range w.ranked() {
		if sum > 0 {
			break
		}
		names, sum = append(names, m), sum+w.of[m].more
	}
	return names, saved
}

// shape reports whether two strokes have the same fingers, two or more, all as far
// the same way: how many strings up.
func shape(from, to hand.Frame) (way int8, same bool) {
	fingers := 0
	for f, s := range from {
		if (s == hand.None) != (to[f] == hand.None) {
			return 0, false
		}
		if s == hand.None {
			continue
		}
		if fingers++; fingers > 1 && to[f]-s != way {
			return 0, false
		}
		way = to[f] - s
	}
	return way, fingers > 1
}

// clash is two fingers that cannot be on their strings at once: one of the stroke
// before, and one of the next.
type clash struct {
	f, g     int
	s, on    int8
	from, to hand.Frame // the whole strokes, to tell strings of one name apart
}

// clash finds why the fingers of two strokes cannot all be on their strings at once;
// nil if they can.
func (t *teller) clash(from, to hand.Frame) *clash {
	for g, on := range to {
		if on != hand.None && from[g] != hand.None {
			return &clash{g, g, from[g], on, from, to}
		}
	}
	for f, s := range from {
		for g, on := range to {
			if s != hand.None && on != hand.None && (s == on || !t.r.Hand.Pair(t.r.Harp, f, s, g, on)) {
				return &clash{f, g, s, on, from, to}
			}
		}
	}
	return nil
}

func (c *clash) text(t *teller) string {
	x, y := number(c.f), number(c.g)
	old, on := t.apart(c.s, c.from, c.to), t.apart(c.on, c.from, c.to)
	switch {
	case c.f == c.g && c.s == c.on:
		return y + " plays the same string again"
	case c.f == c.g:
		return y + " is needed again at once, on " + on
	case c.s == c.on:
		return y + " comes to the string that " + x + " has just played"
	case (c.f < c.g) != (c.s > c.on):
		return y + " on " + on + " would lie on the wrong side of " + x + " on " + old
	}
	return y + " does not reach " + on + " while " + x + " is on " + old
}
