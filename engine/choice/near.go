package choice

import "strings"

// quote gives what somebody wrote, short enough to repeat.
func quote(word string) string {
	letters := []rune(word)
	if len(letters) > 20 {
		letters = append(letters[:20], '…')
	}
	if len(letters) == 0 {
		return "nothing"
	}
	return "“" + string(letters) + "”"
}

// unknown is the fault of a word that is not one of those known; kind says
// what it was taken for.
func unknown(kind, word string, known []string) *Fault {
	f := &Fault{Message: quote(word) + " is not " + kind + "."}
	best, least := "", len(word)/2+2
	for _, k := range known {
		if d := apart(word, k); d < least {
			best, least = k, d
		}
	}
	if best != "" && len(word) < 40 {
		f.Suggestion = "Perhaps " + best + " is meant."
	} else {
		f.Suggestion = "Known are " + strings.Join(known, ", ") + "."
	}
	return f
}

// apart counts the letters to change, add or leave out to make a word another
// (Levenshtein's distance).
func apart(a, b string) int {
	if len(a) > 40 {
		return len(a)
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, corner+1)
		}
	}
	return row[len(b)]
}
