package source_test

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"readyhand/engine/source"
)

// Order does what the library's stable sort does.
func TestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		type thing struct{ key, place int }
		var list []thing
		for i, key := range rapid.SliceOfN(rapid.IntRange(0, 9), 0, 70).Draw(t, "keys") {
			list = append(list, thing{key, i})
		}
		want := slices.Clone(list)
		compare := func(a, b thing) int { return cmp.Compare(a.key, b.key) }
		slices.SortStableFunc(want, compare)
		source.Order(list, compare)
		assert.Equal(t, want, list)
	})
}
