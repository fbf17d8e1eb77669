package browser_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"readyhand/engine"
)

// means are the ways to use a page: a mouse, a finger on two phones, the keys alone.
var means = []struct {
	name       string
	wide, high int64
	touch      bool
	use        func(b *tab, id string)
}{
	{"mouse", 1000, 800, false, func(b *tab, id string) { b.click(id) }},
	{"finger at 320", 320, 640, true, func(b *tab, id string) { b.tap(id) }},
	{"finger at 390", 390, 844, true, func(b *tab, id string) { b.tap(id) }},
	{"keys", 1000, 800, false, func(b *tab, id string) { b.reach(id); b.do(chromedp.KeyEvent(kb.Enter)) }},
}

// sized gives the tab the size of a screen, with a finger for a mouse or not.
func (b *tab) sized(wide, high int64, touch bool) {
	b.t.Helper()
	if touch {
		b.do(chromedp.EmulateViewport(wide, high, chromedp.EmulateMobile, chromedp.EmulateTouch))
	} else {
		b.do(chromedp.EmulateViewport(wide, high))
	}
}

// tap touches the middle of the element with this id, and lets go; what it is folded
// away in is unfolded first.
func (b *tab) tap(id string) {
	b.t.Helper()
	look[bool](b, `(() => {
		for (let d = document.getElementById(`+strconv.Quote(id)+`).closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
		return true;
	})()`)
	x, y := b.middle(id)
	send(b, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: []*input.TouchPoint{{X: x, Y: y}}})
	send(b, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}})
}

// Ask about a note, see the list, put an ornament there that the note does not have,
// leave it out, play it again, take it away, and close: by mouse, by finger on a small
// and on a usual phone, and by keys alone; over http and from disk. The page shows
// what the engine answers, the keyboard is never lost, and what is used is where it
// can be hit.
func TestPutThereAndTakenAway(t *testing.T) {
	for _, w := range ways() {
		for _, m := range means {
			t.Run(w.name+"/"+m.name, func(t *testing.T) {
				home := w.home(t, lessonFolder(t))
				b := newTab(t, home)
				b.sized(m.wide, m.high, m.touch)
				b.open(home + lessonPage)
				if coarse := look[bool](b, `matchMedia("(pointer: coarse)").matches`); coarse != m.touch {
					t.Fatalf("the browser thinks of a finger: %v, so this test is blind", coarse)
				}
				page := engine.Open(lessonTunes, "", "")
				press := func(id, want string) {
					t.Helper()
					m.use(b, id)
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
				note := find(t, page.Markup(0), "note to ask about", func(c control) bool { return c.tag != "button" && strings.HasPrefix(c.do, "why@") })
				press(note.id, "")
				if !look[bool](b, `[...document.querySelectorAll("#b1 .fitting")].some(e => e.getBoundingClientRect().height > 20)`) {
					t.Error("the list of what fits is not to be seen")
				}
				b.shot("finds-" + strings.ReplaceAll(m.name, " ", "-") + ".png")
				put := find(t, page.Markup(0), "ornament that the note has not", func(c control) bool {
					return strings.Contains(c.id, ".try.") && strings.HasSuffix(c.do, " on") && !strings.Contains(page.Markup(0), `data-do="`+strings.TrimSuffix(c.do, " on")+` never"`)
				})
				press(put.id, " on")
				press(put.id, " off")
				press(put.id, " on")
				b.hittable(m.touch)
				press(put.id+".away", " never")
				press(note.id+".older.irish", "families irish")
				press(note.id+".older.irish", "families usual")
				press("b1-why.close", "why off")
				if page.Markup(0) != engine.Open(lessonTunes, "", "").Markup(0) {
					t.Error("put there and taken away, it leaves something behind")
				}
			})
		}
	}
}

// targets lists what is wrong with the places that can be hit: those under 24 pixels
// either way (WCAG 2.2, 2.5.8), those under 44 where there is room (2.5.5; not in a
// drawing, nor in a chart's lines), and those that lie over one another. Of a drawn one
// its unseen field counts, of an ornament those of all its strokes, which do the same;
// on 320 pixels it may be 22: what it does a button does too. Two fields of a drawing
// may touch, and half a pixel is no overlap.
const targets = `(finger => {
	const all = [...document.querySelectorAll("section.ready :is(button, select, input, summary), section.ready svg [data-do]")].map(e => {
		const field = e instanceof SVGElement ? e.querySelector(".touch") ?? e : e, r = field.getBoundingClientRect();
		return {e, left: r.left, right: r.right, top: r.top, bottom: r.bottom};
	}).filter(x => x.right > x.left && x.bottom > x.top && getComputedStyle(x.e).visibility === "visible");
	const over = x => x.e.closest(".told"); // what is said lies over what scrolls by, until it is put away
	const size = x => [x.right - x.left, x.bottom - x.top];
	const name = x => (x.e.id || x.e.tagName + " " + x.e.textContent.slice(0, 20)) + " " + size(x).map(n => n.toFixed(1)).join("x");
	const out = [], drawn = new Map();
	for (const x of all) {
		if (x.e instanceof SVGElement) {
			const key = x.e.closest("svg").parentNode.id + " " + x.e.getAttribute("data-do"), y = drawn.get(key);
			drawn.set(key, y ? {e: y.e, left: Math.min(x.left, y.left), right: Math.max(x.right, y.right), top: Math.min(x.top, y.top), bottom: Math.max(x.bottom, y.bottom)} : x);
			continue;
		}
		const least = finger && !x.e.matches(".usual") ? 44 : 24;
		if (Math.min(...size(x)) < least - 0.5) out.push("under " + least + ": " + name(x));
	}
	const least = innerWidth > 320 ? 24 : 22;
	for (const x of drawn.values()) if (Math.min(...size(x)) < least - 0.5) out.push("drawn, under " + least + ": " + name(x));
	all.forEach((x, i) => all.slice(i + 1).forEach(y => {
		const wide = Math.min(x.right, y.right) - Math.max(x.left, y.left), high = Math.min(x.bottom, y.bottom) - Math.max(x.top, y.top);
		if (wide > 0.5 && high > 0.5 && !over(x) && !over(y) && !x.e.contains(y.e) && !y.e.contains(x.e)) out.push("overlap: " + name(x) + ", " + name(y));
	}));
	return [all.length, out];
})`

// hittable looks at all that can be hit on the page, with everything unfolded.
func (b *tab) hittable(touch bool) {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("section.ready details").forEach(d => d.open = true)`))
	found := look[[]any](b, targets+`(`+strconv.FormatBool(touch)+`)`)
	if n, _ := found[0].(float64); n < 20 {
		b.t.Errorf("only %v things can be hit, so this test is blind", found[0])
	}
	wrong, _ := found[1].([]any)
	for _, w := range wrong[:min(len(wrong), 8)] {
		b.t.Errorf("%v", w)
	}
	if len(wrong) > 8 {
		b.t.Errorf("and %d more", len(wrong)-8)
	}
}

// Everything in the course can be hit, by mouse and by finger.
func TestHittable(t *testing.T) {
	home := serve(t, courseFolder(t), nil)
	for _, name := range pages(t) {
		for _, m := range means[:3] {
			t.Run(name+"/"+m.name, func(t *testing.T) {
				b := newTab(t, home)
				b.sized(m.wide, m.high, m.touch)
				b.do(chromedp.Navigate(home + name))
				if look[int](b, `document.querySelectorAll("section.ready").length`) == 0 {
					return
				}
				b.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("section.ready").scrollIntoView()`))
				b.untilLive()
				b.hittable(m.touch)
			})
		}
	}
}
