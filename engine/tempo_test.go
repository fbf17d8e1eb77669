package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
)

// TestNewTempoForAllHands: a tempo inside a tune holds for both hands and for parts that
// lie over one another, in whichever voice it stands, and also where the tune is moved.
// Crotchets of 1,000 ms, then of 500.
func TestNewTempoForAllHands(t *testing.T) {
	const head = "X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\n"
	slow, quick := int32(1000), int32(500)
	for _, row := range []struct {
		why, abc    string
		right, left []int32
		says        string
	}{
		{"between the voices", head + "[V:1]cdef|\n[V:2]C2E2|\nQ:1/4=120\n[V:1]gfed|\n[V:2]G2C2|\n",
			[]int32{0, slow, slow, slow, slow, quick, quick, quick}, []int32{0, 2 * slow, 2 * slow, 2 * quick}, "crotchet = 60 (Q: line), 120 from bar 2 on"},
		{"in the other voice, while a note sounds", head + "V:1\nc4|d4|e4|\nV:2\nCEG[Q:1/4=120]E|C4|C4|\n",
			[]int32{0, 3*slow + quick, 4 * quick}, []int32{0, slow, slow, slow, quick, 4 * quick}, "crotchet = 60 (Q: line), 120 within bar 1"},
		{"over one another", head + "cd[Q:1/4=120]ef&E2G2|c4|\n",
			[]int32{0, slow, slow, quick, quick}, nil, "crotchet = 60 (Q: line), 120 within bar 1"},
		{"moved", head + "%%ready transpose 1\ncd[Q:1/4=120]ef|c4|\n",
			[]int32{0, slow, slow, quick, quick}, nil, "crotchet = 60 (Q: line), 120 within bar 1"},
		{"played twice", head + "|:cd[Q:1/4=120]ef:|\n",
			[]int32{0, slow, slow, quick, quick, slow, slow, quick}, nil, "crotchet = 60 (Q: line), 120 within bar 1"},
		{"there and back", head + "%%ready tempo 1/4=120\nc4|[Q:1/4=120]c4|[Q:1/4=60]c4|\n",
			[]int32{0, 2000, 1000}, nil, "crotchet = 120 (as chosen), in proportion 240 from bar 2 on, 120 from bar 3 on"},
		{"another metre, felt in dotted crotchets", "X:1\nM:6/8\nL:1/8\nQ:3/8=40\nK:C\nc3d3|\nM:3/4\nQ:1/4=120\nc6|\n",
			[]int32{0, 3 * slow / 2, 3 * slow / 2}, nil, "dotted crotchet = 40 (Q: line), crotchet = 120 from bar 2 on"},
	} {
		a := engine.Read(row.abc).Answer()
		for i, want := range [][]int32{row.right, row.left} {
			var got []int32
			for k := 0; i < len(a.Hands) && k < len(a.Hands[i].Score.Events); k++ {
				got = append(got, a.Hands[i].Score.Events[k].Since)
			}
			assert.Equal(t, want, got, "%s: hand %d", row.why, i+1)
		}
		assert.Contains(t, a.Text(), ", "+row.says+"\n", row.why)
	}
}

// TestTempoAsWritten: who takes a chosen tempo back is not told that later ones change.
func TestTempoAsWritten(t *testing.T) {
	page := engine.Open([]string{"X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\ncdef|[Q:1/4=120]gfed|]\n"}, "", "")
	page, c := page.Do("tempo@b1 1/4=80")
	assert.Contains(t, c.Says, "same proportion")
	_, c = page.Do("undo")
	assert.NotContains(t, c.Says, "proportion")
	_, c = page.Do("tempo@b1 written")
	assert.NotContains(t, c.Says, "proportion")
}
