package read

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// carried is what the events carry besides their notes: graces in braces,
// decorations in !!, fingers after a colon, chord symbols in quotes, and a
// comma where a phrase ends.
func carried(v tune.Voice) string {
	var words []string
	for _, e := range v.Events {
		word := ""
		if e.Chord != "" {
			word += `"` + e.Chord + `"`
		}
		for _, g := range e.Graces {
			word += "{" + g.Pitch.String() + "}"
		}
		for _, d := range e.Decorations {
			word += "!" + d.Name + "!"
		}
		for _, n := range e.Notes {
			word += n.Pitch.Name()
			if n.Finger != 0 {
				word += ":" + string(rune('0'+n.Finger))
			}
		}
		if len(e.Notes) == 0 {
			word += "z"
		}
		if e.PhraseEnd {
			word += ","
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

var marks = []lesson{
	{"", "{g}A {gf}B {/e}C|", "{G5}A {G5}{F5}B {E5}C", "grace notes (4.12)"},
	{"", "{g2a/}A {(ga)}B {g>a}C|", "{G5}{A5}A {G5}{A5}B {G5}{A5}C", "their lengths, slurs and dots say nothing here"},
	{"K:D\n", "{f^g=c}A|", "{F#5}{G#5}{C5}A", "the key and accidentals alter them (4.12, 4.2)"},
	{"", "A{g}|B|", "A {G5}B", "a grace before the bar line leads to the note after it"},
	{"", "{g}[CE] {a}(3ABC|", "{G5}CE {A5}A B C", "before chords and inside tuplets (4.12, 4.20)"},
	{"", "~A TB MC PD|", "!roll!A !trill!B !lowermordent!C !uppermordent!D", "short signs (4.14)"},
	{"", "!roll!A !trill!B !turn!C !mordent!D !pralltriller!E !lowermordent!F !uppermordent!G|",
		"!roll!A !trill!B !turn!C !mordent!D !pralltriller!E !lowermordent!F !uppermordent!G", "long names (4.14)"},
	{"", "!cut!A !tap!B !short-roll!C|", "!cut!A !tap!B !short-roll!C", "the catalogue's own names, which other programs skip (4.14)"},
	{"", "!trill(!A !trill)!B|", "!trill!A !trill)!B", "a trill over several notes (4.14)"},
	{"", ".A uB vC HD LE OF SG !fermata!A !mf!B !crescendo(!C !<)!D !>!E !+!F !wedge!G !segno!A|",
		"!staccato!A !upbow!B !downbow!C !fermata!D !accent!E !coda!F !segno!G !fermata!A !mf!B !crescendo(!C !<)!D !>!E !+!F !wedge!G !segno!A",
		"signs that change no string (4.14)"},
	{"", "+trill+A +2+B +++C|", "!trill!A B:2 !+!C", "the plus signs of ABC 2.0 (2.1, 10.3)"},
	{"", "!trill! A ~[CE]|", "!trill!A !roll!CE", "a space after a sign, and a sign on a chord"},
	{"", "{g}~A ~{g}B \"Am\"!2!C|", "{G5}!roll!A {G5}!roll!B \"Am\"C:2", "in any order (4.20)"},
	{"", "!1!A !2!B \"3\"C \"4\"D|", "A:1 B:2 C:3 D:4", "fingers, and the bare ones of old collections (4.14)"},
	{"", "[!3!C!2!E!1!G] [\"2\"C\"1\"E]2|", "C:3E:2G:1 C:2E:1", "fingers inside a chord, each before its note"},
	{"", "\"Am7\"A \"^slow\"B \"<(\"C \"N.C.\"D \"G/B\"z|", "\"Am7\"A B C D \"G/B\"z", "chord symbols and annotations (4.18, 4.19)"},
	{"", "A !breath!B C !shortphrase!D !mediumphrase!E !longphrase!F G|", "A B, C D, E, F, G", "a phrase sign stands before the last note of its phrase: a sign precedes its note, and the breath follows it (4.14)"},
	{"", "A B !breath!|C !longphrase!\nD|", "A B, C, D", "at a bar line or line end it can only mean the note before"},
	{"", "A B\n%%ready phrase\nC D|\n%%ready phrase", "A B, C D,", "our own phrase line ends the phrase with the note before it"},
	{"U:T=!turn!\nU:n=+roll+\nU:h=\"^high\"\nU:v=!nil!\n", "TA nB hC vD|", "!turn!A !roll!B C D", "signs of one's own (4.16)"},
	{"", "[U:T=!roll!]TA|", "!roll!A", "also inside the music (3.2)"},
	{"", "CDE z F|\ns: !trill! * !2! \"Am\" |\ns:* T *|", "!trill!C !trill!D E:2 z \"Am\"F", "signs under the music, line under line (4.15)"},
	{"", "C|DE|\ns:|!roll!|\n+:", "C !roll!D E", "a bar line goes on to the next bar (4.15)"},
	{"", "\"Bbmaj7\"C \"C/E\"D \"G(Em)\"E \"F#m7b5\"F \"B♭\"G|", "\"Bbmaj7\"C \"C/E\"D \"G(Em)\"E \"F#m7b5\"F \"B♭\"G", "chord symbols of every kind (4.18)"},
	{"", "!fermata!z !segno!| !mf!C !fermata!|", "!fermata!z !mf!C", "signs on rests and bar lines (4.14)"},
	{"", "AB!\nCD!|E|", "A B C D E", "an old line break (12.2)"},
}

func TestCarried(t *testing.T) {
	for _, row := range marks {
		assert.Equal(t, row.want, carried(row.read(t, "old-line-break").Voices[0]), "%q: %s", row.music, row.why)
	}
}

// Every sign of the standard's list is known, with both kinds of marks; so is
// every row of the catalogue.
func TestEverySign(t *testing.T) {
	var names []string
	for _, row := range signs {
		names = append(names, row.name)
	}
	for _, row := range ornament.Rows() {
		names = append(names, row.Name)
		names = append(names, row.ABC...)
	}
	for _, name := range names {
		_, remarks := Tune(source.NewText("X:1\nK:C\n!" + name + "!A|\n"))
		for _, remark := range remarks {
			assert.Contains(t, []string{"ornament-missing", "finger-not-used", "jump-not-followed"}, remark.Kind, name)
		}
	}
	for _, row := range shortSigns {
		_, ok := meaning(row.name)
		assert.True(t, ok, "%s stands for %s, which is no sign", row.sign, row.name)
	}
}

// The places of an event, its notes, graces, signs and fingers are the very
// letters that were written.
func TestPlaces(t *testing.T) {
	text := source.NewText("X:1\nT:Ó\nK:C\n\"Am\"{^g}!trill!!2!^c'3/2 [!3!C,E]2 z4|\n")
	got, remarks := Tune(text)
	require.Empty(t, remarks)
	events := got.Voices[0].Events
	note := events[0].Notes[0]
	assert.Equal(t, "^c'3/2", cut(text, events[0].Source))
	assert.Equal(t, "^c'", cut(text, note.Source))
	assert.Equal(t, "!2!", cut(text, note.Pinned))
	assert.Equal(t, "^g", cut(text, events[0].Graces[0].Source))
	assert.Equal(t, "!trill!", cut(text, events[0].Decorations[0].Source))
	assert.Equal(t, "[!3!C,E]2", cut(text, events[1].Source))
	assert.Equal(t, "C,", cut(text, events[1].Notes[0].Source))
	assert.Equal(t, "!3!", cut(text, events[1].Notes[0].Pinned))
	assert.Equal(t, source.Nowhere(), events[1].Notes[1].Pinned)
	assert.Equal(t, "z4", cut(text, events[2].Source))
	assert.Equal(t, 3, events[1].Notes[1].Number, "every note head has its number")
}
