package browser_test

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
)

// BenchmarkChartFollows sets the spacing of the harp in the chart of every ornament, to
// and fro. script is the time until the engine has answered, cpu the processor's time
// of the main thread until the frame is done. What is felt as at once is 100 ms (R. B.
// Miller, 1968).
func BenchmarkChartFollows(b *testing.B) {
	home := serve(b, courseFolder(b), nil)
	page := newTab(b, home)
	page.do(chromedp.Navigate(home + "every-ornament.html"))
	page.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("section.ready").scrollIntoView()`))
	page.untilLive()
	page.calm()
	send(page, performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	const warm, least = 4, 20
	var rows [][]float64
	for i := range max(b.N, least) + warm {
		before, value := page.busy(), []string{"13", "14.5"}[i%2]
		script := look[float64](page, `(() => {
			const s = document.getElementById("b1-spacing"), began = performance.now();
			s.value = "`+value+`";
			s.dispatchEvent(new Event("change", {bubbles: true}));
			return performance.now() - began;
		})()`)
		time.Sleep(150 * time.Millisecond)
		if got := look[string](page, `document.querySelector("#b1-head .facts").textContent`); i == 0 && !strings.Contains(got, "13 mm") {
			b.Fatalf("the chart does not follow: %s", got)
		}
		rows = append(rows, []float64{script, page.busy() - before})
	}
	report(b, rows[warm:], "script", "cpu")
}
