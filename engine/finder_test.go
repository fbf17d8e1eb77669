package engine_test

import (
	"flag"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/plan"
)

var wholeFinder = flag.Bool("finder", false, "TestFinderAgrees on every ornament of every note of all tunes, not on one in 41")

// What the finder says of an ornament on a note is what the whole answer says where
// it alone is offered there; where it has no way beside what stands on the note, what the
// answer says where that is never prepared: on the notes of the lessons' tunes, and with -finder on
// all of them and of the twelve tunes among the stories.
func TestFinderAgrees(t *testing.T) {
	var texts []string
	for _, name := range files(t, "../content/*.md") {
		texts = append(texts, tunes(file(t, name))...)
	}
	if *wholeFinder {
		for _, name := range files(t, "../testdata/stories/tune-*.txt") {
			_, part := chapters(t, file(t, name))
			texts = append(texts, part["tune"])
		}
	}
	seen, asked := map[string]int{}, 0
	for _, text := range texts {
		b := engine.Read(text)
		if b.IsChart() {
			continue
		}
		a := b.Answer()
		for i := range a.Hands {
			for _, x := range a.Finder(i) {
				note, _, again := strings.Cut(x.ID, "/")
				if asked++; asked%41 > 0 && !again && !*wholeFinder && (len(x.Instead) == 0 || asked%5 > 0) || again && asked%11 > 0 && !*wholeFinder {
					continue
				}
				said := []string{"offer " + x.Ornament + "@" + note}
				for _, name := range x.Instead { // it has no way beside what stands on the note
					beside := b.Answer(said[0])
					ready, _ := fitOf(&beside.Hands[i], x.ID+"."+x.Ornament)
					assert.Equal(t, "no time", ready, "%s: %s on %s beside the %s", a.Block.Tune.Title, x.Ornament, x.ID, name)
					said = append(said, name+"@"+note+" never")
				}
				one := b.Answer(said...)
				ready, extra := fitOf(&one.Hands[i], x.ID+"."+x.Ornament)
				if len(x.Instead) == 0 || x.Fit.Ready < plan.PlacedAgain { // else written notes are otherwise without the others already
					assert.Equal(t, x.Fit.Ready.String(), ready, "%s: %s on %s", a.Block.Tune.Title, x.Ornament, x.ID)
				}
				if len(x.Instead) > 0 {
					seen["instead"]++
				}
				assert.Equal(t, int64(x.Fit.Extra), extra, "%s: %s on %s", a.Block.Tune.Title, x.Ornament, x.ID)
				seen[ready]++
			}
		}
	}
	t.Log(asked, seen)
	assert.Positive(t, seen["instead"])
	assert.GreaterOrEqual(t, len(seen), 5, "a finger seldom has time to drop in; all other kinds were met: %v", seen)
}

// fitOf gives what an answer says of an ornament, by its id.
func fitOf(h *engine.Hand, id string) (ready string, extra int64) {
	for j, g := range h.Score.Gaps {
		for k, site := range g.Sites {
			for i := range site.Ornaments {
				if site.ID(i) == id {
					fit := h.Plan.Gaps[j].Fits[k][i]
					return fit.Ready.String(), int64(fit.Extra)
				}
			}
		}
	}
	return "no time", int64(engine.Unplayable)
}

// From one placing, 2 1 2 3 on D E D C: plain; with a cut on the first or on the
// third note; with an upper mordent on the third; and they are counted (common
// practice, no source).
func TestFromOnePlacing(t *testing.T) {
	a := engine.Read("X:1\nM:2/4\nL:1/8\nQ:1/4=120\nK:C\n{e}de!uppermordent!dc|]\n").Answer()
	text := a.FinderText()
	for _, line := range []string{
		"  plain                                              D5 2         E5 1         D5 2                C5 3",
		"  cut on the first D                                 (E5 1) D5 2  E5 1         D5 2                C5 3",
		"  cut on the second D                                D5 2         E5 1         (E5 1) D5 2         C5 3",
		"  upper mordent on the second D                      D5 2         E5 1         (D5 2) (E5 1) D5 2  C5 3",
		"  cut on the first D, upper mordent on the second D  (E5 1) D5 2  E5 1         (D5 2) (E5 1) D5 2  C5 3",
	} {
		words := strings.Fields(line)
		assert.True(t, slices.ContainsFunc(strings.Split(text, "\n"), func(l string) bool { return slices.Equal(strings.Fields(l), words) }), "%s\nis not in\n%s", line, text)
	}
	_, after, _ := strings.Cut(text, "There are ")
	count, _, _ := strings.Cut(after, " ")
	n, err := strconv.Atoi(count)
	require.NoError(t, err, text)
	assert.GreaterOrEqual(t, n, 5)
}

