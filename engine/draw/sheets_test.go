package draw_test

import (
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"

	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/read"
	"readyhand/engine/rule"
	"readyhand/engine/solve"
	"readyhand/engine/source"
	"readyhand/engine/tune"
	"readyhand/engine/vary"
)

// sheets are tunes of our own that together hold all that a picture can: rests,
// ties over a bar line, chords, repeats with endings, every ornament of the
// catalogue, long bars, wide leaps, raised levers, and a title that is markup.
var sheets = map[string]string{
	"falling": "X:1\nT:A falling figure\nM:4/4\nL:1/8\nQ:1/4=100\nK:C\n%%ready offer upper-mordent@3\n{e}dedc A4|]\n",
	"jig": "X:1\nT:Three Boats at Low Water\nM:6/8\nL:1/8\nR:jig\nK:G\n%%ready offer cut tap upper-mordent\n" +
		"|:D|G2B d2B|~c3 BAG|A2{B}A AGA|B2G E2D|\nG2B d2g|fed {d}c2A|BcB A2F|1 G3 G2:|2 G3 G2||\n" +
		"|:d|g2f gfe|d2{e}d dBG|[Gc]2e ecA|PB3 !mordent!G2D|\nG>AB c2d|Te3 z de|d2B AGF|G3- G2:|\n",
	"long": "X:1\nT:Long Way <Round> & \"Home\"\nM:4/4\nL:1/16\nQ:1/4=60\nK:Eb\n" +
		"EFGA B2c2 d2e2 TB4|!turn!G8 ~F8|!trill!E16|B,2z2 e4- e4 {fg}f4|[EGBe]4 z4 !uppermordent![CEG]8|e2d2c2B2 {c}A2G2F2E2||\n" +
		"EFGABcdefedcBAGF|{a}gfga{g}fefg{f}edef{e}dcde|C,4c'4C,4c'4|\n",
	"quickened": "X:1\nT:Slow and quick\nM:6/8\nL:1/8\nQ:3/8=40\nK:D\n%%ready offer cut\n|:d2e f2a|{e}d3 d3:|[Q:3/8=80]fed cBA|[M:4/4][Q:1/4=132]fedc [Q:1/4=60]d2 [Q:1/4=90]c2|[Q:1/4=60]a8|]\n",
	"every ornament": "X:1\nT:All at once\nM:4/4\nL:1/4\nQ:1/4=70\nK:D\n%%ready offer cut tap upper-mordent lower-mordent turn turn-after short-roll trill three-strokes\n" +
		"D E F G|A B c d|e4|d2 A2|F D D2|]\n",
	"stops": "X:1\nT:Shut the Lid\nM:4/4\nL:1/4\nQ:1/4=70\nK:C\n%%ready house cut 2 3\n%%ready house barrluth-beal-an-airde 3 2 4 2\n%%ready house plethiad-y-bys-bach 3 2 1\n" +
		"g e {e}d g|e {d}c !turn-after!{e}d2|!plethiad-y-bys-bach!c A !tap!e2|!haner-krafiad!d2 c !barrluth-beal-an-airde!e|]\n",
	"strange": "X:1\nT:\nM:none\nL:1/8\nK:Gb\n_C4 =B,2 ^^F2 z8|c''''8|]\n",
	"empty":   "X:1\nT:Nothing yet\nK:C\n",
}

// view works a tune out as the engine does. A second text is the left hand.
func view(texts []string, sentences ...string) draw.View {
	var c choice.Choice
	for _, s := range sentences {
		changed, fault := choice.Do(c, s)
		if fault != nil {
			panic(s + ": " + fault.Message)
		}
		c = changed
	}
	why := 0
	c = c.InBlock("b1")
	v := draw.View{Name: "b1"}
	for i, text := range texts {
		src := source.NewText(text)
		tn, remarks := read.Tune(src)
		own, _ := vary.Settings(tn)
		if i == 0 {
			v.Tune, v.Text, v.Remarks = tn, src, remarks
			c = c.Over(own)
		} else {
			renumber(tn.Voices, 1000)
			v.Tune.Voices = append(v.Tune.Voices[:1:1], tn.Voices...)
		}
		why, _ = c.Why()
	}
	for i := range v.Tune.Voices {
		hd := c.Hand([]string{"right", "left"}[i])
		s, _ := vary.Score(v.Tune, i, c, c.Harp(), hd)
		r := rule.Rules{Charges: rule.Usual(), Harp: c.Harp(), Hand: hd}
		p, s := solve.Plan(s, r)
		h := draw.Hand{Hand: hd, Voice: i, Score: &s, Plan: &p}
		for _, x := range explain.Plan(&s, &r, &p) {
			h.Said = append(h.Said, draw.Sentence{Kind: int8(x.Kind), Bar: x.Bar, Event: x.Event, ID: x.ID, Text: x.Text})
		}
		for _, o := range explain.Each(&s, &r, &p) {
			h.Ornaments = append(h.Ornaments, draw.Ornament(o))
		}
		for e := range s.Events {
			for n := range s.Events[e].Notes {
				if s.Events[e].Notes[n].Written == why && v.Why == nil {
					x := explain.Finger(&s, &r, &p, explain.Asked{}, e, n)
					v.Why = &draw.Why{Written: why, Hand: i, Event: e, Note: n, Title: x.Title, Text: x.Text}
					for _, o := range x.Others {
						v.Why.Others = append(v.Why.Others, draw.Other{Finger: o.Finger, Near: o.Near, Effort: o.Effort, Text: o.Text})
					}
				}
			}
		}
		v.Hands = append(v.Hands, h)
	}
	return v
}

func renumber(voices []tune.Voice, by int) {
	for _, v := range voices {
		for _, e := range v.Events {
			for n := range e.Notes {
				e.Notes[n].Number += by
			}
		}
	}
}

// markup draws the whole inside of a block.
func markup(v draw.View) string { return draw.Skeleton(draw.Block(v)) }

// drawn is a block's markup under a name.
type drawn struct{ name, html string }

// all draws every sheet as it stands and after some choices, and one for both
// hands, once.
var all = sync.OnceValue(func() (list []drawn) {
	for _, name := range slices.Sorted(maps.Keys(sheets)) {
		for _, said := range [][]string{nil, {"tuning C", "why@b1-3"}, {"fingers 123", "finger@2 2"}, {"strings 22", "lowest C4", "cut@1 on", "set@3"}, {"reach 0.7", "spacing 16"}} {
			list = append(list, drawn{name + " " + strings.Join(said, " "), markup(view([]string{sheets[name]}, said...))})
		}
	}
	both := []string{sheets["jig"], "X:2\nM:6/8\nL:1/8\nK:G\n|:z|[G,DG]3 [G,DB]3|A,EA z3|[D,A,]6|G,6|\n"}
	return append(list, drawn{"both hands", markup(view(both))})
})

func each(t *testing.T, check func(t *testing.T, html string)) {
	for _, d := range all() {
		t.Run(d.name, func(t *testing.T) { check(t, d.html) })
	}
}
