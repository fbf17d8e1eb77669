package engine_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// Tunes of our own without bars that come again, so that a way is taken once.
var several = []string{
	"X:1\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\n{e}dedc A2FA|GABd egfe|d2 [FA]2 c4|]\n",
	"X:1\nM:3/4\nL:1/4\nQ:1/4=96\nK:G\nG B d|g2 d|[GBd] z a|f d A|B3|]\n",
	"X:1\nM:6/8\nL:1/8\nQ:3/8=90\nK:D\nd2e fed|c2{d}B ABA|F2G AFD|E3 D3|]\n",
	"X:1\nM:4/4\nL:1/8\nQ:1/4=100\nK:C\nCEGc eGce|[CE]2 [DF]2 [EG]4|cccc !roll!d4|c'bag fedc|]\n",
}

// fingering writes a hand's plan as a player writes a fingering, with changes.
func fingering(h *engine.Hand, changed map[string]int, set map[int]bool) string {
	var words []string
	for i, e := range h.Score.Events {
		placed := h.Plan.Bounded(i)
		if to, ok := set[i]; ok {
			placed = to
		}
		if placed && i > 0 {
			words = append(words, "|")
		}
		var fingers []string
		for _, n := range e.Notes {
			f := h.Plan.Events[i].Finger(n.String) + 1
			if other, ok := changed[n.ID()]; ok {
				f = other
			}
			fingers = append(fingers, strconv.Itoa(f))
		}
		words = append(words, strings.Join(fingers, "+"))
	}
	return strings.Join(words, " ")
}

// The plan that is shown, written out as a fingering, costs nothing more; each
// other way, written out, costs what it is said to cost, and why is said.
func TestAFingeringCostsWhatItsWayCosts(t *testing.T) {
	checked := 0
	for _, abc := range several {
		a := engine.Read(abc).Answer()
		h := &a.Hands[0]
		require.Nil(t, a.Own(fingering(h, nil, nil)))
		assert.Equal(t, engine.Verdict{Playable: true, Says: a.Verdict.Says, Reasons: []string{}}, *a.Verdict)
		assert.Contains(t, a.Verdict.Says, "nothing takes less effort")
		for _, w := range h.Ways() {
			changed := map[string]int{}
			for _, f := range w.Fingers {
				changed[f.ID] = f.Finger
			}
			written, _, _ := strings.Cut(w.Now, ", with ") // an ornament's own fingers
			own := strings.Fields(written)
			if !slices.ContainsFunc(w.Fingers, func(f engine.Fingered) bool { return strings.Contains(f.ID, ".") }) {
				require.Nil(t, a.Own(fingering(h, changed, places(h, w, own))))
				require.True(t, a.Verdict.Playable, "%v", w)
				assert.Equal(t, w.Extra, a.Verdict.Extra, "%+v\n%v", w, a.Verdict)
				checked++
				if w.Extra >= engine.Charge {
					assert.NotEmpty(t, a.Verdict.Reasons, "%+v", w)
				}
			}
		}
	}
	assert.Greater(t, checked, 40)
}

// places reads from the fingers of a way where it sets the hand.
func places(h *engine.Hand, w engine.Way, words []string) map[int]bool {
	set := map[int]bool{}
	at := slices.IndexFunc(h.Score.Events, func(e engine.Event) bool { return e.Notes[0].ID() == w.From })
	was := strings.Fields(w.Was)
	same := words[0] != "|" && was[0] != "|" // then the first is set as it was
	for i := 0; i < len(words); i++ {
		placed := words[i] == "|"
		if placed {
			i++
		}
		if !same {
			set[at] = placed
		}
		same = false
		at++
	}
	return set
}

// What a way is said to buy is so.
func TestWhatAWayBuysIsTrue(t *testing.T) {
	said := map[string]int{}
	for _, abc := range several {
		a := engine.Read(abc).Answer()
		h := &a.Hands[0]
		shown := fingering(h, nil, nil)
		for _, w := range h.Ways() {
			changed := map[string]int{}
			for _, f := range w.Fingers {
				changed[f.ID] = f.Finger
			}
			if strings.Contains(fmt.Sprint(w.Fingers), ".") {
				continue
			}
			written, _, _ := strings.Cut(w.Now, ", with ")
			now := fingering(h, changed, places(h, w, strings.Fields(written)))
			for words, holds := range map[string]bool{
				"one placing fewer":  strings.Count(now, "|")+1 == strings.Count(shown, "|"),
				"no fourth finger":   !strings.Contains(w.Now, "4") && strings.Count(now, "4") < strings.Count(shown, "4"),
				"as good":            w.Extra == 0,
				"the thumb stays":    !strings.Contains(w.Now, "1") && strings.Contains(w.Was, "1"),
				"with more time":     strings.Contains(now, "|"),
				"placings for one":   true,
				"no placing for one": true,
			} {
				if strings.Contains(w.Buys, words) {
					said[words]++
					assert.True(t, holds, "%q of %+v", words, w)
				}
			}
			assert.NotContains(t, w.Line(), "For it: .", "where nothing speaks for it, nothing is said")
			assert.Equal(t, w.Buys == "" || strings.HasPrefix(w.Buys, "as good: take"), !strings.Contains(w.Line(), " For it: "), "%+v", w)
		}
	}
	t.Log(said)
	for _, words := range []string{"one placing fewer", "no fourth finger"} {
		assert.Positive(t, said[words], words)
	}
}

