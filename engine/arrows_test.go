package engine_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine/rule"
)

// arrows is the import order of the engine's rooms: what each may import of the
// others. DEVELOPERS.md shows the same table.
var arrows = map[string]string{
	"source":   "",
	"pitch":    "",
	"ornament": "",
	"tune":     "source pitch",
	"harp":     "pitch",
	"hand":     "harp",
	"score":    "source harp ornament",
	"rule":     "harp hand score",
	"plan":     "source harp hand ornament score rule",
	"choice":   "source pitch harp hand ornament score",
	"read":     "source pitch tune ornament",
	"vary":     "source pitch tune harp hand ornament score choice",
	"solve":    "source harp hand ornament score rule plan",
	"draw":     "source pitch tune harp hand ornament score rule plan choice",
	"explain":  "source pitch harp hand ornament score rule plan",
	"":         "source pitch ornament tune harp hand score rule plan choice read vary solve draw explain",
}

// outside is all that the engine may use of the standard library: the rest
// would make the reader wait for it.
const outside = "cmp errors iter maps math/bits slices strconv strings sync unicode/utf8"

// TestArrows reads the files themselves, so that its result is not kept when
// one of them changes.
func TestArrows(t *testing.T) {
	seen := map[string]bool{}
	require.NoError(t, filepath.WalkDir("..", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		dir := path.Dir(strings.TrimPrefix(filepath.ToSlash(file), "../"))
		top, room, _ := strings.Cut(dir, "/")
		if strings.HasPrefix(top, ".") {
			return nil
		}
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range f.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			own, inside := strings.CutPrefix(imported, "readyhand/")
			allowed := true
			switch {
			case top == "engine" && inside:
				known, ok := arrows[room]
				assert.True(t, ok, "%s: room %q is not on the map", file, room)
				seen[room] = true
				allowed = slices.Contains(strings.Fields(known), strings.TrimPrefix(own, "engine/"))
			case top == "engine":
				allowed = slices.Contains(strings.Fields(outside), imported)
			case inside:
				allowed = own == "engine" || top == "site" && strings.HasPrefix(own, "site/")
			case top == "wasm":
				allowed = imported == "syscall/js" || imported == "honnef.co/go/js/dom/v2"
			case imported == "syscall/js":
				allowed = false
			}
			assert.True(t, allowed, "%s: may not import %s", set.Position(spec.Pos()), imported)
		}
		return nil
	}))
	for room, imports := range arrows {
		assert.True(t, seen[room] || imports == "", "no file of room %q imports anything: is it still there?", room)
	}
}

// TestMapOfRooms holds DEVELOPERS.md to the same arrows.
func TestMapOfRooms(t *testing.T) {
	text := file(t, "../DEVELOPERS.md")
	for room, imports := range arrows {
		if room == "" {
			continue
		}
		want := "| " + room + " | " + strings.ReplaceAll(imports, " ", ", ") + " |"
		assert.Contains(t, text, want)
	}
}

// TestChargesAreTold holds DEVELOPERS.md to the rows of the rules.
func TestChargesAreTold(t *testing.T) {
	text := file(t, "../DEVELOPERS.md")
	for _, r := range rule.Rows() {
		charge := strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(float64(r.Charge)/1000, 'f', 3, 64), "0"), ".")
		assert.Contains(t, text, "| "+r.Name+" | "+charge+" per "+r.Per+" |")
	}
}

// TestLinkedFiles: what README and DEVELOPERS.md point at is there.
func TestLinkedFiles(t *testing.T) {
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		for _, piece := range strings.Split(file(t, "../"+name), "](")[1:] {
			target, _, _ := strings.Cut(piece, ")")
			if !strings.Contains(target, "://") && !strings.HasPrefix(target, "#") {
				assert.FileExists(t, filepath.Join("..", target), name)
			}
		}
	}
}
