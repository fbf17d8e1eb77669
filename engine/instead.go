package engine

import (
	"slices"

	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// One ornament at most sounds on a note. What has no way while the hand is ready for
// those that stand on the note is judged in their place.

// cleared is a hand's part without the ornaments that stand on one written note, or
// without the house fingering of its chord.
type cleared struct {
	written int
	chord   bool
	score   score.Score
	plan    plan.Plan // with the fits of what is offered on the note; no gaps if there is no plan
	still   bool      // its written notes are played as in the plan shown
	names   []string  // of what stood on the note
	titles  []string
}

// clear gives it, worked out once for each note; nil where there is nothing to clear.
func (f *finder) clear(written int, chord bool) *cleared {
	if at := slices.IndexFunc(f.clears, func(c *cleared) bool { return c.written == written && c.chord == chord }); at >= 0 {
		return f.clears[at]
	}
	c := &cleared{written: written, chord: chord, score: f.score}
	c.score.Gaps = slices.Clone(f.score.Gaps)
	for j := range c.score.Gaps {
		c.takeOff(j)
	}
	housed := chord && c.anyFingers()
	if len(c.names) == 0 && !housed {
		return nil
	}
	best, _ := solve.Best(c.score, f.hand.Rules)
	if best.Cost < plan.None {
		c.plan = solve.Offered(c.score, f.hand.Rules, &best, func(gap int) bool {
			return slices.ContainsFunc(c.score.Gaps[gap].Sites, func(s score.Site) bool { return s.Written == written })
		})
		c.still = slices.EqualFunc(best.Events, f.hand.Plan.Events, func(a, b plan.Event) bool { return a.Stroke == b.Stroke && a.Placing == b.Placing })
	}
	f.clears = append(f.clears, c)
	return c
}

// takeOff takes them off the note in one gap.
func (c *cleared) takeOff(j int) {
	sites, some := slices.Clone(c.score.Gaps[j].Sites), false
	for k := range sites {
		site := &sites[k]
		if site.Written != c.written {
			continue
		}
		site.Ornaments = slices.Clone(site.Ornaments)
		for i := range site.Ornaments {
			o := &site.Ornaments[i]
			if o.Likelihood == score.Never {
				continue
			}
			if o.Likelihood, o.On, some = score.Never, false, true; !slices.Contains(c.names, o.Name) {
				c.names, c.titles = append(c.names, o.Name), append(c.titles, o.Title)
			}
		}
	}
	if some {
		c.score.Gaps[j] = score.Gap{Sites: sites}
		c.score.WeighGap(j)
	}
}

// anyFingers takes the house fingerings off the chords of the note, and reports whether
// there were any: switched on, an ornament goes before them.
func (c *cleared) anyFingers() (housed bool) {
	c.score.Events = slices.Clone(c.score.Events)
	for i := range c.score.Events {
		e := &c.score.Events[i]
		if len(e.House) > 0 && slices.ContainsFunc(e.Notes, func(n score.Note) bool { return n.Written == c.written }) {
			e.House, housed = nil, true
		}
	}
	return housed
}

// inPlace judges an ornament that has no way beside those of its note in their place,
// and if there is none, with any fingers for its chord. It is placed again where written
// notes are then played otherwise.
func (f *finder) inPlace(x *Found) {
	for _, chord := range [...]bool{false, true} {
		if c := f.clear(x.written, chord); c != nil && len(c.plan.Gaps) > 0 && x.Fit.Ready == plan.NoTime {
			f.judge(x, c)
		}
	}
}

func (f *finder) judge(x *Found, c *cleared) {
	fit := c.plan.Gaps[x.gap].Fits[x.site][x.which]
	if fit.Ready == plan.NoTime {
		return
	}
	if !c.still {
		fit.Ready, fit.Touches = plan.PlacedAgain, nil
	}
	x.Fit, x.Instead, x.clear = fit, c.names, c
}
