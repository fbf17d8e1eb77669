package solve_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/plan"
)

// row is a check value: a passage in strings from its 0 (see trial.write) and the
// fingers it is played with, "2 1 | 2 1", one fingering or several with "or"
// between. Each has a source; a row that is marked derived is what we make of one,
// on other strings, in the other direction, longer, at another speed.
type row struct {
	id      string
	use     use
	passage string
	fingers string
	in      in
	source  string
}

// in is where a row holds; what is not said is any: both hands, all fingers, 14.5
// mm, 150, 300 and 600 ms a note, no metre.
type in struct {
	hand    string
	use     string // the fingers in use
	spacing int32
	ms      []int32
	beat    int32 // of so many notes
	root    []int8
	metre   string // the passage is in ABC
}

// use is what a row asks.
type use string

const (
	hard  use = "hard"  // it is the best, placings included
	soft  use = "soft"  // it is one of the three cheapest fingerings, or within the near-tie band
	legal use = "legal" // it can be played when it is asked for
	order use = "order" // one price is less than another
)

// near is the band within which two fingerings are as good as one another.
const near = 12 * plan.Charge

func (r row) key() string {
	key := r.id + " " + r.passage
	if r.in.use != "" {
		key += " with " + r.in.use
	}
	return key
}

func (r row) derived() bool { return strings.HasPrefix(r.source, "derived") }

// fact is a check value that is not one fingering of one passage. holds says what
// is wrong, "" if nothing is.
type fact struct {
	id     string
	use    use
	what   string
	in     in
	source string
	holds  func(x trial) string
}

func (f fact) key() string { return f.id + " " + f.what }

// each tries all that a row is to hold for, and says where it does not.
func (w in) each(t *testing.T, holds func(x trial) string) (wrong []string) {
	hands, tempi, roots, fingers, spacing := []string{"right", "left"}, w.ms, w.root, w.use, w.spacing
	if w.hand != "" {
		hands = []string{w.hand}
	}
	if tempi == nil {
		tempi = []int32{150, 300, 600}
	}
	if roots == nil {
		roots = []int8{root}
	}
	if fingers == "" {
		fingers = "1234"
	}
	if spacing == 0 {
		spacing = 14500
	}
	for _, name := range hands {
		for _, ms := range tempi {
			for _, at := range roots {
				x := try(t, spacing, name, fingers, ms)
				x.beat, x.root, x.metre = w.beat, at, w.metre
				if why := holds(x); why != "" {
					wrong = append(wrong, fmt.Sprintf("%s hand, %d ms, from %s: %s", name, ms, x.rules.Harp.Strings[at].Pitch, why))
				}
			}
		}
	}
	return wrong
}

// holds says what is wrong with a row in one trial.
func (r row) holds(x trial) string {
	wants := strings.Split(r.fingers, " or ")
	if r.use == hard {
		if got := x.answer(r.passage); !slices.Contains(wants, got) {
			return "got " + got
		}
		return ""
	}
	least := plan.None
	for _, want := range wants {
		least = min(least, x.price(r.passage, want))
	}
	switch {
	case least == plan.None:
		return "it cannot be played"
	case r.use == legal || least-x.least(r.passage) <= near || least <= x.third(r.passage):
		return ""
	}
	return fmt.Sprintf("%.1f above %s", float64(least-x.least(r.passage))/float64(plan.Charge), x.answer(r.passage))
}

// checks gives all rows and facts as one list.
func checks() []check {
	var all []check
	for _, r := range slices.Concat(published, derived, inABC) {
		all = append(all, check{r.id, r.key(), r.use, r.derived(), r.source, r.in, r.holds})
	}
	for _, f := range facts {
		all = append(all, check{f.id, f.key(), f.use, strings.HasPrefix(f.source, "derived"), f.source, f.in, f.holds})
	}
	return all
}

type check struct {
	id, key string
	use     use
	derived bool
	source  string
	in      in
	holds   func(x trial) string
}

// TestPublished holds the solver to all check values but the known gaps, and tells
// how many it keeps.
func TestPublished(t *testing.T) {
	var passed, all [2]map[use]int
	for k := range all {
		passed[k], all[k] = map[use]int{}, map[use]int{}
	}
	keys := map[string]bool{}
	for _, c := range checks() {
		assert.False(t, keys[c.key], "twice: %s", c.key)
		assert.NotEmpty(t, c.source, c.key)
		keys[c.key] = true
		kind := 0
		if c.derived {
			kind = 1
		}
		all[kind][c.use]++
		t.Run(c.key, func(t *testing.T) {
			wrong := strings.Join(c.in.each(t, c.holds), "\n")
			reason, gap := knownGaps[c.key]
			switch {
			case wrong == "":
				passed[kind][c.use]++
			case gap:
				t.Logf("known gap: %s\n%s", reason, wrong)
			default:
				t.Errorf("%s: %s, %s\n%s", c.key, c.use, c.source, wrong)
			}
		})
	}
	for kind, what := range []string{"published or in common use", "derived from them"} {
		for _, u := range []use{hard, soft, legal, order} {
			t.Logf("%-28s %-6s %3d of %3d", what, u, passed[kind][u], all[kind][u])
		}
	}
	t.Logf("%d are held by other tests, %d by none", len(elsewhere), len(beyond))
}

// knownGaps are check values that the solver does not keep yet, each with its
// reason.
var knownGaps = map[string]string{}

// TestKnownGaps: a gap has a reason, and one that closes fails.
func TestKnownGaps(t *testing.T) {
	found := 0
	for _, c := range checks() {
		reason, gap := knownGaps[c.key]
		if !gap {
			continue
		}
		found++
		assert.NotEmpty(t, reason, c.key)
		assert.NotEmpty(t, c.in.each(t, c.holds), "%s is no gap any more: take it out", c.key)
	}
	assert.Len(t, knownGaps, found, "a known gap of no check value")
}

// TestHeldElsewhere: check values that other tests hold are named there.
func TestHeldElsewhere(t *testing.T) {
	for _, e := range elsewhere {
		text, err := os.ReadFile(e.file)
		require.NoError(t, err, e.id)
		_, body, ok := strings.Cut(string(text), "func "+e.test+"(")
		assert.True(t, ok, "%s: no %s in %s", e.id, e.test, e.file)
		above := string(text)[:len(text)-len(body)]
		body, _, _ = strings.Cut(body, "\n}\n")
		assert.Contains(t, above[strings.LastIndex(above, "\n}\n")+1:]+body, e.id, e.test)
	}
	for _, b := range beyond {
		assert.NotEmpty(t, b.reason, b.id)
	}
}
