package read

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/source"
)

var update = flag.Bool("update", false, "write the complaints of today under their lines; read them before you keep them")

const complaints = "../../testdata/complaints"

// A complaint file holds pieces of bad ABC with --- between them. What the
// reader has to say stands under the line it is about:
//
//	C !roal!D|
//	%? 3 warning unknown-decoration: There is no sign called "roal"; it is left out. -> Write !roll!.
//
// the number is the column, counted from 1. Here is only what reading itself remarks:
// what a harp, a hand or a choice makes of a tune has no complaint files, since it
// depends on them; engine/vary's tests, engine/abc_test.go and the stories have it
// ("hand-guessed", "voice-left-out", "no-such-key").
func TestComplaints(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(complaints, "*.abc"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	heard := map[string]bool{}
	for _, file := range files {
		bytes, err := os.ReadFile(file)
		require.NoError(t, err)
		var today []string
		for piece := range strings.SplitSeq(string(bytes), "---\n") {
			title, _, _ := strings.Cut(piece, "\n")
			require.True(t, strings.HasPrefix(title, "% "), "%s: a piece starts with a comment that says what it shows, not %q", file, title)
			text := source.NewText(withoutComplaints(piece))
			_, remarks := Tune(text)
			assert.NotEmpty(t, remarks, "%s: %s: nothing is complained of", file, title)
			for _, remark := range remarks {
				heard[remark.Kind] = true
			}
			today = append(today, withComplaints(text, remarks))
			if !*update {
				assert.Equal(t, piece, today[len(today)-1], "%s: %s", file, title)
			}
		}
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(strings.Join(today, "---\n")), 0o644))
		}
	}
	for kind := range longKinds() {
		heard[kind] = true // TestLongTexts hears them
	}
	for _, row := range kindRows {
		assert.True(t, heard[row.name], "no complaint file has a remark of the kind %q", row.name)
	}
}

func withoutComplaints(piece string) string {
	var kept []string
	for line := range strings.Lines(piece) {
		if !strings.HasPrefix(line, "%? ") {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "")
}

func withComplaints(text source.Text, remarks []source.Remark) string {
	var b strings.Builder
	for n := 1; n < text.Lines(); n++ {
		b.WriteString(text.Line(n) + "\n")
		for _, r := range remarks {
			if line, column := text.Position(r.From); line == n {
				b.WriteString("%? " + strconv.Itoa(column) + " " + r.Severity.String() + " " + r.Kind + ": " + r.Message + " -> " + r.Suggestion + "\n")
			}
		}
	}
	return b.String()
}

// longKinds are texts too long for a file, by the kind of remark they bring.
func longKinds() map[string]string {
	return map[string]string{
		"too-many-notes":    "X:1\nK:C\n" + strings.Repeat("CDEF GABc|\n", 1251),
		"too-many-remarks":  "X:1\nK:C\n" + strings.Repeat("C ; D J 2E [] F- z (G !roal!H ^ ~|\n", 9),
		"too-many-settings": "X:1\nK:C\n" + strings.Repeat("%%ready stay@1\n", mostSettings+1) + "C|\n",
		"too-many-voices":   "X:1\nK:C\nC" + strings.Repeat("&C", 40) + "|\n",
		"played-too-long":   "X:1\nK:C\n|:" + strings.Repeat("CDEF GABc|", 100) + "|1-32 C:|",
	}
}

func TestLongTexts(t *testing.T) {
	for kind, abc := range longKinds() {
		t.Run(kind, func(t *testing.T) {
			text := source.NewText(abc)
			tune, remarks := Tune(text)
			at := -1
			for i, remark := range remarks {
				if remark.Kind == kind {
					at = i
				}
			}
			require.GreaterOrEqual(t, at, 0, "no remark of this kind")
			assert.LessOrEqual(t, len(remarks), mostRemarks+1)
			assert.LessOrEqual(t, len(tune.Voices[0].Events), mostNotes)
			assert.LessOrEqual(t, len(tune.Voices[0].Played), mostPlayed)
			if kind == "too-many-notes" {
				line, column := text.Position(remarks[at].From)
				assert.Equal(t, []int{1253, 1}, []int{line, column}, "the place of note 10,001")
			}
		})
	}
}
