package browser_test

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"readyhand/engine"
)

// seenControls lists the controls of tunes that can be seen as something to
// press. A switch without a frame is a line of words.
const seenControls = `[...document.querySelectorAll("section.ready :is(button, select, input)")].filter(e => {
	const style = getComputedStyle(e);
	return e.getClientRects().length && (style.borderTopWidth !== "0px" && style.borderTopColor !== "rgba(0, 0, 0, 0)" || style.backgroundColor !== "rgba(0, 0, 0, 0)");
}).map(e => e.outerHTML.slice(0, 90))`

// Without script a page is whole: the same diagram, words and text line, seen
// and not only there.
func TestWithoutScript(t *testing.T) {
	plain := engine.Open(lessonTunes, "", "")
	for _, w := range ways() {
		t.Run(w.name, func(t *testing.T) {
			home := w.home(t, lessonFolder(t))
			b := newTab(t, home)
			send(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
			b.do(chromedp.Navigate(home + lessonPage))
			if look[bool](b, `!!document.querySelector(".live")`) {
				t.Fatal("script runs, so this test is blind")
			}
			b.shows(plain)
			for _, part := range []string{"svg", ".words", ".sheet"} {
				if !look[bool](b, `[...document.querySelectorAll("#b1 `+part+`")].some(e => e.getBoundingClientRect().height > 10)`) {
					t.Errorf("%s is not to be seen without script", part)
				}
			}
			if idle := look[[]string](b, seenControls); len(idle) > 0 {
				t.Errorf("%d controls are shown that nothing answers: %s", len(idle), strings.Join(idle[:min(5, len(idle))], " "))
			}
			b.shot("without-script-" + w.name + ".png")
		})
	}
}

// tooWide lists what sticks out of the page on the right, and is not inside
// something that scrolls by itself.
const tooWide = `(() => {
	const wide = document.documentElement.clientWidth, out = [];
	if (document.scrollingElement.scrollWidth <= wide) return out;
	for (const e of document.body.querySelectorAll("*")) {
		const r = e.getBoundingClientRect();
		if (r.right > wide + 0.5 && r.width > 0) out.push(e.tagName + "#" + e.id + "." + e.getAttribute("class") + " " + Math.round(r.right));
	}
	return ["page " + document.scrollingElement.scrollWidth, ...out];
})()`

// On a narrow phone nothing sticks out: not on the printed page, not when it
// answers, not with a why open and everything unfolded.
func TestNarrow(t *testing.T) {
	narrow := func(t *testing.T, home, name string) *tab {
		b := newTab(t, home)
		b.do(chromedp.EmulateViewport(320, 640, chromedp.EmulateMobile))
		b.do(chromedp.Navigate(home + name))
		return b
	}
	fits := func(t *testing.T, b *tab, when string) {
		t.Helper()
		if wide := look[[]string](b, tooWide); len(wide) > 0 {
			t.Errorf("%s, on 320 pixels: %s", when, strings.Join(wide[:min(8, len(wide))], "; "))
		}
		if torn := look[[]string](b, tornHeads); len(torn) > 0 {
			t.Errorf("%s, on 320 pixels, torn apart: %s", when, strings.Join(torn, "; "))
		}
	}
	t.Run("the lesson under test", func(t *testing.T) {
		home := serve(t, lessonFolder(t), nil)
		b := narrow(t, home, lessonPage)
		fits(t, b, "as it is opened")
		b.untilLive()
		plain := engine.Open(lessonTunes, "", "")
		c := find(t, plain.Markup(0), "note to ask about", func(c control) bool { return strings.HasPrefix(c.do, "why@") })
		b.click(c.id)
		_, change := plain.Do(c.do)
		b.until("the answer", fmt.Sprintf(`location.hash === %q`, "#"+change.Address))
		b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach(d => d.open = true)`))
		fits(t, b, "with a why open")
		b.shot("narrow.png")
	})
	home := serve(t, courseFolder(t), nil)
	for _, name := range pages(t) {
		t.Run(name, func(t *testing.T) {
			b := narrow(t, home, name)
			fits(t, b, "as it is opened")
			b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach(d => d.open = true)`))
			fits(t, b, "with everything unfolded")
			b.shot("narrow-" + strings.TrimSuffix(name, ".html") + ".png")
		})
	}
}

// tornHeads lists the heads of the sheet's rows that stand on more than one line.
const tornHeads = `[...document.querySelectorAll(".sheet th")].filter(e => {
	const r = document.createRange();
	r.selectNodeContents(e);
	return new Set([...r.getClientRects()].map(b => Math.round(b.top))).size > 1;
}).map(e => e.textContent)`

