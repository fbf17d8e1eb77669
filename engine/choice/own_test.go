package choice

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/ornament"
)

// lines obeys a tune's own lines.
func lines(t *testing.T, said ...string) Choice {
	var c Choice
	for _, s := range said {
		next, fault := Line(c, s)
		require.Nil(t, fault, "%s: %+v", s, fault)
		c = next
	}
	return c
}

// A family's word stands for its ornaments, all for those of the families shown.
func TestOffersOfFamilies(t *testing.T) {
	names := func(said string) (list []string) {
		for _, o := range saying(t, said).Offers() {
			assert.True(t, o.Among)
			list = append(list, o.Name)
		}
		return list
	}
	var usual, irish, welsh []string
	for _, r := range ornament.Rows() {
		switch r.Family {
		case ornament.Irish:
			irish = append(irish, r.Name)
		case ornament.Welsh:
			welsh = append(welsh, r.Name)
		default:
			usual = append(usual, r.Name)
		}
	}
	assert.Equal(t, irish, names("offer irish"))
	assert.Equal(t, usual, names("offer all"))
	assert.Equal(t, append(append([]string{}, usual...), welsh...), names("offer all;families welsh"))
	assert.Equal(t, usual, names("families irish;offer all;families usual"))
	assert.Equal(t, []Offer{{Name: "cut"}, {Name: "tap", Long: true}, {Name: "casluth", Written: 3}}, saying(t, "offer cut casluth@3;offer tap on long notes").Offers())
	for _, o := range saying(t, "offer welsh on long notes").Offers() {
		assert.True(t, o.Long)
	}
}

func TestOwnOrnaments(t *testing.T) {
	c := lines(t, "ornament Swirl +2 +1 0", "ornament lead-on 0 -1 -2 after", "offer swirl lead-on@3", "swirl@4 often", "lead-on@4 on", "house swirl 1 2 3")
	own := c.Ornaments()[len(ornament.Rows()):]
	require.Len(t, own, 2)
	assert.Equal(t, ornament.NewOwn("swirl", []int8{2, 1, 0}, ornament.OnBeat), own[0])
	assert.Equal(t, ornament.NewOwn("lead-on", []int8{0, -1, -2}, ornament.Spread), own[1])
	assert.Equal(t, "house swirl 1 2 3;offer swirl lead-on@3;swirl@4 often;lead-on@4 on", c.String(), "what the tune defines is not said again")
	assert.Equal(t, []Offer{{Name: "swirl"}, {Name: "lead-on", Written: 3}}, c.Offers())
	assert.Equal(t, "lead-on", c.Site(4, ornament.Spread).Chosen)
	assert.Equal(t, []House{{Ornament: "swirl", Ways: [][]int8{{0, 1, 2}}}}, c.Houses())
	back, dropped := c.Nothing().Read(c.String())
	assert.Empty(t, dropped)
	assert.Equal(t, c, back)
	_, dropped = Parse(c.String())
	assert.Len(t, dropped, 4, "elsewhere nobody knows it")
}

// A page knows the ornaments of its tunes, each by its block; two may go by one name.
func TestOwnOrnamentsOfAPage(t *testing.T) {
	first, second := lines(t, "ornament swirl +2 +1 0"), lines(t, "ornament swirl 0 +1 +2 after")
	page := Choice{}.Knowing("b1", first).Knowing("b2", second)
	assert.True(t, page.Empty())
	said, dropped := page.Read("swirl@b1-3 on;swirl@b2-3 on;offer@b2 swirl")
	require.Empty(t, dropped)
	assert.Equal(t, "offer@b2 swirl;swirl@b1-3 on;swirl@b2-3 on", said.String())
	assert.Equal(t, "swirl", said.InBlock("b1").Over(first).Site(3, ornament.OnBeat).Chosen)
	assert.Equal(t, "swirl", said.InBlock("b2").Over(second).Site(3, ornament.Spread).Chosen)
	row, _ := said.InBlock("b2").Ornament("swirl")
	assert.Equal(t, ornament.Spread, row.Time)
	assert.Equal(t, "house swirl", said.Subject("house swirl 1 2 3"))
	said, fault := Do(said.Kept(), "swirl@b1-3 on")
	assert.Nil(t, fault, "it is still known when everything is put back")
	assert.Equal(t, "swirl@b1-3 on", said.String())
}

func TestFaultsOfOwnOrnaments(t *testing.T) {
	c := lines(t, "ornament swirl +2 +1 0")
	for _, row := range []struct{ said, message, suggestion string }{
		{"ornament", "has no name", "ornament swirl +2 +1 0"},
		{"ornament +1 0", `"+1" cannot be the name`, "small letters"},
		{"ornament two--words +1 0", "cannot be the name", "hyphen"},
		{"ornament swirl +1 0", `"swirl" is taken`, "a name of its own"},
		{"ornament cut +1 0", `"cut" is taken`, "a name of its own"},
		{"ornament casluth +1 0", "is taken", "a name of its own"},
		{"ornament mordent +1 0", "is taken", "a name of its own"}, // ABC 2.1, 4.14
		{"ornament finger +1 0", "is taken", "a name of its own"},
		{"ornament irish +1 0", "is taken", "a name of its own"},
		{"ornament all +1 0", "is taken", "a name of its own"},
		{"ornament twirl", "at least one stroke", "twirl +1 0 -1 0"},
		{"ornament twirl 0", "at least one stroke", "twirl +1 0 -1 0"},
		{"ornament twirl 1 0", `"1" is not a string`, "+1 the next above"},
		{"ornament twirl +1 x 0", `"x" is not a string`, "+1 the next above"},
		{"ornament twirl +40 0", `"+40" is not a string`, "+1 the next above"},
		{"ornament twirl +1 0 -1", "ends on its note", "Write 0 last"},
		{"ornament twirl +1 0 after", "begins with the note", "0 first"},
		{"ornament twirl 0 0 0 0 0 0 0 0 0 0 0 0 0", "at most 12 strokes", "notes of the tune"},
	} {
		after, fault := Line(c, row.said)
		if assert.NotNil(t, fault, row.said) {
			assert.Contains(t, fault.Message, row.message, row.said)
			assert.Contains(t, fault.Suggestion, row.suggestion, row.said)
		}
		assert.Equal(t, c, after, row.said)
	}
}
