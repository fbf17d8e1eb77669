package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asCommand makes the test program behave as readyhand itself, so that a test
// can start it and stop it.
const asCommand = "READYHAND_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
	}
	if folders := filepath.SplitList(os.Getenv(bare)); len(folders) == 2 {
		if err := runBare(folders[0], folders[1]); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(trouble)
		}
		return
	}
	os.Exit(m.Run())
}

// folder writes files, by path, into a folder of its own.
func folder(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		set(t, dir, name, text)
	}
	return dir
}

// set writes one file.
func set(t testing.TB, dir, name, text string) {
	t.Helper()
	p := filepath.Join(dir, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(p), 0o755))
	require.NoError(t, os.WriteFile(p, []byte(text), 0o644))
}

// tree reads a folder back: path to text.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		files[filepath.ToSlash(rel)] = string(text)
		return err
	}))
	return files
}

// fakeEngine is an engine's file for tests that do not run it.
func fakeEngine(t testing.TB) string {
	t.Helper()
	return filepath.Join(folder(t, map[string]string{"engine.wasm": "\x00asm no engine at all", "wasm_exec.js": "// starts nothing\n"}), "engine.wasm")
}

// lessonText is a small lesson with a title.
func lessonText(title, body string) string { return "---\ntitle: " + title + "\n---\n" + body }

// made builds a course into a new folder and gives the site, by path.
func made(t testing.TB, files map[string]string) map[string]string {
	t.Helper()
	out := filepath.Join(t.TempDir(), "site")
	got, err := build(order{folder(t, files), out, fakeEngine(t), askEngine})
	require.NoError(t, err)
	require.False(t, anyErrors(got.remarks), "%v", got.remarks)
	return tree(t, out)
}

// readyhand runs the command as a person would, in this process.
func readyhand(in string, args ...string) (code int, out, err string) {
	var o, e bytes.Buffer
	code = run(args, streams{strings.NewReader(in), &o, &e})
	return code, o.String(), e.String()
}

func TestCommandsThatAreNotUnderstood(t *testing.T) {
	for _, args := range [][]string{
		{}, {"bake"}, {"build", "-x"}, {"build", "a", "b"}, {"check", "a", "b"}, {"serve", "-port", "high"},
		{"new"}, {"new", "a", "b"}, {"plan"}, {"plan", "a", "b"}, {"plan", "-do"}, {"plan", "-tune", "0", "x.md"},
	} {
		code, out, err := readyhand("", args...)
		assert.Equal(t, notClear, code, "readyhand %q", args)
		assert.Empty(t, out, "readyhand %q", args)
		assert.NotEmpty(t, err, "readyhand %q", args)
	}
}

// A note that the tune has not got is the fault of who asked for it on the command
// line, as a fingering that does not fit is; in the tune's own lines it is an error
// at its place.
func TestANoteThatIsNotThere(t *testing.T) {
	const tune = "X:1\nL:1/4\nK:C\nC D|\n"
	for _, args := range [][]string{{"plan", "-", "-do", "finger@99 2"}, {"plan", "-", "-do", "cut@99 on", "-json"}} {
		code, out, err := readyhand(tune, args...)
		assert.Equal(t, notClear, code)
		assert.Empty(t, out)
		assert.Equal(t, "readyhand plan: -do: There is no note 99 in this tune; what was said of it is dropped. Write a number from 1 to 2.\n", err)
	}
	code, out, err := readyhand("%%ready finger@99 2\n"+tune, "plan", "-")
	assert.Equal(t, trouble, code)
	assert.NotEmpty(t, out)
	assert.Contains(t, err, "standard input:1:9: error: There is no note 99")
}

// A command that is misspelt, and places that are not what they should be.
func TestWrongPlaces(t *testing.T) {
	dir := folder(t, map[string]string{"a/a.md": lessonText("A", "Go.\n"), "t.abc": "X:1\nK:C\nC|\n", "a/house.txt": ""})
	in := func(name string) string { return filepath.Join(dir, name) }
	for _, row := range []struct {
		code int
		says string
		args []string
	}{
		{notClear, "readyhand: There is no command \"chekc\". Write readyhand check.\n", []string{"chekc", in("a")}},
		{trouble, in("b") + ":1:1: error: There is no folder of this name. (Look how it is spelled, or start one: readyhand new " + in("b") + ".)\n", []string{"check", in("b")}},
		{trouble, in("b") + ":1:1: error: There is no folder of this name. (", []string{"build", in("b")}},
		{trouble, in("b") + ":1:1: error: There is no folder of this name. (", []string{"serve", in("b")}},
		{trouble, in("a/a.md") + ":1:1: error: This is a file, not a folder of lessons. (Name the folder it lies in.)\n", []string{"check", in("a/a.md")}},
		{trouble, "content:1:1: error: There is no folder of this name here. (Name the folder of your lessons, or start one: readyhand new my-lessons.)\n", []string{"check"}},
		{trouble, "readyhand: the site cannot take the place of " + in("t.abc") + ", which is a file; name a folder with -o\n", []string{"build", "-o", in("t.abc"), in("a")}},
		{trouble, "readyhand: the site cannot take the place of " + in("a") + ": the lessons are in it; name another folder with -o\n", []string{"build", "-o", in("a"), in("a")}},
		{trouble, "readyhand: the site cannot be made in " + in("t.abc/x/y") + " (", []string{"build", "-o", in("t.abc/x/y"), in("a")}},
		{trouble, "readyhand: " + in("t.abc") + " is a file; name a new folder\n", []string{"new", in("t.abc")}},
		{trouble, "readyhand: there are lessons in " + in("a") + " already; name a new folder\n", []string{"new", in("a")}},
		{trouble, "standard input:1:1: error: There is nothing in it. (Write a tune: X:1, K:C and, under them, the notes.)\n", []string{"plan", "-"}},
	} {
		code, out, err := readyhand("", row.args...)
		assert.Equal(t, row.code, code, "%q", row.args)
		assert.True(t, strings.HasPrefix(out+err, row.says), "%q: %s", row.args, out+err)
	}
}

