package engine_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
	"readyhand/engine/plan"
)

// able lists, by the words for a note, what the placed hand can play on it on its
// first pass, as the finder has it: in the hand, with a free finger, or with a finger
// that waits already.
func able(a *engine.Answer, i int) (words [][2]string) {
	h := &a.Hands[i]
	for _, x := range a.Finder(i) {
		prepared := false
		for _, g := range h.Score.Gaps {
			for _, site := range g.Sites {
				for k, o := range site.Ornaments {
					prepared = prepared || o.Likelihood > 0 && site.ID(k) == x.ID+"."+x.Ornament
				}
			}
		}
		if x.Fit.Ready <= plan.FingerFree || x.Fit.Ready == plan.FingerKept && prepared {
			words = append(words, [2]string{x.ID, x.Title})
		}
	}
	return words
}

// TestCallsAreInReach: only what the hand can play as it is placed is called, and
// all of that can be; the words for a note tell it from all others of its part.
func TestCallsAreInReach(t *testing.T) {
	for name, tune := range wholeTunes(t) {
		a := engine.Read(tune).Answer("called all")
		c := a.Calls()
		if len(c.List) == 0 {
			continue
		}
		i := slices.IndexFunc(a.Hands, func(h engine.Hand) bool { return h.Rules.Hand.Name == c.Hand })
		h, can := &a.Hands[i], able(&a, i)
		id := map[string]string{} // by the words for a note
		for _, x := range c.Can {
			e := &h.Score.Events[x.Event]
			assert.Empty(t, id[x.Note], "%s: %s is two notes", name, x.Note)
			assert.True(t, c.From <= e.Bar && e.Bar <= c.To, name)
			id[x.Note] = e.Notes[len(e.Notes)-1].ID()
			for _, word := range x.Words {
				assert.Contains(t, can, [2]string{id[x.Note], word}, "%s: %s", name, x.Note)
			}
			for _, other := range can {
				if other[0] == id[x.Note] && other[1] != "grace" {
					assert.Contains(t, x.Words, other[1], "%s: %s", name, x.Note)
				}
			}
		}
		for _, call := range c.List {
			if assert.Contains(t, id, call.Note, name) && call.Word != "plain" {
				assert.Contains(t, can, [2]string{id[call.Note], call.Word}, "%s: turn %d", name, call.Turn)
			}
		}
	}
}

const gates = "X:1\nT:A gate\nM:4/4\nL:1/8\nQ:1/4=120\nK:C\n{e}dedc A4 | d{f}edc A4 | cdef gfed |]\n"

// TestCallsComeAgain: a seed gives one order, another one another; each call comes
// so many beats before its note, no two at once, and every note once before any
// comes again.
func TestCallsComeAgain(t *testing.T) {
	calls := func(sentences ...string) engine.Calls {
		a := engine.Read(gates).Answer(sentences...)
		require.Empty(t, a.Remarks)
		return a.Calls()
	}
	c := calls()
	assert.Equal(t, c, calls(), "the same again")
	assert.Equal(t, c.List, calls("seed 1").List)
	assert.NotEqual(t, c.List, calls("seed 2").List)
	require.Len(t, c.List, 16)
	assert.EqualValues(t, 500, c.BeatMS)
	assert.EqualValues(t, 8*500+2000, c.TurnMS, "two bars, and one of rest")
	seen := map[string]int{}
	for i, x := range c.List {
		start := int32(2000 + i*6000)
		assert.Equal(t, x.Sounds-1500, x.At, "three beats before: two would be less than 1.2 s")
		assert.True(t, start <= x.Sounds && x.Sounds < start+4000, "inside its turn")
		if i < len(c.Can) {
			seen[x.Note]++
		}
	}
	assert.Len(t, seen, min(len(c.Can), 16))
	plain := 0
	for _, x := range calls("turns 64").List {
		if x.Word == "plain" {
			plain++
		}
	}
	assert.True(t, 10 < plain && plain < 33, "about one in three is plain: %d of 64", plain)

	later := calls("calls 3 3", "turns 5", "ahead 1")
	assert.Len(t, later.List, 5)
	assert.Equal(t, [2]int{3, 3}, [2]int{later.From, later.To})
	for _, x := range later.List {
		assert.Equal(t, x.Sounds-500, x.At)
		assert.Contains(t, x.Note, "in bar 3")
	}
	assert.Empty(t, calls("calls 9 9").List)
	nothing := engine.Read(gates).Answer("calls 9 9")
	none := nothing.Calls()
	assert.Contains(t, none.Text(), "In bar 9 ")
}

