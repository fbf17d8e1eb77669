package browser_test

import (
	"fmt"
	"testing"
	"time"

	"readyhand/engine"
)

// switched presses the switches of the first tune in turn, so many times without a
// pause, as a script can, and gives the page that should come of it.
func switched(t *testing.T, b *tab, times int) (page engine.Page, change engine.Change) {
	t.Helper()
	page = engine.Open(lessonTunes, "", "")
	var ids []string
	for _, c := range controls(page.Markup(0)) {
		if ornamentButton(c) {
			ids = append(ids, c.id)
		}
	}
	script := ""
	for n := range times {
		id := ids[n%len(ids)]
		page, change = page.Do(find(t, page.Markup(0), id, func(c control) bool { return c.id == id }).do)
		script += fmt.Sprintf("document.getElementById(%q).click();", id)
	}
	look[bool](b, script+"true")
	return page, change
}

// Ten commands before the page was quiet once leave what the engine gives for them one
// by one.
func TestQuickCommands(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	page, change := switched(t, b, 10)
	b.did(page, change)
}

// An address that is gone to right after a command holds, not the one the command has
// not written yet.
func TestAddressRightAfterACommand(t *testing.T) {
	const address = "tuning+C"
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	look[bool](b, `document.querySelector("#b1 button.toggle").click(), location.hash = "#`+address+`", true`)
	b.shows(engine.Open(lessonTunes, address, ""))
	time.Sleep(500 * time.Millisecond) // more than what can wait waits
	b.shows(engine.Open(lessonTunes, address, ""))
	if got := b.hash(); got != address {
		t.Errorf("the address is %q, not %q", got, address)
	}
}

// A browser that translates a page puts elements of its own around its words: nothing
// is set in a wrong one.
func TestTranslatedPage(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	wrapped := look[int](b, `[...document.querySelectorAll("section.ready :is(td, th, button, .state)")].filter(e => {
		const text = e.firstChild;
		if (!text || text.nodeType !== Node.TEXT_NODE) return false;
		const font = document.createElement("font");
		text.replaceWith(font);
		font.append(text);
		return true;
	}).length`)
	if wrapped < 10 {
		t.Fatalf("%d words are translated, so this test is blind", wrapped)
	}
	page, change := switched(t, b, 1)
	if len(change.Parts) == 0 {
		t.Fatal("nothing changes, so this test is blind")
	}
	b.did(page, change)
}
