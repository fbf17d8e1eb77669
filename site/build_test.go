package main

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

const aTune = "```abc\nX:1\nT:Over & <Under>\nM:3/4\nL:1/4\nK:C\nC E G | c G E | C3 |]\n```\n"

// small is a course with everything a page can have.
var small = map[string]string{
	"index.md": "---\ntitle: Harp & <home>\nsummary: All of it.\n---\nWelcome.\n",
	"cut.md": "---\ntitle: The \"cut\"\norder: 2\nlevel: easy\nsummary: A flick.\n---\nGo to [the tap](tap.md#how-to), see [the list](index.md).\n\n" +
		"![Two hands](img/my%20hands.png)\n\n![Listen](cut.mp3)\n\n" + aTune,
	"tap.md":           lessonText("The tap", "## How *to*\n\n| a | b |\n|--:|---|\n| 1 | 2 |\n\n## How to\n\n## B12\n\n## Lesson\n\n[sheet](sheet.pdf)\n"),
	"img/my hands.png": "picture",
	"cut.mp3":          "sound",
	"sheet.pdf":        "sheet",
	"notes.txt":        "mine",
}

func TestSite(t *testing.T) {
	site := made(t, small)
	var hashedNames []string
	aHash := regexp.MustCompile(`-[0-9a-f]{12}\.`)
	for name := range site {
		if aHash.MatchString(name) {
			hashedNames = append(hashedNames, aHash.ReplaceAllString(name, "-HASH."))
		}
	}
	assert.ElementsMatch(t, []string{"engine-HASH.wasm", "engine-HASH.js", "exec-HASH.js", "loader-HASH.js", "page-HASH.css", "icon-HASH.svg"}, hashedNames)
	assert.Len(t, site, 6+3+3, "what no lesson refers to stays at home")
	for _, asset := range []string{"img/my hands.png", "cut.mp3", "sheet.pdf"} {
		assert.Equal(t, small[asset], site[asset])
	}

	cut := site["cut.html"]
	for _, piece := range []string{
		`<title>The &#34;cut&#34; - Harp &amp; &lt;home&gt;</title>`,
		`<meta name="description" content="A flick.">`,
		`<a href="tap.html#how-to">the tap</a>`, `<a href="index.html">the list</a>`,
		`<img src="img/my%20hands.png" alt="Two hands">`,
		`<span class="recording-name">Listen</span> <audio controls preload="none" src="cut.mp3" aria-label="Listen"></audio>`,
		`<section class="ready" id="b1" data-sum="`, `aria-label="Over &amp; &lt;Under&gt;">`,
		`<p class="lesson-place">Lesson 1 · easy</p>`,
		`<a rel="next" class="next" href="tap.html">`,
	} {
		assert.Contains(t, cut, piece)
	}
	tap := site["tap.html"]
	for _, piece := range []string{
		`<h2 id="how-to">`, `<h2 id="how-to-2">`, `<h2 id="part-b12">`, `<h2 id="lesson-2">`,
		`<th align="right">`, `<a rel="prev" class="prev" href="cut.html">`, `<li aria-current="page">The tap</li>`,
	} {
		assert.Contains(t, tap, piece)
	}
	assert.NotContains(t, tap, "<script", "a page without a tune loads no script")
	index := site["index.html"]
	assert.Less(t, strings.Index(index, `<a href="cut.html">`), strings.Index(index, `<a href="tap.html">`), "in order")
	assert.Contains(t, index, "<p>Welcome.</p>")
	assert.Contains(t, index, "<h1>Harp &amp; &lt;home&gt;</h1>")
}

