package choice

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/ornament"
)

// Offer is an ornament offered on every note where it fits (Written 0), or on
// one note.
type Offer struct {
	Name    string
	Written int
}

// offer is what is offered in one block: nothing of what was offered before,
// if afresh, and these.
type offer struct {
	block  int
	afresh bool
	items  []Offer // by note, then in the order of the catalogue
}

func (o Offer) compare(p Offer) int {
	return cmp.Or(cmp.Compare(o.Written, p.Written), cmp.Compare(rank(o.Name), rank(p.Name)))
}

// rank is an ornament's place in the catalogue.
func rank(name string) int {
	return slices.IndexFunc(ornament.Rows(), func(r ornament.Row) bool { return r.Name == name })
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
	slices.SortFunc(o.items, Offer.compare)
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
	if len(o.items) > 0 {
		words := []string{head}
		for _, item := range o.items {
			if item.Written > 0 {
				words = append(words, item.Name+"@"+strconv.Itoa(item.Written))
			} else {
				words = append(words, item.Name)
			}
		}
		list = append(list, strings.Join(words, " "))
	}
	return list
}

// offerSentence obeys "offer NAME NAME@ID ...", said of a block or of all.
func offerSentence(c Choice, block int, words []string) (Choice, *Fault) {
	if len(words) == 0 {
		return c, &Fault{"Nothing is named to offer.", "Write the names of ornaments: offer cut tap@12, or offer nothing."}
	}
	if slices.Equal(words, []string{"nothing"}) {
		return c.offering(offer{block: block, afresh: true}), nil
	}
	for _, word := range words {
		name, at, named := strings.Cut(word, "@")
		if name == grace {
			return c, &Fault{"Grace notes cannot be offered: they stand in the tune.", "Write the name of an ornament, such as offer cut."}
		}
		if _, ok := ornament.Named(name); !ok {
			return c, unknown("the name of an ornament", name, names()[1:])
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
		if block != 0 && in != block {
			return c, &Fault{"The sentence offers in one block, but names a note of another.", "Write offer " + word + "."}
		}
		c = c.offering(offer{block: in, items: []Offer{{name, written}}})
	}
	return c, nil
}
