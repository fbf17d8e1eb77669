package vary

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

func source2(from, to int) source.Span { return source.Span{From: int32(from), To: int32(to)} }

func TestSites(t *testing.T) {
	for _, row := range []struct {
		why, text, said, want string
		remarks               []string
	}{
		{"a grace note a string higher is a cut", "C4:1/4 {D4}C4:1/4", "", "1:2 +cut4", []string{}},
		{"lower, a tap", "{C4}D4:1/4", "", "0:1 +tap4", []string{}},
		{"the note and the next above, an upper mordent", "{C4-D4}C4:1/4", "", "0:1 +upper-mordent4", []string{}},
		{"three that make a turn", "{D4-C4-Bb3}C4:1/4", "", "0:1 +turn4", []string{}},
		{"anything else, grace notes", "{G4}C4:1/4", "", "0:1 +grace4", []string{}},
		{"from the top note of a chord", "{Ab4}C4+G4:1/4", "", "0:2 +cut4", []string{}},
		{"a sign", "C4!roll!:1/4 D4!mordent!:1/4", "", "0:1 +short-roll4; 1:2 +lower-mordent4", []string{}},
		{"a name of ours as a sign", "C4!three-strokes!:1/4", "", "0:1 +three-strokes4", []string{}},
		{"a sign that is no ornament", "C4!fermata!:1/4", "", "", []string{}},
		{"a trill stands after its note, two sites in a gap", "C4!trill!:1/2 {D4}C4:1/4", "", "1:1after +trill4; 1:2 +cut4", []string{}},
		{"after the last note", "C4!turn-after!:1/2", "", "1:1after +turn-after4", []string{}},
		{"on the beat and after: two sites of one note", "{D4}C4!trill!:1/2", "", "0:1 +cut4; 1:1after +trill4", []string{}},
		{"two on one beat: the first sounds", "{D4}C4!turn!:1/4", "", "0:1 +cut4 turn4", []string{"note two-ornaments @15"}},
		{"the same twice is one", "{D4}C4!cut!:1/4", "", "0:1 +cut4", []string{}},
		{"a written one is played however short the note, and said to be quick", "C4!roll!:1/32", "", "0:1 +short-roll4", []string{"warning ornament-quick @15"}},
		{"spread over a note with time for it", "C4!turn-after!:1/4", "", "1:1after +turn-after4", []string{}},
		{"on a semiquaver, 30 ms apart", "C4!turn-after!:1/16", "", "1:1after +turn-after4", []string{"warning ornament-quick @15"}},
		{"a trill of two, 75 ms apart", "C4!trill!:1/16", "", "1:1after +trill4", []string{"warning ornament-quick @15"}},
		{"a trill of three, 100 ms apart", "C4!trill!:1/8", "", "1:1after +trill4", []string{"warning ornament-quick @15"}},
		{"a trill of five", "C4!trill!:3/8", "", "1:1after +trill4", []string{}},
		{"a grace note without a string", "{C7}C4:1/4", "", "", []string{"warning outside-harp @5"}},
		{"a sign without its string", "Ab6!turn!:1/4", "", "", []string{"warning ornament-outside-harp @15"}},
		{"grace notes of a note left out", "{D4}C7:1/4 C4:1/4", "", "", []string{"error outside-harp @10"}},

		{"offered everywhere", "C4:1/4 {D4}C4:1/4 D4:1/32", "offer cut tap", "0:1 cut0 tap0; 1:2 +cut4 tap0", []string{}},
		{"offered once", "C4:1/4 D4:1/4", "offer tap@2", "1:2 tap0", []string{}},
		{"in the catalogue's order", "C4:1/1", "offer trill tap cut", "0:1 cut0 tap0; 1:1after trill0", []string{}},
		{"no string for it, everywhere: not offered", "Ab6:1/4", "offer cut tap", "0:1 tap0", []string{}},
		{"no string for it here", "Ab6:1/4", "offer cut@1", "", []string{"warning ornament-does-not-fit @10"}},
		{"no time for it here", "C4:1/32", "offer cut@1", "", []string{"warning ornament-does-not-fit @10"}},
		{"offered on the top note of a chord", "C4+G4:1/4", "offer cut", "0:2 cut0", []string{}},
		{"spoken of is offered", "C4:1/4", "cut@1 often", "0:1 cut8", []string{}},
		{"spoken of as silent is not", "C4:1/4", "cut@1 off;tap@1 never", "", []string{"warning no-such-ornament @10", "warning no-such-ornament @10"}},
		{"nor beside another", "{D4}C4:1/4", "tap@1 off", "0:1 +cut4", []string{"warning no-such-ornament @10"}},
		{"nor after the note", "{D4}C4:1/4", "trill@1 never", "0:1 +cut4", []string{"warning no-such-ornament @10"}},
		{"what the reader added and put back is not spoken of", "C4:1/4", "cut@1 on;cut@1 never", "", []string{}},
		{"offered everywhere, switched off where it does not fit", "C4:1/32", "offer cut;cut@1 off", "", []string{}},
		{"no string to switch on", "Ab6:1/4", "cut@1 on", "", []string{"warning ornament-does-not-fit @10"}},
		{"no time to be likely", "C4:1/32", "cut@1 often", "", []string{"warning ornament-does-not-fit @10"}},
		{"grace notes that are a cut", "{D4}C4:1/4", "grace@1 on", "0:1 +cut4", []string{"warning no-such-ornament @10"}},
		{"grace notes by their name", "{G4}C4:1/4", "grace@1 off", "0:1 grace4", []string{}},
		{"no grace notes here", "C4:1/4", "grace@1 on", "", []string{"warning no-such-ornament @10"}},

		{"off keeps the likelihood", "{D4}C4:1/4", "cut@1 off", "0:1 cut4", []string{}},
		{"never is also off", "{D4}C4:1/4", "cut@1 never", "0:1 cut0", []string{}},
		{"an offered one on is now and then", "C4:1/4", "offer cut;cut@1 on", "0:1 +cut4", []string{}},
		{"and off again keeps that", "C4:1/4", "offer cut;cut@1 on;cut@1 off", "0:1 cut4", []string{}},
		{"often first", "C4:1/4", "cut@1 often;cut@1 on", "0:1 +cut8", []string{}},
		{"on switches the others off", "{D4}C4:1/4", "offer tap;tap@1 on", "0:1 cut4 +tap4", []string{}},
		{"and off does not switch them on again", "{D4}C4:1/4", "tap@1 on;tap@1 off", "0:1 cut4 tap4", []string{}},
		{"one that cannot be played still silences the others", "{D2}C2:1/4", "tap@1 on", "0:1 cut4", []string{"warning ornament-does-not-fit @10"}},
		{"the last one on sounds", "C4:1/4", "tap@1 on;cut@1 on", "0:1 +cut4 tap4", []string{}},
		{"the order turned round", "C4:1/4", "cut@1 on;tap@1 on", "0:1 cut4 +tap4", []string{}},
		{"likely does not switch on", "{D4}C4:1/4", "tap@1 often", "0:1 +cut4 tap8", []string{}},
		{"always leaves nothing to the others, which are silent", "{D4}C4:1/4", "tap@1 always", "0:1 cut0 tap16", []string{"note likelihood-lowered @10"}},
		{"often twice is all there is", "{D4}C4:1/4", "tap@1 often;turn@1 often", "0:1 cut0 tap8 turn8", []string{"note likelihood-lowered @10"}},
		{"the one before the last gets what is left", "C4:1/4", "tap@1 always;cut@1 now and then", "0:1 cut4 tap8", []string{"note likelihood-lowered @10"}},
		{"a trill does not share with the cut", "{D4}C4!trill!:1/2", "trill@1 always", "0:1 +cut4; 1:1after +trill16", []string{}},
	} {
		s, remarks := usual(t, written(t, row.text), row.said)
		assert.Equal(t, row.want, sites(s), row.why)
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
	}
}

