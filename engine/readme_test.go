package engine_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// fenced gives the n-th block of a Markdown text that is fenced as this
// language, from 0.
func fenced(t *testing.T, text, language string, n int) string {
	t.Helper()
	for range n + 1 {
		_, after, ok := strings.Cut(text, "```"+language+"\n")
		require.True(t, ok, "no block %s", language)
		text = after
	}
	block, _, ok := strings.Cut(text, "```")
	require.True(t, ok)
	return block
}

// TestReadme: the tune in the README gives the answer in the README.
func TestReadme(t *testing.T) {
	text := file(t, "../README.md")
	a := engine.Read(fenced(t, text, "abc", 0)).Answer()
	assert.Equal(t, fenced(t, text, "text", 0), a.Text()+"\n"+a.Proof())
}
