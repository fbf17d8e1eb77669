package engine

// Page is all tune blocks of one lesson page and one choice. It is a value: Do
// gives a new one.
type Page struct{}

// Part is the markup inside the element with this id.
type Part struct{ ID, HTML string }

// Change is what the browser has to do after a command: effects as data.
type Change struct {
	Parts   []Part // those whose markup changed
	Says    string // what the live region announces
	Address string // the page address after its #, without it
	Keep    string // what local storage keeps for every lesson (harp and hand)
	Focus   string // id of the element to focus; "" leaves it
}

// Open reads the blocks of a page, named b1, b2, ... in order. address is the
// choice in the page address (without #), kept what local storage holds; both
// may be empty or damaged: what cannot be read is dropped with a note.
func Open(blocks []string, address, kept string) Page { return Page{} }

// Markup gives the whole inside of block i (from 0), as the static page holds it.
func (p Page) Markup(i int) string { return "" }

// Sum is a checksum of Markup(i), the section's data-sum.
func (p Page) Sum(i int) string { return "" }

// Do obeys one command, the text of a control's data-do.
func (p Page) Do(command string) (Page, Change) { return p, Change{} }
