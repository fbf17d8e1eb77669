package agree_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/tune"
)

// An invented tune knows what it means: while its text is put together, so are
// its notes, without reading anything back.
type invented struct {
	name     string
	features []string // what occurs in it, by the names of the tables
	abc      string
	voices   []sound // in written order, voice by voice; nil if parts lie over each other
	written  []sound // all voices together
	played   []sound
}

// head is one note head that was meant.
type head struct {
	midi int
	tied bool // to the one before it
}

// event is a moment of a voice that was meant; a rest has no heads.
type event struct {
	length tune.Frac
	heads  []head
}

// cell is a few signs and what they mean.
type cell struct {
	text   string
	events []event
}

// measure is one bar, with the parts that lie over each other in it.
type measure struct {
	text   string
	layers [][]event
}

// inventor invents one tune.
type inventor struct {
	chance *rand.Rand
	used   []string

	unit   tune.Frac
	meter  tune.Frac // the length of a bar
	beats  int       // of the default tuplet: 3 in compound meters, else 2
	key    [7]int
	alters [7]int
	set    [7]bool
	by     [7]int // the octave in which an accidental was written

	last struct{ letter, octave int } // the note written last
}

var (
	semitones = [7]int{0, 2, 4, 5, 7, 9, 11}
	letters   = "CDEFGAB"
	signs     = map[string]int{"": 0, "=": 0, "^": 1, "_": -1, "^^": 2, "__": -2}
)

const otherOctave = "accidental in another octave"

func f(n, d int64) tune.Frac { return tune.NewFrac(n, d) }

// bar forgets what accidentals said.
func (g *inventor) bar() { g.alters, g.set = [7]int{}, [7]bool{} }

// pitch writes a note without its length, and says how it sounds.
func (g *inventor) pitch(sign string, letter, octave int) (string, int) {
	alter := g.key[letter]
	switch {
	case sign != "":
		alter = signs[sign]
		g.alters[letter], g.set[letter], g.by[letter] = alter, true, octave
	case g.set[letter]:
		alter = g.alters[letter]
		if g.by[letter] != octave && alter != g.key[letter] && !slices.Contains(g.used, otherOctave) {
			g.used = append(g.used, otherOctave) // by chance
		}
	}
	g.last.letter, g.last.octave = letter, octave
	name := letters[letter : letter+1]
	if octave >= 5 {
		name = strings.ToLower(name) + strings.Repeat("'", octave-5)
	} else {
		name += strings.Repeat(",", 4-octave)
	}
	return sign + name, 12*(octave+1) + semitones[letter] + alter
}

// some picks a letter and an octave from G3 to B5 where the hands usually are, but
// no letter that has an accidental in another octave: that is a feature of its own.
func (g *inventor) some() (letter, octave int) {
	for {
		step := 4 + g.chance.IntN(17)
		letter, octave = step%7, 3+step/7
		if !g.set[letter] || g.by[letter] == octave {
			return letter, octave
		}
	}
}

// times writes how many units a note lasts, in one of the ways there are.
func (g *inventor) times(t tune.Frac) string {
	switch {
	case t == f(1, 1):
		return ""
	case t.D == 1:
		return strconv.FormatInt(t.N, 10)
	case t == f(1, 2):
		return g.oneOf("/", "/2")
	case t == f(1, 4):
		return g.oneOf("//", "/4")
	case t.D == 2:
		return fmt.Sprintf(g.oneOf("%d/2", "%d/"), t.N)
	}
	return fmt.Sprintf("%d/%d", t.N, t.D)
}

func (g *inventor) oneOf(words ...string) string { return words[g.chance.IntN(len(words))] }

// note is any note of so many units.
func (g *inventor) note(t tune.Frac) cell {
	letter, octave := g.some()
	return g.named("", letter, octave, t)
}

// again is the note written last, once more.
func (g *inventor) again(t tune.Frac) cell { return g.named("", g.last.letter, g.last.octave, t) }

func (g *inventor) named(sign string, letter, octave int, t tune.Frac) cell {
	text, midi := g.pitch(sign, letter, octave)
	return cell{text + g.times(t), []event{{t.Mul(g.unit), []head{{midi: midi}}}}}
}

// rest is a rest of so many units.
func (g *inventor) rest(sign string, t tune.Frac) cell {
	return cell{sign + g.times(t), []event{{length: t.Mul(g.unit)}}}
}

