package main

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A slipped is one fault in a lesson: what stands there, what stands there once it is
// mended as its remark says, and the remark. <n> marks its place in the files.
type slipped struct{ bad, good, says string }

// Three lessons with a dozen faults each, as a teacher makes them who writes Markdown and
// has not read the standard. ”' is a fence.
var faulty = []struct {
	about  string
	files  map[string]string
	faults []slipped
}{
	{"notes", map[string]string{"gate.md": `---
title: The gate
---

'''abc
X:1
T:The Gate
M:6/8
L:1/8
Q:<0>
K:<1>
|: <2>G2A B2c | d2e <3>f2g | <4> A3 | G2A B2c :|
d2e <5> | d3 G2A | <6> c2B | A3 <7> |
<8> e2d c2B | A2G <9>2c | <10>3 <11>G3 |]
<12>
'''
`}, []slipped{
		{"fast", "1/4=100", `gate.md:10:3: error: The tempo "fast" cannot be read. (Write Q:1/4=100`},
		{"G-dur", "G", `gate.md:11:3: error: The key "G-dur" cannot be read; it is taken as G major. (Write K:G.)`},
		{"!5!", "!2!", `gate.md:12:4: warning: The harp is played with fingers 1 to 4; this one is not used. (Write 1 for the thumb up to 4.)`},
		{"!tril!", "!trill!", `gate.md:12:21: warning: There is no sign called "tril"; it is left out. (Write !trill!.)`},
		{"[G3B3d3", "[G3B3d3]", `gate.md:12:33: error: This chord is not closed. (Write ] after its last note`},
		{"f2e2", "f2e", `gate.md:13:1: warning: This bar holds 7 quavers; in 6/8 it holds 6 quavers. (Look for a missing bar line, or a note that is too long.)`},
		{"e,,,,2d", "e2d", `gate.md:13:21: error: The note E1 lies below this harp, which goes from C2`},
		{"{cG3", "{c}G3", `gate.md:13:38: error: These grace notes are not closed; they are read as plain notes. (Write } after the last one`},
		{"|:", "", `gate.md:14:1: warning: This repeat is never closed; the part is played once. (Write :| where it ends.)`},
		{"H", "B", `gate.md:14:18: warning: H is no name of a note in ABC. (Write B, or _B for B flat.)`},
		{"[!1!G!2!B]", "[!2!G!1!B]", `gate.md:14:28: error: This chord cannot be held with the fingers asked for; they are left open. (The thumb takes the highest string`},
		{`"Am`, `"Am"`, `gate.md:14:36: error: This chord is not closed`},
		{"X:2\nT:The Other Gate\nK:C\nC3|", "'''\n\n'''abc\nX:2\nT:The Other Gate\nK:C\nC3|", `gate.md:15:3: error: A second tune, "The Other Gate", starts here and is not read; one block holds one tune. (Give it a block of its own.)`},
	}},
	{"what is asked for", map[string]string{"gate.md": `---
title: The gate
---

'''abc
X:1
T:The Gate
M:6/8
L:<0>
Q:1/4=100
%%ready <1>
%%ready <2>
%%ready <3>
%%ready <4>
%%ready <5>
%%ready <6>
K:G
|: G2A B2c | d2e f2g | [GBd]3 A3 | G2A B2c :|
<7>
d2e f2e | d3 G3 | e2d c2B | A3 G3 |]
'''

'''chart
<8>
'''
`, houseFile: `# as I teach it
<9>
<10>
<11>
<12>
<13>
`}, []slipped{
		{"crotchet", "1/8", `gate.md:9:3: error: The note length "crotchet" cannot be read. (Write L:1/8, L:1/4 or L:1/16.)`},
		{"strings 24; lowest G2; tuning D", "strings 24; lowest G2; tuning Eb", `gate.md:11:39: error: A tuning with all levers down is one of Eb, C, Ab, F, not "D". (Write for instance tuning Eb.)`},
		{"cut 3 off", "cut@3 off; offer cut@3", `gate.md:12:9: error: Which note is meant is not said. (Write its number after @: cut@3 off.)`},
		{"finger@7 5", "finger@7 1", `gate.md:13:18: error: A finger is 1, 2, 3 or 4 (1 is the thumb), not "5". (Write for instance finger@7 2`},
		{"tempo=80", "tempo 80", `gate.md:14:9: error: "tempo=80" is not something that can be asked for. (Write a space after tempo: tempo 80.)`},
		{"set@99", "set@9", `gate.md:15:9: error: There is no note 99 in this tune; what was said of it is dropped. (Write a number from 1 to 28.)`},
		{"offer tap mordent", "offer tap upper-mordent", `gate.md:16:19: error: "mordent" is not the name of an ornament. (Write upper-mordent, mordent-in-time or lower-mordent.)`},
		{"%% ready phrase", "%%ready phrase", `gate.md:19:1: warning: This line is not read: its first word is not %%ready. (Write %%ready and a space at its start`},
		{"cutt", "cut", `gate.md:24:1: error: "cutt" is not something that can be asked for. (Write cut.)`},
		{"rol 1 2 3 2", "short roll 1 2 3 2", `house.txt:2:1: error: "rol" is not the name of an ornament. (Write short-roll or long-roll.)`},
		{"octave 4 1", "0 +7 4 1", `house.txt:3:1: error: A chord is written by its strings, not by its name: "octave". (Write 0 +7 4 1 for the chord`},
		{"0 4 7 4 2 1", "0 +4 +7 4 2 1", `house.txt:4:1: error: The strings of a chord above the lowest are written with a plus. (Write 0 +4 +7 4 2 1.)`},
		{"0 +4 1 3", "0 +4 3 1", `house.txt:5:1: error: The higher string has the finger nearer the thumb, and each string a finger of its own; 1 3 has it otherwise. (Write for instance 0 +4 3 1`},
		{"cut 1", "cut 1 2", `house.txt:6:1: error: The cut has 2 strokes, its own note among them: write a finger for each, as they are played. (Write for instance cut 1 2`},
	}},
	{"words", map[string]string{"gate.md": `---
<0>: The gate
order: <1>
<2>: easy
---

<3> to it first: ![Listen](<4>). It comes after [the latch](<5>), and
![the hand](<6>) shows the hand. What it means is [further down](#<7>); more is [elsewhere](<8>).

<9>

'''<10>
X:1
T:The Gate
K:G
G2A
'''

'''abc<11>
'''

## How to hold the hand

'''abc
X:3
K:G
GAB
<12>
`, "latch.md": "---\ntitle: The latch\n---\n", "Gate.mp3": "", "my hand.png": "", "hand.mscz": ""}, []slipped{
		{"titel", "title", `gate.md:2:1: error: There is no setting "titel" here. (Write title.)`},
		{"third", "3", `gate.md:3:8: error: order is not a number: "third". (Write for instance order: 3.)`},
		{"levle", "level", `gate.md:4:1: warning: There is no setting "levle" here. (Write level.)`},
		{"<b>Listen</b>", "**Listen**", `gate.md:7:1: warning: HTML is left out of the page. (Write **bold**.)`},
		{"gate.mp3", "Gate.mp3", `gate.md:7:28: error: There is no file "gate.mp3". (Write Gate.mp3, if that is meant.)`},
		{"latch", "latch.md", `gate.md:7:64: error: There is no file "latch". (Write latch.md.)`},
		{"my hand.png", "<my hand.png>", `gate.md:8:1: warning: This is read as words, because of the space in its address. (Write (<my hand.png>), or`},
		{"how-to-hold-the-hnad", "how-to-hold-the-hand", `gate.md:8:59: error: There is no heading "how-to-hold-the-hnad" in gate.md. (Write #how-to-hold-the-hand.)`},
		{"www.harp.example/gate", "https://www.harp.example/gate", `gate.md:8:106: error: There is no file "www.harp.example/gate". (Put the file beside the lesson, or, if this is an address elsewhere, write https://www.harp.example/gate.)`},
		{"![The whole of it](hand.mscz)", "[The whole of it](hand.mscz)", `gate.md:10:1: error: "hand.mscz" is neither a picture nor a recording that a page can show. (Save it in another form, such as .mp3 or .png; or leave the ! out`},
		{"acb", "abc", `gate.md:12:1: warning: A block named "acb" is only printed. (Write '''abc, if that is meant.)`},
		{"", "\nX:2\nK:G\nGAB", `gate.md:19:1: error: There is no tune in this block. (Write one between its two lines`},
		{"''", "'''", `gate.md:24:1: error: This tune has no end. (Write ''' on a line of its own under the tune.)`},
	}},
}

