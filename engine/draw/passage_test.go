package draw_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/draw"
	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/source"
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
	assert.Contains(t, line, `id="b1-1" role="button" tabindex="-1" data-do="why@b1-1" aria-label="D5, finger 2, bar 1: why?"`)
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
	assert.Contains(t, head, "<li>levers up: E, A, B</li>", "as they are set for C major, though no B is played")
	assert.Contains(t, part(t, v, "b1-line1"), `>E♮<tspan class="octave" font-size="9" dy="3">5</tspan>`)
	v = view([]string{sheets["falling"]}, "tuning C")
	assert.Contains(t, part(t, v, "b1-head"), "<li>no lever up</li>")
	assert.NotContains(t, part(t, v, "b1-line1"), `class="lever"`)
}

// TestWhyPanel: what can be asked for stands there as commands, and the hand is
// measured in millimetres.
func TestWhyPanel(t *testing.T) {
	text := []string{sheets["falling"]}
	assert.NotContains(t, part(t, view(text), "b1-text1"), `class="why"`)
	v := view(text, "why@b1-1")
	v.Why.Finds = []draw.Find{
		{Name: "turn", Title: "turn", Class: 3, Moves: []string{"Bar 1: the D is now 3, not 2."}},
		{Name: "cut", Title: "cut", On: true, Prepared: true, Decided: []string{"If you decide beforehand to play it, nothing changes."}},
		{Name: "tap", Title: "tap", Class: 2, Asks: "4 would wait on B", Extra: "3 more effort", On: true, Prepared: true, Own: true},
		{Name: "trill", Title: "trill", Class: 4, Asks: "the note is too short for it"},
	}
	v.Why.Way = &draw.Variants{Count: "There are 2 ways.", Tabs: "1 on E5", Rows: []draw.Variant{
		{Label: "plain", Notes: [][]draw.Struck{{{Name: "D5", Finger: "2"}}}},
		{Label: "cut on the D", Notes: [][]draw.Struck{{{Name: "E5", Finger: "1", Grace: true}, {Name: "D5", Finger: "2"}}}},
	}}
	why := part(t, v, "b1-text1")
	for _, do := range []string{"finger@b1-1 2", "finger@b1-1 free", "set@b1-1", "stay@b1-1", "either@b1-1", "why off", "cut@b1-1 off", "turn@b1-1 on", "tap@b1-1 never"} {
		assert.Contains(t, why, `data-do="`+do+`"`)
	}
	assert.NotContains(t, why, `data-do="cut@b1-1 never"`, "what stands in the tune is not taken away")
	assert.NotContains(t, why, `data-do="trill@b1-1`, "what does not fit is not offered")
	in, kept, again, none := strings.Index(why, "In the hand"), strings.Index(why, "Finger kept"), strings.Index(why, "Placed again"), strings.Index(why, "No time: 1 more")
	assert.True(t, 0 < in && in < kept && kept < again && again < none, "the readiest come first")
	assert.Contains(t, why, "4 would wait on B; 3 more effort")
	assert.Equal(t, 2, strings.Count(why, `<span class="cell w2">`), "the note keeps its column")
	assert.Equal(t, []string{"14.5 mm", "14.5 mm", "29 mm"}, classes(t, why, "mm"), "E to D, D to C, C to A")
	assert.Contains(t, why, `aria-label="The hand: 1 on E5, 2 on D5, 3 on C5, 4 on A4"`)
}

// TestWhyUnderItsLine: the answer stands under the line that holds the note,
// and leads from note to note over the ends of lines, past what is tied.
func TestWhyUnderItsLine(t *testing.T) {
	all := view([]string{sheets["jig"]})
	next := regexp.MustCompile(`id="b1-why.after" class="tool" data-do="(why@b1-[0-9]+)"( aria-disabled="true")?`)
	before := regexp.MustCompile(`id="b1-why.before" class="tool" data-do="(why@b1-[0-9]+)"`)
	at, lines, notes, from := "why@b1-1", map[string]bool{}, 0, "why@b1-1"
	for ; notes < 200; notes++ {
		holder, answer := "", ""
		v := asking(all, at)
		for _, p := range draw.Block(v) {
			if strings.Contains(p.HTML, `class="why"`) {
				require.Empty(t, holder, "it stands once")
				holder, answer = p.ID, p.HTML
			}
		}
		require.NotEmpty(t, holder, at)
		lines[holder] = true
		picture := strings.Replace(holder, "text", "line", 1)
		assert.Contains(t, part(t, v, picture), `class="bead asked" id="`+at[len("why@"):]+`"`)
		assert.Equal(t, from, before.FindStringSubmatch(answer)[1], "and back from %s", at)
		found := next.FindStringSubmatch(answer)
		require.NotNil(t, found, at)
		if found[2] != "" {
			assert.Equal(t, at, found[1], "the last note leads nowhere")
			break
		}
		from, at = at, found[1]
	}
	assert.Greater(t, len(lines), 8)
	assert.Equal(t, strings.Count(markup(all), `class="bead" id=`), notes+1, "every note once")
}

