package draw

import (
	"readyhand/engine/score"
	"readyhand/engine/tune"
)

// This file lays a tune out in written order and wraps it into lines of bars.
// Where a line ends depends on the written notes alone, so that no choice of
// the reader's moves a note to another line.

// sheet is a block in written order.
type sheet struct {
	view     *View
	columns  [][]column // by hand
	systems  []system
	systemOf map[int]int // by written note
	sparse   []bool      // by hand: few ornaments are offered, so that all can be drawn
	unit     tune.Frac   // the most usual length, whose tail is tailUnit long
}

// system is one line of the page: of each hand's columns, from and to.
type system struct{ from, to []int }

// column is one written moment of a hand.
type column struct {
	event  *tune.Event
	length tune.Frac
	passes []int  // events of the score that play it, in played order
	first  bool   // of its bar
	tempo  string // a new one that begins here
	cont   bool   // every note is tied to the one before: nothing is plucked
}

// Sizes of the picture, in its own units.
const (
	width     = 360 // of a picture; a phone's 300 pixels still show a figure 11 high
	gutter    = 40  // names of strings
	stripWide = 30  // the strip at the head of a placing
	beadWide  = 28  // a note with no tail to speak of
	barWide   = 8
	tailUnit  = 13 // of the tune's most usual length
	tailMost  = 98
	notesMost = 9 // moments in a line that is one bar, before the bar is parted
)

func newSheet(v View) *sheet {
	s := &sheet{view: &v, unit: usualLength(v), systemOf: map[int]int{}}
	for k := range v.Hands {
		s.columns = append(s.columns, s.read(&v.Hands[k]))
		s.sparse = append(s.sparse, sparse(&v.Hands[k]))
	}
	s.wrap()
	for i, sys := range s.systems {
		for k, columns := range s.columns {
			for _, c := range columns[sys.from[k]:sys.to[k]] {
				for _, n := range c.event.Notes {
					s.systemOf[n.Number] = i
				}
			}
		}
	}
	return s
}

// sparse reports whether ornaments are offered on half of the notes at most, or
// on two in a very short tune (guess: more crowd the picture). Those that stand in the tune do not count, nor does what is switched
// on, so that a switch does not change it.
func sparse(h *Hand) bool {
	offers := 0
	for j := range h.Score.Gaps {
		for i := range h.Score.Gaps[j].Sites {
			stands := false
			for _, o := range h.Score.Gaps[j].Sites[i].Ornaments {
				stands = stands || o.Written
			}
			if !stands {
				offers++
			}
		}
	}
	return offers <= max(2, len(h.Score.Events)/2)
}

// usualLength finds the length that most notes have, the shorter of two.
func usualLength(v View) tune.Frac {
	var lengths []tune.Frac
	var counts []int
	for _, h := range v.Hands {
		if h.Voice >= len(v.Tune.Voices) {
			continue
		}
		for _, e := range v.Tune.Voices[h.Voice].Events {
			at := -1
			for i, l := range lengths {
				if l == e.Length {
					at = i
				}
			}
			if at < 0 {
				at, lengths, counts = len(lengths), append(lengths, e.Length), append(counts, 0)
			}
			if len(e.Notes) > 0 && e.Length.N > 0 {
				counts[at]++
			}
		}
	}
	best := -1
	for i := range lengths {
		if counts[i] > 0 && (best < 0 || counts[i] > counts[best] || counts[i] == counts[best] && lengths[i].Less(lengths[best])) {
			best = i
		}
	}
	if best < 0 {
		return tune.Frac{N: 1, D: 8}
	}
	return lengths[best]
}

// read makes a hand's columns: its voice in written order, each moment with the
// events of the score that play it.
func (s *sheet) read(h *Hand) []column {
	if h.Voice < 0 || h.Voice >= len(s.view.Tune.Voices) {
		return nil
	}
	plays := map[int][]int{} // by written note
	for i := range h.Score.Events {
		for _, n := range h.Score.Events[i].Notes {
			plays[n.Written] = append(plays[n.Written], i)
		}
	}
	events := s.view.Tune.Voices[h.Voice].Events
	columns := make([]column, 0, len(events))
	changes := paces(s.view)
	for i := range events {
		e := &events[i]
		c := column{event: e, length: e.Length, first: i == 0 || events[i-1].Bar != e.Bar, cont: len(e.Notes) > 0}
		for _, n := range e.Notes {
			c.cont = c.cont && n.Tied
			if len(c.passes) == 0 {
				c.passes = plays[n.Number]
			}
		}
		for len(changes) > 1 && !e.Onset.Less(changes[1].at) {
			changes = changes[1:]
			c.tempo = changes[0].String()
		}
		columns = append(columns, c)
	}
	return columns
}

