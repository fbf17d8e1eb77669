package engine

import (
	"strconv"
	"strings"

	"readyhand/engine/explain"
	"readyhand/engine/plan"
)

// Text tells an answer in a few lines for a musician: what plays, each placing
// with its notes over their fingers (an ornament's in brackets, where it
// sounds), and then what the ornaments ask of the hand.
func (a Answer) Text() string {
	var b strings.Builder
	if a.Block.Tune.Title != "" {
		b.WriteString(a.Block.Tune.Title + "\n")
	}
	for i := range a.Hands {
		h := &a.Hands[i]
		b.WriteString(a.head(h) + "\n\n")
		for k := range h.Plan.Placings {
			b.WriteString(h.placing(k))
		}
		said := false
		for _, s := range explain.Plan(&h.Score, &h.Rules, &h.Plan) {
			if s.Kind != explain.Setting {
				b.WriteString("\n" + s.Text)
				said = true
			}
		}
		b.WriteString("\n")
		if ties := h.ties(); ties != "" {
			if said {
				b.WriteString("\n")
			}
			b.WriteString(ties)
		}
	}
	text := strings.TrimRight(b.String(), "\n") + "\n"
	if a.Verdict != nil {
		text += "\n" + strings.Join(append([]string{a.Verdict.Says}, a.Verdict.Reasons...), "\n") + "\n"
	}
	return text
}

// Proof says, hand by hand, how it is known that no fingering takes less effort.
func (a Answer) Proof() string {
	text := ""
	for i := range a.Hands {
		h := &a.Hands[i]
		said := explain.Proof(&h.Score, &h.Plan)
		if said != "" && len(a.Hands) > 1 {
			said = strings.ToUpper(h.Rules.Hand.Name[:1]) + h.Rules.Hand.Name[1:] + " hand. " + said
		}
		if said != "" {
			text += said + "\n"
		}
	}
	return text
}

// Of near-ties the first few are told in words, and none that is longer than a
// player keeps in mind; the rest are counted (guesses).
const (
	mostTies = 4
	longWay  = 10 // events
)

// ties tells the near-ties of a hand, one in a line.
func (h *Hand) ties() string {
	var b strings.Builder
	told, left := 0, 0
	for _, o := range h.near() {
		switch {
		case told == mostTies || o.To-o.From > longWay:
			left++
		case !h.stands(&o):
		default:
			if told++; told == 1 {
				b.WriteString("Nearly as good:\n")
			}
			b.WriteString(h.way(o).Line() + "\n")
		}
	}
	if left > 0 {
		b.WriteString("And " + strconv.Itoa(left) + " more.\n")
	}
	return b.String()
}

func (a Answer) head(h *Hand) string {
	words := []string{
		h.Rules.Hand.Name + " hand",
		strconv.Itoa(len(a.Harp.Strings)) + " strings from " + a.Lowest() + " in " + a.Harp.Tuning,
	}
	if raised := a.Raised(); len(raised) > 0 {
		words = append(words, "levers up on "+strings.Join(raised, " "))
	}
	return strings.Join(append(words, a.tempo()), ", ")
}

// Lowest names the lowest string of the harp without its tuning: "C2".
func (a Answer) Lowest() string {
	p := a.Harp.Strings[0].Pitch
	p.Alter = 0
	return p.String()
}

// Raised names the strings whose levers are up before the tune begins, with the
// lever down, of those that the tune uses: "Eb4".
func (a Answer) Raised() []string {
	raised := []string{}
	for t, s := range a.Harp.Strings {
		for _, h := range a.Hands {
			if h.Score.Used[t] && h.Score.Raised[t] {
				raised = append(raised, s.Pitch.String())
				break
			}
		}
	}
	return raised
}

// placing writes one placing: its bar and move, and two lines of notes and
// fingers under one another.
func (h *Hand) placing(k int) string {
	pl := &h.Plan.Placings[k]
	head := "pickup"
	if bar := h.Score.Events[pl.First].Bar; bar > 0 {
		head = "bar " + strconv.Itoa(bar)
	}
	head += strings.Repeat(" ", max(1, 8-len(head))) + pl.Move.String()
	head += strings.Repeat(" ", max(1, 17-len(head)))
	names, fingers := head, strings.Repeat(" ", len(head))
	add := func(name, finger string) {
		width := max(len(name), len(finger)) + 1
		names += name + strings.Repeat(" ", width-len(name))
		fingers += finger + strings.Repeat(" ", width-len(finger))
	}
	for j := pl.First; j <= pl.Last; j++ {
		if j == pl.First {
			h.sounding(j, false, false, add)
		} else {
			bar := h.Score.Events[j].Bar != h.Score.Events[j-1].Bar
			h.sounding(j, true, bar, add)
			h.sounding(j, false, false, add)
		}
		var name, finger []string
		for _, n := range h.Score.Events[j].Notes {
			name = append(name, n.Name(h.Score))
			finger = append(finger, strconv.Itoa(h.Plan.Events[j].Finger(n.String)+1))
		}
		add(strings.Join(name, "+"), strings.Join(finger, "+"))
	}
	h.sounding(pl.Last+1, true, false, add)
	return strings.TrimRight(names, " ") + "\n" + strings.TrimRight(fingers, " ") + "\n"
}

// sounding adds the strokes of the ornaments that sound in gap j: those played from
// the placing before it or from one of their own, or the rest; and the bar line in
// it, after what still belongs to the note before.
func (h *Hand) sounding(j int, before, bar bool, add func(name, finger string)) {
	now := h.Score.Now(j)
	for k, site := range h.Score.Gaps[j].Sites {
		if bar && !site.After {
			add("¦", "¦")
			bar = false
		}
		i := now[k]
		if i < 0 {
			continue
		}
		touches := h.Plan.Gaps[j].Fits[k][i].Touches
		for n, stroke := range h.Score.Gaps[j].Sites[k].Ornaments[i].Strokes {
			if n < len(touches) && (touches[n].From != plan.Right) == before {
				add("("+h.Score.Name(stroke.String)+")", "("+strconv.Itoa(int(touches[n].Finger)+1)+")")
			}
		}
	}
	if bar {
		add("¦", "¦")
	}
}
