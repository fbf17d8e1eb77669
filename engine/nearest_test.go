package engine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
)

// How much of a page a test prints that did not find what it looked for.
const (
	mostPrinted = 20  // lines
	widePrinted = 200 // characters of one
)

// holds is whether the markup has these words somewhere; where it has not, the test
// prints the part that comes nearest, not all of it.
func holds(t *testing.T, page engine.Page, block int, words string, step int) {
	t.Helper()
	if !strings.Contains(page.Markup(block), words) {
		t.Errorf("step %d: the page does not show\n  %s\n%s", step, words, nearest(page.Parts(block), words))
	}
}

// lacks is the opposite of holds.
func lacks(t *testing.T, page engine.Page, block int, words string, step int) {
	t.Helper()
	if strings.Contains(page.Markup(block), words) {
		t.Errorf("step %d: the page still shows\n  %s\n%s", step, words, nearest(page.Parts(block), words))
	}
}

// alike is whether two pages are the same; where they are not, the test prints the
// parts that differ.
func alike(t *testing.T, want, got engine.Page, block, step int) {
	t.Helper()
	if want.Markup(block) == got.Markup(block) {
		return
	}
	old, now := want.Parts(block), got.Parts(block)
	var text []string
	for i := range max(len(old), len(now)) {
		switch {
		case i >= len(old):
			text = append(text, now[i].ID+" is new")
		case i >= len(now):
			text = append(text, old[i].ID+" is gone")
		case old[i] != now[i]:
			a, b := elements(old[i].HTML), elements(now[i].HTML)
			k := 0
			for k < len(a) && k < len(b) && a[k] == b[k] {
				k++
			}
			text = append(text, old[i].ID+" differs:", "  was "+short(append(a, "")[k]), "  is  "+short(append(b, "")[k]))
		}
	}
	t.Errorf("step %d: tune %d does not look as before\n%s", step, block+1, strings.Join(text[:min(len(text), mostPrinted)], "\n"))
}

// nearest prints what stands around the place in some parts that has the longest
// piece of the words looked for.
func nearest(parts []engine.Part, words string) string {
	best, part, at := 2, 0, -1
	for i, p := range parts {
		lines := elements(p.HTML)
		for k := range lines {
			here := strings.Join(lines[k:min(len(lines), k+3)], "") // what is looked for may go over elements
			if n := common(words, here); n > best {
				best, part, at = n, i, k
			}
		}
	}
	if at < 0 {
		var ids []string
		for _, p := range parts {
			ids = append(ids, p.ID)
		}
		return "nothing is like it in " + strings.Join(ids, " ")
	}
	lines := elements(parts[part].HTML)
	from := max(0, at-mostPrinted/4)
	text := "nearest, in " + parts[part].ID + ":"
	for _, line := range lines[from:min(len(lines), from+mostPrinted-4)] {
		text += "\n  " + short(line)
	}
	return text
}

// common is how long the longest piece is that two texts share.
func common(a, b string) (longest int) {
	before, now := make([]int, len(b)+1), make([]int, len(b)+1)
	for i := range len(a) {
		for k := range len(b) {
			now[k+1] = 0
			if a[i] == b[k] {
				now[k+1] = before[k] + 1
				longest = max(longest, now[k+1])
			}
		}
		before, now = now, before
	}
	return longest
}

// elements is markup with each element on a line of its own.
func elements(markup string) []string {
	return strings.Split(strings.ReplaceAll(markup, "><", ">\n<"), "\n")
}

func short(line string) string {
	if len(line) > widePrinted {
		return line[:widePrinted] + "..."
	}
	return line
}

// TestNearest: what a visit prints when it does not find what it looks for is short,
// and is about the right place.
func TestNearest(t *testing.T) {
	long := strings.Repeat(`<li class="other"><span>no finger is near</span></li>`, 500)
	parts := []engine.Part{{ID: "b1-head", HTML: "<h3>A gate</h3>"},
		{ID: "b1-text1", HTML: long + `<h6><b>Finger kept.</b> It rests ready.</h6><button data-do="tap@b1-4 on" aria-pressed="false">tap</button>` + long}}
	for words, want := range map[string]string{
		`data-do="tap@b1-4 off" aria-pressed="true">tap</button>`: `data-do="tap@b1-4 on"`,
		"<b>Finger kept.</b> It rests on its string":              "It rests ready.",
	} {
		text := nearest(parts, words)
		assert.Contains(t, text, "in b1-text1:")
		assert.Contains(t, text, want, words)
		assert.Less(t, strings.Count(text, "\n"), mostPrinted)
		assert.Less(t, len(text), mostPrinted*(widePrinted+10))
	}
	assert.Equal(t, "nothing is like it in b1-head b1-text1", nearest(parts, "zzz"))
}
