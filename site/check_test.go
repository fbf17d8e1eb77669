package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// Every remark has its place, says what is wrong, and what to write. The first
// file of a row is the lesson a.md.
func TestRemarks(t *testing.T) {
	const ok = "---\ntitle: A\n---\n"
	for _, row := range []struct {
		why, a string
		more   map[string]string
		want   string // "" for none; without the folder's name
	}{
		{"nothing is wrong", ok + "Go.\n", nil, ""},
		{"no front matter", "# A\n", nil, `a.md:1:1: error: This lesson has no title. (Start the file with`},
		{"no title among it", "---\nlevel: b\n---\n", nil, `a.md:1:1: error: This lesson has no title. (Write title: and`},
		{"an empty title", "---\nlevel: b\ntitle:\n---\n", nil, `a.md:3:1: error: This lesson has no title. (Write title: and`},
		{"not closed", "---\ntitle: A\nGo.\n", nil, `a.md:1:1: error: The lines at the top are not closed. (Write ---`},
		{"an unknown setting", "---\ntitle: A\nauthor: B\n---\n", nil, `a.md:3:1: warning: There is no setting "author" here. (Write title`},
		{"given twice", "---\ntitle: A\ntitle: B\n---\n", nil, `a.md:3:1: warning: title is given twice; the first counts.`},
		{"no setting at all", "---\ntitle: A\nB\n---\n", nil, `a.md:3:1: error: This line is not a setting.`},
		{"a blank in the word", "---\ntitle: A\nmy title: B\n---\n", nil, `a.md:3:1: warning: There is no setting "my title" here.`},
		{"nearly title", "---\nlevle: b\ntitel: A\nsumary: B\n---\n", nil, "a.md:2:1: warning: There is no setting \"levle\" here. (Write level.)\na.md:3:1: error: There is no setting \"titel\" here. (Write title.)\na.md:4:1: warning: There is no setting \"sumary\""},
		{"not the first line", "\n---\ntitle: A\n---\n", nil, "a.md:1:1: error: This lesson has no title: the --- above it is not the first line. (Take out"},
		{"an order in letters", "---\ntitle: A\norder: two\n---\n", nil, `a.md:3:8: error: order is not a number: "two". (Write for instance order: 3.)`},
		{"not UTF-8", ok + "Go \xff.\n", nil, `a.md:4:4: error: This letter cannot be read: the file is not in UTF-8.`},
		{"UTF-16", "\xff\xfe-\x00", nil, `a.md:1:1: error: This file is in UTF-16, which is not read here. (Save it as UTF-8`},
		{"no text", "\x89PNG\r\n\x00", nil, `a.md:1:1: error: This is not plain text: perhaps a picture`},
		{"other names", ok, map[string]string{"b.MD": ok, "c.markdown": "", "d.md.txt": "", "House.TXT": "cut 2 1", ".md": "", "notes.txt": ""},
			"House.TXT:1:1: warning: These house fingerings are not read, because of the file's name. (Call it house.txt.)\nb.MD:1:1: warning: This file is not read: the name of a lesson ends in .md. (Call it b.md.)\nc.markdown:1:1: warning: This file is not read: the name of a lesson ends in .md. (Call it c.md.)\nd.md.txt:1:1: warning: This file is not read: the name of a lesson ends in .md. (Call it d.md.)"},
		{"one address for two", ok, map[string]string{"A.md": ok, "x.md": ok},
			`a.md:1:1: error: This lesson and A.md would both be the page a.html. (Give one`},
		{"the address of the list", ok, map[string]string{"INDEX.md": ok}, `INDEX.md:1:1: error: This lesson and index.md would both be the page index.html.`},
		{"a lesson in a folder", ok, map[string]string{"more/b.md": ok}, `more/b.md:1:1: warning: This lesson is left out, because it lies in a folder of its own.`},
		{"too large", ok + strings.Repeat("word ", 300000), nil, `a.md:1:1: error: This lesson is too large: 1464 kB, where 1024 kB is the most.`},

		{"a lesson that is there", ok + "[b](b.md) [part](b.md#the-part) [up](#top)\n\n# Top\n", map[string]string{"b.md": ok + "## The *part*\n"},
			`a.md:6:1: note: The title is already the heading`},
		{"a lesson that is not", ok + "See é [b](bb.md).\n", map[string]string{"b.md": ok}, `a.md:4:7: error: There is no lesson "bb.md". (Write b.md, if that is meant.)`},
		{"a heading that is not", ok + "[b](b.md#prat)\n", map[string]string{"b.md": ok + "## Part\n"}, `a.md:4:1: error: There is no heading "prat" in b.md.`},
		{"a file that is not", ok + "\n- [b](b.pdf)\n", nil, `a.md:5:3: error: There is no file "b.pdf". (Put the file`},
		{"a picture that is not", ok + "![b](b.png)\n", nil, `a.md:4:1: error: There is no file "b.png".`},
		{"a page for a lesson", ok + "[b](b.html)\n", map[string]string{"b.md": ok}, `a.md:4:1: error: There is no file "b.html". (Write b.md.)`},
		{"by name, below", ok + "[b][x]\n\n[x]: b.pdf\n", nil, `a.md:4:1: error: There is no file "b.pdf".`},
		{"out of the folder", ok + "[b](../b.pdf)\n", nil, `a.md:4:1: error: "../b.pdf" lies outside the folder of lessons.`},
		{"from the top of the disk", ok + "[b](/etc/hosts)\n", nil, `a.md:4:1: error: "/etc/hosts" begins with a slash, so it leads out of the course. (Copy the file itself into the folder`},
		{"from the top of the course", ok + "[b](/d/b.pdf)\n", map[string]string{"d/b.pdf": ""}, `a.md:4:1: error: "/d/b.pdf" begins with a slash, so it leads out of the course. (Write d/b.pdf.)`},
		{"without .md", ok + "[b](b)\n", map[string]string{"b.md": ok}, `a.md:4:1: error: There is no file "b". (Write b.md.)`},
		{"nearly its name", ok + "![b](s/gate.MP3) [b](b.pfd)\n", map[string]string{"s/Gate.mp3": "", "b.pdf": ""},
			"a.md:4:1: error: There is no file \"s/gate.MP3\". (Write s/Gate.mp3, if that is meant.)\na.md:4:18: error: There is no file \"b.pfd\". (Write b.pdf, if that is meant.)"},
		{"an address half written", ok + "[b](www.b.example)\n", nil, `a.md:4:1: error: There is no file "www.b.example". (Put the file beside the lesson, or, if this is an address elsewhere, write https://www.b.example.)`},
		{"a place on a disk", ok + `![b](C:\music\b.mp3) [b](file:///b.pdf)` + "\n", nil, `a.md:4:1: error: "C:\music\b.mp3" is a place on your own disk` + "\na.md:4:22: error: \"file:///b.pdf\" is a place on your own disk"},
		{"nearly a heading", ok + "[b](#The-Prat)\n\n## The part\n", nil, `a.md:4:1: error: There is no heading "The-Prat" in a.md. (Write #the-part.)`},
		{"neither picture nor recording", ok + "![b](b.abc)\n", map[string]string{"b.abc": ""}, `a.md:4:1: error: "b.abc" is neither a picture nor a recording that a page can show. (Save it`},
		{"a recording without a name", ok + "![](b.mp3)\n", map[string]string{"b.mp3": ""}, `a.md:4:1: warning: This recording has no name.`},
		{"a script", ok + "[b](javascript:x)\n", nil, `a.md:4:1: error: A link cannot lead to "javascript:".`},
		{"half an address", ok + "[b](//b.example/c)\n", nil, `a.md:4:1: error: This address is half written: "//b.example/c". (Write https://b.example/c.)`},
		{"a folder", ok + "[b](d)\n", map[string]string{"d/e.png": ""}, `a.md:4:1: error: "d" is a folder.`},
		{"a hidden file", ok + "[b](.b)\n", map[string]string{".b": ""}, `a.md:4:1: error: ".b" is a hidden file`},
		{"nowhere", ok + "[b]()\n", nil, `a.md:4:1: error: This link leads nowhere.`},
		{"no address", ok + "[b](%zz)\n", nil, `a.md:4:1: error: This is no address: "%zz".`},
		{"elsewhere", ok + "[b](https://b.example/c?d#e) <mailto:a@b.example>\n", nil, ""},
		{"a picture from elsewhere", ok + "![b](https://b.example/c.png)\n", nil, `a.md:4:1: error: A picture or recording from elsewhere is not shown`},
		{"a picture without words", ok + "![](b.png)\n", map[string]string{"b.png": ""}, `a.md:4:1: warning: Nothing is said here for those who cannot see the picture.`},
		{"a file in a folder", ok + "![b](d/my%20b.png)\n", map[string]string{"d/my b.png": ""}, ""},

		{"HTML in a line", ok + "a <b>c</b>\n", nil, "a.md:4:3: warning: HTML is left out of the page. (Write **bold**.)"},
		{"HTML that was not begun", ok + "a</b> c<br>\n", nil, "a.md:4:2: warning: HTML is left out of the page. (Write **bold**.)\na.md:4:8: warning: HTML is left out of the page. (End the line"},
		{"HTML in a block", ok + "<div>\nc\n</div>\n", nil, `a.md:4:1: warning: HTML is left out of the page.`},
		{"the teacher's own notes", ok + "<!-- for me -->\n\nGo <!-- too -->.\n", nil, ""},

		{"a tune that does not end", ok + "```abc\nX:1\nK:C\nC\n", nil, `a.md:4:1: error: This tune has no end. (Write`},
		{"another fence that does not end", ok + "~~~~abc\nX:1\nK:C\nC\n```\n", nil, "a.md:4:1: error: This tune has no end. (Write ~~~~ on a line of its own under the tune.)"},
		{"a tune in a list", ok + "- go\n\n  ```abc\n  X:1\n  ```\n", nil, `a.md:6:3: warning: A tune inside a list or a quotation is only printed`},
		{"a tune in the words", ok + "Try this.\n\nX:1\nT:So\nK:G\nG A B\n", nil, `a.md:6:1: warning: This looks like a tune, and is only printed. (Write a line ` + "```abc above it and a line ``` below.)"},
		{"a tune in a block without a name", ok + "```\nX: 7\nK:G\nG\n```\n", nil, `a.md:5:1: warning: This looks like a tune,`},
		{"a tune set in", ok + "Go.\n\n    X:1\n    K:G\n    G\n", nil, `a.md:6:5: warning: This looks like a tune,`},
		{"a tune in a list", ok + "- X:1\n  K:G\n  G\n", nil, `a.md:4:3: warning: This looks like a tune,`},
		{"words about a tune", ok + "X:1 comes first,\nK: last.\n\nX:\nK:G\n\n```text\nX:1\nK:G\n```\n", nil, "a.md:4:1: warning: This looks like a tune,"},
		{"one file for two", ok + "[b](b.pdf) [B](B.pdf)\n", map[string]string{"b.pdf": "1", "B.pdf": "2"},
			`a.md:4:12: error: The site cannot hold "B.pdf" beside "b.pdf": some disks take them for the same.`},
		{"a file named as a page", ok + "[b](A.html) [b](A.html)\n", map[string]string{"A.html": "1"}, "a.md:4:1: error: The site cannot hold \"A.html\": a page of it has that name.\na.md:4:13: error: The site"},
		{"house fingerings", ok, map[string]string{houseFile: "# mine\ncut 1 2\n0 +4 +7 4 2 1\n"}, ""},
		{"not all of them", ok, map[string]string{houseFile: "cut 1 2\n\n  cat 1 2 % é\ntap 1 2\ncut 2 3\n"},
			"house.txt:3:3: error: \"cat\" is not the name of an ornament. (Write cut.)\nhouse.txt:4:1: error: The higher string has the finger nearer the thumb\nhouse.txt:5:1: warning: This has a house fingering in a line above"},
		{"house fingerings in other letters", ok, map[string]string{houseFile: "cut 1 2 # \xff\n"}, "house.txt:1:11: error: This letter cannot be read"},
		{"house fingerings that are a folder", ok, map[string]string{houseFile + "/x": ""}, "house.txt:1:1: error: The house fingerings are a folder, not a file. (Make it"},
		{"no tune in a block", ok + "Go.\n\n```abc\n\n```\n", nil, "a.md:6:1: error: There is no tune in this block. (Write one"},
		{"a block named nearly so", ok + "```acb\nX:1\n```\n\n```abc2\nK:C\n```\n\n```abcd\nx\n```\n\n```chrat\n```\n", nil,
			"a.md:4:1: warning: A block named \"acb\" is only printed. (Write ```abc, if that is meant.)\na.md:8:1: warning: A block named \"abc2\"\na.md:16:1: warning: A block named \"chrat\" is only printed. (Write ```chart"},
		{"a space in a link", ok + "See ![Listen](my tune.mp3), [b] (b.md) and [c]( d e ), not `[a](b c)`, \\[a](b c) or [b](b.md \"B\").\n", map[string]string{"b.md": ok},
			"a.md:4:5: warning: This is read as words, because of the space in its address. (Write (<my tune.mp3>), or\na.md:4:29: warning: This is read as words, because of the space between ] and (. (Take the space out.)\na.md:4:44: warning: This is read as words, because of the space in its address. (Write (<d e>)"},
		{"other blocks", ok + "```\nX:1\n```\n\n    abc\n", nil, ""},
	} {
		files := map[string]string{"a.md": row.a}
		for name, text := range row.more {
			files[name] = text
		}
		dir := folder(t, files)
		remarks, _, err := check(dir)
		require.NoError(t, err, row.why)
		got := said(dir, remarks)
		for _, r := range remarks {
			assert.Regexp(t, `^([A-Z].*\.)?$`, r.suggestion, "%s: what to do, as a sentence", row.why)
			assert.NotRegexp(t, `[“”]`, r.message+r.suggestion, "%s: quoted as the engine quotes", row.why)
		}
		if row.want == "" {
			assert.Empty(t, got, row.why)
			continue
		}
		want := strings.Split(row.want, "\n")
		if assert.Len(t, got, len(want), "%s: %q", row.why, got) {
			for i := range want {
				assert.True(t, strings.HasPrefix(got[i], want[i]), "%s\ngot:  %s\nwant: %s", row.why, got[i], want[i])
			}
		}
	}
}

