package choice

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/ornament"
	"readyhand/engine/score"
)

// saying obeys sentences joined by ";", each of which must be accepted.
func saying(t testing.TB, text string) Choice {
	t.Helper()
	var c Choice
	for s := range strings.SplitSeq(text, ";") {
		if strings.TrimSpace(s) == "" {
			continue
		}
		next, fault := Do(c, s)
		require.Nil(t, fault, "%s: %+v", s, fault)
		c = next
	}
	return c
}

func TestSentencesInOneOrder(t *testing.T) {
	for _, row := range []struct{ why, said, want string }{
		{"nothing said", "", ""},
		{"a sentence is written the usual way", "  CUT@12   Now  And then ", "cut@12 now and then"},
		{"a bare tempo counts quarters", "tempo 92", "tempo 1/4=92"},
		{"spaces in a tempo", "tempo 3/8 = 100", "tempo 3/8=100"},
		{"all as likely", "prepare Now  and then;cut@5 on;prepare often", "prepare often;cut@5 now and then;cut@5 on"},
		{"what is switched on is as likely as all", "prepare often;cut@5 on;cut@5 off", "prepare often;cut@5 on;cut@5 off"},
		{"fingers in order", "fingers 321", "fingers 123"},
		{"a tuning's capital", "tuning ab", "tuning Ab"},
		{"a string's capital", "lowest c3", "lowest C3"},
		{"no more decimals than needed", "spacing 14.50;reach 1.0", "spacing 14.5;reach 1"},
		{"harp, hand, tempo, offers, ornaments, fingers, placings, why",
			"why@3;stay@9;set@4;finger@4 2;cut@5 on;offer tap;tempo 80;hand left;fingers 12;reach 0.9;spacing 13;tuning C;lowest C4;strings 22",
			"strings 22;lowest C4;tuning C;spacing 13;reach 0.9;fingers 12;hand left;tempo 1/4=80;offer tap;cut@5 on;finger@4 2;set@4;stay@9;why@3"},
		{"the last sentence counts", "finger@4 2;finger@4 3;finger@4 free;set@4;stay@4;either@4;strings 30;strings 31", "strings 31;finger@4 free;either@4"},
		{"why is asked of one note", "why@3;why@b2-4", "why@b2-4"},
		{"and no more", "why@3;why off", ""},
		{"numbers are counted, not spelt", "cut@12 off;cut@9 off;cut@b2-1 off;cut@b10-1 off", "cut@9 off;cut@12 off;cut@b2-1 off;cut@b10-1 off"},
		{"offers add up", "offer tap@12 cut;offer turn cut", "offer cut turn tap@12"},
		{"until nothing is offered", "offer tap;offer nothing", "offer nothing"},
		{"and again", "offer tap;offer nothing;offer cut@3", "offer nothing;offer cut@3"},
		{"on long notes, and on all", "offer turn cut on long notes;offer tap on all notes;offer turn on long notes", "offer tap;offer cut turn on long notes"},
		{"families and all before their ornaments", "offer cut@3 welsh irish casluth all@2", "offer irish welsh casluth all@2 cut@3"},
		{"families in order, once", "families welsh irish welsh", "families irish welsh"},
		{"families and tempo", "tempo 60;families usual", "families usual;tempo 1/4=60"},
		{"an offer to a block", "offer@b2 cut tap@b2-4 turn@5;offer trill@b2-1", "offer@b2 cut trill@1 tap@4 turn@5"},
		{"house fingerings by the catalogue, then chords by their strings", "house 0 +4 +7 4 2 1;house Tap 32;house three on a string 3 2 1 or 4 3 2;house@b2 cut off;house cut 1 2;house 0 +4 3 1 or 2 1",
			"house cut 1 2;house tap 3 2;house three-strokes 3 2 1 or 4 3 2;house 0 +4 3 1 or 2 1;house 0 +4 +7 4 2 1;house@b2 cut off"},
		{"by an ornament's title, its name with spaces, and over again", "house upper mordent 2 1 2;house turn after the note 2 1 2 3 2;house upper-mordent 3 2 3;house trill 2131", "house upper-mordent 3 2 3;house turn-after 2 1 2 3 2;house trill 2 1 3 1"},
		{"the same twice is one", "house cut 1 2 or 1 2", "house cut 1 2"},
		{"one block's tempo", "tempo@b2 60;tempo 90;hand@b3 left", "hand@b3 left;tempo 1/4=90;tempo@b2 1/4=60"},
	} {
		c := saying(t, row.said)
		assert.Equal(t, row.want, c.String(), row.why)
		back, dropped := Parse(c.String())
		assert.Empty(t, dropped, row.why)
		assert.Equal(t, c, back, row.why)
	}
}

