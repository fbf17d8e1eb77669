package choice

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// House is a house fingering: the one way, or two in order of liking, in which
// an ornament or the shape of a chord is always played.
type House struct {
	Ornament string   // its name in the catalogue; "" for a chord
	Shape    []int8   // the chord's strings from its lowest, 0 the first
	Ways     [][]int8 // fingers 0 to 3: of an ornament's strokes and its note in played order, of a chord from its lowest string; none where any will do
}

// house is a house fingering as it is kept: what it is of, as it is spoken
// ("cut", "0 +4 +7"), and its fingers ("1 2 or 2 3", or "off").
type house struct {
	block    int
	of, ways string
}

// off takes a house fingering back; or parts two.
const (
	off = "off"
	or  = "or"
)

// compare puts ornaments of the catalogue first, in its order, then chords, then a
// tune's own ornaments.
func (h house) compare(g house) int {
	// The place of any other is -1, which as a uint is beyond all others.
	return cmp.Or(cmp.Compare(h.block, g.block), cmp.Compare(uint(ornament.Place(h.of)), uint(ornament.Place(g.of))), cmp.Compare(h.of, g.of))
}

// ofChord reports a house fingering of a chord.
func (h house) ofChord() bool { return h.of[0] == '0' }

// housing gives the choice with a house fingering, in the place of one that it
// had for the same thing.
func (c Choice) housing(h house) Choice {
	list := slices.Clone(c.houses)
	i, found := slices.BinarySearchFunc(list, h, house.compare)
	if found {
		list[i] = h
	} else {
		list = slices.Insert(list, i, h)
	}
	c.houses = list
	return c
}

func (h house) sentence() string { return "house" + place(h.block, 0) + " " + h.of + " " + h.ways }

// Houses gives the house fingerings that hold in every block, ornaments in the
// order of the catalogue, then chords, then a tune's own; ask them of InBlock.
func (c Choice) Houses() []House {
	var list []House
	for _, h := range c.houses {
		if h.block != 0 {
			continue
		}
		is := House{Ways: ways(h.ways)}
		if h.ofChord() {
			is.Shape = offsets(strings.Fields(h.of))
		} else {
			is.Ornament = h.of
		}
		list = append(list, is)
	}
	return list
}

// HouseWords gives the fingers of an ornament as they are written, "1 2 or 2 3",
// or "off" where it has no house fingering.
func (c Choice) HouseWords(name string) string {
	for _, h := range c.houses {
		if h.block == 0 && h.of == name {
			return h.ways
		}
	}
	return off
}

// OnlyHouse gives the house fingerings that were said of every block.
func (c Choice) OnlyHouse() Choice {
	var kept Choice
	for _, h := range c.houses {
		if h.block == 0 {
			kept.houses = append(kept.houses, h)
		}
	}
	return kept
}

// ways reads fingers that were written by write.
func ways(words string) (list [][]int8) {
	if words == off {
		return nil
	}
	for part := range strings.SplitSeq(words, " "+or+" ") {
		var fingers []int8
		for _, f := range strings.Fields(part) {
			fingers = append(fingers, int8(f[0]-'1'))
		}
		list = append(list, fingers)
	}
	return list
}

// offsets reads the strings of a chord that were checked.
func offsets(words []string) (list []int8) {
	for _, w := range words {
		n, _ := strconv.Atoi(w)
		list = append(list, int8(n))
	}
	return list
}

func written(fingers []int8) string {
	words := make([]string, len(fingers))
	for i, f := range fingers {
		words[i] = strconv.Itoa(int(f) + 1)
	}
	return strings.Join(words, " ")
}

// houseSentence obeys "house NAME FINGERS", "house NAME FINGERS or FINGERS",
// "house NAME off", and the same of a chord: "house 0 +4 +7 4 2 1".
func houseSentence(c Choice, block int, words []string) (Choice, *Fault) {
	h, fault := c.readHouse(words)
	if fault != nil {
		return c, fault
	}
	h.block = block
	return c.housing(h), nil
}

func (c Choice) readHouse(words []string) (house, *Fault) {
	of, rest := words[:parting(words)], words[parting(words):]
	if len(of) == 0 {
		return house{}, &Fault{"Which ornament or chord is meant is not said.", "Write for instance house cut 1 2, or house 0 +4 +7 4 2 1."}
	}
	var h house
	var steps []int8
	var fault *Fault
	if of[0] == "0" {
		if fault = unplussed(of, rest); fault == nil {
			h.of, steps, fault = readShape(of)
		}
	} else {
		h.of, steps, fault = c.readOrnament(of, rest)
	}
	if fault != nil {
		return h, fault
	}
	h.ways, fault = c.readWays(h.of, steps, rest)
	return h, fault
}

// parting is where the words that name something end and its fingers begin.
func parting(words []string) int {
	i := slices.IndexFunc(words, func(w string) bool { return w == off || w[0] >= '1' && w[0] <= '9' })
	if i < 0 {
		return len(words)
	}
	return i
}