// said prints remarks without the name of the folder.
func said(dir string, remarks []remark) []string {
	var list []string
	for _, r := range remarks {
		list = append(list, strings.TrimPrefix(filepath.ToSlash(r.String()), filepath.ToSlash(dir)+"/"))
	}
	return list
}

// What the engine says of a tune stands at its place in the lesson: line, and
// column in letters.
func TestRemarksInATune(t *testing.T) {
	for _, row := range []struct {
		why, body, tune string
		at              int // a byte of the tune
		line, column    int
	}{
		{"first letter", "```abc\nX:1\nC D\n```\n", "X:1\nC D\n", 0, 5, 1},
		{"second line", "```abc\nX:1\nC D\n```\n", "X:1\nC D\n", 6, 6, 3},
		{"after a long letter", "Go.\n\n```abc\nT:é!\n```\n", "T:é!\n", 4, 7, 4},
		{"a fence that is set in", "  ~~~abc\n  X:1\n   C\n  ~~~\n", "X:1\n C\n", 5, 6, 4},
		{"the end of the tune", "```abc\nX:1\n```\n", "X:1\n", 4, 5, 4},
		{"line ends of Windows", "```abc\r\nX:1\r\nC\r\n```\r\n", "X:1\r\nC\r\n", 5, 6, 1},
		{"the whole tune", "```abc\nX:1\n```\n", "X:1\n", -1, 5, 1},
	} {
		source := lessonText("A", row.body)
		l := readLesson("a.md", "a.md", []byte(source))
		p := prose{lesson: l, course: &course{}, body: l.source[l.body:]}
		ask := func(_ engine.Course, blocks []block) []answered {
			require.Len(t, blocks, 1, row.why)
			assert.Equal(t, row.tune, blocks[0].text, row.why)
			return []answered{{remarks: []tuneRemark{{remark{severity: isError, message: "So."}, row.at}}}}
		}
		tree, past := toTree(newMarkdown(), p.body, usual, newHeadings())
		require.Nil(t, past)
		require.True(t, p.mend(tree))
		p.setTunes(ask)
		require.Len(t, p.said, 1, row.why)
		assert.Equal(t, fmt.Sprintf("a.md:%d:%d: error: So.", row.line, row.column), p.said[0].String(), row.why)
	}
}

