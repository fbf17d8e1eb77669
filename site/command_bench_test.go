package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
)

// These benchmarks measure the built command as a teacher runs it, each time as
// a program of its own, on a disk in memory where there is one. What is compared
// runs in turn, so that a machine busy with other things is busy for both, and the
// fastest round counts, because the others waited for something. cpu-s are the
// seconds of all processors together. Each takes its own number of rounds,
// whatever the benchmark is told.

// BenchmarkPlainSite builds 1,000 and 10,000 plain lessons. of-bare is how many
// times longer that takes than turning the same 1,000 files into HTML with nothing
// around them and no links looked up; of-1000 how many times more the processors
// work for 10,000, which other work on the machine disturbs least.
func BenchmarkPlainSite(b *testing.B) {
	top, command, engine := memoryDisk(b), builtCommand(b), fakeEngine(b)
	small, large := filepath.Join(top, "small"), filepath.Join(top, "large")
	writeLessons(b, small, 1000, plainLesson)
	writeLessons(b, large, 10000, plainLesson)
	var bare []float64
	var one, ten []spent
	site := filepath.Join(top, "site")
	for round := range 5 {
		bare = append(bare, bareMarkdown(b, small, filepath.Join(top, "bare")))
		one = append(one, spend(b, site, command, "build", "-engine", engine, "-o", site, small))
		if round%2 == 0 {
			ten = append(ten, spend(b, site, command, "build", "-engine", engine, "-o", site, large))
		}
	}
	least := best(one)
	least.report(b)
	b.ReportMetric(least.seconds/slices.Min(bare), "of-bare")
	b.ReportMetric(best(ten).processor/least.processor, "of-1000")
}

// BenchmarkTuneSite builds 1,000 lessons with a tune each.
func BenchmarkTuneSite(b *testing.B) {
	top, command, engine := memoryDisk(b), builtCommand(b), madeEngine(b)
	dir := filepath.Join(top, "tunes")
	writeLessons(b, dir, 1000, tuneLesson)
	var all []spent
	site := filepath.Join(top, "site")
	for range 3 {
		all = append(all, spend(b, site, command, "build", "-engine", engine, "-o", site, dir))
	}
	best(all).report(b)
}

// BenchmarkWeight is what goes over the wire, as gzip: the engine, and the heaviest
// page of the course with everything it loads beside the engine.
func BenchmarkWeight(b *testing.B) {
	out := filepath.Join(b.TempDir(), "site")
	got, err := build(order{"../content", out, madeEngine(b), askEngine})
	require.NoError(b, err)
	require.False(b, anyErrors(got.remarks))
	loads := regexp.MustCompile(`(?:src|href|data-exec)="((?:page|icon|loader|exec)-[^"]+)"`)
	site := tree(b, out)
	engine, heaviest := 0, 0
	for name, text := range site {
		switch filepath.Ext(name) {
		case ".wasm":
			engine = zipped(b, text)
		case ".html":
			size := zipped(b, text)
			for _, found := range loads.FindAllStringSubmatch(text, -1) {
				size += zipped(b, site[found[1]])
			}
			heaviest = max(heaviest, size)
		}
	}
	b.ReportMetric(float64(engine)/1000, "engine-kB")
	b.ReportMetric(float64(heaviest)/1000, "page-kB")
	b.ReportMetric(0, "ns/op")
}

func zipped(b *testing.B, text string) int {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	require.NoError(b, err)
	_, err = w.Write([]byte(text))
	require.NoError(b, err)
	require.NoError(b, w.Close())
	return out.Len()
}

// writeLessons writes a course one lesson after the other: what this program
// holds in memory counts for the programs it starts.
func writeLessons(b *testing.B, dir string, n int, text func(i, of int) string) {
	require.NoError(b, os.Mkdir(dir, 0o755))
	for i := range n {
		require.NoError(b, os.WriteFile(filepath.Join(dir, fmt.Sprintf("l%d.md", i)), []byte(text(i, n)), 0o644))
	}
}

// builtCommand is the command as it is now.
func builtCommand(b *testing.B) string {
	file := filepath.Join(b.TempDir(), "readyhand")
	out, err := exec.Command("go", "build", "-trimpath", "-o", file, ".").CombinedOutput()
	require.NoError(b, err, "%s", out)
	return file
}

// madeEngine is the engine that make made.
func madeEngine(b *testing.B) string {
	file := filepath.Join("..", ".bin", "engine.wasm")
	if _, err := os.Stat(file); err != nil {
		b.Skip("left out: make engine makes what this measures")
	}
	return file
}

// memoryDisk is a new folder in memory, or an ordinary one where the system has
// no such disk.
func memoryDisk(b *testing.B) string {
	dir, err := os.MkdirTemp("/dev/shm", "readyhand-bench-")
	if err != nil {
		return b.TempDir()
	}
	b.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// spent is what one run of a program took.
type spent struct{ seconds, processor, mib float64 }

// spend runs a program that makes a folder, and removes the folder again. mib is
// the most memory the program held, as the system counts it; 0 where this does not
// know how to ask.
func spend(b *testing.B, folder string, words ...string) spent {
	c := exec.Command(words[0], words[1:]...)
	began := time.Now()
	out, err := c.CombinedOutput()
	took := time.Since(began)
	require.NoError(b, err, "%s", out)
	require.NoError(b, os.RemoveAll(folder))
	p := c.ProcessState
	return spent{took.Seconds(), (p.UserTime() + p.SystemTime()).Seconds(), peak(p)}
}

// best is the least time of several runs, and the most memory.
func best(runs []spent) spent {
	least := runs[0]
	for _, r := range runs {
		least = spent{min(least.seconds, r.seconds), min(least.processor, r.processor), max(least.mib, r.mib)}
	}
	return least
}

func (s spent) report(b *testing.B) {
	b.ReportMetric(s.seconds, "s")
	b.ReportMetric(s.processor, "cpu-s")
	b.ReportMetric(s.mib, "MiB")
	b.ReportMetric(0, "ns/op")
}

// bare makes the test program turn Markdown into HTML, and print how many seconds
// that took.
const bare = "READYHAND_BARE_MARKDOWN"

func bareMarkdown(b *testing.B, from, to string) float64 {
	require.NoError(b, os.Mkdir(to, 0o755))
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), bare+"="+from+string(filepath.ListSeparator)+to)
	out, err := c.CombinedOutput()
	require.NoError(b, err, "%s", out)
	require.NoError(b, os.RemoveAll(to))
	seconds, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
	require.NoError(b, err)
	return seconds
}

// runBare is the least that a site builder could do: every file read, turned and
// written, on all processors.
func runBare(from, to string) error {
	debug.SetGCPercent(400)
	began := time.Now()
	files, err := os.ReadDir(from)
	if err != nil {
		return err
	}
	md := goldmark.New()
	next := make(chan string, len(files))
	for _, f := range files {
		next <- f.Name()
	}
	close(next)
	failed := make(chan error, len(files))
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			var out bytes.Buffer
			for name := range next {
				out.Reset()
				source, err := os.ReadFile(filepath.Join(from, name))
				if err == nil {
					err = md.Convert(source, &out)
				}
				if err == nil {
					err = os.WriteFile(filepath.Join(to, name+".html"), out.Bytes(), 0o644)
				}
				if err != nil {
					failed <- err
				}
			}
		})
	}
	all.Wait()
	close(failed)
	fmt.Println(time.Since(began).Seconds())
	return <-failed
}
