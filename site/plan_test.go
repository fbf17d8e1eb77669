package main

import (
	"bytes"
	"encoding/json"
	"fmt"
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

// Where there is no tune, a line says why at its place, and so does JSON.
func TestPlanCannotRead(t *testing.T) {
	dir := folder(t, map[string]string{
		"a.abc": "X:1\nK:C\nC\n", "large.abc": strings.Repeat("C ", mostBytes),
		"wide.abc": "\xff\xfeX\x00:\x001\x00", "wide2.abc": "X\x00:\x001\x00\n\x00", "binary.abc": "\x7fELF\x02\x01\x00\xff",
		"none.md": lessonText("A", "Go.\n"), "open.md": lessonText("A", "```abc\nX:1\n"), "one.md": lessonText("A", aTune), "folder.abc/x": "",
		"bare.md": lessonText("A", "X:1\nK:G\nG\n"),
	})
	for _, row := range []struct {
		args []string
		says string
	}{
		{[]string{"lost.abc"}, "lost.abc:1:1: error: There is no file of this name. (Look"},
		{[]string{"wide.abc"}, "wide.abc:1:1: error: This file is in UTF-16"},
		{[]string{"wide2.abc"}, "wide2.abc:1:2: error: This is not plain text"},
		{[]string{"binary.abc"}, "binary.abc:1:7: error: This is not plain text"},
		{[]string{"folder.abc"}, "folder.abc:1:1: error: This is a folder, not a file. (Name"},
		{[]string{"large.abc"}, "large.abc:1:1: error: This file is too large: 1024 kB is the most. (Give"},
		{[]string{"a.abc", "-tune", "2"}, "a.abc:1:1: error: This is one tune, not a lesson of several. (Leave"},
		{[]string{"none.md"}, "none.md:1:1: error: There is no tune in this lesson. (Write"},
		{[]string{"one.md", "-tune", "2"}, "one.md:1:1: error: There is one tune in this lesson. (Leave"},
		{[]string{"open.md"}, "open.md:4:1: error: This tune has no end. (Write"},
		{[]string{"bare.md"}, "bare.md:4:1: warning: This looks like a tune, and"},
	} {
		args := append([]string{"plan", filepath.Join(dir, row.args[0])}, row.args[1:]...)
		code, out, err := readyhand("", args...)
		assert.Equal(t, trouble, code, "%q", row.args)
		assert.Empty(t, out, "%q", row.args)
		assert.True(t, strings.HasPrefix(err, filepath.Join(dir, row.says)), "%q: %s", row.args, err)

		code, out, again := readyhand("", append(args, "-json", "-strings", "27")...)
		assert.Equal(t, trouble, code, "%q", row.args)
		assert.Equal(t, err, again, "%q", row.args)
		var got planJSON
		require.NoError(t, json.Unmarshal([]byte(out), &got), "%q", row.args)
		assert.Contains(t, out, `"hands":[]`, "%q", row.args)
		assert.Equal(t, 27, got.Harp.Strings, "%q", row.args)
		r := got.Remarks[0]
		assert.Contains(t, err, fmt.Sprintf(":%d:%d: %s: %s", r.Line, r.Column, r.Severity, r.Message), "%q", row.args)
		assert.Len(t, got.Remarks, strings.Count(err, "\n"), "%q", row.args)
	}
	code, out, err := readyhand("\x00", "plan", "-json", "-")
	assert.Equal(t, trouble, code)
	assert.Contains(t, out, `"hands":[]`)
	assert.True(t, strings.HasPrefix(err, "standard input:1:1: error: "), err)
}

// Errors in a tune end with 1, and what can be planned is printed all the same.
func TestPlanEnds(t *testing.T) {
	const tune = "X:1\nT:So\nL:1/4\n%%ready sing@1\nK:C\nC E G c |]\n"
	code, out, err := readyhand(strings.Replace(tune, "%%ready sing@1\n", "", 1), "plan", "-")
	assert.Equal(t, done, code, err)
	assert.NotEmpty(t, out)
	assert.Empty(t, err)
	for _, form := range []string{"-json=false", "-json"} {
		code, out, err = readyhand(tune, "plan", "-", form)
		assert.Equal(t, trouble, code)
		assert.True(t, strings.HasPrefix(err, "standard input:4:9: error: "), err)
		assert.Contains(t, out, "C5")
	}
}

// plan -abc prints the tune alone, as strict ABC, moved if that is asked for; an
// error in it is trouble, and it is printed all the same.
func TestPlanABC(t *testing.T) {
	for _, row := range []struct {
		abc, want, said string
		args            []string
		code            int
	}{
		{"X:1\nT:A step\nK:G\nF G|\n", "X:1\nT:A step\nM:none\nL:1/8\nK:G major\n^F G |\n", "", nil, done},
		{"X:1\nT:A step\nK:G\nF G|\n", "X:1\nT:A step\nM:none\nL:1/8\nK:A major\n^G A |\n", "", []string{"-transpose", "A"}, done},
		{"X:1\nK:G\nF G|\n", "X:1\nM:none\nL:1/8\nK:G major\n^F G |\n", "do not give B major", []string{"-transpose", "B"}, trouble},
		{"X:1\nK:G\nF [G|\n", "X:1\nM:none\nL:1/8\nK:G major\n^F G |\n", "standard input:3:3: error: This chord is not closed.", nil, trouble},
	} {
		var out, said bytes.Buffer
		code := runPlan(append(row.args, "-abc", "-"), streams{in: strings.NewReader(row.abc), out: &out, err: &said})
		assert.Equal(t, row.code, code, "%q", row.abc)
		assert.Equal(t, row.want, out.String(), "%q", row.abc)
		assert.Contains(t, said.String(), row.said, "%q", row.abc)
	}
}
