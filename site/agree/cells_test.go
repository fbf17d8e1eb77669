package agree_test

import (
	"strconv"
	"strings"

	"readyhand/engine/tune"
)

// feature is a row of the standard that a tune can have: its name, the section
// of ABC 2.1, and one of: a few signs in a bar, something in the head, or how the
// bars lie.
type feature struct {
	name, section string
	cell          func(*inventor) cell
	head          func(*inventor, *heading)
	form          form
}

var one, two, half = f(1, 1), f(2, 1), f(1, 2)

// dress puts signs that take no time before a note.
func dress(before string) func(*inventor) cell {
	return func(g *inventor) cell { return g.note(one).around(before, "") }
}

// broken is a pair with a broken rhythm between, n signs deep.
func broken(sign string, pair func(*inventor) (a, b cell)) func(*inventor) cell {
	long, short := f(3, 2), f(1, 2)
	for range len(strings.Trim(sign, " ")) - 1 {
		long, short = long.Add(short.Mul(half)), short.Mul(half)
	}
	if strings.Contains(sign, "<") {
		long, short = short, long
	}
	return func(g *inventor) cell {
		a, b := pair(g)
		return join(sign, a.scaled(long), b.scaled(short))
	}
}

func notes(t tune.Frac) func(*inventor) (a, b cell) {
	return func(g *inventor) (cell, cell) { return g.note(t), g.note(t) }
}

// tuplet is head and r notes, played in q/p of their time; q below 1 means the
// default of a meter.
func tuplet(head string, p, q int64, r int, inside func(g *inventor, i int) cell) func(*inventor) cell {
	return func(g *inventor) cell {
		in := q
		if in < 1 {
			in = int64(g.beats)
		}
		var all []cell
		for i := range r {
			all = append(all, inside(g, i).scaled(f(in, p)))
		}
		return join("", all...).around(head, "")
	}
}

func plain(g *inventor, _ int) cell { return g.note(one) }

// twoBars is a cell with a bar line inside.
func twoBars(before func(*inventor) cell, line string, after func(*inventor) cell) func(*inventor) cell {
	return func(g *inventor) cell {
		a := before(g)
		g.bar()
		return join(line, a, after(g))
	}
}

// around is a note with signs before and after.
func around(before, after string) func(*inventor) cell {
	return func(g *inventor) cell { return g.note(one).around(before, after) }
}

// spelt is these notes, each a sign, a letter from 0 for C, and an octave.
func spelt(all ...[3]any) func(*inventor) cell {
	return func(g *inventor) cell {
		var cells []cell
		for _, n := range all {
			cells = append(cells, g.named(n[0].(string), n[1].(int), n[2].(int), one))
		}
		return join(" ", cells...)
	}
}

// rekey changes the key from here on.
func rekey(sign, after string, key string, alters map[int]int) func(*inventor) cell {
	return func(g *inventor) cell {
		g.key = [7]int{}
		for letter, alter := range alters {
			g.key[letter] = alter
		}
		g.bar()
		return join("", cell{text: sign + key + after}, g.note(one), g.named("", 3, 5, one), g.named("", 6, 4, one))
	}
}

// remeter changes the meter from here on, and not the length of a note.
func remeter(before, m, after string, length tune.Frac, beats int) func(*inventor) cell {
	return func(g *inventor) cell {
		g.meter, g.beats = length, beats
		return cell{text: before + m + after}
	}
}

func reunit(before, after string, unit tune.Frac) func(*inventor) cell {
	return func(g *inventor) cell {
		g.unit = unit
		return join("", cell{text: before + strconv.FormatInt(unit.N, 10) + "/" + strconv.FormatInt(unit.D, 10) + after}, g.note(one), g.note(two))
	}
}

// onLine puts a note before a cell that begins with a new line: an empty line
// would end the tune.
func onLine(c func(*inventor) cell) func(*inventor) cell {
	return func(g *inventor) cell { return join("", g.note(one), c(g)) }
}

func chordOf(outer tune.Frac, inner ...tune.Frac) func(*inventor) cell {
	return func(g *inventor) cell { return g.chord(inner, outer) }
}

