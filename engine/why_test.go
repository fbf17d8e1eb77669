package engine

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/explain"
	"readyhand/engine/plan"
	"readyhand/engine/rule"
	"readyhand/engine/solve"
	"readyhand/engine/source"
)

// told is a tune to be explained, with what is chosen for it.
type told struct {
	name, abc, house string
	ways             []string
}

// everyTune gives the tunes of all lessons and stories.
func everyTune(t *testing.T) (all []told) {
	t.Helper()
	house, err := os.ReadFile("../content/house.txt")
	require.NoError(t, err)
	lessons, _ := filepath.Glob("../content/*.md")
	for _, name := range lessons {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for i, piece := range strings.Split(string(text), "```abc\n")[1:] {
			abc, _, _ := strings.Cut(piece, "```")
			all = append(all, told{fmt.Sprintf("%s %d", filepath.Base(name), i+1), abc, string(house), nil})
		}
	}
	stories, _ := filepath.Glob("../testdata/stories/*.txt")
	for _, name := range stories {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		part := map[string]string{}
		for _, piece := range strings.Split("\n"+string(text), "\n--- ")[1:] {
			title, body, _ := strings.Cut(piece, "\n")
			part[title] = strings.Trim(body, "\n") + "\n"
		}
		ways := strings.FieldsFunc(part["ways"], func(c rune) bool { return c == '\n' })
		all = append(all, told{filepath.Base(name), part["tune"], part["house"], ways})
	}
	require.Greater(t, len(all), 30)
	return all
}

// invented gives random tunes: steps and leaps, chords, some of them rolled, rests,
// phrase ends, cuts, fingers asked for, parts played twice.
func invented(count int) (all []told) {
	draw := rand.New(rand.NewPCG(4, 1))
	pick := func(words ...string) string { return words[draw.IntN(len(words))] }
	scale := strings.Fields("G, A, B, C D E F G A B c d e f g a b c' d'")
	for i := range count {
		var b strings.Builder
		fmt.Fprintf(&b, "X:1\nT:%d\nM:%s\nL:1/8\nQ:1/4=%d\nK:%s\n", i+1, pick("4/4", "3/4", "6/8"), 50+draw.IntN(110), pick("C", "G", "D", "F"))
		if draw.IntN(4) == 0 {
			b.WriteString("%%ready style lifted\n")
		}
		twice := draw.IntN(3) == 0
		if twice {
			b.WriteString("|:")
		}
		at := 4 + draw.IntN(10)
		for bar := range 2 + draw.IntN(3) {
			for range 3 + draw.IntN(3) {
				switch draw.IntN(14) {
				case 0:
					b.WriteString("z2 ")
				case 1:
					b.WriteString("!breath!")
				case 2:
					b.WriteString("!" + pick("1", "2", "3", "4") + "!")
				case 3, 4:
					b.WriteString("{" + scale[min(at+1, len(scale)-1)] + "}")
				}
				if draw.IntN(8) == 0 {
					low := max(0, at-2-draw.IntN(4))
					b.WriteString(pick("", "", "!arpeggio!") + "[" + scale[max(0, low-draw.IntN(9))] + scale[low] + scale[at] + "]")
				} else {
					b.WriteString(scale[at])
				}
				b.WriteString(pick("", "", "2", "3") + " ")
				at = max(0, min(len(scale)-1, at+[...]int{-3, -2, -1, -1, -1, 0, 1, 1, 1, 2, 5}[draw.IntN(11)]))
			}
			if bar < 1 {
				b.WriteString("|")
			}
		}
		if twice {
			b.WriteString(":")
		}
		b.WriteString("|]\n")
		all = append(all, told{fmt.Sprintf("invented %d", i+1), b.String(), "", nil})
	}
	return all
}

func (x told) answer(t *testing.T) Answer {
	t.Helper()
	course, _ := NewCourse(x.house)
	return course.Read(x.abc).Answer(x.ways...)
}

// share counts claims and what comes of them.
type share struct{ few, many, alike, failed int }