func TestWordsForOrnamentsThatAreNotThere(t *testing.T) {
	for _, row := range []struct{ text, said, message, suggestion string }{
		{"C4:1/4", "cut@1 off", "There is no cut on this note", "offer it first: offer cut@1."},
		{"{D4}C4:1/4", "grace@1 on", "These grace notes are a cut", "Write cut@1."},
		{"{C4-D4}C4:1/4", "grace@1 off", "These grace notes are an upper mordent", "Write upper-mordent@1."},
		{"C4:1/4", "grace@1 off", "There are no grace notes on this note", "such as cut"},
	} {
		_, remarks := usual(t, written(t, row.text), row.said)
		require.Len(t, remarks, 1, row.said)
		assert.Contains(t, remarks[0].Message, row.message)
		assert.Contains(t, remarks[0].Suggestion, row.suggestion)
	}
}

// What a tune's own line says in vain is told at that line.
func TestWordsAtTheLineThatSaidSo(t *testing.T) {
	for _, row := range []struct {
		text, line, want string
		at               int32 // from the line's start
	}{
		{"C4:1/4", "tempo 90; cut@1 off", "warning no-such-ornament", 10},
		{"C4:1/4 C4_:1/4", "finger@2 2", "note note-not-struck", 0},
		{"C4+E4:1/4", "cut@1 on", "warning lower-note", 0},
	} {
		tn := ready(t, row.text, row.line)
		c, remarks := Settings(tn)
		require.Empty(t, remarks, row.line)
		_, remarks = Score(tn, 0, c, c.Harp(), hand.Usual("right"))
		require.Len(t, remarks, 1, row.line)
		assert.Equal(t, row.want+" @"+strconv.Itoa(1000+int(row.at)), kinds(remarks)[0], row.line)
	}
}

