package choice

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
)

// unknown is the fault of a word that is not one of those known; kind says
// what it was taken for. An ornament is also found by its name in ABC, and by a part
// of its name: of a mordent there is an upper and a lower one.
func (c Choice) unknown(kind, word string, known []string) *Fault {
	signs := map[string]string{}
	all := slices.Clone(known)
	for _, row := range ornament.Rows() {
		for _, sign := range row.ABC {
			signs[sign] = row.Name
			all = append(all, sign)
		}
	}
	for _, row := range c.known() { // those of families that are not shown too
		if !slices.Contains(all, row.Name) {
			all = append(all, row.Name)
		}
	}
	near, ok := source.Near(word, all)
	names := c.partly(near)
	if exact := c.partly(word); len(exact) > 0 {
		near, names, ok = word, exact, true
	}
	name, sign := signs[near]
	help := "Write " + near + "."
	switch {
	case !ok:
		help = "Write one of these: " + strings.Join(known, ", ") + "."
	case len(names) > 0 && !slices.Contains(known, near):
		help = "Write " + anyOf(names) + "."
	case sign && !slices.Contains(known, near):
		help = "Write " + name + "."
	}
	return &Fault{source.Quote(word) + " is not " + kind + ".", help}
}

// partly gives the names of ornaments of which a word is a part: "roll" of short-roll
// and long-roll. One letter shorter than four is a part of too many.
func (c Choice) partly(word string) (names []string) {
	if len(word) < 4 || word == "time" {
		return nil
	}
	for _, name := range c.names()[1:] {
		if name != word && slices.Contains(strings.Split(name, "-"), word) {
			names = append(names, name)
		}
	}
	return names
}

// anyOf parts words by commas, the last two by or.
func anyOf(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// firstWords are what a sentence most often begins with, told to who begins with
// something unheard of.
var firstWords = []string{"offer", "house", "finger", "set", "stay", "hand", "fingers", "tempo", "transpose", "style", "strings", "lowest", "tuning", "spacing", "reach"}

// unheard is the fault of a sentence whose first word is none that begins one.
func (c Choice) unheard(word, rest string) *Fault {
	known := append(c.names(), "offer", "house", "phrase")
	for _, v := range verbs() {
		known = append(known, v.word)
	}
	fault := c.unknown("something that can be asked for", word, known)
	if word == "phrase" {
		if rest != "" {
			return &Fault{"After phrase nothing more is said.", "Leave out " + source.Quote(rest) + "."}
		}
		return &Fault{"Where a phrase ends is said in the tune itself.", "Write %%ready phrase on a line of its own, under the line of music on which it ends."}
	}
	head := word[:len(word)-len(strings.TrimLeft(word, "abcdefghijklmnopqrstuvwxyz-"))]
	for _, side := range hands {
		if side == word || side+"hand" == word || side+"-hand" == word {
			return &Fault{fault.Message, "Write hand " + side + "."}
		}
	}
	switch {
	case head != word && slices.Contains(known, head): // tempo=90, tempo: 90
		more := strings.TrimSpace(strings.TrimLeft(word[len(head):], "=:") + " " + rest)
		fault.Suggestion = "Write a space after " + head + ": " + strings.TrimSpace(head+" "+more) + "."
	case strings.HasPrefix(fault.Suggestion, "Write one of these"):
		fault.Suggestion = "Begin with one of these: " + strings.Join(firstWords, ", ") + "; or with an ornament at a note, such as cut@9 off."
	}
	return fault
}

// unplaced is the fault of a sentence about a note that does not say which, though
// perhaps its number stands apart: "cut 3 off". With more, something must be said of the
// note beside its number.
func unplaced(word, rest string, more bool) *Fault {
	number, words := "12", strings.Fields(rest)
	for i, w := range words {
		if _, ok := count(strings.TrimPrefix(w, "@"), mostNotes); ok && !(more && len(words) == 1) {
			number, words = strings.TrimPrefix(w, "@"), slices.Delete(words, i, i+1)
			break
		}
	}
	words = slices.DeleteFunc(words, func(w string) bool { return w == "note" })
	return &Fault{"Which note is meant is not said.", "Write its number after @: " + strings.TrimSpace(word+"@"+number+" "+strings.Join(words, " ")) + "."}
}

// In gives the place in a sentence of the word that a fault repeats in quotes, in
// bytes; all of the sentence where it repeats none.
func (f Fault) In(sentence string) (from, to int) {
	_, after, _ := strings.Cut(f.Message, `"`)
	word, _, _ := strings.Cut(after, `"`)
	word = strings.TrimSuffix(word, "…")
	low := strings.ToLower(sentence)
	if word == "" || len(low) != len(sentence) {
		return 0, len(sentence)
	}
	at := strings.Index(low, strings.ToLower(word))
	for _, before := range []string{" ", "@"} {
		if i := strings.Index(low, before+strings.ToLower(word)); i >= 0 {
			at = i + 1
			break
		}
	}
	if at < 0 {
		return 0, len(sentence)
	}
	return at, at + len(word)
}
