package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

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
	out := f.String("o", ".site", "the `FOLDER` of the site; .site if none is named")
	file := f.String("engine", "", "the `FILE` of the engine, engine.wasm; the one inside this program, or in .bin, if none is named")
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	debug.SetGCPercent(400) // a build is short: collecting less often takes a quarter off its time
	got, err := build(order{contentOf(files), *out, *file, askEngine})
	write(to.err, got.remarks, false)
	switch none := (noCourse{}); {
	case errors.As(err, &none):
		fmt.Fprintln(to.err, none.remark())
		return trouble
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

func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// build makes the site: read the lessons, write every page beside the old site,
// check where links lead, and only when nothing is wrong put it in its place.
// What there is to say about the lessons comes with an error too.
func build(o order) (outcome, error) {
	c, err := openCourse(o.content)
	if err != nil {
		return outcome{}, err
	}
	defer c.close()
	got, err := buildCourse(c, o)
	if got.remarks == nil && (err != nil || anyErrors(c.remarks)) {
		w, again := c.look(o.ask)
		got = outcome{remarks: w.remarks(), lessons: w.lessons()}
		err = errors.Join(err, again)
	}
	return got, err
}

// buildCourse makes the site of a course that was read, unless the reading found
// errors: pages might want to be the same file.
func buildCourse(c *course, o order) (outcome, error) {
	if anyErrors(c.remarks) {
		return outcome{}, nil
	}
	looks, err := readTheme()
	if err != nil {
		return outcome{}, err
	}
	st, err := stage(o.out, o.content)
	if err != nil {
		return outcome{}, err
	}
	defer st.drop()
	files := sync.OnceValues(func() (engineFiles, error) {
		e, err := readEngine(o.engine)
		if err == nil && !st.had(e.spare()) {
			go e.packed() // while the pages are made
		}
		return e, err
	})
	w := &work{course: c, md: newMarkdown(), ask: o.ask, put: st.put, layout: newLayout(c, looks),
		script: func() (string, error) {
			e, err := files()
			return e.script(looks), err
		}}
	if err := w.pages(); err != nil {
		return outcome{}, err
	}
	got := outcome{remarks: w.remarks(), lessons: w.lessons()}
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
	name  string // of the lesson's file
	said  []remark
	ids   headings
	leads []lead
	uses  []use
	tunes bool
}

// pages writes all pages, on all processors.
func (w *work) pages() error {
	w.done = make([]page, 1+len(w.course.lessons))
	failed := make([]error, len(w.done))
	each(len(w.done), func() func(i int) {
		var words sheet
		var out bytes.Buffer
		return func(i int) {
			words.Reset()
			out.Reset()
			failed[i] = w.page(i, &words, &out)
		}
	})
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	return nil
}

// each does something for every number below n, on all processors. On each of
// them worker is called once, and what it gives for number after number.
func each(n int, worker func() func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			do := worker()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}

// page makes page i: 0 is the front page.
func (w *work) page(i int, words *sheet, out *bytes.Buffer) error {
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
		*pg = page{l.name, p.said, ids, p.leads, p.uses, len(p.blocks) > 0}
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

// lessons counts the lessons; an index.md with a tune is one where it stands
// alone.
func (w *work) lessons() int {
	if n := len(w.course.lessons); n > 0 || !w.done[0].tunes {
		return n
	}
	return 1
}

// remarks gathers what was said about the whole course, and looks whether the
// headings that links lead to are there and every file has a name of its own.
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
				l.from.suggestion = nearHeading(l.part, h)
				all = append(all, l.from)
			}
		}
	}
	all = append(all, w.sameNames()...)
	if w.lessons() == 0 && !anyErrors(all) {
		all = append(all, remark{w.course.dir, 1, 1, isError, "There is no lesson in this folder.",
			"Write one, a file whose name ends in .md, or let readyhand new make the first."})
	}
	return sortRemarks(all)
}

// sameNames finds files that the site could not hold beside a page or each
// other: some disks take small letters and capitals for the same.
func (w *work) sameNames() (all []remark) {
	pages := map[string]bool{"index.html": true}
	for _, l := range w.course.lessons {
		pages[strings.ToLower(l.address)] = true
	}
	taken := map[string]*asset{}
	for _, p := range w.done {
		for _, u := range p.uses {
			key := strings.ToLower(u.path)
			other := taken[key]
			switch {
			case pages[key]:
				u.from.message = "The site cannot hold " + quoted(u.path) + ": a page of it has that name."
			case other != nil && other != u.asset:
				u.from.message = "The site cannot hold " + quoted(u.path) + " beside " + quoted(other.path) + ": some disks take them for the same."
			default:
				taken[key] = u.asset
				continue
			}
			all = append(all, u.from)
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
		for _, u := range p.uses {
			if copied[u.asset] {
				continue
			}
			copied[u.asset] = true
			if err := st.copy(w.course.root, u.asset); err != nil {
				return fmt.Errorf("%s cannot be copied: %w", w.course.file(u.path), reason(err))
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
			script, err := e.packed()
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