// Ornaments of one site: what stays of a sequence of sentences.
func TestSentencesOnOneSite(t *testing.T) {
	for _, row := range []struct{ why, said, want string }{
		{"on, off, on is on", "cut@1 on;cut@1 off;cut@1 on", "cut@1 on"},
		{"a written one off", "cut@1 off", "cut@1 off"},
		{"off and on again", "cut@1 off;cut@1 on", "cut@1 on"},
		{"switched on, then off: prepared it stays, and the others stay off", "cut@1 on;cut@1 off", "cut@1 on;cut@1 off"},
		{"on after never is now and then", "cut@1 never;cut@1 on", "cut@1 on"},
		{"never after often on", "cut@1 often;cut@1 on;cut@1 never", "cut@1 on;cut@1 never"},
		{"often after never stays off", "cut@1 never;cut@1 often", "cut@1 often;cut@1 off"},
		{"the order of switching stays", "tap@1 on;cut@1 on", "tap@1 now and then;cut@1 on"},
		{"turned round", "cut@1 on;tap@1 on", "cut@1 now and then;tap@1 on"},
		{"off is plain when another is on", "tap@1 on;cut@1 off", "tap@1 on"},
		{"a likelihood before on", "tap@1 always;tap@1 on", "tap@1 always;tap@1 on"},
		{"what always leaves no room for is raised when switched on", "cut@1 often;tap@1 always;cut@1 on", "tap@1 always;cut@1 on"},
		{"the trill stands after the note: another site", "trill@1 on;cut@1 on", "cut@1 on;trill@1 on"},
		{"grace notes are on the beat", "grace@1 off;cut@1 on", "cut@1 on"},
	} {
		c := saying(t, row.said)
		assert.Equal(t, row.want, c.String(), row.why)
		back, dropped := Parse(c.String())
		assert.Empty(t, dropped, row.why)
		assert.Equal(t, c, back, row.why)
	}
}

// A fault points at the word it repeats, or at the whole sentence.
func TestWhereAFaultIs(t *testing.T) {
	for _, row := range []struct{ said, at string }{
		{"offer cut tap rol", "rol"}, {"offer cut cutt@3", "cutt"}, {"cutt@12 on", "cutt"}, {"finger@12 5", "5"}, {"house cut 15", "5"},
		{"house Hi cut 1 2", "Hi cut"}, {"cut on", "cut on"}, {"tempo slow", "slow"}, {"offer " + strings.Repeat("a", 30), strings.Repeat("a", 24)},
		{"offer Ärger", "Ärger"}, {"offer İ", "offer İ"}, // İ is shorter in small letters
	} {
		_, fault := Do(Choice{}, row.said)
		if assert.NotNil(t, fault, row.said) {
			from, to := fault.In(row.said)
			assert.Equal(t, row.at, row.said[from:to], row.said)
		}
	}
}

// What is suggested for a first word that is unheard of can be asked for.
func TestFirstWordsAreKnown(t *testing.T) {
	for _, word := range firstWords {
		_, fault := Do(Choice{}, word)
		if fault != nil {
			assert.NotContains(t, fault.Message, "is not something", word)
		}
	}
}