// tail is how long a note's tail is: as long as the note, up to a most.
func (s *sheet) tail(length tune.Frac) int {
	over := length.Mul(tune.Frac{N: s.unit.D, D: s.unit.N})
	return int(min(int64(tailMost), over.N*tailUnit/over.D))
}

// body is the width a column needs for itself.
func (s *sheet) body(c *column) int { return max(beadWide, s.tail(c.length)+16) }

// wide guesses the width of a hand's columns: their own, and a placing for
// every four of them.
func (s *sheet) wide(hand, from, to int) int {
	w, notes := barWide, 0
	for i := from; i < to; i++ {
		w += s.body(&s.columns[hand][i])
		if len(s.columns[hand][i].event.Notes) > 0 {
			notes++
		}
	}
	return w + (notes+3)/4*stripWide
}

// wrap parts the columns into systems.
func (s *sheet) wrap() {
	const room = width - gutter - barWide
	var now system
	used := 0
	for _, bar := range s.bars() {
		w := 0
		for k := range s.columns {
			w = max(w, s.wide(k, bar.from[k], bar.to[k]))
		}
		if used > 0 && used+w > room {
			s.systems = append(s.systems, now)
			used = 0
		}
		if used == 0 {
			now = bar
		} else {
			now.to = bar.to
		}
		used += w
	}
	if used > 0 {
		s.systems = append(s.systems, now)
	}
}

// bars lists the bars of all hands; with one hand, a long bar is parted evenly.
func (s *sheet) bars() []system {
	at := make([]int, len(s.columns))
	var bars []system
	for {
		number, found := 0, false
		for k, columns := range s.columns {
			if at[k] < len(columns) && (!found || columns[at[k]].event.Bar < number) {
				number, found = columns[at[k]].event.Bar, true
			}
		}
		if !found {
			return bars
		}
		bar := system{append([]int(nil), at...), make([]int, len(at))}
		for k, columns := range s.columns {
			for at[k] < len(columns) && columns[at[k]].event.Bar <= number {
				at[k]++
			}
			bar.to[k] = at[k]
		}
		bars = append(bars, s.parted(bar)...)
	}
}

func (s *sheet) parted(bar system) []system {
	if len(s.columns) != 1 {
		return []system{bar}
	}
	from, n := bar.from[0], bar.to[0]-bar.from[0]
	pieces := max((n+notesMost-1)/notesMost, (s.wide(0, from, from+n)+width-gutter-1)/(width-gutter))
	pieces = max(1, min(pieces, n))
	if pieces == 2 && n <= notesMost && s.wide(0, from, from+n) < (width-gutter)*5/4 {
		pieces = 1 // a little too wide: better a little smaller than parted
	}
	var out []system
	for i := range pieces {
		out = append(out, system{[]int{from + n*i/pieces}, []int{from + n*(i+1)/pieces}})
	}
	return out
}

// played gives the event of the score that plays a column first, or -1.
func (c *column) played() int {
	if len(c.passes) == 0 {
		return -1
	}
	return c.passes[0]
}

// sites gives the sites of a score's event, before and after it, nil where it
// has none, and their gap and place in it.
func sites(h *Hand, event int) (found []at) {
	s := h.Score
	for _, j := range [...]int{event, event + 1} {
		if j < 0 || j >= len(s.Gaps) {
			continue
		}
		for i := range s.Gaps[j].Sites {
			if s.Gaps[j].Sites[i].Event == event {
				found = append(found, at{j, i})
			}
		}
	}
	return found
}

// at is a site: its gap and its place there.
type at struct{ gap, site int }

func (a at) of(s *score.Score) *score.Site { return &s.Gaps[a.gap].Sites[a.site] }
