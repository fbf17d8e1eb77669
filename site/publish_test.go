package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// manyPages is a course that takes a while to build. Every page and the picture
// carry the word, so that pages of two builds cannot be taken for one.
func manyPages(word string) map[string]string {
	files := map[string]string{"p.png": word}
	for i := range 300 {
		files[fmt.Sprintf("l%03d.md", i)] = lessonText(word, "![p](p.png)\n\n"+strings.Repeat("A hand *sets* its fingers. ", 200)+word+"\n")
	}
	files[word+".md"] = lessonText(word, "Only here.\n"+aTune)
	return files
}

// A build is stopped at thirty moments between its start and its end. Whatever
// the moment, the site is the old one or the new one, to the last byte.
func TestStoppedAtAnyMoment(t *testing.T) {
	me, err := os.Executable()
	require.NoError(t, err)
	engine := fakeEngine(t)
	top := t.TempDir()
	out := filepath.Join(top, "site")
	one, two := folder(t, manyPages("one")), folder(t, manyPages("two"))
	start := func(content string) *exec.Cmd {
		c := exec.Command(me, "build", "-engine", engine, "-o", out, content)
		c.Env = append(os.Environ(), asCommand+"=1")
		require.NoError(t, c.Start())
		return c
	}
	require.NoError(t, start(two).Wait())
	second := tree(t, out)
	began := time.Now()
	require.NoError(t, start(one).Wait())
	whole := time.Since(began)
	first := tree(t, out)
	require.NotEqual(t, first, second)

	const kills = 30
	stopped, isOld, isNew := 0, 0, 0
	now, next := one, two
	for i := range kills {
		c := start(next)
		time.Sleep(whole * time.Duration(i) * 5 / (4 * kills)) // past its end too: a busy machine is slower
		require.NoError(t, c.Process.Kill())
		if c.Wait() != nil {
			stopped++
		}
		want := map[string]map[string]string{one: first, two: second}
		switch site := tree(t, out); {
		case same(site, want[now]):
			isOld++
		case same(site, want[next]):
			isNew++
			now, next = next, now
		default:
			t.Fatalf("stop %d damaged the site: %d files, %d before", i, len(site), len(want[now]))
		}
	}
	t.Logf("%d of %d builds stopped; the site was %d times the old one, %d times the new one", stopped, kills, isOld, isNew)
	assert.Positive(t, isOld, "no build was stopped before its end: this test proves nothing")

	require.NoError(t, start(next).Wait())
	assert.Equal(t, []string{"site"}, names(t, top), "the next build clears away what stopped ones left")
}

func same(a, b map[string]string) bool {
	if len(a) != len(b) {
		return false
	}
	for name, text := range a {
		if other, is := b[name]; !is || other != text {
			return false
		}
	}
	return true
}

// Two builds at once do not spoil each other's work: the site is one or the other.
func TestTwoBuildsAtOnce(t *testing.T) {
	engine, out := fakeEngine(t), filepath.Join(t.TempDir(), "site")
	one, two := folder(t, manyPages("one")), folder(t, manyPages("two"))
	for range 3 {
		var both sync.WaitGroup
		for _, content := range []string{one, two} {
			both.Go(func() {
				_, err := build(order{content, out, engine, askEngine})
				assert.NoError(t, err)
			})
		}
		both.Wait()
		words := map[bool]int{}
		for name, page := range tree(t, out) {
			if strings.HasPrefix(name, "l0") {
				words[strings.Contains(page, "<h1>one</h1>")]++
			}
		}
		assert.Len(t, words, 1, "pages of both: %v", words)
	}
	assert.Equal(t, []string{"site"}, names(t, filepath.Dir(out)))
}

// Where two folders cannot change places in one step, the old site stands aside
// for a moment. Stopped just then, it comes back.
func TestOldSiteComesBack(t *testing.T) {
	top := folder(t, map[string]string{"site" + before + "1/index.html": "old"})
	target := filepath.Join(top, "site")
	require.NoError(t, heal(target))
	assert.Equal(t, map[string]string{"index.html": "old"}, tree(t, target))

	set(t, top, "site"+before+"2/index.html", "older")
	require.NoError(t, heal(target))
	assert.Equal(t, map[string]string{"index.html": "old"}, tree(t, target))
	assert.Equal(t, []string{"site"}, names(t, top))
}

func TestSwap(t *testing.T) {
	top := folder(t, map[string]string{"fresh/a": "new", "site/a": "old", "site/b": "old"})
	require.NoError(t, swap(filepath.Join(top, "fresh"), filepath.Join(top, "site")))
	assert.Equal(t, map[string]string{"a": "new"}, tree(t, filepath.Join(top, "site")))
	assert.NoDirExists(t, filepath.Join(top, "fresh", "none"))

	require.NoError(t, os.RemoveAll(filepath.Join(top, "site")))
	set(t, top, "fresh/a", "newer")
	require.NoError(t, swap(filepath.Join(top, "fresh"), filepath.Join(top, "site")))
	assert.Equal(t, "newer", tree(t, filepath.Join(top, "site"))["a"])
}

// A page that is as long as the old one is still another.
func TestHolds(t *testing.T) {
	long := strings.Repeat("0123456789abcdef", 5000) // more than is read at once
	for _, c := range []struct {
		file, page string
		want       bool
	}{
		{"", "", true}, {"a", "", false}, {"", "a", false}, {"ab", "ab", true}, {"ab", "ac", false},
		{long, long, true}, {long, long[:len(long)-1] + "x", false}, {long + "x", long, false}, {long, long + "x", false},
	} {
		f, err := os.Open(filepath.Join(folder(t, map[string]string{"f": c.file}), "f"))
		require.NoError(t, err)
		assert.Equal(t, c.want, holds(f, []byte(c.page)), "%.9q %.9q", c.file, c.page)
		f.Close()
	}
}
