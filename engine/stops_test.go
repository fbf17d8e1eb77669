package engine_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
)

// stopped lists what is stopped after the ornaments of a hand that are prepared, "1 on
// E5", and what rings on for want of time, "E5 rings".
func stopped(h *engine.Hand) (list []string) {
	for j := range h.Score.Gaps {
		for k, site := range h.Score.Gaps[j].Sites {
			for i, o := range site.Ornaments {
				if o.Likelihood == 0 {
					continue
				}
				for _, s := range h.Plan.Stops(&h.Score, h.Rules.Hand.InUse, j, k, i) {
					if s.Rings != plan.Stopped {
						list = append(list, h.Score.Name(s.String)+" rings")
						continue
					}
					list = append(list, fmt.Sprintf("%d on %s", s.Finger+1, h.Score.Name(s.String)))
				}
			}
		}
	}
	return list
}

// tuned is one tune for the right hand, or the left.
func tuned(music string, said ...string) engine.Answer {
	return engine.Read("X:1\nM:4/4\nL:1/4\nQ:1/4=80\nK:C\n%%ready offer nothing\n" + music + "\n").Answer(said...)
}

// TestStops: which finger of an ornament comes down on which string, where its source
// says so, with the fingers of that source alone. (F1, F6, stops; F13, both schools;
// G1, G3, G5, stops)
func TestStops(t *testing.T) {
	for _, row := range []struct{ ornament, fingers, stops, source string }{
		{"cut", "1 2", "", "one of two schools of the old cut: the thumb is free"},
		{"cut", "2 3", "1 on D5", "the other: the thumb stops the string"},
		{"cut", "3 4", "", "not a cut's that others wrote down"},
		{"leagadh-anuas", "2 1", "1 on B4", "Bunting 1840 p. 24, as quoted by S. Chadwick: 1, having played the upper string, comes down on the lower"},
		{"tap", "2 1", "", "the stop belongs to the old grace"},
		{"tap", "3 2", "", "other fingers than leagadh anuas has"},
		{"barrluth-beal-an-airde", "3 2 4 2", "3 on B4", "Bunting 1840 p. 25: then 3 rests on the lower string; A. Lawrence-King reads it alike"},
		{"cul-aithris", "2 1 2 1", "", "Bunting 1840 p. 25 names none"},
		{"tribhuilleach", "3 2 4", "", "Bunting 1840 p. 25, as A. Lawrence-King reads it, names none"},
		{"bualadh-suas", "4 3 2", "", "Bunting 1840 p. 25 names none: to stop with 4 is awkward"},
		{"plethiad-y-bys-bach", "3 2 1", "4 on B4, 5 on A4", "W. Taylor, Welsh Music History 3, 1999: the two lower by 4 and the little finger, which is inferred to be the lowest"},
		{"takiad-fforchog", "2 4", "1 on E5", "W. Taylor, Welsh Music History 3, 1999: the string of 2 is stopped by 1"},
		{"haner-krafiad", "3 4", "4 on D5", "W. Taylor, Welsh Music History 3, 1999: 4 stops the string of 3"},
		{"haner-krafiad", "2 3", "", "not the fingers of that figure"},
	} {
		for _, side := range []string{"right", "left"} { // the fingers serve either hand
			a := tuned("c4", "hand "+side, "offer "+row.ornament+"@1", row.ornament+"@1 on", row.ornament+"@1 always", "house "+row.ornament+" "+row.fingers)
			require.Empty(t, a.Remarks, row.ornament)
			require.Empty(t, a.Hands[0].Plan.Dropped, row.ornament)
			assert.Equal(t, row.stops, strings.Join(stopped(&a.Hands[0]), ", "), "%s with %s: %s", row.ornament, row.fingers, row.source)
		}
	}
	// A finger that is not in use stops nothing, and the little finger goes with 4.
	assert.Empty(t, stopped(&tuned("{d}c4", "house cut 2 3", "fingers 234").Hands[0]))
	three := tuned("c4", "fingers 123", "offer plethiad-y-bys-bach@1", "plethiad-y-bys-bach@1 always", "house plethiad-y-bys-bach 3 2 1")
	assert.Empty(t, stopped(&three.Hands[0]))
	// A figure that is played from two placings is not the one that was written down.
	apart := tuned("g {d}c g2", "house cut 2 3", "set@2", "tempo 1/4=30")
	require.NotEmpty(t, stopped(&apart.Hands[0]))
	left := apart.Hands[0].Plan
	left.Gaps = slices.Clone(left.Gaps)
	left.Gaps[1].Fits = [][]plan.Fit{{{Touches: []plan.Touch{{Finger: 1, From: plan.Left}}}}}
	assert.Empty(t, left.Stops(&apart.Hands[0].Score, apart.Hands[0].Rules.Hand.InUse, 1, 0, 0))
}

