package browser_test

import (
	"fmt"
	"net/http"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"readyhand/engine"
)

// control is one element of a tune that carries a sentence.
type control struct{ tag, id, do string }

var (
	anyControl = regexp.MustCompile(`<([a-z]+)\b[^>]*\bdata-do="([^"]*)"[^>]*>`)
	anyID      = regexp.MustCompile(`\bid="([^"]*)"`)
	aSwitch    = regexp.MustCompile(`^[a-z-]+@b[0-9]+-[0-9]+ (on|off)$`)
)

// controls lists what a reader can use in this markup, in its order.
func controls(markup string) []control {
	var list []control
	for _, found := range anyControl.FindAllStringSubmatch(markup, -1) {
		c := control{tag: found[1], do: found[2]}
		if id := anyID.FindStringSubmatch(found[0]); id != nil {
			c.id = id[1]
		}
		list = append(list, c)
	}
	return list
}

// find gives the first control that will do.
func find(t testing.TB, markup, what string, will func(c control) bool) control {
	t.Helper()
	for _, c := range controls(markup) {
		if will(c) {
			return c
		}
	}
	t.Fatalf("this tune has no %s: %v", what, controls(markup))
	return control{}
}

func ornamentButton(c control) bool { return c.tag == "button" && aSwitch.MatchString(c.do) }
func ornamentBead(c control) bool   { return c.tag != "button" && aSwitch.MatchString(c.do) }

// shows waits until every tune of the page is, byte for byte, what the engine
// gives here for the same page; but for the live region, which is empty and folded there,
// and what the reader unfolded.
func (b *tab) shows(want engine.Page) {
	b.t.Helper()
	for i := range lessonTunes {
		id, markup := "b"+strconv.Itoa(i+1), want.Markup(i)
		got := ""
		for end := time.Now().Add(patience / 10); ; time.Sleep(10 * time.Millisecond) {
			got = look[string](b, `(() => { const c = document.getElementById(`+strconv.Quote(id)+`).cloneNode(true);
				c.querySelectorAll(".says").forEach(s => s.replaceChildren());
				c.querySelectorAll(".told").forEach(t => { t.className = "told"; });
				c.querySelectorAll("details").forEach(d => { d.open = false; });
				return c.innerHTML; })()`)
			if got == markup {
				break
			}
			if time.Now().After(end) {
				at := 0
				for at < min(len(got), len(markup)) && got[at] == markup[at] {
					at++
				}
				b.t.Fatalf("tune %s differs from byte %d on\n got ...%s\nwant ...%s", id, at, around(got, at), around(markup, at))
			}
		}
	}
}

func around(s string, at int) string { return s[max(0, at-80):min(len(s), at+160)] }

// did looks at all a reader gets from one change.
func (b *tab) did(want engine.Page, change engine.Change) {
	b.t.Helper()
	b.shows(want)
	told := ""
	for _, p := range change.Parts {
		if strings.HasSuffix(p.ID, "-says") {
			told += " " + look[string](b, `document.querySelector("#`+p.ID+`[role=status]").textContent`)
		}
	}
	if strings.TrimSpace(told) != change.Says {
		b.t.Errorf("the page says %q, want %q", told, change.Says)
	}
	b.until("the address "+change.Address, `location.hash.slice(1) === `+strconv.Quote(change.Address))
	if got := look[*string](b, `localStorage.getItem("readyhand")`); change.Keep != "" && (got == nil || *got != change.Keep) {
		b.t.Errorf("kept is %v, want %q", got, change.Keep)
	}
}