// What a panel says would move is what the page says moved once the ornament is put
// there.
func TestPanelKeepsItsWord(t *testing.T) {
	put := 0
	for _, name := range []string{"the-cut.md", "three-strokes.md"} {
		blocks := tunes(file(t, filepath.Join("../content", name)))
		for note := 1; note <= 16; note += 5 {
			page, _ := engine.Open(blocks, "", "").Do("why@b1-" + strconv.Itoa(note))
			for _, li := range strings.Split(page.Markup(0), "<li>")[1:] {
				id := "b1-" + strconv.Itoa(note)
				_, do, ok := strings.Cut(li, `.try.`)
				if !ok || !strings.Contains(li, id+".try.") || !strings.Contains(li, ` on" aria-pressed="false"`) {
					continue
				}
				ornament, _, _ := strings.Cut(do, `"`)
				_, c := page.Do(ornament + "@" + id + " on")
				li, _, _ = strings.Cut(li, "</li>")
				told := 0
				for _, piece := range strings.Split(li, `<p class="moves">`)[1:] {
					line, _, _ := strings.Cut(piece, "</p>")
					assert.Contains(t, c.Says, line, "%s on %s", ornament, id)
					told++
				}
				if told == 0 {
					assert.Contains(t, c.Says, "Nothing moves.", "%s on %s", ornament, id)
				}
				put++
			}
		}
	}
	assert.Greater(t, put, 40)
}

// Why an ornament does not fit a note is said as it is: only what is too short has no
// time; elsewhere a string is wanting, a finger, or the note it leads to.
func TestWhyItDoesNotFit(t *testing.T) {
	const head = "X:1\nM:none\nL:1/4\nQ:1/4=120\nK:C\n"
	for _, row := range []struct {
		body, do, note, ornament, why string
	}{
		{"C,,2 D,,2|]", "", "1", "tap", "this harp has no string for it"},
		{"c2 d2|]", "", "1", "filled third", "it leads to another note than the next"},
		{"c2 e2|]", "", "2", "filled third", "it leads to another note than the next"}, // the last of all
		{"c/4 e/4|]", "", "1", "filled third", "the note is too short for it"},
		{"c2 d2|]", "fingers 12", "1", "three strokes", "the fingers in use cannot hold its strings"},
		{"c2 d/2 e2|]", "", "2", "trill", "the note is too short for it"},
		{"c2 d/4 e2|]", "families welsh", "3", "plethiad y bys bach", "the note before is too short for it"}, // 125 ms, and it begins 65 ms before the beat
		{"[CEGc]2 d2|]", "", "4", "cut", "no finger is left for it"},                                         // four fingers hold four strings
		{"[Cc]2 d2|]", "reach 0.8", "2", "octave grace", "wider than your hand"},                             // two octaves
	} {
		page := engine.Open([]string{head + row.body + "\n"}, "", "")
		if row.do != "" {
			page, _ = page.Do(row.do)
		}
		page, _ = page.Do("why@b1-" + row.note)
		holds(t, page, 0, "<li>"+row.ornament+": "+row.why+"</li>", 1)
	}
	a := engine.Read(head+"c4 d4|]\n").Answer("fingers 12", "families irish")
	assert.Contains(t, a.FinderText(), "; the fingers in use cannot hold its strings: ")
	assert.NotRegexp(t, `no time: [^;\n]*three strokes`, a.FinderText())
}

const byre = "X:1\nM:3/4\nL:1/8\nQ:1/4=60\nK:Em\nE2 | G2 {B}A2 B2 | e4 d2 |]\n"

