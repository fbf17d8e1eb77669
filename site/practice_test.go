package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plan -chart needs no file; it heeds harp and hand, and the course a file lies in.
func TestPlanChart(t *testing.T) {
	code, out, err := readyhand("", "plan", "-chart")
	assert.Equal(t, done, code, err)
	assert.Empty(t, err)
	assert.Contains(t, out, "right hand, 34 strings from C2 in Eb\n")
	assert.Regexp(t, `\ncut \(\+1 0\)\n  the note with 1: [a-z ]+\n  the note with 2: finger kept\n    1 2 `, out)
	_, other, _ := readyhand("", "plan", "-chart", "-hand", "left", "-fingers", "123", "-strings", "26")
	assert.Contains(t, other, "left hand, 26 strings from C3 in Eb\n")
	assert.NotContains(t, other, "the note with 4")

	dir := folder(t, map[string]string{"house.txt": "cut 2 3\n", "a.md": lessonText("A", "Go.\n")})
	code, out, err = readyhand("", "plan", "-chart", "-json", filepath.Join(dir, "a.md"))
	assert.Equal(t, done, code, err)
	var got chartJSON
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, []int{60, 100, 140}, got.Tempos)
	cut := got.Chart[0]
	assert.Equal(t, "cut", cut.Ornament)
	assert.Equal(t, []int8{1, 0}, cut.Steps)
	assert.Equal(t, []string{"no time", "no time", "no time"}, cut.Starts[0].Readiness)
	usual := cut.Starts[2].Ways[0]
	assert.Equal(t, []int{2, 3}, usual.Fingers)
	assert.Equal(t, []int{4}, usual.Free, "the thumb is not free: it lies on the string above")
	assert.Equal(t, []haltJSON{{1, 1}}, usual.Stops)
	assert.True(t, usual.House)
	assert.False(t, cut.Starts[1].Ways[0].House)
	assert.Len(t, usual.Prices, 3)
	assert.Contains(t, usual.Known[0].Source, "two schools")
	assert.Contains(t, out, `"prices":[6,6,6]`)
	trill := got.Chart[11]
	require.Equal(t, "trill", trill.Ornament)
	assert.Nil(t, trill.Starts[1].Ways[0].Prices[2], "no time for it at 140")
	assert.Contains(t, out, "null]")
}

const practised = "X:1\nT:Under the thumb\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\n{e}dedc A4 | d{f}edc A4 | cdef gfed |]\n"

// plan -drills and -calls print what is to be practised, in words and as JSON; the
// same seed gives the same order.
func TestPlanPractice(t *testing.T) {
	code, out, err := readyhand(practised, "plan", "-drills", "-")
	assert.Equal(t, done, code, err)
	assert.Contains(t, out, "Under the thumb: exercises\nSlowly, a few times")
	assert.Contains(t, out, "the cut, for which 1 waits (right hand)")
	assert.Contains(t, out, "%%ready house cut 1 2\n")
	_, again, err := readyhand(out[strings.LastIndex(out, "X:1"):], "plan", "-")
	assert.Empty(t, err, "an exercise is a tune")
	assert.Contains(t, again, "1 waits on F")

	code, out, err = readyhand(practised, "plan", "-calls", "-seed", "3", "-bars", "3", "-turns", "4", "-ahead", "1", "-")
	assert.Equal(t, done, code, err)
	assert.Contains(t, out, "Late calls: bar 3, 4 turns, one beat before the note, order 3.\n")
	assert.Equal(t, 4, strings.Count(out, "\nturn "))
	_, same, _ := readyhand(practised, "plan", "-calls", "-seed", "3", "-bars", "3 3", "-turns", "4", "-ahead", "1", "-")
	assert.Equal(t, out, same)

	_, wide, _ := readyhand(practised, "plan", "-calls", "-called", "all", "-")
	assert.Contains(t, wide, "plain, or with what your hand can play")
	_, narrow, _ := readyhand(practised, "plan", "-calls", "-")
	assert.Contains(t, narrow, "plain, or with what of this tune's ornaments your hand can play")

	code, out, err = readyhand(practised, "plan", "-json", "-drills", "-calls", "-")
	assert.Equal(t, done, code, err)
	var got planJSON
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.NotNil(t, got.Drills)
	require.NotNil(t, got.Calls)
	assert.NotEmpty(t, *got.Drills)
	assert.Len(t, got.Calls.Calls, 16)
	assert.EqualValues(t, 500, got.Calls.BeatMS)
	assert.Equal(t, "tune", got.Calls.Called)
	_, plain, _ := readyhand(practised, "plan", "-json", "-")
	assert.NotContains(t, plain, `"drills"`)
	assert.NotContains(t, plain, `"calls"`)
}

// A block of a chart stands in a lesson like a tune, and is none of its tunes.
func TestChartInALesson(t *testing.T) {
	lesson := lessonText("A", "Go.\n\n```chart\ncut\n```\n\n"+aTune)
	site := made(t, map[string]string{"a.md": lesson})
	page := site["a.html"]
	assert.Contains(t, page, `<section class="ready" id="b1" data-sum="`)
	assert.Contains(t, page, `aria-label="Ornaments, finger by finger"`)
	assert.Contains(t, page, `<td class="fingers">1 2</td>`)
	assert.Contains(t, page, "<pre class=\"abc\">%%ready chart\ncut\n</pre>")
	assert.Contains(t, page, `id="b2-1"`, "the tune is the second block")

	file := filepath.Join(folder(t, map[string]string{"a.md": lesson}), "a.md")
	code, _, err := readyhand("", "plan", file)
	assert.Equal(t, done, code, err)
	code, _, err = readyhand("", "plan", "-tune", "2", file)
	assert.Equal(t, trouble, code)
	assert.Contains(t, err, "There is one tune in this lesson.")

	dir := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n\n```chart\nkut\nspacing 13\n```\n\n- so\n\n  ```chart\n  ```\n"), "b.md": lessonText("B", "```chart\n")})
	_, out, _ := readyhand("", "check", dir)
	assert.Contains(t, out, "a.md:7:1: error:")
	assert.Contains(t, out, "Write cut.")
	assert.Contains(t, out, "A chart inside a list or a quotation is only printed")
	assert.Contains(t, out, "This chart has no end.")
}
