package score

import "slices"

// Run is one way to finger all that sounds in a pattern by its house fingerings.
type Run struct {
	Strokes       []int8 // beside the pattern's strings: the finger of each, Any where it does not matter
	Before, After Hold   // the finger of the note adorned, in the event before the gap and in the one after it
	Rank          int    // how many of its fingerings are the second in liking
}

// Hold is a finger, 0 to 3, that a string must have; Any where it does not matter.
type Hold struct{ String, Finger int8 }

// Any is a finger that does not matter.
const Any int8 = -1

// Suits reports whether a stroke, the string of each finger, keeps to a hold.
func (h Hold) Suits(stroke [4]int8) bool { return h.Finger == Any || stroke[h.Finger] == h.String }

// Liking says which of its house fingerings an event has when it is played with a
// stroke, 0 the first: 0 too where it has none to follow, and -1 where it has
// another.
func (e *Event) Liking(stroke [4]int8) int {
	if len(e.House) == 0 {
		return 0
	}
	return slices.IndexFunc(e.House, func(way []int8) bool {
		return slices.EqualFunc(way, e.Notes, func(f int8, n Note) bool { return stroke[f] == n.String })
	})
}

// runs gives the ways to finger what sounds in a gap by its house fingerings, in
// order of liking; none where any fingers will do.
func (s *Score) runs(gap int, sounds [2]int8) []Run {
	var list []Run
	n, total := 0, 0
	for k, site := range s.Gaps[gap].Sites {
		if sounds[k] >= 0 {
			total += len(site.Ornaments[sounds[k]].Strokes)
		}
	}
	for k, site := range s.Gaps[gap].Sites {
		if sounds[k] < 0 {
			continue
		}
		o := site.Ornaments[sounds[k]]
		if len(o.House) > 0 && list == nil {
			list = []Run{freeRun(total)}
		}
		if len(o.House) > 0 {
			list = with(list, o.House, s.Adorned(site), site.After, n)
		}
		n += len(o.Strokes)
	}
	return list
}

func freeRun(strokes int) Run {
	return Run{Strokes: slices.Repeat([]int8{Any}, strokes), Before: Hold{Any, Any}, After: Hold{Any, Any}}
}

// with gives each of the runs with each of the ways of an ornament that begins
// with stroke first.
func with(runs []Run, ways [][]int8, string int8, after bool, first int) []Run {
	var list []Run
	for _, run := range runs {
		for rank, way := range ways {
			next := run
			next.Strokes = slices.Clone(run.Strokes)
			next.Rank += rank
			last := len(way) - 1
			if after { // the note adorned comes first
				next.Before = Hold{string, way[0]}
				copy(next.Strokes[first:], way[1:])
			} else {
				next.After = Hold{string, way[last]}
				copy(next.Strokes[first:], way[:last])
			}
			list = append(list, next)
		}
	}
	return list
}

// Adorned is the string of the note that a site adorns.
func (s *Score) Adorned(site Site) int8 {
	notes := s.Events[site.Event].Notes
	for _, n := range notes {
		if n.Written == site.Written {
			return n.String
		}
	}
	return notes[len(notes)-1].String
}

// Housed reports whether any house fingering is to be followed.
func (s *Score) Housed() bool {
	for _, e := range s.Events {
		if len(e.House) > 0 {
			return true
		}
	}
	for _, g := range s.Gaps {
		for _, p := range g.Patterns {
			if len(p.House) > 0 {
				return true
			}
		}
	}
	return false
}

// Free is the score without its house fingerings.
func (s *Score) Free() Score {
	free := *s
	free.Events = slices.Clone(s.Events)
	for i := range free.Events {
		free.Events[i].House = nil
	}
	free.Gaps = slices.Clone(s.Gaps)
	for j := range free.Gaps {
		g := &free.Gaps[j]
		g.Sites = slices.Clone(g.Sites)
		for k := range g.Sites {
			g.Sites[k].Ornaments = slices.Clone(g.Sites[k].Ornaments)
			for i := range g.Sites[k].Ornaments {
				g.Sites[k].Ornaments[i].House = nil
			}
		}
		g.Patterns = slices.Clone(g.Patterns)
		for k := range g.Patterns {
			g.Patterns[k].House = nil
		}
	}
	return free
}

// sameWays reports whether two lists of fingerings are the same.
func sameWays(a, b [][]int8) bool { return slices.EqualFunc(a, b, slices.Equal) }
