package vary

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Settings gives the choice that a tune's own %%ready lines make, several
// sentences on a line parted by ";". A sentence that cannot be obeyed is an
// error at its place.
func Settings(t tune.Tune) (choice.Choice, []source.Remark) {
	var c choice.Choice
	var remarks []source.Remark
	known, list := numbers(t), sentences(t)
	for _, s := range list { // those that define an ornament first: others may speak of it
		changed, fault := choice.Line(c, s.words)
		if fault != nil {
			remarks = append(remarks, source.Remark{Span: s.word(fault), Severity: source.Error, Kind: "unknown-setting",
				Message: fault.Message, Suggestion: fault.Suggestion})
			continue
		}
		if n := stranger(changed, known); n > 0 {
			remarks = append(remarks, noNote(n, len(known), s.at, source.Error))
			continue
		}
		c = changed
	}
	return c, source.Sort(remarks)
}

// sentence is one of a tune's own, and where it stands.
type sentence struct {
	words string
	at    source.Span
}

// word is the place of what a fault repeats of a sentence, of all of it where that
// is nothing.
func (s sentence) word(f *choice.Fault) source.Span {
	words := strings.TrimSpace(s.words)
	if int(s.at.To-s.at.From) != len(words) {
		return s.at
	}
	from, to := f.In(words)
	return source.Span{From: s.at.From + int32(from), To: s.at.From + int32(to)}
}

// sentences lists a tune's own, those that define an ornament first.
func sentences(t tune.Tune) []sentence {
	var define, others []sentence
	for _, line := range t.Settings {
		from := 0
		for part := range strings.SplitSeq(line.Text, ";") {
			s := sentence{part, within(line, from, part)}
			from += len(part) + 1
			if _, defines := choice.Defines(part); defines {
				define = append(define, s)
			} else if strings.TrimSpace(part) != "" {
				others = append(others, s)
			}
		}
	}
	return append(define, others...)
}

// defined is where a tune's own ornament is defined.
func (w *writer) defined(name string) source.Span {
	for _, s := range sentences(w.tune) {
		if is, _ := choice.Defines(s.words); is == name {
			return s.at
		}
	}
	return w.tune.Header
}

// saidAt is where a tune's own lines speak of an ornament, or of anything where its
// name is "", at a note; elsewhere where they do not.
func (w *writer) saidAt(name string, note int, elsewhere source.Span) source.Span {
	at := name + "@" + strconv.Itoa(note)
	for _, s := range sentences(w.tune) {
		for word := range strings.FieldsSeq(strings.ToLower(s.words)) {
			if word == at || name == "" && strings.HasSuffix(word, at) {
				return s.at
			}
		}
	}
	return elsewhere
}

// asked is where a tune's own lines last begin a sentence with a word, its header where
// they do not.
func asked(t tune.Tune, word string) source.Span {
	at := t.Header
	for _, s := range sentences(t) {
		if first := strings.Fields(s.words); len(first) > 0 && strings.EqualFold(first[0], word) {
			at = s.at
		}
	}
	return at
}

// within gives the place of a part of a line, without the space around it.
func within(line tune.Setting, from int, part string) source.Span {
	if int(line.Source.To-line.Source.From) != len(line.Text) {
		return line.Source
	}
	from += len(part) - len(strings.TrimLeft(part, " \t"))
	start := line.Source.From + int32(from)
	return source.Span{From: start, To: start + int32(len(strings.TrimSpace(part)))}
}

// numbers gives the numbers of a tune's note heads.
func numbers(t tune.Tune) map[int]bool {
	known := map[int]bool{}
	for _, v := range t.Voices {
		for _, e := range v.Events {
			for _, n := range e.Notes {
				known[n.Number] = true
			}
		}
	}
	return known
}

// stranger gives a note that was spoken of but does not stand in the tune, or 0.
func stranger(c choice.Choice, known map[int]bool) int {
	for _, n := range c.Written() {
		if !known[n] {
			return n
		}
	}
	return 0
}

func noNote(n, of int, at source.Span, severity source.Severity) source.Remark {
	return source.Remark{Span: at, Severity: severity, Kind: "no-such-note",
		Message:    "There is no note " + strconv.Itoa(n) + " in this tune; what was said of it is dropped.",
		Suggestion: "Write a number from 1 to " + strconv.Itoa(of) + "."}
}

// missing speaks of choices that found no note in the tune, or none of this
// voice that is struck, or a lower note of a chord where an ornament belongs to
// the top one.
func (w *writer) missing(v tune.Voice) {
	spoken := w.choice.Written()
	if len(spoken) == 0 {
		return
	}
	known := numbers(w.tune)
	here := map[int]tune.Note{}
	for _, e := range v.Events {
		for _, n := range e.Notes {
			if slices.Contains(spoken, n.Number) {
				here[n.Number] = n
			}
		}
	}
	for _, n := range spoken {
		head, inVoice := here[n]
		top, struck := w.tops[n]
		switch {
		case !known[n]:
			w.say(noNote(n, len(known), w.tune.Header, source.Warning))
		case !inVoice:
		case !struck:
			w.notStruck(head)
		case top != n && w.spoken(n):
			w.say(source.Remark{Span: w.saidAt("", n, head.Source), Severity: source.Warning, Kind: "lower-note",
				Message:    "An ornament belongs to the top note of a chord; what was said of this lower one is dropped.",
				Suggestion: "Write the top note's number, " + strconv.Itoa(top) + "."})
		}
	}
}
