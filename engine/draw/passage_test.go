package draw_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/draw"
)

// part gives one part of a block.
func part(t *testing.T, v draw.View, id string) string {
	t.Helper()
	for _, p := range draw.Block(v) {
		if p.ID == id {
			return p.HTML
		}
	}
	require.Fail(t, "no such part", id)
	return ""
}

// classes lists the text of every element of a class, in order.
func classes(t *testing.T, html, class string) (texts []string) {
	t.Helper()
	parse(t, html).walk(func(n *node) {
		for _, c := range strings.Fields(n.attr("class")) {
			if c == class {
				texts = append(texts, strings.TrimSpace(n.all()))
			}
		}
	})
	return texts
}

// TestFallingFigure draws d e d c A with a cut on the first d: common practice,
// no source, takes it with 2 1 2 3 4 and has the cut in the hand.
func TestFallingFigure(t *testing.T) {
	text := []string{sheets["falling"]}
	line := part(t, view(text), "b1-line1")
	assert.Equal(t, []string{"1", "2", "3", "4"}, classes(t, line, "tabno"), "the strip holds the whole hand")
	assert.Equal(t, []string{"2", "1", "2", "3", "4"}, classes(t, line, "digit"))
	assert.Equal(t, []string{"1", "2", "1"}, classes(t, line, "gemno"), "the cut on E, and the mordent offered on the third note")
	assert.Len(t, classes(t, line, "off"), 2, "the mordent and its tie are dashed")
	assert.Contains(t, line, `id="b1-1" role="button" tabindex="0" data-do="why@b1-1" aria-label="D5, finger 2, bar 1: why?"`)
	assert.Contains(t, line, `id="b1-1.cut.1" role="button" tabindex="0" data-do="cut@b1-1 off" aria-pressed="true" aria-label="cut, E5, finger 1"`)
	assert.Equal(t, []string{"set"}, classes(t, line, "word"))

	row := part(t, view(text), "b1-text1")
	assert.Equal(t, []string{"NoteEDEDCA"}, classes(t, row, "names"), "what sounds, the cut included")
	assert.Equal(t, []string{"Finger121234"}, classes(t, row, "fingers"))
	assert.Equal(t, []string{"set"}, classes(t, row, "placing"))
}

// TestOffMovesNothing: with the cut off the strip, the beads and where they
// stand are the same; only the cut looks and says otherwise.
func TestOffMovesNothing(t *testing.T) {
	text := []string{sheets["falling"]}
	on, off := part(t, view(text), "b1-line1"), part(t, view(text, "cut@1 off"), "b1-line1")
	assert.Contains(t, off, `data-do="cut@b1-1 on" aria-pressed="false"`)
	changed := strings.NewReplacer("ornament on", "ornament off", "cut@b1-1 off", "cut@b1-1 on", `aria-pressed="true"`, `aria-pressed="false"`, `class="tie"`, `class="tie off"`).Replace(on)
	assert.Equal(t, changed, off)
}

// TestKeptFinger: a finger that waits has a second outline and is named in the
// sheet line; a free one has no tab.
func TestKeptFinger(t *testing.T) {
	v := view([]string{sheets["falling"]})
	p := *v.Hands[0].Plan
	p.Placings = append(p.Placings[:0:0], p.Placings...)
	v.Hands[0].Plan = &p
	require.Len(t, p.Placings, 1)
	assert.Empty(t, classes(t, part(t, v, "b1-line1"), "outer"))

	p.Placings[0].Kept[0] = true
	assert.Len(t, classes(t, part(t, v, "b1-line1"), "outer"), 1)
	assert.Equal(t, []string{"set; 1 waits on E"}, classes(t, part(t, v, "b1-text1"), "placing"))

	p.Placings[0].Kept[0], p.Placings[0].Free[0] = false, true
	assert.Equal(t, []string{"2", "3", "4"}, classes(t, part(t, v, "b1-line1"), "tabno"))
}

// TestSecondTime: a pass that is fingered otherwise shows its finger beside the
// first.
func TestSecondTime(t *testing.T) {
	v := view([]string{"X:1\nM:2/4\nL:1/8\nK:C\n|:cdef:|\n"})
	p := *v.Hands[0].Plan
	p.Events = append(p.Events[:0:0], p.Events...)
	v.Hands[0].Plan = &p
	require.Len(t, p.Events, 8)
	e := p.Events[0]
	f := e.Finger(v.Hands[0].Score.Events[0].Notes[0].String)
	assert.NotContains(t, part(t, v, "b1-line1"), "on another pass")
	other := (f + 3) % 4
	p.Events[4].Stroke = [4]int8{-1, -1, -1, -1}
	p.Events[4].Stroke[other] = v.Hands[0].Score.Events[4].Notes[0].String
	assert.Equal(t, []string{string(rune('1' + other))}, classes(t, part(t, v, "b1-line1"), "againno"))
	assert.Contains(t, part(t, v, "b1-text1"), "<small>, then "+string(rune('1'+other))+"</small>")
}

// TestLevers: on a harp in E flat the strings of C major are marked.
func TestLevers(t *testing.T) {
	v := view([]string{sheets["falling"]})
	head := part(t, v, "b1-head")
	assert.Contains(t, head, "<li>levers up: E♭ to E♮, A♭ to A♮")
	assert.Contains(t, part(t, v, "b1-line1"), `>E♮<tspan class="octave" font-size="9" dy="3">5</tspan>`)
	v = view([]string{sheets["falling"]}, "tuning C")
	assert.Contains(t, part(t, v, "b1-head"), "<li>no lever raised</li>")
	assert.NotContains(t, part(t, v, "b1-line1"), `class="lever"`)
}

// TestWhyPanel: what can be asked for stands there as commands, and the hand is
// measured in millimetres.
func TestWhyPanel(t *testing.T) {
	text := []string{sheets["falling"]}
	assert.Empty(t, part(t, view(text), "b1-why"))
	why := part(t, view(text, "why@b1-1"), "b1-why")
	for _, do := range []string{"finger@b1-1 2", "finger@b1-1 free", "set@b1-1", "stay@b1-1", "either@b1-1", "why off", "cut@b1-1 off"} {
		assert.Contains(t, why, `data-do="`+do+`"`)
	}
	assert.Equal(t, []string{"14.5 mm", "14.5 mm", "29 mm"}, classes(t, why, "mm"), "E to D, D to C, C to A")
	assert.Contains(t, why, `aria-label="The hand: 1 on E5, 2 on D5, 3 on C5, 4 on A4"`)
}

// TestManyOffersAreFolded: what is offered and not played stands in folded
// groups, what is written stands open.
func TestManyOffersAreFolded(t *testing.T) {
	html := markup(view([]string{sheets["every ornament"]}))
	root := parse(t, html)
	folded, open := 0, 0
	var visit func(n *node, in bool)
	visit = func(n *node, in bool) {
		if n.XMLName.Local == "details" {
			in = true
			for _, a := range n.Attrs {
				assert.NotEqual(t, "open", a.Name.Local)
			}
		}
		if n.attr("class") == "choice" {
			if in {
				folded++
			} else {
				open++
			}
		}
		for i := range n.Children {
			visit(&n.Children[i], in)
		}
	}
	visit(root, false)
	assert.Greater(t, folded, 40)
	assert.Zero(t, open)
	assert.LessOrEqual(t, strings.Count(html, `<details class="more">`), 8)
}