// Every page keeps to its policy, and holds together without script.
func TestPagesAreWhole(t *testing.T) {
	const wanted = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; worker-src 'self' blob:; style-src 'self'; " +
		"img-src 'self' data:; media-src 'self'; base-uri 'none'; form-action 'none'"
	inline := regexp.MustCompile(`(?i)<style|<script[^>]*>[^<]|<[^>]*\s(style|on[a-z]+)\s*=|javascript:`)
	refers := regexp.MustCompile(`\b(?:src|href|data-wasm|data-fallback|data-exec)="([^"#]*)(?:#[^"]*)?"`)
	site := made(t, small)
	for name, page := range site {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		assert.Contains(t, page, `<meta http-equiv="Content-Security-Policy" content="`+wanted+`">`, name)
		assert.Less(t, strings.Index(page, "Content-Security-Policy"), strings.Index(page, "<link"), "%s: the policy comes before what it rules", name)
		assert.Empty(t, inline.FindString(page), name)
		assert.Equal(t, 1, strings.Count(page, "<h1>"), name)
		for _, piece := range []string{"<!DOCTYPE html>", `<html lang="en">`, `<a class="skip" href="#lesson">`, `<main id="lesson"`, "<nav ", "<footer>", "health professional"} {
			assert.Contains(t, page, piece, name)
		}
		for _, found := range refers.FindAllStringSubmatch(page, -1) {
			to := strings.ReplaceAll(found[1], "%20", " ")
			if to != "" {
				assert.Contains(t, site, to, "%s refers to it", name)
			}
		}
	}
}

// The engine as a script is the engine: gzip (RFC 1952) in base64 (RFC 4648).
func TestSpareEngine(t *testing.T) {
	site := made(t, small)
	for name, text := range site {
		if !strings.HasPrefix(name, "engine-") || !strings.HasSuffix(name, ".js") {
			continue
		}
		packed := strings.TrimSuffix(strings.TrimPrefix(text, `self.readyhandEngine="`), "\";\n")
		zipped, err := base64.StdEncoding.DecodeString(packed)
		require.NoError(t, err)
		r, err := gzip.NewReader(bytes.NewReader(zipped))
		require.NoError(t, err)
		wasm, err := io.ReadAll(r)
		require.NoError(t, err)
		assert.Equal(t, site[strings.TrimSuffix(name, ".js")+".wasm"], string(wasm))
		return
	}
	t.Fatal("there is no engine as a script")
}

func TestTheSameSiteTwice(t *testing.T) {
	assert.Equal(t, made(t, small), made(t, small), "two folders with the same lessons")

	out, dir, engine := filepath.Join(t.TempDir(), "site"), folder(t, small), fakeEngine(t)
	again := func() (outcome, map[string]os.FileInfo) {
		got, err := build(order{dir, out, engine, askEngine})
		require.NoError(t, err)
		files := map[string]os.FileInfo{"": nil}
		for name := range tree(t, out) {
			info, err := os.Stat(filepath.Join(out, name))
			require.NoError(t, err)
			files[name] = info
		}
		files[""], err = os.Stat(out)
		require.NoError(t, err)
		return got, files
	}
	got, first := again()
	assert.True(t, got.changed)
	got, second := again()
	assert.False(t, got.changed)
	assert.True(t, os.SameFile(first[""], second[""]), "a site that is the same is not put in place again")

	set(t, dir, "tap.md", small["tap.md"]+"More.\n")
	got, third := again()
	assert.True(t, got.changed)
	for name, info := range third {
		assert.Equal(t, name != "tap.html" && name != "", os.SameFile(first[name], info), "%q is written only if it is another", name)
	}

	require.NoError(t, os.Remove(filepath.Join(dir, "tap.md")))
	set(t, dir, "cut.md", strings.Replace(small["cut.md"], "[the tap](tap.md#how-to)", "the tap", 1))
	got, _ = again()
	assert.True(t, got.changed)
	assert.NotContains(t, tree(t, out), "tap.html", "a lesson that is gone has no page")
	assert.NotContains(t, tree(t, out), "sheet.pdf")
}

