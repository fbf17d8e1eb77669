package score

import "slices"

// Figure is a bar that comes again: the same strings for the same lengths, on
// another pass or elsewhere in the tune.
type Figure struct {
	Length int   // in events
	At     []int // the first event of each time it is played, in order
}

// Figures finds the bars that come again, in the order in which they are first
// played. Bars are alike where the same strings are struck in the same way, at the
// same distances, for the same lengths and on the same beats, the hand comes off
// them at the same places, and the same ornaments of the text are prepared on the same
// notes, however likely, sounding or not: one that a reader adds in one of them does not
// make it another bar, and its written notes keep the fingers of the others. What comes before their first note and after
// their last does not matter; a pickup, or what a repeat sign cuts off, is a bar of
// its own. Distances and lengths are also those in milliseconds: in another tempo a
// bar is another bar.
// Where the text or the reader asks for fingers or placings that another bar,
// though alike, is asked not to have, the two are not one figure: each further
// bar goes with the first that it agrees with.
func (s *Score) Figures() []Figure {
	var all []bar
	for first := 0; first < len(s.Events); {
		next := first + 1
		for next < len(s.Events) && s.goesOn(next) {
			next++
		}
		all = s.among(all, first, next-first)
		first = next
	}
	var figures []Figure
	for _, b := range all {
		if len(b.At) > 1 {
			figures = append(figures, b.Figure)
		}
	}
	return figures
}

// bar is a bar, whether it comes again or not, and what is asked of it anywhere.
type bar struct {
	Figure
	mark   uint64
	pins   []int8 // by note of its events, in their order; 0 where none is asked for
	wishes []Boundary
}

// goesOn reports whether event i is in the same bar as the one before, on the
// same pass: within a bar the numbers of the notes rise.
func (s *Score) goesOn(i int) bool {
	a, b := &s.Events[i-1], &s.Events[i]
	return a.Bar == b.Bar && a.Notes[0].Pass == b.Notes[0].Pass &&
		slices.MaxFunc(a.Notes, byNumber).Written < slices.MinFunc(b.Notes, byNumber).Written
}

func byNumber(a, b Note) int { return a.Written - b.Written }

// among puts the bar from an event on among those found so far.
func (s *Score) among(all []bar, first, length int) []bar {
	mark := s.mark(first, length)
	for k := range all {
		b := &all[k]
		if b.mark == mark && b.Length == length && s.alike(b.At[0], first, length) && b.agrees(s, first) {
			b.At = append(b.At, first)
			b.asks(s, first)
			return all
		}
	}
	b := bar{Figure: Figure{length, []int{first}}, mark: mark, wishes: make([]Boundary, length)}
	for i := range length {
		b.pins = append(b.pins, make([]int8, len(s.Events[first+i].Notes))...)
	}
	b.asks(s, first)
	return append(all, b)
}

// mark is a number that bars alike have in common, and few others: 64-bit FNV-1a
// of their strings and lengths.
func (s *Score) mark(first, length int) uint64 {
	sum := uint64(14695981039346656037)
	add := func(n uint64) { sum = (sum ^ n) * 1099511628211 }
	for _, e := range s.Events[first : first+length] {
		for _, n := range e.Notes {
			add(uint64(n.String))
		}
		add(uint64(e.Length))
	}
	return sum
}

// alike reports whether the bars from two events on are alike.
func (s *Score) alike(a, b, length int) bool {
	for i := range length {
		x, y := &s.Events[a+i], &s.Events[b+i]
		inside := i == 0 || x.Since == y.Since && x.Forced == y.Forced
		if !inside || x.Span != y.Span || x.Weak != y.Weak || x.Rolled != y.Rolled ||
			!slices.EqualFunc(x.Notes, y.Notes, func(m, n Note) bool { return m.String == n.String }) ||
			!s.adornedAlike(a+i, b+i, false) || !s.adornedAlike(a+i, b+i, true) {
			return false
		}
	}
	return true
}

// adornedAlike reports whether the same ornaments of the text are prepared on two
// events: on their beat, or after it.
func (s *Score) adornedAlike(a, b int, after bool) bool {
	return slices.EqualFunc(s.preparedOn(a, after), s.preparedOn(b, after), func(x, y Ornament) bool {
		return x.Delay == y.Delay && slices.Equal(x.Strokes, y.Strokes)
	})
}

func (s *Score) preparedOn(event int, after bool) (list []Ornament) {
	gap := event
	if after {
		gap++
	}
	for _, x := range s.Gaps[gap].Sites {
		if x.Event != event || x.After != after {
			continue
		}
		for _, o := range x.Ornaments {
			if o.Written && o.Likelihood > 0 {
				list = append(list, o)
			}
		}
	}
	return list
}

// agrees reports whether what is asked of the bar from an event on goes with what
// is asked of those alike.
func (b *bar) agrees(s *Score, first int) bool {
	at := 0
	for i := range b.Length {
		e := &s.Events[first+i]
		if i > 0 && e.Boundary != Open && b.wishes[i] != Open && e.Boundary != b.wishes[i] {
			return false
		}
		for _, n := range e.Notes {
			if n.Pin != 0 && b.pins[at] != 0 && n.Pin != b.pins[at] {
				return false
			}
			at++
		}
	}
	return true
}

// asks notes what is asked of the bar from an event on.
func (b *bar) asks(s *Score, first int) {
	at := 0
	for i := range b.Length {
		e := &s.Events[first+i]
		b.wishes[i] = max(b.wishes[i], e.Boundary)
		for _, n := range e.Notes {
			b.pins[at] = max(b.pins[at], n.Pin)
			at++
		}
	}
}
