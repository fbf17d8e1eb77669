package browser_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"readyhand/engine"
)

// Late calls are started and stopped with one button, over http and from disk, with
// the engine and before it is there; what is called is the list, in its order. Once
// stopped, the page is what it was.
func TestLateCalls(t *testing.T) {
	const start = `document.querySelector("#b1 .calls .go").click()`
	for _, w := range ways() {
		t.Run(w.name, func(t *testing.T) {
			home := w.home(t, lessonFolder(t))
			b := newTab(t, home)
			const address = "tempo@b1+1/4=120;seed@b1+5"
			b.open(home + lessonPage + "#" + address)
			want := engine.Open(lessonTunes, address, "")
			b.shows(want)
			a := want.Answer(0)
			calls := a.Calls()
			if len(calls.List) != 16 || calls.Seed != 5 {
				t.Fatalf("nothing to call, so this test is blind: %+v", calls)
			}
			look[bool](b, `(document.querySelector("#b1 details.calls").open = true)`)
			look[any](b, start)
			b.until("the bar that is counted in", `document.querySelector("#b1 .calls .turn").textContent.startsWith("Ready: ")`)
			if got := look[string](b, `document.querySelector("#b1 .calls .go").textContent`); got != "Stop" {
				t.Errorf("while it runs the button says %q", got)
			}
			const seen = `document.querySelector("#b1 ol.turns").getBoundingClientRect().height`
			if look[float64](b, seen) > 0 {
				t.Error("while it runs the list tells what comes")
			}
			// A call is there for a moment only, so it is looked at at once.
			b.until("the first call", `(() => {
				const call = document.querySelector("#b1 .calls .call");
				if (call.textContent === "") return false;
				self.firstCall = [call.textContent, call.getAttribute("aria-live"), getComputedStyle(call.querySelector("b")).fontSize, String(document.querySelectorAll("#b1 .turns .now").length)];
				return true;
			})()`)
			first, got := calls.List[0], look[[]string](b, `self.firstCall`)
			if got[0] != first.Word+" on "+first.Note {
				t.Errorf("the first call is %q, want %+v", got[0], first)
			}
			if got[1] != "assertive" {
				t.Errorf("a call is not spoken at once: aria-live %q", got[1])
			}
			if size, _ := strconv.ParseFloat(strings.TrimSuffix(got[2], "px"), 64); size < 40 {
				t.Errorf("a call is only %v pixels high", size)
			}
			if got[3] != "1" {
				t.Errorf("%s turns are marked", got[3])
			}
			b.until("the second turn", `document.querySelector("#b1 .calls .turn").textContent.startsWith("Turn 2 of 16")`)
			look[any](b, start)
			b.shows(want)
			if look[float64](b, seen) < 100 {
				t.Error("once stopped the list is not there to be read")
			}
			if got := look[string](b, `document.querySelector("#b1 .calls .go").textContent`); got != "Start" {
				t.Errorf("once stopped the button says %q", got)
			}

			// Another order while it runs: the old list is not called any more.
			look[any](b, start)
			b.until("the count", `document.querySelector("#b1 .calls .turn").textContent.startsWith("Ready")`)
			b.click("b1-seed")
			next, _ := want.Do("seed@b1 6")
			b.until("the stop", `document.querySelector("#b1 .calls .go").textContent === "Start"`)
			b.shows(next)
		})
	}
}

// Without script, and on paper, the turns stand there to be read, and no button that
// nobody answers.
func TestLateCallsAreRead(t *testing.T) {
	for _, on := range []string{"without script", "paper"} {
		t.Run(on, func(t *testing.T) {
			home := serve(t, lessonFolder(t), nil)
			b := newTab(t, home)
			if on == "paper" {
				b.open(home + lessonPage)
				b.media("print", "light")
			} else {
				send(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
				b.do(chromedp.Navigate(home + lessonPage))
			}
			for _, part := range []string{"details.calls", "details.drills"} {
				look[bool](b, `(document.querySelector("#b1 `+part+`").open = true)`)
			}
			if got := look[int](b, `[...document.querySelectorAll("#b1 .turns li")].filter(e => e.getBoundingClientRect().height > 10).length`); got != 16 {
				t.Errorf("%d turns are to be seen", got)
			}
			if !look[bool](b, `document.querySelector("#b1 .drill table").getBoundingClientRect().height > 10`) {
				t.Error("no exercise is to be seen")
			}
			if idle := look[[]string](b, seenControls); len(idle) > 0 {
				t.Errorf("%d controls are shown that nothing answers: %s", len(idle), idle[0])
			}
			b.shot("calls-" + on[:5] + ".png")
		})
	}
}
