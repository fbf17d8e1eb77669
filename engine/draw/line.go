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
	old    bool // played before the hand is at the placing of the note after
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
)

// line lays out hand k's part of system i.
func (s *sheet) line(i, k int) *line {
	h := &s.view.Hands[k]
	l := &line{hand: h, hands: len(s.view.Hands), width: width}
	sys := s.systems[i]
	columns := s.columns[k][sys.from[k]:sys.to[k]]
	for c := range columns {
		l.spots = append(l.spots, spot{column: &columns[c], event: columns[c].played(), bar: -1})
		l.figures(c, s.sparse[k])
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

// offered gives the first ornament of a site that could be played, asking no
// more of the hand than this; -1 if none.
func offered(h *Hand, a at, most plan.Readiness) int {
	for i := range a.of(h.Score).Ornaments {
		if f := fit(h, a, i); f.Ready <= most && len(f.Touches) > 0 {
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
// where few are offered those too; where many are, a hint says that one fits
// the hand as it is.
func (l *line) figures(c int, all bool) {
	sp := &l.spots[c]
	for _, a := range sites(l.hand, sp.event) {
		site := a.of(l.hand.Score)
		which := prepared(site)
		if which < 0 && all {
			which = offered(l.hand, a, plan.FingerKept)
		}
		if which < 0 {
			sp.hint = sp.hint || offered(l.hand, a, plan.FingerFree) >= 0
			continue
		}
		f := &figure{at: a, which: which}
		touches := fit(l.hand, a, which).Touches
		for i, st := range site.Ornaments[which].Strokes {
			if i == figureMost {
				f.cut = true
				break
			}
			finger, old := int8(-1), false
			if i < len(touches) {
				finger, old = touches[i].Finger, touches[i].From != plan.Right
			}
			f.strokes = append(f.strokes, stroke{string: st.String, finger: finger, old: old})
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
		if l.changes(sp) {
			sp.body += 8
		}
		if sp.after != nil {
			sp.body = max(sp.body, sp.after.spread(l.main(sp))+20)
		}
	}
	total := l.run()
	if room := width - 4 - total; room > 0 && len(l.spots) > 0 {
		more := min(room/len(l.spots), 18)
		for c := range l.spots {
			l.spots[c].body += more
		}
		total = l.run()
	}
	l.end = total
	l.width = max(width, total+4)
}

// run sets out strips, ornaments and notes from left to right, and gives the
// end.
func (l *line) run() int {
	x, next := gutter+2, 0
	for c := range l.spots {
		sp := &l.spots[c]
		if sp.first && c > 0 {
			sp.bar = x
			x += barWide
		}
		main, early := l.main(sp), 0
		if next < len(l.bands) && l.bands[next].first == c {
			if sp.before != nil && !l.bands[next].carried {
				early = sp.before.early()
				x = sp.before.leave(x, early)
			}
			l.bands[next].strip = x
			x += stripWide
			next++
		}
		if sp.before != nil && early < len(sp.before.strokes) {
			x += sp.before.lead(main, early) - 2
		}
		sp.x = x + 13
		if sp.before != nil {
			sp.before.set(sp.x, main, early)
		}
		if sp.after != nil {
			sp.after.follow(sp.x, main)
		}
		x += sp.body
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

// early counts the strokes that come before the hand is at the note's placing.
func (f *figure) early() int {
	n := 0
	for n < len(f.strokes) && f.strokes[n].old {
		n++
	}
	return n
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

// named gives each ornament's name a row above the strings, where it has room:
// the lowest row is that of the bar numbers too.
func (l *line) named() {
	ends := [2]int{gutter + 16, gutter}
	for c := range l.spots {
		sp := &l.spots[c]
		if sp.bar >= 0 {
			ends[0] = max(ends[0], sp.bar+2+textWide(itoa(sp.column.event.Bar), nameSize)+4)
		}
		for _, f := range [...]*figure{sp.before, sp.after} {
			if f == nil || len(f.strokes) == 0 {
				continue
			}
			x := f.strokes[0].x - 8
			end := x + textWide(f.of(l.hand.Score).Ornaments[f.which].Title, nameSize)
			for r, free := range ends {
				if x >= free && end < l.width && (r > 0 || end < l.nextBar(c)) {
					f.label, ends[r] = r+1, end+6
					l.labels = max(l.labels, r+1)
					break
				}
			}
		}
	}
}

// nextBar gives where the next bar number after a spot stands.
func (l *line) nextBar(c int) int {
	for _, sp := range l.spots[c+1:] {
		if sp.bar >= 0 {
			return sp.bar
		}
	}
	return l.width
}

// textWide estimates the width of a text, at six tenths of its size a letter.
func textWide(s string, size int) int {
	n := 0
	for range s {
		n++
	}
	return (n*size*6 + 9) / 10
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
