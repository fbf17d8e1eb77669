package source

import "strings"

// longestNear is how many letters a word may have that others are held against
// (guess: longer ones are no slip).
const longestNear = 40

// Near gives the known word that differs least from a word, capitals aside, and
// false if none is so like it that it was probably meant: a third of its
// letters may be wrong, two in a short word, one in a word of three (guesses).
// Of two that are as near, the first known one is given.
func Near(word string, known []string) (nearest string, ok bool) {
	if len(word) > longestNear {
		return "", false
	}
	word = strings.ToLower(word)
	most := max(2, len(word)/3)
	if len(word) < 4 {
		most = min(1, len(word)-1)
	}
	for _, k := range known {
		if d := distance(word, strings.ToLower(k)); d <= most {
			nearest, ok, most = k, true, d-1
		}
	}
	return nearest, ok
}

// distance counts the letters to add, drop or change to make b of a (Levenshtein
// 1966), where two that only changed places count as one (Damerau 1964).
func distance(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before, last, row = last, row, before
		row[0] = i + 1
		for j := range len(b) {
			change := last[j]
			if a[i] != b[j] {
				change++
			}
			row[j+1] = min(change, row[j]+1, last[j+1]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
	}
	return row[len(b)]
}

// Quote gives what somebody wrote in quotes, short enough to repeat in a remark.
func Quote(written string) string {
	const most = 24 // characters (guess)
	if written == "" {
		return "nothing"
	}
	if runes := []rune(written); len(runes) > most {
		written = string(runes[:most]) + "…"
	}
	return `"` + written + `"`
}
