package engine

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/explain"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/source"
)

// Drill is a short exercise from a tune: a placing, a move or an ornament that
// needs practice, with the fingers that the plan has there.
type Drill struct {
	Title   string // "Bar 3: the thumb comes over"
	Why     string // what is hard in it, or how often it comes
	How     string
	Care    string    // where it stretches or repeats quickly; else ""
	Columns []Column  // note by note
	ABC     string    // a block that asks for these fingers, to be read as a tune
	Pinned  bool      // by itself it would be fingered otherwise: in the tune something else decides
	Hand    string    // "right" or "left"
	from    [2]int    // the events it is taken from, the last one included
	site    drillSite // of an ornament; gap -1
}

// Column is a note, a chord, an ornament's stroke or a new placing in a drill.
type Column struct {
	Notes, Fingers string // "D5", "2"; of a stroke in brackets; "|" where the hand is set anew
}

type drillSite struct{ gap, site, which int }

// How many exercises a tune has at most, of each kind (guesses: more are not
// practised), and how many notes on either side of what they are about.
const (
	mostMoves     = 3
	mostFigures   = 2
	mostOrnaments = 3
	drillReach    = 3
)

// drillCaution stands above the exercises.
const drillCaution = "Slowly, a few times, then rest the hand. Never force a stretch or a quick finger; at the first sign of pain stop, and ask your teacher or a health professional."

// DrillCaution is what is said above the exercises.
func DrillCaution() string { return drillCaution }

// caution is what stands above these exercises: that, and once whose fingers they
// have, if by themselves some would have others.
func caution(list []Drill) string {
	if slices.ContainsFunc(list, func(d Drill) bool { return d.Pinned }) {
		return drillCaution + " The fingers are those of the tune, also where a passage alone could have others."
	}
	return drillCaution
}

// Drills are the exercises of a tune, hand by hand: its hardest moves, the groups
// of notes that come most often, and the ornaments for which a finger waits. Each
// was solved again and is played as it is shown.
func (a *Answer) Drills() []Drill {
	var list []Drill
	for i := range a.Hands {
		h := &a.Hands[i]
		if h.others != nil && h.others.drilled {
			list = append(list, h.others.drills...)
			continue
		}
		var mine []Drill
		if len(h.Plan.Events) == len(h.Score.Events) && len(h.Score.Events) > 0 {
			mine = a.drills(h)
		}
		if h.others != nil {
			h.others.drills, h.others.drilled = mine, true
		}
		list = append(list, mine...)
	}
	return list
}

func (a *Answer) drills(h *Hand) (list []Drill) {
	for _, kind := range []struct {
		drills []Drill
		most   int
	}{{h.hardest(), mostMoves}, {h.usual(), mostFigures}, {h.waiting(), mostOrnaments}} {
		shown := 0
		for _, d := range kind.drills {
			if shown == kind.most {
				break
			}
			if a.exercise(h, &d) {
				list = append(list, d)
				shown++
			}
		}
	}
	return list
}

// does says each kind of move in the title of an exercise.
var does = [...]string{
	rule.Connect: "the hand connects", rule.Slide: "the thumb slides on", rule.Shift: "the hand moves about a finger that stays",
	rule.Under: "a finger passes under", rule.Over: "the thumb comes over", rule.Jump: "the hand lifts",
}

// hardest lists the moves from placing to placing, the hardest first, each kind of
// strings and fingers once.
func (h *Hand) hardest() (list []Drill) {
	type move struct {
		placing int
		bill    rule.Bill
	}
	var moves []move
	for k := range h.Plan.Placings {
		pl := &h.Plan.Placings[k]
		e := &h.Score.Events[pl.First]
		if k == 0 || e.Forced || e.Notes[0].Pass > 1 {
			continue
		}
		x := rule.Crossing{From: h.Plan.Events[pl.First-1].Stroke, To: h.Plan.Events[pl.First].Stroke, Since: e.Since,
			Written: true, Weak: e.Weak, Held: h.Plan.Held(&h.Score, pl.First)}
		b := rule.Bill{Itemise: true}
		h.Rules.Across(&b, &x)
		moves = append(moves, move{k, b})
	}
	source.Order(moves, func(a, b move) int { return cmp.Compare(b.bill.Sum, a.bill.Sum) })
	seen := map[string]bool{}
	for _, m := range moves {
		pl := &h.Plan.Placings[m.placing]
		d := Drill{from: [2]int{max(h.Plan.Placings[m.placing-1].First, pl.First-drillReach), min(pl.Last, pl.First+drillReach-1)}, site: drillSite{gap: -1}}
		if shape := h.shape(d.from); seen[shape] {
			continue
		} else {
			seen[shape] = true
		}
		d.Title = capital(h.bars(pl.First-1, pl.First)) + ": " + does[pl.Move]
		d.Why = "What is hard in it: " + hardest(m.bill.Items) + "."
		d.How = "Stop before the new placing, look where the next fingers go, set them, and go on. When that is easy, play it through."
		list = append(list, d)
	}
	return list
}

