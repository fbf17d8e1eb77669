package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// plainLesson is a lesson of 600 words with a link to another.
func plainLesson(i, of int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: Lesson %d: on places\norder: %d\nsummary: About places.\n---\n", i, i)
	for part := range 10 {
		fmt.Fprintf(&b, "## Part %d\n\n%s*Then* see [another](l%d.md) of `these`.\n\n- one thing\n- **another** thing\n\n",
			part, strings.Repeat("Set the hand before it is wanted. ", 7), (i*7+part)%of)
	}
	return b.String()
}

// tuneLesson has 16 bars of a jig with eight ornaments, no two pages the same.
func tuneLesson(i, of int) string {
	bars := []string{"G2 B dBG", "!cut!c2 A F2 A", "g2 e d2 B", "A2 B !tap!c2 A"}
	var b strings.Builder
	fmt.Fprintf(&b, "\n```abc\nX:1\nT:Tune %d\nM:6/8\nL:1/8\nR:jig\nK:G\n", i)
	for bar := range 16 {
		b.WriteString(bars[(i>>(bar%8)+bar)%4])
		b.WriteString(" | ")
		if bar%4 == 3 {
			b.WriteByte('\n')
		}
	}
	return plainLesson(i, of) + b.String() + "```\n"
}

func benchmarkBuild(b *testing.B, pages int, text func(i, of int) string) {
	files := map[string]string{}
	for i := range pages {
		files[fmt.Sprintf("l%d.md", i)] = text(i, pages)
	}
	dir, engine, top := folder(b, files), fakeEngine(b), b.TempDir()
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		got, err := build(order{dir, filepath.Join(top, fmt.Sprint(i)), engine, askEngine})
		require.NoError(b, err)
		require.Equal(b, pages, got.lessons)
	}
}

func BenchmarkPlainLessons(b *testing.B) {
	for _, pages := range []int{100, 1000} {
		b.Run(fmt.Sprint(pages), func(b *testing.B) { benchmarkBuild(b, pages, plainLesson) })
	}
}

func BenchmarkTuneLessons(b *testing.B) { benchmarkBuild(b, 100, tuneLesson) }

// An edit in serve: one page of a hundred with tunes is another.
func BenchmarkEdit(b *testing.B) {
	files := map[string]string{}
	for i := range 100 {
		files[fmt.Sprintf("l%d.md", i)] = tuneLesson(i, 100)
	}
	dir := folder(b, files)
	s := newShow(order{content: dir, out: filepath.Join(b.TempDir(), "site"), engine: fakeEngine(b)}, &strings.Builder{})
	s.build()
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		set(b, dir, "l7.md", tuneLesson(7, 100)+fmt.Sprintln(i))
		b.StartTimer()
		s.build()
	}
}
