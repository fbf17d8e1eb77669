package main

import (
	"bufio"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"readyhand/engine"
)

// shown serves a course as readyhand serve does, and follows its changes.
func shown(t *testing.T, dir string) (s *show, home string) {
	t.Helper()
	s = newShow(order{content: dir, out: filepath.Join(t.TempDir(), "site"), engine: fakeEngine(t)}, io.Discard)
	s.build()
	web := httptest.NewServer(s)
	stop := make(chan struct{})
	ended := make(chan struct{})
	go func() { s.follow(stop); close(ended) }()
	t.Cleanup(func() { web.CloseClientConnections(); web.Close(); close(stop); <-ended })
	return s, web.URL
}

func get(t *testing.T, address string) (*http.Response, string) {
	t.Helper()
	r, err := http.Get(address)
	require.NoError(t, err)
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return r, string(text)
}

// events reads server-sent events (HTML Living Standard, 9.2) as "kind: data".
func events(t *testing.T, home string) <-chan string {
	t.Helper()
	r, err := http.Get(home + "/-/changes")
	require.NoError(t, err)
	assert.Equal(t, "text/event-stream", r.Header.Get("Content-Type"))
	t.Cleanup(func() { r.Body.Close() })
	all := make(chan string, 100)
	go func() {
		defer close(all)
		lines := bufio.NewScanner(r.Body)
		kind, data := "message", []string{}
		for lines.Scan() {
			switch line := lines.Text(); {
			case line == "":
				all <- kind + ": " + strings.Join(data, "\n")
				kind, data = "message", nil
			case strings.HasPrefix(line, "event: "):
				kind = line[len("event: "):]
			case strings.HasPrefix(line, "data: "):
				data = append(data, line[len("data: "):])
			}
		}
	}()
	return all
}

// next waits for an event of which ok says that it is the one.
func next(t *testing.T, all <-chan string, ok func(string) bool) string {
	t.Helper()
	late := time.After(30 * time.Second)
	for {
		select {
		case e, more := <-all:
			require.True(t, more, "the events ended")
			if ok(e) {
				return e
			}
		case <-late:
			t.Fatal("nothing was told")
		}
	}
}

func TestServeFollowsAnEdit(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "First.\n"), "b.md": lessonText("B", aTune)})
	_, home := shown(t, dir)
	r, page := get(t, home+"/a.html")
	assert.Equal(t, "text/html; charset=utf-8", r.Header.Get("Content-Type"))
	assert.Contains(t, page, "First.")
	made := regexp.MustCompile(`<script defer src="/-/refresh.js" data-made="([^"]+)">`).FindStringSubmatch(page)
	require.NotNil(t, made, page)
	_, script := get(t, home+"/-/refresh.js")
	assert.Contains(t, script, "EventSource('/-/changes')")

	all := events(t, home)
	isMessage := func(e string) bool { return strings.HasPrefix(e, "message: ") }
	assert.Equal(t, "message: "+made[1], next(t, all, isMessage), "the page that is shown is the newest")

	set(t, dir, "a.md", lessonText("A", "Second, longer.\n"))
	told := next(t, all, func(e string) bool { return isMessage(e) && e != "message: "+made[1] })
	_, page = get(t, home+"/a.html")
	assert.Contains(t, page, "Second, longer.")
	assert.Contains(t, page, `data-made="`+strings.TrimPrefix(told, "message: ")+`"`)

	set(t, dir, "a.md", "No title at all.\n")
	wrong := next(t, all, func(e string) bool { return strings.HasPrefix(e, "trouble: ") && len(e) > len("trouble: ") })
	assert.Contains(t, wrong, "a.md:1:1: error: This lesson has no title.")
	_, page = get(t, home+"/a.html")
	assert.Contains(t, page, "Second, longer.", "the last good page stays")

	set(t, dir, "a.md", lessonText("A", "Third time.\n"))
	next(t, all, func(e string) bool { return e == "trouble: " })
	_, page = get(t, home+"/a.html")
	assert.Contains(t, page, "Third time.")
}

// A file that is caught half written is left alone until it is whole.
func TestServeWaitsUntilAFileIsWhole(t *testing.T) {
	s := newShow(order{}, io.Discard)
	s.seen, s.last = "old", "old"
	for _, row := range []struct {
		look  string
		build bool
	}{{"old", false}, {"half", false}, {"whole", false}, {"whole", true}, {"other", false}, {"old", false}, {"old", false}} {
		assert.Equal(t, row.build, s.changed(row.look), "%v", row)
	}
}

// Each build is told apart from the one before, in the terminal and in the page:
// errors loudly, warnings quietly, and that all is well.
func TestServeTells(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n")})
	var said strings.Builder
	s := newShow(order{content: dir, out: filepath.Join(t.TempDir(), "site"), engine: fakeEngine(t)}, &said)
	for _, row := range []struct{ text, terminal, trouble, warnings string }{
		{lessonText("A", "Go.\n"), `all well`, `^$`, `^$`},
		{lessonText("A", "<b>\n"), `.+a\.md:4:1: warning: HTML.+`, `^$`, `a\.md:4:1: warning`},
		{"<b>\n", `.+a\.md:1:1: error: .+\n.+a\.md:1:1: warning: .+`, `a\.md:1:1: error`, `^$`},
	} {
		set(t, dir, "a.md", row.text)
		said.Reset()
		s.build()
		assert.Regexp(t, `^\n\d\d:\d\d:\d\d\n`+row.terminal+`\n$`, said.String())
		assert.Regexp(t, row.trouble, s.trouble)
		assert.Regexp(t, row.warnings, s.warnings)
	}
}

