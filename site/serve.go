package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"
)

// runServe is the command serve: it builds the site, shows it on this machine
// only, and builds again whenever a lesson changes, until it is stopped.
func runServe(args []string, to streams) int {
	f := settings("serve", to)
	out := f.String("o", ".site", "the `FOLDER` of the site; .site if none is named")
	file := f.String("engine", "", "the `FILE` of the engine, engine.wasm; the one inside this program, or in .bin, if none is named")
	port := f.Int("port", 4747, "the `NUMBER` of the port to try first; 4747 if none is named")
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	if *port < 0 || *port >= 1<<16 {
		return unclear(f, "A port is a number from 0 to 65535; 0 is any that is free.")
	}
	content := contentOf(files)
	if info, err := os.Stat(content); err != nil || !info.IsDir() {
		fmt.Fprintln(to.err, noCourse{content, err}.remark())
		return trouble
	}
	l, err := listen(*port)
	if err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	}
	defer l.Close()
	s := newShow(order{content: content, out: *out, engine: *file}, to.err)
	s.build()
	fmt.Fprintf(to.out, "The lessons are at http://%s/ (Ctrl-C stops)\n", l.Addr())
	go s.follow(nil)
	web := &http.Server{Handler: s, ReadHeaderTimeout: 10 * time.Second}
	fmt.Fprintf(to.err, "readyhand: %v\n", web.Serve(l))
	return trouble
}

// listen takes the first free port from this one on, and any if twenty are taken.
func listen(port int) (net.Listener, error) {
	var err error
	for _, p := range append(upFrom(port, 20), 0) {
		var l net.Listener
		if l, err = net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(p))); err == nil {
			return l, nil
		}
	}
	return nil, fmt.Errorf("no port can be opened here: %w", err)
}

func upFrom(first, n int) []int {
	list := make([]int, 0, n+1)
	for p := first; p < first+n && p < 1<<16; p++ {
		list = append(list, p)
	}
	return list
}

// show is a site that is looked at while it is written.
type show struct {
	order  order
	memory *memory
	say    io.Writer
	seen   string // how the folder looked when it was built last
	last   string // how it looked when it was looked at last

	mu       sync.Mutex
	made     string // of which build the site is, a new word for each
	trouble  string // what stands in the way of the next; "" if nothing
	warnings string // what else there is to say of it
	watchers map[chan struct{}]bool
}

func newShow(o order, say io.Writer) *show {
	s := &show{order: o, memory: newMemory(), say: say, made: word(), watchers: map[chan struct{}]bool{}}
	s.order.ask = s.memory.ask
	return s
}

// word names a build as no other, in this run of the program or another.
func word() string { return strconv.FormatInt(time.Now().UnixNano(), 36) }

// build makes the site anew and tells every page that is open. Only one build is
// at work at a time: the first, then those of follow.
func (s *show) build() {
	s.last = s.look()
	s.seen = s.last // before the lessons are read: what changes meanwhile is seen next time
	s.memory.turn()
	got, err := build(s.order)
	var told strings.Builder
	write(&told, got.remarks, false)
	if err != nil {
		fmt.Fprintf(&told, "%v\n", err)
	}
	s.report(told.String())
	s.mu.Lock()
	defer s.mu.Unlock()
	s.trouble, s.warnings = "", told.String()
	if err != nil || anyErrors(got.remarks) {
		s.trouble, s.warnings = told.String(), ""
	}
	if got.changed {
		s.made = word()
	}
	for w := range s.watchers {
		select {
		case w <- struct{}{}:
		default: // it has not looked yet, and will see this too
		}
	}
}

// report prints what a build had to say, apart from the one before.
func (s *show) report(told string) {
	if told == "" {
		told = "all well\n"
	}
	fmt.Fprintf(s.say, "\n%s\n%s", time.Now().Format(time.TimeOnly), told)
}

// How often the folder is looked at: so often that an edit is on the page before
// the eye is, and seldom while nobody has a page open. Looking at a thousand files
// takes 3 ms; of so many, it is done for a twentieth of the time and no more. After
// a change the folder is looked at once more, because an editor may be half through
// with writing (20 ms: guess).
const (
	inSight = 20 * time.Millisecond
	unseen  = 500 * time.Millisecond
	settled = 20 * time.Millisecond
	leisure = 20
)

// follow builds again whenever the folder looks different, until stop closes.
func (s *show) follow(stop <-chan struct{}) {
	var took time.Duration // the last look
	for {
		s.mu.Lock()
		wait := unseen
		if len(s.watchers) > 0 {
			wait = min(unseen, max(inSight, leisure*took))
		}
		s.mu.Unlock()
		if s.last != s.seen {
			wait = settled
		}
		select {
		case <-stop:
			return
		case <-time.After(wait):
		}
		began := time.Now()
		now := s.look()
		took = time.Since(began)
		if s.changed(now) {
			s.build()
		}
	}
}

