package choice

import (
	"cmp"
	"slices"

	"readyhand/engine/hand"
	"readyhand/engine/harp"
	"readyhand/engine/source"
)

// example is a sentence that would be right: with the fingers that lie best in the
// usual hand on the usual harp, of those the first.
func example(of string, steps []int8) string {
	usual := hand.Usual("right")
	var best []int8
	least := 1 << 10
	for _, fingers := range fingerings(steps, usual.InUse) {
		if effort := effort(usual, steps, fingers); effort < least {
			best, least = fingers, effort
		}
	}
	return "house " + of + " " + written(best)
}

// effort is a rough measure of what fingers on strings ask of a hand, enough for an
// example: how far it opens (1 past its ease, 4 past its comfort, 9 past what it can),
// and 1 for the fourth finger. The weights are guesses that give the usual shapes.
func effort(h hand.Hand, steps, fingers []int8) (sum int) {
	for i, f := range fingers {
		fourth := 0
		if f == 3 {
			fourth = 1
		}
		open := 0
		for k, g := range fingers[:i] {
			if f == g {
				fourth = 0
				continue
			}
			far, l := (int32(steps[i])-int32(steps[k]))*harp.UsualSpacing, h.Limits[f][g]
			switch far = max(far, -far); {
			case far > l.Most:
				open = 9
			case far > l.Comfortable:
				open = max(open, 4)
			case far > l.Relaxed:
				open = max(open, 1)
			}
		}
		sum += fourth + open
	}
	return sum
}

// Fingerings lists how an ornament may be fingered from one
// placing, as it is written: "1 2". A string has one finger throughout, but where
// all strokes are on one string, where each has its own.
func (c Choice) Fingerings(name string, inUse [4]bool) []string {
	row, _ := c.row(0, name)
	var list []string
	for _, fingers := range fingerings(row.Steps, inUse) {
		list = append(list, written(fingers))
	}
	return list
}

func fingerings(steps []int8, inUse [4]bool) [][]int8 {
	strings := slices.Clone(steps)
	source.Order(strings, cmp.Compare)
	strings = slices.Compact(strings)
	same := len(strings) == 1
	n := len(strings)
	if same {
		n = len(steps)
	}
	var list [][]int8
	var chosen []int8 // of the highest string first
	var choose func(from int8)
	choose = func(from int8) {
		if len(chosen) == n {
			fingers := make([]int8, len(steps))
			for i, s := range steps {
				at := n - 1 - i
				if !same {
					k, _ := slices.BinarySearch(strings, s)
					at = n - 1 - k
				}
				fingers[i] = chosen[at]
			}
			list = append(list, fingers)
			return
		}
		for f := from; f < 4; f++ {
			if inUse[f] {
				chosen = append(chosen, f)
				choose(f + 1)
				chosen = chosen[:len(chosen)-1]
			}
		}
	}
	choose(0)
	return list
}