// cells are the features of the notation inside a bar.
var cells = []feature{
	{name: "octave marks", section: "4.1", cell: spelt([3]any{"", 0, 3}, [3]any{"", 4, 2}, [3]any{"", 1, 6}, [3]any{"", 2, 7})},
	{name: "octave marks against the case", section: "4.1", cell: func(g *inventor) cell {
		a, b := g.named("", 0, 4, one), g.named("", 3, 5, one)
		return cell{"c, F' ", join("", a, b).events}
	}},
	{name: "sharps and flats", section: "4.2", cell: spelt([3]any{"^", 0, 5}, [3]any{"_", 6, 4}, [3]any{"=", 3, 4}, [3]any{"^", 4, 4})},
	{name: "double sharps and flats", section: "4.2", cell: spelt([3]any{"^^", 3, 4}, [3]any{"__", 6, 4})},
	{name: "accidental to the end of the bar", section: "4.2", cell: spelt([3]any{"^", 0, 5}, [3]any{"", 1, 5}, [3]any{"", 0, 5}, [3]any{"=", 0, 5}, [3]any{"", 0, 5})},
	{name: "accidental in another octave", section: "4.2, 11.3", cell: spelt([3]any{"^", 0, 5}, [3]any{"", 0, 4}, [3]any{"_", 6, 4}, [3]any{"", 6, 3})},
	{name: "microtones", section: "4.2", cell: func(g *inventor) cell {
		a := join(" ", g.named("=", 4, 4, one), g.named("=", 5, 4, one), g.named("", 4, 4, one))
		a.text = "_/G ^3/2A G" // each sounds as its letter
		return a
	}},
	{name: "accidental over the bar line", section: "4.2", cell: twoBars(spelt([3]any{"^", 4, 4}), " | ", spelt([3]any{"", 4, 4}))},
	{name: "long notes", section: "4.3", cell: func(g *inventor) cell { return join(" ", g.note(f(3, 1)), g.note(f(7, 1))) }},
	{name: "halves", section: "4.3", cell: func(g *inventor) cell { return join(" ", g.note(half), g.note(half)) }},
	{name: "quarters", section: "4.3", cell: func(g *inventor) cell { return join("", g.note(f(1, 4)), g.note(f(3, 4))) }},
	{name: "fractions", section: "4.3", cell: func(g *inventor) cell {
		return join("", g.note(f(3, 2)), g.note(half), g.note(f(7, 4)), g.note(f(1, 4)))
	}},
	{name: "three strokes", section: "4.3", cell: func(g *inventor) cell {
		a := g.note(one).scaled(f(1, 8))
		return join(" ", a.around("", "///"), g.note(f(7, 8)))
	}},
	{name: "broken rhythm", section: "4.4", cell: broken(">", notes(one))},
	{name: "broken rhythm, short first", section: "4.4", cell: broken("<", notes(one))},
	{name: "broken rhythm, doubly", section: "4.4", cell: broken(">>", notes(one))},
	{name: "broken rhythm, doubly, short first", section: "4.4", cell: broken("<<", notes(one))},
	{name: "broken rhythm, triply", section: "4.4", cell: broken(">>>", notes(one))},
	{name: "broken rhythm of long notes", section: "4.4", cell: broken(">", notes(two))},
	{name: "broken rhythm with spaces", section: "4.4", cell: broken(" > ", notes(one))},
	{name: "broken rhythm with a rest", section: "4.4", cell: broken("<", func(g *inventor) (cell, cell) { return g.note(one), g.rest("z", one) })},
	{name: "broken rhythm after a rest", section: "4.4", cell: broken(">", func(g *inventor) (cell, cell) { return g.rest("z", one), g.note(one) })},
	{name: "broken rhythm with a chord", section: "4.4", cell: broken(">", func(g *inventor) (cell, cell) { return g.chord([]tune.Frac{one, one}, one), g.note(one) })},
	{name: "broken rhythm over grace notes", section: "4.4, 4.12", cell: broken(">", func(g *inventor) (cell, cell) { return g.note(one), g.note(one).around("{g}", "") })},
	{name: "broken rhythm under a chord symbol", section: "4.4, 4.18", cell: broken(">", func(g *inventor) (cell, cell) { return g.note(one), g.note(one).around(`"Dm"`, "") })},
	{name: "broken rhythm over the bar line", section: "4.4", cell: func(g *inventor) cell {
		a := g.note(one).scaled(f(3, 2))
		g.bar()
		return join("> | ", a, g.note(one).scaled(half))
	}},
	{name: "broken rhythm at the end of a slur", section: "4.4, 4.11", cell: func(g *inventor) cell {
		return join(">)", g.note(one).scaled(f(3, 2)).around("(", ""), g.note(one).scaled(half))
	}},
	{name: "broken rhythm and a tie", section: "4.4, 4.11", cell: func(g *inventor) cell {
		return join(">-", g.note(two).scaled(f(3, 2)), g.again(two).scaled(half).held())
	}},
	{name: "broken rhythm twice on a note", section: "4.4", cell: func(g *inventor) cell {
		return join("", broken(">", notes(one))(g), g.note(one).around(" >", ""))
	}},
	{name: "broken rhythm with backquotes", section: "4.4, 4.7", cell: func(g *inventor) cell {
		return join(">``", g.note(one).scaled(f(3, 2)), g.note(one).scaled(half))
	}},
	{name: "broken rhythm and a finger", section: "4.4, 4.19", cell: broken("<", func(g *inventor) (cell, cell) { return g.note(one).around("v", ""), g.note(one).around(`"4".`, "") })},
	{name: "broken rhythm between chords", section: "4.4, 4.17", cell: broken(">", func(g *inventor) (cell, cell) {
		return g.chord([]tune.Frac{one, one}, one), g.chord([]tune.Frac{one, one}, one)
	})},
	{name: "tie before the bar line of a chord", section: "4.11, 4.17", cell: func(g *inventor) cell {
		c := g.chord([]tune.Frac{two, two}, one)
		g.bar()
		return join("-|", c, c.held())
	}},
	{name: "rests", section: "4.5", cell: func(g *inventor) cell { return join(" ", g.rest("z", two), g.rest("x", half), g.rest("z", half)) }},
	{name: "rests of whole bars", section: "4.5", cell: func(g *inventor) cell {
		a := join(" | Z2 | ", g.note(one), cell{events: []event{{length: g.meter.Mul(two)}}})
		g.bar()
		return join("", a, g.note(one))
	}},
	{name: "an unseen rest of a bar", section: "4.5", cell: func(g *inventor) cell {
		a := join(" | X | ", g.note(one), cell{events: []event{{length: g.meter}}})
		g.bar()
		return join("", a, g.note(one))
	}},
	{name: "ties", section: "4.11", cell: func(g *inventor) cell {
		return join("-", g.note(one), g.again(two).held())
	}},
	{name: "three notes tied", section: "4.11", cell: func(g *inventor) cell {
		return join("- ", g.note(one), g.again(one).held(), g.again(half).held())
	}},
	{name: "tie over the bar line", section: "4.11", cell: func(g *inventor) cell {
		a := g.note(two)
		b := g.again(one).held()
		b.events[0].heads[0].midi = a.events[0].heads[0].midi // it keeps an accidental, unwritten
		g.bar()
		return join("- | ", a, b)
	}},
	{name: "tie over the bar line with an accidental", section: "4.11", cell: func(g *inventor) cell {
		a := g.named("^", 4, 4, two)
		g.bar()
		b := cell{"G", []event{{g.unit, []head{{a.events[0].heads[0].midi, true}}}}}
		return join("- | ", a, join("", b, g.named("", 0, 5, one)))
	}},
	{name: "tied chord", section: "4.11", cell: func(g *inventor) cell {
		c := g.chord([]tune.Frac{one, one, one}, one)
		return join("-", c, c.held())
	}},
	{name: "tie inside a chord", section: "4.11", cell: func(g *inventor) cell {
		letter, octave := 2+g.chance.IntN(3), 4
		low, high := g.named("", letter, octave, one), g.named("", letter+2, octave, one)
		other := g.named("", letter+1, octave, one)
		first := event{g.unit, append(append([]head{}, low.events[0].heads...), high.events[0].heads...)}
		kept := high.held().events[0].heads
		return cell{"[" + low.text + high.text + "-][" + other.text + high.text + "]",
			[]event{first, {g.unit, append(append([]head{}, other.events[0].heads...), kept...)}}}
	}},
	{name: "tie to another pitch", section: "4.11", cell: func(g *inventor) cell {
		return join("-", g.named("", 4, 4, one), g.named("", 5, 4, one))
	}},
	{name: "slurs", section: "4.11", cell: func(g *inventor) cell { return join(" ", g.note(one), g.note(one)).around("(", ")") }},
	{name: "dotted tie", section: "4.11", cell: func(g *inventor) cell { return join(".-", g.note(one), g.again(one).held()) }},
	{name: "nested slurs", section: "4.11", cell: func(g *inventor) cell {
		return join(" ", g.note(one), join("", g.note(one), g.note(one)).around("(", ")"), g.note(one)).around("(", ")")
	}},
	{name: "slurs from note to note", section: "4.11", cell: func(g *inventor) cell {
		return join(" ", g.note(one), g.note(one).around("(", ")"), g.note(one)).around("(", ")")
	}},
	{name: "dotted slur", section: "4.11", cell: func(g *inventor) cell { return join("", g.note(one), g.note(one)).around(".(", ")") }},
	{name: "grace note", section: "4.12", cell: dress("{g}")},
	{name: "acciaccatura", section: "4.12", cell: dress("{/a}")},
	{name: "grace notes", section: "4.12", cell: dress("{gab}")},
	{name: "grace notes with lengths", section: "4.12", cell: dress("{g2f}")},
	{name: "grace note with an accidental", section: "4.12", cell: func(g *inventor) cell {
		return join(" ", g.named("", 3, 4, one).around("{^c}", ""), g.named("", 0, 5, one))
	}},
	{name: "grace notes before a chord", section: "4.12", cell: func(g *inventor) cell { return g.chord([]tune.Frac{one, one}, one).around("{f}", "") }},
	{name: "grace notes at the end of a slur", section: "4.12", cell: func(g *inventor) cell {
		return join(" ", g.note(one), g.note(one).around("", "{ga})")).around("(", "")
	}},
	{name: "chord", section: "4.17", cell: chordOf(one, one, one, one)},
	{name: "chord with an outer length", section: "4.17", cell: chordOf(two, one, one, one)},
	{name: "chord with inner lengths", section: "4.17", cell: chordOf(one, two, two)},
	{name: "chord with both lengths", section: "4.17", cell: chordOf(half, two, two, two)},
	{name: "chord with both lengths, longer", section: "4.17", cell: chordOf(f(3, 1), two, two)},
	{name: "chord of unlike lengths", section: "4.17", cell: chordOf(one, two, one)},
	{name: "chord with accidentals", section: "4.17", cell: func(g *inventor) cell {
		low, high := g.named("^", 3, 4, one), g.named("_", 6, 4, one)
		return join("", cell{"[" + low.text + high.text + "]", []event{{g.unit, append(append([]head{}, low.events[0].heads...), high.events[0].heads...)}}}, g.named("", 3, 4, one))
	}},
	{name: "chord with signs inside", section: "4.17", cell: func(g *inventor) cell {
		c := g.chord([]tune.Frac{one, one}, one)
		c.text = "[!1!" + c.text[1:]
		return c
	}},
	{name: "chord symbol", section: "4.18", cell: dress(`"Am7"`)},
	{name: "chord symbol with a bass", section: "4.18", cell: dress(`"G/B"`)},
	{name: "annotation", section: "4.19", cell: dress(`"^slowly | and [softly"`)},
	{name: "bare finger in quotes", section: "4.19", cell: dress(`"2"`)},
	{name: "fingering", section: "4.14", cell: dress("!2!")},
	{name: "staccato", section: "4.14", cell: dress(".")},
	{name: "roll", section: "4.14", cell: dress("~")},
	{name: "signs of one letter", section: "4.14", cell: func(g *inventor) cell {
		return g.note(one).around(g.oneOf("H", "L", "M", "O", "P", "S", "T", "u", "v"), "")
	}},
	{name: "long signs", section: "4.14", cell: func(g *inventor) cell {
		return g.note(one).around(g.oneOf("!trill!", "!fermata!", "!turn!", "!roll!", "!<(!", "!mp!", "!arpeggio!", "!uppermordent!", "!breath!"), "")
	}},
	{name: "letter without a meaning", section: "4.14, 4.16", cell: dress("k")},
	{name: "sign before the bar line", section: "4.14", cell: func(g *inventor) cell {
		a := g.note(one).around("", ` H"_D.C."`)
		g.bar()
		return join(" | ", a, g.note(one))
	}},
	{name: "fingers of a chord in quotes", section: "4.19", cell: func(g *inventor) cell { return g.chord([]tune.Frac{one, one}, one).around(`"02"`, "") }},
	{name: "unknown sign", section: "4.14", cell: dress("!plinkle!")},
	{name: "several signs", section: "4.14, 4.20", cell: dress(`"D"!trill!.{g}`)},
	{name: "space for the printer", section: "6.1.2", cell: around("y ", " y2 ")},
	{name: "backquote", section: "4.7", cell: func(g *inventor) cell { return join("`", g.note(one), g.note(one)) }},
	{name: "line continued", section: "6.1.1", cell: around("", " \\\n")},
	{name: "line ends inside a bar", section: "6.1.1", cell: around("", "\n")},
	{name: "comment after music", section: "2.2.1", cell: around("", " % c d e | f :|\n")},
	{name: "comment line", section: "2.2.1", cell: around("", "\n% C D E F :|\n")},
	{name: "stylesheet line", section: "11", cell: around("", "\n%%vskip 20\n")},
	{name: "words under the music", section: "5.1", cell: around("", "\nw: one two-three * four_ |\n")},
	{name: "verses under the music", section: "5.1, 5.2", cell: around("", "\nw:1.~one two-three_ | four\nw:2.~five * six\\-seven eight\n+:nine\n")},
	{name: "signs under the music", section: "4.15", cell: around("", "\ns:!trill! * !turn! \"C\" |\n")},
	{name: "words set apart inside the tune", section: "11.4.2", cell: around("", "\n%%begintext\nc d e f :|\n%%endtext\n")},
	{name: "remark inside the music", section: "3.1.16", cell: around("[r:c d e] ", " ")},
	{name: "notes field inside the tune", section: "3.1", cell: around("", "\nN: not a note: c d e\n")},
	{name: "remark on a line", section: "3.1.16", cell: around("", "\nr: c d e\n")},
	{name: "line that begins with a note and a colon", section: "3", cell: func(g *inventor) cell {
		return join("", g.note(one).around("", "\n"), g.named("", 2, 5, one).around("", ": "), g.note(one))
	}},
	{name: "two old line breaks in a line", section: "12.2", cell: func(g *inventor) cell { return join(" ! ", g.note(one), g.note(one), g.note(one)) }},
	{name: "line break by a sign", section: "6.1.1", cell: func(g *inventor) cell { return join(" $ ", g.note(one), g.note(one)) }},
	{name: "old line break", section: "12.2", cell: around("", " !\n")},
	{name: "key inside the line", section: "3.1.14, 3.2", cell: rekey("[", "]", "K:D", map[int]int{3: 1, 0: 1})},
	{name: "key on a line", section: "3.1.14", cell: onLine(rekey("\n", "\n", "K:Gm", map[int]int{6: -1, 2: -1}))},
	{name: "key with a mode inside the line", section: "3.1.14, 3.2", cell: rekey("[", "]", "K:Edor", map[int]int{3: 1, 0: 1})},
	{name: "clef inside the line", section: "4.6", cell: func(g *inventor) cell {
		return join("", g.note(one).around("", " [K:clef=bass] "), g.named("", 3, 4, one), g.named("", 6, 4, one))
	}},
	{name: "meter inside the line", section: "3.1.6, 3.2", cell: remeter("[", "M:3/4", "]", f(3, 4), 2)},
	{name: "meter on a line", section: "3.1.6", cell: onLine(remeter("\n", "M:2/4", "\n", f(1, 2), 2))},
	{name: "compound meter inside the line", section: "3.1.6, 4.13", cell: func(g *inventor) cell {
		c := remeter("[", "M:6/8", "]", f(3, 4), 3)(g)
		return join("", c, tuplet("(2", 2, 3, 2, plain)(g))
	}},
	{name: "unit inside the line", section: "3.1.7, 3.2", cell: reunit("[L:", "]", f(1, 16))},
	{name: "unit on a line", section: "3.1.7", cell: onLine(reunit("\nL:", "\n", f(1, 4)))},
	{name: "tempo inside the line", section: "3.1.8, 3.2", cell: around("[Q:1/4=90]", "")},
	{name: "duplet", section: "4.13", cell: tuplet("(2", 2, 3, 2, plain)},
	{name: "triplet", section: "4.13", cell: tuplet("(3", 3, 2, 3, plain)},
	{name: "triplet that wants a note where another begins", section: "4.13", cell: func(g *inventor) cell {
		return join("", tuplet("(3", 3, 2, 3, func(g *inventor, i int) cell {
			if i == 2 {
				return g.note(one).around(" (3", "")
			}
			return g.note(one)
		})(g), g.note(one), g.note(one))
	}},
	{name: "triplet in a slur", section: "4.13, 4.11", cell: func(g *inventor) cell { return tuplet("((3", 3, 2, 3, plain)(g).around("", ")") }},
	{name: "slur in a triplet", section: "4.13, 4.11", cell: func(g *inventor) cell { return tuplet("(3(", 3, 2, 3, plain)(g).around("", ")") }},
	{name: "triplet that begins with a grace note", section: "4.13, 4.12", cell: tuplet("(3{b}", 3, 2, 3, plain)},
	{name: "quadruplet", section: "4.13", cell: tuplet("(4", 4, 3, 4, plain)},
	{name: "quintuplet", section: "4.13", cell: tuplet("(5", 5, 0, 5, plain)},
	{name: "sextuplet", section: "4.13", cell: tuplet("(6", 6, 2, 6, plain)},
	{name: "septuplet", section: "4.13", cell: tuplet("(7", 7, 0, 7, plain)},
	{name: "octuplet", section: "4.13", cell: tuplet("(8", 8, 3, 8, plain)},
	{name: "nonuplet", section: "4.13", cell: tuplet("(9", 9, 0, 9, plain)},
	{name: "tuplet of two numbers", section: "4.13", cell: tuplet("(3:2", 3, 2, 3, plain)},
	{name: "tuplet of three numbers", section: "4.13", cell: tuplet("(3:2:2", 3, 2, 2, func(g *inventor, i int) cell { return g.note(f(int64(2-i), 1)) })},
	{name: "tuplet with the middle left out", section: "4.13", cell: tuplet("(3::2", 3, 2, 2, func(g *inventor, i int) cell { return g.note(f(int64(1+i), 1)) })},
	{name: "tuplet with the last left out", section: "4.13", cell: tuplet("(3:2:", 3, 2, 3, plain)},
	{name: "tuplet with all left out", section: "4.13", cell: tuplet("(3::", 3, 2, 3, plain)},
	{name: "tuplet in another time", section: "4.13", cell: tuplet("(5:4:5", 5, 4, 5, plain)},
	{name: "tuplet of unlike lengths", section: "4.13", cell: tuplet("(3", 3, 2, 3, func(g *inventor, i int) cell { return g.note([]tune.Frac{two, half, half}[i]) })},
	{name: "tuplet with a rest", section: "4.13", cell: tuplet("(3", 3, 2, 3, func(g *inventor, i int) cell {
		if i == 1 {
			return g.rest("z", one)
		}
		return g.note(one)
	})},
	{name: "tuplet with a chord", section: "4.13", cell: tuplet("(3", 3, 2, 3, func(g *inventor, i int) cell {
		if i == 0 {
			return g.chord([]tune.Frac{one, one}, one)
		}
		return g.note(one)
	})},
	{name: "tuplet with a grace note", section: "4.13, 4.12", cell: tuplet("(3", 3, 2, 3, func(g *inventor, i int) cell {
		if i == 1 {
			return g.note(one).around("{b}", "")
		}
		return g.note(one)
	})},
	{name: "tuplet with a broken rhythm", section: "4.13, 4.4", cell: func(g *inventor) cell {
		pair := broken(">", notes(one))(g)
		return join("", pair, g.note(one)).scaled(f(2, 3)).around("(3", "")
	}},
	{name: "tuplet under a slur", section: "4.13, 4.11", cell: func(g *inventor) cell { return tuplet("(3", 3, 2, 3, plain)(g).around("(", ")") }},
	{name: "tuplet after tuplet", section: "4.13", cell: func(g *inventor) cell {
		return join("", tuplet("(3", 3, 2, 3, plain)(g), tuplet("(3", 3, 2, 3, plain)(g))
	}},
	{name: "tuplet over the bar line", section: "4.13", cell: func(g *inventor) cell {
		a := join("", g.note(one), g.note(one))
		g.bar()
		return join("|", a, g.note(one)).scaled(f(2, 3)).around("(3", "")
	}},
	{name: "tuplet with a tie", section: "4.13, 4.11", cell: func(g *inventor) cell {
		return join("", join("-", g.note(one), g.again(one).held()), g.note(one)).scaled(f(2, 3)).around("(3", "")
	}},
}
