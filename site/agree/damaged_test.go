package agree_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/read"
	"readyhand/engine/source"
)

// slips are what a slip of the hand puts into a tune.
var slips = []string{"|", ":", "|:", ":|", "||", "[", "]", "(", ")", "{", "}", "!", `"`, "-", "<", ">", ".", "^", "_", "/", "2", "Z9",
	"&", "\\", "%", "\n", ",", "'", "+", "|1", ":|2", "[1,3", "(3", "[K:G]", "[M:3/4]", "[L:1/4]", "[V:2]", "\nP:A\n", "\nV:x\n", "\xff", "\x00", "999999999"}

// Ten thousand damaged tunes: none stops the door for comparisons, and what comes
// through it are notes.
func TestDamaged(t *testing.T) {
	chance := rand.New(rand.NewPCG(6, 6))
	all := tunes()
	heard := 0
	for range 10_000 {
		text := all[chance.IntN(len(all))].abc
		for range 1 + chance.IntN(4) {
			at := chance.IntN(len(text))
			text = text[:at] + slips[chance.IntN(len(slips))] + text[at+chance.IntN(2):]
		}
		tune, _ := read.Tune(source.NewText(text))
		written, played := tune.Notes()
		if len(written) > 0 {
			heard++
		}
		for _, n := range append(written, played...) {
			if n.Onset.N < 0 || n.Onset.D <= 0 || n.Length.N <= 0 || n.Length.D <= 0 || n.Midi < 0 || n.Midi > 127 {
				require.Fail(t, "not a note", "%v in %q", n, text)
			}
		}
	}
	assert.Greater(t, heard, 9_500, "most of them still are tunes")
}