// An ornament that has no way beside the one that stands on its note is judged in its
// place, and its button puts it there: at a slow tempo nothing else is in its way.
func TestInPlaceOfTheCut(t *testing.T) {
	a := engine.Read(byre).Answer("house cut 1 2")
	text := a.FinderText()
	assert.NotContains(t, text, "no time")
	assert.Regexp(t, `high cut \(\d+, instead of the cut`, text)
	page, _ := engine.Open([]string{byre}, "", "").Do("house cut 1 2")
	page, _ = page.Do("why@b1-3")
	do := "cut@b1-3 never;high-cut@b1-3 on"
	holds(t, page, 0, `data-do="`+do+`"`, 1)
	page, c := page.Do(do)
	assert.NotEmpty(t, c.Says)
	holds(t, page, 0, `data-do="high-cut@b1-3 off"`, 1)
	holds(t, page, 0, `id="b1-remarks"></div>`, 1) // nothing had to be left out
}

// What a finger waits for already, for another ornament of the note, is in the hand.
func TestAFingerThatWaitsIsSet(t *testing.T) {
	for _, x := range fits(t, "X:1\nM:4/4\nL:1/8\nQ:1/4=184\nK:Dmix\nA2FA D2FA | !roll!d2 cd ABAG |]\n") {
		if x.ID != "7" {
			continue
		}
		switch x.Ornament {
		case "short-roll":
			assert.Equal(t, plan.FingerKept, x.Fit.Ready)
		case "cut":
			assert.Equal(t, plan.InHand, x.Fit.Ready)
		}
	}
}

// A house fingering gives way to the hand as it lies: with 2 on A and 3 on G the cut on
// G is there, though not with 1 2.
func TestAHouseFingeringGivesWay(t *testing.T) {
	const body = "X:1\nM:6/8\nL:1/8\nQ:3/8=100\nK:G\nD | G2B BAG |]\n"
	for _, x := range fits(t, body, "finger@2 3", "finger@3 1", "finger@4 1", "finger@5 2", "finger@6 3", "set@2", "stay@3", "stay@4", "stay@5", "house cut 1 2") {
		if x.ID == "2" && x.Ornament == "cut" {
			assert.Equal(t, plan.InHand, x.Fit.Ready)
			assert.True(t, x.Fit.Unusual)
			assert.Equal(t, []int{2, 3}, x.Fingers)
		}
	}
}

// One more ornament in a bar leaves its written notes the fingers of the bars that are
// the same.
func TestAnOrnamentDoesNotPartBars(t *testing.T) {
	const body = "X:1\nM:6/8\nL:1/8\nQ:3/8=100\nK:G\nG2B BAG | E2F G2A | G2B BAG | D3 D3 |]\n"
	a, b := engine.Read(body).Answer(), engine.Read(body).Answer("high-cut@1 on")
	assert.GreaterOrEqual(t, int64(b.Hands[0].Plan.Cost), int64(a.Hands[0].Plan.Cost), "nothing is freed by it")
	for e := range 5 {
		assert.Equal(t, b.Hands[0].Plan.Events[e].Stroke, b.Hands[0].Plan.Events[e+9].Stroke)
	}
}

// Strokes under 50 ms (a guess) are said to be very quick, on the beat too: of a swirl on
// a quaver at 184, 81 ms for two strokes, but not on a minim.
func TestVeryQuick(t *testing.T) {
	const body = "X:1\nM:4/4\nL:1/8\nQ:1/4=184\nK:Dmix\n%%ready ornament swirl +2 +1 0\nd c d4 c2|]\n"
	page, _ := engine.Open([]string{body}, "", "").Do("why@b1-1")
	assert.Contains(t, page.Markup(0), "very quick here")
	text := engine.Read(body).Answer()
	assert.Regexp(t, `note 1, [^\n]*(\n    [^\n]*)*swirl \([^)]*very quick\)`, text.FinderText())
	assert.NotRegexp(t, `note 3, [^\n]*(\n    [^\n]*)*swirl \([^)]*very quick\)`, strings.Split(text.FinderText(), "note 4,")[0])
}

func fits(t *testing.T, text string, said ...string) []engine.Found {
	t.Helper()
	a := engine.Read(text).Answer(said...)
	require.Len(t, a.Hands, 1)
	return a.Finder(0)
}
