package vary

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/choice"
	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/pitch"
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
	assert.Equal(t, "An octave down the whole tune fits: write %%ready transpose -7 in it, or choose a harp that has the strings.", remarks[0].Suggestion)
	assert.Equal(t, []int{1, 3}, s.Left, "each is left out")
}

// Where the whole tune fits an octave away, or two, that is said; where it does not,
// or it has been moved already, only the passage is spoken of. The usual harp goes from
// C2 to Ab6.
func TestAnOctaveAwayItFits(t *testing.T) {
	for _, row := range []struct {
		why, text  string
		low        bool // a harp of 22 strings from C3
		suggestion string
	}{
		{"one octave", "C4:1/4 C7:1/4", false, "An octave down the whole tune fits: write %%ready transpose -7 in it, or choose"},
		{"two", "C3:1/4 C1:1/4", true, "Two octaves up the whole tune fits: write %%ready transpose 14 in it, or choose"},
		{"then it is too low elsewhere", "C2:1/4 C7:1/4", false, "Write the passage an octave down, or choose"},
		{"or lacks a lever", "C4:1/4 Gb4:1/4 C7:1/4", false, "Write the passage an octave down, or choose"},
	} {
		on, ok := harp.New(34, pitch.Pitch{Octave: 2}, "Eb", 14500)
		if row.low {
			on, ok = harp.New(22, pitch.Pitch{Octave: 3}, "Eb", 14500)
		}
		require.True(t, ok)
		_, remarks := Score(written(t, row.text), 0, choice.Choice{}, on, hand.Usual("right"))
		found := false
		for _, r := range remarks {
			if r.Kind == "outside-harp" {
				found = true
				assert.True(t, strings.HasPrefix(r.Suggestion, row.suggestion), "%s: %s", row.why, r.Suggestion)
			}
		}
		assert.True(t, found, row.why)
	}
}

// Of chords that have to be rolled only the first is told, and the others are counted;
// what cannot be held even so may be played in two.
func TestRolledIsSaidOnce(t *testing.T) {
	_, remarks := usual(t, repeated(written(t, "C4+F5:1/4 C4+F5:1/4 C4+E4:1/4 D4+G5:1/4")), "")
	require.Equal(t, []string{"warning rolled @10"}, kinds(remarks))
	assert.Equal(t, "From C4 to F5 is wider than this hand opens. Roll it from the lowest note: the thumb comes to its string while the finger below it plays. 2 more chords are as wide for this hand.", remarks[0].Message)
	_, remarks = usual(t, written(t, "C4+F5:1/4 D4+G5:1/4"), "")
	assert.Contains(t, remarks[0].Message, " One more chord is as wide for this hand.")
	_, remarks = usual(t, written(t, "C4+F5:1/4"), "")
	assert.NotContains(t, remarks[0].Message, "more")

	for name, suggestion := range map[string]string{
		"right": "Play C4 first and then go to C6, written one after another; or give C4 to the other hand.",
		"left":  "Play C4 first and then go to C6, written one after another; or give C6 to the other hand.",
	} {
		_, remarks = Score(written(t, "C4+C6:1/4"), 0, choice.Choice{}, harp.Default(), hand.Usual(name))
		assert.Equal(t, suggestion, remarks[0].Suggestion)
	}
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
