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
	show(change.Parts, change.Sets, change.Focus)
	w.later()
}

// show has the loader set parts, and what is set in the elements of others, and keep
// the keyboard where it is, or give it to the element named focus. All goes over at
// once: a single word to the browser from here takes microseconds.
func show(parts []engine.Part, sets []engine.Set, focus string) {
	whole, single := []any{}, []any{}
	for _, p := range parts {
		whole = append(whole, p.ID, p.HTML)
	}
	for _, s := range sets {
		single = append(single, s.Part, s.Element, s.Name, s.Value)
	}
	js.Global().Call("readyhandShow", whole, single, focus)
}

// later sees to the rest when the change is on the screen and the page is quiet, after
// 300 ms in any case (guess).
func (w *widget) later() {
	js.Global().Call("requestIdleCallback", w.rest, map[string]any{"timeout": 300})
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
	if !w.checked && w.opened.AsBuilt(0) && w.opened.Sum(0) != w.blocks[0].GetAttribute("data-sum") {
		show([]engine.Part{{ID: w.blocks[0].GetAttribute("id"), HTML: w.page.Markup(0)}}, nil, "")
	}
	w.checked = true
	if parts := w.page.Rest(); len(parts) > 0 {
		show(parts, nil, "")
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

// element wraps v as it is: the bindings' own way asks a table of every kind of
// element, which a reader would have to download.
func element(v js.Value) *dom.BasicElement {
	return &dom.BasicElement{BasicNode: &dom.BasicNode{Value: v}}
}
