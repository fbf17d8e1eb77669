package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/ornament"
	"readyhand/engine/plan"
	"readyhand/engine/read"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
	"readyhand/engine/tune"
)

// exercise writes an exercise out, as notes and as a block of its own, solves that
// again, and reports whether it is played with the fingers of the tune. Such a
// block asks for every finger and placing; whether it has to is found by asking for
// none.
func (a *Answer) exercise(h *Hand, d *Drill) bool {
	d.Hand = h.Rules.Hand.Name
	t := a.excerpt(h, d)
	d.ABC = read.Write(t)
	x := exercised{abc: d.ABC, harp: a.Choice.OnlyHarp().String()}
	if h.others != nil {
		at := slices.IndexFunc(h.others.exercises, func(y exercised) bool { return y.abc == x.abc && y.harp == x.harp })
		if at < 0 {
			at = len(h.others.exercises)
			a.solve(h, d, t, &x)
			h.others.exercises = append(slices.Clip(h.others.exercises), x)
		}
		x = h.others.exercises[at]
	} else {
		a.solve(h, d, t, &x)
	}
	d.Columns, d.Care, d.Pinned = x.columns, x.care, x.pinned
	return x.ok
}

// exercised is what came of one exercise, which is the same whatever tune it is from.
type exercised struct {
	abc, harp  string
	ok, pinned bool
	columns    []Column
	care       string
}

// solve solves an exercise with its fingers and without.
func (a *Answer) solve(h *Hand, d *Drill, t tune.Tune, x *exercised) {
	asked, ok := a.again(h, d, x.abc)
	if x.ok = ok; !ok {
		return
	}
	x.columns, x.care = asked.columns(), asked.care()
	for i := range t.Voices[0].Events {
		for k := range t.Voices[0].Events[i].Notes {
			t.Voices[0].Events[i].Notes[k].Finger = 0
		}
	}
	t.Settings = slices.DeleteFunc(t.Settings, func(s tune.Setting) bool {
		return strings.HasPrefix(s.Text, "set@") || strings.HasPrefix(s.Text, "stay@") || strings.HasPrefix(s.Text, "house ")
	})
	_, free := a.again(h, d, read.Write(t))
	x.pinned = !free
}

// excerpt is the tune of an exercise: the notes of its events for the same
// lengths, each with the finger it has.
func (a *Answer) excerpt(h *Hand, d *Drill) tune.Tune {
	t := tune.Tune{Title: d.Title, Meter: tune.Meter{Text: "free"}, Key: a.Block.Hands.Key,
		Tempo: crotchets(a.quarter(&h.Score.Events[d.from[0]]))}
	say := func(words string) { t.Settings = append(t.Settings, tune.Setting{Text: words}) }
	say("hand " + d.Hand)
	v := tune.Voice{}
	number, now := 0, t.Tempo
	for e := d.from[0]; e <= d.from[1]; e++ {
		event := &h.Score.Events[e]
		if q := crotchets(a.quarter(event)); q != now {
			v.Marks = append(v.Marks, tune.Mark{Event: len(v.Events), Kind: tune.NewTempo, Tempo: q})
			now = q
		}
		x := tune.Event{Length: tune.NewFrac(event.Span[0], event.Span[1])}
		onset := tune.NewFrac(event.Onset[0], event.Onset[1])
		var silent tune.Frac
		if e < d.from[1] {
			next := h.Score.Events[e+1].Onset
			if to := tune.NewFrac(next[0], next[1]).Sub(onset); to.Less(x.Length) {
				x.Length = to // it rings on under the next one
			} else {
				silent = to.Sub(x.Length)
			}
		}
		for _, n := range event.Notes {
			number++
			x.Notes = append(x.Notes, tune.Note{Number: number, Pitch: h.Score.Harp.Strings[n.String].Sounding(n.Raised), Finger: int8(h.Plan.Events[e].Finger(n.String) + 1)})
		}
		if event.Rolled {
			x.Decorations = append(x.Decorations, tune.Decoration{Name: "arpeggio"})
		}
		a.adorn(h, d, e, &x, number, say)
		if e > d.from[0] {
			word := "stay@"
			if h.Plan.Bounded(e) {
				word = "set@"
			}
			say(word + strconv.Itoa(number))
		}
		v.Events = append(v.Events, x)
		if silent.N > 0 {
			v.Events = append(v.Events, tune.Event{Length: silent})
		}
	}
	v.Marks = append(v.Marks, tune.Mark{Event: len(v.Events), Kind: tune.Bar, Line: true, Double: true})
	t.Voices = []tune.Voice{v}
	return t
}

// crotchets is a tempo in crotchets a minute, to the nearest.
func crotchets(quarterMS int32) tune.Tempo {
	return tune.Tempo{QuarterMS: quarterMS, Beat: tune.Frac{N: 1, D: 4}, Beats: (2*60000 + int64(quarterMS)) / (2 * int64(quarterMS))}
}