// Switching an ornament by mouse or by keyboard alone, on its button or in the
// diagram, shows what the engine answers; undo and reload give what they should.
func TestSwitchingAnOrnament(t *testing.T) {
	uses := []struct {
		name string
		will func(control) bool
		use  func(b *tab, id string)
	}{
		{"mouse on the button", ornamentButton, func(b *tab, id string) { b.click(id) }},
		{"mouse in the diagram", ornamentBead, func(b *tab, id string) { b.click(id) }},
		{"Enter on the button", ornamentButton, func(b *tab, id string) { b.reach(id); b.do(chromedp.KeyEvent(kb.Enter)) }},
		{"Space on the button", ornamentButton, func(b *tab, id string) { b.reach(id); b.do(chromedp.KeyEvent(" ")) }},
		{"Enter in the diagram", ornamentBead, func(b *tab, id string) { b.reach(id); b.do(chromedp.KeyEvent(kb.Enter)) }},
		{"Space in the diagram", ornamentBead, func(b *tab, id string) { b.reach(id); b.do(chromedp.KeyEvent(" ")) }},
	}
	for _, w := range ways() {
		for _, u := range uses {
			t.Run(w.name+"/"+u.name, func(t *testing.T) {
				home := w.home(t, lessonFolder(t))
				b := newTab(t, home)
				b.open(home + lessonPage)
				plain := engine.Open(lessonTunes, "", "")
				b.shows(plain)

				c := find(t, plain.Markup(0), "ornament for "+u.name, u.will)
				u.use(b, c.id)
				changed, change := plain.Do(c.do)
				if changed.Markup(0) == plain.Markup(0) || change.Says == "" || change.Address == "" {
					t.Fatalf("%q changes nothing, so this test is blind: %+v", c.do, change)
				}
				b.did(changed, change)
				if got := b.focused(); got != c.id {
					t.Errorf("%s was used, and the keyboard is at %q", c.id, got)
				}

				b.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
				undone, change := changed.Do("undo")
				b.did(undone, change)
				if got := b.focused(); got != c.id {
					t.Errorf("after undo the keyboard is at %q, want %s", got, c.id)
				}

				u.use(b, c.id)
				again, change := undone.Do(c.do)
				b.did(again, change)
				b.do(chromedp.Reload())
				b.untilLive()
				b.shows(engine.Open(lessonTunes, change.Address, ""))
			})
		}
	}
}

// The harp is kept for every lesson; a field that is set keeps the keyboard.
func TestHarpIsKept(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	plain := engine.Open(lessonTunes, "", "")
	c := find(t, plain.Markup(0), "choice of tuning", func(c control) bool { return c.tag == "select" && strings.HasPrefix(c.do, "tuning") })
	b.reach(c.id)
	b.do(chromedp.KeyEvent(kb.ArrowDown))
	value := look[string](b, `document.getElementById(`+strconv.Quote(c.id)+`).value`)
	changed, change := plain.Do(c.do + " " + value)
	if change.Keep == "" {
		t.Fatalf("%s %s keeps nothing, so this test is blind", c.do, value)
	}
	b.did(changed, change)
	if got := b.focused(); got != c.id {
		t.Errorf("%s was set, and the keyboard is at %q", c.id, got)
	}
	b.open(home + anotherPage)
	want := engine.Open([]string{shortTune}, "", change.Keep).Markup(0)
	if got := b.inside("b1"); got != want || want == engine.Open([]string{shortTune}, "", "").Markup(0) {
		t.Errorf("the other lesson is not shown on the harp that was kept (%q)", change.Keep)
	}
}

// Why: asked by keyboard in the diagram, closed by Escape; what is unfolded
// stays unfolded, and the arrows step from note to note.
func TestWhyAndSteps(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	plain := engine.Open(lessonTunes, "", "")
	c := find(t, plain.Markup(0), "note to ask about", func(c control) bool { return c.tag != "button" && strings.HasPrefix(c.do, "why@") })
	b.reach(c.id)
	b.do(chromedp.KeyEvent(kb.Enter))
	asked, change := plain.Do(c.do)
	b.did(asked, change)

	at := b.focused()
	b.do(chromedp.KeyEvent(kb.Escape))
	closed, change := asked.Do("why off")
	b.did(closed, change)
	if got := b.focused(); got == "" || !strings.HasPrefix(got, "b1") {
		t.Errorf("why was closed from %q, and the keyboard is at %q", at, got)
	}

	b.reach(c.id)
	b.do(chromedp.KeyEvent(kb.ArrowRight))
	next := b.focused()
	if next == c.id || !look[bool](b, `document.activeElement.matches("#b1 svg [role=button]")`) {
		t.Errorf("the arrow leads from %s to %q", c.id, next)
	}
	b.do(chromedp.KeyEvent(kb.ArrowLeft))
	if got := b.focused(); got != c.id {
		t.Errorf("the arrows lead from %s to %s and back to %q", c.id, next, got)
	}
}

