package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// A tune of ours: a cut that the thumb would make, going down.
const downTune = "X:1\nT:Down the Back Stairs\nM:3/4\nL:1/4\nQ:1/4=100\nK:C\n{d}c B A | G3 |]\n"

// A course's house fingerings are followed on its pages, which carry them, and
// only them, to the engine in the browser; and a change of them alone is another
// site.
func TestHouseOnPages(t *testing.T) {
	files := map[string]string{"a.md": lessonText("A", "```abc\n"+downTune+"```\n"), "b.md": lessonText("B", "Go.\n"),
		houseFile: "# mine\ncut 2 3\n0 +4 +7 4 2 1\n"}
	site := made(t, files)
	course, _ := engine.NewCourse(files[houseFile])
	page := course.Open([]string{downTune}, "", "")
	assert.Contains(t, site["a.html"], page.Markup(0))
	assert.NotContains(t, site["a.html"], engine.Open([]string{downTune}, "", "").Markup(0))
	assert.Contains(t, site["a.html"], "<body data-house=\"house cut 2 3\nhouse 0 +4 +7 4 2 1\">")
	assert.NotContains(t, site["b.html"], "data-house", "no tune, no engine")
	for name := range site {
		assert.NotContains(t, name, "house")
	}
	delete(files, houseFile)
	assert.NotContains(t, made(t, files)["a.html"], "data-house")
}

// Plan follows the house fingerings that lie beside the file, and tells them.
func TestPlanFollowsTheHouse(t *testing.T) {
	dir := folder(t, map[string]string{"a.abc": downTune, "a.md": lessonText("A", "```abc\n"+downTune+"```\n"), houseFile: "cut 2 3\n"})
	for _, name := range []string{"a.abc", "a.md"} {
		code, out, err := readyhand("", "plan", "-json", filepath.Join(dir, name))
		require.Equal(t, done, code, err)
		var got planJSON
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.Len(t, got.Hands[0].House, 1)
		assert.Equal(t, "1.cut", got.Hands[0].House[0].At)
		assert.Equal(t, "2 3", got.Hands[0].House[0].Fingers)
		assert.True(t, got.Hands[0].House[0].Followed)
		assert.Positive(t, *got.Hands[0].House[0].Extra)
		assert.Equal(t, 3, *got.Hands[0].Notes[1].Finger)
	}

	code, out, err := readyhand("", "plan", "-json", "-fingers", "12", filepath.Join(dir, "a.abc"))
	require.Equal(t, done, code, err)
	assert.Contains(t, out, `"house":[{"at":"1.cut","fingers":"2 3","extra":null,"followed":false}]`)
	assert.Contains(t, err, "a.abc:7:2: note: The cut here has other fingers than usual, not 2 3")

	_, out, _ = readyhand(downTune, "plan", "-json", "-")
	assert.Contains(t, out, `"house":[]`)
	code, _, err = readyhand("", "plan", filepath.Join(folder(t, map[string]string{"a.abc": downTune, houseFile: "cut 1\n"}), "a.abc"))
	assert.Equal(t, trouble, code)
	assert.True(t, strings.Contains(err, "house.txt:1:1: error: The cut has 2 strokes"), err)

	code, out, err = readyhand(strings.Replace(downTune, "K:C", "%%ready house cut 1 2\nK:C", 1), "plan", "-do", "house cut 2 3", "-")
	assert.Equal(t, done, code, err)
	assert.Contains(t, out, "your usual 2 3 takes", "what is said on the command line counts most")
}
