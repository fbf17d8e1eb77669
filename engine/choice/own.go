package choice

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// own is an ornament that a tune defines. It is heard in the tune's own lines
// only, so String does not say it; a page's choice knows it to understand what is
// said of it.
type own struct {
	block int
	row   ornament.Row
}

// Most ornaments a tune defines, strokes one has, and strings it goes from its note
// (guesses; three octaves are beyond any hand).
const (
	mostOwn     = 16
	mostStrokes = 12
	mostAway    = 21
)

// Ornaments gives the catalogue and, after it, the tune's own.
func (c Choice) Ornaments() []ornament.Row {
	list := ornament.Rows()
	for _, o := range c.own {
		if o.block == 0 {
			list = append(list, o.row)
		}
	}
	return list
}

// known gives the catalogue and what the tunes of a page define.
func (c Choice) known() []ornament.Row {
	list := ornament.Rows()
	for _, o := range c.own {
		list = append(list, o.row)
	}
	return list
}

// Ornament finds an ornament of the catalogue, or one of the tune's own.
func (c Choice) Ornament(name string) (ornament.Row, bool) { return c.row(0, name) }

// row finds an ornament as a block knows it; what only another block knows is
// understood too.
func (c Choice) row(block int, name string) (ornament.Row, bool) {
	if r, ok := ornament.Named(name); ok {
		return r, true
	}
	at := -1
	for i, o := range c.own {
		if o.row.Name == name && (at < 0 || o.block == block) {
			at = i
		}
	}
	if at < 0 {
		return ornament.Row{}, false
	}
	return c.own[at].row, true
}

// names gives the names by which ornaments can be spoken of, but for those of the
// families that are off unless asked for.
func (c Choice) names() []string {
	list := []string{grace}
	for _, r := range c.known() {
		if c.Shows(r.Family) {
			list = append(list, r.Name)
		}
	}
	return list
}

// Knowing gives a choice that understands what is said of the ornaments that a
// block's own lines define.
func (c Choice) Knowing(block string, lines Choice) Choice {
	number, _ := blockNumber(block)
	for _, o := range lines.own {
		o.block = number
		c = c.defining(o)
	}
	return c
}

// Nothing gives a choice that says nothing and understands what this one does.
func (c Choice) Nothing() Choice { return Choice{own: c.own} }

// defining gives the choice with an ornament defined, unless it is already.
func (c Choice) defining(o own) Choice {
	if !slices.ContainsFunc(c.own, func(p own) bool { return p.block == o.block && p.row.Name == o.row.Name }) {
		c.own = append(slices.Clone(c.own), o)
	}
	return c
}

// Defines reports a sentence that defines an ornament, and its name.
func Defines(sentence string) (name string, ok bool) {
	words := strings.Fields(strings.ToLower(sentence))
	if len(words) == 0 || words[0] != "ornament" {
		return "", false
	}
	return strings.Join(words[1:min(2, len(words))], ""), true
}

// ownSentence obeys "ornament NAME +1 0 -1 0" and "ornament NAME 0 +1 0 after".
func ownSentence(c Choice, sentence string) (Choice, *Fault) {
	words := strings.Fields(strings.ToLower(sentence))[1:]
	if len(words) == 0 {
		return c, &Fault{"The ornament has no name.", "Write a name and its strings from the note: ornament swirl +2 +1 0."}
	}
	name, words := words[0], words[1:]
	switch {
	case !wellNamed(name):
		return c, &Fault{source.Quote(name) + " cannot be the name of an ornament.", "Write small letters, words joined by a hyphen: ornament quick-turn +1 0 -1 0."}
	case c.taken(name):
		return c, &Fault{"The name " + source.Quote(name) + " is taken.", "Give your ornament a name of its own."}
	case len(c.own) == mostOwn:
		return c, &Fault{"This tune has " + strconv.Itoa(mostOwn) + " ornaments of its own already.", "Leave one of them out."}
	}
	if i := slices.IndexFunc(words, func(w string) bool { return !wellNamed(w) }); i > 0 && words[0] != "after" {
		joined := name + "-" + strings.Join(words[:i], "-")
		return c, &Fault{"The name of an ornament is one word.", "Join its words with a hyphen: ornament " + joined + " " + strings.Join(words[i:], " ") + "."}
	}
	time := ornament.OnBeat
	if n := len(words) - 1; n >= 0 && words[n] == "after" {
		time, words = ornament.Spread, words[:n]
	}
	steps, fault := readSteps(name, words, time)
	if fault != nil {
		return c, fault
	}
	return c.defining(own{row: ornament.NewOwn(name, steps, time)}), nil
}

// wellNamed reports a name that commands and ids can carry.
func wellNamed(name string) bool {
	for part := range strings.SplitSeq(name, "-") {
		if part == "" || strings.Trim(part, "abcdefghijklmnopqrstuvwxyz") != "" {
			return false
		}
	}
	return len(name) <= 32
}

// taken reports a name that means something already.
func (c Choice) taken(name string) bool {
	if _, ok := ornament.Decoration(name); ok || c.rank(name) >= 0 {
		return true
	}
	if slices.ContainsFunc(verbs(), func(v verb) bool { return v.word == name }) {
		return true
	}
	return slices.Contains([]string{grace, "offer", "house", "ornament", "nothing", "on", "after", usual}, name)
}

// readSteps reads the strings of an ornament, counted from its note.
func readSteps(name string, words []string, time ornament.Time) ([]int8, *Fault) {
	var steps []int8
	for _, w := range words {
		n, err := strconv.ParseInt(w, 10, 8)
		if err != nil || n < -mostAway || n > mostAway || w != "0" && w[0] != '+' && w[0] != '-' {
			return nil, &Fault{source.Quote(w) + " is not a string of an ornament.", "Count strings from the note, +1 the next above, -1 the next below, 0 the note: ornament " + name + " +1 0 -1 0."}
		}
		steps = append(steps, int8(n))
	}
	switch {
	case len(steps) < 2:
		return nil, &Fault{"An ornament has at least one stroke beside its note.", "Write its strings from the note: ornament " + name + " +1 0 -1 0."}
	case len(steps) > mostStrokes:
		return nil, &Fault{"An ornament here has at most " + strconv.Itoa(mostStrokes) + " strokes.", "Write the rest as notes of the tune."}
	case time == ornament.OnBeat && steps[len(steps)-1] != 0:
		return nil, &Fault{"An ornament on the beat ends on its note, which is 0.", "Write 0 last; or write after, and 0 first, for one that follows its note."}
	case time == ornament.Spread && steps[0] != 0:
		return nil, &Fault{"An ornament after its note begins with the note, which is 0.", "Write 0 first, or leave out after."}
	}
	return steps, nil
}
