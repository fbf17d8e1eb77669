package engine_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"readyhand/engine"
)

const walking = "X:1\nT:Walking\nM:6/8\nL:1/8\nQ:3/8=100\nK:G\n%%ready offer tap@2\n|: G2 B d2 B | !cut!c2 A F2 A | !roll!G2 B {a}d2 g | [GBd]3 [Bd]3 :|\n"

// TestPrompt: what is set at once, and what comes later, leave a page that answers a
// visit as Do leaves it, byte for byte, whether the rest is asked for after each
// command or only in the end; and a switch sets no line of the picture as a whole.
func TestPrompt(t *testing.T) {
	commands := []string{"cut@b1-5 off", "cut@b1-5 on", "cut@b1-5 never", "tap@b1-2 on", "roll@b1-9 often", "why@b1-5", "why@b1-9", "why off",
		"finger@b1-3 2", "finger@b1-3 any", "finger@b1-14 3", "finger@b1-14 any", "set@b1-5", "undo", "as written", "tempo@b1 1/4=60", "tuning C", "seed@b1 5", "turns@b1 4", "cut@b2-1 off",
		"prepare@b1 always", "house cut 1 2", "lifted on", "transpose@b1 2"}
	sets := 0
	rapid.Check(t, func(t *rapid.T) {
		all, now := engine.Open([]string{walking, falling}, "", ""), engine.Open([]string{walking, falling}, "", "")
		parts := map[string]string{}
		shown := func(p engine.Page) map[string]string {
			found := map[string]string{}
			for i := range 2 {
				for _, part := range p.Parts(i) {
					found[part.ID] = part.HTML
				}
			}
			return found
		}
		parts = shown(all)
		delays := rapid.Bool().Draw(t, "delays")
		for _, command := range rapid.SliceOfN(rapid.SampledFrom(commands), 1, 8).Draw(t, "commands") {
			var c, whole engine.Change
			all, whole = all.Do(command)
			now, c = now.Prompt(command)
			sets += len(c.Sets)
			for _, s := range c.Sets {
				parts[s.Part] = set(t, parts[s.Part], s)
			}
			for _, part := range c.Parts {
				if !strings.HasSuffix(part.ID, "-says") {
					parts[part.ID] = part.HTML
				}
			}
			assert.Equal(t, []string{whole.Says, whole.Address, whole.Keep, whole.Focus}, []string{c.Says, c.Address, c.Keep, c.Focus})
			if !delays {
				for _, part := range now.Rest() {
					parts[part.ID] = part.HTML
				}
			}
		}
		for _, part := range now.Rest() {
			parts[part.ID] = part.HTML
		}
		require.Equal(t, shown(all), parts)
	})
	require.Greater(t, sets, 50, "nothing is set in elements, so this test is blind")

	_, c := engine.Open([]string{walking}, "", "").Prompt("cut@b1-5 off")
	require.NotEmpty(t, c.Sets)
	for _, part := range c.Parts {
		assert.NotContains(t, part.ID, "-line")
	}
}

var tagOrText = regexp.MustCompile(`<[^>]*>|[^<]+`)

// set does to markup what a browser does to its elements.
func set(t require.TestingT, markup string, s engine.Set) string {
	tokens, element := tagOrText.FindAllString(markup, -1), -1
	for i, token := range tokens {
		if token[0] != '<' || token[1] == '/' {
			continue
		}
		if element++; element < s.Element {
			continue
		}
		if s.Name != "" {
			attribute := regexp.MustCompile(` ` + s.Name + `="[^"]*"`)
			require.Regexp(t, attribute, token)
			tokens[i] = attribute.ReplaceAllLiteralString(token, " "+s.Name+"="+`"`+strings.NewReplacer("&", "&amp;", `"`, "&quot;").Replace(s.Value)+`"`)
		} else {
			require.NotEqual(t, "<br>", token, "an element that can hold no text")
			require.True(t, strings.HasPrefix(tokens[i+2], "</"), "an element with more than text in it: "+strconv.Quote(token))
			tokens[i+1] = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s.Value)
		}
		return strings.Join(tokens, "")
	}
	require.Fail(t, "no such element")
	return ""
}