// hardest names the rules that charge most, two at most.
func hardest(items []rule.Item) string {
	items = slices.Clone(items)
	source.Order(items, func(a, b rule.Item) int { return cmp.Compare(b.Amount, a.Amount) })
	rows := rule.Rows()
	var words []string
	for _, item := range items {
		if item.Rule == rule.NewPlacing || item.Rule == rule.Carried {
			continue // that is what the exercise is
		}
		if word := rows[item.Rule].Sentence; item.Amount > 0 && len(words) < 2 && !slices.Contains(words, word) {
			words = append(words, word)
		}
	}
	if len(words) == 0 {
		return "the hand is set anew"
	}
	return strings.Join(words, ", and ")
}

// usual lists the placings whose strings and fingers come more than once, those
// with most to practise first.
func (h *Hand) usual() (list []Drill) {
	type group struct {
		shape string
		at    []int // placings
	}
	var groups []group
	for k := range h.Plan.Placings {
		pl := &h.Plan.Placings[k]
		if pl.Last-pl.First < 2 || h.Score.Events[pl.First].Notes[0].Pass > 1 {
			continue // two notes are no figure
		}
		shape := h.shape([2]int{pl.First, pl.Last})
		i := slices.IndexFunc(groups, func(g group) bool { return g.shape == shape })
		if i < 0 {
			i = len(groups)
			groups = append(groups, group{shape: shape})
		}
		groups[i].at = append(groups[i].at, k)
	}
	weight := func(g group) int {
		pl := &h.Plan.Placings[g.at[0]]
		return (len(g.at) - 1) * (pl.Last - pl.First + 1)
	}
	source.Order(groups, func(a, b group) int { return cmp.Compare(weight(b), weight(a)) })
	for _, g := range groups {
		pl := &h.Plan.Placings[g.at[0]]
		if len(g.at) < 2 {
			break
		}
		d := Drill{from: [2]int{pl.First, min(pl.Last, pl.First+2*drillReach+1)}, site: drillSite{gap: -1}}
		d.Title = capital(h.bars(pl.First, pl.Last)) + ": a group that comes " + times(len(g.at))
		d.Why = "This shape comes " + times(len(g.at)) + "."
		d.How = "Set all its fingers at once without a sound, then play. Then set the same shape one string higher, and one lower."
		list = append(list, d)
	}
	return list
}

// waiting lists the ornaments for which a finger waits on its string.
func (h *Hand) waiting() (list []Drill) {
	seen := map[string]bool{}
	for j := range h.Score.Gaps {
		for i, site := range h.Score.Gaps[j].Sites {
			for w, o := range site.Ornaments {
				fit := &h.Plan.Gaps[j].Fits[i][w]
				if fit.Ready != plan.FingerKept || o.Likelihood == 0 || site.Pass > 1 || o.Name == "grace" {
					continue
				}
				pl := &h.Plan.Placings[h.Plan.Events[site.Event].Placing]
				d := Drill{from: h.about(site.Event, pl), site: drillSite{j, i, w}}
				if shape := o.Name + " " + h.shape(d.from); seen[shape] {
					continue
				} else {
					seen[shape] = true
				}
				d.Title = capital(h.bars(site.Event, site.Event)) + ": the " + o.Title + ", for which " + fingersWait(pl)
				d.Why = "Whether you play the " + o.Title + " or not, the other fingers do the same."
				d.How = "Set all fingers, the waiting one too. Play it plain, then with the " + o.Title + ", then decide at the last moment."
				list = append(list, d)
			}
		}
	}
	return list
}

