package engine

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/choice"
	"readyhand/engine/draw"
	"readyhand/engine/ornament"
)

// Page is all tune blocks of one lesson page and one choice. It is a value: Do
// gives a new one. A block is worked out when it is asked for.
type Page struct {
	blocks []Block
	shown  []*shown
	choice choice.Choice
	past   []past   // what undo goes back to, the oldest first
	kept   string   // what local storage holds
	notes  []string // what could not be read of the address
	last   int      // the block that changed last
}

// past is what a command replaced.
type past struct {
	choice choice.Choice
	kept   string
}

// shown is one block as it stands.
type shown struct {
	choice string // what was chosen for it, and whether it says that the harp is not the reader's own
	answer Answer
	drawn  draw.Drawn
	late   bool   // the parts that may come later are there too
	page   *shown // the one whose late parts the browser's page still has; nil if they are its own
	markup string // "" until it is asked for
}

// Part is the markup inside the element with this id.
type Part = draw.Part

// Change is what the browser has to do after a command: effects as data.
type Change struct {
	Parts   []Part // those whose markup changed, the block's live region among them
	Sets    []Set  // what changed in the elements of other parts
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
	return open(Course{}, blocks, address, kept)
}

func open(course Course, blocks []string, address, kept string) Page {
	p := Page{kept: kept}
	for i, text := range blocks {
		p.blocks = append(p.blocks, course.Read(text))
		p.blocks[i].lately = &lately{}
		p.choice = p.choice.Knowing(name(i), p.blocks[i].Own)
	}
	own, _ := p.choice.Read(kept)
	own = own.Kept()
	said, dropped := p.choice.ReadAddress(address)
	for _, d := range dropped {
		p.notes = append(p.notes, "A part of this page's address could not be read and was left out: "+d.Message)
	}
	// A harp in the address is taken as a whole: a mixture would be nobody's.
	p.choice = said.Over(own.OnlyHouse())
	if said.OnlyHarp().Empty() {
		p.choice = said.Over(own)
	}
	p.shown = make([]*shown, len(blocks))
	return p
}

// theirs reports whether the address brought another harp than the one kept.
func (p Page) theirs() bool {
	own, _ := p.choice.Nothing().Read(p.kept)
	return !own.OnlyHarp().Empty() && !sameHarp(own, p.choice)
}

// sameHarp reports whether two choices have the same harp and hand.
func sameHarp(c, d choice.Choice) bool {
	c, d = c.OnlyHarp(), d.OnlyHarp()
	return c.Harp().Same(d.Harp()) && c.Hand("right") == d.Hand("right")
}

func name(i int) string { return "b" + strconv.Itoa(i+1) }

// show gives a block as it stands; what was worked out before serves as far as
// nothing was said that concerns it.
func (p Page) show(i int) *shown {
	c := p.choice.InBlock(name(i))
	before, said := p.shown[i], c.String()
	if i == 0 && p.theirs() {
		said += ";theirs"
	}
	if before != nil && before.choice == said {
		return before
	}
	s := &shown{choice: said}
	if before != nil {
		s.answer = p.blocks[i].answer(c, &before.answer)
		s.page = before.onPage()
	} else {
		s.answer = p.blocks[i].answer(c, nil)
	}
	var notes []string
	theirs := i == 0 && p.theirs()
	if i == 0 {
		notes = p.notes
	}
	if x := s.answer.Chart; x != nil {
		v := x.view(name(i), &s.answer)
		v.Notes, v.Theirs = notes, theirs
		s.drawn.Parts, s.late = draw.ChartBlock(v), true
	} else {
		s.draw(before, name(i), notes, theirs)
	}
	p.shown[i] = s
	return s
}

// draw draws a tune, but for what may come later; what is the same as before is
// taken from there.
func (s *shown) draw(before *shown, name string, notes []string, theirs bool) {
	var drawn *draw.Drawn
	if before != nil {
		drawn = &before.drawn
	}
	v := s.answer.view(name, notes, drawn)
	v.Theirs = theirs
	s.drawn = draw.Redraw(v, drawn)
}

// whole gives a block with all its parts.
func (p Page) whole(i int) *shown { return p.show(i).whole() }

// Answer gives block i (from 0) as it stands.
func (p Page) Answer(i int) Answer { return p.show(i).answer }

// Markup gives the whole inside of block i (from 0), as the static page holds it.
func (p Page) Markup(i int) string {
	s := p.whole(i)
	if s.markup == "" {
		s.markup = draw.Skeleton(s.drawn.Parts)
	}
	return s.markup
}

// Parts gives the parts of block i (from 0), in the order of the page.
func (p Page) Parts(i int) []Part { return p.whole(i).drawn.Parts }

