//go:build js && wasm

package main

import "syscall/js"

// listen sets one listener for each kind of event, on the whole page: they outlive every redraw.
func (w *widget) listen() {
	on(document(), "click", w.click)
	on(document(), "change", w.change)
	on(document(), "keydown", w.key)
	on(js.Global(), "hashchange", w.readdressed)
	on(js.Global(), "pagehide", w.finish)
	w.rest = heard(w.finish)
	w.later()
}

// on calls hear for every event of this kind at target.
func on(target js.Value, kind string, hear func(js.Value)) {
	target.Call("addEventListener", kind, heard(hear))
}

// heard is hear as the browser calls it.
func heard(hear func(event js.Value)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		defer excuse()
		hear(append(args, js.Undefined())[0])
		return nil
	})
}

// click obeys the button under the pointer.
func (w *widget) click(event js.Value) {
	if control := controlOf(event); !control.IsNull() && !is(control, fields) {
		event.Call("preventDefault")
		w.do(command(control))
	}
}

// change obeys a field: its command, and what was put into it.
func (w *widget) change(event js.Value) {
	if control := controlOf(event); !control.IsNull() && is(control, fields) {
		w.do(command(control) + " " + control.Get("value").String())
	}
}

// key makes drawn buttons answer as real ones do, and steps, closes and undoes.
func (w *widget) key(event js.Value) {
	control, block := controlOf(event), event.Get("target").Call("closest", "section.ready")
	if block.IsNull() || event.Get("altKey").Bool() {
		return
	}
	drawn := !control.IsNull() && is(control, drawnButtons)
	held := event.Get("ctrlKey").Bool() || event.Get("metaKey").Bool()
	switch name := event.Get("key").String(); {
	case held && name == "z" && !is(event.Get("target"), writing):
		event.Call("preventDefault")
		w.do("undo")
	case held:
	case name == "Escape" && !block.Call("querySelector", `[data-do="why off"]`).IsNull():
		w.do("why off")
	case drawn && (name == "Enter" || name == " "):
		event.Call("preventDefault")
		if !event.Get("repeat").Bool() {
			w.do(command(control))
		}
	case drawn && (name == "ArrowLeft" || name == "ArrowRight"):
		event.Call("preventDefault")
		step(block, control, name == "ArrowRight")
	}
}

// step moves the keyboard to the next bead of the block's diagram, or back.
func step(block, from js.Value, forward bool) {
	beads := js.Global().Get("Array").Call("from", block.Call("querySelectorAll", drawnButtons))
	to := beads.Call("indexOf", from).Int() - 1
	if forward {
		to += 2
	}
	if 0 <= to && to < beads.Length() {
		beads.Index(to).Call("focus")
	}
}

// readdressed shows the choice of an address that was typed or gone back to; a link to a place leaves it.
func (w *widget) readdressed(js.Value) {
	if a, link := address(); !link && a != w.address {
		w.keep() // the address of the last command, if it is not written yet, is gone by now
		w.open(a)
	}
}

// What a control is: fields are set and the others pressed; drawn buttons no
// browser presses by key; where one is writing, undo belongs to the browser.
const (
	fields       = "select, input, textarea"
	drawnButtons = `svg [role="button"][data-do]`
	writing      = `textarea, input:not([type="checkbox"], [type="radio"], [type="range"])`
)

func is(control js.Value, selector string) bool { return control.Call("matches", selector).Bool() }

// controlOf gives the control of a block an event came from, or null.
func controlOf(event js.Value) js.Value {
	return event.Get("target").Call("closest", "section.ready [data-do]")
}

// command is the sentence a control carries.
func command(control js.Value) string { return element(control).GetAttribute("data-do") }
