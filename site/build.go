package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark"
)

// order is what a build is asked for.
type order struct {
	content string
	out     string // the folder of the site
	engine  string // the engine's file; "" for the usual one
	ask     asker
}

// outcome is what a build has to say.
type outcome struct {
	remarks []remark
	lessons int
	changed bool // the site is another than before
}

// runBuild is the command build.
func runBuild(args []string, to streams) int {
	f := settings("build", to)
	out := f.String("o", ".site", "the folder of the site")
	file := f.String("engine", "", "the engine's file, engine.wasm")
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	debug.SetGCPercent(400) // a build is short: collecting less often takes a quarter off its time
	got, err := build(order{contentOf(files), *out, *file, askEngine})
	write(to.err, got.remarks, false)
	switch {
	case err != nil:
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	case anyErrors(got.remarks):
		fmt.Fprintf(to.err, "readyhand: the site in %s is left as it was.\n", *out)
		return trouble
	}
	fmt.Fprintf(to.out, "%s holds %s.\n", *out, count(got.lessons, "lesson"))
	return done
}

func contentOf(files []string) string {
	if len(files) == 0 {
		return "content"
	}
	return files[0]
}

func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// build makes the site: read the lessons, write every page beside the old site,
// check where links lead, and only when nothing is wrong put it in its place.
func build(o order) (outcome, error) {
	c, err := openCourse(o.content)
	if err != nil {
		return outcome{}, err
	}
	defer c.close()
	looks, err := readTheme()
	if err != nil {
		return outcome{}, err
	}
	st, err := stage(o.out, o.content)
	if err != nil {
		return outcome{}, err
	}
	defer st.drop()
	files := sync.OnceValues(func() (engineFiles, error) { return readEngine(o.engine) })
	w := &work{course: c, md: newMarkdown(), ask: o.ask, put: st.put, layout: newLayout(c, looks),
		script: func() (string, error) {
			e, err := files()
			return e.script(looks), err
		}}
	if err := w.pages(); err != nil {
		return outcome{}, err
	}
	got := outcome{remarks: sortRemarks(w.remarks()), lessons: len(c.lessons)}
	if anyErrors(got.remarks) {
		return got, nil
	}
	err = w.files(st, looks, files)
	if err == nil {
		got.changed, err = st.publish()
	}
	return got, err
}

// work is the pages of one build. Everything but done is fixed before it starts.
type work struct {
	course *course
	layout *layout
	md     goldmark.Markdown
	ask    asker
	put    func(name string, data []byte) error // nil to look and write nothing
	script func() (string, error)
	done   []page // the front page first, then the lessons
}

// page is what remains of a page once it is written.
type page struct {
	name   string // of the lesson's file
	said   []remark
	ids    headings
	leads  []lead
	assets []*asset
	tunes  bool
}

// pages writes all pages, on all processors.
func (w *work) pages() error {
	w.done = make([]page, 1+len(w.course.lessons))
	failed := make([]error, len(w.done))
	next := make(chan int)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			var words, out bytes.Buffer
			for i := range next {
				words.Reset()
				out.Reset()
				failed[i] = w.page(i, &words, &out)
			}
		})
	}
	for i := range w.done {
		next <- i
	}
	close(next)
	all.Wait()
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return nil
}

// page makes page i: 0 is the front page.
func (w *work) page(i int, words, out *bytes.Buffer) error {
	l, lay := w.course.front, w.layout
	if i > 0 {
		l = w.course.lessons[i-1]
	}
	var p prose
	pg := &w.done[i]
	if l != nil {
		p = prose{lesson: l, course: w.course, body: l.source[l.body:]}
		ids, err := p.render(w.md, w.ask, words)
		if err != nil {
			return fmt.Errorf("%s cannot be laid out: %w", l.file, err)
		}
		*pg = page{l.name, p.said, ids, p.leads, p.assets, len(p.blocks) > 0}
	}
	if w.put == nil {
		return nil
	}
	if pg.tunes {
		script, err := w.script()
		if err != nil {
			return err
		}
		mine := *lay
		mine.script = script
		lay = &mine
	}
	if i == 0 {
		lay.frontPage(out, l, words.Bytes(), pg.tunes)
		return w.put("index.html", out.Bytes())
	}
	lay.lessonPage(out, i-1, words.Bytes(), pg.tunes)
	return w.put(l.address, out.Bytes())
}

// remarks gathers what was said about the whole course, and looks whether the
// headings that links lead to are there.
func (w *work) remarks() []remark {
	all := slices.Clone(w.course.remarks)
	ids := map[string]headings{}
	for _, p := range w.done {
		ids[p.name] = p.ids
		all = append(all, p.said...)
	}
	for _, p := range w.done {
		for _, l := range p.leads {
			if h := ids[l.page]; h.used[l.part] == 0 {
				all = append(all, l.from)
			}
		}
	}
	return all
}

// files puts everything beside the pages: what lessons refer to, the theme, and
// the engine if a page has a tune.
func (w *work) files(st *staging, looks theme, files func() (engineFiles, error)) error {
	tunes := false
	copied := map[*asset]bool{}
	for _, p := range w.done {
		tunes = tunes || p.tunes
		for _, a := range p.assets {
			if copied[a] {
				continue
			}
			copied[a] = true
			if err := st.copy(w.course.root, a); err != nil {
				return fmt.Errorf("%s cannot be copied: %w", w.course.file(a.path), reason(err))
			}
		}
	}
	put := []named{looks.css, looks.icon}
	if tunes {
		e, err := files()
		if err != nil {
			return err
		}
		put = append(put, looks.loader, e.exec, e.wasm)
		if !st.keep(e.spare()) {
			script, err := e.spareScript()
			if err != nil {
				return err
			}
			put = append(put, named{e.spare(), script})
		}
	}
	for _, n := range put {
		if err := st.put(n.name, n.data); err != nil {
			return err
		}
	}
	return nil
}

// within reports whether a path is a folder or lies in it.
func within(folder, p string) bool {
	rel, err := filepath.Rel(folder, p)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}