func TestErrorsKeepTheOldSite(t *testing.T) {
	top := t.TempDir()
	out, dir, engine := filepath.Join(top, "site"), folder(t, small), fakeEngine(t)
	code, said, err := readyhand("", "build", "-engine", engine, "-o", out, dir)
	require.Equal(t, done, code, err)
	assert.Contains(t, said, "2 lessons")
	before := tree(t, out)
	for name, text := range map[string]string{"tap.md": "No title.\n", "new.md": lessonText("N", "[x](x.md)\n"), "cut.md": lessonText("C", "[x](tap.md#no)")} {
		set(t, dir, name, text)
		code, _, err := readyhand("", "build", "-engine", engine, "-o", out, dir)
		assert.Equal(t, trouble, code)
		assert.Contains(t, err, name+":")
		assert.Equal(t, before, tree(t, out), name)
		if old, was := small[name]; was {
			set(t, dir, name, old)
		} else {
			require.NoError(t, os.Remove(filepath.Join(dir, name)))
		}
	}
	code, _, err = readyhand("", "build", "-engine", filepath.Join(dir, "none.wasm"), "-o", out, dir)
	assert.Equal(t, trouble, code)
	assert.Contains(t, err, "none.wasm")
	assert.Equal(t, before, tree(t, out))
	assert.Equal(t, []string{"site"}, names(t, top), "nothing is left beside the site")
}

func names(t testing.TB, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

// A build never takes the place of what it did not make.
func TestFoldersThatAreNotOurs(t *testing.T) {
	engine := fakeEngine(t)
	other := folder(t, map[string]string{"letter.txt": "dear", "index.html": "<p>mine</p>"})
	dir := folder(t, map[string]string{"content/a.md": lessonText("A", "Go.\n")})
	for out, content := range map[string]string{
		other:                         filepath.Join(dir, "content"),
		filepath.Join(dir, "content"): filepath.Join(dir, "content"),
		dir:                           filepath.Join(dir, "content"),
	} {
		before := tree(t, out)
		code, _, err := readyhand("", "build", "-engine", engine, "-o", out, content)
		assert.Equal(t, trouble, code)
		assert.Contains(t, err, "cannot take the place of "+out)
		assert.Equal(t, before, tree(t, out))
	}
	empty := t.TempDir()
	code, _, err := readyhand("", "build", "-engine", engine, "-o", empty, filepath.Join(dir, "content"))
	assert.Equal(t, done, code, err)
}

// No link on the disk leads out of the folder of lessons.
func TestNothingFromOutside(t *testing.T) {
	secret := folder(t, map[string]string{"secret.md": lessonText("Secret", "Psst.\n"), "secret.png": "psst", "in/secret.png": "psst"})
	dir := folder(t, map[string]string{"a.md": lessonText("A", "![p](p.png) ![q](out/secret.png) ![r](inside.png)\n"), "real.png": "mine"})
	for name, to := range map[string]string{"b.md": filepath.Join(secret, "secret.md"), "p.png": filepath.Join(secret, "secret.png"), "out": filepath.Join(secret, "in"), "inside.png": "real.png"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip("this system makes no symbolic links")
		}
	}
	remarks, _, err := check(dir)
	require.NoError(t, err)
	got := said(dir, remarks)
	require.Len(t, got, 3, "%q", got)
	assert.Contains(t, got[0], `a.md:4:1: error: "p.png" lies outside the folder of lessons.`)
	assert.Contains(t, got[1], `a.md:4:13: error: "out/secret.png" lies outside the folder of lessons.`)
	assert.Contains(t, got[2], `b.md:1:1: error: This file lies outside the folder of lessons.`)
}

func TestUnreadableLesson(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n")})
	require.NoError(t, os.Mkdir(filepath.Join(dir, "gone.md"), 0o755)) // a folder: its lessons would be missed, it is none itself
	require.NoError(t, os.Symlink("nowhere.md", filepath.Join(dir, "lost.md")))
	remarks, _, err := check(dir)
	require.NoError(t, err)
	got := said(dir, remarks)
	require.Len(t, got, 1, "%q", got)
	assert.Contains(t, got[0], "lost.md:1:1: error: This is only a link, to a file that is not there.")
}

// A long course puts only the lessons around it on each page, so that the site
// grows with the lessons and not with their square.
func TestManyLessons(t *testing.T) {
	files := map[string]string{}
	for i := range 200 {
		files[string(rune('a'+i/26))+string(rune('a'+i%26))+".md"] = lessonText("L", "Go.\n")
	}
	site := made(t, files)
	item := regexp.MustCompile(`<li[ >]`)
	for name, page := range site {
		if strings.HasSuffix(name, ".html") && name != "index.html" {
			assert.LessOrEqual(t, len(item.FindAllString(page, -1)), 2*around+1, name)
		}
	}
	assert.Equal(t, 200, len(item.FindAllString(site["index.html"], -1)))
}

