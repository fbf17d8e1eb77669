package hand

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine/harp"
	"readyhand/engine/pitch"
)

func spaced(t require.TestingT, spacing int32) harp.Harp {
	h, ok := harp.New(34, pitch.Pitch{Octave: 2}, "Eb", spacing)
	require.True(t, ok)
	return h
}

// ways writes every fingering of strings counted from the tenth, the lowest
// string's finger first: "421 321".
func ways(h Hand, on harp.Harp, offsets ...int8) string {
	var strs []int8
	for _, o := range offsets {
		strs = append(strs, 10+o)
	}
	var list []string
	for _, frame := range h.Fingerings(on, strs) {
		word := ""
		for _, s := range strs {
			word += string(rune('1' + slices.Index(frame[:], s)))
		}
		list = append(list, word)
	}
	return strings.Join(list, " ")
}

func TestWhatAHandCanHold(t *testing.T) {
	for _, row := range []struct {
		offsets []int8
		spacing int32
		holds   string // among the ways; "" if it cannot be held at all
		source  string
	}{
		{[]int8{0, 9}, 14500, "41", "a tenth at once: Sibelius Academy, harp notation, after Chaloupka 1979"},
		{[]int8{0, 2, 4, 9}, 14500, "4321", "a tenth with four notes: the same"},
		{[]int8{0, 10}, 14500, "", "wider only rolled: the same"},
		{[]int8{0, 4}, 14500, "31", "Fionn, Etude 05, clarsach.de; Christy-Lyn, 10 Rules of Harp Fingering, rule 2"},
		{[]int8{0, 4}, 14500, "21", "1-2 holds a fifth or wider: Harp Legacy Project"},
		{[]int8{0, 3}, 14500, "32", "2-3 a fourth in beginners' chords: Simplearp"},
		{[]int8{0, 2, 4}, 14500, "321", "Simplearp, Jouer"},
		{[]int8{0, 2, 5}, 14500, "321", "Simplearp, Jouer, first inversion"},
		{[]int8{0, 2, 4, 7}, 14500, "4321", "photographs of P. Byrne, 1840s, described by Chadwick 2016"},
		{[]int8{0, 4, 7}, 14500, "421", "common practice, no source"},
		{[]int8{0, 4, 9}, 14500, "421", "common practice, no source"},
		{[]int8{0, 7}, 14500, "41", "Bunting 1840 p. 26"},
		{[]int8{0, 7}, 12500, "31", "narrow harps take the octave so: Harpa Mundi, publisher's note"},
		{[]int8{0, 7}, 14500, "42", "forked fingers, Bunting 1840 p. 26, quoted by Chadwick"},
		{[]int8{0, 2}, 14500, "32", "Bunting 1840 p. 26"},
		{[]int8{0, 1}, 14500, "21", "Christy-Lyn, 10 Rules of Harp Fingering, rule 2"},
		{[]int8{0, 5}, 14500, "31", "Christy-Lyn, the same"},
	} {
		got := strings.Fields(ways(Usual("right"), spaced(t, row.spacing), row.offsets...))
		switch {
		case row.holds == "":
			assert.Empty(t, got, "%v: %s", row.offsets, row.source)
		default:
			assert.Contains(t, got, row.holds, "%v: %s", row.offsets, row.source)
		}
		assert.Equal(t, got, strings.Fields(ways(Usual("left"), spaced(t, row.spacing), row.offsets...)), "left is as right")
	}
}

// Octave with its fifth as 3 2 1: held at 13 and 14.5 mm, out of reach at 16
// (common practice, no source).
func TestWideSpacingIsOutOfReach(t *testing.T) {
	for spacing, held := range map[int32]bool{13000: true, 14500: true, 16000: false} {
		got := strings.Fields(ways(Usual("left"), spaced(t, spacing), 0, 4, 7))
		assert.Equal(t, held, slices.Contains(got, "321"), spacing)
		assert.Contains(t, got, "421", spacing)
	}
}

