package choice

import (
	"strconv"
	"strings"

	"readyhand/engine/source"
)

// readShape reads a chord by its strings.
func readShape(words []string) (of string, steps []int8, fault *Fault) {
	last := 0
	for i, w := range words {
		n, ok := 0, i == 0
		if up, plus := strings.CutPrefix(w, "+"); plus {
			n, ok = count(up, mostUp)
		}
		if !ok || i > 0 && n <= last {
			return "", nil, &Fault{source.Quote(w) + " is not a string of a chord.",
				"Write the lowest string as 0 and the others upward from it, each with a plus: 0 +4 +7."}
		}
		last = n
		steps = append(steps, int8(n))
	}
	if len(steps) < 2 || len(steps) > 4 {
		return "", nil, &Fault{"A chord for one hand has two to four strings.", "Write for instance house 0 +4 +7 4 2 1."}
	}
	return spell(steps), steps, nil
}

// chords are what shapes are called, and their strings.
var chords = []struct {
	name  string
	steps []int8
}{
	{"third", []int8{0, 2}}, {"fourth", []int8{0, 3}}, {"fifth", []int8{0, 4}}, {"sixth", []int8{0, 5}},
	{"seventh", []int8{0, 6}}, {"octave", []int8{0, 7}}, {"ninth", []int8{0, 8}}, {"tenth", []int8{0, 9}},
	{"triad", []int8{0, 2, 4}}, {"chord", []int8{0, 2, 4}},
}

// calledChord is the fault of a chord that is called by its name, with its fingers
// if they fit, or by the letters of its notes; nil if it is none.
func (c Choice) calledChord(called string, fingers []string) *Fault {
	quoted := source.Quote(called)
	for _, chord := range chords {
		if called != chord.name && called != chord.name+"s" {
			continue
		}
		of := spell(chord.steps)
		write := example(of, chord.steps)
		if ways, fault := c.readWays(of, chord.steps, fingers); fault == nil {
			write = "house " + of + " " + ways
		}
		help := "Write " + write + "."
		if names := c.partly(chord.name); len(names) > 0 {
			help = "Write " + write + " for the chord; the ornament is " + anyOf(names) + "."
		}
		return &Fault{"A chord is written by its strings, not by its name: " + quoted + ".", help}
	}
	if strings.IndexByte("0+{[", called[0]) >= 0 {
		return &Fault{quoted + " are no strings of a chord.", "Write the lowest string as 0 and the others upward from it, each with a plus and a space before it: house 0 +4 +7 4 2 1."}
	}
	if strings.Trim(called, "abcdefg# ") == "" || len(called) < 5 && called[0] <= 'g' && strings.Trim(called[1:], "#bm7") == "" { // c e g; am
		return &Fault{"A chord is written by its strings, not by its notes: " + quoted + ".",
			"Write the lowest string as 0 and the others upward from it: house 0 +2 +4 3 2 1."}
	}
	return nil
}

// unplussed is the fault of a chord whose strings have no plus: "0 4 7 4 2 1"; nil
// if it is none.
func unplussed(of, rest []string) *Fault {
	if len(of) > 1 || len(rest) < 3 {
		return nil
	}
	n := (len(rest) - 1) / 2
	last := 0
	for _, w := range rest[:n] {
		up, ok := count(w, mostUp)
		if !ok || up <= last {
			return nil
		}
		last = up
	}
	return &Fault{"The strings of a chord above the lowest are written with a plus.", "Write house 0 +" + strings.Join(rest[:n], " +") + " " + strings.Join(rest[n:], " ") + "."}
}

// mostUp is how many strings lie above the lowest of the largest harp.
const mostUp = 46

// spell writes the strings of a chord: "0 +4 +7".
func spell(steps []int8) string {
	of := "0"
	for _, s := range steps[1:] {
		of += " +" + strconv.Itoa(int(s))
	}
	return of
}