// stands solves the whole score again, nothing costing anything but what a claim
// names, with the one wish and with the other: the one must still be the better.
func (s *share) stands(t *testing.T, h *Hand, than, p *plan.Plan, event, note int, placing bool, c explain.Claim, what string) {
	t.Helper()
	switch {
	case c.Alike: // then without that, the other is no dearer
		s.alike++
		taken, _ := solve.Loose(explain.Asking(&h.Score, than, than, event, note, placing), h.Rules)
		other, ok := solve.Loose(explain.Asking(&h.Score, than, p, event, note, placing), h.Rules)
		assert.True(t, ok && other.Cost <= taken.Cost, what)
		return
	case c.Many:
		s.many++
		return
	case len(c.Rules) == 0:
		return
	}
	s.few++
	r := h.Rules
	for id := range r.Charges {
		if !slices.Contains(c.Rules, rule.ID(id)) {
			r.Charges[id] = 0
		}
	}
	taken, ok := solve.Loose(explain.Asking(&h.Score, than, than, event, note, placing), r)
	require.True(t, ok, what)
	other, ok := solve.Loose(explain.Asking(&h.Score, than, p, event, note, placing), r)
	if ok && other.Cost <= taken.Cost {
		s.failed++
		t.Logf("%s:%s %d against %d", what, c.Text, taken.Cost, other.Cost)
	}
}

func (s *share) String() string {
	return fmt.Sprintf("%d named, %d many together, %d bars that are the same; of those named %d fail", s.few, s.many, s.alike, s.failed)
}

var everyNote = flag.Bool("every", false, "try what is said of every note of more tunes, not of every fifth: minutes")

// TestWhatIsNamedDecides: of notes of every tune of the lessons and stories, and of
// random ones, what is said of a finger, of a placing and of a finger that is
// asked for suffices: with all charges but those named at nothing, the whole tune
// solved again, the answer stands.
func TestWhatIsNamedDecides(t *testing.T) {
	tunes, step := append(everyTune(t), invented(150)...), 1
	if !*everyNote {
		tunes, step = append(everyTune(t), invented(40)...), 5
	}
	var fingers, placings, pins share
	for k, x := range tunes {
		a := x.answer(t)
		for i := range a.Hands {
			h := &a.Hands[i]
			seen := map[int]bool{}
			for event, e := range h.Score.Events {
				for note, n := range e.Notes {
					if seen[n.Written] || n.Pin == 0 && (n.Written+k)%step > 0 {
						continue
					}
					seen[n.Written] = true
					what := fmt.Sprintf("%s note %d", x.name, n.Written)
					best, ask := h.asked(event, note)
					r := explain.Finger(&h.Score, &h.Rules, &best, ask, event, note)
					for _, o := range r.Others {
						fingers.stands(t, h, &h.Plan, ask.Others[o.Finger-1], event, note, false, o.Claim, what+": "+o.Text)
					}
					if ask.Free != nil {
						pins.stands(t, h, ask.Free, &h.Plan, event, note, false, r.Claim, what+": "+r.Text)
					}
					if kept := h.kept(event, note); kept != nil {
						text, c := h.set(event, note)
						placings.stands(t, h, &h.Plan, kept, event, note, true, c, what+": "+text)
					}
				}
			}
		}
	}
	t.Log("fingers:", &fingers)
	t.Log("placings:", &placings)
	t.Log("pins:", &pins)
	for _, s := range []share{fingers, placings, pins} {
		assert.Zero(t, s.failed)
		assert.Greater(t, s.few, 5*(s.many+s.alike), "few rules decide, nearly always")
	}
}

// TestKeptIsAPlan: what is said of a hand that is kept where it is comes from a plan in
// which it is, also where the tune has lost an ornament; where there is none, the hand
// has to be set. What "stay" then answers tells of the hand, not of a finger.
func TestKeptIsAPlan(t *testing.T) {
	const bass = "X:1\nM:3/4\nL:1/4\nQ:1/4=120\nK:C clef=bass\n%%ready hand left\nC, [G,E] [G,E]|G,, [D,G,] [D,G,]|C, G, C|!octave-grace![C,C]3|]\n"
	a := Read(bass).Answer()
	h := &a.Hands[0]
	require.Equal(t, 1, lost(&h.Plan), "the octave grace")
	must, may := 0, 0
	for event, e := range h.Score.Events {
		if event == 0 || !h.Plan.Bounded(event) {
			continue
		}
		stay := Read(bass).Answer("stay@" + fmt.Sprint(e.Notes[0].Written))
		text, _ := h.set(event, 0)
		if kept := h.kept(event, 0); kept != nil {
			may++
			assert.False(t, kept.Bounded(event))
			assert.Equal(t, 1, lost(&stay.Hands[0].Plan))
			continue
		}
		must++
		assert.Contains(t, text, "The hand has to be set here")
		assert.Contains(t, stay.Text(), ": the hand cannot stay where it is for the ")
		assert.NotContains(t, stay.Text(), "finger asked for")
		assert.True(t, slices.ContainsFunc(stay.Remarks, func(r source.Remark) bool { return strings.Contains(r.Message, "does not stay") }))
	}
	assert.Positive(t, must)
}
