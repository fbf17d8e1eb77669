package engine_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// TestPictures holds two whole pictures, so that a change to the drawing is seen
// as a change: one line of melody with ornaments in their states, and one of
// left-hand chords. What every picture must keep to is tested in draw.
func TestPictures(t *testing.T) {
	for name, abc := range map[string]string{
		"ornaments": "X:1\nT:Two bars\nM:4/4\nL:1/8\nQ:1/4=120\nK:D\n%%ready offer tap@7\n{e}dedc A4|d{f}edc A4|]\n",
		"chords":    "X:1\nT:Shapes\nM:4/4\nL:1/4\nQ:1/4=80\nK:C clef=bass\n[C,C]2 [C,G,C]2|[F,A,C]4|]\n",
	} {
		_, got, _ := strings.Cut(engine.Open([]string{abc}, "", "").Markup(0), `id="b1-line1">`)
		got, _, found := strings.Cut(got, "</svg>")
		require.True(t, found, name)
		got += "</svg>\n"
		path := "../testdata/pictures/" + name + ".svg"
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		}
		assert.Equal(t, file(t, path), got, name)
	}
}
