package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plan -finder -json lists for every note every ornament whose name the trade shares:
// exact here for two notes, 500 ms apart, on a harp whose strings end a third above.
func TestFinderJSON(t *testing.T) {
	const tune = "X:1\nL:1/4\nQ:1/4=120\nK:C\n%%ready strings 19\n%%ready lowest E4\n{e}d c|]\n"
	code, out, said := readyhand(tune, "plan", "-finder", "-json", "-")
	assert.Equal(t, done, code, said)
	var got struct {
		Hands []struct {
			Finder []map[string]any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Hands, 1)
	by, notes := map[string]map[string]any{}, map[string]int{}
	for _, x := range got.Hands[0].Finder {
		assert.Len(t, x, 6)
		by[x["note"].(string)+"."+x["ornament"].(string)] = x
		notes[x["note"].(string)]++
		assert.Equal(t, x["readiness"] == "no time", x["extra"] == nil, x)
		assert.True(t, x["fingers"] == nil || x["readiness"] != "no time", x)
	}
	assert.Len(t, notes, 2)
	assert.Equal(t, notes["1"], notes["2"], "every ornament is listed for every note")
	assert.Greater(t, notes["1"], 12)
	assert.Equal(t, map[string]any{"note": "1", "ornament": "cut", "readiness": "finger kept", "extra": 0.0, "instead": nil, "fingers": []any{1.0, 2.0}}, by["1.cut"], "as sites has it")
	assert.Equal(t, "in the hand", by["2.cut"]["readiness"])
	assert.Equal(t, []any{2.0, 3.0}, by["2.cut"]["fingers"])
	assert.Equal(t, "no time", by["2.octave-grace-below"]["readiness"], "the harp has no string for it")
	assert.NotContains(t, by, "2.leagadh-anuas", "an old grace is not looked for unless it is asked for")

	_, plain, _ := readyhand(tune, "plan", "-json", "-")
	assert.NotContains(t, plain, `"finder"`)
	_, with, said := readyhand(tune, "plan", "-finder", "-json", "-families", "irish", "-")
	assert.Contains(t, with, `"ornament":"leagadh-anuas"`, said)
	code, words, _ := readyhand(tune, "plan", "-finder", "-")
	assert.Equal(t, done, code)
	assert.Contains(t, words, "note 2, the C in bar 1\n    in the hand: cut")
	assert.Contains(t, words, "from this one placing")
}
