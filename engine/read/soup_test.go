package read

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// tokens are signs of the notation by the sections of ABC 2.1 that have them. A
// soup of them is seldom music, but its parts meet in ways that nobody thinks of.
var tokens = []struct {
	sections string
	texts    []string
}{
	{"2.2, lines and comments", []string{"\n", "\n\n", "\n% words\n", "%", "\\\n", "\nr:remark\n", "[r:remark]", "\n+:more\n"}},
	{"3.1, fields", []string{"\nT:Other\n", "[M:3/4]", "\nM:6/8\n", "[M:none]", "[L:1/4]", "\nL:1/16\n", "[Q:1/4=60]", "\nQ:1/8=100\n", "[Q:\"slow\"]", "\nW:below\n", "\nR:reel\n", "[I:linebreak $]", "\nI:linebreak !\n"}},
	{"3.1.9, parts", []string{"\nP:A\n", "[P:B]", "\nP:B\n", "\nP:C\n"}},
	{"3.1.14, keys", []string{"[K:D]", "[K:Ador clef=bass]", "\nK:G\n", "\nK:bass\n", "[K:C transpose=2]", "[K:Eb octave=-1]", "[K:]"}},
	{"4.1 to 4.3, notes", []string{"A", "c2", "^F/", "_B", "=e", "G,", "d'3", "C,,,,,,", "2", "/"}},
	{"4.4, broken rhythm", []string{">", "<", ">>", "<<<"}},
	{"4.5, rests", []string{"z", "z4", "x", "Z", "Z2", "X3"}},
	{"4.7, beams", []string{" ", "`"}},
	{"4.8, bar lines", []string{"|", "||", "|]", "[|", ":|", "|:", "::", ":|:", "|::", "::|", "[|]", ".|", ":", "]"}},
	{"4.9 and 4.10, endings", []string{"|1", "|2", ":|2", "[1", "[2", "[1,3", "|1-2"}},
	{"4.11, ties and slurs", []string{"-", "(", ")", ".-", ".("}},
	{"4.12, graces", []string{"{c}", "{/g^f}", "{", "}"}},
	{"4.13, tuplets", []string{"(3", "(2", "(5", "(3:2:2", "(3::4"}},
	{"4.14 and 4.16, signs", []string{"!", "!trill!", "!breath!", "!3!", "!segno!", "+roll+", "+", ".", "~", "T", "H", "\nU:W=trill\n", "W"}},
	{"4.15 and 5.1, lines under the music", []string{"\nw:la la-la\n", "\nw:a_*|b\n", "\nw:\n", "\ns:!trill!*\"Am\"|!4!\n"}},
	{"4.17, chords", []string{"[CE]", "[C2E]2", "[A-c]", "["}},
	{"4.18 and 4.19, words over the music", []string{"\"Am\"", "\"^hi\"", "\"2\"", "\""}},
	{"6.1, line breaks and space", []string{"$", "y", "y2", "*"}},
	{"7.1, voices", []string{"[V:1]", "[V:2]", "\nV:1\n", "\nV:2 clef=bass\n", "\nV:3 octave=1 name=\"Low\"\n", "[V:]"}},
	{"7.4, parts that lie over others", []string{"&", "&&", "&&&", "(&", "&)"}},
	{"11, our own lines", []string{"\n%%ready hand left\n", "\n%%ready phrase\n", "\n%%ready ornament swirl +1 0\n", "!swirl!", "\n%%begintext\n", "\n%%endtext\n", "\n%%propagate-accidentals not\n"}},
}

// heads are what a soup begins with: none, a plain one, and one with everything
// that changes how music is read.
var heads = []string{
	"", "X:1\nL:1/8\nM:4/4\nK:C\n", "X:1\nP:AB2\nM:6/8\nK:Em\n", "X:1\nT:Two\nP:A(BA)2\nM:C|\nV:1 name=\"High\"\nV:2 clef=bass\nK:Bb\n", "X:1\nP:CBA\nK:\n",
}

