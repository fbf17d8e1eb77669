package draw

// loose is how much wider than it need be a note may stand, so that a line
// fills its width.
const loose = 18

// place gives every spot of a system its x; the bars of both hands are equally
// wide.
func (s *sheet) place(lines []*line) {
	most := 1
	for _, l := range lines {
		most = max(most, len(l.spots))
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
			sp.body = max(sp.body, sp.room(l.main(sp)))
		}
	}
	more := min(max(0, (width-4-align(lines))/most), loose)
	for _, l := range lines {
		for c := range l.spots {
			l.spots[c].body += more
		}
	}
	align(lines)
}

// align sets out the lines of a system, makes each bar as wide as it is for the
// hand that needs most, and gives the end of the widest line.
func align(lines []*line) int {
	total := 0
	for _, l := range lines {
		l.end = l.run()
	}
	for _, l := range lines {
		for _, m := range l.measures() {
			wide := m.width
			for _, other := range lines {
				for _, n := range other.measures() {
					if n.bar == m.bar {
						wide = max(wide, n.width)
					}
				}
			}
			for c := m.from; c < m.to; c++ {
				l.spots[c].body += (wide-m.width)*(c-m.from+1)/(m.to-m.from) - (wide-m.width)*(c-m.from)/(m.to-m.from)
			}
		}
	}
	for _, l := range lines {
		l.end = l.run()
		total = max(total, l.end)
	}
	for _, l := range lines {
		l.width = max(width, total+4)
	}
	return total
}

// measure is a bar as it stands in a line: its spots and its width.
type measure struct{ bar, from, to, width int }

func (l *line) measures() []measure {
	var all []measure
	starts := gutter + 2
	for c := range l.spots {
		sp := &l.spots[c]
		if sp.bar >= 0 {
			all[len(all)-1].width = sp.bar - starts
			starts = sp.bar
		}
		if c == 0 || sp.bar >= 0 {
			all = append(all, measure{bar: sp.column.event.Bar, from: c})
		}
		all[len(all)-1].to = c + 1
	}
	if len(all) > 0 {
		all[len(all)-1].width = l.end - starts
	}
	return all
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
		sp.stop = sp.x + sp.lasts(main) + stopAfter
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
		if b+1 < len(l.bands) && l.spots[l.bands[b+1].first].stillHere() {
			l.bands[b].end = l.bands[b+1].strip - 2
		}
	}
	return x
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
			title := f.of(l.hand.Score).Ornaments[f.which].Title
			if !f.unready || !l.label(c, f, title+": "+f.asks(), &ends) {
				l.label(c, f, title, &ends)
			}
		}
	}
}

// label gives a figure's name its place in the first row that is free from
// there on, and reports whether there is one.
func (l *line) label(c int, f *figure, text string, ends *[2]int) bool {
	wide := textWide(text, nameSize)
	for r, free := range ends {
		x := f.strokes[0].x - 8
		if free > x && free <= x+labelShift {
			x = free
		}
		if end := x + wide; x >= free && end < l.width && (r > 0 || end < l.nextBar(c)) {
			f.text, f.label, f.labelX, ends[r] = text, r+1, x, end+6
			l.labels = max(l.labels, r+1)
			return true
		}
	}
	return false
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