func TestNew(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "my lessons")
	code, out, err := readyhand("", "new", dir)
	require.Equal(t, done, code, err)
	assert.Contains(t, out, os.Args[0]+" serve '"+dir+"'", "as it was called, and as a shell reads it")
	remarks, lessons, problem := check(contentOf([]string{dir}))
	require.NoError(t, problem)
	assert.Empty(t, remarks)
	assert.Equal(t, 2, lessons)
	assert.FileExists(t, filepath.Join(dir, contentFolder, houseFile))
	house, problem := os.ReadFile(filepath.Join(dir, contentFolder, houseFile))
	require.NoError(t, problem)
	course, _ := engine.NewCourse(string(house))
	assert.Contains(t, course.String(), "house trill 2 1")
	assert.NotContains(t, course.String(), "cut", "two schools: nobody is made to follow one")
	course, faults := engine.NewCourse(strings.Replace(string(house), "# cut", "cut", 1))
	assert.Empty(t, faults)
	assert.Contains(t, course.String(), "house cut 1 2 or 2 3", "it says how to")
	site := filepath.Join(dir, ".site")
	code, _, err = readyhand("", "build", "-engine", fakeEngine(t), "-o", site, dir)
	assert.Equal(t, done, code, err)
	for _, page := range []string{"first-tune.html", "second-tune.html"} {
		assert.Contains(t, tree(t, site)[page], `class="ready"`)
	}

	before := tree(t, dir)
	code, _, err = readyhand("", "new", dir)
	assert.Equal(t, trouble, code)
	assert.Contains(t, err, "already")
	assert.Equal(t, before, tree(t, dir), "new writes over nothing")
}

// What the second lesson says can be said, the engine understands, and its tune
// shows what the words below it speak of.
func TestStarterSentences(t *testing.T) {
	text, err := starter.ReadFile("starter/second-tune.md")
	require.NoError(t, err)
	found := regexp.MustCompile("\\| `%%ready ([^`]+)` \\|").FindAllStringSubmatch(string(text), -1)
	require.Len(t, found, 12)
	for _, row := range found {
		message, _, ok := engine.Check(row[1])
		assert.True(t, ok || row[1] == "phrase", "%s: %s", row[1], message)
	}
	tune := fenced(t, string(text), "---\n\n", "abc")
	for _, sign := range []string{"{d}c", "!uppermordent!d", "!2!A", "%%ready offer cut@9"} {
		assert.Contains(t, tune, sign)
		assert.Contains(t, strings.Replace(string(text), tune, "", 1), "`"+sign+"`", "%s is spoken of too", sign)
	}
	a := engine.Read(tune).Answer()
	assert.Empty(t, a.Remarks)
	assert.Equal(t, 1, a.Hands[0].Plan.Events[4].Finger(a.Hands[0].Score.Events[4].Notes[0].String), "finger 2 on the fifth note")
	assert.Equal(t, "9.cut", a.Hands[0].Score.Gaps[8].Sites[0].ID(0))
}

// The commands that README.md gives a teacher, in their order, as they stand
// there.
func TestCommandsOfREADME(t *testing.T) {
	me, err := os.Executable()
	require.NoError(t, err)
	text, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	dir := folder(t, map[string]string{".bin/engine.wasm": "engine", ".bin/wasm_exec.js": "start", "tune.abc": fenced(t, string(text), "## One tune in", "abc")})
	require.NoError(t, os.Symlink(me, filepath.Join(dir, ".bin", "readyhand")))
	said := map[string]string{}
	for _, line := range regexp.MustCompile("(?m)^    (\\.bin/readyhand .+?)(?:  .*)?$").FindAllStringSubmatch(string(text), -1) {
		words := strings.Fields(line[1])
		c := exec.Command(filepath.Join(dir, words[0]), words[1:]...)
		c.Dir, c.Env = dir, append(os.Environ(), asCommand+"=1")
		out, err := c.CombinedOutput()
		require.NoError(t, err, "%s\n%s", line[1], out)
		said[words[1]] = string(out)
	}
	require.Len(t, said, 4, "new, check, build, plan")
	assert.Contains(t, said["check"], "2 lessons can be built.")
	assert.Contains(t, said["build"], "2 lessons.")
	assert.Equal(t, fenced(t, string(text), "## One tune in", "text"), said["plan"])
	site := tree(t, filepath.Join(dir, ".site"))
	assert.Contains(t, site, "first-tune.html")

	require.NoError(t, os.RemoveAll(filepath.Join(dir, "my-lessons", "content")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "my-lessons", "content"), 0o755))
	for _, content := range []string{"my-lessons", filepath.Join("my-lessons", "content")} {
		code, _, err := readyhand("", "build", "-engine", fakeEngine(t), "-o", filepath.Join(dir, ".site"), filepath.Join(dir, content))
		assert.Equal(t, trouble, code)
		assert.Contains(t, err, "content:1:1: error: There is no lesson in this folder. (Write one,")
		assert.Equal(t, site, tree(t, filepath.Join(dir, ".site")), "a site is never emptied")
	}
}

