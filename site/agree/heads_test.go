package agree_test

import (
	"readyhand/engine/tune"
)

// heading is the head of an invented tune.
type heading struct {
	before string // the text before X:
	number string // the X: line
	title  []string
	meter  string // "" for no M: line
	unit   string // "" for no L: line
	key    string
	more   []string // other lines
	after  string   // text after the tune

	free   bool // no bar has a length
	whole  func(text string) string
	length tune.Frac // of a bar
	beats  int
	shift  int       // semitones from what is written to what sounds
	one    tune.Frac // the length of a note
	alters [7]int
}

// keyed is the key of a tune and what it alters: by the letters FCGDAEB, so many
// sharps, or flats from the other end, then single letters.
func keyed(key string, fifths int, more ...[2]int) func(*inventor, *heading) {
	return func(_ *inventor, h *heading) {
		h.key, h.alters = key, signature(fifths)
		for _, m := range more {
			h.alters[m[0]] = m[1]
		}
	}
}

// moved has the notes sound so many semitones from where they are written.
func moved(head func(*inventor, *heading), shift int) func(*inventor, *heading) {
	return func(g *inventor, h *heading) {
		head(g, h)
		h.shift = shift
	}
}

func signature(fifths int) (alters [7]int) {
	order := [7]int{3, 0, 4, 1, 5, 2, 6}
	for i := range fifths {
		alters[order[i]] = 1
	}
	for i := range -fifths {
		alters[order[6-i]] = -1
	}
	return alters
}

// metered is the meter of a tune, the length of a bar, the unit that comes of it
// without L:, and the beats of its default tuplets.
func metered(meter string, length tune.Frac, unit int64, beats int) func(*inventor, *heading) {
	return func(_ *inventor, h *heading) {
		h.meter, h.length, h.unit, h.one, h.beats = meter, length, "", f(1, unit), beats
		if length.N == 0 {
			h.free, h.length = true, f(4, unit)
		}
	}
}

func unit(text string, one tune.Frac) func(*inventor, *heading) {
	return func(_ *inventor, h *heading) { h.unit, h.one = text, one }
}

func lines(more ...string) func(*inventor, *heading) {
	return func(_ *inventor, h *heading) { h.more = append(h.more, more...) }
}

func ending(from, to string) func(*inventor, *heading) {
	return func(_ *inventor, h *heading) { h.whole = replaced(from, to) }
}

