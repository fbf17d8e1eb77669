package agree_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"readyhand/engine/read"
	"readyhand/engine/source"
)

// folder names the environment variable with a folder of more tunes, *.abc, that
// are none of this project's: whoever has a collection can hold our reading of it
// against the two others.
//
//	READYHAND_TUNES=~/tunes go test -v -run Folder ./site/agree
const folder = "READYHAND_TUNES"

// TestFolder prints every tune on which both others agree and ours does not, and
// fails if there are any; with READYHAND_TUNES_ALL set also those that one of the
// others reads otherwise, and what ours remarks.
func TestFolder(t *testing.T) {
	dir := os.Getenv(folder)
	if dir == "" {
		t.Skip("no folder of tunes is named in " + folder)
	}
	o := find(t)
	all := inFolder(t, dir)
	loud := os.Getenv(folder+"_ALL") != ""
	agree, with := map[bool]int{}, map[bool]int{}
	for _, r := range readings(t, o, all) {
		both := same(r.abc2midi, r.abcjs)
		switch {
		case both && same(r.ours, r.abcjs):
			agree[r.written]++
			with[r.written]++
		case both:
			agree[r.written]++
			t.Errorf("%s, %s order: ours and both: %s", r.tune.name, order(r.written), where(r.ours, r.abcjs))
		case loud:
			t.Logf("%s, %s order:%s", r.tune.name, order(r.written), apartFromOurs(r))
		}
	}
	for _, tune := range all {
		_, remarks := read.Tune(source.NewText(tune.abc))
		for _, m := range remarks {
			if loud {
				t.Logf("%s: %v, %s: %q %s %s", tune.name, m.Severity, m.Kind, cut(tune.abc[m.Span.From:m.Span.To]), m.Message, m.Suggestion)
			}
		}
	}
	for _, written := range []bool{true, false} {
		t.Logf("%d tunes in %s order: abc2midi and abcjs agree on %d, and ours with them on %d", len(all), order(written), agree[written], with[written])
	}
}

// apartFromOurs tells where each of the others parts from ours.
func apartFromOurs(r reading) string {
	says := ""
	for _, program := range programs {
		if !same(r.ours, r.by(program)) {
			says += fmt.Sprintf(" ours and %s: %s;", program, where(r.ours, r.by(program)))
		}
	}
	return says
}

func cut(s string) string {
	if len(s) > 60 {
		return s[:60] + "..."
	}
	return s
}

// inFolder are the tunes of all files of a folder.
func inFolder(t testing.TB, dir string) []invented {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.abc"))
	require.NoError(t, err)
	var all []invented
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, abc := range parted(string(text)) {
			first, _, _ := strings.Cut(abc[strings.Index(abc, "X:"):], "\n")
			all = append(all, invented{name: filepath.Base(file) + " " + first, abc: abc})
		}
	}
	return all
}
