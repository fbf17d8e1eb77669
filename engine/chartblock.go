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
	"readyhand/engine/source"
)

// ChartLine is the first line of a block that holds a chart and no tune.
const ChartLine = "%%ready chart"

// chartTitle heads a chart.
const chartTitle = "Ornaments, finger by finger"

// readChart reads a block that begins with ChartLine: under it, on lines of their
// own, names of the ornaments to show or of a family, all if there are none; and
// sentences about harp and hand, as %%ready lines say them. What follows a # is a
// comment.
func readChart(text source.Text) (b Block) {
	b.Text, b.charts = text, &charted{}
	b.Tune.Title = chartTitle
	for n := 2; n <= text.Lines(); n++ {
		at := text.Span(n)
		from := 0
		line, _, _ := strings.Cut(text.Line(n), "#")
		for part := range strings.SplitSeq(line, ";") {
			words := strings.TrimSpace(part)
			here := source.Span{From: at.From + int32(from+strings.Index(part, words))}
			here.To = here.From + int32(len(words))
			from += len(part) + 1
			if words != "" && !b.charts.shows(words) {
				b.ask(words, here)
			}
		}
	}
	return b
}

// charted is what a block with a chart shows: the ornaments of these names, all if
// there are none.
type charted struct{ names []string }

// shows adds the ornaments that are named, and reports whether all words are names.
func (c *charted) shows(words string) bool {
	var names []string
	for word := range strings.FieldsSeq(strings.ToLower(words)) {
		found := false
		for _, row := range ornament.Rows() {
			if row.Name == word || row.Family.String() == word {
				names, found = append(names, row.Name), true
			}
		}
		if !found {
			return false
		}
	}
	c.names = append(c.names, names...)
	return true
}

// ask says what a line asks of harp and hand.
func (b *Block) ask(words string, at source.Span) {
	changed, fault := choice.Line(b.Own, strings.TrimSpace(strings.TrimPrefix(words, "%%ready")))
	if fault == nil && !changed.WithoutHarp().OnlyHouse().Equal(changed.WithoutHarp()) {
		if word, _, _ := strings.Cut(words, " "); word != "hand" {
			fault = &choice.Fault{Message: "A chart has no tune of which this could be said.", Suggestion: "Write the names of ornaments, or what harp and hand are: spacing 13."}
		}
	}
	if fault == nil {
		b.Own = changed
		return
	}
	suggestion := fault.Suggestion
	if word, _, several := strings.Cut(words, " "); !several {
		var known []string
		for _, row := range ornament.Rows() {
			known = append(known, row.Name)
		}
		if near, ok := source.Near(word, known); ok {
			suggestion = "Write " + near + "."
		}
	}
	b.Remarks = append(b.Remarks, source.Remark{Span: at, Severity: source.Error, Kind: "unknown-setting", Message: fault.Message, Suggestion: suggestion})
}

// familyTitle heads a family in a chart.
func familyTitle(f ornament.Family) string {
	return [...]string{"Names the trade shares", "Graces of the old Irish harpers", "Figures of the Robert ap Huw manuscript", "Your own"}[f]
}

// NewChart works out the chart of a course for what was chosen, sentence by
// sentence; those that cannot be obeyed are left out.
func (c Course) NewChart(sentences ...string) *Chart {
	said := c.house
	for _, s := range sentences {
		said, _ = choice.Do(said, s)
	}
	return chart(said, nil)
}

// Steps are the strings of an ornament from its note, as it plays them: "+1 0".
func (r *Charted) Steps() string {
	var words []string
	for _, s := range r.Row.Steps {
		words = append(words, offset(s))
	}
	text := strings.Join(words, " ")
	switch {
	case r.Row.Repeat:
		text += ", over and over"
	case r.Row.Next > 0:
		text += ", before +" + strconv.Itoa(int(r.Row.Next))
	}
	return text
}

// Price writes a price as a chart shows it, in whole charges; a dash where there is
// no time.
func Price(c plan.Cost) string {
	if c >= plan.None {
		return "-"
	}
	return explain.Effort(c)
}

