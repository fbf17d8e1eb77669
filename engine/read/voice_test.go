package read

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Voices, however they are written (ABC 2.1, 7). want is each voice's notes, with
// its layers behind it.
func TestVoices(t *testing.T) {
	rows := []struct {
		abc, why string
		want     []string
	}{
		{"X:1\nV:1 nm=\"Right\" clef=treble\nV:2\nK:C\nV:1\nCD|\nV:2\n^F,E,|[K:D]\nV:1\nFG|\nV:2\nF,2|\n", "lines of their own (7.1); a key or an accidental is one voice's",
			[]string{"C4:1/8 D4:1/8 | F4:1/8 G4:1/8", "F#3:1/8 E3:1/8 | F#3:1/4"}},
		{"X:1\nV:1\nV:2\nK:C\n[V:1]CD|\n[V:2]F,E,|[V:1]FG|\n[V:2]C,D,|\n", "inside the music (7.3)",
			[]string{"C4:1/8 D4:1/8 | F4:1/8 G4:1/8", "F3:1/8 E3:1/8 | C3:1/8 D3:1/8"}},
		{"X:1\nK:C\nCD|\nV:LH clef=bass octave=-1\nCD|\n", "the first V: names the voice of the music before it (abc2midi and abcjs; the standard does not say)",
			[]string{"C4:1/8 D4:1/8 | C3:1/8 D3:1/8"}},
		{"X:1\nL:1/4\nK:G\nV:T\nV:B\nL:1/2\nF,|[V:T]F2|\n", "a length that one voice changes (3.1.7)",
			[]string{"F#4:1/2", "F#3:1/2"}},
		{"X:1\nK:C\nV:1\nA-|\nV:2\nE-|\nV:1\nA|\nV:2\nE|\n", "ties are a voice's own (4.11)",
			[]string{"A4:1/8 | ~A4:1/8", "E4:1/8 | ~E4:1/8"}},
		{"X:1\nK:C\nCD & E2 | F2 & A2 & c2|G2|\n", "& lays another part over the bar (7.4)",
			[]string{"C4:1/8 D4:1/8 | F4:1/4 | G4:1/4", "@0 E4:1/4 | @1/4 A4:1/4", "@1/4 C5:1/4"}},
		{"X:1\nK:C\ng4 f4 | e6 e2 &&\\\n(d8 | c6) c2 |g8|\n", "&& goes two bar lines back (7.4)",
			[]string{"G5:1/2 F5:1/2 | E5:3/4 E5:1/4 | G5:1", "@0 D5:1 | @1 C5:3/4 C5:1/4"}},
		{"X:1\nK:C\n^F2 & F2 |F2|\n", "an accidental of the voice does not hold in its layer, nor a layer's in the voice",
			[]string{"F#4:1/4 | F4:1/4", "@0 F4:1/4"}},
	}
	for _, row := range rows {
		got, remarks := Tune(source.NewText(row.abc))
		assert.Empty(t, remarks, row.why)
		var voices []string
		for _, v := range got.Voices {
			voices = append(voices, timed(v))
		}
		assert.Equal(t, row.want, voices, row.why)
	}
}

// timed is written, with the onset of each bar of a layer.
func timed(v tune.Voice) string {
	if v.Layer == 0 {
		return written(v)
	}
	words := strings.Split(written(v), " | ")
	bar := -1
	for _, e := range v.Events {
		if e.Bar != bar {
			bar = e.Bar
			for i := range words {
				if !strings.HasPrefix(words[i], "@") {
					words[i] = "@" + fracWord(e.Onset) + " " + words[i]
					break
				}
			}
		}
	}
	return strings.Join(words, " | ")
}

// What a V: line says of its voice.
func TestVoiceProperties(t *testing.T) {
	got, _ := Tune(source.NewText("X:1\nV:RH name=\"Right hand\" clef=treble\nV:LH nm=Left bass\nK:C alto\n[V:RH]C|[V:LH]C|[V:X]C|\n"))
	require.Len(t, got.Voices, 3)
	var said []string
	for _, v := range got.Voices {
		said = append(said, v.ID+" "+v.Name+" "+v.Clef)
	}
	assert.Equal(t, []string{"RH Right hand treble", "LH Left bass", "X  alto"}, said, "the clef of K: is for those that have none of their own")
}

