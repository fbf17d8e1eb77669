package engine_test

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

var update = flag.Bool("update", false, "write the answers of stories anew; read the diff as a harper before you keep it")

// chapters splits a story or a visit: the sentence on top, and what stands
// under each line "--- name".
func chapters(t *testing.T, text string) (sentence string, parts map[string]string) {
	t.Helper()
	parts = map[string]string{}
	pieces := strings.Split("\n"+text, "\n--- ")
	sentence = strings.TrimSpace(pieces[0])
	require.NotEmpty(t, sentence, "the first line says what is shown")
	require.NotContains(t, sentence, "\n", "one sentence on top")
	for _, piece := range pieces[1:] {
		name, body, _ := strings.Cut(piece, "\n")
		parts[name] = strings.Trim(body, "\n") + "\n"
	}
	return sentence, parts
}

func files(t *testing.T, pattern string) []string {
	t.Helper()
	list, err := filepath.Glob(pattern)
	require.NoError(t, err)
	require.NotEmpty(t, list, pattern)
	return list
}

// TestStories: a tune, what is chosen, the house fingerings of its course if it has
// any, and the whole answer, to be read by a musician; with a chapter of that name
// also what the finder tells. A story is under 60 lines.
func TestStories(t *testing.T) {
	for _, name := range files(t, "../testdata/stories/*.txt") {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			text := file(t, name)
			sentence, part := chapters(t, text)
			ways := strings.FieldsFunc(part["ways"], func(c rune) bool { return c == '\n' })
			course := housed(t, part["house"])
			got := course.Read(part["tune"]).Answer(ways...)
			answer := got.Text()
			for _, r := range got.Remarks {
				line, _ := got.Block.Text.Position(r.From)
				answer += r.Severity.String() + " in line " + strconv.Itoa(line) + ": " + r.Message + " " + r.Suggestion + "\n"
			}
			_, finds := part["finder"]
			if *update {
				whole := sentence + "\n\n--- tune\n" + part["tune"] + "\n"
				if part["house"] != "" {
					whole += "--- house\n" + part["house"] + "\n"
				}
				if len(ways) > 0 {
					whole += "--- ways\n" + part["ways"] + "\n"
				}
				if whole += "--- answer\n" + answer; finds {
					whole += "\n--- finder\n" + got.FinderText()
				}
				require.NoError(t, os.WriteFile(name, []byte(whole), 0o644))
				return
			}
			assert.Equal(t, part["answer"], answer, sentence)
			if finds {
				assert.Equal(t, part["finder"], strings.Trim(got.FinderText(), "\n")+"\n", sentence)
			}
			most := 60
			if strings.HasPrefix(filepath.Base(name), "tune-") {
				most = 72 // a whole tune
			}
			assert.Less(t, strings.Count(text, "\n"), most, "a story is short")
		})
	}
}

// TestVisits: what a reader does with a page, sentence by sentence, and what the
// page answers. The page stands in the visit, with the house fingerings of its course
// if it has any, or is a lesson of the demo course. "do"
// is a command; "says", "address", "keep", "focus" and "redraws" speak of the
// last one; "fingers b1-6 1 2 3" are those of three notes from note 6 on, on the
// first pass; "shows" and "hides" speak of the first tune's markup; "ready b1-6.cut" is followed by what that ornament asks; "as
// before" means the page looks as it did when it was opened.
func TestVisits(t *testing.T) {
	for _, name := range files(t, "../testdata/visits/*.txt") {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			_, part := chapters(t, file(t, name))
			blocks, house := strings.Split(part["page"], "\n\n"), part["house"]
			if lesson := strings.TrimSpace(part["lesson"]); lesson != "" {
				blocks, house = tunes(file(t, "../content/"+lesson)), file(t, "../content/house.txt")
			}
			first := housed(t, house).Open(blocks, strings.TrimSpace(part["address"]), strings.TrimSpace(part["kept"]))
			page, c := first, engine.Change{}
			for i, line := range strings.Split(strings.TrimSpace(part["visit"]), "\n") {
				word, rest, _ := strings.Cut(line, " ")
				switch word {
				case "do":
					page, c = page.Do(rest)
				case "says":
					assert.Contains(t, c.Says, rest, "step %d", i+1)
				case "address":
					assert.Equal(t, rest, c.Address, "step %d", i+1)
				case "keep":
					assert.Equal(t, rest, c.Keep, "step %d", i+1)
				case "focus":
					assert.Equal(t, rest, c.Focus, "step %d", i+1)
				case "shows":
					holds(t, page, 0, rest, i+1)
				case "hides":
					lacks(t, page, 0, rest, i+1)
				case "redraws":
					var ids []string
					for _, p := range c.Parts {
						ids = append(ids, p.ID)
					}
					assert.Equal(t, strings.Fields(rest), ids, "step %d", i+1)
				case "fingers":
					from, want, _ := strings.Cut(rest, " ")
					assert.Equal(t, want, fingersFrom(t, page, from, len(strings.Fields(want))), "step %d: %s", i+1, line)
				case "ready":
					id, want, _ := strings.Cut(rest, " ")
					assert.Equal(t, want, readiness(page, id), "step %d: %s", i+1, line)
				case "as":
					for b := range blocks {
						alike(t, first, page, b, i+1)
					}
				default:
					assert.Fail(t, "no such word in a visit", "%s in step %d", word, i+1)
				}
			}
		})
	}
}

// housed is a course with these house fingerings.
func housed(t *testing.T, house string) engine.Course {
	t.Helper()
	course, remarks := engine.NewCourse(house)
	require.Empty(t, remarks)
	again, _ := engine.NewCourse(course.String())
	require.Equal(t, course, again, "a page carries them as they are read")
	return course
}

// tunes gives the tune blocks of a lesson.
func tunes(lesson string) []string {
	var blocks []string
	for _, piece := range strings.Split(lesson, "```abc\n")[1:] {
		block, _, _ := strings.Cut(piece, "```")
		blocks = append(blocks, block)
	}
	return blocks
}

// at parts "b2-12" into the block, from 0, and the rest.
func at(t *testing.T, id string) (block int, rest string) {
	t.Helper()
	name, rest, ok := strings.Cut(strings.TrimPrefix(id, "b"), "-")
	n, err := strconv.Atoi(name)
	require.True(t, ok && err == nil, id)
	return n - 1, rest
}

// fingersFrom gives the fingers of some notes from one on, on the first pass.
func fingersFrom(t *testing.T, page engine.Page, from string, count int) string {
	block, rest := at(t, from)
	first, err := strconv.Atoi(rest)
	require.NoError(t, err)
	var words []string
	for n := first; n < first+count; n++ {
		words = append(words, fingerOf(page.Answer(block), n))
	}
	return strings.Join(words, " ")
}

// readiness gives what an ornament asks of the hand, by its id.
func readiness(page engine.Page, id string) string {
	block, _ := strconv.Atoi(strings.TrimPrefix(strings.SplitN(id, "-", 2)[0], "b"))
	h := page.Answer(block - 1).Hands[0]
	for j, g := range h.Score.Gaps {
		for k, site := range g.Sites {
			for i := range site.Ornaments {
				if site.ID(i) == strings.SplitN(id, "-", 2)[1] {
					return h.Plan.Gaps[j].Fits[k][i].Ready.String()
				}
			}
		}
	}
	return "not there"
}