func TestFaultsSayWhatToWrite(t *testing.T) {
	for _, row := range []struct{ said, message, suggestion string }{
		{"", "Nothing was said", "cut@12 off"},
		{"cutt@12 on", `"cutt" is not something`, "Write cut."},
		{"temp 92", `"temp" is not something`, "Write tempo."},
		{"bananas 92", `"bananas" is not something`, "Begin with one of these: offer, house, finger"},
		{"tempo=92", `"tempo=92" is not something`, "Write a space after tempo: tempo 92."},
		{"tempo: 1/4=92", `"tempo:" is not something`, "Write a space after tempo: tempo 1/4=92."},
		{"left hand", `"left" is not something`, "Write hand left."},
		{"lefthand", `"lefthand" is not something`, "Write hand left."},
		{"prase", `"prase" is not something`, "Write phrase."},
		{"offer uper-mordent", `"uper-mordent" is not the name of an ornament`, "Write upper-mordent."},
		{"offer xylophone", "is not the name of an ornament", "Write one of these: cut, high-cut, tap"},
		{"offer lowermordant@2", `"lowermordant" is not the name`, "Write lower-mordent."},                         // by their names in ABC 2.1, 4.14
		{"offer mordant@2", `"mordant" is not the name`, "Write upper-mordent, mordent-in-time or lower-mordent."}, // by a part of them
		{"offer mordent", `"mordent" is not the name`, "Write upper-mordent, mordent-in-time or lower-mordent."},
		{"house mordent 2 1 2", `"mordent" is not the name`, "Write upper-mordent, mordent-in-time or lower-mordent."},
		{"mordent@3 on", `"mordent" is not something`, "Write upper-mordent, mordent-in-time or lower-mordent."},
		{"pralltriler@3 on", `"pralltriler" is not something`, "Write upper-mordent."},
		{"offer rol", `"rol" is not the name`, "Write short-roll or long-roll."},
		{"offer turm", `"turm" is not the name`, "Write turn."},
		{"offer hi-cut", `"hi-cut" is not the name`, "Write high-cut."},
		{"long-rol@3 on", `"long-rol" is not something`, "Write long-roll."},
		{"offer cas-luth", `"cas-luth" is not the name`, "Write casluth."}, // its family is not shown, its name is known
		{"offer iris", `"iris" is not the name`, "Write irish."},
		{"offer cut on short notes", "On which notes", "on long notes"},
		{"offer cut@3 on long notes", "One note is named", "offer cut on long notes"},
		{"offer on long notes", "Nothing is named", "offer cut"},
		{"offer cut nothing", "a sentence of its own", "Write offer nothing, and then"},
		{"offer nothing on long notes", "a sentence of its own", "Write offer nothing, and then"},
		{"offer cut everywhere", "On which notes", "on all notes"},
		{"offer cut at 3", "On which notes", "offer cut@3."},
		{"offer cut@3, 4", "On which notes", "note's number"},
		{"offer 3", "Nothing is named", "offer cut"},
		{"phrase", "in the tune itself", "%%ready phrase"},
		{"phrase here", "nothing more", `Leave out "here"`},
		{"cut@1-3 off", `"1-3" is not the number`, "cut@1."},
		{"offer cut on note 3", "On which notes", "offer cut@3."},
		{"families", "After families nothing is said", "families irish"},
		{"families scottish", "irish and welsh", "families usual"},
		{"families usual irish", "irish and welsh", "families usual"},
		{"ornament swirl +2 +1 0", "in the tune itself", "%%ready ornament swirl +2 +1 0."},
		{"offer", "Nothing is named", "offer cut"},
		{"offer grace", "stand in the tune", "such as offer cut"},
		{"offer@b2 cut@b3-1", "in one block", "offer cut@b3-1"},
		{"cut on", "Which note is meant", "cut@12 on."},
		{"cut 3 now and then", "Which note is meant", "cut@3 now and then."},
		{"cut on note 3", "Which note is meant", "cut@3 on."},
		{"stay @3", "Which note is meant", "stay@3."},
		{"finger 3 2", "Which note is meant", "finger@3 2."},
		{"cut@12/2 on", "each time it comes", "Write cut@12."},
		{"cut@b2-12/3 on", "each time it comes", "Write cut@b2-12."},
		{"cut@x/2 on", "not the number of a note", "Write a number from 1"},
		{"cut@0 on", "not the number of a note", "Write a number from 1"},
		{"cut@+1 on", "not the number of a note", "Write a number from 1"},
		{"cut@c1-2 on", `no block called "c1"`, "b1, b2"},
		{"cut@12 maybe", `"maybe"`, "now and then"},
		{"cut@12", "nothing", "now and then"},
		{"finger@12 5", "1, 2, 3 or 4", "free"},
		{"finger@b2-3 thumb", "1, 2, 3 or 4", "finger@b2-3 2"},
		{"finger@12", "After finger@12 nothing is said", "free"},
		{"hand", "After hand nothing is said", "hand left"},
		{"finger 2", "Which note", "finger@12 2."},
		{"set@12 now", "nothing more", `Leave out "now"`},
		{"strings 48", "8 to 47", "strings 34"},
		{"strings -8", "8 to 47", "strings 34"},
		{"lowest Eb2", "by its letter", "lowest E2"},
		{"lowest H2", "H is no name of a string", "lowest B2"},
		{"lowest X2", "not the name of a string", "lowest C2"},
		{"lowest C9", "as high as C9", "lowest C2"},
		{"tuning D", "Eb, C, Ab, F", "tuning Eb"},
		{"spacing 7.9", "8 to 25", "spacing 14.5"},
		{"spacing 14,5", "8 to 25", "spacing 14.5"},
		{"spacing wide", "8 to 25", "spacing 14.5"},
		{"reach 1.6", "0.5 to 1.5", "reach 0.9"},
		{"fingers 1233", "some of 1, 2, 3 and 4", "fingers 123"},
		{"fingers 5", "some of 1, 2, 3 and 4", "fingers 123"},
		{"hand both", "right or left", "hand right"},
		{"tempo 9", "10 to 400", "tempo 1/4=92"},
		{"tempo 401", "10 to 400", "tempo 1/4=92"},
		{"tempo 1/0=90", "length of a note", "tempo 3/8=100"},
		{"tempo 64/1=400", "Nobody", "tempo 1/4=92"},
		{"tempo@12 90", "whole block", "tempo@b2"},
		{"prepare sometimes", "how likely", "prepare never, now and then, often or always"},
		{"house", "Which ornament or chord", "house cut 1 2"},
		{"house 1 2", "Which ornament or chord", "house cut 1 2"},
		{"house cat 1 2", `"cat" is not the name`, "Write cut."},
		{"house hi cut 1 2", `"hi cut" is not the name`, "Write high-cut."},
		{"house grace 1 2", "without a name", "house cut 1 2"},
		{"house cut", "Which fingers", "house cut 1 2"},
		{"house cut 2", "The cut has 2 strokes", "house cut 1 2"},
		{"house cut 2 3 or", "is missing", "house cut 1 2"},
		{"house cut 1 2 or 2 3 or 3 4", "two in order of liking", "house cut 1 2"},
		{"house cut 2 1", "nearer the thumb", "house cut 1 2"},
		{"house cut 2 2", "a finger of its own", "house cut 1 2"},
		{"house cut 4 5", `"5" is not a finger`, "house cut 1 2"},
		{"house cut 1 2 off", `"o" is not a finger`, "house cut off"},
		{"house@3 cut 1 2", "whole block", "house@b2"},
		{"house trill 2 1 2", "The trill has 2 strokes", "house trill 2 1"},
		{"house 0 4 7 4 2 1", "with a plus", "Write house 0 +4 +7 4 2 1."},
		{"house 0 4 2", "two to four strings", "0 +4 +7"},
		{"house octave 4 1", `not by its name: "octave"`, "Write house 0 +7 4 1 for the chord; the ornament is octave-grace or octave-grace-below."},
		{"house fifths 3 1 or 2 1", `not by its name: "fifths"`, "Write house 0 +4 3 1 or 2 1."},
		{"house triad 1 2 3", `not by its name: "triad"`, "Write house 0 +2 +4 3 2 1."},
		{"house 0+4+7 4 2 1", `"0+4+7" are no strings`, "house 0 +4 +7 4 2 1"},
		{"house [0 +4] 3 1", `"[0 +4]" are no strings`, "house 0 +4 +7 4 2 1"},
		{"house Am 3 2 1", `not by its notes: "am"`, "house 0 +2 +4 3 2 1"},
		{"house cut thumb index", `"thumb index" is no finger`, "house cut 1 2"},
		{"house cut = 1 2", `"=" is no finger`, "house cut 1 2"},
		{"house shake 1 2", `"shake" is not the name`, "or a chord by its strings, the lowest as 0: house 0 +4 +7 4 2 1."},
		{"house C E G 3 2 1", `not by its notes: "c e g"`, "house 0 +2 +4 3 2 1"},
		// The fingers usual for these shapes, common practice, no source.
		{"house 0 +7", "Which fingers", "house 0 +7 4 1"},
		{"house 0 +4", "Which fingers", "house 0 +4 3 1"},
		{"house 0 +2 +4", "Which fingers", "house 0 +2 +4 3 2 1"},
		{"house 0 +4 +9", "Which fingers", "house 0 +4 +9 4 2 1"},
		{"house octave grace", "Which fingers", "house octave-grace 1 4"},
		{"house three strokes", "Which fingers", "house three-strokes 3 2 1"},
		{"house 0 +4 +4 2 1", `"+4" is not a string`, "0 +4 +7"},
		{"house 0 +4 +7 4 2", "3 strings", "house 0 +4 +7 4 2 1"},
		{"house 0 +4 +7 1 2 4", "nearer the thumb", "house 0 +4 +7 off"},
		{"house 0 +2 +4 +6 +8 4 3 2 1", "two to four strings", "0 +4 +7"},
		{"strings 47;lowest C5", "beyond any harp", "fewer strings"},
	} {
		var c Choice
		var fault *Fault
		parts := strings.Split(row.said, ";")
		for _, s := range parts[:len(parts)-1] {
			c = saying(t, s)
		}
		after, fault := Do(c, parts[len(parts)-1])
		if assert.NotNil(t, fault, row.said) {
			assert.Contains(t, fault.Message, row.message, row.said)
			assert.Contains(t, fault.Suggestion, row.suggestion, row.said)
		}
		assert.Equal(t, c, after, row.said)
	}
}

