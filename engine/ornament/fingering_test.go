package ornament

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every fingering is one a hand can have: a finger for each stroke, the thumb's
// side on the higher string, and not one finger twice running on a string.
func TestFingerings(t *testing.T) {
	for _, f := range fingerings {
		assert.Len(t, f.Fingers, len(f.Steps), f.Source)
		assert.NotEmpty(t, f.Source)
		for i, a := range f.Fingers {
			assert.True(t, 0 <= a && a < 4)
			for k, b := range f.Fingers[:i] {
				assert.False(t, f.Steps[i] > f.Steps[k] && a >= b || f.Steps[i] < f.Steps[k] && a <= b, "%v on %v", f.Fingers, f.Steps)
				assert.False(t, k == i-1 && f.Steps[i] == f.Steps[k] && a == b, "%v on %v", f.Fingers, f.Steps)
			}
		}
	}
	// Bunting 1840 p. 25: barrluth beal an-airde is 3 2 4 2.
	assert.Contains(t, Fingerings([]int8{0, 1, 0, 1}), Fingering{[]int8{0, 1, 0, 1}, []int8{2, 1, 3, 1}, "barrluth beal an-airde", "Bunting 1840 p. 25"})
	assert.Empty(t, Fingerings([]int8{0, 5}))
	assert.Empty(t, Fingerings(nil))
}
