package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/explain"
	"readyhand/engine/source"
)

// Page is all tune blocks of one lesson page and one choice. It is a value: Do
// gives a new one.
type Page struct {
	blocks []Block
	shown  []shown
	choice choice.Choice
	past   []choice.Choice // what undo goes back to, the oldest first
	kept   string          // what local storage holds
	notes  []string        // what could not be read of the address
	last   int             // the block that changed last
}

// shown is one block as it stands.
type shown struct {
	choice string // what was chosen for it
	answer Answer
	parts  []draw.Part
}

// Part is the markup inside the element with this id.
type Part = draw.Part

// Change is what the browser has to do after a command: effects as data.
type Change struct {
	Parts   []Part // those whose markup changed, the block's live region among them
	Says    string // what the live region says, as plain text
	Address string // the page address after its #, without it
	Keep    string // what local storage keeps for every lesson: harp and hand
	Focus   string // id of the element to focus; "" leaves it
}

// mostUndo is how many commands can be taken back (guess: more than anyone tries).
const mostUndo = 200

// Open reads the blocks of a page, named b1, b2, ... in order. address is the
// choice in the page address (without #), kept what local storage holds; both
// may be empty or damaged: what cannot be read is dropped with a note.
func Open(blocks []string, address, kept string) Page {
	p := Page{kept: kept}
	own, _ := choice.Parse(kept)
	said, dropped := choice.ParseAddress(address)
	for _, d := range dropped {
		p.notes = append(p.notes, "A part of this page's address could not be read and was left out: "+d.Message)
	}
	p.choice = said.Over(own.OnlyHarp())
	for _, text := range blocks {
		p.blocks = append(p.blocks, Read(text))
	}
	p.shown = make([]shown, len(blocks))
	for i := range p.blocks {
		p.shown[i] = p.show(i)
	}
	return p
}

func name(i int) string { return "b" + strconv.Itoa(i+1) }

// show works a block out, or gives it as it stands where nothing was said that
// concerns it.
func (p Page) show(i int) shown {
	c := p.choice.InBlock(name(i))
	s := shown{choice: c.String()}
	if s.choice == p.shown[i].choice && p.shown[i].parts != nil {
		return p.shown[i]
	}
	s.answer = p.blocks[i].answer(c)
	var notes []string
	if i == 0 {
		notes = p.notes
	}
	s.parts = draw.Block(s.answer.view(name(i), notes))
	return s
}

// Answer gives block i (from 0) as it stands.
func (p Page) Answer(i int) Answer { return p.shown[i].answer }

// Markup gives the whole inside of block i (from 0), as the static page holds it.
func (p Page) Markup(i int) string { return draw.Skeleton(p.shown[i].parts) }

// Sum is a checksum of Markup(i), the section's data-sum: 32-bit FNV-1a, in
// hexadecimal.
func (p Page) Sum(i int) string {
	sum := uint32(2166136261)
	for _, b := range []byte(p.Markup(i)) {
		sum = (sum ^ uint32(b)) * 16777619
	}
	return strconv.FormatUint(uint64(sum), 16)
}

// Do obeys one command, the text of a control's data-do: a sentence of a choice,
// "undo", or "as written", which puts everything back but harp and hand.
func (p Page) Do(command string) (Page, Change) {
	next := p
	next.notes = nil
	switch command {
	case "undo":
		if len(p.past) == 0 {
			return p, p.only("There is nothing to take back.")
		}
		last := len(p.past) - 1
		next.choice, next.past = p.past[last], p.past[:last:last]
	case "as written":
		next.choice = p.choice.OnlyHarp()
	default:
		c, fault := choice.Do(p.choice, command)
		if fault != nil {
			return p, p.only(fault.Message + " " + fault.Suggestion)
		}
		next.choice = c
	}
	if command != "undo" && !asks(command) && !next.choice.Equal(p.choice) {
		next.past = append(p.past[:len(p.past):len(p.past)], p.choice)
		next.past = next.past[max(0, len(next.past)-mostUndo):]
	}
	if harp := next.choice.OnlyHarp(); !harp.Equal(p.choice.OnlyHarp()) {
		next.kept = harp.String()
	}
	return next.redrawn(p, command)
}

// asks reports a command that only looks, and is not worth taking back.
func asks(command string) bool { return strings.HasPrefix(command, "why") }

// redrawn draws what concerns the new choice and compares it with the old page.
func (p Page) redrawn(before Page, command string) (Page, Change) {
	c := Change{Address: p.choice.Address(), Keep: p.kept}
	p.shown = append([]shown(nil), p.shown...)
	for i := range p.blocks {
		old := before.shown[i]
		p.shown[i] = p.show(i)
		if p.shown[i].choice == old.choice {
			continue
		}
		p.last = i
		now := p.shown[i].parts
		for k := range now {
			if k >= len(old.parts) || old.parts[k] != now[k] {
				c.Parts = append(c.Parts, now[k])
			}
		}
		says := p.says(i, old.answer, command)
		c.Parts = append(c.Parts, draw.Says(name(i), says))
		c.Says = strings.TrimSpace(c.Says + " " + says)
	}
	if command == "why off" {
		if written, block, ok := before.asked(); ok {
			c.Focus = block + "-" + strconv.Itoa(written)
		}
	}
	if len(c.Parts) == 0 {
		return p, p.only("It is so already.")
	}
	return p, c
}

// asked gives the note whose finger is being explained.
func (p Page) asked() (written int, block string, ok bool) {
	for i := range p.shown {
		if n, ok := p.shown[i].answer.Choice.Why(); ok {
			return n, name(i), true
		}
	}
	return 0, "", false
}

// says tells what a command did in block i.
func (p Page) says(i int, before Answer, command string) string {
	after := p.shown[i].answer
	if asks(command) {
		written, ok := after.Choice.Why()
		if !ok {
			return ""
		}
		if w := after.why(written); w != nil {
			return w.Title + ". " + w.Text
		}
		return ""
	}
	words := fresh(before.Remarks, after.Remarks)
	for k := range after.Hands {
		if k < len(before.Hands) {
			words = append(words, explain.Change(
				explain.Played{Score: &before.Hands[k].Score, Plan: &before.Hands[k].Plan},
				explain.Played{Score: &after.Hands[k].Score, Plan: &after.Hands[k].Plan})...)
		}
	}
	return strings.Join(words, " ")
}

// only is a change of nothing but what the live region of the block that changed
// last says.
func (p Page) only(says string) Change {
	c := Change{Says: says, Address: p.choice.Address(), Keep: p.kept}
	if p.last < len(p.blocks) {
		c.Parts = []Part{draw.Says(name(p.last), says)}
	}
	return c
}

// fresh gives the messages of remarks that were not there before.
func fresh(before, after []source.Remark) []string {
	var words []string
	for _, r := range after {
		if !slices.Contains(before, r) {
			words = append(words, r.Message)
		}
	}
	return words
}