// common are the tokens that music is mostly made of.
var common = []string{"A", "c2", "^F/", "|", "|", "&", "&&", " ", "_B", ":|", "|:", "z"}

// soup draws a few tokens, some of them again and again. A draw gives a number
// below the one that it is given.
func soup(draw func(int) int) []string {
	few := make([]string, 3+draw(6))
	for i := range few {
		row := tokens[draw(len(tokens))].texts
		few[i] = row[draw(len(row))]
	}
	list := []string{heads[draw(len(heads))]}
	for range 2 + draw(20) {
		from := few
		if draw(3) == 0 {
			from = common
		}
		list = append(list, from[draw(len(from))])
	}
	return list
}

// shrunk leaves out what a soup does not need to be at fault.
func shrunk(soup []string, fault func(abc string) string) []string {
	for again := true; again; {
		again = false
		for size := len(soup) / 2; size > 0; size /= 2 {
			for at := 0; at+size <= len(soup); {
				less := append(slices.Clone(soup[:at]), soup[at+size:]...)
				if fault(strings.Join(less, "")) == "" {
					at++
					continue
				}
				soup, again = less, true
			}
		}
	}
	return soup
}

// quiet keeps what a check says for itself, so that a text can be shrunk.
type quiet struct {
	testing.TB
	said string
}

func (q *quiet) Helper()                           {}
func (q *quiet) Name() string                      { return "soup" }
func (q *quiet) Errorf(format string, args ...any) { q.said = fmt.Sprintf(format, args...) }
func (q *quiet) FailNow()                          { panic(q) }

// faultOf gives what is wrong with a text, "" if nothing is.
func faultOf(abc string) (fault string) {
	q := &quiet{}
	defer func() {
		if p := recover(); p == any(q) {
			fault = q.said
		} else if p != nil {
			fault = fmt.Sprint(p)
		}
	}()
	wholesome(q, abc)
	thereAndBack(q, abc)
	upAndDown(q, abc)
	return q.said
}

// upAndDown asserts that a tune that is moved sounds as it is written, and moved
// back is the same tune.
func upAndDown(t testing.TB, abc string) {
	t.Helper()
	first, _ := Tune(source.NewText(abc))
	for _, by := range []tune.Move{{Letters: 1, Semitones: 2}, {Letters: -3, Semitones: -5}} {
		up, ok := first.MovedTo(by)
		if !ok {
			continue
		}
		again, _ := Tune(source.NewText(Write(up)))
		written, played := up.Notes()
		writtenAgain, playedAgain := again.Notes()
		check{t, abc}.must(slices.Equal(written, writtenAgain) && slices.Equal(played, playedAgain), "a moved tune as it is written")
		back, ok := up.MovedTo(tune.Move{})
		require.True(t, ok, "%q", abc)
		require.Equal(t, placeless(first), placeless(back), "%q moved", abc)
	}
}

// sound asserts what holds for any soup.
func sound(t testing.TB, soup []string) {
	t.Helper()
	if faultOf(strings.Join(soup, "")) != "" {
		short := strings.Join(shrunk(soup, faultOf), "")
		require.Fail(t, "a soup of tokens", "%q\n%s", short, faultOf(short))
	}
}

// moreSoups names the environment variable that asks for more soups, of another
// seed: READYHAND_SOUPS=1000000:5 go test -run Soups ./engine/read.
const moreSoups = "READYHAND_SOUPS"

func TestSoups(t *testing.T) {
	many, seed := 30_000, 1
	if text := os.Getenv(moreSoups); text != "" {
		_, err := fmt.Sscanf(text, "%d:%d", &many, &seed)
		require.NoError(t, err, moreSoups)
	}
	chance := rand.New(rand.NewPCG(uint64(seed), 7))
	for range many {
		sound(t, soup(chance.IntN))
	}
}

