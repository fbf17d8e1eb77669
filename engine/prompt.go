package engine

import "readyhand/engine/draw"

// This file answers a command in two steps, as a browser wants it: Prompt gives
// what a reader waits for, Rest what takes longer and can wait. Both together leave
// the page as Do does.

// Prompt is Do without the parts that may come later (exercises, late calls, what
// keeping ornaments ready costs). Where a part keeps its elements, Sets says what
// is set in them instead of the whole part.
func (p Page) Prompt(command string) (Page, Change) { return p.obeyed(command, false) }

// Rest gives the parts that commands since have left for later, as far as they
// changed.
func (p Page) Rest() (parts []Part) {
	for _, s := range p.shown {
		if s == nil || s.page == nil {
			continue
		}
		old, now := s.page.whole(), s.whole()
		for k, part := range now.drawn.Parts {
			if draw.Late(part) && (k >= len(old.drawn.Parts) || part != old.drawn.Parts[k]) {
				parts = append(parts, part)
			}
		}
		s.page = nil
	}
	return parts
}

// whole is the block with the parts that may come later.
func (s *shown) whole() *shown {
	if s.late {
		return s
	}
	v := &s.drawn.View
	v.Drills, v.Caution, v.Calls, v.Shared = s.answer.drawnDrills(), caution(s.answer.Drills()), s.answer.drawnCalls(), s.answer.shared()
	s.drawn.Finish()
	s.late = true
	return s
}

// onPage is the state whose late parts a browser shows after s was shown.
func (s *shown) onPage() *shown {
	if s.page != nil {
		return s.page
	}
	return s
}

// redraw gathers what has to be drawn again of a block.
func (c *Change) redraw(old, now *shown, whole bool) {
	for k, part := range now.drawn.Parts {
		switch {
		case k < len(old.drawn.Parts) && old.drawn.Parts[k] == part, !whole && draw.Late(part):
			continue
		case !whole && k < len(old.drawn.Parts):
			if sets, ok := patch(old.drawn.Parts[k], part); ok {
				c.Sets = append(c.Sets, sets...)
				continue
			}
		}
		c.Parts = append(c.Parts, part)
	}
}