// A folder named is the lessons' own if there are any in it.
func TestContentOf(t *testing.T) {
	dir := folder(t, map[string]string{"outer/a.md": "", "outer/content/b.md": "", "inner/content/b.md": "", "inner/.a.md": "", "bare/a.txt": "", "file/content": ""})
	for named, want := range map[string]string{"outer": "outer", "inner": "inner/content", "bare": "bare", "file": "file", "none": "none"} {
		assert.Equal(t, filepath.Join(dir, want), contentOf([]string{filepath.Join(dir, named)}), named)
	}
	assert.Equal(t, "content", contentOf(nil))
}

// An index.md with a tune is a course of one page; without one it is none.
func TestOnlyAFrontPage(t *testing.T) {
	site := made(t, map[string]string{"index.md": lessonText("Alone", aTune)})
	assert.Contains(t, site["index.html"], `class="ready"`)
	assert.NotContains(t, site["index.html"], `class="contents"`, "there is no list of nothing")
	dir := folder(t, map[string]string{"index.md": lessonText("Alone", "Words.\n"), "more/b.md": lessonText("B", aTune)})
	remarks, _, err := check(dir)
	require.NoError(t, err)
	assert.True(t, anyErrors(remarks), "a warning about b.md is no lesson: %v", remarks)
}

// unindented leaves the lines of a text out that check shows under its remarks.
func unindented(said string) string {
	var kept strings.Builder
	for line := range strings.Lines(said) {
		if !strings.HasPrefix(line, "    ") {
			kept.WriteString(line)
		}
	}
	return kept.String()
}

// What build says is what check says, whatever is wrong, and nothing is written.
func TestBuildSaysWhatCheckSays(t *testing.T) {
	for why, files := range map[string]map[string]string{
		"two lessons with one address": {"Bad.md": lessonText("A", "[x](no.md)\n"), "bad.md": lessonText("B", "<b>\n")},
		"a file with a page's name":    {"a.md": lessonText("A", "[a](a.html) [x](no.md)\n"), "a.html": "mine"},
		"a lesson that is no text":     {"a.md": "\xff", "b.md": lessonText("B", "[x](no.md)\n")},
		"no lesson":                    {"more/a.md": lessonText("A", "")},
	} {
		dir, top := folder(t, files), t.TempDir()
		checked, said, _ := readyhand("", "check", dir)
		code, _, err := readyhand("", "build", "-engine", fakeEngine(t), "-o", filepath.Join(top, "site"), dir)
		assert.Equal(t, trouble, checked, why)
		assert.Equal(t, trouble, code, why)
		assert.Equal(t, unindented(said)+"readyhand: the site in "+filepath.Join(top, "site")+" is left as it was.\n", err, why)
		assert.Empty(t, names(t, top), why)
	}
	dir := folder(t, map[string]string{"a.md": lessonText("A", "[x](no.md)\n"+aTune)})
	_, said, _ := readyhand("", "check", dir)
	_, _, err := readyhand("", "build", "-engine", "none.wasm", "-o", filepath.Join(t.TempDir(), "site"), dir)
	assert.True(t, strings.HasPrefix(err, unindented(said)), "the remarks come with another error too: %s", err)
}
