package read

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Rules are from the ABC music standard 2.1 (December 2011); the section is
// beside each row. The notes are our own.

// lesson is one row: a little music under a header, and what is read. A row
// without a reason is refused.
type lesson struct {
	head, music string
	want        string
	why         string // with the section of ABC 2.1
}

// music reads a row that must bring no remark but those of these kinds.
func (l lesson) read(t *testing.T, allowed ...string) tune.Tune {
	t.Helper()
	if l.why == "" {
		panic("a row without a reason: " + l.music)
	}
	head := l.head
	if !strings.Contains(head, "K:") {
		head += "K:C\n"
	}
	got, remarks := Tune(source.NewText("X:1\n" + head + l.music + "\n"))
	for _, remark := range remarks {
		assert.Contains(t, allowed, remark.Kind, "%q: %s", l.music, remark.Message)
	}
	return got
}

func fracWord(f tune.Frac) string {
	if f.D == 1 {
		return strconv.FormatInt(f.N, 10)
	}
	return strconv.FormatInt(f.N, 10) + "/" + strconv.FormatInt(f.D, 10)
}

// written is a voice in few words: each event's pitches and length in whole
// notes, bar lines where the bar number changes, ~ before a tied note.
func written(v tune.Voice) string {
	var words []string
	for i, e := range v.Events {
		if i > 0 && e.Bar != v.Events[i-1].Bar {
			words = append(words, "|")
		}
		var names []string
		for _, n := range e.Notes {
			name := n.Pitch.String()
			if n.Tied {
				name = "~" + name
			}
			names = append(names, name)
		}
		if len(names) == 0 {
			names = []string{"rest"}
		}
		words = append(words, strings.Join(names, "+")+":"+fracWord(e.Length))
	}
	return strings.Join(words, " ")
}

var pitches = []lesson{
	{"", "C, C c c' |", "C3:1/8 C4:1/8 C5:1/8 C6:1/8", "octaves: C is middle C's, c the one above (4.1)"},
	{"", "C,', c,, B |", "C3:1/8 C3:1/8 B4:1/8", "octave marks add up (4.1)"},
	{"", "^C _D =E ^^F __G |", "C#4:1/8 Db4:1/8 E4:1/8 F##4:1/8 Gbb4:1/8", "accidentals (4.2)"},
	{"K:D\n", "F C =c G|", "F#4:1/8 C#4:1/8 C5:1/8 G4:1/8", "the key alters its letters (4.2)"},
	{"", "^F F f F,|F |", "F#4:1/8 F#4:1/8 F#5:1/8 F#3:1/8 | F4:1/8", "an accidental holds to the bar's end in every octave (4.2, 11.3)"},
	{"I:propagate-accidentals octave\n", "^F f F|", "F#4:1/8 F5:1/8 F#4:1/8", "or in its octave alone, if that is said (11.3)"},
	{"%%propagate-accidentals not\n", "^F F|", "F#4:1/8 F4:1/8", "or for its note alone (11.3)"},
	{"", "^F=F F|", "F#4:1/8 F4:1/8 F4:1/8", "a later accidental takes over (4.2)"},
	{"K:F\n", "B =B B|B|", "Bb4:1/8 B4:1/8 B4:1/8 | Bb4:1/8", "after the bar line the key holds again (4.2)"},
	{"", "C [K:E] C F|", "C4:1/8 C#4:1/8 F#4:1/8", "a key inside the music (3.2)"},
	{"K:D\n", "F\nK:Dm\nF|", "F#4:1/8 F4:1/8", "a key on a line of its own (3.2)"},
	{"", "{^g}A g G|g|", "A4:1/8 G5:1/8 G4:1/8 | G5:1/8", "an accidental on a grace note is the grace note's alone (abc2midi and abcjs; the standard does not say)"},
}