var linePlace = regexp.MustCompile(`^([^:]*):\d+:\d+:`)

var place = regexp.MustCompile(`<(\d+)>`)

// written gives the files of a lesson, with the faults of which mended is not true.
func written(files map[string]string, faults []slipped, mended func(i int) bool) map[string]string {
	all := map[string]string{}
	for name, text := range files {
		text = place.ReplaceAllStringFunc(text, func(mark string) string {
			var i int
			fmt.Sscanf(mark, "<%d>", &i)
			if i < len(faults) && mended(i) {
				return faults[i].good
			}
			return faults[i].bad
		})
		all[name] = strings.ReplaceAll(text, "'''", "```")
	}
	return all
}

// Every fault has one remark, at its place and in the order of the text; mended as the
// remark says, that one goes and no other comes.
func TestFaultsAreMendedOneByOne(t *testing.T) {
	told := func(files map[string]string) []string {
		dir := folder(t, files)
		remarks, _, err := check(dir)
		require.NoError(t, err)
		return said(dir, remarks)
	}
	for _, row := range faulty {
		none := told(written(row.files, row.faults, func(int) bool { return true }))
		assert.Empty(t, none, "%s: all mended", row.about)

		all := told(written(row.files, row.faults, func(int) bool { return false }))
		if !assert.Len(t, all, len(row.faults), "%s:\n%s", row.about, strings.Join(all, "\n")) {
			continue
		}
		for i, f := range row.faults {
			assert.True(t, strings.HasPrefix(all[i], strings.ReplaceAll(f.says, "'''", "```")), "%s %d\ngot:  %s\nwant: %s", row.about, i, all[i], f.says)
			left := told(written(row.files, row.faults, func(k int) bool { return k == i }))
			want := slices.Delete(slices.Clone(all), i, i+1)
			assert.Equal(t, placeless(want), placeless(left), "%s: %q mended as %q", row.about, f.bad, f.good)
		}
	}
}

