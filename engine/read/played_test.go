package read

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/source"
)

// orders are repeats and endings (ABC 2.1, 4.8 to 4.10); want is the notes as
// played, a digit after a note that is reached again.
var orders = []lesson{
	{"", "A|B|", "A B", "no repeat"},
	{"", "|:A|B:|", "A B A2 B2", "a repeat (4.8)"},
	{"", "A|B:|C|", "A B A2 B2 C", "a repeat without a beginning goes back to the start (4.8)"},
	{"", "A||B:|C|", "A B A2 B2 C", "the first one past a double bar too, as abc2midi and abcjs have it"},
	{"", "A|]B||C:|", "A B C A2 B2 C2", "and past a thick one"},
	{"", "A||B|1C:|2D|]", "A B C A2 B2 D", "and with endings"},
	{"", "A:|B||C:|D|", "A A2 B C C2 D", "a later one to the last double bar (4.8)"},
	{"", "|:A:|B|]C:|", "A A2 B C C2", "or to the last thick bar"},
	{"", "A:|B:|C|", "A A2 B B2 C", "or to the last repeat"},
	{"", "|:A||B:|C|", "A B A2 B2 C", "a double bar inside a repeat changes nothing"},
	{"", "|:A::B:|", "A A2 B B2", ":: ends and starts (4.8)"},
	{"", "|:A:|:B:|", "A A2 B B2", ":|: does so too (4.8)"},
	{"", "|:A:||:B:|", "A A2 B B2", ":||: does so too (4.8)"},
	{"", "|:A:| |:B:|", "A A2 B B2", "two bar lines with a space"},
	{"", "|::A::|", "A A2 A3", "|:: plays three times (4.8)"},
	{"", "A::|B|", "A A2 B", "::| alone is ::, as old files write it"},
	{"", "|:A::|B|", "A A2 B", "also after a plain |:"},
	{"", "|:A|1)B:|2)C|]", "A B A2 C", "brackets after the numbers of endings"},
	{"", "|:A|1. B:|2. C|]", "A B A2 C", "and dots"},
	{"", "AB:][:C|", "A B C", "no repeat, and no chord"},
	{"", "[|:A:|]B||", "A A2 B", "thick bars with repeats"},
	{"", ".|A[|]B.|C|", "A B C", "dotted and invisible bars (4.8)"},
	{"", "|:A|1B:|2C|]", "A B A2 C", "first and second ending (4.9)"},
	{"", "|:A|[1B:|[2C||D|", "A B A2 C D", "the long form, and what follows (4.9)"},
	{"", "|:A |1 B:| [2 C|]", "A B A2 C", "with spaces (4.9)"},
	{"", "A|1B:|2C||D|1E:|2F|]", "A B A2 C D E D2 F", "two parts with endings, no |:"},
	{"", "|:A|1B|C:|2D|E|]", "A B C A2 D E", "endings of two bars"},
	{"", "|:A|1B||C:|2D|]", "A B C A2 D", "a double bar inside the first ending"},
	{"", "|:A|1B:|2C:|D|", "A B A2 C D", "a repeat sign after the last ending sends nobody back"},
	{"", "|:A|[1,3B:|[2C:|D|", "A B A2 C A3 B2 D", "an ending for two passes (4.10)"},
	{"", "|:A|[1-3B:|[4C|]", "A B A2 B2 A3 B3 A4 C", "a range of passes (4.10)"},
	{"", "|:A|1,2B:|3C|]", "A B A2 B2 A3 C", "the short form with a list (4.10)"},
	{"", "|:A|[1B:|[2C:|[3D:|]", "A B A2 C A3 D", "three endings (4.10)"},
	{"", "|:A|1B:|C|]", "A B A2 C", "only a first ending: what follows is the second"},
	{"", "|:A|1B:|2C|:D:|", "A B A2 C D D2", "a new repeat closes the last ending"},
	{"", "A|1B:|2C|D|1E:|2F|]", "A B A2 C D E D2 F", "first and second ending again: a part has begun where the second ending has as many bars as the first"},
	{"", "A|1B|C:|2D|E|F|1G:|2A|]", "A B C A2 D E F G F2 A", "the same with endings of two bars"},
	{"", "|:A[|]:|B|", "A A2 B", "a bar line that is not seen, and the end of a repeat"},
	{"", "|:A|]:|B|", "A A2 B", "the same after a thick bar"},
	{"", "|:A:|B|:|", "A A2 B", "a repeat that starts where the tune ends"},
	{"", "|:A|1B:|2C::D:|", "A B A2 C D D2", ":: after the last ending"},
	{"", "A|[1B|]", "A B", "an ending for the only pass"},
	{"", "|:A:|\n|:B:|", "A A2 B B2", "repeats over lines"},
	{"", "|:A:|\\\n:B:|", "A A2 B B2", "a colon that a new line parted"},
}

