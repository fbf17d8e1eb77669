package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each setting is a sentence, and they are said in the order they were written,
// before or after the file.
func TestPlanSettings(t *testing.T) {
	dir := folder(t, map[string]string{"a.abc": "X:1\nK:C\nC\n"})
	file := filepath.Join(dir, "a.abc")
	for _, row := range []struct {
		args []string
		want []string
		json bool
	}{
		{[]string{file}, nil, false},
		{[]string{"-json", file}, nil, true},
		{[]string{file, "-json"}, nil, true},
		{[]string{"-strings", "34", "-lowest", "C2", "-tuning", "Eb", "-spacing", "14.5", file, "-hand", "left", "-reach", "1.0", "-fingers", "123", "-tempo", "120"},
			[]string{"strings 34", "lowest C2", "tuning Eb", "spacing 14.5", "hand left", "reach 1.0", "fingers 123", "tempo 120"}, false},
		{[]string{"-do", "cut@12 off", "-tempo=3/8=80", file, "-do", "finger@3 2", "-tempo", "90"},
			[]string{"cut@12 off", "tempo 3/8=80", "finger@3 2", "tempo 90"}, false},
	} {
		a, _, ok := readPlan(row.args, streams{err: &bytes.Buffer{}})
		require.True(t, ok, "%q", row.args)
		assert.Equal(t, row.want, a.sentences, "%q", row.args)
		assert.Equal(t, row.json, a.json, "%q", row.args)
		assert.Equal(t, "X:1\nK:C\nC\n", a.block.text, "%q", row.args)
	}
}

// A tune comes from a file, from a lesson, or from the standard input, and its
// places are those of where it came from.
func TestPlanReads(t *testing.T) {
	lesson := lessonText("A", "Go.\n\n```abc\nX:1\nK:C\nC\n```\n\n```abc\nX:2\nK:G\nD\n```\n")
	dir := folder(t, map[string]string{"a.abc": "X:1\nK:C\nC\n", "a.md": lesson})
	for _, row := range []struct {
		args         []string
		file, text   string
		line, column int // of byte 8
	}{
		{[]string{"-"}, "standard input", "X:3\nK:D\nE\n", 3, 1},
		{[]string{filepath.Join(dir, "a.abc")}, filepath.Join(dir, "a.abc"), "X:1\nK:C\nC\n", 3, 1},
		{[]string{filepath.Join(dir, "a.md")}, filepath.Join(dir, "a.md"), "X:1\nK:C\nC\n", 9, 1},
		{[]string{filepath.Join(dir, "a.md"), "-tune", "2"}, filepath.Join(dir, "a.md"), "X:2\nK:G\nD\n", 15, 1},
	} {
		a, _, ok := readPlan(row.args, streams{in: strings.NewReader("X:3\nK:D\nE\n"), err: &bytes.Buffer{}})
		require.True(t, ok, "%q", row.args)
		assert.Equal(t, row.file, a.file, "%q", row.args)
		assert.Equal(t, row.text, a.block.text, "%q", row.args)
		line, column := a.place(8)
		assert.Equal(t, []int{row.line, row.column}, []int{line, column}, "%q", row.args)
	}
}

func TestPlanCannotRead(t *testing.T) {
	dir := folder(t, map[string]string{
		"a.abc": "X:1\nK:C\nC\n", "bad.abc": "X:1\n\xff", "large.abc": strings.Repeat("C ", mostBytes),
		"none.md": lessonText("A", "Go.\n"), "open.md": lessonText("A", "```abc\nX:1\n"), "one.md": lessonText("A", aTune),
	})
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"lost.abc"}, "lost.abc cannot be read"},
		{[]string{"bad.abc"}, "bad.abc:2:1: error: This letter cannot be read"},
		{[]string{"large.abc"}, "larger than 1024 kB"},
		{[]string{"a.abc", "-tune", "2"}, "is one tune"},
		{[]string{"none.md"}, "none.md has 0 tunes"},
		{[]string{"one.md", "-tune", "2"}, "one.md has 1 tune;"},
		{[]string{"open.md"}, "open.md:4:1: error: This tune has no end."},
	} {
		args := append([]string{"plan", filepath.Join(dir, row.args[0])}, row.args[1:]...)
		code, out, err := readyhand("", args...)
		assert.Equal(t, trouble, code, "%q", row.args)
		assert.Empty(t, out, "%q", row.args)
		assert.Contains(t, err, row.says, "%q", row.args)
	}
}

// Errors in a tune end with 1, and what can be planned is printed all the same.
func TestPlanEnds(t *testing.T) {
	const tune = "X:1\nT:So\nL:1/4\nK:C\nC E G c |]\n"
	code, out, err := readyhand(tune, "plan", "-")
	assert.Equal(t, done, code, err)
	assert.NotEmpty(t, out)
	code, out, err = readyhand(tune, "plan", "-", "-do", "sing@1")
	assert.Equal(t, trouble, code)
	assert.Contains(t, err, "error:")
	assert.NotEmpty(t, out)
}
