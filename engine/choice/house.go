package choice

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
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

// chords are what shapes are called, and their strings.
var chords = []struct {
	name  string
	steps []int8
}{
	{"third", []int8{0, 2}}, {"fourth", []int8{0, 3}}, {"fifth", []int8{0, 4}}, {"sixth", []int8{0, 5}},
	{"seventh", []int8{0, 6}}, {"octave", []int8{0, 7}}, {"ninth", []int8{0, 8}}, {"tenth", []int8{0, 9}},
	{"triad", []int8{0, 2, 4}}, {"chord", []int8{0, 2, 4}},
}

// calledChord is the fault of a chord that is called by its name, with its fingers
// if they fit, or by the letters of its notes; nil if it is none.
func (c Choice) calledChord(called string, fingers []string) *Fault {
	quoted := source.Quote(called)
	for _, chord := range chords {
		if called != chord.name && called != chord.name+"s" {
			continue
		}
		of := spell(chord.steps)
		write := example(of, chord.steps)
		if ways, fault := c.readWays(of, chord.steps, fingers); fault == nil {
			write = "house " + of + " " + ways
		}
		help := "Write " + write + "."
		if names := c.partly(chord.name); len(names) > 0 {
			help = "Write " + write + " for the chord; the ornament is " + anyOf(names) + "."
		}
		return &Fault{"A chord is written by its strings, not by its name: " + quoted + ".", help}
	}
	if strings.IndexByte("0+{[", called[0]) >= 0 {
		return &Fault{quoted + " are no strings of a chord.", "Write the lowest string as 0 and the others upward from it, each with a plus and a space before it: house 0 +4 +7 4 2 1."}
	}
	if strings.Trim(called, "abcdefg# ") == "" || len(called) < 5 && called[0] <= 'g' && strings.Trim(called[1:], "#bm7") == "" { // c e g; am
		return &Fault{"A chord is written by its strings, not by its notes: " + quoted + ".",
			"Write the lowest string as 0 and the others upward from it: house 0 +2 +4 3 2 1."}
	}
	return nil
}

// unplussed is the fault of a chord whose strings have no plus: "0 4 7 4 2 1"; nil
// if it is none.
func unplussed(of, rest []string) *Fault {
	if len(of) > 1 || len(rest) < 3 {
		return nil
	}
	n := (len(rest) - 1) / 2
	last := 0
	for _, w := range rest[:n] {
		up, ok := count(w, mostUp)
		if !ok || up <= last {
			return nil
		}
		last = up
	}
	return &Fault{"The strings of a chord above the lowest are written with a plus.", "Write house 0 +" + strings.Join(rest[:n], " +") + " " + strings.Join(rest[n:], " ") + "."}
}

// mostUp is how many strings lie above the lowest of the largest harp.
const mostUp = 46

// spell writes the strings of a chord: "0 +4 +7".
func spell(steps []int8) string {
	of := "0"
	for _, s := range steps[1:] {
		of += " +" + strconv.Itoa(int(s))
	}
	return of
}

// readShape reads a chord by its strings.
func readShape(words []string) (of string, steps []int8, fault *Fault) {
	last := 0
	for i, w := range words {
		n, ok := 0, i == 0
		if up, plus := strings.CutPrefix(w, "+"); plus {
			n, ok = count(up, mostUp)
		}
		if !ok || i > 0 && n <= last {
			return "", nil, &Fault{source.Quote(w) + " is not a string of a chord.",
				"Write the lowest string as 0 and the others upward from it, each with a plus: 0 +4 +7."}
		}
		last = n
		steps = append(steps, int8(n))
	}
	if len(steps) < 2 || len(steps) > 4 {
		return "", nil, &Fault{"A chord for one hand has two to four strings.", "Write for instance house 0 +4 +7 4 2 1."}
	}
	return spell(steps), steps, nil
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

// example is a sentence that would be right: with the fingers that lie best in the
// usual hand on the usual harp, of those the first.
func example(of string, steps []int8) string {
	usual := hand.Usual("right")
	var best []int8
	least := 1 << 10
	for _, fingers := range fingerings(steps, usual.InUse) {
		if effort := effort(usual, steps, fingers); effort < least {
			best, least = fingers, effort
		}
	}
	return "house " + of + " " + written(best)
}

// effort is a rough measure of what fingers on strings ask of a hand, enough for an
// example: how far it opens (1 past its ease, 4 past its comfort, 9 past what it can),
// and 1 for the fourth finger. The weights are guesses that give the usual shapes.
func effort(h hand.Hand, steps, fingers []int8) (sum int) {
	for i, f := range fingers {
		fourth := 0
		if f == 3 {
			fourth = 1
		}
		open := 0
		for k, g := range fingers[:i] {
			if f == g {
				fourth = 0
				continue
			}
			far, l := (int32(steps[i])-int32(steps[k]))*harp.UsualSpacing, h.Limits[f][g]
			switch far = max(far, -far); {
			case far > l.Most:
				open = 9
			case far > l.Comfortable:
				open = max(open, 4)
			case far > l.Relaxed:
				open = max(open, 1)
			}
		}
		sum += fourth + open
	}
	return sum
}

// Fingerings lists how an ornament may be fingered from one
// placing, as it is written: "1 2". A string has one finger throughout, but where
// all strokes are on one string, where each has its own.
func (c Choice) Fingerings(name string, inUse [4]bool) []string {
	row, _ := c.row(0, name)
	var list []string
	for _, fingers := range fingerings(row.Steps, inUse) {
		list = append(list, written(fingers))
	}
	return list
}

func fingerings(steps []int8, inUse [4]bool) [][]int8 {
	strings := slices.Clone(steps)
	source.Order(strings, cmp.Compare)
	strings = slices.Compact(strings)
	same := len(strings) == 1
	n := len(strings)
	if same {
		n = len(steps)
	}
	var list [][]int8
	var chosen []int8 // of the highest string first
	var choose func(from int8)
	choose = func(from int8) {
		if len(chosen) == n {
			fingers := make([]int8, len(steps))
			for i, s := range steps {
				at := n - 1 - i
				if !same {
					k, _ := slices.BinarySearch(strings, s)
					at = n - 1 - k
				}
				fingers[i] = chosen[at]
			}
			list = append(list, fingers)
			return
		}
		for f := from; f < 4; f++ {
			if inUse[f] {
				chosen = append(chosen, f)
				choose(f + 1)
				chosen = chosen[:len(chosen)-1]
			}
		}
	}
	choose(0)
	return list
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