// heads are the features of the head, and of the text as a whole.
var heads = []feature{
	{name: "unit by the meter, 2/4", section: "3.1.7", head: metered("2/4", f(1, 2), 16, 2)},
	{name: "unit by the meter, 3/4", section: "3.1.7", head: metered("3/4", f(3, 4), 8, 2)},
	{name: "unit by the meter, 6/8", section: "3.1.7", head: metered("6/8", f(3, 4), 8, 3)},
	{name: "unit by the meter, 9/8", section: "3.1.7", head: metered("9/8", f(9, 8), 8, 3)},
	{name: "unit by the meter, 12/8", section: "3.1.7", head: metered("12/8", f(3, 2), 8, 3)},
	{name: "unit by the meter, 5/8", section: "3.1.7", head: metered("5/8", f(5, 8), 16, 2)},
	{name: "unit by the meter, 3/8", section: "3.1.7", head: metered("3/8", f(3, 8), 16, 2)},
	{name: "unit by the meter, 3/2", section: "3.1.7", head: metered("3/2", f(3, 2), 8, 2)},
	{name: "common time", section: "3.1.6", head: metered("C", f(1, 1), 8, 2)},
	{name: "cut time", section: "3.1.6", head: metered("C|", f(1, 1), 8, 2)},
	{name: "no meter", section: "3.1.6", head: metered("none", f(0, 1), 8, 2)},
	{name: "no M: line", section: "3.1.6", head: metered("", f(0, 1), 8, 2)},
	{name: "added meter", section: "3.1.6", head: metered("2+3/8", f(5, 8), 16, 2)},
	{name: "added meter in brackets", section: "3.1.6", head: metered("(2+2+3)/8", f(7, 8), 8, 2)},
	{name: "unit 1/4", section: "3.1.7", head: unit("1/4", f(1, 4))},
	{name: "unit 1/16", section: "3.1.7", head: unit("1/16", f(1, 16))},
	{name: "unit 1/2", section: "3.1.7", head: unit("1/2", f(1, 2))},
	{name: "unit with spaces", section: "3.1.7", head: unit(" 1/8 ", f(1, 8))},
	{name: "D major", section: "3.1.14", head: keyed("D", 2)},
	{name: "a key with words", section: "3.1.14", head: keyed("A Major", 3)},
	{name: "B flat", section: "3.1.14", head: keyed("Bb", -2)},
	{name: "seven sharps", section: "3.1.14", head: keyed("C#", 7)},
	{name: "seven flats", section: "3.1.14", head: keyed("Cb", -7)},
	{name: "minor by a letter", section: "3.1.14", head: keyed("F#m", 3)},
	{name: "minor by a word", section: "3.1.14", head: keyed("G minor", -2)},
	{name: "minor, loudly", section: "3.1.14", head: keyed("CMIN", -3)},
	{name: "aeolian", section: "3.1.14", head: keyed("B aeo", 2)},
	{name: "ionian", section: "3.1.14", head: keyed("E Ionian", 4)},
	{name: "dorian", section: "3.1.14", head: keyed("Ador", 1)},
	{name: "phrygian", section: "3.1.14", head: keyed("D phr", -2)},
	{name: "lydian", section: "3.1.14", head: keyed("F Lydian", 0)},
	{name: "mixolydian", section: "3.1.14", head: keyed("AMix", 2)},
	{name: "locrian", section: "3.1.14", head: keyed("Bloc", 0)},
	{name: "accidental added to a key", section: "3.1.14", head: keyed("D =c", 1)},
	{name: "accidental added to a mode", section: "3.1.14", head: keyed("D Phr ^f", -2, [2]int{3, 1})},
	{name: "accidentals added to a key", section: "3.1.14", head: keyed("A Mix _b ^g", 2, [2]int{6, -1}, [2]int{4, 1})},
	{name: "explicit accidentals", section: "3.1.14", head: keyed("D exp _b _e ^f", 0, [2]int{6, -1}, [2]int{2, -1}, [2]int{3, 1})},
	{name: "no key", section: "3.1.14", head: keyed("none", 0)},
	{name: "empty key", section: "3.1.14", head: keyed("", 0)},
	{name: "key of the pipes", section: "3.1.14", head: keyed("Hp", 2)},
	{name: "key of the pipes, unmarked", section: "3.1.14", head: keyed("HP", 2)},
	{name: "key and clef", section: "4.6", head: keyed("G clef=bass", 1)},
	{name: "key and clef, short", section: "4.6", head: keyed("Em bass", 1)},
	{name: "key and clef, an octave down", section: "4.6", head: moved(keyed("G clef=treble-8", 1), -12)},
	{name: "key and clef, an octave up", section: "4.6", head: moved(keyed("G treble+8", 1), 12)},
	{name: "key transposed", section: "4.6", head: moved(keyed("G transpose=2", 1), 2)},
	{name: "key, an octave down", section: "4.6", head: moved(keyed("G octave=-1", 1), -12)},
	{name: "key with words after it", section: "3.1.14", head: keyed("Dmaj/Bm", 2)},
	{name: "a key with too many sharps", section: "3.1.14", head: keyed("D#", -3)},
	{name: "a quarter with more behind it", section: "3.1.7", head: unit("1/4.", f(1, 4))},
	{name: "tempo without its letter", section: "2.2.1", head: lines("3/8=120")},
	{name: "strings of a program, gone on", section: "2.2.5", head: lines(`%%Bfly 0 300 6 3 \\`, " 0 0 3 2 1 4")},
	{name: "unit with more behind it", section: "3.1.7", head: unit("1/8=90", f(1, 8))},
	{name: "other fields", section: "3.1", head: lines("A:Nobody", "B:No book", "C:Nobody", "D:None", "F:nowhere", "G:harp", "H:Once there was", "N:A note: c d e", "O:Nowhere", "R:reel", "S:here", "Z:me")},
	{name: "group and words", section: "3.1, 5.2", head: lines("W:La la: c d e", "I:abc-creator none")},
	{name: "tempo", section: "3.1.8", head: lines("Q:1/4=120")},
	{name: "tempo with words", section: "3.1.8", head: lines(`Q:"Slowly" 3/8=50`)},
	{name: "old tempo", section: "3.1.8, 10.1", head: lines("Q:100")},
	{name: "two titles", section: "3.1.2", head: func(_ *inventor, h *heading) { h.title = append(h.title, "T:Another name: c d") }},
	{name: "no title", section: "3.1.2", head: func(_ *inventor, h *heading) { h.title = nil }},
	{name: "field continued", section: "3.3", head: lines("H:Once there was", "+:a harp c d e")},
	{name: "remark in the head", section: "3.1.16", head: lines("r:c d e f")},
	{name: "comments in the head", section: "2.2.1", head: lines("% c d e f", "N:so % not so", "%%staffsep 40")},
	{name: "words set apart", section: "11.4.2", head: lines("%%begintext", "c d e f | g", "%%endtext")},
	{name: "signs of one's own", section: "4.16", head: lines("U:W = !trill!", "U:~ = !turn!")},
	{name: "line in the head that is no field", section: "2.2.1", head: func(_ *inventor, h *heading) { h.title[0] += "\\\nand so on" }},
	{name: "macro that nobody uses", section: "9.1", head: lines("m: ~n2 = n/{o}n/")},
	{name: "key before the meter", section: "3.1.14", head: func(_ *inventor, h *heading) { h.more = append(h.more, "Q:1/8=150") }},
	{name: "spaces after the colon", section: "3", head: func(_ *inventor, h *heading) { h.number, h.key = "X: 7", " G"; h.alters = signature(1) }},
	{name: "lines end as on Windows", section: "2.2", head: ending("\n", "\r\n")},
	{name: "lines end as on an old Mac", section: "2.2", head: ending("\n", "\r")},
	{name: "byte order mark", section: "2.2", head: func(_ *inventor, h *heading) { h.before = bom }},
	{name: "Latin-1", section: "2.2", head: func(_ *inventor, h *heading) { h.title = []string{"T:Le caf\xe9 d'\xe9t\xe9"} }},
	{name: "letters spelt out", section: "8.2", head: func(_ *inventor, h *heading) { h.title = []string{`T:Le caf\'e de l\"Ubr\aA\,c`} }},
	{name: "version line", section: "2.1", head: func(_ *inventor, h *heading) { h.before = "%abc-2.1\n" }},
	{name: "text after the tune", section: "2.2.3", head: func(_ *inventor, h *heading) { h.after = "\nSome words: a b c d e f g | a b\n" }},
	{name: "text before the tune", section: "2.2.3", head: func(_ *inventor, h *heading) { h.before = "Some words about a harp\n\n" }},
	{name: "file header", section: "2.2.2", head: func(_ *inventor, h *heading) { h.before = "%abc\nO:Nowhere\nZ:me\n\n" }},
	{name: "unit in the file header", section: "2.2.2", head: func(_ *inventor, h *heading) {
		h.before, h.unit = "%abc\nL:1/4\n\n", "" // the usual eighth: all others overlook it
	}},
	{name: "accidentals for their octave", section: "11.3", head: func(g *inventor, h *heading) { h.more = append(h.more, "I:propagate-accidentals octave") }},
}