// TestWhyInTheLeftHand: with both hands shown the answer stands under the hand
// that plays the note.
func TestWhyInTheLeftHand(t *testing.T) {
	v := view([]string{sheets["jig"], "X:2\nM:6/8\nL:1/8\nK:G\n|:z|[G,DG]3 [G,DB]3|A,EA z3|\n"})
	v.Why = &draw.Why{Hand: 1, Written: v.Hands[1].Score.Events[0].Notes[0].Written}
	assert.Contains(t, part(t, v, "b1-text1l"), `class="why"`)
	assert.NotContains(t, part(t, v, "b1-text1"), `class="why"`)
	v.Why = &draw.Why{Hand: 7}
	assert.NotContains(t, markup(v), `class="why"`, "no such hand")
}

// TestLegend: every sign that a picture uses is told of, and every way to a
// placing by its word.
func TestLegend(t *testing.T) {
	used := map[string]bool{}
	for _, d := range all() {
		pictures(t, d.html, func(svg *node) {
			svg.walk(func(n *node) {
				if n.XMLName.Local == "path" && n.attr("class") != "" {
					used[n.attr("class")] = true
				}
			})
		})
	}
	html := markup(view([]string{sheets["falling"]}))
	legend := html[strings.Index(html, `<details class="key">`):]
	legend = legend[:strings.Index(legend, "</details>")]
	for _, name := range []string{"tab plays", "tab free", "measure", "tie", "tie off", "tie unready"} {
		delete(used, name) // of the hand under an answer, and lines that only lead from sign to sign
	}
	assert.Greater(t, len(used), 6)
	for class := range used {
		assert.Contains(t, legend, `class="`+class+`"`)
	}
	for _, class := range []string{"ring", "again", "carried", "ornament off unready"} {
		assert.Contains(t, legend, `class="`+class+`"`)
	}
	for _, word := range []string{"set:", "connect:", "under:", "over:", "lift:", "come off:", "stay:"} {
		assert.Contains(t, legend, "<span>"+word)
	}
	assert.NotContains(t, legend, "as long as the note", "a tail's length is comparable within its line alone")
}

// asking is a view in which a note is asked about, without the words.
func asking(v draw.View, why string) draw.View {
	for i, e := range v.Hands[0].Score.Events {
		for k, n := range e.Notes {
			if v.Why == nil && why == "why@b1-"+strconv.Itoa(n.Written) {
				v.Why = &draw.Why{Written: n.Written, Event: i, Note: k}
			}
		}
	}
	return v
}

// TestNotReady: what asks written notes to move is drawn among what is offered,
// and says so.
func TestNotReady(t *testing.T) {
	v := view([]string{"X:1\nM:4/4\nL:1/8\nQ:1/4=100\nK:C\n%%ready offer cut@1 cut@2\ndBG2 z4|edcB A4|]\n"})
	p := *v.Hands[0].Plan
	p.Gaps = append(p.Gaps[:0:0], p.Gaps...)
	v.Hands[0].Plan = &p
	for j := range 2 {
		require.Len(t, v.Hands[0].Score.Gaps[j].Sites, 1)
		p.Gaps[j].Fits = [][]plan.Fit{{{Ready: plan.PlacedAgain, Moves: 2 - j}}}
	}
	line := part(t, v, "b1-line1")
	assert.Len(t, classes(t, line, "gem"), 2, "on neighbouring notes too")
	assert.Len(t, classes(t, line, "unready"), 4, "two ornaments and their ties")
	assert.Contains(t, line, `aria-label="cut, E5, not ready: two notes move"`)
	assert.Contains(t, line, `aria-label="cut, C5, not ready: one note moves"`)
	assert.Contains(t, classes(t, line, "orn"), "cut: two notes move")
	assert.Empty(t, classes(t, line, "gemno"), "no finger is known before they move")
}

