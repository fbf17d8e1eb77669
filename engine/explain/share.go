package explain

import (
	"cmp"
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// Shared says what keeping the ornaments of a tune ready costs it when none of them
// sounds: p is its plan, plain the best plan of the score without sites, nil where
// that is not known. "" where nothing is prepared.
func Shared(s *score.Score, r *rule.Rules, p *plan.Plan, sharing plan.Cost, plain *Played) string {
	text := "Keeping " + these(prepared(s)) + " ready "
	switch effort := Effort(sharing); {
	case prepared(s) == 0 || len(p.Events) != len(s.Events):
		return ""
	case effort == "0":
		return text + "costs the plain tune nothing."
	default:
		text += "makes the plain tune " + harder(sharing)
		if plain != nil {
			text += inBars(differences(s, r, p, plain))
		}
		return text + ": " + effort + " more effort."
	}
}

// prepared counts the ornaments that are prepared, each on one written note.
func prepared(s *score.Score) int {
	var seen []string
	for _, g := range s.Gaps {
		for _, site := range g.Sites {
			for _, o := range site.Ornaments {
				if id := score.ID(site.Written, 1) + "." + o.Name; o.Likelihood > 0 && !slices.Contains(seen, id) {
					seen = append(seen, id)
				}
			}
		}
	}
	return len(seen)
}

func these(n int) string {
	switch {
	case n == 1:
		return "this one"
	case n < len(counts):
		return "these " + counts[n]
	}
	return "all these"
}

// How much is little, and how much is much (guesses: less than half a placing more,
// and three placings).
func harder(c plan.Cost) string {
	switch {
	case c <= plan.NearTie:
		return "a little harder"
	case c < 72*plan.Charge:
		return "harder"
	}
	return "much harder"
}

// more is what a bar costs more.
type more struct {
	bar int
	by  plan.Cost
}

// differences compares two plans with nothing sounding, bar by bar, the greatest
// difference first; what is too small to be told is left out.
func differences(s *score.Score, r *rule.Rules, p *plan.Plan, plain *Played) (list []more) {
	add := func(s *score.Score, p *plan.Plan, sign plan.Cost) {
		t := &teller{book: &book{s: s}, p: p}
		bill := plan.Sum(s, r, p, plan.Silent(s), true)
		for i, item := range bill.Items {
			number, _ := t.barOf(bill.Places[i])
			at := slices.IndexFunc(list, func(m more) bool { return m.bar == number })
			if at < 0 {
				at = len(list)
				list = append(list, more{bar: number})
			}
			list[at].by += sign * plan.Cost(item.Amount*score.Whole)
		}
	}
	add(s, p, 1)
	add(plain.Score, plain.Plan, -1)
	list = slices.DeleteFunc(list, func(m more) bool { return m.by < worthSaying })
	source.Order(list, func(a, b more) int { return cmp.Or(cmp.Compare(b.by, a.by), cmp.Compare(a.bar, b.bar)) })
	return list
}

// inBars names the bars where most of a difference lies: " in bar 5", " in bars 5
// and 7", " in six bars, most in bars 5 and 7".
func inBars(all []more) string {
	if len(all) == 0 {
		return ""
	}
	text := " in "
	if len(all) > barsShown {
		text += many(len(all)) + " bars, most in "
		all = all[:2]
	}
	var bars []int
	for _, m := range all {
		bars = append(bars, m.bar)
	}
	return text + within(bars)
}

// Decided says what changes if it is decided beforehand that an ornament is played,
// or that it is left out, and what that saves.
func Decided(played bool, before, after Played, saves plan.Cost) string {
	text := "If you decide beforehand to leave it out, "
	if played {
		text = "If you decide beforehand to play it, "
	}
	moved := 0
	var seen []int
	for i := range after.Score.Events {
		for _, n := range after.Score.Events[i].Notes {
			old, now := before.Plan.Events[i].Finger(n.String), after.Plan.Events[i].Finger(n.String)
			if (old != now || before.Plan.Bounded(i) != after.Plan.Bounded(i)) && !slices.Contains(seen, n.Written) {
				seen = append(seen, n.Written)
				moved++
			}
		}
	}
	effort := Effort(saves)
	switch {
	case moved == 0 && effort == "0":
		return text + "nothing changes."
	case moved == 0:
		text += "no note changes, and it saves " + effort + "."
	case moved == 1:
		text += "one note changes"
	default:
		text += many(moved) + " notes change"
	}
	if moved > 0 && effort == "0" {
		text += ", but it saves nothing worth the name."
	} else if moved > 0 {
		text += " and it saves " + effort + "."
	}
	for _, line := range Change(before, after) {
		if line != NothingMoves {
			text += " " + line
		}
	}
	return text
}
