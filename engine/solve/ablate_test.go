package solve_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/rule"
	"readyhand/engine/solve"
)

var ablate = flag.Bool("ablate", false, "tell what changes without each rule")

// without are the usual charges less one rule: a charge is 0, but one that is paid
// instead of a new placing's is as much as that, and the thumb does not slide.
func without(id rule.ID) rule.Charges {
	c := rule.Usual()
	switch id {
	case rule.Carried, rule.SameShape:
		c[id] = c[rule.NewPlacing]
	case rule.StretchMost:
		c[id] = c[rule.StretchComfortable]
	case rule.ThumbSlide:
		c[id] = 1e9
	default:
		c[id] = 0
	}
	return c
}

// voice is one hand of a whole tune.
type voice struct {
	name string
	hand engine.Hand
}

// voices gives the tunes of the stories and of the demo course.
func voices(t *testing.T) (all []voice) {
	t.Helper()
	add := func(name, abc string) {
		a := engine.Read(abc).Answer()
		for _, h := range a.Hands {
			all = append(all, voice{name, h})
		}
	}
	for _, pattern := range []string{"../../testdata/stories/*.txt", "../../content/*.md"} {
		names, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, names, pattern)
		for _, name := range names {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			if strings.HasSuffix(name, ".md") {
				for _, piece := range strings.Split(string(text), "```abc\n")[1:] {
					abc, _, _ := strings.Cut(piece, "```")
					add(filepath.Base(name), abc)
				}
				continue
			}
			_, abc, _ := strings.Cut(string(text), "--- tune\n")
			abc, _, _ = strings.Cut(abc, "\n--- ")
			add(filepath.Base(name), abc)
		}
	}
	return all
}

// count is how many notes and ornaments of whole tunes are played otherwise, and
// how many there are.
type count struct{ notes, allNotes, ornaments, allOrnaments int }

// compare counts the written notes of a tune that another table of charges gives
// another finger or another placing, and the ornaments that are played or prepared
// otherwise.
func (n *count) compare(p voice, c rule.Charges) {
	r := p.hand.Rules
	was, s := solve.Plan(p.hand.Score, r)
	r.Charges = c
	is, _ := solve.Plan(p.hand.Score, r)
	for i := range was.Events {
		notes := len(s.Events[i].Notes)
		if n.allNotes += notes; was.Events[i].Stroke != is.Events[i].Stroke || was.Bounded(i) != is.Bounded(i) {
			n.notes += notes
		}
	}
	for j := range was.Gaps {
		for k, fits := range was.Gaps[j].Fits {
			for i, fit := range fits {
				other := is.Gaps[j].Fits[k][i]
				if n.allOrnaments++; fit.Ready != other.Ready || !slices.Equal(fit.Touches, other.Touches) {
					n.ornaments++
				}
			}
		}
	}
}

// TestAblate tells for each rule which check values change without it, those that
// are kept no more and those that only then are, and how many notes and ornaments of
// whole tunes are played otherwise. A rule without which nothing changes has no work.
func TestAblate(t *testing.T) {
	if !*ablate {
		t.Skip("make ablate")
	}
	tunes := voices(t)
	holds := func(c check, charges rule.Charges) bool {
		return len(c.in.each(t, func(x trial) string {
			x.rules.Charges = charges
			return c.holds(x)
		})) == 0
	}
	list := checks()
	usual := make([]bool, len(list))
	for i, c := range list {
		usual[i] = holds(c, rule.Usual())
	}
	fmt.Printf("%-32s %-12s %-10s %s\n", "without", "notes", "ornaments", "check values that change: lost, +won; (derived)")
	for id, row := range rule.Rows() {
		charges := without(rule.ID(id))
		var n count
		for _, p := range tunes {
			n.compare(p, charges)
		}
		var lost, won []string
		for i, c := range list {
			name := c.id
			if c.derived {
				name = "(" + name + ")"
			}
			switch now := holds(c, charges); {
			case usual[i] && !now:
				lost = append(lost, name)
			case !usual[i] && now:
				won = append(won, "+"+name)
			}
		}
		says := strings.Join(slices.Concat(slices.Compact(lost), slices.Compact(won)), ", ")
		if says == "" && n.notes == 0 && n.ornaments == 0 {
			says = "changes nothing"
		}
		fmt.Printf("%-32s %4d of %4d %3d of %3d %s\n", row.Name, n.notes, n.allNotes, n.ornaments, n.allOrnaments, says)
	}
}
