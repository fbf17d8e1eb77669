package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"readyhand/engine"
)

// course is a folder of lessons. Everything in it is read through root, so that
// no link and no .. leads out of the folder.
type course struct {
	dir     string
	root    *os.Root
	name    string    // of the site
	front   *lesson   // index.md; nil if there is none
	lessons []*lesson // in the order they are taught
	byName  map[string]*lesson
	house   engine.Course
	remarks []remark // those of the front matter among them

	assets sync.Map // what stood at a path when it was first asked for: path to *asset
}

// asset is a picture, a recording or any other file a lesson refers to.
type asset struct {
	path string // in the content folder, with forward slashes
	info fs.FileInfo
	err  error
}

// contentFolder is where new puts lessons, and where they are looked for first.
const contentFolder = "content"

// contentOf finds the lessons of the folder that was named: in it, or in its
// folder content where it holds none itself.
func contentOf(files []string) string {
	if len(files) == 0 {
		return contentFolder
	}
	own, err := os.ReadDir(files[0])
	inner := filepath.Join(files[0], contentFolder)
	info, missing := os.Stat(inner)
	if err != nil || missing != nil || !info.IsDir() || slices.ContainsFunc(own, isLesson) {
		return files[0]
	}
	return inner
}

// isLesson reports an entry of a folder that is read as a lesson.
func isLesson(e fs.DirEntry) bool {
	return !e.IsDir() && path.Ext(e.Name()) == ".md" && !strings.HasPrefix(e.Name(), ".")
}

// openCourse reads the folder and the front matter of its lessons. The error is
// for a folder that is not there; anything wrong in a lesson is a remark.
func openCourse(dir string) (*course, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, noCourse{dir, err}
	}
	c := &course{dir: dir, root: root, name: "Harp lessons", byName: map[string]*lesson{}}
	entries, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		root.Close()
		return nil, noCourse{dir, err}
	}
	c.house, c.remarks = readHouse(root.FS(), c.file(houseFile))
	c.enter(entries)
	c.arrange()
	return c, nil
}

func (c *course) close() { c.root.Close() }

// noCourse is the error of a folder of lessons that cannot be read.
type noCourse struct {
	dir string
	err error
}

func (n noCourse) Error() string { return n.remark().String() }

// remark says what stands where the folder was looked for, and what to do.
func (n noCourse) remark() remark {
	message, suggestion := "The lessons in this folder cannot be read: "+reason(n.err).Error()+".", "Look whether you may read it."
	info, missing := os.Stat(n.dir)
	switch {
	case errors.Is(missing, fs.ErrNotExist) && n.dir == contentFolder:
		message, suggestion = "There is no folder of this name here.", "Name the folder of your lessons, or start one: readyhand new my-lessons."
	case errors.Is(missing, fs.ErrNotExist):
		message, suggestion = "There is no folder of this name.", "Look how it is spelled, or start one: readyhand new "+typed(n.dir)+"."
	case missing == nil && !info.IsDir():
		message, suggestion = "This is a file, not a folder of lessons.", "Name the folder it lies in."
	}
	return remark{n.dir, 1, 1, isError, message, suggestion}
}

// reason leaves the path out of an error, because the sentence around it has it, and
// says the commonest in plain words.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return inWords{"you have no leave to", err}
	case errors.Is(err, fs.ErrNotExist):
		return inWords{"it is not there", err}
	}
	return err
}

// inWords is an error of the system in words of ours.
type inWords struct {
	words string
	error
}

func (w inWords) Error() string { return w.words }
func (w inWords) Unwrap() error { return w.error }

// file is how remarks name a file of the course.
func (c *course) file(name string) string { return filepath.Join(c.dir, filepath.FromSlash(name)) }

// enter takes in the entries of the folder. The lessons among them are read on
// all processors.
func (c *course) enter(entries []fs.DirEntry) {
	type entered struct {
		lesson *lesson
		wrong  remark // where there is no lesson
	}
	c.misnamed(entries)
	read := make([]entered, len(entries))
	each(len(entries), func() func(i int) {
		return func(i int) {
			if name := entries[i].Name(); isLesson(entries[i]) {
				source, message, suggestion := c.read(name)
				if message != "" {
					read[i].wrong = remark{c.file(name), 1, 1, isError, message, suggestion}
					return
				}
				read[i].lesson = readLesson(name, c.file(name), source)
			}
		}
	})
	for i, e := range entries {
		l := read[i].lesson
		switch {
		case e.IsDir() && !strings.HasPrefix(e.Name(), "."):
			c.lookInto(e.Name())
		case l != nil:
			c.take(l)
		case isLesson(e):
			c.remarks = append(c.remarks, read[i].wrong)
		}
	}
}