func TestLinesOfATune(t *testing.T) {
	for _, row := range []struct{ said, message string }{
		{"why@3", "for the reader"},
		{"cut@b2-3 off", "its own block"},
		{"offer cut@b2-3", "its own block"},
		{"tempo@b2 90", "its own block"},
		{"hand up", "right or left"},
	} {
		_, fault := Line(Choice{}, row.said)
		if assert.NotNil(t, fault, row.said) {
			assert.Contains(t, fault.Message, row.message, row.said)
		}
	}
	c, fault := Line(Choice{}, "cut@3 off")
	assert.Nil(t, fault)
	assert.Equal(t, "cut@3 off", c.String())
}

// drawSentence draws a sentence that is accepted; few notes, so that sentences meet.
func drawSentence(t *rapid.T) string {
	at := rapid.SampledFrom([]string{"1", "2", "b2-1", "b2-2"}).Draw(t, "note")
	block := rapid.SampledFrom([]string{"", "@b2"}).Draw(t, "block")
	name := rapid.SampledFrom(append(Choice{}.names(), "leagadh-anuas", "cut", "tap", "grace", "cut", "tap")).Draw(t, "name")
	switch rapid.SampledFrom([]string{"ornament", "ornament", "ornament", "note", "wide", "offer", "house"}).Draw(t, "kind") {
	case "ornament":
		return name + "@" + at + " " + rapid.SampledFrom([]string{"on", "off", "never", "now and then", "often", "always"}).Draw(t, "word")
	case "note":
		verb := rapid.SampledFrom([]string{"set", "stay", "either", "why", "finger", "why off"}).Draw(t, "verb")
		switch verb {
		case "finger":
			return "finger@" + at + " " + rapid.SampledFrom([]string{"1", "2", "3", "4", "free"}).Draw(t, "finger")
		case "why off":
			return verb
		}
		return verb + "@" + at
	case "house":
		return rapid.SampledFrom([]string{"house cut 1 2", "house cut 2 3 or 1 2", "house cut off", "house" + block + " cut 2 3",
			"house trill 2 1", "house 0 +4 +7 4 2 1", "house 0 +4 3 1 or 2 1", "house" + block + " 0 +4 +7 off"}).Draw(t, "house")
	case "offer":
		if name == grace {
			return "offer" + block + " nothing"
		}
		name = rapid.SampledFrom([]string{name, name, "irish", "all"}).Draw(t, "offered")
		return "offer" + block + " " + name + rapid.SampledFrom([]string{"", "@1", "@2", " on long notes", " on all notes"}).Draw(t, "where")
	}
	return rapid.SampledFrom([]string{"strings" + block + " 26", "lowest" + block + " G3", "tuning" + block + " C", "spacing" + block + " 13.25",
		"reach" + block + " 0.85", "span12" + block + " 82.5", "span34" + block + " 30", "style" + block + " lifted", "fingers" + block + " 13", "hand" + block + " left", "tempo" + block + " 3/8=90", "tempo" + block + " 70", "prepare" + block + " often", "prepare" + block + " never", "prepare" + block + " now and then"}).Draw(t, "wide")
}

