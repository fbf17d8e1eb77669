package agree_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/read"
	"readyhand/engine/source"
)

// A tune written out strictly is read as the same notes: by us in both orders, and
// by each of the two others that had the same notes from the text it comes of.
func TestWrittenBack(t *testing.T) {
	o := find(t)
	all, before := allRead(t, o)
	strict := make([]invented, len(all))
	for i, tune := range all {
		first, _ := read.Tune(source.NewText(tune.abc))
		text := read.Write(first)
		again, _ := read.Tune(source.NewText(text))
		w, p := first.Notes()
		w2, p2 := again.Notes()
		if !slices.Equal(w, w2) || !slices.Equal(p, p2) {
			assert.Fail(t, "written back otherwise", "%s: written %s, played %s\n%s\n%s", tune.name,
				where(inOrder(w), inOrder(w2)), where(inOrder(p), inOrder(p2)), tune.abc, text)
		}
		strict[i] = invented{name: tune.name, features: tune.features, abc: text}
	}
	const overlaid = "sample3.abc, 4"         // abcjs sounds an overlay again in the next one, where bars are written out
	const quickened = "tempo inside the line" // abcjs has lengths by it (differences), unless it overlooks it after a line that goes on
	after := readings(t, o, strict)
	for i, r := range before {
		for _, program := range programs {
			if program == "abcjs" && (r.tune.name == overlaid || slices.Contains(r.tune.features, quickened)) {
				continue
			}
			if same(r.ours, r.by(program)) && !same(r.ours, after[i].by(program)) {
				t.Errorf("%v: once written back %s reads it otherwise: %s\n%s\n%s", r, program, where(r.ours, after[i].by(program)), r.tune.abc, after[i].tune.abc)
			}
		}
	}
}