// changed reports whether to build: the folder looks different, and as it did at
// the last look, so that no file is caught half written.
func (s *show) changed(now string) bool {
	still := now == s.last
	s.last = now
	return still && now != s.seen
}

// look describes the folder of lessons: every file's name, size and time. The
// site itself may lie in it, and is left out.
func (s *show) look() string {
	var b strings.Builder
	site, _ := filepath.Abs(s.order.out)
	top, _ := filepath.Abs(s.order.content)
	if real, err := filepath.EvalSymlinks(top); err == nil {
		top = real
	}
	mine := func(p string) bool {
		return within(site, p) || strings.HasPrefix(p, site+making) || strings.HasPrefix(p, site+before)
	}
	filepath.WalkDir(top, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return nil
		}
		if p != top && (strings.HasPrefix(d.Name(), ".") || mine(p)) {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if info, err := os.Stat(p); err == nil && !d.IsDir() { // of what a link leads to, too
			fmt.Fprintln(&b, p, info.Size(), info.ModTime().UnixNano())
		}
		return nil
	})
	return b.String()
}

// ServeHTTP gives a file of the site, or the changes to follow.
func (s *show) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cache-Control", "no-cache")
	switch {
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		http.Error(w, "This site can only be read.", http.StatusMethodNotAllowed)
	case r.URL.Path == "/-/changes":
		s.changes(w, r)
	case r.URL.Path == "/-/refresh.js":
		h.Set("Content-Type", kind(".js"))
		http.ServeFileFS(w, r, themeFiles, "theme/refresh.js")
	default:
		s.file(w, r)
	}
}

// file gives a file of the site. A page gets the script that follows changes.
func (s *show) file(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
	if name == "" {
		name = "index.html"
	}
	s.mu.Lock()
	made := s.made // before the file is read: a page that is too new is only shown twice
	s.mu.Unlock()
	data, at, err := s.read(name)
	if err != nil {
		s.missing(w, name, made)
		return
	}
	w.Header().Set("Content-Type", kind(name))
	if path.Ext(name) == ".html" {
		data = bytes.Replace(data, []byte("</head>"), []byte(following(made)+"</head>"), 1)
		at = time.Time{} // the same page has another script after the next build
	}
	http.ServeContent(w, r, name, at, bytes.NewReader(data))
}

func following(made string) string {
	return `<script defer src="/-/refresh.js" data-made="` + made + "\"></script>\n"
}

// read reads a file of the site, through a root: nothing leads out of it.
func (s *show) read(name string) ([]byte, time.Time, error) {
	root, err := os.OpenRoot(s.order.out)
	if err != nil {
		return nil, time.Time{}, err
	}
	defer root.Close()
	name = filepath.FromSlash(name)
	info, err := root.Stat(name)
	if err != nil {
		return nil, time.Time{}, err
	}
	if !info.Mode().IsRegular() {
		return nil, time.Time{}, errors.New("not a file")
	}
	data, err := root.ReadFile(name)
	return data, info.ModTime(), err
}

// missing answers for a page that is not there, perhaps because the first build
// did not succeed: what stands in its way appears on it.
func (s *show) missing(w http.ResponseWriter, name, made string) {
	w.Header().Set("Content-Type", kind(".html"))
	w.WriteHeader(http.StatusNotFound)
	io.WriteString(w, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>Not there</title>\n"+following(made)+
		"</head>\n<body>\n<p>There is no page "+escaped(name)+". <a href=\"/\">All lessons</a></p>\n</body>\n</html>\n")
}

// changes tells one page, as server-sent events (HTML Living Standard, 9.2), of
// which build the site is and what is wrong, now and after every build.
func (s *show) changes(w http.ResponseWriter, r *http.Request) {
	bell := make(chan struct{}, 1)
	s.mu.Lock()
	s.watchers[bell] = true
	s.mu.Unlock()
	defer func() {
		s.mu.Lock()
		delete(s.watchers, bell)
		s.mu.Unlock()
	}()
	w.Header().Set("Content-Type", "text/event-stream")
	flow := http.NewResponseController(w)
	for {
		s.mu.Lock()
		made, wrong, warnings := s.made, s.trouble, s.warnings
		s.mu.Unlock()
		tell(w, "warnings", warnings)
		tell(w, "trouble", wrong)
		fmt.Fprintf(w, "data: %s\n\n", made)
		if flow.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-bell:
		}
	}
}

// tell writes one event with a text of several lines.
func tell(w io.Writer, event, text string) {
	fmt.Fprintf(w, "event: %s\ndata: %s\n\n", event, strings.ReplaceAll(strings.TrimRight(text, "\n"), "\n", "\ndata: "))
}
