package vary

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
	"readyhand/engine/score"
	"readyhand/engine/tune"
)

// At 600 ms a quarter. Events are note=pitch:since,length.
func TestPlayedOrderAndTime(t *testing.T) {
	for _, row := range []struct{ why, text, want string }{
		{"eighths", "C4:1/8 D4:1/8 G4:1/4", "1=C4:0,300 2=D4:300,300 3=G4:300,600"},
		{"a triplet's thirds stay equal", "C4:1/12 D4:1/12 G4:1/12 C4:1/4", "1=C4:0,200 2=D4:200,200 3=G4:200,200 4=C4:200,600"},
		{"a chord, lowest string first", "G4+C4+Eb4:1/4", "2=C4+3=Eb4+1=G4:0,600"},
		{"a tied note is not struck, the first lasts on", "C4:1/4 C4_:1/8 D4:1/8", "1=C4:0,900 3=D4:900,300"},
		{"tied over and over", "C4:1/4 C4_:1/4 C4_:1/4 D4:1/8", "1=C4:0,1800 4=D4:1800,300"},
		{"in a chord the tied note alone is not struck", "C4+G4:1/4 C4_+F4:1/4", "1=C4+2=G4:0,600 4=F4:600,600"},
		{"a tie to another note strikes it", "D4:1/4 C4_:1/4", "1=D4:0,600 2=C4:600,600"},
		{"a tie from a rest strikes it", "C4:1/4 z:1/4 C4_:1/4", "1=C4:0,600 | 2=C4:1200,600"},
		{"a rest of an eighth takes the hand off", "C4:1/8 z:1/8 D4:1/8", "1=C4:0,300 | 2=D4:600,300"},
		{"so do two sixteenths", "C4:1/8 z:1/16 z:1/16 D4:1/8", "1=C4:0,300 | 2=D4:600,300"},
		{"one sixteenth does not", "C4:1/8 z:1/16 D4:1/8", "1=C4:0,300 2=D4:450,300"},
		{"the end of a phrase does", "C4:1/8, D4:1/8", "1=C4:0,300 | 2=D4:300,300"},
		{"also under a tied note", "C4:1/8 C4_:1/8, D4:1/8", "1=C4:0,600 | 3=D4:600,300"},
		{"and on a rest", "C4:1/8 z:1/16, D4:1/8", "1=C4:0,300 | 2=D4:450,300"},
		{"a rest to begin with does not", "z:1/4 C4:1/8 D4:1/8", "1=C4:0,300 2=D4:300,300"},
		{"only rests", "z:1/4", ""},
	} {
		s, remarks := usual(t, written(t, row.text), "")
		assert.Equal(t, row.want, line(s), row.why)
		assert.Empty(t, remarks, row.why)
		assert.Len(t, s.Gaps, len(s.Events)+1, row.why)
	}
}

func TestRepeats(t *testing.T) {
	s, remarks := usual(t, repeated(written(t, "{D4}C4!2:1/4 D4!trill!:1/2")), "set@2;cut@1 off")
	assert.Empty(t, remarks)
	assert.Equal(t, "1=C4:0,600 2=D4:600,1200 1/2=C4:1200,600 2/2=D4:600,1200", line(s))
	assert.Equal(t, "0:1 cut4; 2:2after +trill4; 2:1/2 cut4; 4:2/2after +trill4", sites(s))
	assert.Equal(t, "1/2.cut", s.Gaps[2].Sites[1].ID(0))
	for _, e := range s.Events {
		want, pin := score.Open, int8(2)
		if e.Notes[0].Written == 2 {
			want, pin = score.Set, 0
		}
		assert.Equal(t, want, e.Boundary, e.Notes[0].ID())
		assert.Equal(t, pin, e.Notes[0].Pin, e.Notes[0].ID())
	}

	// Tied to what stands before the repeat: struck where nothing sounds yet, and where
	// the repeat goes back to it, whatever note came before.
	s, _ = usual(t, repeated(written(t, "C4_:1/4 D4:1/4 C4:1/4")), "")
	assert.Equal(t, "1=C4:0,600 2=D4:600,600 3=C4:600,600 1/2=C4:600,600 2/2=D4:600,600 3/2=C4:600,600", line(s))
}

func TestTempo(t *testing.T) {
	tn := written(t, "C4:1/8 D4:1/8")
	for _, row := range []struct {
		why, said, want string
		ms              int32
	}{
		{"the tune's", "", "1=C4:0,300 2=D4:300,300", 600},
		{"the choice's", "tempo 3/8=100", "1=C4:0,200 2=D4:200,200", 600},
		{"none: 100 quarters a minute", "", "1=C4:0,300 2=D4:300,300", 0},
	} {
		tn.Tempo.QuarterMS = row.ms
		s, _ := usual(t, tn, row.said)
		assert.Equal(t, row.want, line(s), row.why)
	}
}