// A setting with a wrong value is the fault of who called, not of a file: it is
// told without a place, and no tune is read.
func TestWrongValues(t *testing.T) {
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"plan", "-hand", "foo", "none.abc"}, "readyhand plan: -hand: A hand is right or left, not \"foo\". Write -hand right, or -hand left."},
		{[]string{"plan", "-tempo", "0", "none.abc"}, "readyhand plan: -tempo: A tempo is"},
		{[]string{"plan", "none.abc", "-spacing", "nan", "-json"}, "readyhand plan: -spacing: Strings lie 8 to 25"},
		{[]string{"plan", "-fingers", "19", "none.abc"}, "readyhand plan: -fingers: "},
		{[]string{"plan", "-strings", "1000", "none.abc"}, "readyhand plan: -strings: A harp here has 8 to 47 strings"},
		{[]string{"plan", "-strings", "47", "-lowest", "E4", "none.abc"}, "readyhand plan: So many strings from there"},
		{[]string{"plan", "-do", "frob", "none.abc"}, "readyhand plan: -do: \"frob\" is not"},
		{[]string{"plan", "none.abc", "-seed", "3"}, "readyhand plan: -seed is about late calls: write -calls with it."},
		{[]string{"plan", "none.abc", "-bars", "1 2", "-drills"}, "readyhand plan: -bars is about late calls: write -calls with it."},
		{[]string{"plan", "none.abc", "-calls", "-seed", "1000"}, "readyhand plan: -seed: An order of calls has a number from 1 to 999, not \"1000\". Write for instance -seed 7."},
		{[]string{"plan", "none.abc", "-abc", "-json"}, "readyhand plan: -abc prints something else: leave -json out, or ask for it by itself."},
		{[]string{"plan", "-chart", "-drills"}, "readyhand plan: -chart prints something else: leave -drills out, or ask for it by itself."},
		{[]string{"plan", "-notes", "-json", "-transpose", "D", "none.abc"}, "readyhand plan: -notes prints something else: leave -transpose out"},
		{[]string{"new", ""}, "readyhand new: One of the names is empty."},
		{[]string{"build", "-o", "", "a"}, "readyhand build: Something must follow -o."},
		{[]string{"serve", "-port", "70000"}, "readyhand serve: A port is a number from 0 to 65535"},
		{[]string{"plan", "-tune", "two", "none.abc"}, "readyhand plan: -tune: Write a whole number after it."},
		{[]string{"plan", "-loud", "none.abc"}, "readyhand plan: There is no setting -loud."},
		{[]string{"plan", "none.abc", "-do"}, "readyhand plan: Something must follow -do."},
		{[]string{"check", "a", "b"}, "readyhand check: \"b\" is one too many."},
	} {
		code, out, err := readyhand("", row.args...)
		assert.Equal(t, notClear, code, "%q", row.args)
		assert.Empty(t, out, "%q", row.args)
		assert.True(t, strings.HasPrefix(err, row.says), "%q: %s", row.args, err)
		assert.NotRegexp(t, `:\d+:\d+:`, err, "%q", row.args)
		assert.True(t, strings.HasSuffix(err, "\nreadyhand "+row.args[0]+" -h tells what it takes.\n"), "%q: %s", row.args, err)
	}
}

func TestHelp(t *testing.T) {
	code, out, _ := readyhand("", "help")
	assert.Equal(t, done, code)
	for _, c := range commands() {
		assert.Contains(t, out, "readyhand "+c.name)
		code, said, err := readyhand("", c.name, "-h")
		assert.Equal(t, done, code, c.name)
		assert.Empty(t, err, c.name)
		_, again, _ := readyhand("", "help", c.name)
		assert.Equal(t, said, again)
		assert.Contains(t, said, "readyhand "+c.name+" "+c.takes)
		assert.Contains(t, said, "    "+c.does)
		for _, w := range c.words {
			assert.Regexp(t, `(?m)^  `+w[0]+" +"+w[1], said, c.name)
			assert.Contains(t, c.takes, w[0])
		}
		assert.NotContains(t, said, "Usage of", c.name)
	}
	for _, words := range [][]string{{"help", "help"}, {"-h", "--help"}, {"help", "-h", "plan"}} {
		_, again, _ := readyhand("", words...)
		assert.Equal(t, out, again, "%q", words)
	}
}

// Settings may stand before, between and after the files, and -- ends them.
func TestSettingsAnywhere(t *testing.T) {
	for _, row := range []struct {
		args, files []string
		out         string
	}{
		{[]string{"-o", "x", "a"}, []string{"a"}, "x"},
		{[]string{"a", "-o", "x"}, []string{"a"}, "x"},
		{[]string{"a", "-o=x", "b"}, []string{"a", "b"}, "x"},
		{[]string{"-"}, []string{"-"}, ""},
		{[]string{"-o", "x", "--", "-a", "-o"}, []string{"-a", "-o"}, "x"},
	} {
		f := settings("test", streams{err: &bytes.Buffer{}})
		out := f.String("o", "", "")
		files, _, ok := parse(f, row.args, 2)
		assert.True(t, ok, "%q", row.args)
		assert.Equal(t, row.files, files, "%q", row.args)
		assert.Equal(t, row.out, *out, "%q", row.args)
	}
}