func drawChoice(t *rapid.T) Choice {
	var c Choice
	for range rapid.IntRange(0, 25).Draw(t, "sentences") {
		next, fault := Do(c, drawSentence(t))
		require.Nil(t, fault)
		c = next
	}
	return c
}

func TestParseGivesTheChoiceBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChoice(t)
		back, dropped := Parse(c.String())
		assert.Empty(t, dropped)
		assert.Equal(t, c, back, c.String())

		address := c.Address()
		back, dropped = ParseAddress("#" + address)
		assert.Empty(t, dropped)
		assert.Equal(t, c, back)
		// RFC 3986, 3.5: what may stand in a fragment as it is.
		u, err := url.Parse("https://example.org/lesson#" + address)
		require.NoError(t, err)
		assert.Equal(t, address, u.EscapedFragment())
		assert.NotContains(t, strings.ReplaceAll(address, "%2B", ""), "%", "only the + of a chord is escaped")
		back, _ = ParseAddress(url.QueryEscape(c.String())) // as a chat may send it
		assert.Equal(t, c, back)
	})
}

// The rules of on, off and never hold in every choice, whatever was said before.
func TestSwitchingRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChoice(t)
		name := rapid.SampledFrom(Choice{}.names()).Draw(t, "switched")
		time := c.when(0, name)
		before := c.Site(1, time)

		on, fault := Do(c, name+"@1 on")
		require.Nil(t, fault)
		assert.Equal(t, name, on.Site(1, time).Chosen, "the others are silent beside it")
		assert.True(t, on.Site(1, time).Sounds)
		assert.Empty(t, on.Site(1, time).Silent)
		assert.Contains(t, []int32{NowAndThen, Often, Always}, shares(on.Site(1, time).Asked)[name])
		if had := shares(before.Asked)[name]; had > 0 {
			assert.Equal(t, before.Asked, on.Site(1, time).Asked, "only what was never prepared is raised")
		}

		off, fault := Do(c, name+"@1 off")
		require.Nil(t, fault)
		assert.True(t, silent(off.Site(1, time), name))
		assert.Equal(t, before.Asked, off.Site(1, time).Asked, "off keeps what is prepared")

		again, _ := Do(off, name+"@1 on")
		assert.Equal(t, on, again, "off and on is on")

		never, _ := Do(c, name+"@1 never")
		assert.True(t, silent(never.Site(1, time), name))
		assert.Equal(t, Asked{name, Never}, never.Site(1, time).Asked[0])
	})
}

