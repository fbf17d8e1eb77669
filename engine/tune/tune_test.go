package tune_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"readyhand/engine/tune"
)

func TestNewFrac(t *testing.T) {
	for _, row := range []struct {
		n, d int64
		want tune.Frac
		why  string
	}{
		{6, 8, tune.Frac{N: 3, D: 4}, "reduced"},
		{0, 8, tune.Frac{N: 0, D: 1}, "nothing has one form"},
		{-2, 8, tune.Frac{N: -1, D: 4}, "below nothing"},
		{2, -8, tune.Frac{N: -1, D: 4}, "D is above nothing"},
		{8, 4, tune.Frac{N: 2, D: 1}, "two whole notes"},
	} {
		assert.Equal(t, row.want, tune.NewFrac(row.n, row.d), row.why)
	}
}

// Times as players add them up.
func TestTimes(t *testing.T) {
	quaver, dotted, triplet := tune.NewFrac(1, 8), tune.NewFrac(3, 16), tune.NewFrac(1, 12)
	assert.Equal(t, tune.NewFrac(5, 16), dotted.Add(quaver), "a dotted quaver and a quaver")
	assert.Equal(t, tune.NewFrac(1, 4), triplet.Add(triplet).Add(triplet), "three of a triplet are a crotchet")
	assert.Equal(t, tune.NewFrac(1, 16), dotted.Sub(quaver), "the dot is half its note")
	assert.Equal(t, dotted, quaver.Mul(tune.NewFrac(3, 2)), "dotting is three halves")
	assert.Equal(t, triplet, quaver.Mul(tune.NewFrac(2, 3)), "three in the time of two")
	assert.True(t, triplet.Less(quaver))
	assert.False(t, quaver.Less(quaver))
	assert.False(t, dotted.Less(quaver))
	assert.Equal(t, int32(300), quaver.Milliseconds(600))
	assert.Equal(t, int32(167), triplet.Milliseconds(500), "166.67, to the nearest")
	assert.Equal(t, int32(63), quaver.Milliseconds(125), "62.5, up")
}

// Arithmetic of fractions: every answer is reduced, with D above nothing, and
// adding and taking away undo each other.
func TestFractions(t *testing.T) {
	draw := func(t *rapid.T, name string) tune.Frac {
		return tune.NewFrac(rapid.Int64Range(-9999, 9999).Draw(t, name+" over"), rapid.Int64Range(1, 4096).Draw(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		f, g := draw(t, "f"), draw(t, "g")
		for _, h := range []tune.Frac{f.Add(g), f.Sub(g), f.Mul(g)} {
			assert.Equal(t, h, tune.NewFrac(h.N, h.D))
			assert.Positive(t, h.D)
		}
		assert.Equal(t, f, f.Add(g).Sub(g))
		assert.Equal(t, f.Add(g), g.Add(f))
		assert.Equal(t, f.N*g.N*f.Mul(g).D, f.Mul(g).N*f.D*g.D)
		assert.Equal(t, f.N*g.D < g.N*f.D, f.Less(g), "crosswise")
	})
}
