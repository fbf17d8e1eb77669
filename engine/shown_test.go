package engine_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"readyhand/engine"
)

// cannotBe are the ornaments that no hand can be asked for in one of the five ways,
// and why.
var cannotBe = []struct{ ornament, ready, why string }{
	{"trill", "finger free", "its strokes follow the note and each other after 130 ms, and a finger that drops in comes 400 ms or more after a stroke of its placing"},
}

// brackets are what is said of an ornament in a list.
var brackets = regexp.MustCompile(` \([^)]*\)`)

// TestEveryOrnamentIsShown: the finder of some story shows each ornament of the
// catalogue in the hand, with a finger free, with one kept, placed again and without
// time; but for what cannot be.
func TestEveryOrnamentIsShown(t *testing.T) {
	kinds := []string{"in the hand", "finger free", "finger kept", "placed again", "no time"}
	shown := map[[2]string][]string{}
	for _, name := range files(t, "../testdata/stories/*.txt") {
		_, part := chapters(t, file(t, name))
		for line := range strings.SplitSeq(part["finder"], "\n") {
			if !strings.HasPrefix(line, "    ") {
				continue
			}
			for part := range strings.SplitSeq(brackets.ReplaceAllString(strings.TrimPrefix(line, "    "), ""), "; ") {
				kind, list, _ := strings.Cut(part, ": ")
				if kind == "no finger is left for it" || kind == "wider than your hand" {
					kind = "no time" // as plan -json has it
				}
				if !slices.Contains(kinds, kind) {
					continue // it does not fit for other reasons
				}
				for title := range strings.SplitSeq(list, ", ") {
					pair := [2]string{title, kind}
					if story := filepath.Base(name); !slices.Contains(shown[pair], story) {
						shown[pair] = append(shown[pair], story)
					}
				}
			}
		}
	}
	for _, o := range engine.Read("X:1\nK:C\nc|]\n").Answer().Choice.Ornaments() {
		for _, kind := range kinds {
			pair := [2]string{o.Title, kind}
			i := slices.IndexFunc(cannotBe, func(c struct{ ornament, ready, why string }) bool { return c.ornament == o.Title && c.ready == kind })
			switch {
			case i < 0:
				assert.NotEmpty(t, shown[pair], "no story shows the %s: %s. Add one (testdata/stories/ornaments-*) or say here why it cannot be.", o.Title, kind)
			default:
				assert.Empty(t, shown[pair], "the %s: %s is shown, and was said to be impossible: %s", o.Title, kind, cannotBe[i].why)
			}
			delete(shown, pair)
		}
	}
	assert.Empty(t, shown, "these are no ornaments of the catalogue")
}

// readersWays are what a reader can do about ornaments, the sentence that does it, and
// the visit that does it.
var readersWays = []struct{ way, sentence, visit string }{
	{"switch one that stands in the tune", "cut@b1-1 off", "cut-off-and-on"},
	{"choose among those of one note", "upper-mordent@b1-3 on", "choose-among"},
	{"ask on any note what fits", "why@b1-1", "what-fits-here"},
	{"put one there", "cut@b1-1 on", "what-fits-here"},
	{"take it away again", "cut@b1-1 never", "what-fits-here"},
	{"put one there for which a finger has to wait", "tap@b1-4 on", "a-finger-waits"},
	{"use one that is offered on all notes", "cut@b1-2 on", "offered"},
	{"use one that is offered on long notes", "turn-after@b1-4 on", "offered"},
	{"have others offered", "offer@b1 high-cut@5", "offered"},
	{"say how likely one is", "cut@b1-2 never", "never-and-back"},
	{"say how likely all are", "prepare@b1 always", "all-at-once"},
	{"ask what deciding beforehand would change", "why@b1-2", "decided-beforehand"},
	{"look at all ways to play a placing", "why@b1-2", "ways-of-one-placing"},
	{"have the chart follow the hand", "hand left", "chart-follows"},
	{"have it follow the harp", "spacing 12", "chart-follows"},
	{"have it follow the style", "style lifted", "chart-follows"},
	{"make a fingering of the chart her usual one", "house cut 2 3", "chart"},
	{"use a teacher's own ornament", "swirl@b1-1 off", "own-ornament"},
	{"find it on another note", "swirl@b1-3 on", "own-ornament"},
	{"have it called late", "seed@b1 9", "own-ornament"},
	{"have exercises follow the fingers", "cut@b1-2 never", "drills"},
	{"have other bars called late", "calls@b1 3 3", "late-calls"},
	{"have fewer turns", "turns@b1 4", "late-calls"},
	{"be told later", "ahead@b1 1", "late-calls"},
	{"have another order", "seed@b1 7", "late-calls"},
	{"list the old graces too", "families irish", "older-families"},
	{"list the Welsh figures too", "families irish welsh", "older-families"},
}

// TestEveryWayIsVisited: there is a visit for each way, and it looks at words, at the
// address and at what is drawn again.
func TestEveryWayIsVisited(t *testing.T) {
	for _, w := range readersWays {
		_, part := chapters(t, file(t, "../testdata/visits/"+w.visit+".txt"))
		lines := strings.Split(part["visit"], "\n")
		assert.Contains(t, lines, "do "+w.sentence, "no visit shows how to %s", w.way)
		for _, look := range []string{"says ", "address", "redraws "} {
			assert.True(t, slices.ContainsFunc(lines, func(line string) bool { return strings.HasPrefix(line, look) }),
				"%s: the visit does not look at %q", w.visit, look)
		}
	}
}