// misnamed warns of files that were meant for lessons or for the house fingerings
// and are not read, for their names.
func (c *course) misnamed(entries []fs.DirEntry) {
	house := slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == houseFile })
	for _, e := range entries {
		name := e.Name()
		low := strings.ToLower(name)
		base, meant := low, false
		for _, end := range []string{".md", ".md.txt", ".markdown", ".mdown"} {
			if cut, ok := strings.CutSuffix(low, end); ok && cut != "" {
				base, meant = name[:len(cut)], true
			}
		}
		switch {
		case e.IsDir() || strings.HasPrefix(name, ".") || isLesson(e):
		case !house && (low == houseFile || low == houseFile+".txt"):
			c.remarks = append(c.remarks, remark{c.file(name), 1, 1, isWarning, "These house fingerings are not read, because of the file's name.", "Call it " + houseFile + "."})
		case meant:
			c.remarks = append(c.remarks, remark{c.file(name), 1, 1, isWarning, "This file is not read: the name of a lesson ends in .md.", "Call it " + base + ".md."})
		}
	}
}

// take takes in one lesson.
func (c *course) take(l *lesson) {
	c.remarks = append(c.remarks, l.remarks...)
	c.byName[l.name] = l
	if l.name != frontPage {
		c.lessons = append(c.lessons, l)
		return
	}
	c.front = l
	if l.title != "" {
		c.name = l.title
	}
}

// read reads a lesson's file, or says why it cannot be read.
func (c *course) read(name string) (source []byte, message, suggestion string) {
	info, err := c.root.Stat(name)
	switch {
	case err != nil && outside(err):
		return nil, "This file lies outside the folder of lessons.", copyInto
	case errors.Is(err, fs.ErrNotExist):
		return nil, "This is only a link, to a file that is not there.", copyInto
	case err != nil:
		return nil, fmt.Sprintf("This file cannot be read: %v.", reason(err)), "Look whether it is there and may be read."
	case !info.Mode().IsRegular():
		return nil, "This is not a file with a lesson.", "Give it another name, without .md."
	case info.Size() > mostBytes:
		return nil, tooLarge(info.Size()), "Make two lessons of it."
	}
	source, err = c.root.ReadFile(name)
	if err != nil {
		return nil, fmt.Sprintf("This file cannot be read: %v.", reason(err)), "Look whether it is there and may be read."
	}
	if len(source) > mostBytes { // it grew since it was measured
		return nil, tooLarge(int64(len(source))), "Make two lessons of it."
	}
	return source, "", ""
}

func tooLarge(size int64) string {
	return fmt.Sprintf("This lesson is too large: %d kB, where %d kB is the most.", size>>10, mostBytes>>10)
}

// outside reports whether a path was refused because it leads out of the folder.
// The os package has no name for that error, only these words.
func outside(err error) bool { return strings.Contains(err.Error(), "escapes") }

// lookInto warns of lessons in a folder of their own: they would be missed.
func (c *course) lookInto(dir string) {
	entries, err := fs.ReadDir(c.root.FS(), dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.IsDir() && path.Ext(e.Name()) == ".md" {
			c.remarks = append(c.remarks, remark{c.file(path.Join(dir, e.Name())), 1, 1, isWarning,
				"This lesson is left out, because it lies in a folder of its own.", "Move it to " + c.dir + "."})
		}
	}
}

// arrange puts the lessons in the order they are taught, and finds pages that
// would be written over each other.
func (c *course) arrange() {
	slices.SortFunc(c.lessons, func(a, b *lesson) int {
		return cmp.Or(cmp.Compare(a.order, b.order), cmp.Compare(a.name, b.name))
	})
	taken := map[string]string{"index.html": frontPage}
	for _, l := range c.lessons {
		if other, is := taken[l.address]; is {
			c.remarks = append(c.remarks, l.remarkAt(isError, 0,
				fmt.Sprintf("This lesson and %s would both be the page %s.", other, l.address), "Give one of the files another name."))
			continue
		}
		taken[l.address] = l.name
	}
}

// asset looks once for a file that a lesson refers to.
func (c *course) asset(p string) *asset {
	if a, ok := c.assets.Load(p); ok {
		return a.(*asset)
	}
	a := &asset{path: p}
	a.info, a.err = c.root.Stat(filepath.FromSlash(p))
	got, _ := c.assets.LoadOrStore(p, a)
	return got.(*asset)
}

// nearest is the lesson whose file name is most like this one, for a
// suggestion; "" if none is near.
func (c *course) nearest(name string) string {
	var names []string
	for _, l := range c.lessons {
		names = append(names, l.name)
	}
	near, _ := engine.Near(name, names)
	return near
}
