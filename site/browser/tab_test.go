package browser_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// browser is started by the first test that needs it, with an empty profile.
var browser = sync.OnceValues(func() (context.Context, error) {
	profile, err := os.MkdirTemp("", "readyhand-profile-")
	if err != nil {
		return nil, err
	}
	leftovers = append(leftovers, profile)
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(chromium()),
		chromedp.UserDataDir(profile),
		chromedp.NoSandbox,
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
	)
	allocator, closeAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(allocator, chromedp.WithErrorf(func(string, ...any) {}))
	closeBrowser = func() { cancel(); closeAllocator() }
	return ctx, chromedp.Do(ctx)
})

var closeBrowser = func() {}

func chromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// tab is one page of the browser, with storage of its own.
type tab struct {
	t   testing.TB
	ctx context.Context

	mu       sync.Mutex
	complain []string // what the console said that a reader's would not want to
	asked    []string // addresses asked for
}

// newTab opens an empty tab. When the test ends nothing may have been complained
// of, and nothing asked for outside the folder at home; "" allows all.
func newTab(t testing.TB, home string) *tab {
	t.Helper()
	if chromium() == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("there is no chromium on this machine, and these tests may not be left out here")
		}
		t.Skip("left out: there is no chromium on this machine")
	}
	parent, err := browser()
	if err != nil {
		t.Fatalf("the browser does not start: %v", err)
	}
	b := &tab{t: t}
	ctx, cancel := chromedp.NewContext(parent, chromedp.WithNewBrowserContext(), chromedp.WithListener(b.hear))
	b.ctx = ctx
	t.Cleanup(cancel)
	b.do(chromedp.EmulateViewport(1000, 800))
	b.early(`addEventListener("securitypolicyviolation", e => console.error("policy: " + e.violatedDirective + " " + e.blockedURI))`)
	if home != "" {
		t.Cleanup(func() { b.quiet(home) })
	}
	return b
}

// hear notes what the browser tells about the page.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		for _, a := range e.Args {
			b.complain = append(b.complain, fmt.Sprintf("console.%s: %s %s", e.Type, a.Value, a.Description))
		}
	case *runtime.EventExceptionThrown:
		b.complain = append(b.complain, "exception: "+e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		b.complain = append(b.complain, fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
	case *network.EventRequestWillBeSent:
		b.asked = append(b.asked, e.Request.URL)
	}
}

// quiet fails on every complaint and on every request that left the site.
func (b *tab) quiet(home string) {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, c := range b.complain {
		b.t.Errorf("the browser complains: %s", c)
	}
	for _, a := range b.asked {
		if !strings.HasPrefix(a, home) && !strings.HasPrefix(a, "data:") && a != "about:blank" {
			b.t.Errorf("the page asks for %s, outside the site", a)
		}
	}
	if len(b.asked) == 0 {
		b.t.Error("no request was seen, so the check that none leaves the site is blind")
	}
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.t.Fatal(err)
	}
}

// send gives the browser one command of its protocol.
func send[P, R any](b *tab, command cdp.Command[P, R], params P) R {
	b.t.Helper()
	got, err := chromedp.Call(b.ctx, command, params)
	if err != nil {
		b.t.Fatalf("%s: %v", command.Method, err)
	}
	return got
}

// early has a script run in every page of the tab before the page's own.
func (b *tab) early(script string) {
	b.t.Helper()
	send(b, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
}

// media has the page believe in a medium ("print", "") and a colour scheme.
func (b *tab) media(medium, scheme string) {
	b.t.Helper()
	send(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: medium, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
}

// look asks the page one thing.
func look[T any](b *tab, expression string) T {
	b.t.Helper()
	got, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v", expression, err)
	}
	return got
}

// until waits until the page says yes.
func (b *tab) until(what, expression string) {
	b.t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(5 * time.Millisecond) {
		if look[bool](b, expression) {
			return
		}
		if time.Now().After(end) {
			b.t.Fatalf("the page never came to this: %s", what)
		}
	}
}

// open opens an address and waits until its first tune answers.
func (b *tab) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(address))
	b.untilLive()
}

func (b *tab) untilLive() {
	b.t.Helper()
	b.until("the first tune answers", `!!document.querySelector("#b1.live")`)
}

// inside gives what is in the element with this id, as the browser writes it.
func (b *tab) inside(id string) string {
	b.t.Helper()
	return look[string](b, "document.getElementById("+strconv.Quote(id)+").innerHTML")
}

func (b *tab) focused() string {
	b.t.Helper()
	return look[string](b, `document.activeElement.id`)
}

func (b *tab) hash() string {
	b.t.Helper()
	return strings.TrimPrefix(look[string](b, `location.hash`), "#")
}

// click presses the mouse on the middle of the element with this id.
func (b *tab) click(id string) {
	b.t.Helper()
	x, y := b.middle(id)
	b.do(chromedp.MouseClickXY(x, y))
}

// middle brings the element with this id into view and gives its middle, having looked
// that a pointer meets that element there and nothing over it.
func (b *tab) middle(id string) (x, y float64) {
	b.t.Helper()
	at := look[[]float64](b, `(() => {
		const e = document.getElementById(`+strconv.Quote(id)+`);
		e.scrollIntoView({block: "center", inline: "center", behavior: "instant"});
		const r = e.getBoundingClientRect();
		const x = r.left + r.width / 2, y = r.top + r.height / 2;
		const hit = document.elementFromPoint(x, y);
		return [x, y, hit && e.contains(hit) ? 1 : 0];
	})()`)
	if at[2] == 0 {
		b.t.Fatalf("a pointer does not meet %s at its middle (%.0f, %.0f)", id, at[0], at[1])
	}
	return at[0], at[1]
}

// reach goes to the element with this id by keyboard alone: Tab, and the arrow
// inside a diagram; what it is folded away in is unfolded on the way.
func (b *tab) reach(id string) {
	b.t.Helper()
	const most = 400
	var way []string
	for range most {
		key := look[string](b, `(() => {
			const a = document.activeElement, e = document.getElementById(`+strconv.Quote(id)+`);
			const drawn = x => x.matches('svg [role="button"]');
			if (a === e) return "there";
			if (a.matches("summary") && !a.parentNode.open && a.parentNode.contains(e)) return "Enter";
			return drawn(a) && drawn(e) && a.closest("section.ready") === e.closest("section.ready") ? "arrow" : "Tab";
		})()`)
		if key == "there" {
			return
		}
		way = append(way, b.focused())
		b.do(chromedp.KeyEvent(map[string]string{"Tab": kb.Tab, "Enter": kb.Enter, "arrow": kb.ArrowRight}[key]))
	}
	b.t.Fatalf("%d keys do not lead to %s: %s", most, id, strings.Join(way, " "))
}

// shot keeps a picture of the page to look at.
func (b *tab) shot(name string) {
	b.t.Helper()
	picture, err := chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		b.t.Fatal(err)
	}
	keepFile(b.t, name, picture)
}

// keepFile puts a picture or a print where people can look at it.
func keepFile(t testing.TB, name string, data []byte) {
	t.Helper()
	dir := filepath.Join(root, ".cache", "shots")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}