// ready says how ready the hand is, tempo by tempo if it is not always the same:
// "placed again at 60, no time at 100 and 140"; "" for a finger that cannot have the
// note.
func (s *Start) ready() string {
	if len(s.Ways) == 0 && s.none() == notSo {
		return ""
	}
	var words []string
	for i := 0; i < tempos; {
		from, at := i, ""
		for ; i < tempos && s.Ready[i] == s.Ready[from]; i++ {
			if i > from {
				at += " and "
			}
			at += strconv.Itoa(chartTempos[i])
		}
		word := s.Ready[from].String()
		if i-from < tempos {
			word += " at " + at
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// notSo is said of a finger that cannot have the note.
const notSo = "cannot be played so"

// none says that there is no way from a hand that is set once.
func (s *Start) none() string {
	if slices.Contains(s.Ready[:], plan.PlacedAgain) {
		return "only by leaving the strings for it, and coming back"
	}
	return notSo
}

// leaves says which fingers have nothing to do, and which stop a string: "3 4; 1 stops
// +1".
func (w *ChartWay) leaves() string {
	var words []string
	for _, f := range w.Free {
		words = append(words, strconv.Itoa(f+1))
	}
	text := strings.Join(words, " ")
	if text == "" {
		text = "none"
	}
	for _, s := range w.Stops {
		text += "; " + strconv.Itoa(int(s.Finger)+1) + " stops " + offset(s.Step)
	}
	return text
}

// offset writes a string counted from the note: "+1".
func offset(step int8) string {
	if step > 0 {
		return "+" + strconv.Itoa(int(step))
	}
	return strconv.Itoa(int(step))
}

// known says who wrote a fingering down: "haner krafiad (Robert ap Huw ...)".
func (w *ChartWay) known() string {
	var words []string
	for _, k := range w.Known {
		word := strings.ReplaceAll(k.Source, ", no source", "")
		if k.Name != "" {
			word = k.Name + " (" + word + ")"
		}
		if !slices.Contains(words, word) {
			words = append(words, word)
		}
	}
	return strings.Join(words, "; ")
}

// says explains the numbers of a chart.
func (x *Chart) says() []string {
	return []string{
		"A crotchet on " + x.On + ", struck alone, at " + strconv.Itoa(x.Tempos[0]) + ", " + strconv.Itoa(x.Tempos[1]) + " and " + strconv.Itoa(x.Tempos[2]) +
			" crotchets a minute. The numbers say how much effort the ornament adds to the note by itself; a dash means that there is no time for it. Less is easier, and a few more or less are nothing.",
		"Strings are counted from the note: 0 is its own, +1 the one above. Fingers stand as they play, the note's own among them. Every way is from a hand that is set once. What is left free can be on other strings; a finger that stops one afterwards lies on that.",
	}
}

// note says why an ornament has no lines; "" where it has.
func (r *Charted) note(x *Chart) string {
	if r.Lacks {
		return "This harp has no string for it around " + x.On + "."
	}
	if r.Times == [tempos]bool{} {
		return "A crotchet is too short for it."
	}
	return ""
}

// view gathers what draw shows of a chart.
func (x *Chart) view(name string, a *Answer) draw.Chart {
	c := draw.Chart{Name: name, Title: chartTitle, Says: x.says(), Text: a.Block.Text, Remarks: a.Remarks,
		Harp: x.Rules.Harp, Hand: x.Rules.Hand, Lifted: x.Rules.Lifted}
	for _, t := range x.Tempos {
		c.Tempos = append(c.Tempos, strconv.Itoa(t))
	}
	family := ornament.Family(-1)
	for i := range x.Rows {
		r := &x.Rows[i]
		row := draw.ChartRow{Name: r.Row.Name, Title: r.Row.Title, Steps: r.Steps(), Says: strings.TrimSpace(r.Row.Says + " " + r.note(x))}
		if r.Row.Family != family {
			family = r.Row.Family
			row.Family = familyTitle(family)
		}
		if r.note(x) == "" {
			for f := range r.Starts {
				if x.Rules.Hand.InUse[f] {
					row.Starts = append(row.Starts, r.Starts[f].view(f, r))
				}
			}
		}
		c.Rows = append(c.Rows, row)
	}
	return c
}

func (s *Start) view(finger int, r *Charted) draw.ChartStart {
	start := draw.ChartStart{Finger: finger + 1, Ready: s.ready(), None: s.none()}
	for i := range s.Ways {
		w := &s.Ways[i]
		way := draw.ChartWay{Fingers: explain.Fingers(w.Fingers), Free: w.leaves(), Known: w.known(), House: w.House}
		for _, p := range w.Prices {
			way.Prices = append(way.Prices, Price(p))
		}
		if way.Do = "house " + r.Row.Name + " " + way.Fingers; w.House {
			way.Do = "house " + r.Row.Name + " off"
		}
		start.Ways = append(start.Ways, way)
	}
	return start
}

// Text tells a chart to a musician, ornament by ornament.
func (x *Chart) Text() string {
	var b strings.Builder
	h := x.Rules.Harp
	low := h.Strings[0].Pitch
	low.Alter = 0
	b.WriteString(chartTitle + "\n" + x.Rules.Hand.Name + " hand, " + strconv.Itoa(len(h.Strings)) + " strings from " + low.String() + " in " + h.Tuning + "\n\n")
	b.WriteString(strings.Join(x.says(), "\n") + "\n")
	family := ornament.Family(-1)
	for i := range x.Rows {
		r := &x.Rows[i]
		if r.Row.Family != family {
			family = r.Row.Family
			b.WriteString("\n" + familyTitle(family) + "\n")
		}
		b.WriteString("\n" + r.Row.Title + " (" + r.Steps() + ")")
		if note := r.note(x); note != "" {
			b.WriteString(": " + note + "\n")
			continue
		}
		b.WriteString("\n")
		for f := range r.Starts {
			if x.Rules.Hand.InUse[f] {
				r.Starts[f].text(&b, f)
			}
		}
	}
	return b.String()
}

// text writes the lines of one finger.
func (s *Start) text(b *strings.Builder, finger int) {
	var words []string
	for _, word := range []string{s.ready(), s.none()} {
		if word != "" && (len(s.Ways) == 0 || word != s.none()) {
			words = append(words, word)
		}
	}
	b.WriteString("  the note with " + strconv.Itoa(finger+1) + ": " + strings.Join(words, "; ") + "\n")
	for i := range s.Ways {
		w := &s.Ways[i]
		line := "    " + padded(explain.Fingers(w.Fingers), 11)
		for _, p := range w.Prices {
			line += padded(Price(p), 5)
		}
		line += "leaves free: " + w.leaves()
		if w.House {
			line += "; your usual one"
		}
		if k := w.known(); k != "" {
			line += "; known: " + k
		}
		b.WriteString(line + "\n")
	}
}

// padded fills a word up with spaces; one at least stands after it.
func padded(word string, wide int) string { return word + strings.Repeat(" ", max(1, wide-len(word))) }
