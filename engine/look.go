package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// look adds to the answer about a note of hand i what may be played on it, and how
// else its placing may be played.
func (a *Answer) look(w *draw.Why, i int) {
	h := &a.Hands[i]
	placing := h.Plan.Events[w.Event].Placing
	pl := &h.Plan.Placings[placing]
	var notes []int
	for e := pl.First; e <= pl.Last; e++ {
		on := h.Score.Events[e].Notes
		notes = append(notes, on[len(on)-1].Written)
	}
	f := a.finder(i, notes, w.Written)
	v := f.variants(placing)
	w.Way = v.drawn()
	if on := h.Score.Events[w.Event].Notes; w.Note < len(on)-1 {
		return // ornaments belong to the top note of a chord
	}
	list := f.on(w.Event)
	for event := w.Event + 1; event < len(h.Score.Events); event++ {
		if on := h.Score.Events[event].Notes; on[len(on)-1].Written == w.Written {
			again(list, f.on(event))
		}
	}
	find := explain.Finder(&f.score, &h.Rules, &f.plan)
	for k := range list {
		d := f.drawn(&list[k], find)
		if d.Class < int(plan.NoTime) && !d.Prepared {
			a.put(&d, &list[k], i)
		}
		w.Finds = append(w.Finds, d)
	}
	w.Older = a.older()
}

// oldTitles are the families that are listed only if asked for, on their buttons.
var oldTitles = [...]struct {
	family ornament.Family
	title  string
}{{ornament.Irish, "old Irish graces"}, {ornament.Welsh, "figures of the Robert ap Huw manuscript"}}

// older gives the families that a reader may list too, each with the sentence that
// does it and leaves the others as they are.
func (a *Answer) older() (list []draw.Older) {
	for _, old := range oldTitles {
		x := draw.Older{Word: old.family.String(), Title: old.title, On: a.Choice.Shows(old.family)}
		words := ""
		for _, other := range oldTitles {
			if a.Choice.Shows(other.family) != (other.family == old.family) {
				words += " " + other.family.String()
			}
		}
		if words == "" {
			words = " usual"
		}
		x.Do = "families" + words
		list = append(list, x)
	}
	return list
}

// put says what switching an ornament on would do, in the place of others where it has
// no way beside them: what moves in the best plan with it, and how much more effort that
// is. What it asks of the hand as it lies is said apart where that is not the same.
func (a *Answer) put(d *draw.Find, x *Found, i int) {
	c, on := a.Choice, d.Name+"@"+strconv.Itoa(x.written)+" on"
	var sentences []string
	for _, name := range x.Instead {
		sentences = append(sentences, name+"@"+strconv.Itoa(x.written)+" never")
	}
	for _, sentence := range append(sentences, on) {
		changed, fault := choice.Do(c, sentence)
		if fault != nil {
			return
		}
		c = changed
	}
	d.Clears = x.Instead
	h := &a.Hands[i]
	with, _ := a.Block.score(c, i)
	best, solved := solve.Best(with.given, with.Rules)
	if best.Cost >= plan.None {
		return
	}
	if words := explain.Parted(&h.Score, &solved, x.written); words != "" {
		d.Moves = append(d.Moves, words)
	}
	for _, line := range explain.Change(explain.Played{Score: &h.Score, Plan: &h.Plan}, explain.Played{Score: &solved, Plan: &best}) {
		if line != explain.NothingMoves {
			d.Moves = append(d.Moves, line)
		}
	}
	asks, does := explain.More(x.Fit.Extra), explain.More(best.Cost-h.Plan.Cost)
	switch {
	case x.Fit.Ready == plan.InHand || asks == does:
		d.Extra = does
	case asks == "":
		d.Extra = "put there, " + does
	case does == "":
		d.Extra = x.priced(asks) + "; put there, no more effort"
	default:
		d.Extra = x.priced(asks) + "; put there, " + does
	}
}

// priced says of an effort of what it is: the hand staying as it lies, or only this
// bar being played otherwise.
func (x *Found) priced(effort string) string {
	switch {
	case x.clear != nil:
		return effort + " than without"
	case len(x.Fit.Touches) > 0:
		return effort + " as the hand lies"
	}
	return effort + " for itself"
}

