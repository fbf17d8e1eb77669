package main

import (
	"bytes"
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

func TestHelp(t *testing.T) {
	code, out, _ := readyhand("", "help")
	assert.Equal(t, done, code)
	for _, c := range commands() {
		assert.Contains(t, out, "readyhand "+c.name)
		code, _, said := readyhand("", c.name, "-h")
		assert.Equal(t, done, code, c.name)
		assert.Contains(t, said, "readyhand "+c.name)
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