// silent reports that an ornament was switched off, by itself or beside another.
func silent(s Site, name string) bool {
	return s.Chosen != "" && (s.Chosen != name || !s.Sounds) || slices.Contains(s.Silent, name)
}

// shares gives what each asked-for ornament has of the 16.
func shares(asked []Asked) map[string]int32 {
	left, m := Always, map[string]int32{}
	for _, a := range asked {
		m[a.Name] = score.Share(a.Likelihood, left)
		left -= m[a.Name]
	}
	return m
}

func TestSharesAddUpTo16(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, time := range []ornament.Time{ornament.OnBeat, ornament.Spread} {
			asked := drawChoice(t).Site(1, time).Asked
			sum := int32(0)
			for _, s := range shares(asked) {
				sum += s
			}
			assert.LessOrEqual(t, sum, Always)
			if len(asked) > 0 {
				assert.Equal(t, asked[0].Likelihood, shares(asked)[asked[0].Name], "the last spoken of has what it asked for")
			}
		}
	})
}

func TestAChoiceIsAValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawChoice(t)
		text, sentence := c.String(), drawSentence(t)
		_, _ = Do(c, sentence)
		first, _ := Do(c, "cut@1 on")
		was := first.String()
		_, _ = Do(c, "tap@1 on")
		_ = c.InBlock("b2").Over(first)
		assert.Equal(t, text, c.String())
		assert.Equal(t, was, first.String())
	})
}

func TestDamagedAddress(t *testing.T) {
	c, dropped := ParseAddress("#cut@12+off;nonsense;finger@3+9;;tempo+1/4=92;%zz;\xff@1+on")
	assert.Equal(t, "tempo 1/4=92;cut@12 off", c.String())
	sentences := []string{}
	for _, d := range dropped {
		sentences = append(sentences, d.Sentence)
		assert.NotEmpty(t, d.Message)
		assert.NotEmpty(t, d.Suggestion)
	}
	assert.Equal(t, []string{"nonsense", "finger@3 9", "%zz", "?@1 on"}, sentences)

	long := strings.Repeat("cut@1 off;", 199) + "tap@2 off;tap@3 off"
	c, dropped = Parse(long)
	assert.Equal(t, "cut@1 off;tap@2 off", c.String())
	require.Len(t, dropped, 1)
	assert.Equal(t, "tap@3 off", dropped[0].Sentence)
}

func TestAnyTextIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		address := rapid.StringOf(rapid.RuneFrom([]rune("cutapfinger@b-12 +;%=/.#é€"))).Draw(t, "address")
		c, _ := ParseAddress(address)
		back, dropped := Parse(c.String())
		assert.Empty(t, dropped)
		assert.Equal(t, c, back)
		assert.NotNil(t, c.Harp().Strings)
		_ = c.Hand("left")
	})
}

func TestNoRoomLeft(t *testing.T) {
	var c Choice
	var fault *Fault
	for n := 1; fault == nil && n < 1000; n++ {
		c, fault = Do(c, "cut@"+strconv.Itoa(n)+" now and then")
	}
	require.NotNil(t, fault)
	assert.Contains(t, fault.Message, "no longer fit")
	assert.LessOrEqual(t, len(c.Address()), Most)
	assert.Greater(t, len(c.Address()), Most-30)
	back, dropped := ParseAddress(c.Address())
	assert.Empty(t, dropped)
	assert.Equal(t, c, back)
}

func TestOneBlock(t *testing.T) {
	c := saying(t, "tempo 90;tempo@b2 60;cut@b2-3 on;cut@4 off;offer tap;offer@b2 cut@5;finger@b2-1 3;finger@b1-1 2;why@b2-7;hand@b2 left;strings@b2 22")
	assert.Equal(t, "strings 22;hand left;tempo 1/4=60;offer tap cut@5;cut@3 on;cut@4 off;finger@1 3;why@7", c.InBlock("b2").String())
	assert.Equal(t, "tempo 1/4=90;offer tap;cut@4 off;finger@1 2", c.InBlock("b1").String())
	assert.Equal(t, "tempo 1/4=90;offer tap;cut@4 off", c.InBlock("nowhere").String())
	assert.Equal(t, "offer nothing", saying(t, "offer cut;offer@b2 nothing").InBlock("b2").String())
}

