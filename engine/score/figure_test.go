package score_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
)

// TestFigures: the notes that the bars of each figure begin with.
func TestFigures(t *testing.T) {
	for _, c := range []struct{ name, tune, want string }{
		{"nothing comes again", "cdef|gfed|", ""},
		{"a bar", "cdef|gfed|cdef|", "1 9"},
		{"both passes of a repeat", "|:cdef|gfed:|", "1 1/2, 5 5/2"},
		{"a bar that is repeated at once", "|:cdef:|", "1 1/2"},
		{"one note", "c4|d4|c4|", "1 3"},
		{"the same note twice is not the same bar twice", "c2c2|d4|", ""},
		{"other lengths", "c2d2|c3d|", ""},
		{"another rest inside", "cdzf|cd2f|", ""},
		{"another octave", "cdef|CDEF|", ""},
		{"a pickup comes again with its repeat", "|:c|defg|abc':|", "1 1/2, 2 2/2, 6 6/2"},
		{"endings", "|:cdef|1gfed:|2gfec|]", "1 1/2"},
		{"chords", "[ce]2[df]2|[ce]2[df]2|[ce]2[dg]2|", "1 5"},
		{"a phrase that ends inside", "cd!breath!ef|cdef|", ""},
		{"an ornament that is prepared", "{d}cdef|cdef|{d}cdef|", "1 9"},
		{"an ornament that is never played", "%%ready offer cut@1\ncdef|cdef|", "1 5"},
		{"an ornament that a reader adds in one of them", "%%ready cut@1 often\ncdef|cdef|", "1 5"},
		{"one more than both have", "%%ready tap@3 on\n{d}cdef|cdef|{d}cdef|", "1 9"},
		{"an ornament in two bars, one often", "%%ready cut@1 often\n{d}cdef|{d}cdef|", "1 5"},
		{"a finger asked for goes for both", "!3!cdef|cdef|", "1 5"},
		{"two that cannot both be had", "!3!cdef|cdef|!2!cdef|c!1!def|!2!cdef|", "1 5 13, 9 17"},
		{"a placing asked for, and one not to be", "%%ready set@2; stay@6\ncdef|cdef|", ""},
		{"before its first note a bar is free", "%%ready set@1; stay@5\ncdef|cdef|", "1 5"},
	} {
		settings, music := "", c.tune
		if at := strings.LastIndex(c.tune, "\n"); at >= 0 {
			settings, music = c.tune[:at+1], c.tune[at+1:]
		}
		s := engine.Read("X:1\nT:A test\nM:4/4\nL:1/4\nQ:1/4=100\n" + settings + "K:C\n" + music + "\n").Answer().Hands[0].Score
		var figures []string
		for _, f := range s.Figures() {
			var firsts []string
			for _, at := range f.At {
				firsts = append(firsts, s.Events[at].Notes[0].ID())
			}
			figures = append(figures, strings.Join(firsts, " "))
		}
		assert.Equal(t, c.want, strings.Join(figures, ", "), c.name)
	}
}