// pages lists the pages of the course.
func pages(t *testing.T) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(courseFolder(t), "*.html"))
	if err != nil || len(found) == 0 {
		t.Fatalf("the course has no pages: %v", err)
	}
	for i := range found {
		found[i] = filepath.Base(found[i])
	}
	return found
}

// Every page of the course comes up whole, over http and from disk: its tunes
// answer, and the printed page was already what the engine draws here.
func TestCourse(t *testing.T) {
	for _, w := range ways() {
		for _, name := range pages(t) {
			t.Run(w.name+"/"+name, func(t *testing.T) {
				home := w.home(t, courseFolder(t))
				b := newTab(t, home)
				b.early(`addEventListener("DOMContentLoaded", () => {
					self.printed = [...document.querySelectorAll("section.ready")].map(s => s.innerHTML) })`)
				b.do(chromedp.Navigate(home + name))
				tunes := look[int](b, `document.querySelectorAll("section.ready").length`)
				if tunes == 0 {
					return
				}
				b.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("section.ready").scrollIntoView()`))
				b.untilLive()
				if changed := look[int](b, `[...document.querySelectorAll("section.ready")].filter((s, i) => s.innerHTML !== printed[i]).length`); changed > 0 {
					t.Errorf("%d of %d tunes are drawn otherwise in the browser than when the site was built", changed, tunes)
				}
				if w.name == "http" {
					b.do(chromedp.Evaluate[chromedp.Void](`scrollTo(0, 0)`))
					b.shot("page-" + strings.TrimSuffix(name, ".html") + ".png")
				}
			})
		}
	}
}

// On paper there is the tune, and no button to press.
func TestPrint(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	print, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4)))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(print, []byte("%PDF-")) || len(print) < 10_000 {
		t.Errorf("the print has %d bytes", len(print))
	}
	keepFile(t, "print.pdf", print)

	if len(look[[]string](b, seenControls)) == 0 {
		t.Fatal("no control is seen on the screen either, so this test is blind")
	}
	b.media("print", "light")
	if still := look[[]string](b, seenControls); len(still) > 0 {
		t.Errorf("%d controls are on paper: %s", len(still), strings.Join(still[:min(5, len(still))], " "))
	}
	if !look[bool](b, `document.querySelector("#b1 svg").getBoundingClientRect().width > 100`) {
		t.Error("the diagram is not on paper")
	}
	b.shot("print.png")
}

// The chart of ornaments on paper, A4 and letter: no line is wider than its column, the
// columns of all tables are the same, every table fits on a page with its head, and no
// button is left; the print has no more pages than its lines need.
func TestChartOnPaper(t *testing.T) {
	home := serve(t, courseFolder(t), nil)
	for name, paper := range map[string]struct {
		size       chromedp.PaperSize
		wide, high int64 // inside its margins of 15 mm, at 96 pixels an inch
	}{"A4": {chromedp.PaperA4, 680, 1009}, "letter": {chromedp.PaperLetter, 702, 942}} {
		t.Run(name, func(t *testing.T) {
			b := newTab(t, home)
			b.sized(paper.wide, paper.high, false)
			b.do(chromedp.Navigate(home + "every-ornament.html"))
			b.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("section.ready").scrollIntoView()`))
			b.untilLive()
			print, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper.size)))
			if err != nil {
				t.Fatal(err)
			}
			keepFile(t, "chart-"+name+".pdf", print)
			if n := bytes.Count(print, []byte("/Type /Page\n")); n < 3 || n > 7 {
				t.Errorf("the chart has %d pages", n)
			}
			b.media("print", "light")
			if wide := look[[]string](b, tooWide); len(wide) > 0 {
				t.Errorf("sticks out: %s", strings.Join(wide[:min(8, len(wide))], "; "))
			}
			tables := look[int](b, `document.querySelectorAll(".charted table").length`)
			if tables < 28 {
				t.Fatalf("%d tables, so this test is blind", tables)
			}
			for what, script := range map[string]string{
				"is cut off at the side":          `e.scrollWidth > e.parentNode.clientWidth + 1 || [...e.querySelectorAll("td, th")].some(c => c.scrollWidth > c.clientWidth + 1 && getComputedStyle(c).fontSize !== "0px")`,
				"does not fit on a page":          `e.getBoundingClientRect().height > ` + fmt.Sprint(paper.high) + ` - 80`,
				"has a head that is not repeated": `getComputedStyle(e.tHead).display !== "table-header-group"`,
				"has other columns":               `Math.abs(e.rows[0].cells[1].getBoundingClientRect().left - e.getBoundingClientRect().left - (document.querySelector(".charted table").rows[0].cells[1].getBoundingClientRect().left - document.querySelector(".charted table").getBoundingClientRect().left)) > 1`,
			} {
				for _, title := range look[[]string](b, `[...document.querySelectorAll(".charted table")].filter(e => `+script+`).map(e => e.closest(".charted").querySelector("h5").textContent)`) {
					t.Errorf("the table of %s %s", title, what)
				}
			}
			if still := look[[]string](b, seenControls); len(still) > 0 {
				t.Errorf("%d controls are on paper: %s", len(still), still[0])
			}
		})
	}
}

