package draw

import (
	"slices"
	"strconv"
	"strings"
)

// This file draws a block again after a choice: a line of the picture is drawn only
// if what it shows may be otherwise than before, and what takes long may come later.

// Drawn is a block as it was drawn.
type Drawn struct {
	View  View
	Parts []Part
	sheet *sheet
}

// Redraw draws a block without its late parts, which are empty until Finish. What
// cannot have changed is taken from before, which may be nil.
func Redraw(v View, before *Drawn) Drawn {
	d := Drawn{View: v}
	still := before != nil && before.still(&v)
	if still {
		sheet := *before.sheet
		d.sheet = &sheet
		d.sheet.view = &d.View
	} else {
		d.sheet = newSheet(v)
	}
	d.add("head", head(v))
	d.add("remarks", remarks(v))
	d.add("tools", tools())
	d.music(before, still)
	all := entries(&v, true, nil)
	d.add("written", written(&v, all))
	d.add("sharing", "")
	d.add("switches", controls(&v, all))
	for i, g := range d.sheet.groups() {
		d.add("offer"+strconv.Itoa(i+1), g.offered(v))
	}
	if still && before.told(&v) {
		d.keep(before, 1)
	} else {
		d.add("words", words(v))
	}
	d.add("drills", "")
	d.add("calls", "")
	if still && before.View.QuarterMS == v.QuarterMS && slices.EqualFunc(before.View.House, v.House, House.same) {
		d.keep(before, 1)
	} else {
		d.add("settings", settings(v))
	}
	d.add("abc", abc(v))
	return d
}

func (d *Drawn) add(kind, html string) {
	d.Parts = append(d.Parts, Part{d.View.Name + "-" + kind, html})
}

// keep takes the next n parts from before.
func (d *Drawn) keep(before *Drawn, n int) {
	next := len(d.Parts)
	d.Parts = append(d.Parts, before.Parts[next:next+n]...)
}

// music draws the lines, each hand's picture and row.
func (d *Drawn) music(before *Drawn, still bool) {
	for i := range d.sheet.systems {
		if still && before.same(d, i) {
			d.keep(before, 2*len(d.View.Hands))
			continue
		}
		for k, l := range d.sheet.lines(i) {
			name := lineName(k, i)
			d.add("line"+name, picture(&d.View, l))
			d.add("text"+name, row(&d.View, d.sheet, l))
		}
	}
}

// late are the parts that may come later, and how they are drawn.
var late = [...]struct {
	kind string
	draw func(*View) string
}{
	{"-sharing", sharing},
	{"-drills", func(v *View) string { return drills(*v) }},
	{"-calls", func(v *View) string { return calls(*v) }},
}

// Late reports whether a part may come later.
func Late(p Part) bool {
	for _, l := range late {
		if strings.HasSuffix(p.ID, l.kind) {
			return true
		}
	}
	return false
}

// Finish draws the late parts from what the view has got of them since.
func (d *Drawn) Finish() {
	for k := range d.Parts {
		for _, l := range late {
			if strings.HasSuffix(d.Parts[k].ID, l.kind) {
				d.Parts[k].HTML = l.draw(&d.View)
			}
		}
	}
}

// still reports whether a view is of the same tune as before with the same fingers,
// so that only what sounds and what is asked about can be otherwise.
func (d *Drawn) still(v *View) bool {
	if len(v.Hands) == 0 || len(v.Hands) != len(d.View.Hands) || v.QuarterMS != d.View.QuarterMS {
		return false
	}
	for k := range v.Hands {
		if !d.plays(v, k, &v.Hands[k]) {
			return false
		}
	}
	return true
}

// plays reports whether hand k plays the same tune with the same fingers. A plan
// that is kept lies where it lay (solve.Again), so it is enough to compare that.
func (d *Drawn) plays(v *View, k int, h *Hand) bool {
	if k >= len(d.View.Hands) || d.View.Name != v.Name {
		return false
	}
	was := &d.View.Hands[k]
	return same(was.Plan.Events, h.Plan.Events) && same(d.View.Tune.Voices, v.Tune.Voices) &&
		was.Hand == h.Hand && was.Lifted == h.Lifted && was.Voice == h.Voice
}

// Serves reports whether what was told of the plan of hand k still holds.
func (d *Drawn) Serves(v *View, k int, h *Hand) bool {
	return d.plays(v, k, h) && same(d.View.Hands[k].Plan.Gaps, h.Plan.Gaps)
}

// told reports whether the words about the plans are as before.
func (d *Drawn) told(v *View) bool {
	for k := range v.Hands {
		if !same(d.View.Hands[k].Said, v.Hands[k].Said) {
			return false
		}
	}
	return d.View.Verdict == nil && v.Verdict == nil
}

func (h House) same(o House) bool {
	return h.Name == o.Name && h.Title == o.Title && h.Now == o.Now && slices.Equal(h.All, o.All)
}

// same reports whether two slices are one, and not empty.
func same[T any](a, b []T) bool { return len(a) > 0 && len(a) == len(b) && &a[0] == &b[0] }

// same reports whether system i looks as before, the fingers being the same: the
// same ornaments sound in it and are played alike, and the note that is asked about
// does not stand in it.
func (d *Drawn) same(now *Drawn, i int) bool {
	for _, w := range [...]*Why{d.View.Why, now.View.Why} {
		if w != nil && d.sheet.systemOf[w.Written] == i {
			return false
		}
	}
	sys := &d.sheet.systems[i]
	for k := range now.View.Hands {
		for _, c := range d.sheet.columns[k][sys.from[k]:sys.to[k]] {
			for _, e := range c.passes {
				if !alike(&d.View.Hands[k], &now.View.Hands[k], e) || !alike(&d.View.Hands[k], &now.View.Hands[k], e+1) {
					return false
				}
			}
		}
	}
	return true
}

// alike reports whether the same sounds in a gap, played alike.
func alike(was, is *Hand, gap int) bool {
	if was.Score.Now(gap) != is.Score.Now(gap) {
		return false
	}
	a, b := was.Plan.Gaps[gap].Fits, is.Plan.Gaps[gap].Fits
	return len(a) == 0 && len(b) == 0 || same(a, b)
}
