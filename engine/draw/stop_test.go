package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const lid = "X:1\nM:4/4\nL:1/4\nQ:1/4=90\nK:C\n%%ready offer nothing\n%%ready house cut 2 3\ng e {e}d g|e d c2|]\n"

// halts gives the x of each finger that stops a string, the y of its bar's middle, and
// what is said of it.
func halts(t *testing.T, html string) (at [][2]int, says []string) {
	parse(t, html).walk(func(n *node) {
		if n.attr("class") != "stop" {
			return
		}
		says = append(says, n.attr("aria-label"))
		for i := range n.Children {
			if c := &n.Children[i]; c.attr("class") == "ends" {
				at = append(at, [2]int{atoi(t, c.attr("x1")), (atoi(t, c.attr("y1")) + atoi(t, c.attr("y2"))) / 2})
			}
		}
	})
	return at, says
}

// TestStopped: after the note of a cut the thumb lies on the string of the cut, with a
// bar beside it; left out, the mark is an open one where it was.
func TestStopped(t *testing.T) {
	on := part(t, view([]string{lid}), "b1-line1")
	at, says := halts(t, on)
	require.Len(t, at, 1)
	assert.Equal(t, []string{"1 then stops E5"}, says)
	assert.Equal(t, []string{"1"}, classes(t, on, "stopno"))
	cut, note := 0, 0
	parse(t, on).walk(func(n *node) {
		switch {
		case n.attr("class") == "gem":
			p := points(t, n.attr("d"))[0]
			cut = p[0]
			assert.Equal(t, p[1]+8, at[0][1], "on the string of the cut")
		case n.attr("id") == "b1-3":
			note = atoi(t, n.Children[1].attr("cx"))
		case n.attr("id") == "b1-4":
			assert.Less(t, at[0][0]+2, atoi(t, n.Children[1].attr("cx"))-9, "before the next note")
		}
	})
	assert.True(t, cut < note && note+8 < at[0][0], "after the note")

	off := part(t, view([]string{lid}, "cut@3 off"), "b1-line1")
	moved, says := halts(t, off)
	assert.Equal(t, at, moved)
	assert.Equal(t, []string{"1 would then stop E5"}, says)
	assert.Less(t, strings.Index(off, `class="ornament off"`), strings.Index(off, `class="stop"`))

	quick := part(t, view([]string{strings.Replace(lid, "=90", "=180", 1)}), "b1-line1")
	_, says = halts(t, quick)
	assert.Empty(t, says, "the thumb is wanted at once: the string rings")
	house := part(t, view([]string{strings.Replace(lid, "cut 2 3", "cut 1 2", 1)}), "b1-line1")
	_, says = halts(t, house)
	assert.Empty(t, says, "the other school: the thumb is free")
}

// TestHandThatStops: asked at the note of the cut, the thumb lies on the cut's string
// and not on its own; at the next, which it plays, it is back; and where the cut is
// left out it never left.
func TestHandThatStops(t *testing.T) {
	for _, row := range []struct {
		why, said, hand string
		stops           []string
	}{
		{"why@b1-2", "", "The hand: 1 on G5, 2 on E5, 3 on D5, 4 on C5", nil},
		{"why@b1-3", "", "The hand: 2 on E5, 3 on D5, 4 on C5; 1 stops E5", []string{"1"}},
		{"why@b1-4", "", "The hand: 1 on G5, 2 on E5, 3 on D5, 4 on C5", nil},
		{"why@b1-3", "cut@3 off", "The hand: 1 on G5, 2 on E5, 3 on D5, 4 on C5", nil},
	} {
		said := []string{row.why}
		if row.said != "" {
			said = append(said, row.said)
		}
		html := part(t, view([]string{lid}, said...), "b1-text1")
		parse(t, html).walk(func(n *node) {
			if n.attr("class") == "hand" {
				assert.Equal(t, row.hand, n.attr("aria-label"), "%v", said)
			}
		})
		assert.Contains(t, html, `class="hand"`)
		assert.Equal(t, row.stops, classes(t, html, "stopno"), "%v", said)
	}
}

// TestSaysForThePupil: where ornaments are listed each kind has its sentence once, the
// first time.
func TestSaysForThePupil(t *testing.T) {
	v := view([]string{"X:1\nM:4/4\nL:1/4\nQ:1/4=90\nK:C\n%%ready offer cut tap\n{e}d {e}d !turn!c2|c4|]\n"})
	assert.Equal(t, []string{"Flick the string above, and the note comes out of it.", "Round the note from above: above, note, below, note."}, classes(t, part(t, v, "b1-switches"), "pupil"))
	assert.Equal(t, []string{"A cut from below: the string under the note, then the note.", "Flick the string above, and the note comes out of it."}, classes(t, part(t, v, "b1-offer1"), "pupil"))
}
