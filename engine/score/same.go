package score

import "slices"

// Alike reports whether two scores ask the same of the solver: everything but
// which of the prepared ornaments sound, which changes no plan.
func (s *Score) Alike(t *Score) bool {
	return sameHarp(s, t) &&
		slices.EqualFunc(s.Events, t.Events, sameEvent) &&
		slices.EqualFunc(s.Gaps, t.Gaps, func(a, b Gap) bool {
			return slices.EqualFunc(a.Sites, b.Sites, func(x, y Site) bool {
				return x.Written == y.Written && x.Pass == y.Pass && x.Event == y.Event && x.After == y.After &&
					slices.EqualFunc(x.Ornaments, y.Ornaments, sameOrnament)
			})
		})
}

// Same reports whether two scores are alike and the same ornaments sound.
func (s *Score) Same(t *Score) bool {
	if !s.Alike(t) {
		return false
	}
	for j := range s.Gaps {
		if s.Now(j) != t.Now(j) {
			return false
		}
	}
	return true
}

func sameHarp(s, t *Score) bool {
	return s.Harp.Same(t.Harp) &&
		slices.Equal(s.Raised, t.Raised) && slices.Equal(s.Left, t.Left)
}

func sameEvent(a, b Event) bool {
	return a.Since == b.Since && a.Length == b.Length && a.Forced == b.Forced && a.Weak == b.Weak && a.Rolled == b.Rolled && a.Boundary == b.Boundary &&
		slices.Equal(a.Notes, b.Notes) && sameWays(a.House, b.House)
}

func sameOrnament(a, b Ornament) bool {
	return a.Name == b.Name && a.Delay == b.Delay && a.Likelihood == b.Likelihood && a.Written == b.Written &&
		slices.Equal(a.Strokes, b.Strokes) && sameWays(a.House, b.House)
}