// The music is read where it sounds (ABC 2.1, 4.6): abc2midi and abcjs play all
// of these so.
func TestMoved(t *testing.T) {
	for _, row := range []struct{ head, key, want, why string }{
		{"K:C treble-8", "C major", "C3:1/8 F#3:1/8 B3:1/8", "an eight under the clef"},
		{"K:C clef=treble+8", "C major", "C5:1/8 F#5:1/8 B5:1/8", "and above it"},
		{"K:C octave=-1", "C major", "C3:1/8 F#3:1/8 B3:1/8", "octave="},
		{"K:C bass-8 octave=1", "C major", "C4:1/8 F#4:1/8 B4:1/8", "both"},
		{"K:C transpose=2", "D major", "D4:1/8 G#4:1/8 C#5:1/8", "transpose= in semitones; the key goes with it"},
		{"K:C t=-2", "Bb major", "Bb3:1/8 E4:1/8 A4:1/8", "down"},
		{"V:1 octave=-1\nK:C", "C major", "C3:1/8 F#3:1/8 B3:1/8", "of a voice"},
		{"K:C middle=d", "C major", "C4:1/8 F#4:1/8 B4:1/8", "where the printer puts the staff moves nothing"},
	} {
		got, remarks := Tune(source.NewText("X:1\n" + row.head + "\nC^FB|\n"))
		assert.Empty(t, remarks, row.why)
		assert.Equal(t, row.want, written(got.Voices[0]), row.why)
		assert.Equal(t, row.key, got.Key.Name, row.why)
	}
	got, _ := Tune(source.NewText("X:1\nK:C transpose=2\n^c-|c c|[K:G]F[K:C treble octave=1]C|\n"))
	assert.Equal(t, "D#5:1/8 | ~D#5:1/8 D5:1/8 | G#4:1/8 D5:1/8", written(got.Voices[0]), "a tied note keeps its accidental, moved or not")
	assert.Equal(t, "A major", got.Voices[0].Marks[2].Key.Name)
}

// Words under the notes (ABC 2.1, 5.1). want is the syllables of each verse: a
// hyphen where the word goes on, _ held, . none.
func TestLyrics(t *testing.T) {
	for _, row := range []struct{ body, want, why string }{
		{"C D E F|\nw: doh re mi fa\nG A B c|\nw: sol la ti doh", "doh re mi fa sol la ti doh", "line by line"},
		{"C D E F|\nG A B c|\nw: doh re mi fa sol la ti doh", "doh re mi fa sol la ti doh", "after two lines"},
		{"C D E F|\nw: doh re mi fa\nG G G G|\nw:\nF E F C|\nw: fa mi re doh", "doh re mi fa . . . . fa mi re doh", "an empty line leaves its notes without"},
		{"CDEF|\nw: syll-a-ble", "syll- a- ble .", "syllables of a word"},
		{"CDEF|\nw: syll-a--ble", "syll- a- - ble", "a word that is held inside"},
		{"CDEF|\nw: syll-a -ble", "syll- a - ble", "the same"},
		{"CDEF|\nw: time__ now", "time _ _ now", "held"},
		{"CDEF|\nw: of~the~day a\\-way", "of the day,a-way . .", "one note each"},
		{"CDEF|\nw: * a * b", ". a . b", "notes without"},
		{"CD|EF|GA|\nw: a | b c | d", "a . b c d .", "a bar line goes on to the next bar"},
		{"{e}C z D y E|\nw: a b c", "a b c", "not under grace notes, rests or space"},
		{"CD|\nw: a b\nw: c d\nEF|\nw: e f\n+: g", "a/c b/d e f", "verses under one another, and a line that goes on"},
		{"C2 & E2|D2|\nw: a b", "a b", "whatever & lays over it"},
		{"CD|\nw: caf\\'e &szlig;", "café ß", "accents by name (8.2)"},
	} {
		got, remarks := Tune(source.NewText("X:1\nK:C\n" + row.body + "\n"))
		assert.Empty(t, remarks, row.why)
		assert.Equal(t, strings.ReplaceAll(row.want, ",", " "), sung(got.Voices[0]), row.why)
	}
}