// Where the tempo changes inside the tune, times follow from there on: crotchets of
// 600 ms, then of 300. Two bars alike at two tempos are two figures.
func TestNewTempo(t *testing.T) {
	quick := func(text string, event int) tune.Tune {
		tn := written(t, text)
		tn.Voices[0].Marks = []tune.Mark{{Event: event, Kind: tune.NewTempo, Tempo: tune.Tempo{QuarterMS: 300}}}
		return tn
	}
	for _, row := range []struct {
		why, text, said, want string
		event                 int
	}{
		{"from its place on", "C4:1/4 D4:1/4 G4:1/4", "", "1=C4:0,600 2=D4:600,600 3=G4:600,300", 2},
		{"over a rest on either side", "C4:1/4 z:1/4 z:1/4 D4:1/4", "", "1=C4:0,600 | 2=D4:1500,300", 2},
		{"under a tied note", "C4:1/4 C4_:1/4 D4:1/4", "", "1=C4:0,900 3=D4:900,300", 1},
		{"in proportion to what was chosen", "C4:1/4 D4:1/4 G4:1/4", "tempo 1/4=60", "1=C4:0,1000 2=D4:1000,1000 3=G4:1000,500", 2},
	} {
		tn := quick(row.text, row.event)
		tn.Pace()
		s, remarks := usual(t, tn, row.said)
		assert.Equal(t, row.want, line(s), row.why)
		assert.Empty(t, remarks, row.why)
	}
	tn := repeated(quick("C4:1/4 D4:1/4", 1))
	tn.Pace()
	s, _ := usual(t, tn, "")
	assert.Equal(t, "1=C4:0,600 2=D4:600,300 1/2=C4:300,600 2/2=D4:600,300", line(s), "the second pass as it is written")

	alike := quick("C4:1/4 D4:1/4 C4:1/4 D4:1/4", 2)
	for i := range alike.Voices[0].Events {
		alike.Voices[0].Events[i].Bar = 1 + i/2
	}
	s, _ = usual(t, alike, "")
	assert.Len(t, s.Figures(), 1, "one tempo")
	alike.Pace()
	s, _ = usual(t, alike, "")
	assert.Empty(t, s.Figures(), "two")

	// A quick note has no room for what fits a slow one (the cut with its 65 ms: half of 150).
	turn := written(t, "C4:1/8 C4:1/8")
	turn.Voices[0].Marks = []tune.Mark{{Event: 1, Kind: tune.NewTempo, Tempo: tune.Tempo{QuarterMS: 150}}}
	turn.Pace()
	s, _ = usual(t, turn, "offer turn")
	assert.Equal(t, "0:1 turn0", sites(s))
}