// Strokes on the strings: C4 is string 14 of a harp from C2.
func TestStrokes(t *testing.T) {
	s, _ := usual(t, written(t, "C4:1/4 {D4-C4-Bb3}C4+F4:1/4 C4!trill!:1/2 D4:1/4"), "")
	o := s.Gaps[1].Sites[0].Ornaments[0]
	assert.Equal(t, "grace", o.Name, "from the chord's top note, F")
	assert.Equal(t, []score.Stroke{{String: 15, At: 0}, {String: 14, At: 65}, {String: 13, At: 130}}, o.Strokes)
	assert.Equal(t, int32(195), o.Delay)
	assert.True(t, o.Written)
	assert.Equal(t, source2(25, 28), o.Source)

	trill := s.Gaps[3].Sites[0].Ornaments[0]
	require.Len(t, trill.Strokes, 8) // nine strokes of 130 ms in 1,200, the last on C
	assert.Equal(t, score.Stroke{String: 15, At: 130}, trill.Strokes[0])
	assert.Equal(t, score.Stroke{String: 14, At: 1040}, trill.Strokes[7])
	assert.Zero(t, trill.Delay)

	assert.Equal(t, []bool{true, true, true, false, true}, s.Used[13:18], "strings of ornaments are used")

	// The turn before the chord: 600 ms to its first stroke, 65 between, the chord 65 after the last.
	p := s.Gaps[1].Patterns[1]
	assert.Equal(t, []int32{600, 65, 65}, p.Since)
	assert.Equal(t, int32(65), p.Last)
	assert.Equal(t, int64(64), p.Weight)
}

func TestSourceOfOffersIsNowhere(t *testing.T) {
	s, _ := usual(t, written(t, "C4:1/4"), "offer cut")
	assert.Equal(t, int32(-1), s.Gaps[0].Sites[0].Ornaments[0].Source.From)
	assert.False(t, s.Gaps[0].Sites[0].Ornaments[0].Written)
}

