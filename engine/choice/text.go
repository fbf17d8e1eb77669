package choice

import (
	"strconv"
	"strings"
)

// String gives the sentences that count, joined by ";": harp, hand and tempo,
// house fingerings, offers, ornaments, fingers, placings, why, calls. Parse gives the same choice back.
func (c Choice) String() string {
	var list []string
	early := 0
	for early < len(c.said) && c.said[early].subject <= tempo {
		list = append(list, c.said[early].sentence())
		early++
	}
	for _, h := range c.houses {
		list = append(list, h.sentence())
	}
	for _, o := range c.offers {
		list = append(list, o.spoken()...)
	}
	for _, s := range c.sites {
		for _, l := range s.spoken(c.usually(s.block)) {
			list = append(list, l.name+place(s.block, s.written)+" "+l.word)
		}
	}
	for _, s := range c.said[early:] {
		list = append(list, s.sentence())
	}
	return strings.Join(list, ";")
}

// sentence writes one word on a subject out.
func (s said) sentence() string {
	for _, v := range verbs() {
		switch {
		case v.subject != s.subject:
		case v.check != nil:
			return v.word + place(s.block, s.written) + " " + v.write(s.value)
		case v.fixed == s.value[0]:
			return v.word + place(s.block, s.written)
		}
	}
	return ""
}

// place writes "@12", "@b2-12" or "@b2", and nothing for every block.
func place(block, written int) string {
	switch {
	case block == 0 && written == 0:
		return ""
	case block == 0:
		return "@" + strconv.Itoa(written)
	case written == 0:
		return "@b" + strconv.Itoa(block)
	}
	return "@b" + strconv.Itoa(block) + "-" + strconv.Itoa(written)
}

// Dropped is a sentence that could not be obeyed, and why.
type Dropped struct {
	Sentence string
	Fault
}

// Parse reads sentences joined by ";". Those that cannot be read are dropped
// and given back, the others are kept; so is all beyond 2,000 characters.
func Parse(text string) (Choice, []Dropped) { return Choice{}.Read(text) }

// Read is Parse by a choice that says nothing yet and may know tunes' own ornaments.
func (c Choice) Read(text string) (Choice, []Dropped) {
	var dropped []Dropped
	rest := ""
	if len(text) > Most {
		end := strings.LastIndexByte(text[:Most+1], ';')
		end = max(end, 0)
		text, rest = text[:end], text[end:]
	}
	for sentence := range strings.SplitSeq(text, ";") {
		sentence = strings.TrimSpace(sentence)
		if sentence == "" {
			continue
		}
		changed, fault := obey(c, sentence)
		if fault != nil {
			dropped = append(dropped, Dropped{sentence, *fault})
		}
		c = changed
	}
	if rest != "" {
		dropped = append(dropped, Dropped{strings.TrimPrefix(rest, ";"), Fault{
			"So many choices do not fit into the address of a page.", "Put some of them back first."}})
	}
	return c, dropped
}

// Address gives the choice for the part of a page address after its #. All
// our characters may stand there as they are (RFC 3986, 3.5) but the space,
// which is written as +, and the + of a chord's strings, which is escaped.
func (c Choice) Address() string {
	return strings.ReplaceAll(strings.ReplaceAll(c.String(), "+", "%2B"), " ", "+")
}

// ParseAddress reads what Address gave, with or without its #; it also reads
// characters that were escaped on the way ("%40"), as letters and chats do.
func ParseAddress(address string) (Choice, []Dropped) { return Choice{}.ReadAddress(address) }

// ReadAddress is ParseAddress as Read is Parse.
func (c Choice) ReadAddress(address string) (Choice, []Dropped) {
	address = strings.TrimPrefix(address, "#")
	if len(address) > 3*Most { // each character escaped
		address = address[:3*Most]
	}
	var text strings.Builder
	for i := 0; i < len(address); i++ {
		switch b := address[i]; {
		case b == '+':
			text.WriteByte(' ')
		case b == '%' && i+2 < len(address):
			n, err := strconv.ParseUint(address[i+1:i+3], 16, 8)
			if err != nil {
				text.WriteByte(b)
				continue
			}
			text.WriteByte(byte(n))
			i += 2
		default:
			text.WriteByte(b)
		}
	}
	return c.Read(strings.ToValidUTF8(text.String(), "?"))
}
