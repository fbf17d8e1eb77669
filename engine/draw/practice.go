package draw

// Drill is an exercise from the tune, in words and notes.
type Drill struct {
	Title, Why, How string
	Notes           []string    // what else there is to say, a paragraph each
	Columns         [][2]string // note by note: its strings and their fingers, or "|" in both
	ABC             string
}

// Calls is a list of late calls, see engine.Calls. Times are milliseconds.
type Calls struct {
	Says              string
	From, To, Bars    int // the bars called, and how many there are
	Turns, Ahead      int
	Own, All          bool // the tune has ornaments of its own; all are called
	Seed, Next        int  // this order, and another
	BeatMS, Beats, MS int  // a beat, beats of a bar, and from turn to turn
	List              []Call
}

// Call is one late call: when it is said, and when the note sounds that it is for.
type Call struct {
	Word, Note string
	At, Sounds int
}

// drills draws the exercises: their strings over their fingers, and the block to
// take away; nothing where there are none.
func drills(v View) string {
	if len(v.Drills) == 0 {
		return ""
	}
	var p pen
	p.element("p", v.Caution, "class", "care")
	for _, d := range v.Drills {
		p.tag("section", "class", "drill")
		p.element("h5", d.Title)
		p.element("p", d.Why)
		p.tag("div", "class", "scroll")
		p.tag("table")
		p.tag("tbody")
		for i, name := range [...]string{"strings", "fingers"} {
			p.tag("tr", "class", name)
			p.element("th", name, "scope", "row")
			for _, c := range d.Columns {
				if c[0] == "|" {
					p.element("td", [...]string{"set", ""}[i], "class", "anew")
					continue
				}
				p.element("td", c[i])
			}
			p.end("tr")
		}
		p.end("tbody")
		p.end("table")
		p.end("div")
		p.element("p", d.How)
		for _, note := range d.Notes {
			p.element("p", note, "class", "note")
		}
		p.element("pre", d.ABC, "class", "take")
		p.end("section")
	}
	return p.String()
}

// Offers of how often a part is played, and how many beats before its note an
// ornament is called (guesses).
var (
	turnsOffered = []int{4, 8, 16, 24, 32}
	aheadOffered = []int{1, 2, 3, 4}
)

// partsMost is how many parts of a tune are offered.
const partsMost = 32

// calls draws the late calls as a list to be read, with the times at which a page
// says them.
func calls(v View) string {
	c := v.Calls
	if c == nil {
		return ""
	}
	var p pen
	p.element("p", c.Says)
	p.tag("div", "class", "fields")
	p.choose(v, "bars", "calls@"+v.Name, "Bars", c.parts())
	p.choose(v, "turns", "turns@"+v.Name, "Turns", numbers(c.Turns, turnsOffered...))
	p.choose(v, "ahead", "ahead@"+v.Name, "Beats before the note", numbers(c.Ahead, aheadOffered...))
	if c.Own {
		what := current{"tune", []option{{"tune", "the tune's ornaments"}, {"all", "all that fits the hand"}}}
		if c.All {
			what.now = "all"
		}
		p.choose(v, "called", "called@"+v.Name, "Called", what)
	}
	p.end("div")
	if len(c.List) == 0 {
		return p.String()
	}
	p.tag("p", "class", "order")
	p.text("Order " + itoa(c.Seed) + " ")
	p.button(v.Name+"-seed", "tool", "seed@"+v.Name+" "+itoa(c.Next), "Another order")
	p.end("p")
	p.tag("ol", "class", "turns", "data-beat", itoa(c.BeatMS), "data-beats", itoa(c.Beats), "data-turn", itoa(c.MS))
	for _, call := range c.List {
		p.tag("li", "data-at", itoa(call.At), "data-note", itoa(call.Sounds))
		p.element("b", call.Word)
		p.element("span", " on "+call.Note)
		p.end("li")
	}
	p.end("ol")
	return p.String()
}

// parts lists pairs of bars, and the whole tune.
func (c *Calls) parts() current {
	var all []option
	bars := func(from, to int) option {
		text := itoa(from) + " to " + itoa(to)
		if from == to {
			text = itoa(from)
		}
		return option{itoa(from) + " " + itoa(to), text}
	}
	for from := 1; from <= c.Bars && len(all) < partsMost; from += 2 {
		all = append(all, bars(from, min(from+1, c.Bars)))
	}
	if c.Bars > 2 {
		all = append(all, option{"1 " + itoa(c.Bars), "all"})
	}
	return chosen(itoa(c.From)+" "+itoa(c.To), all...)
}