// What the reader unfolded stays unfolded when the part around it is redrawn.
func TestUnfoldedStays(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.open(home + lessonPage)
	if look[int](b, `document.querySelectorAll("#b1 details").length`) == 0 {
		t.Skip("left out: this tune has nothing to unfold")
	}
	unfolded := `[...document.querySelectorAll("#b1 details")].filter(d => d.open).length`
	all := look[int](b, `[...document.querySelectorAll("#b1 details")].map(d => d.open = true).length`)
	plain := engine.Open(lessonTunes, "", "")
	c := find(t, plain.Markup(0), "ornament", ornamentBead)
	b.click(c.id)
	_, change := plain.Do(c.do)
	b.until("the answer", `location.hash === `+strconv.Quote("#"+change.Address))
	if got := look[int](b, unfolded); got != all {
		t.Errorf("%d of %d stay unfolded", got, all)
	}
}

// An address made by hand, damaged, or for another tune gives a whole page.
func TestDamagedAddress(t *testing.T) {
	plain := engine.Open(lessonTunes, "", "")
	c := find(t, plain.Markup(0), "ornament", ornamentBead)
	_, change := plain.Do(c.do)
	damaged := []string{
		"cut@b1-99999+off", "cut@b7-2+off", "%", "%%%41;;;@@", "finger@b1-2+9", change.Address + ";jump@b1-1",
		strings.Repeat("x", 5000), strings.Repeat(change.Address+";", 300), "%F0%9F%8E%B5", "<svg/onload=alert(1)>",
	}
	for _, w := range ways() {
		home := w.home(t, lessonFolder(t))
		for _, address := range damaged {
			t.Run(w.name+"/"+address[:min(12, len(address))], func(t *testing.T) {
				b := newTab(t, home)
				b.open(home + lessonPage + "#" + address)
				seen := b.hash() // as the browser escapes it
				want := engine.Open(lessonTunes, seen, "")
				if want.Markup(0) == "" {
					t.Fatal("the engine gives an empty page")
				}
				b.shows(want)
				b.click(c.id)
				b.did(want.Do(find(t, want.Markup(0), "the same ornament", func(d control) bool { return d.id == c.id }).do))
			})
		}
	}
}

// Another address in the same page is another choice; a link to a heading or to
// the lesson is none.
func TestAddressTyped(t *testing.T) {
	for _, w := range ways() {
		t.Run(w.name, func(t *testing.T) {
			home := w.home(t, lessonFolder(t))
			b := newTab(t, home)
			b.open(home + lessonPage)
			plain := engine.Open(lessonTunes, "", "")
			// Something in each tune: coming back must reach them all.
			c := find(t, plain.Markup(0), "ornament", ornamentBead)
			d := find(t, plain.Markup(1), "ornament", ornamentBead)
			there, _ := plain.Do(c.do)
			_, change := there.Do(d.do)
			there = engine.Open(lessonTunes, change.Address, "")
			b.do(chromedp.Evaluate[chromedp.Void](`location.hash = ` + strconv.Quote(change.Address)))
			b.shows(there)
			b.do(chromedp.Evaluate[chromedp.Void](`location.hash = document.querySelector("h2[id]").id`))
			time.Sleep(100 * time.Millisecond)
			b.shows(there)
			b.do(chromedp.Evaluate[chromedp.Void](`history.go(-2)`))
			b.shows(plain)
		})
	}
}

// held is the lesson over http with an engine that does not come until let is
// called.
func held(t *testing.T) (home string, let func()) {
	may := make(chan struct{})
	home = serve(t, lessonFolder(t), func(_ http.ResponseWriter, r *http.Request) bool {
		if path.Ext(r.URL.Path) == ".wasm" {
			<-may
		}
		return false
	})
	let = sync.OnceFunc(func() { close(may) })
	t.Cleanup(let)
	return home, let
}

