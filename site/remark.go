package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"unicode/utf8"
)

// severity says how much a remark weighs.
type severity string

const (
	isNote    severity = "note"
	isWarning severity = "warning"
	isError   severity = "error"
)

// remark says what is wrong at a place in a file, and what to write instead.
type remark struct {
	file         string
	line, column int // from 1, the column in characters
	severity     severity
	message      string
	suggestion   string // "" if there is nothing to suggest
}

// String gives file:line:column: severity: message (suggestion), which editors
// can follow to the place.
func (r remark) String() string {
	s := fmt.Sprintf("%s:%d:%d: %s: %s", r.file, r.line, r.column, r.severity, r.message)
	if r.suggestion != "" {
		s += " (" + r.suggestion + ")"
	}
	return s
}

// quoted is what somebody wrote, as remarks repeat it.
func quoted(s string) string { return `"` + s + `"` }

// sortRemarks puts remarks in the order of files and places, and drops repeats.
func sortRemarks(remarks []remark) []remark {
	weight := map[severity]int{isError: 0, isWarning: 1, isNote: 2}
	slices.SortFunc(remarks, func(a, b remark) int {
		return cmp.Or(cmp.Compare(a.file, b.file), cmp.Compare(a.line, b.line), cmp.Compare(a.column, b.column),
			cmp.Compare(weight[a.severity], weight[b.severity]), cmp.Compare(a.message, b.message))
	})
	return slices.Compact(remarks)
}

// anyErrors reports whether a remark stands in the way of the site.
func anyErrors(remarks []remark) bool {
	return slices.ContainsFunc(remarks, func(r remark) bool { return r.severity == isError })
}

// write prints the remarks that weigh enough, one a line.
func write(w io.Writer, remarks []remark, notes bool) {
	for _, r := range remarks {
		if notes || r.severity != isNote {
			fmt.Fprintln(w, r)
		}
	}
}

// mostShown is how many remarks of a file are printed at once: with its line and a caret
// each takes three lines of a screen (guess).
const mostShown = 16

// screenful keeps of the remarks of each file as many as can be read at once, the
// gravest, and says after them how many are left.
func screenful(remarks []remark) (kept []remark) {
	for len(remarks) > 0 {
		n := slices.IndexFunc(remarks, func(r remark) bool { return r.file != remarks[0].file })
		if n < 0 {
			n = len(remarks)
		}
		file := remarks[:n]
		remarks = remarks[n:]
		if n <= mostShown+1 { // one more is shown itself
			kept = append(kept, file...)
			continue
		}
		room := map[severity]int{}
		left := mostShown
		for _, s := range []severity{isError, isWarning, isNote} {
			for _, r := range file {
				if r.severity == s && left > 0 {
					room[s]++
					left--
				}
			}
		}
		for _, r := range file {
			if room[r.severity]--; room[r.severity] >= 0 {
				kept = append(kept, r)
			}
		}
		last := kept[len(kept)-1]
		kept = append(kept, remark{last.file, last.line, last.column, isNote,
			fmt.Sprintf("There are %d more remarks on this file.", n-mostShown), "Put these right first, and check again."})
	}
	return kept
}

// pointOut prints remarks, of each file a screenful, and under each the line it stands on,
// where that can be read, with a caret below its place.
func pointOut(w io.Writer, remarks []remark) {
	name, lines := "", [][]byte(nil)
	for _, r := range screenful(remarks) {
		fmt.Fprintln(w, r)
		if r.file != name {
			name = r.file
			text, _ := os.ReadFile(r.file)
			lines = bytes.Split(text, []byte{'\n'})
		}
		if r.line < 1 || r.line > len(lines) || bytes.IndexByte(lines[r.line-1], 0) >= 0 {
			continue
		}
		if line := bytes.TrimSpace(lines[r.line-1]); len(line) > 0 {
			io.WriteString(w, caret(string(bytes.ToValidUTF8(bytes.TrimRight(lines[r.line-1], "\r"), []byte("\uFFFD"))), r.column))
		}
	}
}

// beside is how many characters of a line stand beside a caret.
const beside = 100

// caret gives a line and, under it, a caret below the column, counted from 1 in
// characters. Of a long line only what is near is shown.
func caret(line string, column int) string {
	all := []rune(strings.ReplaceAll(line, "\t", " "))
	at := column - 1
	if at < 0 || at > len(all) {
		return ""
	}
	from := max(0, at-beside/2)
	return "    " + string(all[from:min(len(all), from+beside)]) + "\n    " + strings.Repeat(" ", at-from) + "^\n"
}

// position gives the line and column of a byte of a text, from 1, the column in
// characters. It walks the text: places are asked for only when there is
// something to say.
func position(text []byte, at int) (line, column int) {
	before := text[:max(0, min(at, len(text)))]
	start := bytes.LastIndexByte(before, '\n') + 1
	return bytes.Count(before, []byte{'\n'}) + 1, utf8.RuneCount(before[start:]) + 1
}
