package main

import (
	"fmt"
	"strings"
)

// row is one promise and the benchmark that measures it.
type row struct {
	what   string
	budget float64 // in unit; 0 for a figure that is only told
	unit   string  // as it is shown
	from   string  // the benchmark and its unit: "native Growth/100_notes ns/op"
	over   string  // the same for what it is divided by, where a ratio was promised
	scale  float64 // from the benchmark's unit to the one shown
	needs  string  // what is missing where there is no such figure
}

const (
	node    = "there is no node here, or the benchmark failed"
	browser = "there is no chromium here, or the benchmark failed"
	fails   = "the benchmark failed"
)

// The budgets were set before there was a program, from what a third of the
// fastest well-known site builder takes, from what a screen at 60 Hz shows and
// from throwaway code; those of time for two cores of a server of 2025.
var rows = []row{
	{"joint plan with prices, 32 bars, both hands, 16 sites, native", 1.4, "ms", "native JointPlan/both_hands ns/op", "", 1e-6, fails},
	{"  the same as WebAssembly", 4, "ms", "wasm JointPlan/both_hands ns/op", "", 1e-6, node},
	{"  with three ornaments at every site, native", 3, "ms", "native JointPlan/three_ornaments ns/op", "", 1e-6, fails},
	{"  the same as WebAssembly", 8, "ms", "wasm JointPlan/three_ornaments ns/op", "", 1e-6, node},
	{"alternatives, prices, readiness of every ornament at every note, native", 10, "ms", "native EveryOrnament ns/op", "", 1e-6, fails},
	{"  the same as WebAssembly", 30, "ms", "wasm EveryOrnament ns/op", "", 1e-6, node},
	{"  the finder alone: what may be played on every note, once it is planned", 10, "ms", "native Finder ns/op", "", 1e-6, fails},
	{"  the same as WebAssembly", 30, "ms", "wasm Finder ns/op", "", 1e-6, node},
	{"growth of a plan's time from 100 notes to 1,000", 12, "times", "native Growth/1000_notes ns/op", "native Growth/100_notes ns/op", 1, fails},
	{"  from 1,000 notes to 10,000", 12, "times", "native Growth/10000_notes ns/op", "native Growth/1000_notes ns/op", 1, fails},
	{"click that changes one line: main thread till the frame is done, 95 of 100", 8, "ms", "native Click/slowed=1 work-p95-ms", "", 1, browser},
	{"  with the processor slowed 4 times", 30, "ms", "native Click/slowed=4 work-p95-ms", "", 1, browser},
	{"  until it is on the screen, 95 of 100", 22, "ms", "native Click/slowed=1 shown-p95-ms", "", 1, browser},
	{"page opened to the first answer, cold, over http, median", 200, "ms", "native Open/http answered-p50-ms", "", 1, browser},
	{"  from disk", 200, "ms", "native Open/file answered-p50-ms", "", 1, browser},
	{"live heap in WebAssembly, a tune of 32 bars", 4, "MB", "wasm Live live-MB", "", 1, node},
	{"engine over the wire, gzip", 900, "kB", "native Weight engine-kB", "", 1, fails},
	{"heaviest lesson page of the course without the engine, gzip", 60, "kB", "native Weight page-kB", "", 1, fails},
	{"1,000 plain Markdown pages of 600 words, links checked, to memory disk", 0.13, "s", "native PlainSite s", "", 1, fails},
	{"  processors together", 0, "s", "native PlainSite cpu-s", "", 1, fails},
	{"  memory", 64, "MiB", "native PlainSite MiB", "", 1, "this system does not say what a program held"},
	{"  against turning the same files into HTML and nothing else", 0, "times", "native PlainSite of-bare", "", 1, fails},
	{"  10,000 of them against 1,000", 11, "times", "native PlainSite of-1000", "", 1, fails},
	{"1,000 pages with a tune each", 4, "s", "native TuneSite s", "", 1, fails},
	{"  processors together", 0, "s", "native TuneSite cpu-s", "", 1, fails},
	{"  memory", 200, "MB", "native TuneSite MiB", "", 1.048576, "this system does not say what a program held"},
	{"one edit in serve, among 100 pages, to the refreshed page, median", 150, "ms", "native Refresh refreshed-p50-ms", "", 1, browser},
}

// value is what the benchmarks say of a row; ok is false where they say nothing.
func (r row) value(found measures) (value float64, ok bool) {
	value, ok = found.least(r.from)
	if r.over != "" && ok {
		var by float64
		by, ok = found.least(r.over)
		value /= by
	}
	return value * r.scale, ok && value > 0
}

// show writes a figure as exactly as it is worth reading.
func (r row) show(value float64) string {
	text := fmt.Sprintf("%.0f", value)
	switch {
	case value < 1:
		text = fmt.Sprintf("%.2f", value)
	case value < 100:
		text = strings.TrimSuffix(fmt.Sprintf("%.1f", value), ".0")
	}
	return text + " " + r.unit
}