var lengths = []lesson{
	{"", "A A2 A/ A/2 A// A3/2 A3/4 A/8|", "A4:1/8 A4:1/4 A4:1/16 A4:1/16 A4:1/32 A4:3/16 A4:3/32 A4:1/64", "lengths multiply the unit (4.3)"},
	{"L:1/16\n", "A A8 A/8|", "A4:1/16 A4:1/2 A4:1/128", "down to a 128th (4.3)"},
	{"M:2/4\n", "A8|", "A4:1/2", "2/4 is under 0.75: the unit is a sixteenth (3.1.7)"},
	{"M:3/4\n", "A6|", "A4:3/4", "3/4 is 0.75: the unit is an eighth (3.1.7)"},
	{"M:6/8\nL:1/4\n", "A3|", "A4:3/4", "L: says it (3.1.7)"},
	{"M:6/8\n", "A6|[M:2/4]A4|", "A4:3/4 | A4:1/2", "a later meter leaves the unit alone (3.1.7)"},
	{"", "A[L:1/4]A|", "A4:1/8 A4:1/4", "a unit inside the music (3.2)"},
	{"", "z z2 x/ C|", "rest:1/8 rest:1/4 rest:1/16 C4:1/8", "rests, seen and unseen (4.5)"},
	{"M:3/4\n", "Z2|A6|X|B6|", "rest:3/2 | A4:3/4 | rest:3/4 | B4:3/4", "rests of whole bars (4.5)"},
	{"", "A>B A<B A>>B A<<B A>>>B|", "A4:3/16 B4:1/16 A4:1/16 B4:3/16 A4:7/32 B4:1/32 A4:1/32 B4:7/32 A4:15/64 B4:1/64", "broken rhythm (4.4)"},
	{"", "A>|B A< |B|", "A4:3/16 | B4:1/16 A4:1/16 | B4:3/16", "broken rhythm over a bar line (abc2midi and abcjs; the standard does not say)"},
	{"", "A>{g}B A{g}>B A > B|", "A4:3/16 B4:1/16 A4:3/16 B4:1/16 A4:3/16 B4:1/16", "grace notes and spaces change nothing in it (4.4, 4.12)"},
	{"", "A2>B2 [CE]>z|", "A4:3/8 B4:1/8 C4+E4:3/16 rest:1/16", "broken rhythm on longer notes, chords and rests (4.4)"},
	{"", "(3ABc d|", "A4:1/12 B4:1/12 C5:1/12 D5:1/8", "three in the time of two (4.13)"},
	{"", "(2AB (4ABcd|", "A4:3/16 B4:3/16 A4:3/32 B4:3/32 C5:3/32 D5:3/32", "two, and four, in the time of three (4.13)"},
	{"", "(6ABcABc (8ABcdABcd|", "A4:1/24 B4:1/24 C5:1/24 A4:1/24 B4:1/24 C5:1/24 A4:3/64 B4:3/64 C5:3/64 D5:3/64 A4:3/64 B4:3/64 C5:3/64 D5:3/64", "six in the time of two, eight in the time of three (4.13)"},
	{"M:C\n", "(5ABcde z6|", "A4:1/20 B4:1/20 C5:1/20 D5:1/20 E5:1/20 rest:3/4", "five in simple meter: in the time of two (4.13)"},
	{"M:6/8\n", "(5ABcde z3|", "A4:3/40 B4:3/40 C5:3/40 D5:3/40 E5:3/40 rest:3/8", "five in compound meter: in the time of three (4.13)"},
	{"M:6/8\n", "(7ABcdefg z3|", "A4:3/56 B4:3/56 C5:3/56 D5:3/56 E5:3/56 F5:3/56 G5:3/56 rest:3/8", "seven in compound meter (4.13)"},
	{"", "(3:2:2A2B c|", "A4:1/6 B4:1/12 C5:1/8", "(p:q:r counts r notes (4.13)"},
	{"", "(3::2A2B c (3:2ABc (3:2:ABc (3::ABc|", "A4:1/6 B4:1/12 C5:1/8 A4:1/12 B4:1/12 C5:1/12 A4:1/12 B4:1/12 C5:1/12 A4:1/12 B4:1/12 C5:1/12", "q and r may be left out (4.13)"},
	{"", "(3A>BzC|", "A4:1/8 B4:1/24 rest:1/12 C4:1/8", "a rest counts, and broken rhythm works inside (4.13)"},
	{"", "(3(ABc) (A B)|", "A4:1/12 B4:1/12 C5:1/12 A4:1/8 B4:1/8", "slurs round a tuplet (4.11)"},
}