// AsBuilt reports whether block i shows what the static page holds: nothing was
// chosen for it, and nothing is to be said above it.
func (p Page) AsBuilt(i int) bool {
	return p.choice.InBlock(name(i)).Empty() && (i > 0 || len(p.notes) == 0 && !p.theirs())
}

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
// several of them joined by ; that are obeyed together and taken back together,
// "undo", "as written", which puts everything back but what is kept for every
// lesson, or "my harp", which leaves the harp that the address brought.
func (p Page) Do(command string) (Page, Change) { return p.obeyed(command, true) }

// obeyed is Do, or else Prompt.
func (p Page) obeyed(command string, whole bool) (Page, Change) {
	next := p
	switch command {
	case "undo":
		if len(p.past) == 0 {
			return p, p.only("There is nothing to take back.")
		}
		last := len(p.past) - 1
		next.choice, next.kept, next.past = p.past[last].choice, p.past[last].kept, p.past[:last:last]
		return next.redrawn(p, command, whole)
	case "as written":
		next.choice = p.choice.Kept()
	case "my harp":
		own, _ := p.choice.Nothing().Read(p.kept)
		next.choice = p.choice.WithoutHarp().Over(own.OnlyHarp())
	default:
		said, plain, fault := p.obey(command)
		if fault != "" {
			return p, p.only(fault)
		}
		next.choice = plain
		next.kept = p.keep(said, plain)
	}
	if !asks(command) && !next.choice.Equal(p.choice) {
		next.past = append(p.past[:len(p.past):len(p.past)], past{p.choice, p.kept})
		next.past = next.past[max(0, len(next.past)-mostUndo):]
	}
	return next.redrawn(p, command, whole)
}

// keep gives what is kept for every lesson once something was said: of harp and
// house that of which it was said, whole, and what was kept of the other. A house
// fingering that is only the course's own again need not be kept.
func (p Page) keep(said, plain choice.Choice) string {
	own, _ := p.choice.Nothing().Read(p.kept)
	harp, house := own.OnlyHarp(), own.OnlyHouse()
	if now := said.OnlyHarp(); !now.Equal(p.choice.OnlyHarp()) {
		harp = now
	}
	if now := plain.OnlyHouse(); !now.Equal(p.choice.OnlyHouse()) {
		house = now
	}
	if both := house.Over(harp); !both.Equal(own) {
		return both.String()
	}
	return p.kept
}

// obey gives the choice after a sentence, as it was said and without what is
// needless, or says what is wrong with it.
func (p Page) obey(command string) (said, plain choice.Choice, wrong string) {
	if first, rest, several := strings.Cut(command, ";"); several {
		return p.obeyAll(first, rest)
	}
	said, fault := choice.Do(p.choice, command)
	if fault != nil {
		return said, said, fault.Message + " " + fault.Suggestion
	}
	if wrong := p.missing(command); wrong != "" {
		return said, said, wrong
	}
	i, _, ok := place(command)
	plain = p.plain(said, command)
	if ok && plain.Equal(p.choice) {
		// What changes nothing may still have a reason to say.
		before, after := p.show(i).answer, p.blocks[i].answer(said.InBlock(name(i)), nil)
		wrong = strings.Join(fresh(before.Remarks, after.Remarks), " ")
	}
	return said, plain, wrong
}

// obeyAll obeys several sentences, or none if one of them is wrong.
func (p Page) obeyAll(first, rest string) (said, plain choice.Choice, wrong string) {
	said = p.choice
	for _, sentence := range append([]string{first}, strings.Split(rest, ";")...) {
		next, fault := choice.Do(said, sentence)
		if fault != nil {
			return said, said, fault.Message + " " + fault.Suggestion
		}
		if wrong := p.missing(sentence); wrong != "" {
			return said, said, wrong
		}
		said = next
	}
	return said, said, ""
}

// missing says that a sentence is about a tune or a note that is not there.
func (p Page) missing(sentence string) string {
	i, written, ok := place(sentence)
	switch {
	case ok && i >= len(p.blocks):
		return "There is no tune " + name(i) + " on this page."
	case ok && written > 0 && !p.blocks[i].has(written):
		return "There is no note " + strconv.Itoa(written) + " in this tune."
	}
	return ""
}

// place reads the block (from 0) and note that a command speaks of: "cut@b2-12
// off" is 1 and 12, "tempo@b2 ..." 1 and 0.
func place(command string) (block, written int, ok bool) {
	word, _, _ := strings.Cut(command, " ")
	_, at, found := strings.Cut(word, "@b")
	if !found {
		return 0, 0, false
	}
	b, n, _ := strings.Cut(at, "-")
	block, err := strconv.Atoi(b)
	written, _ = strconv.Atoi(n)
	return block - 1, written, err == nil && block > 0
}

