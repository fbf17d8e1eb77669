// Package agree_test holds our reading of ABC against two other programs,
// abc2midi and abcjs, and against invented tunes of which it is known what they
// mean. It prints the table of what they differ in.
package agree_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"readyhand/engine/read"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// examples are the tunes that come with Debian's packages abcmidi and abcm2ps,
// 23 files, each tune with what stands before the first one of its file.
func examples(t testing.TB) []invented {
	t.Helper()
	var all []invented
	files := 0
	for _, name := range []string{"abcmidi", "abcm2ps"} {
		found, err := filepath.Glob(filepath.Join("/usr/share/doc", name, "examples/*.abc"))
		require.NoError(t, err)
		for _, file := range found {
			files++
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			for i, abc := range parted(string(text)) {
				all = append(all, invented{name: fmt.Sprintf("%s, %d", filepath.Base(file), i+1), abc: abc})
			}
		}
	}
	if files != 23 {
		says := fmt.Sprintf("%d example files of the packages abcmidi and abcm2ps are here, not 23: make tools installs them", files)
		if ci := os.Getenv("CI"); ci == "true" || ci == "1" {
			require.Fail(t, says)
		}
		t.Log(says)
	}
	return all
}

var tuneStart = regexp.MustCompile(`(?m)^X:`)

// parted parts a file into its tunes.
func parted(text string) []string {
	starts := tuneStart.FindAllStringIndex(text, -1)
	if len(starts) == 0 {
		return []string{text}
	}
	var all []string
	for i, s := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		all = append(all, text[:starts[0][0]]+text[s[0]:end])
	}
	return all
}

// ours is the reading of this project.
func ours(abc string) (written, played []sound) {
	t, _ := read.Tune(source.NewText(abc))
	w, p := t.Notes()
	return inOrder(w), inOrder(p)
}

func inOrder(notes []tune.Heard) []sound {
	all := []sound{}
	for _, n := range notes {
		all = append(all, sound{inTicks(n.Onset), inTicks(n.Length), n.Midi})
	}
	return sorted(all)
}

// A reading of one tune in one order by all three.
type reading struct {
	tune     *invented
	written  bool
	meant    []sound // nil for an example
	ours     []sound
	abc2midi []sound
	abcjs    []sound
}

// readings has every tune read by all, in written and in played order.
func readings(t testing.TB, o others, all []invented) []reading {
	t.Helper()
	var rows []reading
	for _, written := range []bool{true, false} {
		var midi, js []string
		for _, tune := range all {
			midi = append(midi, preparing{written: written, midi: true}.text(tune.abc))
			js = append(js, preparing{written: written, graces: true}.text(tune.abc))
		}
		a, b := o.byAbc2midi(t, midi), o.byAbcjs(t, js)
		for i := range all {
			r := reading{tune: &all[i], written: written, meant: all[i].played, abc2midi: a[i], abcjs: b[i]}
			w, p := ours(all[i].abc)
			r.ours = p
			if written {
				r.ours, r.meant = w, all[i].written
			}
			rows = append(rows, r)
		}
	}
	return rows
}

// everything is read once for all tests.
var everything struct {
	sync.Once
	tunes []invented
	rows  []reading
}

// allRead has all tunes read as they are.
func allRead(t testing.TB, o others) ([]invented, []reading) {
	t.Helper()
	everything.Do(func() {
		everything.tunes = append(tunes(), examples(t)...)
		everything.rows = readings(t, o, everything.tunes)
	})
	return everything.tunes, everything.rows
}

// by gives the reading of another program.
func (r reading) by(program string) []sound {
	if program == "abcjs" {
		return r.abcjs
	}
	return r.abc2midi
}

// has reports whether a row of the table speaks of this tune: of an example by
// its name, of others by all features that it names.
func (r reading) has(where string) bool {
	if r.meant == nil {
		return r.tune.name == where
	}
	for feature := range strings.SplitSeq(where, " + ") {
		switch {
		case feature == anyRepeat && len(r.tune.written) != len(r.tune.played):
		case feature == anyNewKey && slices.ContainsFunc(r.tune.features, isNew("key")):
		case feature == anyNewMeter && slices.ContainsFunc(r.tune.features, isNew("meter")):
		case slices.Contains(r.tune.features, feature):
		default:
			return false
		}
	}
	return true
}

// What several features have in common, for a row that speaks of all of them.
const (
	anyRepeat   = "any repeat"
	anyNewKey   = "any new key"
	anyNewMeter = "any new meter"
)

func isNew(word string) func(feature string) bool {
	return func(feature string) bool {
		return strings.Contains(feature, word) && (strings.HasSuffix(feature, " inside the line") || strings.HasSuffix(feature, " on a line"))
	}
}

func (r reading) String() string {
	words := []string{r.tune.name, order(r.written) + " order"}
	if len(r.tune.features) > 1 {
		words = append(words, "with "+strings.Join(r.tune.features, "; "))
	}
	return strings.Join(words, ", ")
}

func order(written bool) string {
	if written {
		return "written"
	}
	return "played"
}

var programs = []string{"abc2midi", "abcjs"}

// Where both others agree ours agrees; where they differ a row of the table says
// what the standard has. What an invented tune means, ours reads in any case.
func TestAgree(t *testing.T) {
	o := find(t)
	_, all := allRead(t, o)
	used := make([]int, len(differences))
	shown := make([]bool, len(differences))
	agree, with := map[bool]int{}, map[bool]int{}
	for _, r := range all {
		if r.meant != nil && !same(r.meant, r.ours) {
			t.Errorf("%v: not what was meant: %s\n%s", r, where(r.meant, r.ours), r.tune.abc)
		}
		both := same(r.abc2midi, r.abcjs)
		if both {
			agree[r.written]++
			if same(r.ours, r.abcjs) {
				with[r.written]++
			}
		}
		if both && !same(r.ours, r.abcjs) {
			i := slices.IndexFunc(differences, func(d difference) bool { return d.program == "both" && r.has(d.where) })
			if i < 0 {
				t.Errorf("%v: both others agree, ours does not: %s\n%s", r, where(r.abcjs, r.ours), r.tune.abc)
				continue
			}
			used[i]++
			shown[i] = true
			continue
		}
		for _, program := range programs {
			if same(r.ours, r.by(program)) {
				continue
			}
			var may []int
			for i, d := range differences {
				if (d.program == program || d.program == "both" || d.program == "each") && r.has(d.where) {
					may = append(may, i)
				}
			}
			for _, i := range may {
				used[i]++
				shown[i] = shown[i] || len(may) == 1
			}
			if len(may) == 0 {
				t.Errorf("%v: no row says why %s differs: ours and theirs: %s\n%s", r, program, where(r.ours, r.by(program)), r.tune.abc)
			}
		}
	}
	for i, d := range differences {
		if !shown[i] {
			t.Errorf("this row is of no use, no tune shows it alone: %+v", d)
		}
	}
	t.Log(table(len(all)/2, agree, with, used))
}

// table is what make test shows.
func table(tunes int, agree, with map[bool]int, used []int) string {
	var out strings.Builder
	for _, written := range []bool{true, false} {
		fmt.Fprintf(&out, "\n%d tunes in %s order: abc2midi and abcjs agree on %d, and ours with them on %d", tunes, order(written), agree[written], with[written])
	}
	out.WriteString("\nWhere they do not, ABC 2.1 decides:\n")
	for i, d := range differences {
		fmt.Fprintf(&out, "%4d  %-8s  %-44s %-10s %s\n", used[i], d.program, d.where, d.section, d.why)
	}
	return out.String()
}
