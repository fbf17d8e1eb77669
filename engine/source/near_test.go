package source

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Levenshtein 1966: the fewest letters added, dropped or changed; Damerau 1964: or two
// that changed places.
func TestDistance(t *testing.T) {
	rows := []struct {
		a, b string
		want int
	}{{"roll", "roll", 0}, {"roal", "roll", 1}, {"rol", "roll", 1}, {"trilll", "trill", 1}, {"", "cut", 3}, {"kitten", "sitting", 3}, {"rlol", "roll", 1}, {"acb", "abc", 1}, {"ca", "abc", 3}}
	for _, row := range rows {
		assert.Equal(t, row.want, distance(row.a, row.b), "%q to %q", row.a, row.b)
	}
}

func TestNear(t *testing.T) {
	known := []string{"cut", "tap", "turn", "turn-after", "roll", "Trill", "p"}
	rows := []struct{ word, want, why string }{
		{"cut", "cut", "the word itself"},
		{"cutt", "cut", "a letter too many"},
		{"TRIL", "Trill", "capitals aside, and given as it is known"},
		{"rlol", "roll", "two letters changed round"},
		{"turn-aftre", "turn-after", "a third of a long word"},
		{"tur", "turn", "one letter of three"},
		{"xyp", "", "but not two of three"},
		{"ctu", "cut", "two letters of three changed round"},
		{"x", "", "one letter is like nothing"},
		{"", "", "nor is none"},
		{"xylophone", "", "nothing like it"},
		{strings.Repeat("turn", 20), "", "far too long"},
	}
	for _, row := range rows {
		got, ok := Near(row.word, known)
		assert.Equal(t, row.want, got, "%q: %s", row.word, row.why)
		assert.Equal(t, row.want != "", ok, "%q: %s", row.word, row.why)
	}
	got, _ := Near("tan", []string{"tap", "tab"})
	assert.Equal(t, "tap", got, "of two as near the first")
}

func TestQuote(t *testing.T) {
	assert.Equal(t, `"roal"`, Quote("roal"))
	assert.Equal(t, "nothing", Quote(""))
	assert.Equal(t, `"`+strings.Repeat("é", 24)+`…"`, Quote(strings.Repeat("é", 25)), "cut by characters, not bytes")
	assert.Equal(t, `"`+strings.Repeat("é", 24)+`"`, Quote(strings.Repeat("é", 24)))
}