// The engine's own remarks come through: this tune has no such note.
func TestCheckAsksTheEngine(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "\n```abc\nX:1\nT:So\nL:1/4\nK:C\nC D !cutt!E F |]\n```\n")})
	code, out, _ := readyhand("", "check", dir)
	assert.Equal(t, done, code)
	assert.Contains(t, filepath.ToSlash(out), "a.md:10:5: warning:")
}

// A link to a file that is not there, and what may not be read, in plain words.
func TestPlainReasons(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n")})
	require.NoError(t, os.Symlink("none.md", filepath.Join(dir, "dead.md")))
	remarks, _, err := check(dir)
	require.NoError(t, err)
	assert.Equal(t, []string{"dead.md:1:1: error: This is only a link, to a file that is not there. (" + copyInto + ")"}, said(dir, remarks))
	for in, want := range map[error]string{
		&fs.PathError{Op: "open", Path: "x", Err: fs.ErrPermission}: "you have no leave to",
		&fs.PathError{Op: "open", Path: "x", Err: fs.ErrNotExist}:   "it is not there",
		io.ErrUnexpectedEOF: "unexpected EOF",
	} {
		assert.Equal(t, want, reason(in).Error())
		assert.Equal(t, errors.Is(in, fs.ErrPermission), errors.Is(reason(in), fs.ErrPermission), "the system's own error is kept")
	}
}

