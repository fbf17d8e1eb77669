package agree_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/read"
	"readyhand/engine/source"
)

func replaced(from, to string) func(string) string {
	return func(text string) string { return strings.ReplaceAll(text, from, to) }
}

// each is how many tunes are made up for each feature: one that has it alone,
// the others among features that all programs read alike.
const each = 3

// apartFrom are features that do not go with others: two ways to write a sign
// that change what the other means.
var apartFrom = []string{"old line break", "two old line breaks in a line", otherOctave}

// tunes makes up all tunes, the same ones every time.
func tunes() []invented {
	var all []invented
	for kind, rows := range [][]feature{cells, heads, forms} {
		for i, row := range rows {
			for n := range each {
				g := &inventor{chance: rand.New(rand.NewPCG(uint64(1000*kind+i), uint64(n)))}
				all = append(all, g.tune(row, n))
			}
		}
	}
	for i, names := range together {
		g := &inventor{chance: rand.New(rand.NewPCG(uint64(10000+i), 0))}
		all = append(all, g.tune(named(names[0]), 0, named(names[1])))
	}
	return all
}

// together are features of which a tune has two for sure: only so they are read
// in more than one way.
var together = [][2]string{
	{"no M: line", "meter on a line"}, {"meter on a line", "an unseen rest of a bar"}, {"meter on a line", "rests of whole bars"},
	{"compound meter inside the line", "quintuplet"}, {"seven flats", "microtones"}, {"repeat", "key inside the line"}, {"unit by the meter, 3/8", "septuplet"},
	{"unit by the meter, 3/8", "quintuplet"}, {"unit by the meter, 3/4", "nonuplet"},
}

func named(name string) feature {
	for _, rows := range [][]feature{cells, heads, forms} {
		for _, row := range rows {
			if row.name == name {
				return row
			}
		}
	}
	panic("no feature is named " + name)
}

// tune makes up one tune with a feature, and more for a higher n.
func (g *inventor) tune(row feature, n int, also ...feature) invented {
	h := heading{number: "X:1", title: []string{"T:" + row.name}, meter: "4/4", unit: "1/8", key: "C", length: f(1, 1), beats: 2, one: f(1, 8)}
	shape := form{text: straightOn, order: "ABCD"}
	var inside []feature
	use := func(r feature) {
		if h.free && strings.Contains(r.name, "rest") && strings.Contains(r.name, "bar") {
			return
		}
		g.used = append(g.used, r.name)
		switch {
		case r.cell != nil:
			inside = append(inside, r)
		case r.head != nil:
			r.head(g, &h)
		default:
			shape = r.form
		}
	}
	use(row)
	for _, r := range also {
		use(r)
	}
	for range 2 * n {
		if shape.over != "" {
			break // the part over it is of plain notes, so the bar is too
		}
		more := g.another(row, shape)
		if !slices.Contains(g.used, more.name) {
			use(more)
		}
	}
	g.unit, g.meter, g.beats, g.key = h.one, h.length, h.beats, h.alters
	text, written, played := g.lay(shape, func(byte) measure {
		var asked []func(*inventor) cell
		for range 1 + n {
			if len(inside) > 0 {
				asked = append(asked, inside[0].cell)
				inside = inside[1:]
			}
		}
		return g.fill(asked...)
	})
	for _, left := range inside {
		g.used = slices.DeleteFunc(g.used, func(name string) bool { return name == left.name })
	}
	for _, notes := range [][]sound{written, played} {
		for i := range notes {
			notes[i].midi += h.shift
		}
	}
	tune := invented{name: fmt.Sprintf("%s, %d", row.name, n+1), features: g.used, abc: h.text(shape, text)}
	if shape.over == "" {
		tune.voices = slices.Clone(written)
	}
	tune.written, tune.played = sorted(written), sorted(played)
	return tune
}

// another picks a feature to go with one: never a second form or meter, and
// nothing that changes the key or the lengths where another voice goes on.
func (g *inventor) another(row feature, shape form) feature {
	for {
		rows := cells
		switch g.chance.IntN(8) {
		case 0:
			rows = heads
		case 1:
			rows = forms
		}
		r := rows[g.chance.IntN(len(rows))]
		switch {
		case slices.Contains(apartFrom, r.name),
			r.cell == nil && (row.cell == nil || slices.ContainsFunc(g.used, isNoCell)),
			shape.others() && r.cell != nil && !isSteady(r),
			r.form.others():
			continue
		}
		return r
	}
}

// others reports whether something else goes on beside the first voice.
func (f form) others() bool { return f.other != "" || f.over != "" }

// isSteady reports a feature of a bar that leaves the key and lengths as they are.
func isSteady(r feature) bool {
	return !slices.ContainsFunc([]string{"3.1.6", "3.1.7", "3.1.8", "3.1.14", "4.6"}, func(s string) bool { return strings.HasPrefix(r.section, s) })
}

func isNoCell(name string) bool {
	return !slices.ContainsFunc(cells, func(r feature) bool { return r.name == name })
}

// text writes the whole tune.
func (h *heading) text(shape form, music string) string {
	lines := append([]string{h.before + h.number}, h.title...)
	if h.meter != "" {
		lines = append(lines, "M:"+h.meter)
	}
	if h.unit != "" {
		lines = append(lines, "L:"+h.unit)
	}
	lines = append(append(append(lines, shape.head...), h.more...), "K:"+h.key, music, h.after)
	text := strings.Join(lines, "\n")
	if h.whole != nil {
		text = h.whole(text)
	}
	return text
}

// What is meant comes out exactly, voice by voice. (Where parts lie over each other
// only their sum is held against it.)
func TestMeant(t *testing.T) {
	for _, tune := range tunes() {
		if tune.voices == nil {
			continue
		}
		ours, _ := read.Tune(source.NewText(tune.abc))
		written, _ := ours.Notes()
		got := []sound{}
		for _, n := range written {
			got = append(got, sound{inTicks(n.Onset), inTicks(n.Length), n.Midi})
		}
		assert.Equal(t, tune.voices, got, "%s\n%s", tune.name, tune.abc)
	}
}

// Every feature occurs, alone and among others; no two tunes are the same; and
// they are the same the next time.
func TestTunesVary(t *testing.T) {
	all := tunes()
	require.Greater(t, len(all), 300)
	alone, among, texts := map[string]bool{}, map[string]int{}, map[string]bool{}
	for _, tune := range all {
		require.NotEmpty(t, tune.written, tune.name)
		texts[tune.abc] = true
		for _, name := range tune.features {
			among[name]++
			alone[name] = alone[name] || len(tune.features) == 1
		}
	}
	assert.Len(t, texts, len(all))
	for _, rows := range [][]feature{cells, heads, forms} {
		for _, row := range rows {
			assert.True(t, alone[row.name], "%s alone", row.name)
			assert.GreaterOrEqual(t, among[row.name], each, row.name)
		}
	}
	assert.Equal(t, all, tunes())
}
