package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/explain"
	"readyhand/engine/plan"
	"readyhand/engine/source"
)

// asks reports a command that only looks, and is not worth taking back.
func asks(command string) bool { return strings.HasPrefix(command, "why") }

// says tells what a command did: in the one block it concerns, or in short where
// it changes several.
func (p Page) says(before Page, changed []int, command string) string {
	if len(changed) > 1 {
		return p.saysAll(before, changed)
	}
	i := changed[0]
	if p.blocks[i].IsChart() {
		return p.saysChart(before, i)
	}
	was, now := &before.show(i).answer, &p.show(i).answer
	if now.Choice.Calls() != was.Choice.Calls() {
		c := now.Calls()
		return c.told()
	}
	if asks(command) {
		if why := p.show(i).drawn.View.Why; why != nil {
			return why.Title + "." // the panel says the rest
		}
		return ""
	}
	if listed := now.listed(was); listed != "" {
		return listed
	}
	words := fresh(was.Remarks, now.Remarks)
	if _, chosen := now.Choice.Tempo(); chosen && now.Tempo.QuarterMS != was.Tempo.QuarterMS && len(now.Tempos()) > 1 {
		words = append([]string{"The tempos that come later change in the same proportion."}, words...)
	}
	if now.Block.Hands.Moved != was.Block.Hands.Moved {
		words = append([]string{now.inKey()}, words...)
	}
	if len(words) > mostNews {
		words = append(words[:mostNews], "And "+strconv.Itoa(len(words)-mostNews)+" more of the kind.")
	}
	words = append(words, now.pinned(was, command)...)
	if strings.Contains(command, ";") {
		words = append(words, now.costs(was)...)
	}
	moves := now.moves(was)
	words = append(words, moves...)
	if len(moves) == 1 && moves[0] == explain.NothingMoves && switches(command) {
		words = append(words, explain.EitherWay)
	}
	return strings.Join(words, " ")
}

// saysChart tells whether anything in a chart is otherwise: what is said above it of
// harp and hand is not.
func (p Page) saysChart(before Page, i int) string {
	was, now := before.show(i).answer.Chart, p.show(i).answer.Chart
	_, rowsWas, _ := strings.Cut(was.Text(), "\n\n")
	if _, rows, _ := strings.Cut(now.Text(), "\n\n"); rows == rowsWas {
		return "Nothing in the chart changes."
	}
	return "The chart is worked out anew."
}

// listed tells which families are listed now that were not, or no longer; "" where
// that is as it was, or was not all.
func (a *Answer) listed(before *Answer) string {
	var words []string
	for _, old := range oldTitles {
		switch now := a.Choice.Shows(old.family); {
		case now == before.Choice.Shows(old.family):
		case now:
			words = append(words, "The "+old.title+" are listed too, where they fit.")
		default:
			words = append(words, "The "+old.title+" are no longer listed.")
		}
	}
	return strings.Join(words, " ")
}

// switches reports a command that switches an ornament.
func switches(command string) bool {
	return strings.Contains(command, "@") && (strings.HasSuffix(command, " on") || strings.HasSuffix(command, " off")) && !strings.HasPrefix(command, "house")
}

// mostNews is how many new remarks are spoken (guess: more is not listened to).
const mostNews = 2

// saysAll speaks of all tunes of a page at once, as when the harp is another.
func (p Page) saysAll(before Page, changed []int) string {
	moved, tunes := 0, 0
	for i := range p.blocks {
		if !p.blocks[i].IsChart() {
			tunes++
		}
	}
	if tunes == 0 {
		return "The charts are worked out anew."
	}
	for _, i := range changed {
		lines := p.show(i).answer.moves(&before.show(i).answer)
		if len(lines) > 0 && lines[0] != explain.NothingMoves {
			moved++
		}
	}
	switch moved {
	case 0:
		return "No finger moves in the tunes on this page."
	case 1:
		return "Fingers move in one of the tunes on this page."
	}
	if moved == tunes {
		return "Fingers move in all " + strconv.Itoa(moved) + " tunes on this page."
	}
	return "Fingers move in " + strconv.Itoa(moved) + " of the " + strconv.Itoa(tunes) + " tunes on this page."
}

// moves tells what moved since another answer, hand by hand.
func (a *Answer) moves(before *Answer) []string {
	var words []string
	for k := range a.Hands {
		if k < len(before.Hands) && sameLying(a.Hands[k].Plan.Events, before.Hands[k].Plan.Events) {
			words = append(words, explain.NothingMoves)
		} else if k < len(before.Hands) {
			words = append(words, explain.Change(
				explain.Played{Score: &before.Hands[k].Score, Plan: &before.Hands[k].Plan},
				explain.Played{Score: &a.Hands[k].Score, Plan: &a.Hands[k].Plan})...)
		}
	}
	return words
}

// sameLying reports whether one plan's events are the other's: a plan that was kept
// lies where it lay (solve.Again).
func sameLying(a, b []plan.Event) bool { return len(a) > 0 && len(a) == len(b) && &a[0] == &b[0] }

// pinned tells what a finger or a setting of the hand costs that was just asked for.
func (a *Answer) pinned(before *Answer, command string) []string {
	finger, placing, asks := asksFor(command)
	_, written, ok := place(command)
	if !ok || !asks {
		return nil
	}
	for k := range a.Hands {
		if k >= len(before.Hands) || !a.Hands[k].Score.Plays(written) {
			continue
		}
		if said := a.Hands[k].costly(&before.Hands[k], written, placing); said != "" && placing {
			return []string{said}
		} else if said != "" {
			return []string{"You may keep " + finger + " here. " + said}
		}
	}
	return nil
}

// costs tells what a way that was just taken costs.
func (a *Answer) costs(before *Answer) []string {
	var extra plan.Cost
	for k := range a.Hands {
		if k < len(before.Hands) {
			extra += a.Hands[k].Plan.Cost - before.Hands[k].Plan.Cost
		}
	}
	switch effort := explain.Effort(extra); {
	case effort == "0":
		return []string{"It takes no more effort."}
	case extra < 0:
		return []string{"It takes " + explain.Effort(-extra) + " less effort."}
	default:
		return []string{"It takes " + effort + " more effort."}
	}
}

// fresh gives the messages of remarks that were not there before, each once.
func fresh(before, after []source.Remark) []string {
	var words []string
	for _, r := range after {
		if !slices.Contains(before, r) && !slices.Contains(words, r.Message) {
			words = append(words, r.Message)
		}
	}
	return words
}
