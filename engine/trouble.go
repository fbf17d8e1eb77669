package engine

import (
	"strconv"

	"readyhand/engine/explain"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// trouble turns what a plan had to leave out, or could only just do, into
// remarks at the notes.
func trouble(s score.Score, r *rule.Rules, p plan.Plan) []source.Remark {
	var remarks []source.Remark
	for _, d := range p.Dropped {
		if len(d.House) > 0 {
			remarks = append(remarks, unusual(s, d))
			continue
		}
		if d.Gap >= 0 {
			remarks = append(remarks, leftOut(s.Gaps[d.Gap].Sites[d.Site].Ornaments[d.Which], explain.Lacking(&s, r, d.Gap, d.Site, d.Which)))
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
		r := source.Remark{Span: at, Severity: source.Error, Kind: "pin-unplayable",
			Message:    "The finger asked for on " + n.Name(s) + " cannot be played after the notes before it, so it was left free.",
			Suggestion: "Ask for another finger here, or free the fingers just before."}
		switch d.Wish {
		case score.Stay:
			r.Message = "From where it is the hand cannot play " + n.Name(s) + ", so it does not stay there as was asked."
			r.Suggestion = "Let the hand be set here, or free the fingers just before."
		case score.Set:
			r.Message = "The hand cannot be set before " + n.Name(s) + " as was asked, so it was left free."
			r.Suggestion = "Let it stay here, or ask for it one note earlier or later."
		}
		remarks = append(remarks, r)
	}
	return append(remarks, hurried(s, p)...)
}

// unusual says that a house fingering is not followed: because a finger is asked
// for that it does not have, or because it cannot be played.
func unusual(s score.Score, d plan.Dropped) source.Remark {
	r := source.Remark{Severity: source.Note, Kind: "house-not-followed"}
	what, event, pinned, name, has := "This chord", d.Event, score.Note{}, "", " has other fingers than usual, "
	if d.Gap >= 0 {
		site := s.Gaps[d.Gap].Sites[d.Site]
		what, event = "The "+site.Ornaments[d.Which].Title+" here", site.Event
		if name = site.Ornaments[d.Which].Name; site.Ornaments[d.Which].Many {
			has = " have other fingers than usual, "
		}
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
	words := "neither " + explain.Usual(name, d.House[0]) + " nor " + explain.Usual(name, d.House[len(d.House)-1])
	if len(d.House) == 1 {
		words = "not " + explain.Usual(name, d.House[0])
	}
	r.Message = what + has + words + ": as usual it cannot be played from the notes around it."
	r.Suggestion = "Name a second way that can be played, with or between the two; or leave it as it is."
	if pinned.Pin != 0 {
		r.Message = what + has + words + ", because " + strconv.Itoa(int(pinned.Pin)) + " is asked for on " + pinned.Name(s) + "."
		r.Suggestion = "Leave that finger free to have it as usual."
	}
	return r
}

// leftOut says that an ornament is left out, why, and what could be done.
func leftOut(o score.Ornament, lack explain.Lack) source.Remark {
	is, was := "is ", ", so it was left out."
	if o.Many {
		is, was = "are ", ", so they were left out."
	}
	why := is + lack.String()
	switch lack {
	case explain.TooFast:
		why = is + "too fast: no hand can be ready in time"
	case explain.NoFinger:
		why = "cannot be played: no finger is left for it"
	}
	return source.Remark{Span: o.Source, Severity: source.Warning, Kind: "ornament-no-time",
		Message: "The " + o.Title + " here " + why + was, Suggestion: lack.Help()}
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
