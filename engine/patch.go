package engine

import "strings"

// Set is one thing to set in an element that is there: effects as data.
type Set struct {
	Part    string // the id of the part it is in
	Of      int    // how many elements that has, if nobody else has put any there
	Element int    // which of all elements in the part, in the order of the markup, from 0
	Name    string // an attribute; "" for the text, of an element that holds nothing else
	Value   string
}

// mostSets is how many things are set before it is better to set the whole part
// (guess).
const mostSets = 60

// patch gives what makes the new markup of a part from its old one by setting
// attributes and texts; ok is false where the elements are not the same, or there is
// too much to set. Both must be as draw writes markup: no > in an attribute.
func patch(old, part Part) (sets []Set, ok bool) {
	a, b := old.HTML, part.HTML
	elements, inside := 0, false // inside: the last tag opened an element that can hold text
	for a != "" && b != "" {
		x, y := token(a), token(b)
		a, b = a[len(x):], b[len(y):]
		tag := y[0] == '<'
		switch {
		case x == y:
		case tag != (x[0] == '<'):
			return nil, false
		case tag:
			if sets, ok = attributes(sets, Set{Part: part.ID, Element: elements}, x, y); !ok {
				return nil, false
			}
		case inside && closes(a) && closes(b):
			sets = append(sets, Set{Part: part.ID, Element: elements - 1, Value: unescaped(y)})
		default:
			return nil, false
		}
		if inside = tag && !closes(y); inside {
			elements++
			inside = y != "<br>"
		}
	}
	for i := range sets {
		sets[i].Of = elements
	}
	return sets, a == b && len(sets) <= mostSets
}

// token gives the tag or the text that markup begins with.
func token(s string) string {
	end, more := "<", 0
	if s[0] == '<' {
		end, more = ">", 1
	}
	if i := strings.Index(s, end); i >= 0 {
		return s[:i+more]
	}
	return s
}

func closes(s string) bool { return strings.HasPrefix(s, "</") }

// attributes adds what differs between two tags; ok is false if they are not of the
// same name and attributes.
func attributes(sets []Set, at Set, x, y string) (all []Set, ok bool) {
	for {
		i, k := strings.IndexByte(x, '"'), strings.IndexByte(y, '"')
		if i < 0 || k < 0 || x[:i] != y[:k] {
			return sets, x == y
		}
		at.Name = strings.TrimSuffix(y[strings.LastIndexByte(y[:k], ' ')+1:k], "=")
		x, y = x[i+1:], y[k+1:]
		i, k = strings.IndexByte(x, '"'), strings.IndexByte(y, '"')
		if i < 0 || k < 0 {
			return sets, false
		}
		if x[:i] != y[:k] {
			at.Value = unescaped(y[:k])
			sets = append(sets, at)
		}
		x, y = x[i+1:], y[k+1:]
	}
}

// unescaped turns markup back into what it says.
func unescaped(s string) string {
	if strings.IndexByte(s, '&') < 0 {
		return s
	}
	for _, e := range [...][2]string{{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", `"`}, {"&amp;", "&"}} {
		s = strings.ReplaceAll(s, e[0], e[1])
	}
	return s
}