// The soups have every token and every head in them, are nearly all different, and
// have most of what a tune can have and most of what the reader can remark.
func TestSoupsVary(t *testing.T) {
	const many = 10_000
	chance := rand.New(rand.NewPCG(1, 7))
	seen, different, said, has := map[string]int{}, map[string]bool{}, map[string]int{}, map[string]int{}
	for range many {
		list := soup(chance.IntN)
		for _, text := range list {
			seen[text]++
		}
		abc := strings.Join(list, "")
		different[abc] = true
		got, remarks := Tune(source.NewText(abc))
		for _, r := range remarks {
			said[r.Kind]++
		}
		for _, feature := range featuresOf(got) {
			has[feature]++
		}
	}
	for _, row := range tokens {
		for _, text := range row.texts {
			assert.Greater(t, seen[text], many/500, "%s: %q", row.sections, text)
		}
	}
	for _, text := range heads {
		assert.Greater(t, seen[text], many/10, "%q", text)
	}
	for _, feature := range allFeatures {
		assert.Greater(t, has[feature], many/500, feature)
	}
	assert.Greater(t, len(different), many*95/100, "different soups")
	assert.Greater(t, len(said), int(kinds)/2, "kinds of remarks")
}

// allFeatures are what featuresOf can name.
var allFeatures = []string{"an order of parts", "voices", "a layer", "a second layer", "a layer over two bars", "a repeat", "an ending", "a new key", "a new meter", "a new tempo", "a part",
	"a chord", "a rest", "a bar's rest", "a tie", "graces", "a tuplet", "a slur", "a sign", "a finger", "words over the music", "words under the music", "the end of a phrase"}

// featuresOf names what a tune has.
func featuresOf(t tune.Tune) (list []string) {
	has := make([]bool, len(allFeatures))
	see := func(feature string, so bool) {
		i := slices.Index(allFeatures, feature)
		has[i] = has[i] || so
	}
	see("an order of parts", t.Parts != "")
	for _, v := range t.Voices {
		see("voices", v.ID != t.Voices[0].ID)
		see("a layer", v.Layer == 1)
		see("a second layer", v.Layer == 2)
		for _, m := range v.Marks {
			see("a layer over two bars", m.Back == 2)
			see("a repeat", m.Ends > 0)
			see("an ending", m.Passes > 0)
			see("a new key", m.Kind == tune.NewKey)
			see("a new meter", m.Kind == tune.NewMeter)
			see("a new tempo", m.Kind == tune.NewTempo)
			see("a part", m.Kind == tune.Part)
		}
		for _, e := range v.Events {
			see("a chord", len(e.Notes) > 1)
			see("a rest", len(e.Notes) == 0)
			see("a bar's rest", e.Whole > 0)
			see("graces", len(e.Graces) > 0)
			see("a tuplet", e.Tuplet.P > 0)
			see("a slur", e.Slurs.Open > 0)
			see("a sign", len(e.Decorations) > 0)
			see("words over the music", len(e.Texts) > 0)
			see("words under the music", len(e.Lyrics) > 0)
			see("the end of a phrase", e.PhraseEnd)
			for _, n := range e.Notes {
				see("a tie", n.Tied)
				see("a finger", n.Finger > 0)
			}
		}
	}
	for i, so := range has {
		if so {
			list = append(list, allFeatures[i])
		}
	}
	return list
}

// FuzzTokens chooses the tokens by bytes.
func FuzzTokens(f *testing.F) {
	chance := rand.New(rand.NewPCG(3, 7))
	for range 50 {
		choices := make([]byte, 60)
		for i := range choices {
			choices[i] = byte(chance.IntN(256))
		}
		f.Add(choices)
	}
	f.Fuzz(func(t *testing.T, choices []byte) {
		sound(t, soup(func(below int) int {
			if len(choices) == 0 {
				return 0
			}
			c := choices[0]
			choices = choices[1:]
			return int(c) % below
		}))
	})
}