// TestStopsInTime: a finger that stops a string has 400 ms until it or the string is
// wanted, as a finger that drops in has; else the string rings on. The cut takes 65 ms
// from its note.
func TestStopsInTime(t *testing.T) {
	for _, row := range []struct{ music, said, stops, why string }{
		{"e {e}d g2", "tempo 1/4=129", "1 on E5", "the thumb plays G 465 - 65 ms later"},
		{"e {e}d g2", "tempo 1/4=130", "E5 rings", "462 - 65"},
		{"e {e}d c g", "tempo 1/4=200", "1 on E5", "the thumb plays after one more note"},
		{"e {e}d e2", "tempo 1/4=130", "E5 rings", "the string comes again, with 2"},
		{"e {e}d e2", "tempo 1/4=120", "1 on E5", "the same with time"},
		{"e {e}d4", "tempo 1/4=200", "1 on E5", "nothing comes"},
		{"[ce] {d}c [ce]2", "tempo 1/4=60", "1 on D5", "a chord"},
	} {
		a := tuned(row.music, "house cut 2 3", row.said)
		h := &a.Hands[0]
		require.Empty(t, h.Plan.Dropped)
		assert.Equal(t, row.stops, strings.Join(stopped(h), ", "), "%s, %s: %s; %s", row.music, row.said, row.why, a.Text())
	}
	// A finger lies there until it plays, its string is played, the hand is placed again or
	// comes off, or an ornament that is prepared may need it.
	for music, until := range map[string]int{
		"e {e}d c g": 3, "e {e}d c e": 3, "e {e}d c z f": 3, "e {e}!breath!d c G": 2, "e {e}d4": 2, "e {e}d c {e}d": 3,
	} {
		h := &tuned(music, "house cut 2 3", "tempo 1/4=60").Hands[0]
		for j := range h.Score.Gaps {
			for k, site := range h.Score.Gaps[j].Sites {
				if site.Event == 1 {
					list := h.Stops(j, k, 0)
					require.Len(t, list, 1, music)
					assert.Equal(t, until, list[0].Until, "%s: %v", music, h.Plan.Events)
				}
			}
		}
	}
	// A note is to sound on, also where a figure that ends above would stop it.
	shake := tuned("%%ready ornament shake 0 +1 0 +1 after\n!shake!B4", "shake@1 always", "house shake 3 2 4 2")
	assert.Equal(t, []string{"B4 rings"}, stopped(&shake.Hands[0]), shake.Text())
	assert.Contains(t, shake.Text(), "Let B ring: it is the note itself.")
	// A finger that plays the string next is on it already, and needs no time for it.
	same := tuned("!leagadh-anuas!c G | B4", "house leagadh-anuas 2 1", "finger@3 1", "tempo 1/4=200")
	assert.Equal(t, []string{"1 on B4"}, stopped(&same.Hands[0]), same.Text())
	assert.Contains(t, same.Text(), "1 then comes down on B and stops it, in place for the next B.")
}

