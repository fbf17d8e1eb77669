package read

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

func TestHeader(t *testing.T) {
	text := source.NewText("% a lesson\nX:7\nT:The Lantern Stair\n+:(slow)\nT:another name\nC:our own\nR:jig\nM:6/8\n" +
		"%%ready hand right % which one\nK:Ador clef=treble\n%%ready stay@12\n\"Am\"A3 c3|\n%%ready  set@3  \n")
	got, remarks := Tune(text)
	assert.Empty(t, remarks)
	assert.Equal(t, "The Lantern Stair (slow)", got.Title, "the first T: is the title (3.1.2), +: goes on with it (3.3)")
	assert.Equal(t, "jig", got.Rhythm)
	assert.Equal(t, tune.Meter{Beats: 6, Unit: 8, Text: "6/8"}, got.Meter)
	assert.Equal(t, "A dorian", got.Key.Name)
	assert.Equal(t, "treble", got.Voices[0].Clef)
	assert.Equal(t, "X:7", cut(text, got.Header))
	var settings []string
	for _, setting := range got.Settings {
		settings = append(settings, setting.Text)
		assert.Equal(t, setting.Text, cut(text, setting.Source))
	}
	assert.Equal(t, []string{"hand right", "stay@12", "set@3"}, settings, "in the order of the text, from header and body")
}

func cut(text source.Text, span source.Span) string { return text.String[span.From:span.To] }

// Keys are those of ABC 2.1, 3.1.14; want is the altered letters.
func TestKey(t *testing.T) {
	rows := []struct{ key, name, want, why string }{
		{"G", "G major", "F#", "a tonic alone is major"},
		{"Gmaj", "G major", "F#", "and may say so"},
		{"G ION", "G ionian", "F#", "capitals do not count"},
		{"Em", "E minor", "F#", "m is minor"},
		{"E minor", "E minor", "F#", "a mode after a space"},
		{"EAeo", "E aeolian", "F#", "aeolian"},
		{"Ador", "A dorian", "F#", "dorian"},
		{"D Mixolydian", "D mixolydian", "F#", "only three letters of a mode count"},
		{"DMixFoo", "D mixolydian", "F#", "whatever follows them"},
		{"C Lydian", "C lydian", "F#", "lydian"},
		{"BPhr", "B phrygian", "F#", "phrygian"},
		{"F#Loc", "F# locrian", "F#", "locrian"},
		{"F#mIX", "F# mixolydian", "C# D# F# G# A#", "a sharp tonic"},
		{"Bb", "Bb major", "Eb Bb", "a flat tonic"},
		{"Ebm", "Eb minor", "Cb Db Eb Gb Ab Bb", "E flat minor"},
		{"C#", "C# major", "C# D# E# F# G# A# B#", "seven sharps"},
		{"", "no key signature", "", "empty is none"},
		{"none", "no key signature", "", "none"},
		{"none clef=bass", "no key signature", "", "none with a clef"},
		{"bass", "no key signature", "", "a clef alone is no key"},
		{"D bass", "D major", "C# F#", "a clef word after the key"},
		{"D treble-8 stafflines=5", "D major", "C# F#", "a clef an octave lower, and the printer's words"},
		{"D =c", "D major with C natural", "F#", "an accidental of its own takes the signature's away"},
		{"D Phr ^f", "D phrygian with F#", "Eb F# Bb", "mode and accidental: 3.1.14's own case"},
		{"D maj _b__a^c", "D major with Bb, Abb, C#", "C# F# Abb Bb", "several, run together"},
		{"D exp _b _e ^f", "D with Bb, Eb, F#", "Eb F# Bb", "exp: only what is listed"},
		{"Dexp^f", "D with F#", "F#", "exp without spaces"},
		{"exp ^f", "no key signature with F#", "F#", "exp without a tonic"},
		{"HP", "A mixolydian", "C# F#", "the pipes: F and C sharp"},
		{"Hp", "A mixolydian", "C# F#", "the same, written out"},
	}
	for _, row := range rows {
		got, remarks := Tune(source.NewText("X:1\nK:" + row.key + "\nC|\n"))
		assert.Empty(t, remarks, "K:%s", row.key)
		assert.Equal(t, row.name, got.Key.Name, "K:%s: %s", row.key, row.why)
		assert.Equal(t, row.want, altered(got.Key.Alter), "K:%s: %s", row.key, row.why)
	}
}

func altered(alter [7]int8) string {
	var words []string
	for letter, by := range alter {
		if by != 0 {
			words = append(words, "CDEFGAB"[letter:letter+1]+strings.Repeat("#", max(0, int(by)))+strings.Repeat("b", max(0, -int(by))))
		}
	}
	return strings.Join(words, " ")
}

