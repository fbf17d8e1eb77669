package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What go test -bench prints, and what is told of it.
func TestTable(t *testing.T) {
	const ran = `goos: linux
goarch: amd64
BenchmarkA/big-2   	      46	  3000000 ns/op	 6529197 B/op
BenchmarkA/big-2   	      46	  2000000 ns/op	 6529197 B/op
BenchmarkA/big-2   	      46	  4000000 ns/op	 6529197 B/op
BenchmarkA/small-2 	      46	   125000 ns/op
--- BENCH: BenchmarkB-2
    b_test.go:1: a word about it
BenchmarkB-2 	       1	        42.75 cpu-p50-ms	        52.39 cpu-p95-ms
--- FAIL: BenchmarkC
FAIL
goos: js
goarch: wasm
BenchmarkA/big 	      46	  500000 ns/op
goos: linux
goarch: amd64
BenchmarkD-16 	       1	        0.1395 s
`
	found, failed, err := read(strings.NewReader(ran))
	require.NoError(t, err)
	assert.Equal(t, []string{"--- FAIL: BenchmarkC", "FAIL"}, failed)
	var out strings.Builder
	print(&out, []row{
		{"a", 2, "ms", "native A/big ns/op", "", 1e-6, "why"},
		{"a in node", 0.4, "ms", "wasm A/big ns/op", "", 1e-6, "why"},
		{"growth", 12, "times", "native A/big ns/op", "native A/small ns/op", 1, "why"},
		{"b", 60, "ms", "native B cpu-p95-ms", "", 1, "why"},
		{"c", 900, "kB", "native C kB", "", 1, "it failed"},
		{"d", 0, "s", "native D s", "", 1, "why"},
	}, found)
	got := regexp.MustCompile(`  +`).ReplaceAllString(out.String(), " | ")
	assert.Equal(t, `what | measured | budget | 
a | 2 ms | 2 ms | within
a in node | 0.50 ms | 0.40 ms | over
growth | 16 times | 12 times | over
b | 52.4 ms | 60 ms | within
c | - | 900 kB | not measured: it failed
d | 0.14 s | none | 
`, got)
	_, _, err = read(strings.NewReader("BenchmarkA 1 many ns/op\n"))
	assert.ErrorContains(t, err, "many ns/op")
}

// Every row speaks of a benchmark that there is, and that make budgets runs.
func TestRowsAreMeasured(t *testing.T) {
	var sources, makefile string
	for _, name := range []string{"../../engine/bench_test.go", "../command_bench_test.go", "../browser/click_bench_test.go"} {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		sources += string(text)
	}
	text, err := os.ReadFile("../../Makefile")
	require.NoError(t, err)
	_, makefile, _ = strings.Cut(string(text), "\nbudgets:")
	for _, r := range rows {
		assert.NotEmpty(t, r.what)
		assert.NotEmpty(t, r.needs, r.what)
		assert.NotZero(t, r.scale, r.what)
		for _, from := range []string{r.from, r.over} {
			words := strings.Fields(from)
			if from == "" {
				continue
			}
			require.Len(t, words, 3, r.what)
			name, _, _ := strings.Cut(words[1], "/")
			assert.Contains(t, sources, "func Benchmark"+name+"(b *testing.B)", r.what)
			assert.Contains(t, makefile, name, r.what)
			switch unit := words[2]; {
			case unit == "ns/op":
			case strings.HasSuffix(unit, "-ms"):
				assert.Contains(t, sources, `"`+regexp.MustCompile(`-p\d+-ms$`).ReplaceAllString(unit, "")+`"`, r.what)
			default:
				assert.Contains(t, sources, `"`+unit+`")`, r.what)
			}
		}
	}
}
