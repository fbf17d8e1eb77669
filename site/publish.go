package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

// staging is a site in the making: a folder beside the old site that takes its
// place in one step when it is whole. Whoever is stopped before leaves the old
// site, and a folder that the next build clears away.
type staging struct {
	target string // the folder of the site
	dir    string // the folder in the making
	lock   *os.File
	first  bool            // there is no old site
	made   map[string]bool // what is in it, by path
	fresh  bool            // something in it is not in the old site
	mu     sync.Mutex
}

const (
	making = ".staging-" // between the site's name and a number of its own
	before = ".before-"  // the old site, where two folders cannot change places at once
)

// stage opens a new staging folder for a site. It refuses to replace a folder
// that this program has not made, or that holds the lessons themselves.
func stage(out, content string) (*staging, error) {
	target, err := filepath.Abs(out)
	if err != nil {
		return nil, err
	}
	if real, err := filepath.EvalSymlinks(target); err == nil {
		target = real
	}
	lessons, err := filepath.Abs(content)
	if err != nil {
		return nil, err
	}
	if real, err := filepath.EvalSymlinks(lessons); err == nil {
		lessons = real
	}
	if within(target, lessons) {
		return nil, fmt.Errorf("the site cannot take the place of %s: the lessons are in it; name another folder with -o", out)
	}
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return nil, unwritable(out, err)
	}
	free, err := alone(filepath.Dir(target))
	if err != nil {
		return nil, err
	}
	defer free()
	if err := heal(target); err != nil {
		return nil, err
	}
	if err := mayReplace(target, out); err != nil {
		return nil, err
	}
	clearStale(target)
	st, err := makeStaging(target)
	if err != nil {
		return nil, unwritable(out, err)
	}
	return st, nil
}

// unwritable is the error of a place where no site can be made.
func unwritable(out string, err error) error {
	return fmt.Errorf("the site cannot be made in %s (%w); name a folder where you may write with -o", out, reason(err))
}

func makeStaging(target string) (*staging, error) {
	dir, err := os.MkdirTemp(filepath.Dir(target), filepath.Base(target)+making)
	if err != nil {
		return nil, err
	}
	if err := os.Chmod(dir, 0o755); err != nil { // MkdirTemp's is for us alone
		return nil, err
	}
	lock, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	hold(lock, false)
	_, err = os.Lstat(target)
	return &staging{target: target, dir: dir, lock: lock, first: errors.Is(err, fs.ErrNotExist), made: map[string]bool{}}, nil
}

// alone keeps other builds from beginning or ending in the same folder until
// free is called: one may be clearing away while another makes its folder.
func alone(parent string) (free func() error, err error) {
	f, err := os.Open(parent)
	if err != nil {
		return nil, err
	}
	hold(f, true)
	return f.Close, nil
}

// mayReplace looks into the folder that is to be replaced.
func mayReplace(target, out string) error {
	entries, err := os.ReadDir(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case isFile(target):
		return fmt.Errorf("the site cannot take the place of %s, which is a file; name a folder with -o", out)
	case err != nil:
		return fmt.Errorf("the site cannot take the place of %s: %w", out, reason(err))
	case len(entries) == 0:
		return nil
	}
	index, err := os.ReadFile(filepath.Join(target, "index.html"))
	if err != nil || !bytes.Contains(index, []byte(ours)) {
		return fmt.Errorf("the site cannot take the place of %s: something else is in it; name another folder with -o", out)
	}
	return nil
}

func isFile(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.IsDir()
}

// clearStale removes what stopped builds left behind. A folder that another
// build is still at work on is locked, and stays.
func clearStale(target string) {
	left, _ := filepath.Glob(escapeGlob(target) + making + "*")
	for _, dir := range left {
		f, err := os.Open(dir)
		if err != nil {
			continue
		}
		if hold(f, false) {
			os.RemoveAll(dir)
		}
		f.Close()
	}
}

// escapeGlob keeps signs in a folder's name from being read as a pattern.
func escapeGlob(s string) string {
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(s)
}

// put writes a file of the site. One that is as it was is not written again:
// the new site takes the old one over.
func (s *staging) put(name string, data []byte) error {
	if !s.begin(name) {
		return fmt.Errorf("two things want to be the file %s of the site", name)
	}
	if had := s.same(name, data); had != nil && s.link(name, had) {
		return nil
	}
	s.mark()
	p := filepath.Join(s.dir, filepath.FromSlash(name))
	return os.WriteFile(p, data, 0o644)
}

