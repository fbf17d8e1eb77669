package tune_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"readyhand/engine/tune"
)

// paced is four crotchets, the last two at another tempo, played twice, and then the
// first two once more.
func paced(first, second int32) tune.Tune {
	v := tune.Voice{Events: []tune.Event{event(0, false, "C4"), event(1, false, "D4"), event(2, false, "E4"), event(3, false, "F4")}}
	v.Marks = []tune.Mark{{Event: 2, Kind: tune.NewTempo, Tempo: tune.Tempo{QuarterMS: second}}}
	for i, e := range []int{0, 1, 2, 3, 0, 1, 2, 3, 0, 1} {
		v.Played = append(v.Played, tune.Step{Event: e, Onset: tune.NewFrac(int64(i), 4)})
	}
	t := tune.Tune{Tempo: tune.Tempo{QuarterMS: first}, Voices: []tune.Voice{v}}
	t.Pace()
	return t
}

// Sums by hand: crotchets of 1,000 and of 500 ms.
func TestClock(t *testing.T) {
	tn := paced(1000, 500)
	at := tune.NewFrac
	assert.Equal(t, []tune.Pace{{At: at(1, 2), QuarterMS: 500}}, tn.Changes)
	c := tn.Clock(1000)
	assert.Equal(t, tune.Clock{{At: at(0, 1), QuarterMS: 1000}, {At: at(1, 2), QuarterMS: 500}, {At: at(1, 1), QuarterMS: 1000}, {At: at(3, 2), QuarterMS: 500}, {At: at(2, 1), QuarterMS: 1000}}, c)
	for _, row := range []struct {
		from, length tune.Frac
		ms           int32
		why          string
	}{
		{at(0, 1), at(1, 4), 1000, "a crotchet"},
		{at(1, 4), at(1, 2), 1500, "a minim over the change"},
		{at(3, 8), at(1, 4), 750, "half a crotchet on either side"},
		{at(1, 2), at(1, 4), 500, "from the change on"},
		{at(3, 4), at(1, 4), 500, "up to the repeat"},
		{at(7, 8), at(3, 4), 2*125 + 2000 + 250, "a whole slow half, and some of either quick one"},
		{at(9, 4), at(1, 4), 1000, "the last note"},
		{at(1, 2), at(1, 12), 167, "a triplet, to the nearest"},
		{at(1, 2), at(0, 1), 0, "nothing"},
	} {
		assert.Equal(t, row.ms, c.Lasts(row.from, row.length), row.why)
	}
	assert.Equal(t, int32(500), c.Quarter(at(5, 8)))
	assert.Equal(t, at(5, 8), c.After(at(3, 8), 750))
	assert.Equal(t, at(3, 8), c.After(at(5, 8), -750))
	assert.Equal(t, at(-1, 8), c.After(at(0, 1), -500), "before the first note the first tempo holds")
	assert.Equal(t, at(1, 2), c.After(at(1, 4), 1000))
	assert.Equal(t, at(1, 4), c.After(at(1, 2), -1000))
}

// A tempo that is asked for is the first one's; what comes later is in proportion.
func TestProportion(t *testing.T) {
	tn := paced(1000, 500)
	assert.Equal(t, []tune.Pace{{At: tune.NewFrac(0, 1), QuarterMS: 652}, {At: tune.NewFrac(1, 2), QuarterMS: 326}}, tn.Tempos(652))
	assert.Equal(t, int32(326), tn.Clock(652).Quarter(tune.NewFrac(1, 2)))
	assert.Equal(t, int32(20), tn.Clock(21).Quarter(tune.NewFrac(1, 2)), "not quicker than anyone can ask for")
	same := paced(600, 600)
	assert.Empty(t, same.Changes)
	assert.Equal(t, tune.Clock{{At: tune.NewFrac(0, 1), QuarterMS: 400}}, same.Clock(400))
}

// From a time so long and back is the same time; and as long as it lasts is after it.
func TestThereAndBackByClock(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tn := paced(rapid.Int32Range(50, 6000).Draw(t, "first"), rapid.Int32Range(50, 6000).Draw(t, "second"))
		c := tn.Clock(tn.Tempo.QuarterMS)
		from := tune.NewFrac(rapid.Int64Range(0, 40).Draw(t, "from"), rapid.Int64Range(1, 16).Draw(t, "part"))
		ms := rapid.Int32Range(0, 30000).Draw(t, "ms")
		to := c.After(from, ms)
		assert.Equal(t, from, c.After(to, -ms))
		assert.Equal(t, ms, c.Lasts(from, to.Sub(from)))
	})
}
