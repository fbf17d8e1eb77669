package main

import (
	"fmt"
	"strings"

	"readyhand/engine"
)

// answer asks the engine about the tune and prints what it says. It is the only
// place where plan meets the engine.
func (a asked) answer(to streams) int {
	answer := engine.Read(a.block.text).Answer(a.sentences...)
	place := func(at int32) (line, column int) {
		if at < 0 {
			return 0, 0 // a remark about what was said on the command line
		}
		return a.place(int(at))
	}
	if a.json {
		if err := writeJSON(to.out, answer, place); err != nil {
			fmt.Fprintln(to.err, err)
			return trouble
		}
	} else {
		for _, r := range answer.Remarks {
			line, column := place(r.From)
			fmt.Fprintln(to.err, remark{a.file, line, column, severity(r.Severity.String()), r.Message, r.Suggestion})
		}
		fmt.Fprint(to.out, inWords(answer))
	}
	if answer.Errors() {
		return trouble
	}
	return done
}

// inWords tells an answer in a few lines: each placing with the notes played
// from it over their fingers, then what the plan says of itself.
func inWords(a engine.Answer) string {
	var b strings.Builder
	if a.Block.Tune.Title != "" {
		fmt.Fprintln(&b, a.Block.Tune.Title)
	}
	for _, h := range a.Hands {
		fmt.Fprintf(&b, "%s hand, %d strings from %s in %s, quarter note %d ms (%s)\n", strings.ToUpper(h.Rules.Hand.Name[:1])+h.Rules.Hand.Name[1:],
			len(a.Harp.Strings), lowest(a), a.Harp.Tuning, a.Tempo.QuarterMS, a.Tempo.From)
		for k, p := range h.Plan.Placings {
			names, fingers := "", ""
			for i := p.First; i <= p.Last; i++ {
				for n, note := range h.Score.Events[i].Notes {
					name, finger := note.Name(h.Score), fmt.Sprint(h.Plan.Events[i].Finger(note.String)+1)
					if n > 0 {
						names, fingers = strings.TrimSuffix(names, " ")+"+", strings.TrimSuffix(fingers, " ")+"+"
					}
					width := max(len(name), len(finger))
					names += fmt.Sprintf("%-*s ", width, name)
					fingers += fmt.Sprintf("%-*s ", width, finger)
				}
			}
			head := fmt.Sprintf("bar %-3d %-8s", h.Score.Events[p.First].Bar, p.Move)
			if k == 0 {
				head = fmt.Sprintf("bar %-3d %-8s", h.Score.Events[p.First].Bar, "set")
			}
			fmt.Fprintf(&b, "%s%s\n%s%s\n", head, strings.TrimRight(names, " "), strings.Repeat(" ", len(head)), strings.TrimRight(fingers, " "))
		}
	}
	return b.String()
}