// begin notes a file, and reports false if there is one of that name already
// (in small letters: some disks know no others).
func (s *staging) begin(name string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.made[strings.ToLower(name)] {
		return false
	}
	s.made[strings.ToLower(name)] = true
	return true
}

func (s *staging) mark() {
	s.mu.Lock()
	s.fresh = true
	s.mu.Unlock()
}

func (s *staging) old(name string) string { return filepath.Join(s.target, filepath.FromSlash(name)) }

// had reports whether the old site has a file of this name.
func (s *staging) had(name string) bool {
	_, err := os.Lstat(s.old(name))
	return err == nil
}

// same finds a file of the old site that is this very one; nil if there is none.
func (s *staging) same(name string, data []byte) os.FileInfo {
	if s.first {
		return nil
	}
	f, err := os.Open(s.old(name))
	if err != nil {
		return nil
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || info.Size() != int64(len(data)) {
		return nil
	}
	if !holds(f, data) {
		return nil
	}
	return info
}

// holds reports whether this is all that a file holds.
func holds(f *os.File, data []byte) bool {
	piece := make([]byte, min(len(data)+1, 32<<10))
	for {
		n, err := f.Read(piece)
		if !bytes.HasPrefix(data, piece[:n]) {
			return false
		}
		data = data[n:]
		if err != nil {
			return err == io.EOF && len(data) == 0
		}
	}
}

// link takes a file over from the old site, if it is still the one that was
// looked at: another build may have put its site there since.
func (s *staging) link(name string, had os.FileInfo) bool {
	to := filepath.Join(s.dir, filepath.FromSlash(name))
	if os.Link(s.old(name), to) != nil {
		return false
	}
	if now, err := os.Lstat(to); err == nil && os.SameFile(had, now) {
		return true
	}
	os.Remove(to)
	return false
}

// keep takes a file over whose name tells what is in it.
func (s *staging) keep(name string) bool {
	had, err := os.Lstat(s.old(name))
	return err == nil && s.link(name, had) && s.begin(name)
}

// copy copies a file of the course. It keeps the time the file was changed, by
// which the next build knows it again.
func (s *staging) copy(root *os.Root, a *asset) error {
	if !s.begin(a.path) {
		return errors.New("a page or another file has the same name")
	}
	to := filepath.Join(s.dir, filepath.FromSlash(a.path))
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	if had, err := os.Stat(s.old(a.path)); err == nil && had.Size() == a.info.Size() && had.ModTime().Equal(a.info.ModTime()) && s.link(a.path, had) {
		return nil
	}
	s.mark()
	in, err := root.Open(filepath.FromSlash(a.path))
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.Create(to)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close(), os.Chtimes(to, a.info.ModTime(), a.info.ModTime()))
}

// publish puts the new site in the place of the old one, and reports whether it
// is another. One that is the same in everything is not touched.
func (s *staging) publish() (changed bool, err error) {
	if !s.fresh && s.filesBefore() == len(s.made) {
		return false, nil
	}
	free, err := alone(filepath.Dir(s.target))
	if err != nil {
		return false, err
	}
	defer free()
	if err := swap(s.dir, s.target); err != nil {
		return false, fmt.Errorf("the site cannot be put in its place: %w", err)
	}
	return true, nil
}

// filesBefore counts the files of the old site.
func (s *staging) filesBefore() int {
	n := 0
	filepath.WalkDir(s.target, func(_ string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			n++
		}
		return nil
	})
	return n
}

// drop removes what is left beside the site: the folder in the making, or the
// old site after it was replaced.
func (s *staging) drop() {
	os.RemoveAll(s.dir)
	s.lock.Close()
}

// swap puts a folder in the place of another, which afterwards has the first
// one's name. Where the system can, both names change hands in one step; where
// it cannot, the old site is for a moment only beside its place, and heal brings
// it back if this program is stopped just then.
func swap(fresh, target string) error {
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(fresh, target)
	}
	if exchange(fresh, target) == nil {
		return nil
	}
	aside := target + before + filepath.Base(fresh)
	if err := os.Rename(target, aside); err != nil {
		return err
	}
	if err := os.Rename(fresh, target); err != nil {
		return errors.Join(err, os.Rename(aside, target))
	}
	return os.RemoveAll(aside)
}

// heal brings back a site that was aside when a build was stopped, and removes
// one that is not needed any more.
func heal(target string) error {
	aside, _ := filepath.Glob(escapeGlob(target) + before + "*")
	for _, dir := range aside {
		if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
			if err := os.Rename(dir, target); err != nil {
				return err
			}
			continue
		}
		os.RemoveAll(dir)
	}
	return nil
}