// about gives the events about one of a placing: of the placing, or, where it is
// alone there, with the one before and the one after, as far as the hand goes on.
func (h *Hand) about(event int, pl *plan.Placing) [2]int {
	from, to, events := max(pl.First, event-drillReach), min(pl.Last, event+drillReach), h.Score.Events
	if from < to {
		return [2]int{from, to}
	}
	if to+1 < len(events) && !events[to+1].Forced {
		to++
	}
	if from > 0 && (!events[from].Forced || from == to) {
		from--
	}
	if from == to && to+1 < len(events) {
		to++
	}
	return [2]int{from, to}
}

// fingersWait names the fingers that wait in a placing.
func fingersWait(pl *plan.Placing) string {
	var words []string
	for f, kept := range pl.Kept {
		if kept {
			words = append(words, strconv.Itoa(f+1))
		}
	}
	if len(words) == 1 {
		return words[0] + " waits"
	}
	return strings.Join(words, " and ") + " wait"
}

// shape is what some events have in common with others that are played alike: the
// strings from the first on, their fingers, and where the hand is set.
func (h *Hand) shape(events [2]int) string {
	var b strings.Builder
	first := h.Score.Events[events[0]].Notes[0].String
	for e := events[0]; e <= events[1]; e++ {
		if h.Plan.Bounded(e) && e > events[0] {
			b.WriteString("|")
		}
		for f, t := range h.Plan.Events[e].Stroke {
			if t != hand.None {
				b.WriteString(strconv.Itoa(int(t-first)) + "." + strconv.Itoa(f+1) + "+")
			}
		}
		b.WriteString(" ")
	}
	return b.String()
}

// bars names the bars of two events: "bar 2", "bars 2 and 3".
func (h *Hand) bars(from, to int) string {
	a, b := h.Score.Events[from].Bar, h.Score.Events[to].Bar
	switch {
	case a == b && a == 0:
		return "the pickup"
	case a == b:
		return "bar " + strconv.Itoa(a)
	case a == 0:
		return "the pickup and bar " + strconv.Itoa(b)
	}
	return "bars " + strconv.Itoa(a) + " and " + strconv.Itoa(b)
}

func times(n int) string {
	if n == 2 {
		return "twice"
	}
	return strconv.Itoa(n) + " times"
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// DrillsText tells the exercises of a tune in words.
func (a *Answer) DrillsText() string {
	list := a.Drills()
	if len(list) == 0 {
		return "Nothing in this tune asks for an exercise of its own: the hand stays set, and no figure comes twice.\n"
	}
	var b strings.Builder
	if a.Block.Tune.Title != "" {
		b.WriteString(a.Block.Tune.Title + ": ")
	}
	b.WriteString("exercises\n" + caution(list) + "\n")
	for i, d := range list {
		b.WriteString("\n" + strconv.Itoa(i+1) + ". " + d.Title + " (" + d.Hand + " hand)\n" + d.Why + "\n")
		notes, fingers := "  ", "  "
		for _, c := range d.Columns {
			wide := max(len(c.Notes), len(c.Fingers)) + 1
			notes += padded(c.Notes, wide)
			fingers += padded(c.Fingers, wide)
		}
		b.WriteString(strings.TrimRight(notes, " ") + "\n" + strings.TrimRight(fingers, " ") + "\n")
		for _, line := range []string{d.How, d.Care} {
			if line != "" {
				b.WriteString(line + "\n")
			}
		}
		b.WriteString("\n" + d.ABC)
	}
	return b.String()
}

// asHouse is an ornament's fingering as a house fingering is written: "1 2".
func (h *Hand) asHouse(at drillSite) string {
	site := h.Score.Gaps[at.gap].Sites[at.site]
	var fingers []int8
	for _, touch := range h.Plan.Gaps[at.gap].Fits[at.site][at.which].Touches {
		fingers = append(fingers, touch.Finger)
	}
	main := len(fingers)
	if site.After {
		main = 0
	}
	own := h.Plan.Events[site.Event].Finger(h.Score.Adorned(site))
	return explain.Fingers(slices.Insert(fingers, main, int8(own)))
}