// From a stop on, all that may sound is gone through stroke by stroke, whatever of it
// sounds: in none of it is the finger on another string, or another finger on the
// string, within 400 ms, before the finger has played the string itself or the hand
// has left. That is the claim on which it rests that a stop costs nothing: a finger
// that drops in so late is charged for nothing either.
func TestStopsLeaveTime(t *testing.T) {
	met := map[string]int{}
	draw := rand.New(rand.NewPCG(13, 26))
	one := func(of ...string) string { return of[draw.IntN(len(of))] }
	for range 250 {
		var b strings.Builder
		for range 2 + draw.IntN(6) {
			b.WriteString(one("", "", "!leagadh-anuas!", "!cut!", "!cut!", "!haner-krafiad!", "!takiad-fforchog!", "!turn-after!", "!barrluth-beal-an-airde!") +
				one("c", "c", "d", "d", "e", "B", "G", "g", "[ce]") + one("", "", "/", "2") + " ")
		}
		a := tuned(b.String(), "house cut 2 3", "house leagadh-anuas 2 1", "house barrluth-beal-an-airde 3 2 4 2", fmt.Sprintf("tempo 1/4=%d", 40+draw.IntN(140)))
		h := &a.Hands[0]
		for j := range h.Score.Gaps {
			for k, site := range h.Score.Gaps[j].Sites {
				for i, o := range site.Ornaments {
					for _, s := range h.Plan.Stops(&h.Score, h.Rules.Hand.InUse, j, k, i) {
						met[fmt.Sprint("rings ", s.Rings)]++
						if s.Rings == plan.Stopped {
							w := walk{t, h, s, met}
							w.on(site.Event+1, -stopsAt(&site, &o), j, k, i)
						}
					}
				}
			}
		}
	}
	t.Log(met)
	for _, what := range []string{"rings 0", "rings 1", "rings 2", "its own string", "another placing", "later", "a grace"} {
		assert.Positive(t, met[what], "%s: never met, so never tested: %v", what, met)
	}
}

// stopsAt is how many milliseconds after the onset of its note an ornament has ended.
func stopsAt(site *score.Site, o *score.Ornament) int32 {
	if site.After {
		return o.Strokes[len(o.Strokes)-1].At
	}
	return o.Delay
}

// walk goes through what follows a stop.
type walk struct {
	t   *testing.T
	h   *engine.Hand
	s   plan.Stop
	met map[string]int
}

// on goes through gap g, and what follows it; since is the time from the stop to the
// onset of the event before. Gap, site and which are of the ornament itself.
func (w walk) on(g int, since int32, gap, site, which int) {
	if since >= 400 {
		w.met["later"]++
		return
	}
	p, s := &w.h.Plan, &w.h.Score
next:
	for k, way := range p.Gaps[g].Ways {
		pattern := &s.Gaps[g].Patterns[k]
		if g == gap && int(pattern.Sounds[site]) != which {
			continue
		}
		at := since
		for n, touch := range way {
			if at += pattern.Since[n]; at <= 0 && g == gap {
				continue // a stroke of its own
			}
			stroke := hand.Empty()
			stroke[touch.Finger] = pattern.Strings[n]
			w.met["a grace"]++
			var placed *plan.Placing
			if touch.From == plan.Right {
				placed = &p.Placings[p.Events[g].Placing]
			}
			if w.ends(stroke, touch.From != plan.Left, at, placed) {
				continue next
			}
		}
		if g == len(p.Events) {
			continue
		}
		var placed *plan.Placing
		if p.Bounded(g) {
			placed = &p.Placings[p.Events[g].Placing]
		}
		if !w.ends(p.Events[g].Stroke, placed != nil, since+s.Events[g].Since, placed) {
			w.on(g+1, since+s.Events[g].Since, -1, 0, 0)
		}
	}
}

// ends looks at one stroke, so many milliseconds after the stop; placed is the placing
// that the hand has come to for it, if it is a shared one.
func (w walk) ends(stroke hand.Frame, left bool, at int32, placed *plan.Placing) bool {
	own := stroke[w.s.Finger]
	if own == w.s.String {
		w.met["its own string"]++
		return true
	}
	if at < 400 {
		assert.NotContains(w.t, stroke, w.s.String, "the string comes again %d ms after it was stopped", at)
	}
	if placed != nil && own == hand.None && !placed.Free[w.s.Finger] {
		own = placed.Frame[w.s.Finger]
	}
	if at < 400 && own != w.s.String {
		assert.Equal(w.t, hand.None, own, "%d must be elsewhere %d ms after it has stopped %s", w.s.Finger+1, at, w.h.Score.Name(w.s.String))
	}
	if left {
		w.met["another placing"]++
	}
	return left || own == w.s.String
}
