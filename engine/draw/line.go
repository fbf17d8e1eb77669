package draw

import (
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/score"
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
}

// spot is a column in its place.
type spot struct {
	*column
	event  int // of the score; -1 if nothing of it is played
	x      int // of its beads
	bar    int // x of the bar line before it, -1 if none
	body   int
	tail   int
	before *figure
	after  *figure
	hint   bool // something may be added here that is not drawn
}

// figure is an ornament as drawn.
type figure struct {
	at
	which   int
	strokes []stroke
	cut     bool // more strokes follow than are drawn
	label   int  // row of its name, from 1; 0 for none
}

type stroke struct {
	string int8
	x      int
	finger int8 // 0 to 3, -1 if it cannot be played
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

// Space around the beads of ornaments.
const (
	figureMost = 5  // strokes drawn of one ornament
	clear      = 15 // from a note to a stroke on another string
	clearSame  = 19 // on the same string
	step       = 11 // between strokes on different strings
	stepSame   = 17
	offersMost = 3 // silent offers drawn in a line; where there are more they are hinted at
)

// line lays out hand k's part of system i.
func (s *sheet) line(i, k int) *line {
	h := &s.view.Hands[k]
	l := &line{hand: h, hands: len(s.view.Hands), width: width}
	sys := s.systems[i]
	columns := s.columns[k][sys.from[k]:sys.to[k]]
	offers := 0
	for c := range columns {
		l.spots = append(l.spots, spot{column: &columns[c], event: columns[c].played(), bar: -1})
		for _, a := range sites(h, columns[c].played()) {
			if prepared(a.of(h.Score)) < 0 && offered(h, a) >= 0 {
				offers++
			}
		}
	}
	for c := range l.spots {
		l.figures(s, c, offers <= offersMost)
	}
	l.banded(s.columns[k], sys.from[k])
	l.place(s)
	l.strings()
	l.named()
	return l
}

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

// offered gives the first ornament of a site that could be played; -1 if none.
func offered(h *Hand, a at) int {
	for i := range a.of(h.Score).Ornaments {
		if f := fit(h, a, i); f.Ready < plan.PlacedAgain && len(f.Touches) > 0 {
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

// figures finds the ornaments to draw at a spot.
func (l *line) figures(s *sheet, c int, all bool) {
	sp := &l.spots[c]
	for _, a := range sites(l.hand, sp.event) {
		site := a.of(l.hand.Score)
		which := prepared(site)
		if which < 0 {
			which = offered(l.hand, a)
			if which >= 0 && !all {
				sp.hint, which = true, -1
			}
		}
		if which < 0 {
			continue
		}
		f := &figure{at: a, which: which}
		touches := fit(l.hand, a, which).Touches
		for i, st := range site.Ornaments[which].Strokes {
			if i == figureMost {
				f.cut = true
				break
			}
			finger := int8(-1)
			if i < len(touches) {
				finger = touches[i].Finger
			}
			f.strokes = append(f.strokes, stroke{string: st.String, finger: finger})
		}
		if site.After {
			sp.after = f
		} else {
			sp.before = f
		}
	}
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

// place gives every spot its x.
func (l *line) place(s *sheet) {
	for c := range l.spots {
		sp := &l.spots[c]
		sp.tail = s.tail(sp.length)
		sp.body = s.body(sp.column)
		if n := len(sp.passes); n > 1 && l.otherwise(sp) != "" {
			sp.body += 8
		}
		if sp.after != nil {
			sp.body = max(sp.body, sp.after.spread(l.main(sp))+20)
		}
	}
	total := l.run(0)
	if room := width - 4 - total; room > 0 && len(l.spots) > 0 {
		more := min(room/len(l.spots), 12)
		for c := range l.spots {
			l.spots[c].body += more
		}
		total = l.run(0)
	}
	l.end = total
	l.width = max(width, total+4)
}

// run sets out strips, ornaments and notes from left to right, and gives the
// end.
func (l *line) run(int) int {
	x, next := gutter, 0
	for c := range l.spots {
		sp := &l.spots[c]
		if sp.first && c > 0 {
			sp.bar = x
			x += barWide
		} else if c == 0 {
			x += 2
		}
		if next < len(l.bands) && l.bands[next].first == c {
			l.bands[next].strip = x
			x += stripWide
			next++
		}
		if sp.before != nil {
			x += sp.before.lead(l.main(sp)) - 2
		}
		sp.x = x + 13
		if sp.before != nil {
			sp.before.set(sp.x, l.main(sp))
		}
		if sp.after != nil {
			sp.after.follow(sp.x, l.main(sp))
		}
		x += sp.body
		if next > 0 {
			l.bands[next-1].end = min(x-2, max(l.bands[next-1].end, 0)+x)
			if l.bands[next-1].last >= c {
				l.bands[next-1].end = x - 3
			}
		}
	}
	for b := range l.bands {
		last := &l.spots[l.bands[b].last]
		l.bands[b].end = last.x - 13 + last.body - 3
	}
	return x
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

// lead is how far before its note an ornament begins.
func (f *figure) lead(main int8) int { return f.set(0, main) }

// set puts the strokes of an ornament before the note at x.
func (f *figure) set(x int, main int8) int {
	at, string := x, main
	for i := len(f.strokes) - 1; i >= 0; i-- {
		st := &f.strokes[i]
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

// strings finds which strings a line shows: those that are played or held in
// it, and one beyond; five at least.
func (l *line) strings() {
	top := int8(len(l.hand.Score.Harp.Strings) - 1)
	low, high := top, int8(0)
	take := func(t int8) {
		if t >= 0 {
			low, high = min(low, t), max(high, t)
		}
	}
	for c := range l.spots {
		sp := &l.spots[c]
		for _, n := range sp.column.event.Notes {
			take(int8(l.hand.Score.Harp.At(n.Pitch.Step())))
		}
		for _, f := range [...]*figure{sp.before, sp.after} {
			if f != nil {
				for _, st := range f.strokes {
					take(st.string)
				}
			}
		}
	}
	for _, b := range l.bands {
		for _, t := range l.set(b.placing) {
			take(t)
		}
	}
	if low > high {
		low, high = top/2, top/2
	}
	low, high = max(0, low-1), min(top, high+1)
	for high-low < 4 && (low > 0 || high < top) {
		low, high = max(0, low-1), min(top, high+1)
	}
	l.low, l.high = low, high
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

// named gives each ornament's name a row above the strings, where it has room.
func (l *line) named() {
	ends := [2]int{gutter, gutter}
	for c := range l.spots {
		for _, f := range [...]*figure{l.spots[c].before, l.spots[c].after} {
			if f == nil || len(f.strokes) == 0 {
				continue
			}
			x := f.strokes[0].x - 8
			w := textWide(f.of(l.hand.Score).Ornaments[f.which].Title, nameSize)
			for r := range ends {
				if x >= ends[r] && x+w < l.width {
					f.label, ends[r] = r+1, x+w+6
					l.labels = max(l.labels, r+1)
					break
				}
			}
		}
	}
}

// textWide estimates the width of a text, at six tenths of its size a letter.
func textWide(s string, size int) int {
	n := 0
	for range s {
		n++
	}
	return (n*size*6 + 9) / 10
}

// otherwise gives the fingers of the passes that take a spot's first note
// otherwise than the first; "" if all agree.
func (l *line) otherwise(sp *spot) string {
	if sp.event < 0 || len(l.hand.Plan.Events) <= sp.event {
		return ""
	}
	first := l.hand.Plan.Events[sp.event].Stroke
	for _, e := range sp.passes[1:] {
		for f, t := range l.hand.Plan.Events[e].Stroke {
			if t != hand.None && first[f] != t {
				return itoa(f + 1)
			}
		}
	}
	return ""
}

// comes names the way to a placing in a word or two: "set", "4 under".
func (l *line) comes(b band) string {
	pl := l.hand.Plan.Placings[b.placing]
	if b.carried {
		return "stay"
	}
	switch pl.Move {
	case rule.Connect, rule.Jump:
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
