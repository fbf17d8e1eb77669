package explain

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/hand"
	"readyhand/engine/rule"
	"readyhand/engine/score"
	"readyhand/engine/solve"
)

// TestRoll: a rolled chord wider than the hand is told as it is played, the thumb
// coming last (wider than a tenth only rolled: Sibelius Academy after Chaloupka
// 1979).
func TestRoll(t *testing.T) {
	given, r, _ := passage(t)
	s := score.Score{Harp: given.Harp, Raised: given.Raised, Events: []score.Event{
		{Notes: []score.Note{{Written: 1, Pass: 1, String: str(t, given.Harp, "D4")}}, Length: 600, Bar: 1},
		{Rolled: true, Since: 600, Length: 600, Bar: 1},
	}, Gaps: make([]score.Gap, 3)}
	for i, name := range []string{"D3", "A3", "A4"} {
		s.Events[1].Notes = append(s.Events[1].Notes, score.Note{Written: 2 + i, Pass: 1, String: str(t, given.Harp, name)})
	}
	s.Weigh()
	p, s := solve.Plan(s, *r)
	last := len(p.Placings) - 1
	assert.True(t, p.InPart(&s, r, last))
	told := strings.Join(texts(Plan(&s, r, &p)), "\n")
	assert.Regexp(t, `(?m)^Bar 1: (lift after the (long )?D, then )?roll this chord: set 4 and [23] on D and low A; the thumb comes to high A while [23] plays\.$`, told)
}

// TestSameShape: a chord that moves as it is, is carried.
func TestSameShape(t *testing.T) {
	s, r, p := passage(t)
	s.Events[4].Notes = []score.Note{{Written: 5, Pass: 1, String: str(t, s.Harp, "F4")}, {Written: 8, Pass: 1, String: str(t, s.Harp, "A4")}}
	s.Events[5].Notes = []score.Note{{Written: 6, Pass: 1, String: str(t, s.Harp, "G4")}, {Written: 9, Pass: 1, String: str(t, s.Harp, "B4")}}
	s.Events[5].Forced = false
	f, a, g, b := str(t, s.Harp, "F4"), str(t, s.Harp, "A4"), str(t, s.Harp, "G4"), str(t, s.Harp, "B4")
	p.Events[4].Stroke, p.Events[5].Stroke = hand.Frame{-1, a, -1, f}, hand.Frame{-1, b, -1, g}
	p.Placings[1].Frame, p.Placings[1].Move = hand.Frame{-1, b, -1, g}, rule.Jump
	assert.Contains(t, texts(Plan(s, r, p)), "Bar 2: keep the shape of the hand and carry it up one string: 4 and 2 on G and B.")

	p.Placings[0].Kept, p.Placings[0].Frame = [4]bool{false, true, true, false}, hand.Frame{str(t, s.Harp, "E5"), b, b, a}
	assert.Contains(t, texts(Plan(s, r, p))[0], " 2 and 3 rest ready at B.")
}
