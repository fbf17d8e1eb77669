package engine_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
	"readyhand/engine/explain"
	"readyhand/engine/plan"
)

// What is said to be wanting for an ornament that has no way is what is wanting: where
// it is the tempo, it has one when played slowly; where no finger is left, neither that
// nor the largest hand there is (reach 1.5) helps; where it is wider than the hand, only
// a larger one may.
func TestWhatIsWanting(t *testing.T) {
	seen, helped := map[explain.Lack]int{}, false
	for _, row := range []struct{ body, hand string }{
		{"[CEGc]2 d2 [EGc]2 d2 [Gc]2 d2|]", ""},
		{"[Cc]2 d2 [C,C]2 D2 [Ca]2 d2|]", "reach 0.8"},
		{"c2 d/2e/2 !3!c2 d2 !1!e2 c2|]", "fingers 123"},
		{"[C,C]2 D2 [CEG]2|]", "hand left"},
	} {
		for _, tempo := range []string{"60", "200"} {
			text := "X:1\nM:none\nL:1/4\nQ:1/4=" + tempo + "\nK:C\n" + row.body + "\n"
			said := []string{"offer all"}
			if row.hand != "" {
				said = append(said, row.hand)
			}
			a := engine.Read(text).Answer(said...)
			h := &a.Hands[0]
			wide := engine.Read(text).Answer(append(said, "reach 1.5")...)
			slow := engine.Read(text).Answer(append(said, "tempo 20")...)
			for j, g := range h.Score.Gaps {
				for k, site := range g.Sites {
					for i := range site.Ornaments {
						if h.Plan.Gaps[j].Fits[k][i].Ready < plan.NoTime {
							continue
						}
						lack := explain.Lacking(&h.Score, &h.Rules, j, k, i)
						w, _ := fitOf(&wide.Hands[0], site.ID(i))
						s, _ := fitOf(&slow.Hands[0], site.ID(i))
						seen[lack]++
						switch what := text + site.ID(i) + ": " + lack.String(); lack {
						case explain.TooFast:
							assert.NotEqual(t, "no time", s, what)
						case explain.BeyondHand:
							assert.Equal(t, "no time", s, what)
							helped = helped || w != "no time"
						case explain.NoFinger:
							assert.Equal(t, [2]string{"no time", "no time"}, [2]string{w, s}, what)
						}
					}
				}
			}
		}
	}
	assert.Len(t, seen, 3)
	assert.True(t, helped)
}