func TestOverTheTunesOwnLines(t *testing.T) {
	for _, row := range []struct{ why, reader, base, want string }{
		{"the reader's word counts", "tempo 60;finger@2 free", "tempo 90;finger@2 3;finger@4 1", "tempo 1/4=60;finger@2 free;finger@4 1"},
		{"a placing taken back", "either@3", "set@3", "either@3"},
		{"the reader's house over the course's", "house cut 2 3;house tap off", "house cut 1 2;house tap 3 2;house 0 +4 3 1", "house cut 2 3;house tap off;house 0 +4 3 1"},
		{"switching over what was switched", "tap@1 on", "cut@1 on", "cut@1 now and then;tap@1 on"},
		{"offers add up", "offer tap", "offer cut", "offer cut tap"},
		{"or begin afresh", "offer nothing;offer tap", "offer cut", "offer nothing;offer tap"},
	} {
		assert.Equal(t, row.want, saying(t, row.reader).Over(saying(t, row.base)).String(), row.why)
	}
	rapid.Check(t, func(t *rapid.T) {
		base, c := drawChoice(t), drawChoice(t)
		over := base
		for s := range strings.SplitSeq(c.String(), ";") {
			if s != "" {
				over, _ = obey(over, s)
			}
		}
		assert.Equal(t, over, c.Over(base), "over is saying it all afterwards")
		assert.Equal(t, c, c.Over(Choice{}))
		assert.Equal(t, c, c.WithoutHarp().Over(c.OnlyHarp()))
	})
}

func TestWhatIsKeptForEveryLesson(t *testing.T) {
	c := saying(t, "strings 22;lowest C4;tuning C;spacing 13;reach 0.9;fingers 123;hand left;tempo 80;cut@1 on;strings@b2 34")
	assert.Equal(t, "strings 22;lowest C4;tuning C;spacing 13;reach 0.9;fingers 123", c.OnlyHarp().String())
	assert.Equal(t, "strings@b2 34;hand left;tempo 1/4=80;cut@1 on", c.WithoutHarp().String())
	c = saying(t, "strings 22;house cut 1 2;house@b2 cut 2 3;tempo 80")
	assert.Equal(t, "strings 22;house cut 1 2", c.Kept().String())
	assert.Equal(t, "house cut 1 2", c.OnlyHouse().String())
}

func TestAnswers(t *testing.T) {
	c := saying(t, "strings 22;lowest C4;tuning C;spacing 13;reach 0.9;fingers 123;hand left;tempo 3/8=100;finger@4 2;finger@5 free;set@6;stay@7;either@8;offer tap@3 cut;why@9;cut@1 often")
	h := c.Harp()
	assert.Len(t, h.Strings, 22)
	assert.Equal(t, "C4", h.Strings[0].Pitch.String())
	assert.Equal(t, "C7", h.Strings[21].Pitch.String()) // 22 strings reach from C4 to C7
	assert.Equal(t, int32(13000), h.Spacing)
	hd := c.Hand("right")
	assert.Equal(t, "left", hd.Name)
	assert.Equal(t, [4]bool{true, true, true, false}, hd.InUse)
	assert.Equal(t, int32(900), hd.Reach)
	q, ok := c.Tempo()
	assert.True(t, ok)
	assert.Equal(t, int32(400), q) // 100 dotted crotchets a minute: 600 ms each, a crotchet 400
	f, said := c.Finger(4)
	assert.Equal(t, int8(2), f)
	assert.True(t, said)
	f, said = c.Finger(5)
	assert.Zero(t, f)
	assert.True(t, said)
	_, said = c.Finger(6)
	assert.False(t, said)
	for n, want := range map[int]score.Boundary{6: score.Set, 7: score.Stay, 8: score.Open} {
		b, said := c.Boundary(n)
		assert.True(t, said)
		assert.Equal(t, want, b)
	}
	assert.Equal(t, []Offer{{Name: "cut"}, {Name: "tap", Written: 3}}, c.Offers())
	n, ok := c.Why()
	assert.True(t, ok)
	assert.Equal(t, 9, n)
	assert.Equal(t, Site{Asked: []Asked{{"cut", Often}}}, c.Site(1, ornament.OnBeat))
	assert.Equal(t, []int{1, 3, 4, 5, 6, 7, 8, 9}, c.Written())

	none := Choice{}
	assert.True(t, none.Empty())
	assert.Len(t, none.Harp().Strings, 34)
	assert.Equal(t, "right", none.Hand("right").Name)
	_, ok = none.Tempo()
	assert.False(t, ok)
}

// 108 is a standard mark of the metronome; 60,000 ms by 108 is 555.6.
func TestTempoIsRounded(t *testing.T) {
	q, _ := saying(t, "tempo 108").Tempo()
	assert.Equal(t, int32(556), q)
	q, _ = saying(t, "tempo 1/2=108").Tempo()
	assert.Equal(t, int32(278), q)
}