// readOrnament finds an ornament by its name, its title, or what else it is
// called; a chord by its name, with these fingers, is told from its strings.
func (c Choice) readOrnament(words, fingers []string) (name string, steps []int8, fault *Fault) {
	called := strings.Join(words, " ")
	if r, ok := c.called(called); ok {
		return r.Name, r.Steps, nil
	}
	if called == grace {
		return "", nil, &Fault{"Grace notes without a name have no house fingering.", "Write the name of an ornament, such as house cut 1 2."}
	}
	if fault = c.calledChord(called, fingers); fault != nil {
		return "", nil, fault
	}
	for n := min(len(words)-1, mostWords); n > 0; n-- { // "cut thumb index", "cut = 1 2"
		if r, ok := c.called(strings.Join(words[:n], " ")); ok {
			message := source.Quote(strings.Join(words[n:], " ")) + " is no finger; a hand here has 1, 2, 3 and 4, and 1 is the thumb."
			return "", nil, &Fault{message, "Write for instance " + example(r.Name, r.Steps) + "."}
		}
	}
	fault = c.unknown("the name of an ornament", strings.ReplaceAll(called, " ", "-"), c.names()[1:])
	fault.Message = source.Quote(called) + " is not the name of an ornament."
	if strings.HasPrefix(fault.Suggestion, "Write one of these") {
		fault.Suggestion = strings.TrimSuffix(fault.Suggestion, ".") + "; or a chord by its strings, the lowest as 0: house 0 +4 +7 4 2 1."
	}
	return "", nil, fault
}

// mostWords is how many words the name of an ornament has ("upper mordent in time").
const mostWords = 4

// called finds an ornament by its name, its title, or what else it is called.
func (c Choice) called(words string) (ornament.Row, bool) {
	for _, r := range c.known() {
		if words == r.Title || words == r.Also || strings.ReplaceAll(words, " ", "-") == r.Name {
			return r, true
		}
	}
	return ornament.Row{}, false
}

// readWays checks the fingers of one way or two, and writes them as usual.
func (c Choice) readWays(of string, steps []int8, words []string) (string, *Fault) {
	example := "Write for instance " + example(of, steps) + ", or house " + of + " off for any fingers."
	if len(words) == 1 && words[0] == off {
		return off, nil
	}
	var list []string
	for len(words) > 0 {
		end := slices.Index(words, or)
		if end < 0 {
			end = len(words)
		}
		fingers, fault := c.readFingers(of, steps, words[:end], example)
		if fault != nil {
			return "", fault
		}
		if way := written(fingers); !slices.Contains(list, way) {
			list = append(list, way)
		}
		if end == len(words)-1 {
			return "", &Fault{"After or another fingering is missing.", example}
		}
		words = words[min(end+1, len(words)):]
	}
	switch len(list) {
	case 0:
		return "", &Fault{"Which fingers play it is not said.", example}
	case 1, 2:
		return strings.Join(list, " "+or+" "), nil
	}
	return "", &Fault{"A house fingering is one, or two in order of liking.", example}
}

func (c Choice) readFingers(of string, steps []int8, words []string, example string) ([]int8, *Fault) {
	var fingers []int8
	for _, f := range strings.NewReplacer("-", "", ",", "").Replace(strings.Join(words, "")) { // "1 2", "12", "1-2"
		if f < '1' || f > '4' {
			return nil, &Fault{source.Quote(string(f)) + " is not a finger; a hand here has 1, 2, 3 and 4, and 1 is the thumb.", example}
		}
		fingers = append(fingers, int8(f-'1'))
	}
	row, is := c.row(0, of)
	if full := len(fingers) == len(steps) || is && row.Repeat && len(fingers) == 2*len(steps); !full {
		what := "The chord has " + strconv.Itoa(len(steps)) + " strings: write a finger for each, from the lowest."
		if is {
			what = "The " + row.Title + " has " + strconv.Itoa(len(steps)) + " strokes, its own note among them: write a finger for each, as they are played."
		}
		return nil, &Fault{what, example}
	}
	for i, f := range fingers {
		for k, g := range fingers[:i] {
			a, b := steps[i%len(steps)], steps[k%len(steps)]
			if a > b && f >= g || a < b && f <= g {
				return nil, &Fault{"The higher string has the finger nearer the thumb, and each string a finger of its own; " + written(fingers) + " has it otherwise.", example}
			}
		}
	}
	return fingers, nil
}

// Subject is what a sentence settles: of two with the same one, the last counts.
func (c Choice) Subject(sentence string) string {
	words := strings.Fields(strings.ToLower(sentence))
	if len(words) == 0 {
		return ""
	}
	if word, _, _ := strings.Cut(words[0], "@"); word == "house" {
		if h, fault := c.readHouse(words[1:]); fault == nil {
			return words[0] + " " + h.of
		}
	}
	return words[0]
}