// The little finger is not used, the thumb has the highest string in both hands
// (Sibelius Academy, after Chaloupka 1979); at most four notes at once in a hand
// (Rimsky-Korsakov, Principles of Orchestration).
func TestOrderOfTheFingers(t *testing.T) {
	on := spaced(t, 14500)
	assert.Equal(t, "1 2 3 4", ways(Usual("right"), on, 0))
	assert.Equal(t, "4321", ways(Usual("left"), on, 0, 1, 2, 3))
	assert.Empty(t, ways(Usual("right"), on, 0, 1, 2, 3, 4))
	rapid.Check(t, func(t *rapid.T) {
		h := Usual(rapid.SampledFrom([]string{"right", "left"}).Draw(t, "hand"))
		strs := rapid.SliceOfNDistinct(rapid.Int8Range(0, 33), 1, 5, rapid.ID).Draw(t, "strings")
		slices.Sort(strs)
		for _, frame := range h.Fingerings(on, strs) {
			assert.True(t, h.Valid(on, frame))
			last := int8(34)
			held := 0
			for _, s := range frame {
				if s == None {
					continue
				}
				assert.Less(t, s, last, "each lower finger on a lower string")
				last = s
				held++
			}
			assert.Equal(t, len(strs), held)
		}
	})
}

// Neighbouring fingers may share a string, the thumb never goes below.
func TestPairs(t *testing.T) {
	on, h := spaced(t, 14500), Usual("right")
	assert.True(t, h.Pair(on, 0, 10, 1, 10))
	assert.True(t, h.Pair(on, 1, 10, 0, 10))
	assert.False(t, h.Pair(on, 0, 10, 1, 11))
	assert.False(t, h.Pair(on, 1, 11, 0, 10))
	assert.True(t, h.Pair(on, 1, 10, 0, 11))
	frame := Frame{None, 10, None, None}
	assert.True(t, h.Takes(on, frame, 0, 12))
	assert.False(t, h.Takes(on, frame, 2, 11))
	assert.True(t, h.Takes(on, frame, 1, 10), "it is there already")
	assert.False(t, h.Takes(on, frame, 1, 11), "one finger, one string")
	assert.False(t, h.Valid(on, Frame{9, 10, None, None}))
	assert.True(t, h.Valid(on, Empty()))
}

func TestFingersInUse(t *testing.T) {
	on := spaced(t, 14500)
	h, ok := New("right", "123", 1000)
	require.True(t, ok)
	assert.Equal(t, "321", ways(h, on, 0, 2, 4))
	assert.Empty(t, ways(h, on, 0, 2, 4, 7))
	for _, row := range []struct {
		name, inUse string
		reach       int32
	}{{"right", "", 1000}, {"right", "5", 1000}, {"right", "0", 1000}, {"right", "11", 1000}, {"right", "1234", 499}, {"right", "1234", 1501}, {"both", "1234", 1000}} {
		_, ok := New(row.name, row.inUse, row.reach)
		assert.False(t, ok, row)
	}
}

// A larger hand holds what a smaller one holds, a wider harp nothing more than a
// narrower; limits grow from relaxed to most.
func TestLargerHandNarrowerHarp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Int32Range(500, 1500).Draw(t, "small")
		large := rapid.Int32Range(small, 1500).Draw(t, "large")
		narrow := rapid.Int32Range(10000, 17000).Draw(t, "narrow")
		wide := rapid.Int32Range(narrow, 17000).Draw(t, "wide")
		offsets := []int8{0, rapid.Int8Range(1, 5).Draw(t, "second"), rapid.Int8Range(6, 12).Draw(t, "top")}
		a, _ := New("right", "1234", small)
		b, _ := New("right", "1234", large)
		least := strings.Fields(ways(a, spaced(t, wide), offsets...))
		assert.Subset(t, strings.Fields(ways(b, spaced(t, wide), offsets...)), least)
		assert.Subset(t, strings.Fields(ways(a, spaced(t, narrow), offsets...)), least)
		for f := range 4 {
			for g := range 4 {
				l := a.Limits[f][g]
				assert.Equal(t, l, a.Limits[g][f])
				if f != g {
					assert.True(t, 0 < l.Relaxed && l.Relaxed < l.Comfortable && l.Comfortable < l.Most)
				}
			}
		}
	})
}

// A single pair can be told apart from the rest of the hand; its relaxed and its
// greatest limit keep their proportion.
func TestASinglePair(t *testing.T) {
	usual := Usual("right")
	wide := usual.WithSpan(0, 1, 2*usual.Limits[0][1].Comfortable)
	assert.Equal(t, Limit{Relaxed: 2 * usual.Limits[0][1].Relaxed, Comfortable: 2 * usual.Limits[0][1].Comfortable, Most: 2 * usual.Limits[0][1].Most}, wide.Limits[1][0])
	assert.Equal(t, wide.Limits[0][1], wide.Limits[1][0])
	assert.Equal(t, usual.Limits[2][3], wide.Limits[2][3])
	seen := map[[2]int]bool{}
	for _, pair := range Pairs() {
		assert.Less(t, pair[0], pair[1])
		seen[pair] = true
	}
	assert.Len(t, seen, 6)
}
