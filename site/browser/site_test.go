// Package browser_test opens built lessons in a real browser, over http and
// from disk, and holds what the page shows against what the engine answers
// outside it.
package browser_test

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// Tunes of the lesson under test, made up for it. The first is short and has
// ornaments near each other; the second has as many bars as a whole dance tune.
const (
	shortTune = `X:1
T:Two Gates
M:4/4
L:1/8
Q:1/4=80
K:C
C2 E2 !cut!G2 E2 | F2 A2 !cut!G4 | c2 !tap!A2 G2 E2 | D2 E2 C4 |]
`
	longTune = `X:2
T:Round the Mill Pond
M:6/8
L:1/8
R:jig
K:G
|: G2 B d2 B | !cut!c2 A F2 A | G2 B d2 g | f2 d !cut!d3 |
g2 e d2 B | c2 e !tap!d2 B | A2 B c2 A | B2 G !cut!G3 :|
|: d2 g b2 g | !cut!a2 f d2 f | g2 e c2 e | d2 B !tap!G2 B |
c2 e g2 e | !cut!d2 B g2 d | e2 c A2 F | A2 G !cut!G3 :|
|: B2 d g2 d | e2 c !cut!A2 c | d2 B G2 B | A2 F !tap!D2 F |
G2 A B2 c | !cut!d2 e f2 d | g2 d c2 A | F2 A !cut!G3 :|
|: g2 f e2 d | !cut!c2 e g2 e | f2 e d2 c | B2 d !tap!g2 d |
e2 d c2 B | !cut!A2 c e2 c | d2 c B2 A | G2 F !cut!G3 :|
`
)

var lessonTunes = []string{shortTune, longTune}

const (
	lessonFile  = "gates.md"
	lessonText  = "---\ntitle: Two gates\n---\nA tune to try things on.\n\n```abc\n" + shortTune + "```\n\n## The long one\n\nAnd a whole one.\n\n```abc\n" + longTune + "```\n"
	secondFile  = "pond.md"
	secondText  = "---\ntitle: The pond again\n---\nThe same short tune in another lesson.\n\n```abc\n" + shortTune + "```\n"
	lessonPage  = "gates.html"
	anotherPage = "pond.html"
)

// root is the top folder of the project, seen from this package's.
const root = "../.."

// built makes the command and the engine as they are now, in a folder of their
// own.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "readyhand-browser-")
	if err != nil {
		return "", err
	}
	leftovers = append(leftovers, dir)
	if err := openInputs(); err != nil {
		return "", err
	}
	script, err := startScript()
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, "wasm_exec.js"), []byte(script), 0o644)
	}
	if err == nil {
		err = run("GOOS=js GOARCH=wasm", "go", "build", "-trimpath", "-ldflags=-s -w", "-o", filepath.Join(dir, "engine.wasm"), "./wasm")
	}
	if err == nil {
		err = run("", "go", "build", "-o", filepath.Join(dir, "readyhand"), "./site")
	}
	return dir, err
})

// lesson is the site made of the lesson above, and course the project's own.
var (
	lesson = sync.OnceValues(func() (string, error) {
		dir, err := built()
		if err != nil {
			return "", err
		}
		in := filepath.Join(dir, "in")
		err = os.Mkdir(in, 0o755)
		for name, text := range map[string]string{lessonFile: lessonText, secondFile: secondText} {
			if err == nil {
				err = os.WriteFile(filepath.Join(in, name), []byte(text), 0o644)
			}
		}
		if err != nil {
			return "", err
		}
		return site("lesson", in)
	})
	course = sync.OnceValues(func() (string, error) { return site("course", "content") })
)

// site builds a folder of lessons.
func site(name, content string) (string, error) {
	dir, err := built()
	if err != nil {
		return "", err
	}
	out := filepath.Join(dir, name)
	return out, run("", filepath.Join(dir, "readyhand"), "build", "-engine", filepath.Join(dir, "engine.wasm"), "-o", out, content)
}

// leftovers are removed when the tests are done.
var leftovers []string

func TestMain(m *testing.M) {
	code := m.Run()
	closeBrowser()
	for _, dir := range leftovers {
		os.RemoveAll(dir)
	}
	os.Exit(code)
}

// openInputs opens every file the site is made of. Go keeps the results of tests
// and runs them again only when a file they opened has changed; it cannot see
// what the commands below open.
func openInputs() error {
	for _, room := range []string{"wasm", "site", "content", "engine"} {
		err := filepath.WalkDir(filepath.Join(root, room), func(name string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() {
				return err
			}
			f, err := os.Open(name)
			if err != nil {
				return err
			}
			return f.Close()
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// startScript is the script Go gives to start an engine with.
func startScript() (string, error) {
	where, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(where)), "lib", "wasm", "wasm_exec.js"))
	return string(text), err
}

// run runs one command in the project's top folder.
func run(extra string, words ...string) error {
	c := exec.Command(words[0], words[1:]...)
	c.Dir = root
	c.Env = append(os.Environ(), strings.Fields(extra)...)
	if out, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", strings.Join(words, " "), err, out)
	}
	return nil
}

func lessonFolder(t testing.TB) string { return folder(t, lesson) }
func courseFolder(t testing.TB) string { return folder(t, course) }

func folder(t testing.TB, made func() (string, error)) string {
	t.Helper()
	dir, err := made()
	if err != nil {
		t.Fatalf("the site cannot be built: %v", err)
	}
	return dir
}

// policyOf finds the security policy a page carries, to send it as a header too.
var policyOf = regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]+)"`)

// serve shows a folder over http, with each page's own policy as a header.
// spoil, if given, may answer a request itself.
func serve(t testing.TB, dir string, spoil func(w http.ResponseWriter, r *http.Request) bool) string {
	t.Helper()
	files := http.FileServer(http.Dir(dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if spoil != nil && spoil(w, r) {
			return
		}
		if page, err := os.ReadFile(filepath.Join(dir, filepath.Base(r.URL.Path))); err == nil && strings.HasSuffix(r.URL.Path, ".html") {
			if found := policyOf.FindSubmatch(page); found != nil {
				w.Header().Set("Content-Security-Policy", string(found[1]))
			}
		}
		files.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

// way is one of the two ways to open a page.
type way struct {
	name string
	home func(t testing.TB, dir string) string // address of a built folder, with / at its end
}

func ways() []way {
	return []way{
		{"http", func(t testing.TB, dir string) string { return serve(t, dir, nil) }},
		{"file", func(_ testing.TB, dir string) string { return "file://" + dir + "/" }},
	}
}

// patience is how long a page may take to do what it should (guess; a busy
// machine builds other things meanwhile).
const patience = 20 * time.Second
