package browser_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"readyhand/engine"
)

// By keyboard alone: ask about a note, put an ornament there that it does not have,
// leave it out, play it again, take it away, and close. The keyboard is never lost.
func TestPutThereAndTakenAway(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	page := engine.Open(lessonTunes, "", "")
	note := find(t, page.Markup(0), "note to ask about", func(c control) bool { return c.tag != "button" && strings.HasPrefix(c.do, "why@") })
	press := func(id, want string) {
		t.Helper()
		b.reach(id)
		b.do(chromedp.KeyEvent(kb.Enter))
		c := find(t, page.Markup(0), id, func(c control) bool { return c.id == id })
		if want != "" && !strings.HasSuffix(c.do, want) {
			t.Fatalf("%s does %q, not %q", id, c.do, want)
		}
		var change engine.Change
		page, change = page.Do(c.do)
		b.did(page, change)
		focus := id
		if change.Focus != "" {
			focus = change.Focus
		}
		if got := b.focused(); got != focus {
			t.Errorf("after %q the keyboard is at %q, not %q", c.do, got, focus)
		}
	}
	press(note.id, "")
	put := find(t, page.Markup(0), "ornament that the note has not", func(c control) bool {
		return strings.Contains(c.id, ".try.") && strings.HasSuffix(c.do, " on") && !strings.Contains(page.Markup(0), `data-do="`+strings.TrimSuffix(c.do, " on")+` never"`)
	})
	press(put.id, " on")
	press(put.id, " off")
	press(put.id, " on")
	press(put.id+".away", " never")
	press("b1-why.close", "why off")
	if page.Markup(0) != engine.Open(lessonTunes, "", "").Markup(0) {
		t.Error("put there and taken away, it leaves something behind")
	}
}