// adorn puts the ornament of an exercise on its note, the top one of its event,
// with its fingers.
func (a *Answer) adorn(h *Hand, d *Drill, event int, x *tune.Event, top int, say func(string)) {
	if d.site.gap < 0 {
		return
	}
	site := h.Score.Gaps[d.site.gap].Sites[d.site.site]
	if site.Event != event {
		return
	}
	o := site.Ornaments[d.site.which]
	x.Decorations = append(x.Decorations, tune.Decoration{Name: o.Name})
	for _, s := range a.Block.Tune.Settings { // one of the tune's own is defined again
		for part := range strings.SplitSeq(s.Text, ";") {
			if name, ok := choice.Defines(part); ok && name == o.Name {
				say(strings.TrimSpace(part))
			}
		}
	}
	say(o.Name + "@" + strconv.Itoa(top) + " " + choice.LikelihoodWord(o.Likelihood))
	if row, ok := ornament.Named(o.Name); !ok || !row.Repeat {
		say("house " + o.Name + " " + h.asHouse(d.site))
	}
}

// again reads an exercise and solves it, and reports whether it is played as the
// tune has it: the same strings, fingers and placings, and the same fingers in its
// ornament.
func (a *Answer) again(h *Hand, d *Drill, text string) (*Hand, bool) {
	b := Read(text)
	x, _ := b.score(a.Choice.OnlyHarp().Over(b.Own), 0)
	x.Plan, x.Score = solve.Plan(x.given, x.Rules)
	if lost(&x.Plan) > 0 || len(x.Plan.Events) != d.from[1]-d.from[0]+1 {
		return nil, false
	}
	for i := range x.Plan.Events {
		e := d.from[0] + i
		if x.Plan.Events[i].Stroke != h.Plan.Events[e].Stroke || i > 0 && x.Plan.Bounded(i) != h.Plan.Bounded(e) {
			return nil, false
		}
	}
	return &x, d.site.gap < 0 || x.sameTouches(h, d.site)
}

// sameTouches reports whether the one ornament of an exercise has the fingers it
// has in the tune.
func (x *Hand) sameTouches(h *Hand, at drillSite) bool {
	name := h.Score.Gaps[at.gap].Sites[at.site].Ornaments[at.which].Name
	want := h.Plan.Gaps[at.gap].Fits[at.site][at.which].Touches
	for j, g := range x.Score.Gaps {
		for k, site := range g.Sites {
			for i, o := range site.Ornaments {
				if o.Name == name {
					return slices.EqualFunc(x.Plan.Gaps[j].Fits[k][i].Touches, want, func(a, b plan.Touch) bool { return a.Finger == b.Finger })
				}
			}
		}
	}
	return false
}

// columns writes an exercise note by note.
func (h *Hand) columns() (list []Column) {
	add := func(name, finger string) { list = append(list, Column{name, finger}) }
	for j := range h.Score.Events {
		anew := j > 0 && h.Plan.Bounded(j)
		if anew {
			h.sounding(j, true, false, add)
			add("|", "|")
			h.sounding(j, false, false, add)
		} else {
			h.sounding(j, true, false, add)
			h.sounding(j, false, false, add)
		}
		var names, fingers []string
		for _, n := range h.Score.Events[j].Notes {
			names = append(names, n.Name(h.Score))
			fingers = append(fingers, strconv.Itoa(h.Plan.Events[j].Finger(n.String)+1))
		}
		add(strings.Join(names, "+"), strings.Join(fingers, "+"))
	}
	h.sounding(len(h.Score.Events), true, false, add)
	return list
}

// care says where an exercise stretches, repeats quickly or trills, with its ornament or
// without; "" where it does nothing of the kind.
func (h *Hand) care() string {
	var wide, quick bool
	sounds := make([]int, len(h.Score.Gaps))
	for j, g := range h.Score.Gaps {
		sounds[j] = len(g.Patterns) - 1
	}
	for _, now := range [][]int{plan.Silent(&h.Score), sounds} {
		for _, item := range plan.Sum(&h.Score, &h.Rules, &h.Plan, now, true).Items {
			wide = wide || item.Rule == rule.StretchMost
			quick = quick || item.Rule == rule.Repeat || item.Rule == rule.RepeatAfter || item.Rule == rule.TooFast
		}
	}
	turns := slices.ContainsFunc(h.Score.Gaps, func(g score.Gap) bool {
		return slices.ContainsFunc(g.Sites, func(site score.Site) bool {
			return slices.ContainsFunc(site.Ornaments, func(o score.Ornament) bool {
				row, _ := ornament.Named(o.Name)
				return row.Repeat
			})
		})
	})
	var words []string
	if wide {
		words = append(words, "The hand opens wide here: open it slowly, and never force it.")
	}
	if quick {
		words = append(words, "One finger repeats quickly here: a few times only, with a loose hand, and rest between.")
	}
	if turns {
		words = append(words, "Two fingers take quick turns here: a few strokes at first, and rest after them; when the hand tires, make it shorter or change to other fingers.")
	}
	return strings.Join(words, " ")
}

// mostExercises is how many exercises of plans before this one are kept (guess).
const mostExercises = 64
