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
)

var wholeFinder = flag.Bool("finder", false, "TestFinderAgrees on every ornament of every note of all tunes, not on one in 41")

// What the finder says of an ornament on a note is what the whole answer says where
// it alone is offered there: on the notes of the lessons' tunes, and with -finder on
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
				if asked++; asked%41 > 0 && !again && !*wholeFinder || again && asked%11 > 0 && !*wholeFinder {
					continue
				}
				one := b.Answer("offer " + x.Ornament + "@" + note)
				ready, extra := fitOf(&one.Hands[i], x.ID+"."+x.Ornament)
				assert.Equal(t, x.Fit.Ready.String(), ready, "%s: %s on %s", a.Block.Tune.Title, x.Ornament, x.ID)
				assert.Equal(t, int64(x.Fit.Extra), extra, "%s: %s on %s", a.Block.Tune.Title, x.Ornament, x.ID)
				seen[ready]++
			}
		}
	}
	t.Log(asked, seen)
	assert.GreaterOrEqual(t, len(seen), 4, "a finger seldom has time to drop in; all other kinds were met: %v", seen)
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
		{"[CEGc]2 d2|]", "", "4", "cut", "no hand can be ready for it at this tempo"},                        // four fingers hold four strings
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
