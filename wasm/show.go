//go:build js && wasm

package main

import (
	"syscall/js"

	"honnef.co/go/js/dom/v2"

	"readyhand/engine"
)

// do obeys one command and sets only what changed; what can wait is left for later.
func (w *widget) do(command string) {
	page, change := w.page.Prompt(command)
	w.page, w.last = page, &change
	w.later()
	if show(change.Parts, change.Sets, change.Focus) {
		return
	}
	var parts []engine.Part // whole blocks
	for i := range w.blocks {
		parts = append(parts, w.block(i))
	}
	show(append(parts, change.Parts...), nil, change.Focus)
}

func (w *widget) block(i int) engine.Part {
	return engine.Part{ID: w.blocks[i].GetAttribute("id"), HTML: w.page.Markup(i)}
}

// show has the loader set parts, and what is set in the elements of others, and keep the keyboard where it is, or
// give it to the element named focus. All goes over at once: a single word to the browser from here takes
// microseconds. It does nothing, and says so, where a browser that translates has put elements of its own.
func show(parts []engine.Part, sets []engine.Set, focus string) (shown bool) {
	whole, single := []any{}, []any{}
	for _, p := range parts {
		whole = append(whole, p.ID, p.HTML)
	}
	for _, s := range sets {
		single = append(single, s.Part, s.Of, s.Element, s.Name, s.Value)
	}
	return js.Global().Call("readyhandShow", whole, single, focus).Bool()
}

// later sees to the rest when the change is on the screen and the page is quiet, after 300 ms in any case (guess).
func (w *widget) later() {
	js.Global().Call("requestIdleCallback", w.rest, map[string]any{"timeout": 300})
}

// finish writes down what the last command changed, shows what could wait, and at first checks the first block.
func (w *widget) finish(js.Value) {
	if w.last != nil {
		w.readdress(w.last.Address)
		w.keep()
	}
	if !w.checked && w.opened.AsBuilt(0) && w.opened.Sum(0) != w.blocks[0].GetAttribute("data-sum") {
		show([]engine.Part{w.block(0)}, nil, "")
	}
	w.checked = true
	show(w.page.Rest(), nil, "")
}

// keep has local storage keep what the last command left to be kept; with that it is written down.
func (w *widget) keep() {
	if c := w.last; c != nil && c.Keep != w.kept {
		w.kept = c.Keep
		storage("setItem", storageKey, w.kept)
	}
	w.last = nil
}

// readdress writes the choice into the page address, where the browser allows it.
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

// element wraps v as it is: the bindings' own way asks a table of every kind of element, which a reader would load.
func element(v js.Value) *dom.BasicElement {
	return &dom.BasicElement{BasicNode: &dom.BasicNode{Value: v}}
}
