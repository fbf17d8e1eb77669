package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const fourAndAChord = "X:1\nT:Up\nL:1/4\nQ:1/4=100\nK:C\nC D E F|[CEG]4|]\n"

// The player's own fingering is answered in JSON and in words; one that cannot be
// read is pointed at, and the command was not understood.
func TestPlanFingering(t *testing.T) {
	for _, row := range []struct {
		text     string
		playable bool
		extra    bool // it costs more
		reasons  int
	}{
		{"4 3 2 1 | 3+2+1", true, false, 0},
		{"4 3 2 1 | 4+3+2", true, true, 1},
		{"4 3 2 1 | 1+2+3", false, true, 1},
		{"3 3 2 1 | 3+2+1", false, true, 1},
		{"4 3 2 1 3+2+1", true, false, 0}, // no placing written, and the hand cannot stay: it is set as it comes
		{"? ? ? ? ?", true, false, 0},
	} {
		code, out, err := readyhand(fourAndAChord, "plan", "-json", "-", "-fingering", row.text)
		assert.Equal(t, done, code, err)
		var got planJSON
		require.NoError(t, json.Unmarshal([]byte(out), &got), row.text)
		require.NotNil(t, got.Check, row.text)
		assert.Equal(t, row.playable, got.Check.Playable, "%s: %v", row.text, got.Check.Reasons)
		assert.Equal(t, row.playable, got.Check.Extra != nil, row.text)
		if row.playable {
			assert.Equal(t, row.extra, *got.Check.Extra > 0, row.text)
		}
		assert.GreaterOrEqual(t, len(got.Check.Reasons), row.reasons, row.text)
		code, words, _ := readyhand(fourAndAChord, "plan", "-", "-fingering", row.text)
		assert.Equal(t, done, code)
		assert.Contains(t, words, "\nThis fingering can", row.text)
		for _, r := range got.Check.Reasons {
			assert.Contains(t, words, "\n"+r+"\n", row.text)
		}
	}
	for text, says := range map[string]string{
		"":                  "readyhand plan: -fingering, place 1: No finger is written here. ",
		"4 3 2":             "readyhand plan: -fingering, place 6: The fingering ends after 3 written notes and chords; the next is the F in bar 1,",
		"4 3 2 1 | 3+2+9":   "readyhand plan: -fingering, place 15: \"3+2+9\" is no finger for the chord on the C in bar 2. Write 3 fingers",
		"4 3 2 1 | 3+2+1 4": "readyhand plan: -fingering, place 17: Here is a finger too many",
		"4 ä 2 1 | 3+2+1":   "readyhand plan: -fingering, place 3: ",
	} {
		code, out, err := readyhand(fourAndAChord, "plan", "-json", "-", "-fingering", text)
		assert.Equal(t, notClear, code, text)
		assert.Empty(t, out, text)
		assert.Contains(t, err, says, text)
	}
	_, _, err := readyhand(fourAndAChord, "plan", "-", "-fingering", "4 x 2 1 | 3+2+1")
	assert.Contains(t, err, "\n  4 x 2 1 | 3+2+1\n    ^\n", "the place is shown")
	code, out, _ := readyhand("X:1\nK:C\n", "plan", "-json", "-", "-fingering", "1")
	assert.Equal(t, notClear, code, out)
	code, out, _ = readyhand("", "plan", "-json", "lost.abc", "-fingering", "1")
	assert.Equal(t, trouble, code)
	assert.NotContains(t, out, `"check"`)
}

// A tune with a finger on every note has its verdict without being asked; one with
// a note left open has none.
func TestPlanChecksWhatIsWritten(t *testing.T) {
	for tune, checked := range map[string]bool{
		"X:1\nL:1/4\nQ:1/4=100\nK:C\n!4!C !3!D !2!E !1!F|]\n":                      true,
		"X:1\nL:1/4\nQ:1/4=100\nK:C\n\"4\"C \"3\"D \"2\"E \"1\"F|]\n":              true,
		"X:1\nL:1/4\nQ:1/4=100\nK:C\n!4!C !3!D !2!E F|]\n":                         false,
		"X:1\nL:1/4\nQ:1/4=100\nK:C\n%%ready finger@1 4; finger@2 3\nC D|]\n":      true,
		"X:1\nL:1/4\nQ:1/4=100\nK:C\n%%ready set@3; stay@4\n!2!C !1!D !2!E !1!F|]": true,
	} {
		got := planned(t, tune)
		assert.Equal(t, checked, got.Check != nil, tune)
	}
	got := planned(t, "X:1\nL:1/4\nQ:1/4=100\nK:C\n%%ready stay@3\n!2!C !1!D !2!E !1!F|]\n")
	assert.False(t, got.Check.Playable, "the hand was asked to stay")
	assert.Contains(t, got.Check.Reasons[0], "2 on the E would lie above 1 on the D")
}