// A fingering that cannot be read says where, and what to write.
func TestAFingeringMisread(t *testing.T) {
	a := engine.Read("X:1\nL:1/4\nK:C\nC D [EG] F-F|]\n").Answer()
	for _, row := range []struct {
		text, says string
		at         int
	}{
		{"", "No finger is written here.", 0},
		{"3 2", "ends after 2 written notes and chords; the next is the chord on the E in bar 1", 3},
		{"3 2 2+1 1 1", "a finger too many", 10},
		{"3 5 2+1 1", `"5" is no finger for the D in bar 1`, 2},
		{"3 2 2+x 1", `"2+x" is no finger for the chord on the E`, 6},
		{"3 2 2 1", `"2" does not fit the chord on the E in bar 1, which has 2 to play`, 4},
		{"3 2+1 2+1 1", `"2+1" does not fit the D in bar 1`, 2},
		{"3 | | 2 2+1 1", "Two | follow", 4},
		{"3 2 2+1 1é", `"1é" is no finger`, 8},
		{"3 2 + 1", "is no finger", 4},
	} {
		wrong := a.Own(row.text)
		if assert.NotNil(t, wrong, row.text) {
			assert.Contains(t, wrong.Message, row.says, row.text)
			assert.Equal(t, row.at, wrong.At, row.text)
			assert.NotEmpty(t, wrong.Suggestion)
		}
		assert.Nil(t, a.Verdict)
	}
	for _, text := range []string{"3 2 2+1 1", " |3 2|2+1 ?", "? ? ? ?", "? ? ?+1 ?", "3 2\n2+1 1 |"} {
		assert.Nil(t, a.Own(text), text)
		assert.True(t, a.Verdict.Playable, text)
	}
}

// What cannot be played says where and why; what can, what costs more.
func TestVerdicts(t *testing.T) {
	const tune = "X:1\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\nCDEF GFED|C4 z4|c'4 C4|]\n"
	for _, row := range []struct{ text, says string }{
		{"4 3 2 1 | 1 2 3 4 | 4 | 1 4", "Bar 3: the hand does not open from 1 on the high C to 4 on the low C, unless the hand is set again before the low C."},
		{"4 3 2 1 | 1 2 3 | 3 4 | 1 | 4", ""},
		{"4 3 3 1 | 1 2 3 4 | 4 | 1 | 4", "Bar 1: 3 is on the first D and cannot take the first E too, unless the hand is set again before the first E."},
		{"1 2 3 4 | 1 2 3 4 | 4 | 1 | 4", "Bar 1: 2 on the first D would lie above 1 on the C, unless the hand is set again before the first D."},
	} {
		a := engine.Read(tune).Answer()
		require.Nil(t, a.Own(row.text), row.text)
		if row.says == "" {
			assert.True(t, a.Verdict.Playable, "%v", a.Verdict.Reasons)
			assert.Positive(t, a.Verdict.Extra)
			assert.Contains(t, strings.Join(a.Verdict.Reasons, " "), "more effort than")
			continue
		}
		assert.False(t, a.Verdict.Playable, row.text)
		assert.Equal(t, engine.Unplayable, a.Verdict.Extra)
		assert.Contains(t, a.Verdict.Reasons, row.says)
	}
}

// A button that takes a way takes what it says it takes, and is taken back in one
// go; in a tune with a repeat and bars that come again too.
func TestTakingAWay(t *testing.T) {
	taken := 0
	again := "X:1\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\n|:{e}dedc A2FA|GABd egfe:|d2 [FA]2 c4|GABd egfe|]\n"
	for _, abc := range append([]string{again}, several...) {
		page := engine.Open([]string{abc}, "", "")
		cost := page.Answer(0).Hands[0].Plan.Cost
		seen := map[string]bool{}
		for n := range 20 {
			asked, _ := page.Do("why@b1-" + strconv.Itoa(n+1))
			for _, way := range between(asked.Markup(0), "<li class=\"other", "</li>") {
				do := between(way, "data-do=\"", "\"")
				if len(do) == 0 || seen[do[0]] {
					continue
				}
				seen[do[0]] = true
				taken++
				now, c := asked.Do(do[0])
				extra := now.Answer(0).Hands[0].Plan.Cost - cost
				effort := strconv.FormatInt(int64((extra+engine.Charge/2)/engine.Charge), 10)
				says := "It takes " + effort + " more effort."
				if effort == "0" {
					says = "It is as good."
				}
				assert.Contains(t, way, says, do[0])
				if strings.Contains(do[0], ";") {
					assert.Equal(t, "b1-why.close", c.Focus, do[0])
					assert.Contains(t, c.Says, strings.Replace(says, "It is as good.", "It takes no more effort.", 1), do[0])
				}
				back, _ := now.Do("undo")
				assert.True(t, asked.Markup(0) == back.Markup(0), do[0])
			}
		}
	}
	assert.Greater(t, taken, 30)
}

// between gives what stands between each opening and the next close.
func between(text, open, close string) (list []string) {
	for _, piece := range strings.Split(text, open)[1:] {
		inside, _, _ := strings.Cut(piece, close)
		list = append(list, inside)
	}
	return list
}

// Several sentences are obeyed together or not at all.
func TestSeveralSentences(t *testing.T) {
	p := engine.Open([]string{several[0]}, "", "")
	for command, says := range map[string]string{
		"finger@b1-1 3;finger@b1-99 2": "no note 99",
		"finger@b1-1 3;finger@b2-1 2":  "no tune b2",
		"finger@b1-1 3;fingre@b1-2 2":  "finger",
		"finger@b1-1 3;;":              "Nothing was said",
	} {
		q, c := p.Do(command)
		assert.Contains(t, c.Says, says, command)
		assert.Empty(t, c.Address, command)
		assert.True(t, p.Markup(0) == q.Markup(0), command)
	}
	_, c := p.Do("finger@b1-1 3;set@b1-4")
	assert.Equal(t, "finger@b1-1+3;set@b1-4", c.Address)
}
