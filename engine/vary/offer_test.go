package vary

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/tune"
)

// At 600 ms a quarter, on 34 strings from C2.
func TestOffersOnTheNotesThatTheyFit(t *testing.T) {
	for _, row := range []struct {
		why, text, said, want string
		remarks               []string
	}{
		{"on long notes: a dotted crotchet, a minim", "C4:1/4 C4:3/8 C4:1/2 C4:1/8", "offer cut on long notes", "1:2 cut0; 2:3 cut0", []string{}},
		{"on long notes and one short", "C4:1/4 C4:3/8 C4:1/8", "offer cut on long notes;offer cut@3", "1:2 cut0; 2:3 cut0", []string{}},
		{"on all notes", "C4:1/4 C4:3/8", "offer cut on all notes", "0:1 cut0; 1:2 cut0", []string{}},
		{"a filled third, rising and falling", "C4:1/4 E4:1/4 C4:1/4 F4:1/4 G4:1/4", "offer filled-third", "1:1after filled-third0; 2:2after filled-third0", []string{}},
		{"not over a rest", "C4:1/4 z:1/4 E4:1/4", "offer filled-third", "", []string{}},
		{"nor over the end of a phrase", "C4:1/4, E4:1/4", "offer filled-third", "", []string{}},
		{"from the top of a chord to the top of the next", "A3+C4:1/4 G3+E4:1/4", "offer filled-third", "1:2after filled-third0", []string{}},
		{"where it was named and leads nowhere", "C4:1/4 D4:1/4", "offer filled-third@1", "", []string{"warning ornament-does-not-fit @10"}},
		{"where it was written and leads nowhere", "C4!filled-third!:1/4 D4:1/4", "", "", []string{"warning ornament-without-next @15"}},
		{"where it was written", "C4!filled-third!:1/4 E4:1/4", "", "1:1after +filled-third4", []string{}},
		{"struck with the shortest note", "C4:1/32", "offer lower-third cut", "0:1 lower-third0", []string{}},
		{"old graces only when asked for", "C4:1/4", "offer cut", "0:1 cut0", []string{}},
		{"by the name of their family", "C4:1/4", "offer welsh", "0:1 plethiad-y-bys-bach0 takiad-fforchog0 haner-krafiad0", []string{}},
		{"of a family nothing is said where one does not fit", "Ab6:1/4", "offer welsh@1", "0:1 plethiad-y-bys-bach0", []string{}},
		{"by their own name", "C4:1/4", "offer casluth@1", "0:1 casluth0", []string{}},
		{"as a sign", "C4!leagadh-anuas!:1/4", "", "0:1 +leagadh-anuas4", []string{}},
		{"grace notes are never named after them", "{Bb3-C4}D4:1/4", "offer irish@1", "0:1 +grace4 leagadh-anuas0 bualadh-suas0 barrluth-beal-an-airde0 cul-aithris0 tribhuilleach0 casluth0 casluth-otherwise0", []string{}},
		{"before the beat only where there is room", "C4:1/4 D4:1/16 E4:1/4", "tempo 100;offer plethiad-y-bys-bach", "0:1 plethiad-y-bys-bach0; 2:3 plethiad-y-bys-bach0", []string{}},
	} {
		s, remarks := usual(t, written(t, row.text), row.said)
		assert.Equal(t, row.want, sites(s), row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
	}
}

// The strokes of the new ones: C4 is string 14.
func TestStrokesOfTheCatalogue(t *testing.T) {
	for _, row := range []struct {
		name, text string
		strokes    []score.Stroke
		delay      int32
	}{
		{"filled-third", "C4:1/4 E4:1/4", []score.Stroke{{String: 15, At: 300}}, 0},
		{"filled-third", "C4:3/8 A3:1/4", []score.Stroke{{String: 13, At: 600}}, 0},
		{"mordent-in-time", "C4:1/4", []score.Stroke{{String: 15, At: 150}, {String: 14, At: 300}}, 0},
		{"mordent-in-time", "C4:3/8", []score.Stroke{{String: 15, At: 300}, {String: 14, At: 600}}, 0},
		{"long-roll", "C4:3/8", []score.Stroke{{String: 15, At: 235}, {String: 14, At: 300}, {String: 13, At: 535}, {String: 14, At: 600}}, 0},
		{"octave-grace", "C4:1/4", []score.Stroke{{String: 21, At: 0}}, 65},
		{"octave-grace-below", "C4:1/4", []score.Stroke{{String: 7, At: 0}}, 65},
		{"lower-sixth", "C4:1/4", []score.Stroke{{String: 9, At: 0}}, 0},
		{"plethiad-y-bys-bach", "C4:1/4", []score.Stroke{{String: 12, At: -65}, {String: 13, At: 0}}, 65},
	} {
		s, _ := usual(t, written(t, row.text), row.name+"@1 on")
		require.Equal(t, row.name, first(s).Name)
		assert.Equal(t, row.strokes, first(s).Strokes, row.name)
		assert.Equal(t, row.delay, first(s).Delay, row.name)
	}
}

// first gives the first ornament of a score.
func first(s score.Score) score.Ornament {
	for _, g := range s.Gaps {
		if len(g.Sites) > 0 {
			return g.Sites[0].Ornaments[0]
		}
	}
	return score.Ornament{}
}

// A hand is not offered what it has no fingers for: a turn has three strings, an
// octave with the little reach of a child is too wide.
func TestWhatAHandCannotHold(t *testing.T) {
	tn := written(t, "C4:1/4 C4:1/4")
	c, dropped := choice.Parse("offer turn cut octave-grace three-strokes;offer turn@2")
	require.Empty(t, dropped)
	small, _ := hand.New("right", "12", 700)
	s, remarks := Score(tn, 0, c, c.Harp(), small)
	assert.Equal(t, "0:1 cut0; 1:2 cut0", sites(s))
	assert.Equal(t, []string{"warning ornament-does-not-fit @20"}, kinds(remarks))
	assert.Contains(t, remarks[0].Message, "cannot hold the strings of a turn")
	for _, row := range ornament.Rows() {
		assert.True(t, playable(row, hand.Usual("right"), c.Harp()), row.Name)
	}
}

// ready gives a tune with lines of its own.
func ready(t *testing.T, text string, lines ...string) tune.Tune {
	tn := written(t, text)
	for i, line := range lines {
		from := int32(1000 * (i + 1))
		tn.Settings = append(tn.Settings, tune.Setting{Text: line, Source: source2(int(from), int(from)+len(line))})
	}
	return tn
}

func TestATeachersOwnOrnament(t *testing.T) {
	for _, row := range []struct {
		why, text string
		lines     []string
		want      string
		remarks   []string
	}{
		{"offered", "C4:1/4 D4:1/32", []string{"ornament swirl +2 +1 0; offer swirl"}, "0:1 swirl0", []string{}},
		{"spoken of above its line", "C4:1/4", []string{"swirl@1 often", "ornament swirl +2 +1 0"}, "0:1 swirl8", []string{}},
		{"as a sign", "C4!swirl!:1/4 D4!Swirl!:1/4", []string{"ornament swirl +2 +1 0"}, "0:1 +swirl4; 1:2 +swirl4", []string{}},
		{"after its note", "C4:1/4", []string{"ornament swirl 0 +1 +2 after", "offer swirl"}, "1:1after swirl0", []string{}},
		{"among all", "C4:1/32", []string{"ornament swirl 0 +1 after", "ornament dip -1 0", "offer all"}, "0:1 lower-third0 lower-sixth0", []string{}},
		{"malformed", "C4:1/4", []string{"ornament swirl +2 +1"}, "", []string{"error unknown-setting @1000"}},
		{"its name is taken", "C4:1/4", []string{"offer tap; ornament cut +2 +1 0"}, "0:1 tap0", []string{"error unknown-setting @1020"}},
		{"five strings", "C4!swirl!:1/4", []string{"ornament swirl +2 +1 -1 -2 0; offer swirl"}, "", []string{"error ornament-unplayable @1000"}},
		{"too wide", "C4:1/4", []string{"ornament leap +12 0", "leap@1 on"}, "", []string{"error ornament-unplayable @1000"}},
		{"five on one string", "C4:1/4", []string{"ornament drum 0 0 0 0 0", "offer drum"}, "", []string{"error ornament-unplayable @1000"}},
		{"four on one string", "C4:1/2", []string{"ornament drum 0 0 0 0", "offer drum"}, "0:1 drum0", []string{}},
		{"wide, but after its note the hand can go there", "C4:1/1", []string{"ornament leap 0 +12 after", "offer leap"}, "1:1after leap0", []string{}},
		{"no string for it", "Ab6:1/4", []string{"ornament swirl +2 +1 0", "swirl@1 on"}, "", []string{"warning ornament-does-not-fit @10"}},
	} {
		tn := ready(t, row.text, row.lines...)
		c, remarks := Settings(tn)
		s, more := Score(tn, 0, c, c.Harp(), hand.Usual("right"))
		assert.Equal(t, row.want, sites(s), row.why)
		assert.Equal(t, row.remarks, kinds(append(remarks, more...)), row.why)
	}
}

// A house fingering of a filled third is turned about with it.
func TestHouseOfAFilledThird(t *testing.T) {
	s, _ := usual(t, written(t, "C4:1/4 E4:1/4 C4:1/4"), "house filled-third 3 2;offer filled-third")
	assert.Equal(t, [][]int8{{2, 1}}, s.Gaps[1].Sites[0].Ornaments[0].House)
	assert.Equal(t, [][]int8{{1, 2}}, s.Gaps[2].Sites[0].Ornaments[0].House)
}
