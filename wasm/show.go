//go:build js && wasm

package main

import (
	"syscall/js"

	"honnef.co/go/js/dom/v2"

	"readyhand/engine"
)

// do obeys one command and sets only what changed; what can wait is left for later.
func (w *widget) do(command string) {
	restore := keepFocus()
	page, change := w.page.Prompt(command)
	w.page, w.last = page, &change
	show(change.Parts)
	elements := js.Null()
	for i, s := range change.Sets {
		if i == 0 || s.Part != change.Sets[i-1].Part {
			elements = byID(s.Part).Call("querySelectorAll", "*")
		}
		if e := element(elements.Index(s.Element)); s.Name == "" {
			e.SetTextContent(s.Value)
		} else {
			e.SetAttribute(s.Name, s.Value)
		}
	}
	restore(change.Focus)
	w.later()
}

// later sees to the rest when the change is on the screen.
func (w *widget) later() {
	wait := "requestIdleCallback"
	if js.Global().Get(wait).IsUndefined() {
		wait = "setTimeout"
	}
	js.Global().Call(wait, w.rest)
}

// finish writes down what the last command changed, and shows what could wait. When
// it is called first it holds the first block as it was opened against the engine.
func (w *widget) finish(js.Value) {
	if c := w.last; c != nil {
		w.last = nil
		w.readdress(c.Address)
		if c.Keep != w.kept {
			w.kept = c.Keep
			storage("setItem", storageKey, w.kept)
		}
	}
	restore := keepFocus()
	if first := w.blocks[0]; !w.checked && w.opened.AsBuilt(0) && w.opened.Sum(0) != first.GetAttribute("data-sum") {
		set(first, w.page.Markup(0))
	}
	w.checked = true
	show(w.page.Rest())
	restore("")
}

// show sets whole parts.
func show(parts []engine.Part) {
	for _, part := range parts {
		if v := byID(part.ID); !v.IsNull() {
			set(element(v), part.HTML)
		}
	}
}

// set replaces what is inside an element; what the reader has folded or
// unfolded in it stays so, as long as there is as much to fold.
func set(e *dom.BasicElement, html string) {
	before := e.Underlying().Call("querySelectorAll", "details")
	e.SetInnerHTML(html)
	after := e.Underlying().Call("querySelectorAll", "details")
	for i := range after.Length() {
		if after.Length() == before.Length() {
			after.Index(i).Set("open", before.Index(i).Get("open"))
		}
	}
}

// keepFocus notes who has the keyboard before a redraw. restore gives it to the
// element named want, else to the same one or its successor by id, else to the
// block, so that the next Tab goes on from there. Only a wanted one scrolls.
func keepFocus() (restore func(want string)) {
	had := document().Get("activeElement")
	id, block := "", js.Null()
	if !had.IsNull() {
		id, block = had.Get("id").String(), had.Call("closest", "section.ready")
	}
	return func(want string) {
		to := byID(want)
		if to.IsNull() && (block.IsNull() || had.Get("isConnected").Bool()) {
			return
		} else if to.IsNull() {
			to = byID(id)
		}
		if to.IsNull() {
			block.Call("setAttribute", "tabindex", "-1")
			to = block
		}
		to.Call("focus", map[string]any{"preventScroll": want == ""})
	}
}

// readdress writes the choice into the page address. Where the browser refuses
// that, for a page from disk, the choice lasts as long as the page.
func (w *widget) readdress(address string) {
	if address == w.address {
		return
	}
	defer func() { _ = recover() }()
	w.address = address
	location := js.Global().Get("location")
	url := location.Get("pathname").String() + location.Get("search").String()
	if address != "" {
		url += "#" + address
	}
	js.Global().Get("history").Call("replaceState", nil, "", url)
}

func document() js.Value { return js.Global().Get("document") }

// byID gives the element with this id, or null.
func byID(id string) js.Value { return document().Call("getElementById", id) }

// element wraps v as it is: the bindings' own way asks a table of every kind of
// element, which a reader would have to download.
func element(v js.Value) *dom.BasicElement {
	return &dom.BasicElement{BasicNode: &dom.BasicNode{Value: v}}
}