// A harp in an address that goes too high is cut off at the top, not refused.
func TestHarpIsCutOff(t *testing.T) {
	c, dropped := Parse("strings 47;lowest C5")
	assert.Empty(t, dropped)
	strings := c.Harp().Strings
	assert.Equal(t, "B9", strings[len(strings)-1].Pitch.Name()[:1]+"9")
	assert.Len(t, strings, 35)
	changed, fault := Do(c, "cut@1 on")
	assert.Nil(t, fault, "what else is said is still heard")
	assert.True(t, slices.Equal(changed.said, c.said))
}

func BenchmarkDo(b *testing.B) {
	var c Choice
	for n := range 60 {
		c, _ = Do(c, "cut@"+strconv.Itoa(n+1)+" often")
	}
	for b.Loop() {
		_, _ = Do(c, "tap@30 on")
	}
}

func TestHouses(t *testing.T) {
	c := saying(t, "house cut 1 2 or 2 3;house tap off;house 0 +4 +7 4 2 1;house@b2 cut 3 4")
	assert.Equal(t, []House{
		{Ornament: "cut", Ways: [][]int8{{0, 1}, {1, 2}}},
		{Ornament: "tap"},
		{Shape: []int8{0, 4, 7}, Ways: [][]int8{{3, 1, 0}}},
	}, c.Houses())
	assert.Equal(t, "1 2 or 2 3", c.HouseWords("cut"))
	assert.Equal(t, "off", c.HouseWords("turn"))
	assert.Equal(t, "3 4", c.InBlock("b2").HouseWords("cut"))
	assert.Equal(t, "house+0+%2B4+%2B7+4+2+1", saying(t, "house 0 +4 +7 4 2 1").Address())
}

// Every fingering that is offered for an ornament is one that can be asked for.
func TestFingeringsOffered(t *testing.T) {
	for _, row := range ornament.Rows() {
		list := Choice{}.Fingerings(row.Name, [4]bool{true, true, true, true})
		assert.NotEmpty(t, list, row.Name)
		for _, way := range list {
			assert.Equal(t, way, saying(t, "house "+row.Name+" "+way).HouseWords(row.Name))
		}
	}
	assert.Equal(t, []string{"1 2", "1 3", "2 3"}, Choice{}.Fingerings("cut", [4]bool{true, true, true, false}))
	assert.Equal(t, []string{"3 2 1", "4 2 1", "4 3 1", "4 3 2"}, Choice{}.Fingerings("three-strokes", [4]bool{true, true, true, true}))
	assert.Equal(t, []string{"2 1 2 3 2", "2 1 2 4 2", "3 1 3 4 3", "3 2 3 4 3"}, Choice{}.Fingerings("turn-after", [4]bool{true, true, true, true}))
	assert.Empty(t, Choice{}.Fingerings("turn", [4]bool{true, true, false, false}), "three strings ask for three fingers")
}

func TestSubjects(t *testing.T) {
	for sentence, want := range map[string]string{
		"cut@b1-2 off": "cut@b1-2", "tempo 1/4=92": "tempo", "house cut 1 2": "house cut", "house@b2 Three on a string 321": "house@b2 three-strokes",
		"house 0 +4 +7 off": "house 0 +4 +7", "": "",
	} {
		assert.Equal(t, want, Choice{}.Subject(sentence))
	}
}

// Whatever words stand after house, they are obeyed or refused, and what is obeyed
// is written so that it is read again.
func TestAnyHouseIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"cut", "three", "on", "a", "string", "strokes", "0", "+4", "+7", "+0", "+99", "1", "2", "3", "4", "5", "12", "21", "or", "off", "é"})
		words := rapid.SliceOfN(word, 0, 9).Draw(t, "words")
		c, fault := Do(Choice{}, "house "+strings.Join(words, " "))
		if fault == nil {
			assert.Len(t, c.Houses(), 1)
		}
		back, dropped := ParseAddress(c.Address())
		assert.Empty(t, dropped)
		assert.Equal(t, c, back)
	})
}

// Whatever is said, what a fault points at lies in it.
func TestAFaultIsInWhatWasSaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		said := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.SampledFrom([]string{"cut", "on", "left", "hand=", "house", "octave", "0", "4", "12", "@3", "offer", "nothing",
			"finger@2", "ornament", "İ", "K", "\xff", "\"", "…"})), func(words []string) string { return strings.Join(words, " ") })).Draw(t, "said")
		if _, fault := Line(Choice{}, said); fault != nil {
			from, to := fault.In(said)
			assert.True(t, 0 <= from && from <= to && to <= len(said), "%q: %d to %d", said, from, to)
			assert.NotEmpty(t, fault.Suggestion, said)
		}
	})
}