// A click that comes before the engine can answer is answered once, later.
func TestEarlyClick(t *testing.T) {
	plain := engine.Open(lessonTunes, "", "")
	for _, will := range []func(control) bool{ornamentButton, ornamentBead} {
		c := find(t, plain.Markup(0), "ornament", will)
		t.Run(c.tag, func(t *testing.T) {
			home, let := held(t)
			b := newTab(t, home)
			b.do(chromedp.Navigate(home + lessonPage))
			if look[bool](b, `!!document.querySelector(".live")`) {
				t.Fatal("the tune answers before its engine is there, so this test is blind")
			}
			b.click(c.id)
			b.click(c.id)
			let()
			b.untilLive()
			b.did(plain.Do(c.do))
		})
	}
}

// When the engine wakes nothing jumps under the reader's eyes.
func TestNothingJumps(t *testing.T) {
	home, let := held(t)
	b := newTab(t, home)
	b.do(chromedp.Navigate(home + lessonPage))
	const places = `[...document.querySelectorAll("section.ready, section.ready svg, section.ready button")].map(e => Math.round(e.getBoundingClientRect().top + scrollY))`
	before := look[[]int](b, places)
	let()
	b.untilLive()
	if after := look[[]int](b, places); !slices.Equal(before, after) {
		t.Errorf("the parts of the tunes were at %v, and are at %v", before, after)
	}
}

// The engine is not asked for before a tune is near; a far one wakes it late.
func TestWaitsUntilNear(t *testing.T) {
	home := serve(t, lessonFolder(t), nil)
	b := newTab(t, home)
	b.early(`document.addEventListener("readystatechange", () => { // before the loader runs
		const far = document.createElement("div"); far.id = "far"; far.style.height = "9000px";
		document.body.prepend(far); }, {once: true})`)
	b.do(chromedp.Navigate(home + lessonPage))
	time.Sleep(300 * time.Millisecond)
	if asked := strings.Join(b.asked, " "); strings.Contains(asked, ".wasm") {
		t.Fatalf("the engine is asked for although no tune is near: %s", asked)
	}
	b.do(chromedp.Evaluate[chromedp.Void](`document.getElementById("b1").scrollIntoView()`))
	b.untilLive()
}

// Where the engine cannot be had as it is, it comes as a script; where it cannot
// be had at all, the printed page stays and one line in each tune says so.
func TestEngineCannotBeHad(t *testing.T) {
	gone := func(kinds string) func(w http.ResponseWriter, r *http.Request) bool {
		return func(w http.ResponseWriter, r *http.Request) bool {
			is := kinds != "" && regexp.MustCompile(kinds).MatchString(path.Base(r.URL.Path))
			if is {
				http.NotFound(w, r)
			}
			return is
		}
	}
	plain := engine.Open(lessonTunes, "", "")
	t.Run("only not as it is", func(t *testing.T) {
		b := newTab(t, "")
		b.open(serve(t, lessonFolder(t), gone(`\.wasm$`)) + lessonPage)
		b.shows(plain)
	})
	for name, kinds := range map[string]string{"not at all": `^engine`, "not its start": `^(exec|wasm_exec)`} {
		t.Run(name, func(t *testing.T) {
			b := newTab(t, "")
			b.do(chromedp.Navigate(serve(t, lessonFolder(t), gone(kinds)) + lessonPage))
			b.until("a line says why", fmt.Sprintf(`document.querySelectorAll("section.ready > p.quiet").length === %d`, len(lessonTunes)))
			b.shot("engine-" + strings.ReplaceAll(name, " ", "-") + ".png")
			b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("p.quiet").forEach(p => p.remove())`))
			b.shows(plain)
		})
	}
}

// A browser that refuses storage, or to write the address, still answers.
func TestRefusals(t *testing.T) {
	refusals := map[string]string{
		"storage": `Object.defineProperty(window, "localStorage", {get() { throw new DOMException("no", "SecurityError") }})`,
		"address": `history.replaceState = () => { throw new DOMException("no", "SecurityError") }`,
	}
	plain := engine.Open(lessonTunes, "", "")
	c := find(t, plain.Markup(0), "ornament", ornamentBead)
	for name, script := range refusals {
		t.Run(name, func(t *testing.T) {
			home := serve(t, lessonFolder(t), nil)
			b := newTab(t, home)
			b.early(script)
			b.open(home + lessonPage)
			b.click(c.id)
			changed, _ := plain.Do(c.do)
			b.shows(changed)
		})
	}
}