// drawTune draws a tune that may hold anything.
func drawTune(t *rapid.T) tune.Tune {
	names := []string{"C4", "D4", "Eb4", "E4", "F4", "G4", "A#4", "Gb4", "Bb1", "C7", "Ab6", "C2", "F5"}
	lengths := []string{"1/4", "1/8", "1/16", "1/32", "1/12", "1/1"}
	var words []string
	for range rapid.IntRange(0, 12).Draw(t, "events") {
		length := ":" + rapid.SampledFrom(lengths).Draw(t, "length")
		if rapid.IntRange(0, 6).Draw(t, "rest") == 0 {
			words = append(words, "z"+length)
			continue
		}
		word := ""
		if rapid.Bool().Draw(t, "graced") {
			word = "{" + strings.Join(rapid.SliceOfN(rapid.SampledFrom(names), 1, 4).Draw(t, "graces"), "-") + "}"
		}
		heads := rapid.SliceOfN(rapid.SampledFrom(names), 1, 5).Draw(t, "notes")
		for i := range heads {
			heads[i] += rapid.SampledFrom([]string{"", "", "", "_"}).Draw(t, "tie")
			heads[i] += rapid.SampledFrom([]string{"", "", "", "!turn", "!trill", "!2", "!4", "!roll", "!fermata", "!turn-after"}).Draw(t, "sign")
		}
		words = append(words, word+strings.Join(heads, "+")+length+rapid.SampledFrom([]string{"", "", ","}).Draw(t, "phrase"))
	}
	tn := written(t, strings.Join(words, " "))
	if len(words) > 0 && rapid.Bool().Draw(t, "repeated") {
		return repeated(tn)
	}
	return tn
}

var words = []string{"on", "off", "never", "now and then", "often", "always"}

// names gives all that can be spoken of.
func names() []string {
	list := []string{"grace"}
	for _, r := range ornament.Rows() {
		list = append(list, r.Name)
	}
	return list
}

func drawSaid(t *rapid.T, names []string) choice.Choice {
	var c choice.Choice
	for range rapid.IntRange(0, 12).Draw(t, "sentences") {
		at := strconv.Itoa(rapid.IntRange(1, 6).Draw(t, "note"))
		s := rapid.SampledFrom(names).Draw(t, "name") + "@" + at + " " + rapid.SampledFrom(words).Draw(t, "word")
		switch rapid.IntRange(0, 9).Draw(t, "other") {
		case 0:
			offered := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "grace" })
			s = "offer " + rapid.SampledFrom(offered).Draw(t, "offered")
		case 1:
			s = "finger@" + at + " " + rapid.SampledFrom([]string{"1", "2", "3", "4", "free"}).Draw(t, "finger")
		case 2:
			s = rapid.SampledFrom([]string{"set@", "stay@", "either@"}).Draw(t, "boundary") + at
		}
		next, fault := choice.Do(c, s)
		require.Nil(t, fault)
		c = next
	}
	return c
}

// Whatever is written and chosen, the score is whole: what can be held, in
// order, with likelihoods that add up.
func TestEveryScoreIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tn, c := drawTune(t), drawSaid(t, names())
		hd, _ := hand.New(rapid.SampledFrom([]string{"right", "left"}).Draw(t, "hand"),
			rapid.SampledFrom([]string{"1234", "123", "2", "14"}).Draw(t, "in use"), 1000)
		s, remarks := Score(tn, 0, c, c.Harp(), hd)
		require.Len(t, s.Gaps, len(s.Events)+1)
		sounding := tune.NewFrac(0, 1)
		for k, e := range s.Events {
			require.NotEmpty(t, e.Notes)
			var on []int8
			for i, n := range e.Notes {
				on = append(on, n.String)
				assert.True(t, i == 0 || n.String > e.Notes[i-1].String)
				assert.True(t, s.Used[n.String])
				assert.True(t, n.Pin == 0 || hd.InUse[n.Pin-1])
			}
			if e.Rolled {
				assert.NotEmpty(t, append(hd.Fingerings(s.Harp, on), hd.InPart(s.Harp, on)...))
			} else {
				assert.NotEmpty(t, hd.Fingerings(s.Harp, on))
			}
			assert.False(t, k == 0 && (e.Forced || e.Since != 0))
			assert.False(t, e.Forced && e.Boundary == score.Stay)
			onset := tune.NewFrac(e.Onset[0], e.Onset[1])
			assert.False(t, onset.Less(sounding))
			sounding = onset
		}
		for j, g := range s.Gaps {
			wholeGap(t, s, j, g)
		}
		for _, r := range remarks {
			assert.NotEmpty(t, r.Message)
			assert.NotEmpty(t, r.Suggestion)
			assert.NotEmpty(t, r.Kind)
		}
		again, _ := Score(tn, 0, c, c.Harp(), hd)
		assert.Equal(t, s, again)
	})
}

