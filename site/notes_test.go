package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Written order has each bar once, played order the repeats and endings; ties are
// joined, graces and ornaments left out, voices come one after the other.
func TestNotes(t *testing.T) {
	const tune = "X:1\nL:1/4\nM:3/4\nK:G\n|: {g}!trill!F2- F |1 [Bd]3 :|2 z (3GGG z |]\n"
	code, out, err := readyhand(tune, "plan", "-notes", "-json", "-")
	assert.Equal(t, done, code)
	assert.Empty(t, err)
	assert.Equal(t, `{"written":[[0,1,3,4,66],[3,4,3,4,71],[3,4,3,4,74],[7,4,1,6,67],[23,12,1,6,67],[25,12,1,6,67]],`+
		`"played":[[0,1,3,4,66],[3,4,3,4,71],[3,4,3,4,74],[3,2,3,4,66],[5,2,1,6,67],[8,3,1,6,67],[17,6,1,6,67]]}`+"\n", out)

	code, out, _ = readyhand("X:1\nL:1/4\nK:C\nV:1\nc d\nV:2\nC D\n", "plan", "-json", "-notes", "-")
	assert.Equal(t, done, code)
	assert.Equal(t, `{"written":[[0,1,1,4,72],[1,4,1,4,74],[0,1,1,4,60],[1,4,1,4,62]],"played":[[0,1,1,4,72],[1,4,1,4,74],[0,1,1,4,60],[1,4,1,4,62]]}`+"\n", out)
}

// Wherever there are notes it is done, whatever else is wrong; where there are
// none it says why.
func TestNotesEnds(t *testing.T) {
	dir := t.TempDir()
	for _, row := range []struct {
		file, text, out, err string
		code                 int
	}{
		{"wrong.abc", "X:1\nL:1/4\nK:\xc9\n!9!C !wobble! ]\n", `{"written":[[0,1,1,4,60]],"played":[[0,1,1,4,60]]}`, "", done},
		{"none.abc", "X:1\nT:Nothing\nK:C\n", `{"written":[],"played":[]}`, "none.abc:1:1: error: ", trouble},
		{"zero.abc", "X:1\nK:C\nC\x00\n", `{"written":[],"played":[]}`, "zero.abc:3:2: error: ", trouble},
		{"lesson.md", lessonText("A", "```abc\nX:1\nL:1/4\nK:C\nC\n```\n"), `{"written":[[0,1,1,4,60]],"played":[[0,1,1,4,60]]}`, "", done},
	} {
		file := filepath.Join(dir, row.file)
		require.NoError(t, os.WriteFile(file, []byte(row.text), 0o600))
		code, out, err := readyhand("", "plan", "-notes", "-json", file)
		assert.Equal(t, row.code, code, row.file)
		assert.Equal(t, row.out+"\n", out, row.file)
		if row.err == "" {
			assert.Empty(t, err, row.file)
		} else {
			assert.Contains(t, err, filepath.Join(dir, row.err), row.file)
		}
	}
	code, out, err := readyhand("X:1\nK:C\nC\n", "plan", "-notes", "-")
	assert.Equal(t, notClear, code)
	assert.Empty(t, out)
	assert.Contains(t, err, "-json")
}

// Letters of Latin-1 are read as such, between letters of UTF-8 too.
func TestOldLetters(t *testing.T) {
	for _, row := range [][2]string{
		{"T:Caf\xe9", "T:Café"}, {"T:\xc4 \xc3\xa4\xff", "T:Ä äÿ"}, {"T:Café", "T:Café"}, {"", ""}, {"\xe9\x00", "\xe9\x00"}, {"\xe9", "é"},
	} {
		assert.Equal(t, row[1], string(oldLetters([]byte(row[0]))))
	}
	_, out, err := readyhand("X:1\nT:Caf\xe9\nK:C\nC !wobbl\xe9!D\n", "plan", "-")
	assert.Contains(t, out, "Café")
	assert.Contains(t, err, "standard input:4:3: ")
}
