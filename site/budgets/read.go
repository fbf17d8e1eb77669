package main

import (
	"bufio"
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// measures are the figures of benchmarks by "native Name unit" or "wasm Name
// unit", all those of a benchmark that ran several times.
type measures map[string][]float64

// least is the smallest of a benchmark's figures: where it ran several times, the
// other times waited for something else on the machine.
func (m measures) least(name string) (float64, bool) {
	list := m[name]
	if len(list) == 0 {
		return 0, false
	}
	return slices.Min(list), true
}

// processors is what testing puts after a name where there is more than one.
var processors = regexp.MustCompile(`-\d+$`)

// read takes the figures from what go test -bench prints (the format is Go's
// proposal 14313), of several runs one after the other, and the lines that tell
// of a failure.
func read(in io.Reader) (found measures, failed []string, err error) {
	found = measures{}
	machine := "native"
	lines := bufio.NewScanner(in)
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		switch {
		case len(words) == 2 && words[0] == "goarch:":
			machine = "native"
			if words[1] == "wasm" {
				machine = "wasm"
			}
		case len(words) > 0 && (strings.HasPrefix(words[0], "FAIL") || words[0] == "panic:" || slices.Contains(words, "FAIL:")):
			failed = append(failed, lines.Text())
		case len(words) >= 4 && strings.HasPrefix(words[0], "Benchmark"):
			name, _ := strings.CutPrefix(processors.ReplaceAllString(words[0], ""), "Benchmark")
			for i := 2; i+1 < len(words); i += 2 {
				value, err := strconv.ParseFloat(words[i], 64)
				if err != nil {
					return nil, nil, errors.New("this is no line of a benchmark: " + lines.Text())
				}
				key := machine + " " + name + " " + words[i+1]
				found[key] = append(found[key], value)
			}
		}
	}
	return found, failed, lines.Err()
}
