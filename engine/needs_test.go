package engine

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/explain"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// needing is one ornament with what is said to be needed for it.
type needing struct {
	h     *Hand
	s     score.Score // in whose gap it alone may sound
	gap   int
	fit   plan.Fit
	needs []explain.Need
}

// frames are what the hand holds on either side of the gap: the notes struck there,
// for an ornament that has a finger waiting all written notes of the placing, and
// of what is said to be needed all but one (-1: all of it).
func (n *needing) frames(without int) (left, right hand.Frame, free [4]bool) {
	left, right = hand.Empty(), hand.Empty()
	side := func(event int, frame *hand.Frame) {
		if event < 0 || event >= len(n.h.Plan.Events) {
			return
		}
		*frame = n.h.Plan.Events[event].Stroke
		pl := &n.h.Plan.Placings[n.h.Plan.Events[event].Placing]
		for f, t := range pl.Frame {
			if n.fit.Ready == plan.FingerKept && !pl.Kept[f] && !pl.Free[f] {
				frame[f] = t
			}
		}
	}
	side(n.gap-1, &left)
	side(n.gap, &right)
	one := n.gap > 0 && n.gap < len(n.h.Plan.Events) && !n.h.Plan.Bounded(n.gap)
	for f, t := range right {
		if one && left[f] == hand.None {
			left[f] = t
		}
	}
	for i, need := range n.needs {
		for _, touch := range n.fit.Touches {
			frame := &left
			if touch.From == plan.Right {
				frame = &right
			}
			if int(touch.Finger) != need.Finger {
				continue
			}
			if frame[need.Finger] = need.String; i == without {
				frame[need.Finger] = hand.None
			}
		}
		for _, event := range [...]int{n.gap - 1, n.gap} {
			if event >= 0 && event < len(n.h.Plan.Events) {
				pl := &n.h.Plan.Placings[n.h.Plan.Events[event].Placing]
				free[need.Finger] = free[need.Finger] || pl.Free[need.Finger] && pl.Frame[need.Finger] == need.String
			}
		}
	}
	if one {
		right = left
	}
	return left, right, free
}

// played reports whether the ornament can be played, in its own way or in any, with
// these fingers set.
func (n *needing) played(left, right hand.Frame, free [4]bool, way []plan.Touch) bool {
	p := n.h.Plan
	p.Placings, p.Gaps = append([]plan.Placing(nil), p.Placings...), append([]plan.Gap(nil), p.Gaps...)
	set := func(event int, frame hand.Frame) {
		if event >= 0 && event < len(p.Events) {
			pl := &p.Placings[p.Events[event].Placing]
			pl.Frame, pl.Free, pl.Kept = frame, free, [4]bool{}
		}
	}
	set(n.gap-1, left)
	set(n.gap, right)
	pattern := &n.s.Gaps[n.gap].Patterns[1]
	try := func(way []plan.Touch) bool {
		p.Gaps[n.gap].Ways = [][]plan.Touch{nil, way}
		b := plan.Between(&n.s, &n.h.Rules, &p, n.gap, 1, false)
		return !b.Barred
	}
	if way != nil {
		return try(way)
	}
	strokes := make([]plan.Touch, len(pattern.Strings))
	var from func(i int, least plan.From) bool
	from = func(i int, least plan.From) bool {
		if i == len(strokes) {
			return try(strokes)
		}
		for _, at := range []plan.From{plan.Left, plan.Right} {
			frame := left
			if at == plan.Right {
				frame = right
			}
			for f, t := range frame {
				if at >= least && t == pattern.Strings[i] {
					strokes[i] = plan.Touch{Finger: int8(f), From: at}
					if from(i+1, at) {
						return true
					}
				}
			}
		}
		return false
	}
	return from(0, plan.Left)
}

// TestWhatAnOrnamentNeeds: with the fingers that are named for it set, and besides
// them only those of the notes (where one waits, of all written notes of its
// placing), an ornament can be played as it is said to be; without any one of them
// it cannot, in no way, unless the hand is set for it, but for one in two hundred.
func TestWhatAnOrnamentNeeds(t *testing.T) {
	tunes := append(everyTune(t), invented(400)...)
	enough, needed, spare, met := 0, 0, 0, map[plan.Readiness]int{}
	for _, x := range tunes {
		a := x.answer(t)
		for i := range a.Hands {
			h := &a.Hands[i]
			for j := range h.Score.Gaps {
				for k, site := range h.Score.Gaps[j].Sites {
					for w, o := range site.Ornaments {
						fit := h.Plan.Gaps[j].Fits[k][w]
						if fit.Ready > plan.FingerKept || fit.Unusual || len(o.Strokes) > 6 || len(h.Score.Gaps[j].Sites) > 1 {
							continue
						}
						n := needing{h: h, s: h.Score, gap: j, fit: fit, needs: explain.Needs(&h.Score, &h.Plan, j, k, w)}
						n.s.Gaps = append([]score.Gap(nil), n.s.Gaps...)
						sounds := [2]int8{-1, -1}
						silent := n.s.Sounding(j, sounds)
						sounds[k] = int8(w)
						n.s.Gaps[j].Patterns = []score.Pattern{silent, n.s.Sounding(j, sounds)}
						what := fmt.Sprintf("%s %s %s %v", x.name, site.ID(w), fit.Ready, n.needs)
						left, right, free := n.frames(-1)
						met[fit.Ready]++
						enough++
						assert.True(t, n.played(left, right, free, fit.Touches), "%s: is not enough", what)
						for without := range n.needs {
							needed++
							left, right, free := n.frames(without)
							if n.played(left, right, free, nil) {
								spare++
								t.Log(what, "does without", n.needs[without])
							}
						}
					}
				}
			}
		}
	}
	t.Log(met, enough, "ornaments;", needed, "fingers named,", spare, "of them could be spared")
	for _, r := range []plan.Readiness{plan.InHand, plan.FingerFree, plan.FingerKept} {
		assert.Greater(t, met[r], 10, r.String())
	}
	assert.LessOrEqual(t, 200*spare, needed, "an ornament that comes to a string again and again may do with a finger less, in haste")
}