func sung(v tune.Voice) string {
	var words []string
	for _, e := range v.Events {
		if len(e.Notes) == 0 {
			continue
		}
		var verses []string
		for _, l := range e.Lyrics {
			word := l.Text
			switch {
			case l.Hold:
				word = "_"
			case l.Hyphen:
				word += "-"
			case word == "":
				word = "."
			}
			verses = append(verses, word)
		}
		if verses == nil {
			verses = []string{"."}
		}
		words = append(words, strings.Join(verses, "/"))
	}
	return strings.Join(words, " ")
}

// Text strings (ABC 2.1, 8.2): accents in three ways, and Latin-1 bytes.
func TestPlainText(t *testing.T) {
	for _, row := range []struct{ written, want, why string }{
		{`Caf\'e`, "Café", "a mnemonic"},
		{"Caf&eacute;", "Café", "a name"},
		{`Caf\u00e9`, "Café", "a number"},
		{"Caf&#233;", "Café", "a number as in HTML"},
		{"Caf\xe9", "Café", "Latin-1"},
		{"Café \xe9", "Café é", "both"},
		{`\"O\ss\AA\cc\vZ\~n\/o\th`, "ÖßÅçŽñøþ", "every kind"},
		{`50\% \& more \\`, "50% & more \\", "what has a meaning of its own"},
		{`A & B; C \x &none;`, `A & B; C \x &none;`, "what means nothing stays"},
	} {
		got, _ := Tune(source.NewText("X:1\nT:" + row.written + "\nK:C\nC|\n"))
		assert.Equal(t, row.want, got.Title, row.why)
	}
}

// Lines that end the tune or the music line (ABC 2.1, 2.2 and 6.1.1).
func TestLines(t *testing.T) {
	for _, row := range []struct {
		abc, notes string
		lines      []int
		why        string
	}{
		{"K:C\nC|\n\nLearnt by ear, at a dance.\nIt is slow: take your time.\n", "C4:1/8", []int{0}, "text after the tune is no music (2.2.1)"},
		{"Songs for the harp | by ear\nR:jig\n\nX:1\nK:C\nC|\n", "C4:1/8", []int{0}, "text before the tune is none either (2.2.3)"},
		{"K:C\nI:linebreak $\nC|\nD|$E|\n", "C4:1/8 | D4:1/8 | E4:1/8", []int{0, 0, 1}, "only $ ends a line"},
		{"I:linebreak !\nK:C\nC|!D|\nE|\n", "C4:1/8 | D4:1/8 | E4:1/8", []int{0, 1, 1}, "only ! ends a line"},
		{"%%linebreak <none>\nK:C\nC|\nD|$E|\n", "C4:1/8 | D4:1/8 | E4:1/8", []int{0, 0, 0}, "nothing does"},
		{"K:C\n%%beginps\nCDE|\n%%endps\nC|\n", "C4:1/8", []int{0}, "another program's text"},
		{"K:C\nA: |\nd: |c|\n", "A4:1/8 | D5:1/8 | C5:1/8", []int{0, 1, 1}, "a note and a repeat are no field"},
	} {
		got, _ := Tune(source.NewText(row.abc))
		v := got.Voices[0]
		assert.Equal(t, row.notes, written(v), row.why)
		var lines []int
		for _, e := range v.Events {
			lines = append(lines, e.Line)
		}
		assert.Equal(t, row.lines, lines, row.why)
	}
}

// Where a bar has nothing yet, & lays nothing over it: what follows is the voice's
// own.
func TestLayerOverNothing(t *testing.T) {
	for _, music := range []string{"(&AB|&BC|&)|", "&AB|c|", "&AB|"} {
		got, _ := Tune(source.NewText("X:1\nK:C\n" + music + "\n"))
		written, played := got.Notes()
		assert.NotEmpty(t, written, music)
		assert.Equal(t, written, played, music)
		assert.Len(t, got.Voices, 1, music)
	}
}
