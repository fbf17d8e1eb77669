//go:build js && wasm

// Package main is the engine in the reader's browser: text in, markup out. It decides nothing itself.
package main

import (
	"syscall/js"

	"honnef.co/go/js/dom/v2"

	"readyhand/engine"
)

const storageKey = "readyhand" // names the one line this page keeps in local storage

// widget is the page in front of the reader: one state, and where it is shown.
type widget struct {
	course  engine.Course
	page    engine.Page
	texts   []string            // the ABC of every block, as the page holds it
	blocks  []*dom.BasicElement // the sections that show them, in the same order
	address string              // the page address as last read or written, without #
	kept    string              // what local storage holds, as far as known
	opened  engine.Page         // as it was opened
	checked bool                // the page was found to show that
	last    *engine.Change      // the last one, until it is written down
	rest    js.Func             // finish, once commands are listened to
}

func main() {
	w := &widget{kept: storage("getItem", storageKey)}
	if house := document().Get("body").Call("getAttribute", "data-house"); house.Type() == js.TypeString {
		w.course, _ = engine.NewCourse(house.String())
	}
	sections := document().Call("querySelectorAll", "section.ready")
	for i := range sections.Length() {
		section := sections.Index(i)
		w.blocks = append(w.blocks, element(section))
		w.texts = append(w.texts, section.Call("querySelector", "pre.abc").Get("textContent").String())
	}
	if choice, _ := address(); !w.open(choice) {
		return // the page stays as it was printed, and the loader says so
	}
	w.opened = w.page
	w.listen()
	document().Call("dispatchEvent", js.Global().Get("Event").New("readyhand")) // the loader waits for it
	select {}
}

// open shows the page with this address, sets only the blocks that differ, and says whether it could.
func (w *widget) open(address string) (ok bool) {
	defer excuse()
	w.address = address
	w.page = w.course.Open(w.texts, address, w.kept)
	var parts []engine.Part
	for i, block := range w.blocks {
		if !w.rest.IsUndefined() || !w.page.AsBuilt(i) {
			parts = append(parts, w.block(i))
		}
		block.Underlying().Get("classList").Call("add", "live")
	}
	show(parts, nil, "")
	return true
}

// excuse turns a panic into one quiet line in the tune that is being used: what the page shows stays.
func excuse() {
	if recover() == nil {
		return
	}
	for _, where := range []string{"section.ready:focus-within .says", "section.ready .says"} {
		if says := document().Call("querySelector", where); !says.IsNull() {
			element(says).SetTextContent("That did not work out, so the page stays as it was. Try something else, or load it again.")
			return
		}
	}
}

// address gives the choice in the page address, unless it is a link to a place in the lesson.
func address() (choice string, link bool) {
	hash := js.Global().Get("location").Get("hash").String()
	if hash == "" || !document().Call("getElementById", hash[1:]).IsNull() {
		return "", hash != ""
	}
	return hash[1:], false
}

// storage asks local storage, which keeps harp and hand for every lesson. A browser may refuse even to look at it
// (for a page from disk, or by the reader's settings); asked through Reflect, as a call, the refusal is a panic Go
// can recover from. Then they last as long as the page.
func storage(method string, args ...any) (kept string) {
	defer func() { _ = recover() }()
	if v := js.Global().Get("Reflect").Call("get", js.Global(), "localStorage").Call(method, args...); v.Type() == js.TypeString {
		kept = v.String()
	}
	return kept
}
