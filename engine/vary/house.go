package vary

import (
	"slices"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// House reads a course's house fingerings, one on a line, as they are said after
// house: "cut 1 2", "0 +4 +7 4 2 1". What follows a # or a % is a comment. A line
// that cannot be obeyed is an error at its place.
func House(text source.Text) (choice.Choice, []source.Remark) {
	var c choice.Choice
	var remarks []source.Remark
	for n := 1; n <= text.Lines(); n++ {
		line, at := text.Line(n), text.Span(n)
		if n == 1 {
			line = strings.TrimPrefix(line, "\uFEFF") // some editors put a mark before the first letter
		}
		end := strings.IndexAny(line, "#%")
		if end < 0 {
			end = len(line)
		}
		words := strings.TrimSpace(line[:end])
		if words == "" {
			continue
		}
		at = source.Span{From: at.From + int32(strings.Index(text.Line(n), words)), To: at.From}
		at.To = at.From + int32(len(words))
		if rest, ok := strings.CutPrefix(words, "house "); ok {
			at.From += int32(len(words) - len(strings.TrimSpace(rest)))
			words = strings.TrimSpace(rest)
		}
		changed, fault := choice.Line(c, "house "+words)
		switch {
		case fault != nil:
			remarks = append(remarks, source.Remark{Span: sentence{words, at}.word(fault), Severity: source.Error, Kind: "unknown-house",
				Message: fault.Message, Suggestion: strings.Replace(fault.Suggestion, "house ", "", -1)})
			continue
		case len(changed.Houses()) == len(c.Houses()):
			remarks = append(remarks, source.Remark{Span: at, Severity: source.Warning, Kind: "house-twice",
				Message: "This has a house fingering in a line above; this one counts.", Suggestion: "Take one of the lines out; two fingerings stand on one line, with or between them."})
		}
		c = changed
		if one, _ := choice.Line(choice.Choice{}, "house "+words); wide(one.Houses()[0]) {
			remarks = append(remarks, source.Remark{Span: at, Severity: source.Note, Kind: "house-wide",
				Message:    "So far the usual hand does not open on a harp of the usual spacing.",
				Suggestion: "Write other fingers, or leave it if your hand is larger or your strings lie closer."})
		}
	}
	return c, remarks
}

// wide reports a chord that in one of its ways the usual hand cannot hold on the usual
// harp.
func wide(h choice.House) bool {
	on, usual := harp.Default(), hand.Usual("right")
	return slices.ContainsFunc(h.Ways, func(way []int8) bool {
		frame := hand.Empty()
		for i, f := range way {
			if len(h.Shape) == 0 || int(h.Shape[i]) >= len(on.Strings) {
				return len(h.Shape) > 0
			}
			frame[f] = h.Shape[i]
		}
		return !usual.Valid(on, frame)
	})
}

// house gives the house fingerings of an ornament with so many strokes beside its
// note: those of one that is repeated go on as it does, and those of one that is
// turned about go the other way.
func (w *writer) house(row ornament.Row, strokes int) [][]int8 {
	for _, h := range w.houses {
		if h.Ornament != row.Name {
			continue
		}
		if !row.Repeat && row.Next >= 0 {
			return h.Ways
		}
		var all [][]int8
		for _, way := range h.Ways {
			if row.Next < 0 { // turned about: the same fingers the other way round
				way = slices.Clone(way)
				slices.Reverse(way)
				all = append(all, way)
				continue
			}
			all = append(all, slices.Repeat(way, strokes/len(way)+1)[:strokes+1])
		}
		return all
	}
	return nil
}

// shape gives the house fingerings of a chord, lowest string first.
func (w *writer) shape(notes []score.Note) [][]int8 {
	if len(notes) < 2 {
		return nil
	}
	for _, h := range w.houses {
		if slices.EqualFunc(h.Shape, notes, func(up int8, n score.Note) bool { return n.String == notes[0].String+up }) {
			return h.Ways
		}
	}
	return nil
}
