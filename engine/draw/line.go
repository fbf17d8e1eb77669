package draw

import (
	"readyhand/engine/hand"
	"readyhand/engine/rule"
)

// line is one hand's part of a system, laid out.
type line struct {
	hand      *Hand
	hands     int
	spots     []spot
	bands     []band
	low, high int8 // strings shown
	width     int
	end       int // where the strings end
	labels    int // rows of ornament names above the strings
	sky       int // y of what lies under the new tempos
	paces     []note
	opens     bool // the first line of its tune
}

// spot is a column in its place.
type spot struct {
	*column
	event  int // of the score; -1 if nothing of it is played
	x      int // of its beads
	bar    int // x of the bar line before it, -1 if none
	body   int
	tail   int
	stop   int // x of a finger that silences a string after its ornament
	before *figure
	after  *figure
	hint   bool // something may be added here that is not drawn
}

// band is the part of a placing that stands in a line.
type band struct {
	placing int
	strip   int // x of the strip at its head
	end     int
	first   int // spot
	last    int
	carried bool // the hand was set before this line
}

// lines lays out system i, one line a hand.
func (s *sheet) lines(i int) []*line {
	var lines []*line
	for k := range s.view.Hands {
		l := &line{hand: &s.view.Hands[k], hands: len(s.view.Hands), opens: i == 0}
		from, to := s.systems[i].from[k], s.systems[i].to[k]
		for c := from; c < to; c++ {
			column := &s.columns[k][c]
			l.spots = append(l.spots, spot{column: column, event: column.played(), bar: -1})
			l.figures(c-from, s.sparse[k])
		}
		l.banded(s.columns[k], from)
		lines = append(lines, l)
	}
	s.place(lines)
	for _, l := range lines {
		l.strings()
		l.named()
		l.paced()
	}
	return lines
}

// banded finds the placings of the line.
func (l *line) banded(columns []column, from int) {
	placingOf := func(event int) int {
		if event < 0 || event >= len(l.hand.Plan.Events) {
			return -1
		}
		return l.hand.Plan.Events[event].Placing
	}
	before := -1
	for i := from - 1; i >= 0 && before < 0; i-- {
		before = placingOf(columns[i].played())
	}
	for c := range l.spots {
		k := placingOf(l.spots[c].event)
		if k < 0 {
			continue
		}
		if n := len(l.bands); n > 0 && l.bands[n-1].placing == k {
			l.bands[n-1].last = c
			continue
		}
		l.bands = append(l.bands, band{placing: k, first: c, last: c, carried: len(l.bands) == 0 && before == k})
	}
}

// set is what a placing sets: its frame without the fingers that are free.
func (l *line) set(k int) hand.Frame {
	pl := l.hand.Plan.Placings[k]
	for f, free := range pl.Free {
		if free {
			pl.Frame[f] = hand.None
		}
	}
	return pl.Frame
}

// again gives the finger, 0 to 3, that takes a string of a spot on a later pass
// otherwise than on the first; -1 if all agree.
func (l *line) again(sp *spot, t int8) int {
	events := l.hand.Plan.Events
	if len(sp.passes) < 2 || sp.passes[len(sp.passes)-1] >= len(events) {
		return -1
	}
	first := events[sp.passes[0]].Finger(t)
	for _, e := range sp.passes[1:] {
		if f := events[e].Finger(t); f >= 0 && f != first {
			return f
		}
	}
	return -1
}

func (l *line) changes(sp *spot) bool {
	if sp.event < 0 {
		return false
	}
	for _, n := range l.hand.Score.Events[sp.event].Notes {
		if l.again(sp, n.String) >= 0 {
			return true
		}
	}
	return false
}

// comes names the way to a placing in a word or two: "set", "4 under".
func (l *line) comes(b band) string {
	pl := l.hand.Plan.Placings[b.placing]
	if b.carried {
		return "stay"
	}
	switch pl.Move {
	case rule.Shift:
		for f, on := range l.hand.Plan.Stays(b.placing) {
			if on {
				return itoa(f+1) + " stays"
			}
		}
	case rule.Connect, rule.Slide, rule.Jump:
		return pl.Move.String()
	case rule.Under:
		return itoa(lowest(l.hand.Plan.Events[pl.First].Stroke)+1) + " under"
	case rule.Over:
		if pl.First > 0 {
			return "over " + itoa(lowest(l.hand.Plan.Events[pl.First-1].Stroke)+1)
		}
	}
	if b.placing > 0 {
		return "come off"
	}
	return "set"
}

// lowest gives the last finger that a stroke uses.
func lowest(stroke hand.Frame) int {
	for f := 3; f > 0; f-- {
		if stroke[f] != hand.None {
			return f
		}
	}
	return 0
}
