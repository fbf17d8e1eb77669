package choice

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// Offer is an ornament offered on every note where it fits (Written 0), on the
// long ones of them, or on one note.
type Offer struct {
	Name    string
	Written int
	Long    bool
	Among   bool // a family was named, or all: nothing is said where this one does not fit
}

// all stands for every ornament of the families that are shown.
const all = "all"

// offer is what is offered in one block: nothing of what was offered before,
// if afresh, and these, families and all by their words.
type offer struct {
	block  int
	afresh bool
	items  []Offer // by note, those for long notes last of each, then in the order of the catalogue
}

// compare puts what is offered in its order.
func (c Choice) compare(o, p Offer) int {
	return cmp.Or(cmp.Compare(o.Written, p.Written), order(p.Long, o.Long), cmp.Compare(c.rank(o.Name), c.rank(p.Name)))
}

func order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return 1
	}
	return -1
}

// rank is a place in the order of the catalogue: all and the families come first,
// the tune's own ornaments last; -1 for what is no ornament.
func (c Choice) rank(name string) int {
	groups := append([]string{all}, ornament.Families()...)
	if i := slices.Index(groups, name); i >= 0 {
		return i
	}
	if i := ornament.Place(name); i >= 0 {
		return len(groups) + i
	}
	if i := slices.IndexFunc(c.own, func(o own) bool { return o.row.Name == name }); i >= 0 {
		return 1000 + i
	}
	return -1
}

// offering gives the choice with these offered too.
func (c Choice) offering(o offer) Choice {
	list := slices.Clone(c.offers)
	i, found := slices.BinarySearchFunc(list, o, func(a, b offer) int { return cmp.Compare(a.block, b.block) })
	switch {
	case !found:
		list = slices.Insert(list, i, offer{block: o.block})
		fallthrough
	case !o.afresh:
		o.items = append(slices.Clone(list[i].items), o.items...)
		o.afresh = o.afresh || list[i].afresh
	}
	o.items = slices.Clone(o.items)
	source.Order(o.items, c.compare)
	o.items = slices.Compact(o.items)
	list[i] = o
	c.offers = list
	return c
}

// spoken gives the sentences that offer this.
func (o offer) spoken() []string {
	head := "offer"
	if o.block > 0 {
		head += "@b" + strconv.Itoa(o.block)
	}
	var list []string
	if o.afresh {
		list = append(list, head+" nothing")
	}
	words, long := head, head
	for _, item := range o.items {
		switch {
		case item.Long:
			long += " " + item.Name
		case item.Written > 0:
			words += " " + item.Name + "@" + strconv.Itoa(item.Written)
		default:
			words += " " + item.Name
		}
	}
	if words != head {
		list = append(list, words)
	}
	if long != head {
		list = append(list, long+onLong)
	}
	return list
}

// onLong and onAll end a sentence that offers on long notes, or on all.
const (
	onLong = " on long notes"
	onAll  = " on all notes"
)

