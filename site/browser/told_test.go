package browser_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"readyhand/engine"
)

// What is said of a command takes two lines of a phone's screen; the rest is asked for,
// and never takes half of it. It is put away by its button, and then the keyboard is
// where it was, or by Escape; what comes next is said as before.
func TestSaidAndPutAway(t *testing.T) {
	const told, high = `document.querySelector("#b1 .told")`, `document.querySelector("#b1 .told").getBoundingClientRect().height`
	choose := func(b *tab, value string) {
		b.t.Helper()
		look[bool](b, `(() => { const s = document.getElementById("b1-fingers"); s.closest("details").open = true; s.focus(); s.value = "`+value+`"; return s.dispatchEvent(new Event("change", {bubbles: true})); })()`)
		b.until("what moved is said", high+` > 10`)
	}
	for _, w := range ways() {
		t.Run(w.name, func(t *testing.T) {
			home := w.home(t, lessonFolder(t))
			b := newTab(t, home)
			b.sized(390, 844, true)
			b.open(home + anotherPage)
			page, change := engine.Open([]string{shortTune}, "", "").Do("fingers 12")
			if strings.Count(change.Says, ".") < 3 {
				t.Fatalf("%q is short, so this test is blind", change.Says)
			}
			choose(b, "12")
			b.until("a button for the rest", `document.querySelector("#b1 .unfold").offsetHeight > 0`)
			if got := look[float64](b, high); got > 844/8 {
				t.Errorf("what is said takes %v pixels of 844", got)
			}
			if got := look[string](b, `document.querySelector("#b1 .says[role=status]").textContent`); got != change.Says {
				t.Errorf("said is %q, want %q", got, change.Says)
			}
			b.shot("told-folded.png")
			look[any](b, `document.querySelector("#b1 .unfold").click()`)
			if got := look[float64](b, high); got < 60 || got > 844*45/100 {
				t.Errorf("unfolded it takes %v pixels of 844", got)
			}
			if !look[bool](b, `(s => s.scrollHeight <= s.clientHeight + 1 || getComputedStyle(s).overflowY === "auto")(document.querySelector("#b1 .says"))`) {
				t.Error("unfolded, not all of it can be read")
			}
			b.shot("told-whole.png")

			look[any](b, `(h => { h.focus(); h.click(); })(document.querySelector("#b1 .hush"))`)
			if got := look[float64](b, high); got > 1 {
				t.Errorf("put away it still takes %v pixels", got)
			}
			if got := b.focused(); got != "b1-fingers" {
				t.Errorf("after it was put away the keyboard is at %q", got)
			}
			if got, want := b.inside("b1"), page.Markup(0); strings.ReplaceAll(got, ` open=""`, "") != want {
				t.Error("put away, it leaves something behind")
			}

			choose(b, "123")
			b.do(chromedp.KeyEvent(kb.Escape))
			b.until("Escape", high+` <= 1`)
			if got := b.focused(); got != "b1-fingers" {
				t.Errorf("after Escape the keyboard is at %q", got)
			}
			choose(b, "12")
			if got := look[string](b, `document.querySelector("#b1 .unfold").textContent + " " + `+told+`.classList.contains("whole")`); got != "More false" {
				t.Errorf("what is said next is %q", got)
			}
		})
	}
}
