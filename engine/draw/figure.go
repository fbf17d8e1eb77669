package draw

import (
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// figure is an ornament as drawn.
type figure struct {
	at
	which   int
	strokes []stroke
	with    bool   // its strokes are struck with the note
	cut     bool   // more strokes follow than are drawn
	unready bool   // it has no fingers as the hand is set now
	moves   int    // written notes that would take another finger or placing first
	text    string // its name as shown
	label   int    // row of its name, from 1; 0 for none
	labelX  int
	stops   []plan.Stop // fingers that silence a string after it
}

// asks says what must move before an ornament can be played: "two notes move".
func (f *figure) asks() string {
	switch {
	case f.moves == 0:
		return "the hand is set otherwise"
	case f.moves == 1:
		return "one note moves"
	case f.moves < len(counts):
		return counts[f.moves] + " notes move"
	}
	return "many notes move"
}

var counts = [...]string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}

type stroke struct {
	string int8
	x      int
	finger int8      // 0 to 3, -1 if it cannot be played
	from   plan.From // the placing that plays it
}

// Space around the beads of ornaments.
const (
	figureMost = 5  // strokes drawn of one ornament
	clear      = 15 // from a note to a stroke on another string
	clearSame  = 19 // on the same string
	step       = 11 // between strokes on different strings
	stepSame   = 17
	labelShift = 16 // an ornament's name may stand this much to the right of it
)

// prepared gives the ornament of a site that is drawn because it sounds, is
// prepared or is written, in this order; -1 if none.
func prepared(s *score.Site) int {
	for _, is := range [...]func(*score.Ornament) bool{
		func(o *score.Ornament) bool { return o.On },
		func(o *score.Ornament) bool { return o.Likelihood > 0 },
		func(o *score.Ornament) bool { return o.Written },
	} {
		for i := range s.Ornaments {
			if is(&s.Ornaments[i]) {
				return i
			}
		}
	}
	return -1
}

// offered gives the first ornament of a site that could be played, asking no
// more of the hand than this, be it that written notes have to move first; -1 if
// none.
func offered(h *Hand, a at, most plan.Readiness) int {
	for i := range a.of(h.Score).Ornaments {
		if fit(h, a, i).Ready <= most {
			return i
		}
	}
	return -1
}

// fit is how an ornament suits the hand; no time where the plan does not say.
func fit(h *Hand, a at, which int) plan.Fit {
	g := h.Plan.Gaps
	if a.gap < len(g) && a.site < len(g[a.gap].Fits) && which < len(g[a.gap].Fits[a.site]) {
		return g[a.gap].Fits[a.site][which]
	}
	return plan.Fit{Ready: plan.NoTime}
}

// figures finds the ornaments to draw at a spot: those that are prepared, and
// where few are offered those too, ready or not; where many are, a hint says
// that one fits the hand as it is.
func (l *line) figures(c int, all bool) {
	sp := &l.spots[c]
	for _, a := range sites(l.hand, sp.event) {
		site := a.of(l.hand.Score)
		which := prepared(site)
		if which < 0 && all {
			which = offered(l.hand, a, plan.PlacedAgain)
		}
		if which < 0 {
			sp.hint = sp.hint || offered(l.hand, a, plan.FingerFree) >= 0
			continue
		}
		suits := fit(l.hand, a, which)
		with := !site.After && site.Ornaments[which].Delay == 0
		f, touches := &figure{at: a, which: which, with: with, unready: suits.Ready == plan.PlacedAgain && len(suits.Touches) == 0, moves: suits.Moves}, suits.Touches
		for i, st := range site.Ornaments[which].Strokes {
			if i == figureMost {
				f.cut = true
				break
			}
			s := stroke{string: st.String, finger: -1, from: plan.Right}
			if i < len(touches) {
				s.finger, s.from = touches[i].Finger, touches[i].From
			}
			f.strokes = append(f.strokes, s)
		}
		f.stops = l.hand.Plan.Halts(l.hand.Score, l.hand.Hand.InUse, a.gap, a.site, which)
		if site.After {
			sp.after = f
		} else {
			sp.before = f
		}
	}
}

// main gives the string that an ornament at a spot adorns.
func (l *line) main(sp *spot) int8 {
	for _, f := range [...]*figure{sp.before, sp.after} {
		if f == nil {
			continue
		}
		site := f.of(l.hand.Score)
		for _, n := range l.hand.Score.Events[site.Event].Notes {
			if n.Written == site.Written {
				return n.String
			}
		}
	}
	return -1
}

// early counts the strokes that come before the hand is at the note's placing.
func (f *figure) early() int {
	n := 0
	for n < len(f.strokes) && f.strokes[n].from != plan.Right {
		n++
	}
	return n
}

// stillHere reports whether an ornament of a spot begins in the placing before.
func (sp *spot) stillHere() bool {
	return sp.before != nil && len(sp.before.strokes) > 0 && sp.before.strokes[0].from == plan.Left
}

// leave puts the first n strokes from x on, before the strip of a placing, and
// gives where they end.
func (f *figure) leave(x, n int) int {
	for i := range n {
		st := &f.strokes[i]
		if i == 0 {
			x += 6
		} else {
			x += apart(st.string == f.strokes[i-1].string, false)
		}
		st.x = x
	}
	if n > 0 {
		x += 12
	}
	return x
}

// lead is how far before its note an ornament begins, but for its first strokes.
func (f *figure) lead(main int8, from int) int { return f.set(0, main, from) }

// set puts the strokes of an ornament, but for the first, before the note at x.
func (f *figure) set(x int, main int8, from int) int {
	at, string := x, main
	for i := len(f.strokes) - 1; i >= from; i-- {
		st := &f.strokes[i]
		if f.with {
			st.x = x
			continue
		}
		at -= apart(st.string == string, i == len(f.strokes)-1)
		st.x, string = at, st.string
	}
	return x - at
}

// follow puts the strokes of an ornament after the note at x.
func (f *figure) follow(x int, main int8) int {
	at, string := x, main
	for i := range f.strokes {
		st := &f.strokes[i]
		at += apart(st.string == string, i == 0)
		st.x, string = at, st.string
	}
	if f.cut {
		at += 14
	}
	return at - x
}

// spread is how far after its note an ornament ends.
func (f *figure) spread(main int8) int { return f.follow(0, main) }

func apart(same, note bool) int {
	switch {
	case same && note:
		return clearSame
	case same:
		return stepSame
	case note:
		return clear
	}
	return step
}
