package vary

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a harp lacks is said once for the tune, at the first note that wants it.
// The usual harp goes from C2 to Ab6.
func TestWhatIsLackingIsSaidOnce(t *testing.T) {
	for _, row := range []struct {
		why, text string
		remarks   []string
		message   string // of the first
	}{
		{"one note", "C4:1/4 C7:1/4", []string{"error outside-harp @20"}, "The note C7 lies above this harp, which goes from C2 to Ab6."},
		{"many notes, of any name", "C4:1/4 C7:1/4 D7:1/4 C4:1/4 C7:1/4", []string{"error outside-harp @20"},
			"3 notes lie above this harp, which goes from C2 to Ab6; the first is C7 in bar 1."},
		{"above and below are two things", "C7:1/4 C1:1/4 D7:1/4 D1:1/4 Eb1:1/4", []string{"error outside-harp @10", "error outside-harp @20"},
			"2 notes lie above this harp, which goes from C2 to Ab6; the first is C7 in bar 1."},
		{"grace notes are less", "{C7}C4:1/4 {D7}Eb4:1/4 C7:1/4", []string{"warning outside-harp @5", "error outside-harp @30"},
			"2 grace notes lie above this harp, which goes from C2 to Ab6; the first is C7 in bar 1."},
		{"each pitch that no lever gives", "A#4:1/4 Gb4:1/4 A#4:1/4", []string{"error no-lever @10", "error no-lever @20"},
			"No lever gives A#4: on this harp, tuned to Eb, that string sounds Ab4, or A4 with its lever up. 2 notes ask for it; the first is in bar 1."},
		{"in the lower octave it is another string", "A#4:1/4 A#3:1/4", []string{"error no-lever @10", "error no-lever @20"},
			"No lever gives A#4: on this harp, tuned to Eb, that string sounds Ab4, or A4 with its lever up."},
	} {
		_, remarks := usual(t, written(t, row.text), "")
		assert.Equal(t, row.remarks, kinds(remarks), row.why)
		assert.Equal(t, row.message, remarks[0].Message, row.why)
	}

	tn := repeated(written(t, "C7:1/4 C4:1/4 D7:1/4"))
	tn.Voices[0].Events[0].Bar = 0
	s, remarks := usual(t, tn, "")
	require.Equal(t, []string{"error outside-harp @10"}, kinds(remarks), "on two passes they are the same notes")
	assert.Equal(t, "2 notes lie above this harp, which goes from C2 to Ab6; the first is C7 in the pickup.", remarks[0].Message)
	assert.Equal(t, "Write the passage an octave down, or choose a harp that has the strings.", remarks[0].Suggestion)
	assert.Equal(t, []int{1, 3}, s.Left, "each is left out")
}

// A note that the reader of the tune refused is left out without another word.
func TestBeyondEveryHarp(t *testing.T) {
	tn := written(t, "{C9}C4:1/4 C9:1/4 D4:1/4")
	tn.Voices[0].Events[0].Graces[0].Beyond = true
	tn.Voices[0].Events[1].Notes[0].Beyond = true
	s, remarks := usual(t, tn, "strings 28;lowest C6") // to B9, where names end
	assert.Equal(t, []int{2}, s.Left)
	assert.Empty(t, remarks)
}

// Why a note that was spoken of is not struck.
func TestNotStruck(t *testing.T) {
	for _, row := range []struct{ why, text, said, message, suggestion string }{
		{"out of the hand", "C4+C6:1/4", "finger@1 4", "left out of its chord", "another note of the chord"},
		{"tied", "C4:1/4 C4_:1/4", "finger@2 1", "tied to the one before it", "for the note before it"},
		{"twice on one string", "C4+C4:1/4", "finger@2 1", "never struck by itself", "a note that is struck"},
	} {
		_, remarks := usual(t, written(t, row.text), row.said)
		found := 0
		for _, r := range remarks {
			if r.Kind == "note-not-struck" {
				found++
				assert.Contains(t, r.Message, row.message, row.why)
				assert.Contains(t, r.Suggestion, row.suggestion, row.why)
			}
		}
		assert.Equal(t, 1, found, row.why)
	}
}