var chords = []lesson{
	{"", "[CEG] [CEG]2 [C2E2]|", "C4+E4+G4:1/8 C4+E4+G4:1/4 C4+E4:1/4", "notes at one moment (4.17)"},
	{"", "[C2E2G2]3/2 [C/E]/|", "C4+E4+G4:3/8 C4+E4:1/32", "lengths inside and outside multiply (4.17)"},
	{"", "[C2E4] D|", "C4+E4:1/4 D4:1/8", "the first note's length is the chord's (4.17)"},
	{"", "[ C E^G ]|", "C4+E4+G#4:1/8", "spaces inside do no harm"},
	{"", "c-c c2-|c|", "C5:1/8 ~C5:1/8 C5:1/4 | ~C5:1/8", "ties (4.11)"},
	{"", "^c-|c c|", "C#5:1/8 | ~C#5:1/8 C5:1/8", "a note tied over the bar line keeps its accidental, the next has none (engraving practice)"},
	{"", "c-d c|", "C5:1/8 D5:1/8 C5:1/8", "a tie to another pitch is a slur, as old files write it"},
	{"", "[CE]-[CG] [C-E][CE]|", "C4+E4:1/8 ~C4+G4:1/8 C4+E4:1/8 ~C4+E4:1/8", "ties after a chord, and inside it (4.11, 4.17)"},
	{"", "C .-C .(DE) C|", "C4:1/8 ~C4:1/8 D4:1/8 E4:1/8 C4:1/8", "dotted ties and slurs (4.11)"},
}

func TestWritten(t *testing.T) {
	for _, table := range [][]lesson{pitches, lengths, chords, layout} {
		for _, row := range table {
			assert.Equal(t, row.want, written(row.read(t, "bar-too-short", "chord-lengths").Voices[0]), "%q: %s", row.music, row.why)
		}
	}
}

var layout = []lesson{
	{"", "A`B y C y3/2 D$E|", "A4:1/8 B4:1/8 C4:1/8 D4:1/8 E4:1/8", "backquotes, space and line breaks make no sound (4.7, 6.1)"},
	{"", "A % B\nC|", "A4:1/8 C4:1/8", "a comment ends at the line's end (2.2.5)"},
	{"", "A \\\nB|", "A4:1/8 B4:1/8", "a line goes on (2.2.6, 6.1.1)"},
	{"", "A\n%%begintext\nEDCB|\n%%endtext\nB|", "A4:1/8 B4:1/8", "text for the printer is no music (11)"},
	{"", "A|\nw:la la\nW:la la\nN:gently\n[r:to be checked]B|", "A4:1/8 | B4:1/8", "words and notes about the tune are no music (3.1, 5)"},
	{"V:R name=\"Right hand\" clef=treble\n", "[V:R]A|", "A4:1/8", "one voice with a name (7.1)"},
	{"", "A:|\nB:|\nC|", "A4:1/8 | B4:1/8 | C4:1/8", "a note and a repeat at the start of a line are no field"},
	{"M:6/8\n", "A|B3 c3|d6|e5|", "A4:1/8 | B4:3/8 C5:3/8 | D5:3/4 | E5:5/8", "a pickup and the bar that makes up for it"},
	{"M:C\n", "A|B8|c6:|d2|e8|", "A4:1/8 | B4:1 | C5:3/4 D5:1/4 | E5:1", "two halves of a bar that a repeat parts are one bar, as players count"},
}