// Meters are those of ABC 2.1, 3.1.6.
func TestMeter(t *testing.T) {
	rows := []struct {
		meter string
		want  tune.Meter
	}{
		{"4/4", tune.Meter{Beats: 4, Unit: 4, Text: "4/4"}},
		{"C", tune.Meter{Beats: 4, Unit: 4, Text: "C"}},
		{"C|", tune.Meter{Beats: 2, Unit: 2, Text: "C|"}},
		{"none", tune.Meter{Text: "free"}},
		{"", tune.Meter{Text: "free"}},
		{"2+2+3/8", tune.Meter{Beats: 7, Unit: 8, Text: "2+2+3/8"}},
		{"(2+3)/8", tune.Meter{Beats: 5, Unit: 8, Text: "(2+3)/8"}},
		{" 9/8 ", tune.Meter{Beats: 9, Unit: 8, Text: "9/8"}},
	}
	for _, row := range rows {
		got, _ := Tune(source.NewText("X:1\nM:" + row.meter + "\nK:C\nC|\n"))
		assert.Equal(t, row.want, got.Meter, "M:%s", row.meter)
	}
	got, remarks := Tune(source.NewText("X:1\nK:C\nC|\n"))
	assert.Empty(t, remarks)
	assert.Equal(t, "free", got.Meter.Text, "no M: at all")
}

// Q: is ABC 2.1, 3.1.8, the old forms 10.1. Without it the paces are guesses.
func TestTempo(t *testing.T) {
	rows := []struct {
		head string
		ms   int32
		from string
		why  string
	}{
		{"Q:1/4=120", 500, "Q: line", "quarters a minute"},
		{"Q:3/8=100", 400, "Q: line", "dotted quarters: 600 ms each"},
		{"Q:1/8=100", 1200, "Q: line", "eighths"},
		{"Q:1/4 3/8=40", 600, "Q: line", "two beats counted together: 5/8 in 1500 ms"},
		{"Q:\"Slow\" 1/4=60", 1000, "Q: line", "words before"},
		{"Q:1/4=60 \"Slow\"", 1000, "Q: line", "words after"},
		{"Q:1/4=90", 667, "Q: line", "rounded"},
		{"L:1/4\nQ:120", 500, "Q: line", "old: plain notes a minute"},
		{"Q:120\nL:1/4", 500, "Q: line", "wherever L: stands"},
		{"L:1/8\nQ:C3=100", 400, "Q: line", "old: three plain notes"},
		{"L:1/4\nQ:C=100", 600, "Q: line", "old: one plain note"},
		{"Q:\"Slow\"\nM:6/8\nR:jig", 400, "Q: gives no number; a jig at 100 dotted beats a minute", "words alone"},
		{"R:jig\nM:6/8", 400, "no Q: line; a jig at 100 dotted beats a minute", "a jig"},
		{"R:Double Jig\nM:6/8", 400, "no Q: line; a jig at 100 dotted beats a minute", "any jig"},
		{"R:slip jig\nM:9/8", 400, "no Q: line; a slip jig at 100 dotted beats a minute", "a slip jig"},
		{"R:reel\nM:4/4", 375, "no Q: line; a reel at 160 beats a minute", "a reel"},
		{"R:hornpipe\nM:4/4", 429, "no Q: line; a hornpipe at 140 beats a minute", "a hornpipe"},
		{"R:strathspey\nM:C", 500, "no Q: line; a strathspey at 120 beats a minute", "a strathspey"},
		{"R:Polkas\nM:2/4", 500, "no Q: line; a polka at 120 beats a minute", "more than one"},
		{"R:march\nM:2/4", 600, "no Q: line; a march at 100 beats a minute", "a march"},
		{"R:waltz\nM:3/4", 500, "no Q: line; a waltz at 120 beats a minute", "a waltz"},
		{"R:slow air\nM:3/4", 1000, "no Q: line; an air at 60 beats a minute", "an air"},
		{"R:fairy dance\nM:3/4", 600, "no Q: line; 3/4 at 100 beats a minute", "fairy is no air"},
		{"M:12/8", 444, "no Q: line; 12/8 at 90 dotted beats a minute", "any other compound meter"},
		{"R:march\nM:6/8", 444, "no Q: line; 6/8 at 90 dotted beats a minute", "a march in 6/8"},
		{"M:4/4", 600, "no Q: line; 4/4 at 100 beats a minute", "anything else"},
		{"", 600, "no Q: line; 100 beats a minute", "nothing known"},
	}
	for _, row := range rows {
		got, remarks := Tune(source.NewText("X:1\n" + row.head + "\nK:C\nC|\n"))
		for _, remark := range remarks {
			assert.Contains(t, []string{"bar-too-short", "empty-line"}, remark.Kind, row.head)
		}
		assert.Equal(t, []any{row.ms, row.from}, []any{got.Tempo.QuarterMS, got.Tempo.From}, "%q: %s", row.head, row.why)
	}
}

