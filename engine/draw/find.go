package draw

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
)

// Find is an ornament that may be played on the note asked about.
type Find struct {
	Name, Title string
	Class       int      // how ready the hand is: one of classes
	Asks        string   // "1 is on E already"
	Extra       string   // "3 more effort", once it is put there; "" if none
	Moves       []string // what moves then, bar by bar
	Decided     []string // what changes if it is decided on beforehand
	On          bool
	Prepared    bool     // it stands in the tune, or was put there: it can be made less likely
	Own         bool     // the reader put it there
	Clears      []string // what stands on the note and has to go for it, by name
}

// Older is a family of ornaments that is listed only if a reader asks for it.
type Older struct {
	Word, Title string // as in ids; on its button
	Do          string // lists it, or no longer
	On          bool
}

// classes are the five kinds of readiness, and what they have in common.
var classes = [...]struct{ name, says string }{
	{"In the hand", ""},
	{"Finger free", "It drops in when it is wanted."},
	{"Finger kept", "It rests ready on its string."},
	{"Placed again", "The hand as it lies has no way to it."},
	{"No time", ""},
}

const placedAgain, noTime = len(classes) - 2, len(classes) - 1

const nothingMoves = "Nothing moves."

// finds lists what may be played on the note asked about, the readiest first;
// what does not fit is folded. Each is put there with its switch, and taken away
// again.
func (p *pen) finds(note string, w *Why) {
	if len(w.Finds) == 0 {
		return
	}
	p.element("h5", "What can be played on it")
	for class, c := range classes {
		var here []*Find
		for i := range w.Finds {
			if w.Finds[i].Class == class {
				here = append(here, &w.Finds[i])
			}
		}
		switch {
		case len(here) == 0:
		case class == noTime:
			p.lacking(note, here)
		case class == placedAgain:
			p.again(note, here)
		default:
			p.tag("section", "class", "class")
			p.tag("h6")
			p.element("b", c.name+".")
			still := !slices.ContainsFunc(here, func(f *Find) bool { return len(f.Moves) > 0 })
			if class == 0 && still {
				p.text(" " + nothingMoves)
			} else if class > 0 {
				p.text(" " + c.says)
			}
			p.end("h6")
			p.fitting(note, here, class == 0 && still)
			p.end("section")
		}
	}
	p.older(note, w.Older)
}

// again folds those away for which the hand would have to be placed again, but for
// what stands there already.
func (p *pen) again(note string, list []*Find) {
	c := classes[placedAgain]
	var there, more []*Find
	for _, f := range list {
		if f.Prepared {
			there = append(there, f)
		} else {
			more = append(more, f)
		}
	}
	if len(there) > 0 {
		p.tag("section", "class", "class")
		p.tag("h6")
		p.element("b", c.name+".")
		p.text(" " + c.says)
		p.end("h6")
		p.fitting(note, there, false)
		p.end("section")
	}
	if len(more) == 0 {
		return
	}
	p.tag("details", "class", "class", "id", note+".again")
	p.tag("summary")
	p.element("b", c.name+":")
	if len(there) > 0 {
		p.text(" " + itoa(len(more)) + " more")
	} else {
		p.text(" " + itoa(len(more)) + ". " + c.says)
	}
	p.end("summary")
	p.fitting(note, more, false)
	p.end("details")
}

// fitting lists them; told says that it has been said that nothing moves for them.
func (p *pen) fitting(note string, list []*Find, told bool) {
	p.tag("ul", "class", "fitting")
	for _, f := range list {
		p.find(note, f, told)
	}
	p.end("ul")
}

// older asks for the families that are not listed without.
func (p *pen) older(note string, families []Older) {
	if len(families) == 0 {
		return
	}
	p.tag("p", "class", "pins", "role", "group", "aria-label", "Older families")
	p.element("span", "List too:", "class", "ask")
	for _, f := range families {
		p.button(note+".older."+f.Word, "level", f.Do, f.Title, "aria-pressed", truth(f.On))
	}
	p.end("p")
}

