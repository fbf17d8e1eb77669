package browser_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"readyhand/engine"
)

// A course's house fingerings hold in the browser as on the printed page, and a
// reader's own, set in a field, are kept for every lesson.
func TestHouseInTheBrowser(t *testing.T) {
	const house = "cut 2 3\n"
	in := t.TempDir()
	for name, text := range map[string]string{secondFile: secondText, "house.txt": house} {
		if err := os.WriteFile(filepath.Join(in, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	dir, err := site("housed", in)
	if err != nil {
		t.Fatal(err)
	}
	course, _ := engine.NewCourse(house)
	plain := course.Open([]string{shortTune}, "", "")
	if plain.Markup(0) == engine.Open([]string{shortTune}, "", "").Markup(0) {
		t.Fatal("the house fingering changes nothing, so this test is blind")
	}
	home := serve(t, dir, nil)
	b := newTab(t, home)
	b.open(home + anotherPage)
	if got := look[string](b, `document.querySelector("section.ready").getAttribute("data-sum") ?? ""`); got != plain.Sum(0) {
		t.Errorf("the engine in the page answers otherwise than the one that built it: %q, not %q", got, plain.Sum(0))
	}
	c := find(t, plain.Markup(0), "choice of a usual cut", func(c control) bool { return c.tag == "select" && strings.HasPrefix(c.do, "house cut") })
	b.reach(c.id)
	b.do(chromedp.KeyEvent(kb.Home))
	value := look[string](b, `document.getElementById(`+strconv.Quote(c.id)+`).value`)
	_, change := plain.Do(c.do + " " + value)
	b.until("the address of what was chosen", `location.hash.slice(1) === `+strconv.Quote(change.Address))
	b.open(home + anotherPage)
	if got, want := b.inside("b1"), course.Open([]string{shortTune}, "", change.Keep).Markup(0); got != want || change.Keep != "house cut off" {
		t.Errorf("the usual cut is not kept (%q)", change.Keep)
	}
}
