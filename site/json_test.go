package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// fenced gives what stands in the first block of this language after a heading.
func fenced(t *testing.T, text, heading, language string) string {
	t.Helper()
	_, after, ok := strings.Cut(text, heading)
	require.True(t, ok, heading)
	_, after, ok = strings.Cut(after, "```"+language+"\n")
	require.True(t, ok, language)
	block, _, ok := strings.Cut(after, "```")
	require.True(t, ok)
	return block
}

// TestPlanJSON holds the filled example of DEVELOPERS.md.
func TestPlanJSON(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	b := engine.Read(fenced(t, string(text), "## plan -json", "abc"))
	var got bytes.Buffer
	require.NoError(t, writeJSON(&got, b.Answer(), func(at int32) (int, int) { return b.Text.Position(at) }))
	assert.JSONEq(t, fenced(t, string(text), "## plan -json", "json"), got.String())
}

// TestExactDecimals: a cost prints as the decimal it is, down to one 256th of a
// thousandth.
func TestExactDecimals(t *testing.T) {
	for cost, want := range map[charge]string{
		0: "0", 256000: "1", -256000: "-1", 128: "0.0005", 1: "0.00000390625", 256000*12 + 64000: "12.25", -64: "-0.00025",
	} {
		got, err := cost.MarshalJSON()
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
}