// Bars are numbered from 1, a pickup is 0; lines from 0.
func TestBarsAndLines(t *testing.T) {
	bars := func(v tune.Voice) (got []int) {
		for _, e := range v.Events {
			got = append(got, e.Bar)
		}
		return got
	}
	rows := []struct {
		abc  string
		bars []int
		many int
		why  string
	}{
		{"M:3/4\nK:C\nA6|B6|", []int{1, 2}, 2, "no pickup"},
		{"M:3/4\nK:C\n|:A2|B6|c4:|", []int{0, 1, 2}, 2, "a pickup after |:"},
		{"M:3/4\nK:C\nA6|Z3|c6|", []int{1, 2, 5}, 5, "a rest of three bars counts three"},
		{"K:C\nA|B|", []int{1, 2}, 2, "a free meter has no pickup"},
		{"M:3/4\nK:C\nA6|1B4:|2c4|]", []int{1, 2, 3}, 3, "endings are bars of their own"},
		{"M:3/4\nK:C\nA6||||:B6|]", []int{1, 2}, 2, "many bar lines in a row are one"},
		{"M:C\nK:C\nA4", []int{1}, 1, "no bar line at all"},
	}
	for _, row := range rows {
		got, _ := Tune(source.NewText(row.abc))
		assert.Equal(t, row.bars, bars(got.Voices[0]), row.why)
		assert.Equal(t, row.many, got.Voices[0].Bars, row.why)
	}
	got, _ := Tune(source.NewText("K:C\nA|\\\nB|\n%%ready x\nC|$D|$\nE!F|\n"))
	var lines []int
	for _, e := range got.Voices[0].Events {
		lines = append(lines, e.Line)
	}
	assert.Equal(t, []int{0, 0, 1, 2, 3, 4}, lines, "a backslash joins lines, $ and an old ! part them (6.1.1, 12.2)")
}

// A pitch that has no name is no string's, even on a harp that ends where names do.
func TestBeyond(t *testing.T) {
	got, remarks := Tune(source.NewText("X:1\nK:C\nc'''' c''''' {c'''''}C [CC,,,,,]|\n"))
	assert.Len(t, remarks, 3)
	events := got.Voices[0].Events
	assert.False(t, events[0].Notes[0].Beyond, "C9")
	assert.True(t, events[1].Notes[0].Beyond, "an octave higher")
	assert.True(t, events[2].Graces[0].Beyond)
	assert.False(t, events[3].Notes[0].Beyond)
	assert.True(t, events[3].Notes[1].Beyond, "C-1")
}

// A dotted rhythm that has not a note on each side changes neither.
func TestBrokenRhythmInVain(t *testing.T) {
	for _, row := range []struct{ music, want, why string }{
		{"A2B2>|", "A4:1/4 B4:1/4", "no second note (abc2midi and abcjs)"},
		{"A4>|Z|B4", "A4:1/2 | rest:1/2 | B4:1/2", "a rest of whole bars"},
		{"A2\n>B2", "A4:1/4 B4:1/4", "at the start of a line (abc2midi and abcjs)"},
		{"A2(>B2)", "A4:1/4 B4:1/4", "behind a slur that begins (abc2midi and abcjs)"},
		{"A2[K:G]>B2", "A4:1/4 B4:1/4", "behind a field (abc2midi and abcjs)"},
	} {
		got, remarks := Tune(source.NewText("X:1\nM:2/4\nL:1/8\nK:C\n" + row.music + "\n"))
		assert.Equal(t, row.want, written(got.Voices[0]), row.why)
		require.NotEmpty(t, remarks, row.why)
		assert.Equal(t, "bad-broken-rhythm", remarks[0].Kind, row.why)
	}
}