// takenAway gives the id of the switch, in the panel of a note, of an ornament that a
// reader had put there and a command took away, with the button for it; else "".
func (p Page) takenAway(now Page, command string) string {
	sentence, never := strings.CutSuffix(command, " never")
	name, note, named := strings.Cut(sentence, "@")
	i, _, ok := place(command)
	if !never || !named || !ok || i >= len(p.blocks) {
		return ""
	}
	id := note + ".try." + name
	button := func(page Page) bool {
		return slices.ContainsFunc(page.show(i).drawn.Parts, func(part Part) bool { return strings.Contains(part.HTML, `id="`+id+`.away"`) })
	}
	if !button(p) || button(now) {
		return ""
	}
	return id
}

// again adds what is otherwise on a later pass.
func again(list, later []Found) {
	for k := range list {
		x, y := &list[k], &later[k]
		if x.Ornament == y.Ornament && x.Fit.Ready != y.Fit.Ready && x.later == "" {
			x.later = explain.Later(y.pass, y.Fit.Ready)
		}
	}
}

// drawn is what a page shows of an ornament.
func (f *finder) drawn(x *Found, find func(gap, site, which int) string) draw.Find {
	d := draw.Find{Name: x.Ornament, Title: x.Title, Class: int(x.Fit.Ready), Asks: x.why}
	if x.gap < 0 {
		return d
	}
	o := &f.score.Gaps[x.gap].Sites[x.site].Ornaments[x.which]
	if c := x.clear; c != nil {
		find = explain.Finder(&c.score, &f.hand.Rules, &c.plan)
	}
	d.Asks = x.asks(find(x.gap, x.site, x.which))
	d.On, d.Prepared = o.On, o.Likelihood > 0
	d.Own = d.Prepared && !o.Written
	if o.Likelihood > 0 && o.Likelihood < score.Always {
		d.Decided = f.decided(x)
	}
	return d
}

// asks adds to what an ornament asks of the hand in whose place it does, that it is
// quick, and what is otherwise on a later pass.
func (x *Found) asks(text string) string {
	switch {
	case x.Fit.Ready == plan.NoTime:
		text = x.why
	case x.clear != nil && x.Fit.Ready == plan.PlacedAgain && len(x.Fit.Touches) == 0:
		text = "" // its notes are played otherwise than as the fingers said
	}
	words := []string{text}
	if x.clear != nil {
		words = []string{x.insteadOf(), text}
	}
	if x.quick && x.Fit.Ready < plan.NoTime {
		words = append(words, veryQuick+" here")
	}
	words = slices.DeleteFunc(append(words, x.later), func(w string) bool { return w == "" })
	return strings.Join(words, "; ")
}

const veryQuick = "very quick"

// insteadOf names what it would take the place of: "instead of the cut".
func (x *Found) insteadOf() string {
	var words []string
	if len(x.Instead) > 0 {
		words = append(words, "instead of the "+strings.Join(x.clear.titles, " and the "))
	}
	if x.clear.chord {
		words = append(words, "the chord not as usual")
	}
	return strings.Join(words, ", ")
}

// decided tells what deciding beforehand would change: to play it, and to leave it
// out.
func (f *finder) decided(x *Found) (words []string) {
	h := f.hand
	before := explain.Played{Score: &h.Score, Plan: &h.Plan}
	for _, likelihood := range [...]int32{score.Always, score.Never} {
		best, saves, ok := solve.Decided(h.Score, h.Rules, &h.Plan, x.written, x.Ornament, likelihood)
		if ok {
			words = append(words, explain.Decided(likelihood == score.Always, before, explain.Played{Score: &h.Score, Plan: &best}, saves))
		}
	}
	return words
}

// shared says, hand by hand, what keeping the ornaments ready costs the plain tune.
func (a *Answer) shared() (words []string) {
	for i := range a.Hands {
		h := &a.Hands[i]
		text := h.shared()
		if text != "" && len(a.Hands) > 1 {
			text = h.Rules.Hand.Name + " hand: " + text
		}
		if text != "" {
			words = append(words, text)
		}
	}
	return words
}