// The box with the remarks stays in sight however far down the page one reads.
func TestRemarksStayInSight(t *testing.T) {
	css, err := themeFiles.ReadFile("theme/page.css")
	require.NoError(t, err)
	assert.Regexp(t, `(?s)\n\.trouble \{[^}]*position: sticky;\s+top: 0;`, string(css))
}

func TestServeFiles(t *testing.T) {
	dir := folder(t, small)
	s, home := shown(t, dir)
	set(t, filepath.Dir(s.order.out), "beside.txt", "not of the site")
	_, page := get(t, home+"/")
	assert.Contains(t, page, "Welcome.")
	for name := range tree(t, s.order.out) {
		r, _ := get(t, home+"/"+pathEscape(name))
		assert.Equal(t, http.StatusOK, r.StatusCode, name)
		assert.Equal(t, kind(name), r.Header.Get("Content-Type"), name)
		assert.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"), name)
	}
	for _, none := range []string{"/none.html", "/img", "/img/", "/../beside.txt", "/%2e%2e/beside.txt", "/notes.txt", "/<b>"} {
		r, text := get(t, home+none)
		assert.Equal(t, http.StatusNotFound, r.StatusCode, none)
		assert.NotContains(t, text, "not of the site")
		assert.NotContains(t, text, "<b>")
	}
	r, err := http.Post(home+"/", "text/plain", strings.NewReader("x"))
	require.NoError(t, err)
	r.Body.Close()
	assert.Equal(t, http.StatusMethodNotAllowed, r.StatusCode)
}

// Until the first build succeeds there is no page; the one that says so learns
// what is wrong, and is shown again when it is mended.
func TestServeBeforeTheFirstPage(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": "Nothing.\n"})
	_, home := shown(t, dir)
	r, page := get(t, home+"/")
	assert.Equal(t, http.StatusNotFound, r.StatusCode)
	assert.Contains(t, page, "/-/refresh.js")
	all := events(t, home)
	next(t, all, func(e string) bool { return strings.Contains(e, "has no title") })
	set(t, dir, "a.md", lessonText("A", "Now.\n"))
	next(t, all, func(e string) bool { return e == "trouble: " })
	_, page = get(t, home+"/a.html")
	assert.Contains(t, page, "Now.")
}

// The site may lie among the lessons; making it is no reason to make it again.
func TestLookLeavesTheSiteOut(t *testing.T) {
	dir := folder(t, map[string]string{"a.md": lessonText("A", "Go.\n"), "site.md": lessonText("B", "Go.\n")})
	s := newShow(order{content: dir, out: filepath.Join(dir, "site"), engine: fakeEngine(t)}, io.Discard)
	before := s.look()
	assert.Contains(t, before, "site.md")
	s.build()
	assert.DirExists(t, filepath.Join(dir, "site"))
	assert.Equal(t, before, s.look())
}

// Serve asks the engine again only about pages whose tunes are not as they were.
func TestMemory(t *testing.T) {
	m := newMemory()
	tune := []block{{text: "X:1\nT:Kept\nK:C\nC\n"}}
	m.turn()
	first := m.ask(engine.Course{}, tune)
	require.Len(t, first, 1)
	assert.Equal(t, "Kept", first[0].title)
	m.turn()
	m.last["X:1\nT:Kept\nK:C\nC\n\x00"][0].title = "from memory"
	assert.Equal(t, "from memory", m.ask(engine.Course{}, tune)[0].title)
	house, _ := engine.NewCourse("cut 1 2")
	assert.Equal(t, "Kept", m.ask(house, tune)[0].title, "with other house fingerings it is another question")
	m.turn()
	m.turn()
	assert.Equal(t, "Kept", m.ask(engine.Course{}, tune)[0].title, "what a build did not ask for is forgotten")
}

func TestServeTakesAnotherPort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	l, err := listen(port)
	require.NoError(t, err)
	defer l.Close()
	assert.NotEqual(t, port, l.Addr().(*net.TCPAddr).Port)
	assert.True(t, l.Addr().(*net.TCPAddr).IP.IsLoopback(), "on this machine only")
}

// The command itself: it prints its address, and the page is there.
func TestServeCommand(t *testing.T) {
	me, err := os.Executable()
	require.NoError(t, err)
	dir := folder(t, map[string]string{"content/a.md": lessonText("A", "Go.\n")})
	c := exec.Command(me, "serve", "-port", "0")
	c.Env, c.Dir = append(os.Environ(), asCommand+"=1"), dir
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	home := regexp.MustCompile(`http://[0-9.:]+/`).FindString(line)
	require.NotEmpty(t, home, line)
	_, page := get(t, home+"a.html")
	assert.Contains(t, page, "<p>Go.</p>")
}

// Types as registered with IANA, or in the HTML Living Standard (text/javascript).
func TestKinds(t *testing.T) {
	for name, want := range map[string]string{
		"a.wasm": "application/wasm", "a.js": "text/javascript; charset=utf-8", "a.css": "text/css; charset=utf-8",
		"A.HTML": "text/html; charset=utf-8", "a.svg": "image/svg+xml", "a.mp3": "audio/mpeg", "a.m4a": "audio/mp4",
		"a.abc": "text/vnd.abc; charset=utf-8", "a": "application/octet-stream", "a.unknown": "application/octet-stream",
		"a.musicxml": "application/vnd.recordare.musicxml+xml",
	} {
		assert.Equal(t, want, kind(name), name)
	}
	for end := range players {
		assert.Regexp(t, "^(audio|video)/", kind("a"+end), "what can be played is served as such")
	}
}