// offerSentence obeys "offer NAME NAME@ID ...", said of a block or of all, and
// "offer NAME ... on long notes". A family's name stands for all its ornaments.
func offerSentence(c Choice, block int, rest string) (Choice, *Fault) {
	rest, long := strings.CutSuffix(" "+strings.ReplaceAll(rest, ",", " "), onLong)
	words := strings.Fields(strings.TrimSuffix(rest, onAll))
	if len(words) == 0 || placeWord(words[0]) {
		return c, &Fault{"Nothing is named to offer.", "Write the names of ornaments: offer cut tap@12, or offer nothing."}
	}
	if slices.Equal(words, []string{"nothing"}) && !long {
		return c.offering(offer{block: block, afresh: true}), nil
	}
	if i := slices.IndexFunc(words, placeWord); i > 0 {
		return c, unclearNotes(words[0], words[i:])
	}
	if slices.Contains(words, "nothing") {
		return c, &Fault{"To offer nothing is a sentence of its own.", "Write offer nothing, and then, on a line of its own, what is offered: offer cut."}
	}
	for _, word := range words {
		name, at, named := strings.Cut(word, "@")
		if name == grace {
			return c, &Fault{"Grace notes cannot be offered: they stand in the tune.", "Write the name of an ornament, such as offer cut."}
		}
		in, written := block, 0
		if named {
			var fault *Fault
			if in, written, fault = note(at, "offer "+name); fault != nil {
				return c, fault
			}
			if in == 0 {
				in = block
			}
		}
		if c.rank(name) < 0 {
			return c, c.unknown("the name of an ornament", name, append(c.names()[1:], append(ornament.Families(), all)...))
		}
		if block != 0 && in != block {
			return c, &Fault{"The sentence offers in one block, but names a note of another.", "Write offer " + word + "."}
		}
		if long && written > 0 {
			return c, &Fault{"One note is named, and all long ones too.", "Write offer " + word + " alone, or offer " + name + onLong + "."}
		}
		c = c.offering(offer{block: in, items: []Offer{{Name: name, Written: written, Long: long}}})
	}
	return c, nil
}

// placeWord reports a word that tries to say where, or on which notes.
func placeWord(word string) bool {
	_, number := count(strings.TrimPrefix(word, "@"), mostNotes)
	return number || slices.Contains([]string{"on", "at", "in", "every", "everywhere", "note", "notes", "bar"}, word)
}

// unclearNotes is the fault of "offer cut on ..." where it is not clear on which.
func unclearNotes(name string, on []string) *Fault {
	number := "12"
	for _, w := range on {
		if _, ok := count(strings.TrimPrefix(w, "@"), mostNotes); ok {
			number = strings.TrimPrefix(w, "@")
		}
	}
	return &Fault{"On which notes is not clear.", "Write on long notes, on all notes, or a note's number after @: offer " + name + "@" + number + "."}
}

// Offers gives what is offered, families and all by their ornaments: first on every
// note, then on the long ones, then note by note.
func (c Choice) Offers() []Offer {
	if len(c.offers) == 0 || c.offers[0].block != 0 {
		return nil
	}
	var list []Offer
	for _, o := range c.offers[0].items {
		if _, ok := c.row(0, o.Name); ok {
			list = append(list, o)
			continue
		}
		for _, row := range c.Ornaments() {
			if o.Name == all && c.Shows(row.Family) || o.Name == row.Family.String() {
				list = append(list, Offer{Name: row.Name, Written: o.Written, Long: o.Long, Among: true})
			}
		}
	}
	return list
}

// checkFamilies keeps a bit for each family that is off unless asked for.
func checkFamilies(words string) ([3]int32, *Fault) {
	bits, known := int32(0), ornament.Families()
	list := strings.Fields(strings.ToLower(words))
	for _, word := range list {
		i := slices.Index(known, word)
		if i < 0 && (word != usual || len(list) > 1) {
			return one(0), &Fault{"The families of ornaments beside the usual one are " + strings.Join(known, " and ") + ".", "Write for instance families irish, or families usual for none of them."}
		}
		if i >= 0 {
			bits |= 1 << i
		}
	}
	if len(list) == 0 {
		return one(0), &Fault{"Which families of ornaments are shown is not said.", "Write for instance families irish, or families usual."}
	}
	return one(bits), nil
}

// usual is the family that is always shown.
const usual = "usual"

func writeFamilies(v [3]int32) string {
	var list []string
	for i, word := range ornament.Families() {
		if v[0]&(1<<i) != 0 {
			list = append(list, word)
		}
	}
	if len(list) == 0 {
		return usual
	}
	return strings.Join(list, " ")
}

// Shows reports whether the ornaments of a family are shown where all are: those
// that the trade shares and the tune's own, and of the old families those that were
// asked for.
func (c Choice) Shows(f ornament.Family) bool {
	v, _ := c.about(families, 0)
	i := slices.Index(ornament.Families(), f.String())
	return i < 0 || v[0]&(1<<i) != 0
}
