package agree_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// sound is one note in ticks, 480 to a quarter, from the start of its voice.
// Voices are laid over one another: programs number them differently.
type sound struct{ onset, length, midi int }

const whole = 4 * 480 // ticks

// near is how close onsets and lengths must be: closer than the shortest length
// that is used, wider than what programs round off in tuplets.
const near = 8

// sorted puts notes in the order of time; those that begin nearly together
// begin together, and are in the order of their pitch.
func sorted(notes []sound) []sound {
	slices.SortFunc(notes, func(a, b sound) int { return a.onset - b.onset })
	from := 0
	for i := range notes {
		if notes[i].onset-notes[from].onset >= near {
			from = i
		}
		notes[i].onset = notes[from].onset
	}
	slices.SortFunc(notes, func(a, b sound) int {
		if a.onset != b.onset {
			return a.onset - b.onset
		}
		if a.midi != b.midi {
			return a.midi - b.midi
		}
		return a.length - b.length
	})
	return notes
}

// same reports whether two sorted readings are one. A program that gave up has
// read no note.
func same(a, b []sound) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].midi != b[i].midi || apart(a[i].onset, b[i].onset) || apart(a[i].length, b[i].length) {
			return false
		}
	}
	return true
}

func apart(a, b int) bool { return a-b > near || b-a > near }

// where tells the first place at which two readings part, for a message.
func where(a, b []sound) string {
	for i := range max(len(a), len(b)) {
		if i >= len(a) || i >= len(b) || !same(a[i:i+1], b[i:i+1]) {
			return fmt.Sprintf("note %d of %d and %d: %v and %v", i+1, len(a), len(b), some(a, i), some(b, i))
		}
	}
	return "nowhere"
}

func some(notes []sound, from int) []sound {
	return notes[min(from, len(notes)):min(from+4, len(notes))]
}

// others are the other readers on this machine.
type others struct{ abc2midi, midi2abc, node, abcjs string }

// find looks for the other readers. Without them nothing can be compared: that
// is said, and on a build server it is a failure.
func find(t testing.TB) others {
	t.Helper()
	var o others
	var missing []string
	look := func(name string, to *string) {
		path, err := exec.LookPath(name)
		if err != nil {
			missing = append(missing, name)
		}
		*to = path
	}
	look("abc2midi", &o.abc2midi)
	look("midi2abc", &o.midi2abc)
	look("node", &o.node)
	var err error
	o.abcjs, err = filepath.Abs("../../.cache/abcjs/node_modules/abcjs")
	require.NoError(t, err)
	if _, err := os.Stat(o.abcjs); err != nil {
		missing = append(missing, "abcjs")
	}
	if len(missing) > 0 {
		says := "not compared with other readers, for want of " + strings.Join(missing, ", ") + ": make tools installs them"
		if ci := os.Getenv("CI"); ci == "true" || ci == "1" {
			require.Fail(t, says)
		}
		t.Skip(says)
	}
	return o
}

// byAbcjs reads texts with abcjs, all in one process.
func (o others) byAbcjs(t testing.TB, texts []string) [][]sound {
	t.Helper()
	in, err := json.Marshal(map[string]any{"texts": texts})
	require.NoError(t, err)
	c := exec.Command(o.node, "other.js", o.abcjs)
	c.Stdin, c.Stderr = bytes.NewReader(in), os.Stderr
	out, err := c.Output()
	require.NoError(t, err)
	var all [][][3]float64
	require.NoError(t, json.Unmarshal(out, &all))
	require.Len(t, all, len(texts))
	read := make([][]sound, len(all))
	for i, notes := range all {
		if notes == nil {
			continue
		}
		read[i] = []sound{}
		for _, n := range notes {
			read[i] = append(read[i], sound{ticks(n[0]), ticks(n[1]), int(n[2])})
		}
		sorted(read[i])
	}
	return read
}

func ticks(time float64) int { return int(math.Round(time * whole)) }

// byAbc2midi reads texts with abc2midi, and the MIDI files that it writes with
// midi2abc.
func (o others) byAbc2midi(t testing.TB, texts []string) [][]sound {
	t.Helper()
	read := make([][]sound, len(texts))
	next := make(chan int)
	var workers sync.WaitGroup
	for range runtime.NumCPU() {
		dir := t.TempDir()
		workers.Go(func() {
			for i := range next {
				read[i] = o.oneByAbc2midi(dir, texts[i])
			}
		})
	}
	for i := range texts {
		next <- i
	}
	close(next)
	workers.Wait()
	return read
}

// oneByAbc2midi gives nil where abc2midi writes no file. What it returns to the
// shell says nothing.
func (o others) oneByAbc2midi(dir, text string) []sound {
	abc, midi := filepath.Join(dir, "a.abc"), filepath.Join(dir, "a.mid")
	os.Remove(midi)
	if os.WriteFile(abc, []byte(text), 0o600) != nil {
		return nil
	}
	exec.Command(o.abc2midi, abc, "-o", midi, "-silent", "-NGRA", "-NFER", "-NGUI").Run()
	out, err := exec.Command(o.midi2abc, midi, "-midigram").Output()
	if err != nil && len(out) == 0 {
		return nil
	}
	notes := []sound{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		if len(words) != 6 || words[0] == "Header" {
			continue
		}
		from, _ := strconv.Atoi(words[0])
		to, _ := strconv.Atoi(words[1])
		midi, _ := strconv.Atoi(words[4])
		notes = append(notes, sound{from - 1, to - from + 1, midi}) // it strikes one tick late
	}
	return sorted(notes)
}