// shared is asked of each plan once.
func (h *Hand) shared() string {
	if h.others != nil && h.others.shares {
		return h.others.shared
	}
	var plain *explain.Played
	sharing := h.Sharing()
	if explain.Effort(sharing) != "0" {
		p, s := solve.Plain(h.Score, h.Rules, &h.Plan)
		silent := plan.Sum(&h.Score, &h.Rules, &h.Plan, plan.Silent(&h.Score), false)
		if plan.Cost(silent.Sum*score.Whole)-sharing == p.Cost {
			plain = &explain.Played{Score: &s, Plan: &p}
		}
	}
	text := explain.Shared(&h.Score, &h.Rules, &h.Plan, sharing, plain)
	if h.others != nil {
		h.others.shares, h.others.shared = true, text
	}
	return text
}

// FinderText tells the finder in words: note by note what may be played on it, by
// what it asks of the hand, and placing by placing how many ways there are.
func (a *Answer) FinderText() string {
	text := figures
	for i := range a.Hands {
		if len(a.Hands) > 1 {
			text += a.Hands[i].Rules.Hand.Name + " hand\n"
		}
		f := a.finder(i, nil, 0)
		said := map[string]bool{}
		for k := range f.plan.Placings {
			pl := &f.plan.Placings[k]
			v := f.variants(k)
			lines := ""
			for e := pl.First; e <= pl.Last; e++ {
				id, line := f.line(e)
				if first, _, _ := strings.Cut(id, "/"); !said[first+line] { // what is the same on a later pass is said once
					said[first+line] = true
					lines += "note " + id + ", " + line
				}
			}
			if lines != "" {
				text += lines + v.text()
			}
		}
	}
	return text
}

// figures says what the numbers in brackets are.
const figures = "In brackets: how much more effort it takes to be ready for it now and then, as the hand lies; for what is placed again, in the best fingering with it, other bars as they are.\n"

// line tells of one note: "the D in bar 1", and under it what is in the hand, what
// a finger is kept for, with the extra effort, and so on; at the end what does not fit
// it, and why.
func (f *finder) line(event int) (id, text string) {
	list := f.on(event)
	id, text = list[0].ID, f.call()(event, true)
	for ready := plan.InHand; ready < plan.NoTime; ready++ {
		if words := listed(list, ready.String(), func(x *Found) bool { return x.Fit.Ready == ready }); words != "" {
			text += "\n    " + words
		}
	}
	var rest []string
	if words := listed(list, plan.NoTime.String(), func(x *Found) bool { return x.Fit.Ready == plan.NoTime && !slices.Contains(unfit[:], x.why) }); words != "" {
		rest = append(rest, words)
	}
	for _, why := range unfit {
		if words := listed(list, why, func(x *Found) bool { return x.why == why }); words != "" {
			rest = append(rest, words)
		}
	}
	if len(rest) > 0 {
		text += "\n    " + strings.Join(rest, "; ")
	}
	return id, text + "\n"
}

// unfit are reasons that are none of time.
var unfit = [...]string{noNext, noString, noFingers, explain.NoFinger.String(), explain.BeyondHand.String()}

// listed names the ornaments of one kind, what the hand must do for it with the
// effort: "finger kept: tap (13), turn (17)".
func listed(list []Found, kind string, is func(x *Found) bool) string {
	var words []string
	for k := range list {
		x := &list[k]
		if !is(x) {
			continue
		}
		word := x.Title
		var about []string
		if x.Fit.Ready > plan.InHand && x.Fit.Ready < plan.NoTime {
			about = append(about, explain.Figure(x.Fit.Extra))
		}
		if x.clear != nil {
			about = append(about, x.insteadOf())
		}
		if x.Fit.Unusual {
			about = append(about, "not as usual")
		}
		if x.quick && x.Fit.Ready < plan.NoTime {
			about = append(about, veryQuick)
		}
		if len(about) > 0 {
			word += " (" + strings.Join(about, ", ") + ")"
		}
		words = append(words, word)
	}
	if len(words) == 0 {
		return ""
	}
	return kind + ": " + strings.Join(words, ", ")
}