func TestCheckEnds(t *testing.T) {
	good := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n")})
	bad := folder(t, map[string]string{"a.md": "Go.\n"})
	empty := t.TempDir()
	for dir, want := range map[string]int{good: done, bad: trouble, empty: trouble, filepath.Join(empty, "none"): trouble} {
		code, out, err := readyhand("", "check", dir)
		assert.Equal(t, want, code, out+err)
	}
	_, out, _ := readyhand("", "check", bad)
	assert.True(t, strings.HasPrefix(out, filepath.Join(bad, "a.md")+":1:1: error: "), out)
}

// Texts whose reading takes a time that grows with their square, or more, end
// with an error at their place.
func TestLimits(t *testing.T) {
	table := "|" + strings.Repeat("a|", 1000) + "\n|" + strings.Repeat("-|", 1000) + "\n" + strings.Repeat("|a\n", 1000)
	for _, row := range []struct {
		why, body, want string
		time            time.Duration
	}{
		{"quotations in quotations", strings.Repeat(">", 50000), "Lists or quotations lie too deep inside each other here.", usual.time},
		{"lists in lists", strings.Repeat("- ", 50000) + "a", "Lists or quotations lie too deep inside each other here.", usual.time},
		{"a wide and long table", table, "The tables of this lesson are too large.", usual.time},
		{"many such tables", strings.Repeat("|"+strings.Repeat("a|", 100)+"\n|"+strings.Repeat("-|", 100)+"\n"+strings.Repeat("|a\n", 100)+"\n", 9),
			"The tables of this lesson are too large.", usual.time},
		// With the usual time these would take two seconds each here.
		{"links that do not end", strings.Repeat("[a](", 100000), "This lesson is too tangled to be read in time.", 50 * time.Millisecond},
		{"many addresses below", strings.Repeat("[a]: x\n", 100000), "This lesson is too tangled to be read in time.", 50 * time.Millisecond},
		{"brackets", strings.Repeat("![[", 200000), "This lesson is too tangled to be read in time.", 50 * time.Millisecond},
	} {
		l := usual
		l.time = row.time
		tree, past := toTree(newMarkdown(), []byte("Go.\n\n"+row.body), l, newHeadings())
		if assert.NotNil(t, past, row.why) {
			assert.Nil(t, tree, row.why)
			assert.Equal(t, row.want, past.message, row.why)
			assert.NotEmpty(t, past.suggestion, row.why)
			assert.GreaterOrEqual(t, past.at, 5, row.why)
		}
	}
	stars := folder(t, map[string]string{"a.md": lessonText("A", strings.Repeat("*a **b ", 300)+strings.Repeat("c** d* ", 300))})
	remarks, _, err := check(stars)
	require.NoError(t, err)
	require.Len(t, remarks, 1)
	assert.Contains(t, remarks[0].String(), "a.md:4:")
	assert.Contains(t, remarks[0].String(), "too deep")
}

// A remark of check shows its place: the line, and a caret under the character.
func TestCheckPointsAtThePlace(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "é <b>\n")})
	_, out, _ := readyhand("", "check", dir)
	assert.Contains(t, out, "\n    é <b>\n      ^\n")
	assert.Equal(t, "    "+strings.Repeat("a", 100)+"\n    "+strings.Repeat(" ", 50)+"^\n", caret(strings.Repeat("a", 900), 400))
	assert.Empty(t, caret("abc", 0))
	assert.Empty(t, caret("abc", 9))
}