// TestRemarksNameTheBar: a remark on the page says which bar, and nothing of
// the lines of a text that the reader does not see.
func TestRemarksNameTheBar(t *testing.T) {
	v := view([]string{"X:1\nM:2/4\nL:1/4\nK:C\nc|{d}c [C,,E'']|\n"})
	from := strings.Index(v.Text.String, "[C,,")
	v.Remarks = []source.Remark{
		{Span: source.Span{From: int32(from + 1), To: int32(from + 2)}, Severity: source.Error, Message: "Too wide.", Suggestion: "Roll it."},
		{Span: source.Span{From: 0, To: 1}, Severity: source.Warning, Message: "About all of it."},
		{Span: source.Nowhere(), Message: "Asked on the page."},
		{Span: v.Tune.Voices[0].Events[0].Source, Message: "At the start."},
	}
	html := part(t, v, "b1-remarks")
	assert.Equal(t, `<ul><li class="error"><p><strong>Bar 1:</strong> Too wide. Roll it.</p></li><li class="warning"><p>About all of it.</p></li>`+
		`<li class="note"><p>Asked on the page.</p></li><li class="note"><p><strong>The pickup:</strong> At the start.</p></li></ul>`, html)
}

// TestNothingToUnfold: where no ornament is offered there is no disclosure, and
// the frame is the same.
func TestNothingToUnfold(t *testing.T) {
	v := view([]string{sheets["falling"]})
	assert.Contains(t, part(t, v, "b1-offer1"), "<summary>Bar 1: 1 more to try</summary>")
	v.Hands[0].Ornaments = nil
	assert.Empty(t, part(t, v, "b1-offer1"))
}

// TestLeverThatDiffers: a lever that is up in one octave alone is named with it.
func TestLeverThatDiffers(t *testing.T) {
	head := func(abc string) string {
		return part(t, view([]string{"X:1\nL:1/4\nK:C\n" + abc + "\n"}, "tuning C"), "b1-head")
	}
	assert.Contains(t, head("^F c d|"), "<li>levers up: F4</li>")
	assert.Contains(t, head("^C, ^C ^c ^c' =F|"), "<li>levers up: C (but not C2)</li>")
}

// TestSettings: reach is asked for as an interval, tempo with its beat.
func TestSettings(t *testing.T) {
	html := part(t, view([]string{sheets["jig"]}), "b1-settings")
	assert.Contains(t, html, `<option value="1" selected="">an octave (usual)</option>`)
	assert.Contains(t, html, `>dotted crotchet = 60</option>`)
	strings := 4
	for _, found := range regexp.MustCompile(`<option value="([0-9.]+)"( selected="")?>an? (fifth|sixth|seventh|octave|ninth|tenth)`).FindAllStringSubmatch(html, -1) {
		reach, err := strconv.ParseFloat(found[1], 64)
		require.NoError(t, err)
		d, ok := hand.New("right", "1234", int32(reach*1000+0.5))
		require.True(t, ok)
		assert.Equal(t, strings, int(d.Limits[0][3].Comfortable/14500), "4 and 1 hold %s in comfort", found[3])
		strings++
	}
	assert.Equal(t, 10, strings)
	assert.Contains(t, part(t, view([]string{sheets["jig"]}, "reach 0.9"), "b1-settings"), `<option value="0.9" selected="">0.9 of the usual reach</option>`)
}

// TestNewTempos: a tempo that changes inside the tune is named among the facts, and at
// its place in the picture and on the sheet, there alone; in proportion to what the
// reader chose.
func TestNewTempos(t *testing.T) {
	text := []string{"X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\ncdef|g2[Q:1/4=120]e2|cdef|gfed|c4|]\n"}
	v := view(text)
	assert.Contains(t, part(t, v, "b1-head"), "<li>crotchet = 60, later 120</li>")
	var over, row []string
	for _, p := range draw.Block(v) {
		over = append(over, classes(t, p.HTML, "pace")...)
		row = append(row, classes(t, p.HTML, "tempos")...)
	}
	assert.Equal(t, []string{"crotchet = 120"}, over)
	assert.Equal(t, []string{"Tempocrotchet = 120"}, row)
	v.QuarterMS = 652
	html := markup(v)
	assert.Contains(t, html, "<li>crotchet = 92, later 184</li>")
	assert.Contains(t, html, ">crotchet = 184</text>")
	assert.Contains(t, part(t, v, "b1-settings"), ">Tempo at the start (later ones in proportion)</label>")
	v = view([]string{sheets["quickened"]})
	assert.Contains(t, part(t, v, "b1-head"), "<li>dotted crotchet = 40, later 80, then crotchet = 132, then 60, then 90, and so on</li>")
	assert.NotContains(t, markup(view([]string{sheets["jig"]})), "tempos")
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