// plain leaves out of a choice what was just said, where it only says again what
// the tune, or the usual harp, has without it: so that the address holds what
// differs. What is offered, and a harp other than the usual, is never left out.
func (p Page) plain(c choice.Choice, command string) choice.Choice {
	subject := c.Subject(command)
	if strings.HasPrefix(subject, "offer") || subject == "transpose" && command != "transpose 0" {
		return c // a key that cannot be is to be told of
	}
	said := strings.Split(c.String(), ";")
	rest := slices.DeleteFunc(slices.Clone(said), func(sentence string) bool { return c.Subject(sentence) == subject })
	d, dropped := c.Nothing().Read(strings.Join(rest, ";"))
	if len(dropped) == 0 && sameHarp(c, d) && p.same(c, d) {
		return d
	}
	return c
}

// same reports whether two choices make the same of every block.
func (p Page) same(c, d choice.Choice) bool {
	for i, b := range p.blocks {
		x, y := c.InBlock(name(i)).Over(b.Own), d.InBlock(name(i)).Over(b.Own)
		if x.Equal(y) {
			continue
		}
		if b.IsChart() && (x.Hand("right") != y.Hand("right") || x.Lifted() != y.Lifted() || !x.OnlyHouse().Equal(y.OnlyHouse())) {
			return false
		}
		whyX, askedX := x.Why()
		whyY, askedY := y.Why()
		tempoX, _ := x.Tempo()
		tempoY, _ := y.Tempo()
		if x.Calls() != y.Calls() || !b.IsChart() && (x.Shows(ornament.Irish) != y.Shows(ornament.Irish) || x.Shows(ornament.Welsh) != y.Shows(ornament.Welsh)) {
			return false
		}
		if whyX != whyY || askedX != askedY || tempoX != tempoY {
			return false
		}
		for voice := range b.Hands.Voices {
			h, k := p.hand(i, voice, x), p.hand(i, voice, y)
			if h.Rules.Hand != k.Rules.Hand || h.Rules.Lifted != k.Rules.Lifted || !h.given.Same(&k.given) {
				return false
			}
		}
	}
	return true
}

// hand gives one hand's part of a block for a choice, not solved; the one that is
// shown is at hand.
func (p Page) hand(i, voice int, c choice.Choice) *Hand {
	if s := p.show(i); s.answer.Choice.Equal(c) {
		return &s.answer.Hands[voice]
	}
	b, _ := p.blocks[i].transposed(c)
	h, _ := b.score(c, voice)
	return &h
}

// redrawn draws what concerns the new choice and compares it with the old page.
func (p Page) redrawn(before Page, command string, whole bool) (Page, Change) {
	c := Change{Address: p.choice.Address(), Keep: p.kept}
	p.shown = append([]*shown(nil), p.shown...)
	var changed []int
	for i := range p.blocks {
		if p.choice.InBlock(name(i)).Equal(before.choice.InBlock(name(i))) && (i > 0 || p.theirs() == before.theirs()) {
			continue
		}
		old := before.show(i)
		p.shown[i] = old
		now := p.show(i)
		if whole {
			old, now = before.whole(i), p.whole(i)
		}
		changed = append(changed, i)
		c.redraw(old, now, whole)
	}
	if len(changed) == 0 {
		return p, p.only("It is so already.")
	}
	if !slices.Contains(changed, p.last) {
		p.last = changed[0]
	}
	if p.last != before.last { // what was said there is about an earlier command
		c.Parts = append(c.Parts, draw.Says(name(before.last), ""))
	}
	c.Says = p.says(before, changed, command)
	if asks(command) {
		c.Parts = append(c.Parts, draw.Heard(name(p.last), c.Says))
	} else {
		c.Parts = append(c.Parts, draw.Says(name(p.last), c.Says))
	}
	if _, block, ok := p.asked(); ok && strings.Contains(command, ";") {
		c.Focus = block + "-why.close" // the button that was pressed may be gone
	}
	if id := before.takenAway(p, command); id != "" {
		c.Focus = id
	}
	if command == "why off" {
		if written, block, ok := before.asked(); ok {
			c.Focus = block + "-" + strconv.Itoa(written)
		}
	}
	return p, c
}

// asked gives the note whose finger is being explained.
func (p Page) asked() (written int, block string, ok bool) {
	for i := range p.blocks {
		if n, ok := p.choice.InBlock(name(i)).Why(); ok {
			return n, name(i), true
		}
	}
	return 0, "", false
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
