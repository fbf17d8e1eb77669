package browser_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/css"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"readyhand/engine"
)

// timing measures each click in the page. work is what the main thread does
// until the frame is done: from the click's first listener to its last, and from
// the start of the next frame to the first task after it, by which the browser
// has laid out and painted. shown is the time from the moment the mouse was
// released to the start of the frame after, when the one with the change is on
// the screen.
const timing = `(() => {
	self.clicks = [];
	let began = 0;
	addEventListener("click", () => { began = performance.now(); }, true);
	addEventListener("click", e => {
		const answered = performance.now();
		requestAnimationFrame(() => {
			const frame = performance.now(), channel = new MessageChannel();
			let work = 0;
			channel.port1.onmessage = () => { work = answered - began + performance.now() - frame; };
			channel.port2.postMessage(0);
			requestAnimationFrame(next => { setTimeout(() => clicks.push([work, next - e.timeStamp, answered - began])); });
		});
	});
})()`

// BenchmarkClick switches an ornament of the long tune on and off whose change
// touches the fewest parts of the page, as an answer that moves nothing does.
// Budget: 8 ms of main-thread work at the 95th percentile, 30 ms with the
// processor slowed four times (Chromium's own throttling).
func BenchmarkClick(b *testing.B) {
	for _, rate := range []float64{1, 4} {
		b.Run(fmt.Sprintf("slowed=%v", rate), func(b *testing.B) {
			home := serve(b, lessonFolder(b), nil)
			page := newTab(b, home)
			page.open(home + lessonPage)
			page.calm()
			c := fewestParts(b)
			page.do(chromedp.Evaluate[chromedp.Void](timing))
			if _, err := chromedp.Call(page.ctx, emulation.SetCPUThrottlingRate,
				emulation.SetCPUThrottlingRateParams{Rate: rate}); err != nil {
				b.Fatal(err)
			}
			const warm, least = 10, 60
			n := max(b.N, least) + warm
			for i := range n {
				page.click(c.id)
				page.until("the frame", fmt.Sprintf(`clicks.length === %d`, i+1))
			}
			report(b, look[[][]float64](page, `clicks`)[warm:], "work", "shown", "script")
		})
	}
}

// fewestParts finds the switch in the long tune that changes the fewest parts.
func fewestParts(b *testing.B) control {
	plain := engine.Open(lessonTunes, "", "")
	best, fewest := control{}, 0
	for _, c := range controls(plain.Markup(1)) {
		if !ornamentBead(c) {
			continue
		}
		_, change := plain.Do(c.do)
		if n := len(change.Parts); fewest == 0 || n < fewest {
			best, fewest = c, n
		}
	}
	if fewest == 0 {
		b.Fatal("the long tune has no ornament to switch")
	}
	_, change := plain.Do(best.do)
	var parts []string
	for _, p := range change.Parts {
		parts = append(parts, fmt.Sprintf("%s (%d bytes)", p.ID, len(p.HTML)))
	}
	b.Logf("%s: %s; parts %s", best.do, change.Says, strings.Join(parts, ", "))
	return best
}

// calm stops what the tests listen to and a reader's browser does not.
func (b *tab) calm() {
	b.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := cdp.Call(ctx, t, css.Disable, cdp.Empty{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, t, dom.Disable, cdp.Empty{})
		return err
	}))
}

// BenchmarkOpen opens the lesson in a browser that has seen nothing of it, and
// asks at once; the time runs from the start of the navigation until the frame
// with the answer is done. Budget: 200 ms.
func BenchmarkOpen(b *testing.B) {
	c := find(b, engine.Open(lessonTunes, "", "").Markup(0), "ornament", ornamentBead)
	for _, w := range ways() {
		b.Run(w.name, func(b *testing.B) {
			home := w.home(b, lessonFolder(b))
			var all [][]float64
			for range max(b.N, 10) {
				page := newTab(b, "")
				page.early(fmt.Sprintf(`document.addEventListener("readyhand", () => setTimeout(() => {
					const live = performance.now();
					document.getElementById(%q).dispatchEvent(new MouseEvent("click", {bubbles: true}));
					requestAnimationFrame(() => {
						const channel = new MessageChannel();
						channel.port1.onmessage = () => { self.opened = [performance.now(), live]; };
						channel.port2.postMessage(0);
					});
				}))`, c.id))
				page.open(home + lessonPage)
				page.until("the first answer", `!!self.opened`)
				all = append(all, look[[]float64](page, `self.opened`))
			}
			report(b, all, "answered", "live")
		})
	}
}

// report gives the median and the 95th percentile of each column, in ms.
func report(b *testing.B, rows [][]float64, names ...string) {
	for i, name := range names {
		var column []float64
		for _, r := range rows {
			column = append(column, r[i])
		}
		slices.Sort(column)
		b.ReportMetric(column[len(column)/2], name+"-p50-ms")
		b.ReportMetric(column[(len(column)*95-1)/100], name+"-p95-ms")
	}
	b.ReportMetric(0, "ns/op") // a click waits for its frame: the time of a round says nothing
}