// parts are orders of parts (ABC 2.1, 3.1.9 and 4.10).
var parts = []lesson{
	{"P:ABA\n", "P:A\nC|D|\nP:B\nE|\n", "C D E C2 D2", "in order (3.1.9)"},
	{"P:A2B\n", "P:A\nC|\nP:B\nE|\n", "C C2 E", "a number repeats (3.1.9)"},
	{"P:((AB)2.(C)3)2\n", "P:A\nC|[P:B]D|[P:C]E|\n", "C D C2 D2 E E2 E3 C3 D3 C4 D4 E4 E5 E6", "nested, with dots (3.1.9)"},
	{"P:BA\n", "G|\nP:A\nC|\nP:B\nE|\n", "G E C", "what comes before the first part is played first"},
	{"P:AB\n", "P:A\n|:C:|\nP:B\nD:|E|\n", "C C2 D D2 E", "repeats inside a part; one without a beginning goes back no further than its part"},
	{"P:A4\n", "P:A\nC|[1D:|[2E:|[3F:|[4G|]\n", "C D C2 E C3 F C4 G", "as many endings as times: another each time (4.10)"},
	{"P:A2B\n", "P:A\nC|[1D:|[2E|]\nP:B\nF|]\n", "C D C2 E F", "two endings, twice (4.10)"},
	{"P:ABA\n", "P:A\nC|[1D:|[2E|]\nP:B\nF|]\n", "C D C2 E F C3 D2 C4 E2", "otherwise all of it each time"},
	{"P:as printed\n", "P:A\nC|\nP:B\nD|\n", "C D", "words are no order"},
	{"P:AAB (x3)\n", "P:A\nC|\nP:B\nD|\n", "C D", "nor is an order with words"},
	{"P:A A.B\n", "P:A\nC|\nP:B\nD|\n", "C C2 D", "spaces and dots are for the eye"},
	{"P:aab\n", "P:a\nC|\nP:b\nD|\n", "C D", "nor small letters"},
	{"P:B\n", "P:A\nC|D|\nP:B\n", "C D", "an order of parts without notes"},
	{"P:CD\n", "P:A\nC|\nP:B\nD|\n", "C D", "an order of which the music has no part"},
	{"", "P:A\nC|\nP:B\nD:|E|\n", "C D C2 D2 E", "names alone order nothing, nor begin a repeat (4.8)"},
}

func TestPlayed(t *testing.T) {
	for _, row := range append(slices.Clone(orders), parts...) {
		v := row.read(t, "ending-without-repeat", "repeat-open", "stray-colon", "repeat-from-double-bar", "last-ending-repeat", "part-order", "part-missing").Voices[0]
		got := ""
		for i, step := range v.Played {
			if i > 0 {
				got += " "
			}
			got += v.Events[step.Event].Notes[0].Pitch.Name()
			if step.Pass > 1 {
				got += strconv.Itoa(step.Pass)
			}
		}
		assert.Equal(t, row.want, got, "%q: %s", row.music, row.why)
	}
}

// The played time runs on through repeats; every step follows the one before.
func TestPlayedTime(t *testing.T) {
	v := lesson{"", "|:A2 (3BcB|1c>d:|2e4|]", "", "exact times through a repeat"}.read(t).Voices[0]
	now := v.Played[0].Onset
	assert.Zero(t, now.N)
	for _, step := range v.Played {
		assert.Equal(t, now, step.Onset)
		now = now.Add(v.Events[step.Event].Length)
	}
	assert.Equal(t, "7/4", fracWord(now))
}

// A tie holds into the ending that stands behind it; the note of a later ending, and
// one that a repeat goes back to, is struck: nothing in ABC 2.1 ties it, and
// abc2midi and abcjs differ.
func TestTieIntoEndings(t *testing.T) {
	for _, row := range []lesson{
		{"", "|:CA-|1A:|2A|]", "60:1/8 69:1/4 60:1/8 69:1/8 69:1/8", "the second ending"},
		{"", "|:CA-|1A:|2B|]", "60:1/8 69:1/4 60:1/8 69:1/8 71:1/8", "to another note"},
		{"", "A-|:ACA:|]", "69:1/4 60:1/8 69:1/8 69:1/8 60:1/8 69:1/8", "a pickup tied into a repeat that ends on the same note"},
		{"", "A-|:AC-:|C|]", "69:1/4 60:1/8 69:1/8 60:1/4", "the start of a repeat, and its end"},
	} {
		_, played := row.read(t).Notes()
		var got []string
		for _, n := range played {
			got = append(got, strconv.Itoa(n.Midi)+":"+fracWord(n.Length))
		}
		assert.Equal(t, row.want, strings.Join(got, " "), "%q: %s", row.music, row.why)
	}
}

// A tune of 32 bars with repeats, endings, graces and signs.
func BenchmarkTune(b *testing.B) {
	part := "|:\"Am\"A2B {d}c2!2!d|~e3 g3|(3aba ge d2-|d3 B2e|A>B c d2e|f2e !trill!d3|c2B A2G|1A3 A2e:|2A3 A3|]\n"
	text := source.NewText("X:1\nR:jig\nM:6/8\nK:Am\n" + part + part + part + part)
	for b.Loop() {
		Tune(text)
	}
}