func wholeGap(t *rapid.T, s score.Score, j int, g score.Gap) {
	assert.LessOrEqual(t, len(g.Sites), 2)
	weight := int64(0)
	for _, p := range g.Patterns {
		weight += p.Weight
	}
	assert.Equal(t, int64(score.Whole), weight)
	for i, site := range g.Sites {
		assert.Equal(t, site.After, site.Event == j-1)
		assert.Equal(t, !site.After, site.Event == j)
		assert.True(t, i == 0 || !site.After, "what follows a note comes first")
		sum, on := int32(0), 0
		for _, o := range site.Ornaments {
			sum += o.Likelihood
			if o.On {
				on++
				assert.Positive(t, o.Likelihood, "what sounds is prepared")
			}
			for _, stroke := range o.Strokes {
				assert.True(t, s.Used[stroke.String])
			}
		}
		assert.LessOrEqual(t, sum, choice.Always)
		assert.LessOrEqual(t, on, 1)
	}
}

// What a sentence about an ornament does to the score: on and off say what
// sounds, likelihood what is prepared. Only ornaments of the site are spoken of,
// as on a page: what a site does not have has a share all the same.
func TestSentencesInTheScore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tn := written(t, "{D4}C4!turn!trill!:1/1 D4:1/1")
		there := []string{"cut", "tap", "turn", "trill", "turn-after"}
		c, _ := choice.Do(drawSaid(t, there), "offer tap cut turn-after")
		before, _ := usual(t, tn, c.String())
		name := rapid.SampledFrom(there).Draw(t, "name")
		word := rapid.SampledFrom(words).Draw(t, "said")
		said, fault := choice.Do(c, name+"@1 "+word)
		require.Nil(t, fault)
		after, _ := usual(t, tn, said.String())
		require.Len(t, after.Gaps, len(before.Gaps))
		for j := range before.Gaps {
			require.Len(t, after.Gaps[j].Sites, len(before.Gaps[j].Sites))
			for i, was := range before.Gaps[j].Sites {
				compareSites(t, was, after.Gaps[j].Sites[i], name, word)
			}
		}
	})
}

func compareSites(t *rapid.T, was, is score.Site, name, word string) {
	require.Equal(t, len(was.Ornaments), len(is.Ornaments))
	k := index(is, name)
	if is.Written != 1 || k < 0 {
		assert.Equal(t, was, is, "other sites stay")
		return
	}
	for i := range is.Ornaments {
		a, b := was.Ornaments[i], is.Ornaments[i]
		switch {
		case i == k && word == "on":
			assert.True(t, b.On)
			if a.Likelihood > 0 {
				assert.Equal(t, a.Likelihood, b.Likelihood)
			} else {
				assert.Equal(t, choice.NowAndThen, b.Likelihood)
			}
		case i == k && word == "off":
			assert.False(t, b.On)
			assert.Equal(t, a.Likelihood, b.Likelihood)
		case i == k && word == "never":
			assert.False(t, b.On)
			assert.Zero(t, b.Likelihood)
		case i == k:
			assert.Equal(t, word, choice.LikelihoodWord(b.Likelihood))
			if a.Likelihood > 0 {
				assert.Equal(t, a.On, b.On)
			}
		case word == "on":
			assert.False(t, b.On, "the site's others are off")
		case word == "off":
			assert.Equal(t, a, b)
		}
	}
}
