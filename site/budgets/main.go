// Command budgets holds what benchmarks measured against what was promised: it
// reads their output and prints a line for each promise. No site is made with it.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
)

func main() {
	fmt.Printf("processors %d, %s\n", runtime.NumCPU(), load("before"))
	found, failed, err := read(os.Stdin)
	if err != nil {
		fmt.Fprintf(os.Stderr, "budgets: %v\n", err)
		os.Exit(1)
	}
	print(os.Stdout, rows, found)
	for _, line := range failed {
		fmt.Println(line)
	}
	fmt.Println(load("after"))
}

// load is how many programs wanted a processor, over the last 1, 5 and 15
// minutes: times on a machine that others use say less than ratios.
func load(when string) string {
	text, err := os.ReadFile("/proc/loadavg")
	fields := strings.Fields(string(text))
	if err != nil || len(fields) < 3 {
		return "load " + when + " not known"
	}
	return "load " + when + " " + strings.Join(fields[:3], " ")
}

// print writes a line for each row: what, measured, budget, and how they stand.
func print(w io.Writer, rows []row, found measures) {
	line := func(what, measured, budget, stands string) {
		fmt.Fprintf(w, "%-78s %12s %12s  %s\n", what, measured, budget, stands)
	}
	line("what", "measured", "budget", "")
	for _, r := range rows {
		budget := r.show(r.budget)
		if r.budget == 0 {
			budget = "none"
		}
		value, ok := r.value(found)
		switch {
		case !ok:
			line(r.what, "-", budget, "not measured: "+r.needs)
		case r.budget == 0:
			line(r.what, r.show(value), budget, "")
		case value <= r.budget:
			line(r.what, r.show(value), budget, "within")
		default:
			line(r.what, r.show(value), budget, "over")
		}
	}
}