// chord is a chord: inner is what each note is written as long as, outer what
// stands behind the bracket.
func (g *inventor) chord(inner []tune.Frac, outer tune.Frac) cell {
	letter, octave := g.some()
	c := cell{text: "["}
	var heads []head
	for i, t := range inner {
		text, midi := g.pitch("", letter, octave)
		c.text += text + g.times(t)
		heads = append(heads, head{midi: midi})
		if letter += 2 + i%2; letter > 6 {
			letter, octave = letter-7, octave+1
		}
	}
	c.text += "]" + g.times(outer)
	c.events = []event{{inner[0].Mul(outer).Mul(g.unit), heads}}
	return c
}

// join puts cells one after the other with a text between them.
func join(between string, cells ...cell) cell {
	var all cell
	for i, c := range cells {
		if i > 0 {
			all.text += between
		}
		all.text += c.text
		all.events = append(all.events, c.events...)
	}
	return all
}

// around puts text before and after a cell.
func (c cell) around(before, after string) cell {
	c.text = before + c.text + after
	return c
}

// scaled is the cell with its lengths times these, one for each event.
func (c cell) scaled(by ...tune.Frac) cell {
	c.events = slices.Clone(c.events)
	for i := range c.events {
		c.events[i].length = c.events[i].length.Mul(by[i%len(by)])
	}
	return c
}

// held is the cell with each head of its last event tied to the event before.
func (c cell) held() cell {
	c.events = slices.Clone(c.events)
	last := &c.events[len(c.events)-1]
	last.heads = slices.Clone(last.heads)
	for i := range last.heads {
		last.heads[i].tied = true
	}
	return c
}

func (c cell) length() tune.Frac { return total(c.events) }

func total(events []event) tune.Frac {
	sum := f(0, 1)
	for _, e := range events {
		sum = sum.Add(e.length)
	}
	return sum
}

// fill writes a bar: the cells that are asked for, among plain notes that fill it.
func (g *inventor) fill(asked ...func(*inventor) cell) measure {
	g.bar()
	var all []cell
	left := g.meter
	add := func(c cell) {
		all = append(all, c)
		left = left.Sub(c.length())
	}
	if g.chance.IntN(2) == 0 {
		add(g.note(f(1, 1)))
	}
	for _, make := range asked {
		add(make(g))
	}
	for left.N > 0 {
		units := left.Mul(f(g.unit.D, g.unit.N))
		if units.D > 4 || units.N%units.D != 0 && units.D%2 != 0 {
			break // no length of a note fills this bar
		}
		t := f(1+g.chance.Int64N(2), 1)
		if units.Less(t) {
			t = units
		}
		add(g.note(t))
	}
	m := measure{layers: [][]event{nil}}
	for i, c := range all {
		if i > 0 && !strings.HasSuffix(m.text, "\n") {
			m.text += g.oneOf(" ", " ", "")
		}
		// What begins with a digit or a bracket would belong to the sign before it.
		m.text += c.text
		m.layers[0] = append(m.layers[0], c.events...)
	}
	return m
}

// play gives the sounds of bars one after the other, from an onset.
func play(bars []measure) []sound {
	var notes []heard
	now := f(0, 1)
	for _, b := range bars {
		var most tune.Frac
		for i, layer := range b.layers {
			at := now
			for _, e := range layer {
				for _, h := range e.heads {
					notes = sounding(notes, h, at, e.length)
				}
				at = at.Add(e.length)
			}
			if i == 0 {
				most = at
			}
		}
		now = most
	}
	var out []sound
	for _, n := range notes {
		out = append(out, sound{inTicks(n.onset), inTicks(n.length), n.midi})
	}
	return out
}

type heard struct {
	onset, length tune.Frac
	midi          int
}

// sounding adds a note, or lengthens the one it is tied to.
func sounding(notes []heard, h head, at, length tune.Frac) []heard {
	for i := len(notes) - 1; h.tied && i >= 0; i-- {
		if n := &notes[i]; n.midi == h.midi && n.onset.Add(n.length) == at {
			n.length = n.length.Add(length)
			return notes
		}
	}
	return append(notes, heard{at, length, h.midi})
}

func inTicks(t tune.Frac) int { return int((t.N*whole*2 + t.D) / (2 * t.D)) }
