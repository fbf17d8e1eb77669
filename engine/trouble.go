package engine

import (
	"strconv"
	"strings"

	"readyhand/engine/explain"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// trouble turns what a plan had to leave out, or could only just do, into
// remarks at the notes.
func trouble(s score.Score, p plan.Plan) []source.Remark {
	var remarks []source.Remark
	for _, d := range p.Dropped {
		if len(d.House) > 0 {
			remarks = append(remarks, unusual(s, d))
			continue
		}
		if d.Gap >= 0 {
			remarks = append(remarks, leftOut(s.Gaps[d.Gap].Sites[d.Site].Ornaments[d.Which]))
			continue
		}
		n := s.Events[d.Event].Notes[0]
		at := n.Source
		for _, n := range s.Events[d.Event].Notes {
			if n.Pinned != (source.Span{}) && n.Pinned != source.Nowhere() {
				at = n.Pinned
				break
			}
		}
		remarks = append(remarks, source.Remark{Span: at, Severity: source.Error, Kind: "pin-unplayable",
			Message:    "The finger or the placing asked for on " + n.Name(s) + " cannot be played after the notes before it, so it was left free.",
			Suggestion: "Ask for another finger here, or free the fingers just before."})
	}
	return append(remarks, hurried(s, p)...)
}

// unusual says that a house fingering is not followed: because a finger is asked
// for that it does not have, or because it cannot be played.
func unusual(s score.Score, d plan.Dropped) source.Remark {
	r := source.Remark{Severity: source.Note, Kind: "house-not-followed"}
	words := "neither " + explain.Fingers(d.House[0]) + " nor " + explain.Fingers(d.House[len(d.House)-1])
	if len(d.House) == 1 {
		words = "not " + explain.Fingers(d.House[0])
	}
	what, event, pinned := "This chord", d.Event, score.Note{}
	if d.Gap >= 0 {
		site := s.Gaps[d.Gap].Sites[d.Site]
		what, event = "The "+site.Ornaments[d.Which].Title+" here", site.Event
		r.Span = site.Ornaments[d.Which].Source
	}
	if r.Span == source.Nowhere() || d.Gap < 0 {
		r.Span = s.Events[event].Notes[0].Source
	}
	for _, n := range s.Events[event].Notes {
		if n.Pin != 0 && (d.Gap < 0 || n.Written == s.Gaps[d.Gap].Sites[d.Site].Written) {
			pinned = n
		}
	}
	has := " has other fingers than usual, "
	if strings.HasSuffix(strings.TrimSuffix(what, " here"), "s") { // three strokes
		has = " have other fingers than usual, "
	}
	r.Message = what + has + words + ": as usual it cannot be played from the notes around it."
	r.Suggestion = "Name a second way that can be played, with or between the two; or leave it as it is."
	if pinned.Pin != 0 {
		r.Message = what + has + words + ", because " + strconv.Itoa(int(pinned.Pin)) + " is asked for on " + pinned.Name(s) + "."
		r.Suggestion = "Leave that finger free to have it as usual."
	}
	return r
}

func leftOut(o score.Ornament) source.Remark {
	return source.Remark{Span: o.Source, Severity: source.Warning, Kind: "ornament-no-time",
		Message:    "From the notes around it no finger can reach the " + o.Title + " here in time, so it was left out.",
		Suggestion: "Free a finger that is asked for here, slow down, or leave it out."}
}

// hurried finds written notes that follow faster than a finger can repeat.
func hurried(s score.Score, p plan.Plan) []source.Remark {
	var remarks []source.Remark
	for i := 1; i < len(p.Events); i++ {
		for f, t := range p.Events[i].Stroke {
			again := t != hand.None && p.Events[i-1].Stroke[f] == t && !s.Events[i].Forced
			if again && s.Events[i].Since < rule.RepeatLeast {
				n := s.Events[i].Notes[0]
				remarks = append(remarks, source.Remark{Span: n.Source, Severity: source.Warning, Kind: "too-fast",
					Message:    n.Name(s) + " comes again faster than one finger can repeat it.",
					Suggestion: "Slow down, or have more fingers in use."})
				break
			}
		}
	}
	return remarks
}