// Q: inside a tune, as a line of its own or between notes (ABC 2.1, 3.1.8 and the
// table in 3.1). What the second pass of a repeat has is our choice.
func TestTempoInside(t *testing.T) {
	rows := []struct {
		body            string
		start           int32
		written, played string
		why             string
	}{
		{"C2D2|\nQ:1/4=120\nE4|", 1000, "4/8:500", "0/8:1000 4/8:500", "a line of its own (3.1.8)"},
		{"C2[Q:1/4=120]D2|E4|", 1000, "2/8:500", "0/8:1000 2/8:500", "between two notes"},
		{"Q:3/8=100\nC2[Q:3/8=50]D2|", 400, "2/8:800", "0/8:400 2/8:800", "dotted beats; before the first note it is the tune's"},
		{"L:1/4\nC[Q:120]D|", 1000, "2/8:500", "0/8:1000 2/8:500", "old: plain notes a minute (10.1)"},
		{"C4[Q:\"quick\"1/4=120]D4|", 1000, "4/8:500", "0/8:1000 4/8:500", "words beside the number"},
		{"C4[Q:1/4=60]D4[Q:1/4=120]|", 1000, "", "", "what changes nothing, or behind the last note"},
		{"C4[Q:1/4=90][Q:1/4=120]D4|", 1000, "4/8:500", "0/8:1000 4/8:500", "the last one counts"},
		{"|:C4[Q:1/4=120]D4:|E4|", 1000, "4/8:500", "0/8:1000 4/8:500 8/8:1000 12/8:500", "on every pass what is written there"},
		{"|:C4|1[Q:1/4=120]D4:|2E4|", 1000, "4/8:500", "0/8:1000 4/8:500 8/8:1000 12/8:500", "the second ending is written behind the change"},
		{"V:1\nC4|D4|\nV:2\nC,4|[Q:1/4=120]D,4|", 1000, "4/8:500", "0/8:1000 4/8:500", "in whichever voice it stands"},
		{"V:1\nC8|D4|\nV:2\nC,4[Q:1/4=120]B,4|D,4|", 1000, "4/8:500", "0/8:1000 4/8:500", "while a note of another voice sounds"},
		{"V:1\nC4|[Q:1/4=120]D4|\nV:2\nC,4|[Q:1/4=120]D,4|", 1000, "4/8:500", "0/8:1000 4/8:500", "said in both"},
		{"V:1\nC4|D4|\nV:2\n[Q:1/4=60]C,4|D,4|", 1000, "", "", "at the start of another voice"},
	}
	for _, row := range rows {
		abc := "X:1\nL:1/8\nQ:1/4=60\nK:C\n" + row.body + "\n"
		got, remarks := Tune(source.NewText(abc))
		for _, remark := range remarks {
			assert.Contains(t, []string{"old-tempo", "repeat-open"}, remark.Kind, row.body)
		}
		list := func(paces []tune.Pace) string {
			var words []string
			for _, p := range paces {
				words = append(words, strconv.FormatInt(p.At.N*8/p.At.D, 10)+"/8:"+strconv.Itoa(int(p.QuarterMS)))
			}
			return strings.Join(words, " ")
		}
		assert.Equal(t, row.start, got.Tempo.QuarterMS, "%q: %s", row.body, row.why)
		assert.Equal(t, row.written, list(got.Changes), "%q: %s", row.body, row.why)
		if row.played == "" {
			row.played = "0/8:" + strconv.Itoa(int(row.start))
		}
		assert.Equal(t, row.played, list(got.Clock(row.start)), "%q: %s", row.body, row.why)
		thereAndBack(t, abc)
	}
}

// A text need not be tidy to be a tune: line ends of every kind, a byte order
// mark, white space round it, no X: line (a fragment, ABC 2.1, 2.3.1).
func TestUntidy(t *testing.T) {
	for _, abc := range []string{
		"X:1\nK:G\nF2 G2|\n", "X:1\r\nK:G\r\nF2 G2|\r\n", "X:1\rK:G\rF2 G2|\r", "\ufeffX:1\nK:G\nF2 G2|",
		"\n\n  X:1\n  K:G\n  F2 G2|  \n\n", "K:G\nF2 G2|", "X:1\nK:G % one sharp\nF2 G2| % the bar\n\n\n",
	} {
		got, remarks := Tune(source.NewText(abc))
		assert.Empty(t, remarks, "%q", abc)
		assert.Equal(t, "F#4:1/4 G4:1/4", written(got.Voices[0]), "%q", abc)
	}
}