// find draws one; told says that it has been said that nothing moves for it.
func (p *pen) find(note string, f *Find, told bool) {
	p.tag("li")
	id := note + ".try." + f.Name
	verb := ""
	for _, name := range f.Clears {
		verb += name + "@" + note + " never;"
	}
	p.toggle(id, verb+f.Name+"@"+note, f.Title, f.On)
	if f.Own {
		p.button(id+".away", "small", f.Name+"@"+note+" never", "Take it away")
	}
	var words []string
	for _, text := range [...]string{f.Asks, f.Extra} {
		if text != "" {
			words = append(words, text)
		}
	}
	if len(words) > 0 {
		p.element("span", strings.Join(words, "; "), "class", "state")
	}
	if len(f.Moves) == 0 && !f.Prepared && !told {
		p.element("p", nothingMoves, "class", "moves")
	}
	p.about(id, f)
	p.end("li")
}

// about folds away what it is, what would move for it, and what deciding beforehand
// would change.
func (p *pen) about(id string, f *Find) {
	var holds []string
	if _, ok := ornament.Named(f.Name); ok {
		holds = append(holds, "what it is")
	}
	if len(f.Moves) > 0 {
		holds = append(holds, "what would move")
	}
	if len(f.Decided) > 0 {
		holds = append(holds, "if you decide beforehand")
	}
	if len(holds) == 0 {
		return
	}
	p.tag("details", "class", "about", "id", id+".about")
	p.element("summary", capital(strings.Join(holds, "; ")))
	p.pupil(f.Name)
	for _, lines := range [...][]string{f.Moves, f.Decided} {
		for _, line := range lines {
			p.element("p", line, "class", "moves")
		}
	}
	p.end("details")
}

// lacking folds those away that a note has no room for.
func (p *pen) lacking(note string, list []*Find) {
	p.tag("details", "id", note+".lacking")
	p.element("summary", classes[noTime].name+": "+itoa(len(list))+" more that do not fit here")
	p.tag("ul", "class", "lacking")
	for _, f := range list {
		text := f.Title
		if f.Asks != "" {
			text += ": " + f.Asks
		}
		p.element("li", text)
	}
	p.end("ul")
	p.end("details")
}

// Variants is how a placing may be played otherwise from the same strings.
type Variants struct {
	Count string // "There are four ways to play these notes from this one placing."
	Tabs  string // "1 on E, 2 on D and 3 on C, for all of them"
	Rows  []Variant
	Left  string // how many are not shown; "" if none
}

// Variant is one of them, note by note: what is struck on each, the note itself
// among it.
type Variant struct {
	Label string
	Notes [][]Struck
}

// Struck is one stroke: its string and finger.
type Struck struct {
	Name, Finger string
	Grace        bool // of an ornament
}

// variants draws them under one another, each note in its column as far as there
// is room for columns.
func (p *pen) variants(v *Variants) {
	if v == nil {
		return
	}
	p.tag("details", "class", "variants")
	p.element("summary", v.Count)
	p.element("p", v.Tabs, "class", "tabs")
	widths := make([]int, 0)
	for _, r := range v.Rows {
		for i, n := range r.Notes {
			if i == len(widths) {
				widths = append(widths, 1)
			}
			widths[i] = max(widths[i], len(n))
		}
	}
	p.tag("ul")
	for _, r := range v.Rows {
		p.tag("li")
		p.element("span", r.Label, "class", "label")
		for i, n := range r.Notes {
			p.tag("span", "class", "cell w"+itoa(min(widths[i], widest)))
			for _, s := range n {
				class := "struck"
				if s.Grace {
					class += " grace"
				}
				p.tag("span", "class", class)
				p.text(s.Name + " ")
				p.element("b", s.Finger)
				p.end("span")
			}
			p.end("span")
		}
		p.end("li")
	}
	p.end("ul")
	if v.Left != "" {
		p.element("p", v.Left)
	}
	p.end("details")
}

// widest is the most strokes a column keeps room for; longer ones are as wide as
// they are.
const widest = 5

// prepare draws how likely the ornaments are, all at once.
func (p *pen) prepare(v *View, words []string) {
	p.tag("p", "class", "pins all", "role", "group", "aria-label", "All ornaments, how likely")
	p.element("span", "All of them:", "class", "ask")
	for i, word := range words {
		p.button(v.Name+"-prepare"+itoa(i), "level", "prepare@"+v.Name+" "+word, word, "aria-pressed", truth(word == v.Prepare))
	}
	p.end("p")
}