// TestCallsFollowTheTempo: the clock of the calls is counted in where the part begins,
// and goes on in the tempos of its bars. Crotchets of 500 ms, from bar 2 on of 1,000.
func TestCallsFollowTheTempo(t *testing.T) {
	calls := func(sentences ...string) engine.Calls {
		a := engine.Read(strings.Replace(gates, "| d{f}", "|[Q:1/4=60]d{f}", 1)).Answer(sentences...)
		require.Empty(t, a.Remarks)
		return a.Calls()
	}
	c := calls("ahead 2")
	assert.EqualValues(t, 500, c.BeatMS)
	assert.EqualValues(t, 4*500+4*1000+4*500, c.TurnMS, "a bar quick, one slow, and the rest quick for the next turn")
	late := 0
	for i, x := range c.List {
		begins := int32(2000 + i*8000)
		switch slow := begins + 2000; {
		case x.Sounds < slow+1000:
			assert.Contains(t, []int32{x.Sounds - 1000, x.Sounds - 1500}, x.At, "two beats, or the last of them begun in the slow bar")
		default:
			late++
			assert.GreaterOrEqual(t, x.Sounds-x.At, int32(1500), "slow beats before a slow note")
		}
	}
	assert.Positive(t, late)
	c = calls("calls 2 2", "ahead 1")
	assert.EqualValues(t, 1000, c.BeatMS)
	assert.EqualValues(t, 8*1000, c.TurnMS)
	for _, x := range c.List {
		assert.Equal(t, x.Sounds-1000, x.At)
	}
	assert.EqualValues(t, 800, calls("calls 2 2", "tempo 1/4=150").BeatMS, "in proportion")
}

// TestCallsComeInTime: if nobody says how many beats before its note a call comes, it is
// as many as 1.2 s take (guess), at the tempo of the part; and no sentence begins with a
// digit.
func TestCallsComeInTime(t *testing.T) {
	for tempo, beats := range map[string]int{"1/4=40": 1, "1/4=50": 1, "1/4=60": 2, "1/4=100": 2, "1/4=101": 3, "1/4=184": 4, "1/4=300": 6} {
		a := engine.Read(gates).Answer("tempo "+tempo, "called all")
		c := a.Calls()
		require.NotEmpty(t, c.List)
		assert.Equal(t, beats, c.Ahead, tempo)
		assert.NotRegexp(t, `(^|[.!?:]\s+)[0-9]`, c.Text()[:strings.Index(c.Text(), "\n\n")], tempo)
	}
	a := engine.Read(gates).Answer("tempo 1/4=184", "ahead 2")
	c := a.Calls()
	assert.Equal(t, 2, c.Ahead, "what is asked for is done")
}

// TestCallsKnowTheTune: what is called is first what stands in the tune, anywhere in it;
// all that fits the hand is asked for. Where a tune has no ornament all are called, and
// where none of its own is ready, that is said.
func TestCallsKnowTheTune(t *testing.T) {
	words := func(tune string, sentences ...string) (all []string) {
		a := engine.Read(tune).Answer(sentences...)
		require.Empty(t, a.Remarks)
		c := a.Calls()
		for _, x := range c.Can {
			for _, word := range x.Words {
				if !slices.Contains(all, word) {
					all = append(all, word)
				}
			}
		}
		return all
	}
	own, all := words(gates), words(gates, "called all")
	assert.Equal(t, []string{"cut"}, own)
	assert.Greater(t, len(all), 3)
	assert.Equal(t, own, words(gates, "called tune"))
	assert.Contains(t, words(strings.Replace(gates, "K:C\n", "K:C\n%%ready offer tap\n", 1)), "tap", "offered is as good as written")
	bare := strings.NewReplacer("{e}", "", "{f}", "").Replace(gates)
	assert.Equal(t, words(bare, "called all"), words(bare))
	assert.NotEmpty(t, words(bare))

	a := engine.Read(gates).Answer("fingers 2")
	c := a.Calls()
	assert.Empty(t, c.List)
	assert.Contains(t, c.Text(), "none of the tune's ornaments to play anywhere in this tune, so there is nothing to call. Ask for all that fits the hand.")
}

// TestCalledFingerWaits: a cut is called where the thumb waits for it, and no
// longer once it is never played.
func TestCalledFingerWaits(t *testing.T) {
	has := func(a engine.Answer) bool {
		c := a.Calls()
		return slices.ContainsFunc(c.Can, func(x engine.Callable) bool {
			return strings.HasPrefix(x.Note, "the E in bar 2") && slices.Contains(x.Words, "cut")
		})
	}
	assert.True(t, has(engine.Read(gates).Answer("calls 2 2")))
	assert.False(t, has(engine.Read(gates).Answer("calls 2 2", "cut@7 never")))
}