func TestLevers(t *testing.T) {
	c, _ := pitch.Signature(pitch.Pitch{}, "major")
	tn := written(t, "C4:1/4 E4:1/4")
	tn.Key = c
	s, remarks := usual(t, tn, "")
	assert.Empty(t, remarks)
	for i, str := range s.Harp.Strings {
		// E-flat tuning, key of C: raise E, A and B (a harp academy's page on levers).
		letter := str.Pitch.Name()[:1]
		assert.Equal(t, letter == "E" || letter == "A" || letter == "B", s.Raised[i], str.Pitch.String())
	}
	used := []string{}
	for i, u := range s.Used {
		if u {
			used = append(used, s.Harp.Strings[i].Pitch.String())
		}
	}
	assert.Equal(t, []string{"C4", "Eb4"}, used)

	for _, row := range []struct {
		why, text, raised string
		remarks           []string
	}{
		{"each octave for itself", "E4:1/4 Eb5:1/4", "E4", []string{}},
		{"the first note decides, not the key", "Eb4:1/4 E4:1/4", "", []string{"warning lever-change @20"}},
		{"there and back is two changes", "E4:1/4 Eb4:1/4 E4:1/4", "E4", []string{"warning lever-change @20", "warning lever-change @30"}},
		{"a grace note's lever", "{E4}D4:1/4 Eb4:1/4", "E4", []string{"warning lever-change @20"}},
		{"a note nobody plays asks for nothing", "C1+E4:1/4", "E4", []string{"error outside-harp @10"}},
	} {
		s, remarks := usual(t, written(t, row.text), "")
		raised := ""
		for i, up := range s.Raised {
			if up {
				raised += s.Harp.Strings[i].Sounding(true).String()
			}
		}
		assert.Equal(t, row.raised, raised, row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
	}
}

func TestWhatTheHarpLacks(t *testing.T) {
	for _, row := range []struct {
		why, text, want     string
		message, suggestion string
	}{
		// A. Coursen, Find Another Note, 2016: B-flat, the B lever down.
		{"A sharp on an E-flat harp", "C4:1/4 A#4:1/4 D4:1/4", "1=C4:0,600 3=D4:1200,600",
			"No lever gives A#4", "Write Bb4 (_B): the Bb string with its lever down."},
		// Arithmetic: C with its lever up.
		{"D flat on an E-flat harp", "C4:1/4 Db5:1/4", "1=C4:0,600", "No lever gives Db5", "Write C#5 (^c): the C string with its lever up."},
		{"no other spelling", "C4:1/4 Gb4:1/4", "1=C4:0,600", "No lever gives Gb4", "Write F#4 (^F)"},
		{"too low", "B1:1/4 C4:1/4", "2=C4:0,600", "B1 lies below this harp, which goes from C2 to Ab6", "An octave up"},
		{"too high", "C4:1/4 C7:1/4", "1=C4:0,600", "C7 lies above this harp", "An octave down"},
	} {
		s, remarks := usual(t, written(t, row.text), "")
		assert.Equal(t, row.want, line(s), row.why)
		if assert.Len(t, remarks, 1, row.why) {
			assert.Equal(t, "error", remarks[0].Severity.String(), row.why)
			assert.Contains(t, remarks[0].Message, row.message, row.why)
			assert.Contains(t, remarks[0].Suggestion, row.suggestion, row.why)
		}
		assert.Len(t, s.Left, 1, row.why)
	}
}

// Silence without a rest in the text, as between two parts: a tie leads nowhere.
func TestTieOverSilence(t *testing.T) {
	tn := written(t, "C4:1/4 C4_:1/4")
	tn.Voices[0].Played[1].Onset = tune.NewFrac(1, 2)
	s, _ := usual(t, tn, "")
	assert.Equal(t, "1=C4:0,600 | 2=C4:1200,600", line(s))
}

// A note left out is no rest: the hand does not come off for it.
func TestLeftOutIsNoRest(t *testing.T) {
	s, _ := usual(t, written(t, "C4:1/4 C7:1/4 D4:1/4 C7:1/4, D4:1/4 z:1/4 C7:1/4 D4:1/4"), "")
	assert.Equal(t, "1=C4:0,600 3=D4:1200,600 | 5=D4:1200,600 | 7=D4:1800,600", line(s))
	assert.Equal(t, []int{2, 4, 6}, s.Left)
}

func TestChords(t *testing.T) {
	three, _ := hand.New("right", "23", 1000)
	for _, row := range []struct {
		why, text string
		hand      hand.Hand
		want      string
		remarks   []string
	}{
		// Sibelius Academy, harp notation, after Chaloupka 1979: a tenth at once, wider only rolled.
		{"a tenth", "C4+Eb5:1/4", hand.Usual("right"), "1=C4+2=Eb5:0,600", []string{}},
		{"an eleventh", "C4+F5:1/4", hand.Usual("right"), "1=C4+2=F5:0,600 rolled", []string{"warning rolled @10"}},
		{"an eleventh with a third", "C4+Eb4+F5:1/4", hand.Usual("left"), "1=C4+2=Eb4+3=F5:0,600 rolled", []string{"warning rolled @10"}},
		{"rolled as written", "C4+F5!arpeggio:1/4", hand.Usual("right"), "1=C4+2=F5:0,600 rolled", []string{}},
		{"a narrow chord too", "C4+Eb4!arpeggio:1/4", hand.Usual("right"), "1=C4+2=Eb4:0,600 rolled", []string{}},
		{"two octaves, right", "C4+C6:1/4", hand.Usual("right"), "2=C6:0,600", []string{"error too-wide @10"}},
		{"two octaves, left", "C4+C6:1/4", hand.Usual("left"), "1=C4:0,600", []string{"error too-wide @20"}},
		{"both, right", "C4+Eb4+C6:1/4", hand.Usual("right"), "3=C6:0,600", []string{"error too-wide @10"}},
		// Rimsky-Korsakov, Principles of Orchestration: at most four notes in a hand.
		{"five, right", "C4+D4+Eb4+F4+G4:1/4", hand.Usual("right"), "2=D4+3=Eb4+4=F4+5=G4:0,600", []string{"error too-many-notes @10"}},
		{"five, left", "C4+D4+Eb4+F4+G4:1/4", hand.Usual("left"), "1=C4+2=D4+3=Eb4+4=F4:0,600", []string{"error too-many-notes @50"}},
		{"three for two fingers", "C4+D4+Eb4:1/4", three, "2=D4+3=Eb4:0,600", []string{"error too-few-fingers @10"}},
		{"one string twice", "C4+C4+G4:1/4", hand.Usual("right"), "1=C4+3=G4:0,600", []string{"note same-string @20"}},
		{"one string, two pitches", "E4+Eb4:1/4", hand.Usual("right"), "1=E4:0,600", []string{"warning same-string @20"}},
	} {
		s, remarks := Score(written(t, row.text), 0, choice.Choice{}, harp.Default(), row.hand)
		assert.Equal(t, row.want, line(s), row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
		heads := 0
		for _, e := range s.Events {
			heads += len(e.Notes)
		}
		if row.why != "one string twice" {
			assert.Equal(t, strings.Count(row.text, "+")+1, heads+len(s.Left), "%s: every note is played or in Left", row.why)
		}
	}
}

// TestWhyTooWide: a tenth is not called too wide where the trouble lies between
// two fingers inside it. (3 and 4 are spanned less than 1 and 2: common practice,
// no source.)
func TestWhyTooWide(t *testing.T) {
	for text, want := range map[string]string{
		"C3+F5:1/4":       "From C3 to F5 is wider than this hand opens. Left out here: C3.",
		"C3+G3+C4+E4:1/4": "The whole would fit the hand, but from C3 to G3 is too wide for 4 and 3, which must take them here. Left out here: C3.",
		"C4+F4+A4+E5:1/4": "",
	} {
		_, remarks := Score(written(t, text), 0, choice.Choice{}, harp.Default(), hand.Usual("right"))
		if want == "" {
			assert.Empty(t, remarks, text)
			continue
		}
		require.Len(t, remarks, 1, text)
		assert.Equal(t, want, remarks[0].Message)
	}
}

func TestPins(t *testing.T) {
	for _, row := range []struct {
		why, text, said, inUse string
		pins                   []int8
		remarks                []string
	}{
		{"the text's", "C4!2:1/4 D4:1/4", "", "1234", []int8{2, 0}, []string{}},
		{"the reader's goes first", "C4!2:1/4 D4:1/4", "finger@1 3;finger@2 1", "1234", []int8{3, 1}, []string{}},
		{"the reader lets it free", "C4!2:1/4", "finger@1 free", "1234", []int8{0}, []string{}},
		{"not in use", "C4!4:1/4 D4:1/4", "finger@2 4", "123", []int8{0, 0}, []string{"error finger-not-in-use @10", "error finger-not-in-use @20"}},
		{"0 and 5 are not used", "C4!0:1/4 D4!5:1/4", "", "1234", []int8{0, 0}, []string{}},
		{"a chord's", "C4!3+G4!1:1/4", "", "1234", []int8{3, 1}, []string{}},
		{"the thumb below", "C4!1+G4!3:1/4", "", "1234", []int8{0, 0}, []string{"error impossible-fingers @10"}},
		{"one finger twice", "C4!2+G4!2:1/4", "", "1234", []int8{0, 0}, []string{"error impossible-fingers @10"}},
		{"no finger above the thumb", "C4!1+G4:1/4", "", "1234", []int8{0, 0}, []string{"error impossible-fingers @10"}},
	} {
		hd, _ := hand.New("right", row.inUse, 1000)
		s, remarks := Score(written(t, row.text), 0, chosen(t, row.said), harp.Default(), hd)
		var pins []int8
		for _, e := range s.Events {
			for _, n := range e.Notes {
				pins = append(pins, n.Pin)
				if n.Pin == 0 {
					assert.Equal(t, int32(-1), n.Pinned.From, row.why)
				}
			}
		}
		assert.Equal(t, row.pins, pins, row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
	}
	s, _ := usual(t, written(t, "C4!2:1/4 D4!2:1/4"), "finger@2 3")
	assert.Equal(t, at(10), s.Events[0].Notes[0].Pinned, "where the text asks")
	assert.Equal(t, int32(-1), s.Events[1].Notes[0].Pinned.From, "the reader's stands nowhere")
}

func TestBoundaries(t *testing.T) {
	for _, row := range []struct {
		why, text, said string
		want            []score.Boundary
		remarks         []string
	}{
		{"set and stay", "C4:1/4 D4:1/4 Eb4:1/4", "set@2;stay@3", []score.Boundary{0, score.Set, score.Stay}, []string{}},
		{"taken back", "C4:1/4 D4:1/4", "either@2", []score.Boundary{0, 0}, []string{}},
		{"the first note is a placing anyway", "C4:1/4 D4:1/4", "stay@1", []score.Boundary{0, 0}, []string{}},
		{"any note of a chord", "C4:1/4 D4+G4:1/4", "set@2", []score.Boundary{0, score.Set}, []string{}},
		{"the top note goes first", "C4:1/4 D4+G4:1/4", "set@2;stay@3", []score.Boundary{0, score.Stay}, []string{}},
		{"no staying over a rest", "C4:1/4 z:1/4 D4:1/4", "stay@2", []score.Boundary{0, 0}, []string{"warning stay-after-rest @20"}},
		{"setting after a rest", "C4:1/4 z:1/4 D4:1/4", "set@2", []score.Boundary{0, score.Set}, []string{}},
	} {
		s, remarks := usual(t, written(t, row.text), row.said)
		var got []score.Boundary
		for _, e := range s.Events {
			got = append(got, e.Boundary)
		}
		assert.Equal(t, row.want, got, row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
	}
}

func TestNotesThatAreNotThere(t *testing.T) {
	for _, row := range []struct {
		why, text, said string
		remarks         []string
	}{
		{"no such note", "C4:1/4", "cut@9 off", []string{"warning no-such-note @0"}},
		{"tied", "C4:1/4 C4_:1/4", "finger@2 1", []string{"note note-not-struck @20"}},
		{"an ornament on a lower note", "C4+G4:1/4", "cut@1 on", []string{"warning lower-note @10"}},
		{"an offer to a lower note", "C4+G4:1/4", "offer cut@1", []string{"warning lower-note @10"}},
		{"a finger on a lower note is fine", "C4+G4:1/4", "finger@1 3", []string{}},
	} {
		s, remarks := usual(t, written(t, row.text), row.said)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
		assert.Empty(t, sites(s), row.why)
	}
	two := written(t, "C4:1/4")
	left := written(t, "C3:1/4").Voices[0]
	left.Events[0].Notes[0].Number = 2
	two.Voices = append(two.Voices, left)
	_, remarks := usual(t, two, "finger@2 1")
	assert.Empty(t, remarks, "it stands in the other voice")
	s, remarks := Score(two, 1, chosen(t, "finger@2 1"), harp.Default(), hand.Usual("left"))
	assert.Empty(t, remarks)
	assert.Equal(t, "2=C3:0,600", line(s))
}

func TestNothingToWrite(t *testing.T) {
	for _, voice := range []int{-1, 0, 1} {
		s, remarks := Score(tune.Tune{}, voice, choice.Choice{}, harp.Default(), hand.Usual("right"))
		assert.Empty(t, remarks)
		assert.Len(t, s.Gaps, 1)
		assert.Len(t, s.Gaps[0].Patterns, 1)
		assert.Equal(t, int64(score.Whole), s.Gaps[0].Patterns[0].Weight)
	}
	s, _ := Score(written(t, "C4:1/4"), 0, choice.Choice{}, harp.Harp{}, hand.Usual("right"))
	assert.Empty(t, s.Events, "a harp without strings")
}

func TestSettings(t *testing.T) {
	tn := written(t, "C4:1/4 D4:1/4")
	text := "offer cut;  finger@2 6 ; tempo 80"
	tn.Settings = []tune.Setting{
		{Text: text, Source: source2(100, 100+len(text))},
		{Text: "set@9", Source: source2(200, 205)},
		{Text: "why@1", Source: source2(300, 305)},
		{Text: "set@2", Source: source2(400, 405)},
	}
	c, remarks := Settings(tn)
	assert.Equal(t, "tempo 1/4=80;offer cut;set@2", c.String())
	require.Equal(t, []string{"error unknown-setting @121", "error no-such-note @200", "error unknown-setting @300"}, kinds(remarks))
	assert.Equal(t, "6", text[remarks[0].From-100:remarks[0].To-100])
	assert.Contains(t, remarks[0].Message, "A finger is 1, 2, 3 or 4")
	assert.Contains(t, remarks[1].Suggestion, "from 1 to 2")
}

// A jig of 32 bars with grace notes, and everything offered.
func BenchmarkScore(b *testing.B) {
	tn := written(b, strings.Repeat("{D4}C4:1/8 D4:1/8 Eb4:1/8 F4!roll!:1/4 G4:1/8 ", 32))
	for name, said := range map[string]string{"plain": "", "offers": "offer cut tap upper-mordent lower-mordent turn turn-after short-roll trill three-strokes"} {
		c := chosen(b, said)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Score(tn, 0, c, harp.Default(), hand.Usual("right"))
			}
		})
	}
}
