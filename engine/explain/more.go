package explain

import (
	"strconv"

	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// More says how much more effort something takes: "3 more effort", "3 less effort"; ""
// if it is nothing that could be felt.
func More(extra plan.Cost) string {
	switch effort := Effort(max(extra, -extra)); {
	case effort == "0":
		return ""
	case extra < 0:
		return effort + " less effort"
	default:
		return effort + " more effort"
	}
}

// Figure is More as a number: "3", "3 less", "no more".
func Figure(extra plan.Cost) string {
	switch effort := Effort(max(extra, -extra)); {
	case effort == "0":
		return "no more"
	case extra < 0:
		return effort + " less"
	default:
		return effort
	}
}

// Parted says that the bar of a written note is like others in one score and no
// longer in another of the same notes, so that each may have fingers of its own; else
// "".
func Parted(before, after *score.Score, written int) string {
	was, is := sameBars(before, written), sameBars(after, written)
	if len(was) < 2 || len(is) >= len(was) {
		return ""
	}
	var words []string
	for _, n := range was {
		words = append(words, strconv.Itoa(n))
	}
	return "Bars " + list(words) + " would no longer have to be played alike."
}

// sameBars lists the written bars that are like that of a note, its own among them.
func sameBars(s *score.Score, written int) (bars []int) {
	for _, f := range s.Figures() {
		bars = bars[:0]
		here := false
		for _, at := range f.At {
			if n := s.Events[at].Bar; len(bars) == 0 || bars[len(bars)-1] != n {
				bars = append(bars, n)
			}
			for _, e := range s.Events[at : at+f.Length] {
				for _, n := range e.Notes {
					here = here || n.Written == written
				}
			}
		}
		if here {
			return bars
		}
	}
	return nil
}
