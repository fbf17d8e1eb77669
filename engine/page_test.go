package engine_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// file reads a file of the repository.
func file(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(text)
}

const falling = "X:1\nT:A falling figure\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\n%%ready offer upper-mordent@3\n{e}dedc A4|]\n"

// TestEveryNameIsThereOnce: on a whole page, with exercises, late calls and a note asked
// about, every id is there once, and every label is a field's.
func TestEveryNameIsThereOnce(t *testing.T) {
	id, label := regexp.MustCompile(` id="([^"]*)"`), regexp.MustCompile(` for="([^"]*)"`)
	for _, address := range []string{"", "why@b1-3", "why@b2-1;cut@b2-2+on"} {
		p := engine.Open([]string{walking, falling, engine.ChartLine + "\ncut\n"}, address, "")
		page := p.Markup(0) + p.Markup(1) + p.Markup(2)
		seen := map[string]bool{}
		for _, found := range id.FindAllStringSubmatch(page, -1) {
			assert.False(t, seen[found[1]], "%s stands twice", found[1])
			seen[found[1]] = true
		}
		for _, found := range label.FindAllStringSubmatch(page, -1) {
			assert.Contains(t, page, `<select id="`+found[1]+`"`, "a label of nothing")
		}
		assert.Contains(t, page, `id="b1-bars"`, "no late calls, so this test is blind")
	}
}

// TestDo holds what a page promises of its commands: only what differs is
// drawn again, off and on changes nothing, and undo goes all the way back.
func TestDo(t *testing.T) {
	p := engine.Open([]string{falling, falling}, "", "")
	first, second := p.Markup(0), p.Markup(1)

	off, c := p.Do("cut@b1-1 off")
	assert.Contains(t, c.Says, "Nothing moves.")
	assert.Equal(t, "cut@b1-1+off", c.Address)
	require.NotEmpty(t, c.Parts)
	for _, part := range c.Parts {
		assert.True(t, strings.HasPrefix(part.ID, "b1-"), "%s: the other block is not touched", part.ID)
	}
	assert.Equal(t, second, off.Markup(1))
	assert.NotEqual(t, first, off.Markup(0))

	on, _ := off.Do("cut@b1-1 on")
	assert.Equal(t, first, on.Markup(0), "off and on again is as before")
	back, c := on.Do("undo")
	assert.Equal(t, off.Markup(0), back.Markup(0))
	back, c = back.Do("undo")
	assert.Equal(t, first, back.Markup(0))
	assert.Empty(t, c.Address)
	_, c = back.Do("undo")
	assert.Equal(t, "There is nothing to take back.", c.Says)

	_, c = off.Do("cut@b2-1 off")
	assert.Contains(t, c.Parts, engine.Part{ID: "b1-says"}, "what was said in the other tune is over")
	assert.Equal(t, "b2-says", c.Parts[len(c.Parts)-1].ID)

	_, c = p.Do("cot@b1-1 off")
	assert.Contains(t, c.Says, "cut", "a wrong word is answered with the nearest one")
}

// TestAddress: an address opens the page as it was left, and one that is
// damaged loses only what cannot be read.
func TestAddress(t *testing.T) {
	p := engine.Open([]string{falling}, "", "")
	p, _ = p.Do("cut@b1-1 off")
	p, c := p.Do("finger@b1-4 4")
	again := engine.Open([]string{falling}, c.Address, "")
	assert.Equal(t, p.Markup(0), again.Markup(0))

	damaged := engine.Open([]string{falling}, "cut@b1-1+off;zzz@;finger@b1-4+4", "")
	assert.Equal(t, "4", fingerOf(damaged.Answer(0), 4))
	assert.NotEqual(t, again.Markup(0), damaged.Markup(0), "what was dropped is said")
	assert.Contains(t, damaged.Markup(0), "could not be read")
}

func fingerOf(a engine.Answer, written int) string {
	for i, e := range a.Hands[0].Score.Events {
		for _, n := range e.Notes {
			if n.Written == written {
				return string(rune('1' + a.Hands[0].Plan.Events[i].Finger(n.String)))
			}
		}
	}
	return "?"
}

// TestHarpIsKept: the reader's harp is kept for other lessons; an address that
// brings another one does not overwrite it.
func TestHarpIsKept(t *testing.T) {
	p := engine.Open([]string{falling}, "", "")
	p, c := p.Do("tuning C")
	assert.Equal(t, "tuning C", c.Keep)
	visitor := engine.Open([]string{falling}, "tuning+F", c.Keep)
	assert.Equal(t, "F", visitor.Answer(0).Harp.Tuning)
	_, c = visitor.Do("cut@b1-1 off")
	assert.Equal(t, "tuning C", c.Keep)
	same := engine.Open([]string{falling}, "", c.Keep)
	assert.Equal(t, "C", same.Answer(0).Harp.Tuning)
	_ = p
}

// TestWhy explains a finger, and closing it gives the keyboard back to the note.
func TestWhy(t *testing.T) {
	p := engine.Open([]string{falling}, "", "")
	p, c := p.Do("why@b1-4")
	assert.Contains(t, c.Says, "C")
	_, c = p.Do("why off")
	assert.Equal(t, "b1-4", c.Focus)
}