// faint lists texts whose contrast with what lies under them is less than 4.5,
// or 3 where they are large (WCAG 2.2, 1.4.3). Under a text in a drawing lies
// the last filled shape of its group before it that covers its middle, else
// what lies under the drawing.
const faint = `(() => {
	const parse = c => { const m = c.match(/[\d.]+/g); return m ? m.map(Number) : [0, 0, 0, 0]; };
	const light = c => { const [r, g, b] = c.slice(0, 3).map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const probe = document.body.appendChild(document.createElement("i"));
	probe.style.backgroundColor = "Canvas";
	const canvas = parse(getComputedStyle(probe).backgroundColor);
	probe.remove();
	const clear = c => c.length > 3 && c[3] < 0.5;
	const ground = e => { for (; e; e = e.parentElement) { const c = parse(getComputedStyle(e).backgroundColor); if (!clear(c)) return c; }
		return canvas; };
	const shape = text => { const r = text.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2;
		let under = null;
		for (let g = text.parentNode; g instanceof SVGElement && !under; g = g.parentNode)
			for (const s of g.querySelectorAll("circle, rect, ellipse, path, polygon")) {
				if (!(s.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
				const f = getComputedStyle(s).fill, q = s.getBoundingClientRect();
				if (f !== "none" && !clear(parse(f)) && q.left <= x && x <= q.right && q.top <= y && y <= q.bottom) under = parse(f);
			}
		return under; };
	const out = [], seen = new Set();
	for (const e of document.body.querySelectorAll("*")) {
		const own = [...e.childNodes].filter(n => n.nodeType === 3 && n.textContent.trim()).map(n => n.textContent.trim()).join(" ");
		const r = e.getBoundingClientRect();
		if (!own || !r.width || !r.height || r.right < 0 || e.matches(":disabled, [aria-disabled=true], title, desc")) continue;
		const style = getComputedStyle(e), drawn = e instanceof SVGElement;
		if (style.visibility !== "visible" || parseFloat(style.opacity) === 0) continue;
		const ink = parse(drawn ? style.fill : style.color), under = (drawn && shape(e)) || ground(e);
		const [a, b] = [light(ink), light(under)], ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
		const size = parseFloat(style.fontSize), large = size >= 24 || (size >= 18.66 && +style.fontWeight >= 700);
		const what = e.tagName + "." + e.getAttribute("class") + " " + ink + " on " + under + ": " + ratio.toFixed(1);
		if (ratio < (large ? 3 : 4.5) && !seen.has(what)) { seen.add(what); out.push(what + " " + JSON.stringify(own.slice(0, 30))); }
	}
	return out;
})()`

// Day and night every word can be read, in the lesson and in the diagram, also
// with an ornament switched off and a why open.
func TestReadableDayAndNight(t *testing.T) {
	plain := engine.Open(lessonTunes, "", "")
	for _, scheme := range []string{"light", "dark"} {
		t.Run(scheme, func(t *testing.T) {
			home := serve(t, lessonFolder(t), nil)
			b := newTab(t, home)
			b.media("", scheme)
			b.open(home + lessonPage)
			b.click(find(t, plain.Markup(0), "ornament", ornamentBead).id)
			b.click(find(t, plain.Markup(0), "note to ask about", func(c control) bool {
				return c.tag != "button" && strings.HasPrefix(c.do, "why@")
			}).id)
			b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach(d => d.open = true)`))
			if words := look[[]string](b, faint); len(words) > 0 {
				t.Errorf("%d texts are faint:\n%s", len(words), strings.Join(words, "\n"))
			}
			b.shot("colours-" + scheme + ".png")
		})
	}
}
