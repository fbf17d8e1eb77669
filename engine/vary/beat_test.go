package vary

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine/tune"
)

// Between the beats lies what begins on none of them: a beat is a quarter, in 3/8,
// 6/8 and 9/8 a dotted quarter (common practice, no source).
func TestBetweenTheBeats(t *testing.T) {
	six := tune.Meter{Beats: 6, Unit: 8}
	for _, row := range []struct {
		why, text string
		meter     tune.Meter
		pickup    bool
		want      string // x the bar or its half, - another beat, . between
	}{
		{"eighths in four", "C4:1/8 D4:1/8 C4:1/8 D4:1/8", tune.Meter{Beats: 4, Unit: 4}, false, "x.-."},
		{"a dotted quarter in four", "C4:3/8 D4:1/8 C4:1/4 D4:1/4", tune.Meter{Beats: 4, Unit: 4}, false, "x.x-"},
		{"a jig", "C4:1/8 D4:1/8 C4:1/8 D4:1/8 C4:1/8 D4:1/8", six, false, "x..x.."},
		{"a jig's pickup is counted from the bar line", "C4:1/8", six, true, "."},
		{"three of them are a beat", "C4:1/8 D4:1/8 C4:1/8", six, true, "x.."},
		{"a waltz's pickup of a quarter", "C4:1/4", tune.Meter{Beats: 3, Unit: 4}, true, "-"},
		{"three eighths are one beat", "C4:1/8 D4:1/8 C4:1/8", tune.Meter{Beats: 3, Unit: 8}, false, "x.."},
		{"a free meter has no beats", "C4:1/8 D4:1/8 C4:1/8", tune.Meter{}, false, "xxx"},
	} {
		tn := written(t, row.text)
		tn.Meter = row.meter
		v := &tn.Voices[0]
		v.Bars = 1
		for i := range v.Events {
			if row.pickup {
				v.Events[i].Bar = 0
			}
		}
		s, _ := usual(t, tn, "")
		got := ""
		for _, e := range s.Events {
			got += "x-."[e.Weak : e.Weak+1]
		}
		assert.Equal(t, row.want, got, row.why)
	}
}
