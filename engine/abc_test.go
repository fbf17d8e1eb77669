package engine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

const stair = "X:1\nT:The Stair\nM:6/8\nL:1/8\nQ:3/8=80\n%%ready set@4;transpose D;stay@5\nK:C\n|: \"C\" E2G {d}c2 !2! e | \"Am\" A2c B3 :|\n"

// Printed as its own lines and the sentences ask; what is printed reads as what is
// played, and up and then down again is the tune as it was.
func TestABC(t *testing.T) {
	for _, row := range []struct {
		why       string
		sentences []string
		key, bars string
	}{
		{"as its own line asks", nil, "K:D major", `|: "D"^F2A {e}d2 !2!^f | "Bm"B2d ^c3 :|`},
		{"a sentence counts more", []string{"transpose 0"}, "K:C major", `|: "C"E2G {d}c2 !2!e | "Am"A2c B3 :|`},
		{"down", []string{"transpose -1"}, "K:Bb major", `|: "Bb"D2F {c}_B2 !2!d | "Gm"G2_B A3 :|`},
		{"a harp with other levers", []string{"tuning C", "transpose -1"}, "K:B major", `|: "B"^D2^F {^c}B2 !2!^d | "G#m"^G2B ^A3 :|`},
	} {
		text, remarks := engine.Read(stair).ABC(row.sentences...)
		assert.Empty(t, remarks, row.why)
		assert.Contains(t, text, row.key+"\n", row.why)
		_, music, _ := strings.Cut(text, row.key+"\n")
		assert.Equal(t, row.bars+"\n", music, row.why)

		again := engine.Read(text)
		require.Empty(t, again.Remarks, row.why)
		_, played := again.Notes()
		_, meant := engine.Read(stair).Answer(row.sentences...).Block.Notes()
		assert.Equal(t, meant, played, row.why)
		assert.Equal(t, row.key != "K:C major", strings.Contains(text, "%%ready set@4;stay@5\n"), "a line that moved the tune is not printed with it: %s", row.why)
	}
}

// A key that no lever gives is an error at the tune, which stays as it is.
func TestNoSuchKey(t *testing.T) {
	text, remarks := engine.Read(stair).ABC("transpose B")
	require.Len(t, remarks, 1)
	assert.Equal(t, "no-such-key", remarks[0].Kind)
	assert.Contains(t, text, "K:C major\n")
	a := engine.Read(stair).Answer("transpose B")
	require.NotEmpty(t, a.Remarks)
	assert.Equal(t, "no-such-key", a.Remarks[0].Kind)
}

// Which hand plays what: two voices are two hands whatever is said of the hand; a
// voice that one hand cannot play with the others is told of.
func TestHands(t *testing.T) {
	two := "X:1\nL:1/4\nK:C\nV:1 clef=treble\nV:2 clef=bass\n[V:1]c d|\n[V:2]C, D,|\n"
	a := engine.Read(two).Answer("hand left")
	require.Len(t, a.Hands, 2)
	assert.Equal(t, []string{"right", "left"}, []string{a.Hands[0].Rules.Hand.Name, a.Hands[1].Rules.Hand.Name})
	assert.Empty(t, a.Block.Remarks)
	markup := engine.Open([]string{two}, "", "").Markup(0)
	for _, part := range []string{"right hand", "left hand", `id="b1-2"`, `id="b1-3"`} {
		assert.Contains(t, markup, part, "the page shows both hands")
	}

	a = engine.Read("X:1\nL:1/4\nK:C\nV:1\nV:2\n[V:1]c d|\n[V:2]C D|\n").Answer()
	require.Len(t, a.Hands, 2)
	require.Len(t, a.Block.Remarks, 1)
	assert.Equal(t, "hand-guessed", a.Block.Remarks[0].Kind)

	a = engine.Read("X:1\nL:1/4\nK:C\nV:1 treble\nV:2 treble\nV:3 bass\n[V:1]|:c d:|\n[V:2]A B|\n[V:3]|:C, D,:|\n").Answer()
	require.Len(t, a.Hands, 2)
	var kinds []string
	for _, r := range a.Block.Remarks {
		kinds = append(kinds, r.Kind)
	}
	assert.Equal(t, []string{"voices-apart", "voice-left-out"}, kinds)
}