// placeless gives remarks without line and column: what is mended moves what stands
// after it.
func placeless(remarks []string) []string {
	list := []string{}
	for _, r := range remarks {
		list = append(list, linePlace.ReplaceAllString(r, "$1:"))
	}
	return list
}

// check prints them in that order, each with its line and a caret, on a screen of a
// file's own.
func TestFaultsFitAScreen(t *testing.T) {
	for _, row := range faulty {
		dir := folder(t, written(row.files, row.faults, func(int) bool { return false }))
		code, out, err := readyhand("", "check", dir)
		assert.Equal(t, trouble, code)
		assert.Empty(t, err)
		lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
		assert.LessOrEqual(t, len(lines), 3*len(row.faults), "%s: a remark, its line and a caret", row.about)
		at := -1
		for _, f := range row.faults {
			place, _, _ := strings.Cut(f.says, " ")
			next := strings.Index(filepath.ToSlash(out), "/"+place)
			assert.Greater(t, next, at, "%s: %s", row.about, f.says)
			at = next
		}
	}
}

// Of very many remarks on a file the gravest are shown, in the order of the text, and how
// many more there are; another file has a screen of its own.
func TestAScreenful(t *testing.T) {
	many := func(file, severities string) (list []remark) {
		for i, s := range severities {
			list = append(list, remark{file: file, line: i + 1, severity: map[rune]severity{'e': isError, 'w': isWarning, 'n': isNote}[s]})
		}
		return list
	}
	assert.Empty(t, screenful(nil))
	assert.Len(t, screenful(many("a", strings.Repeat("w", mostShown+1))), mostShown+1, "one more is shown itself")
	both := append(many("a", strings.Repeat("n", mostShown)), many("b", strings.Repeat("e", mostShown))...)
	assert.Equal(t, both, screenful(both))
	got := screenful(append(many("a", "wn"+strings.Repeat("w", mostShown-1)+"ne"), many("b", "n")...))
	var words []string
	for _, r := range got {
		words = append(words, fmt.Sprintf("%s%d%.1s", r.file, r.line, r.severity))
	}
	assert.Equal(t, "a1w a3w a4w a5w a6w a7w a8w a9w a10w a11w a12w a13w a14w a15w a16w a19e a19n b1n", strings.Join(words, " "))
	assert.Equal(t, "There are 3 more remarks on this file.", got[len(got)-2].message)
}
