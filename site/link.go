package main

import (
	"io/fs"
	"net/url"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"readyhand/engine"
)

// target is where a link or a picture leads, once looked up.
type target struct {
	href       string // what the page has to say
	asset      *asset // the file to copy beside the page; nil if none
	page       string // the lesson's file it leads to, "" if it leads elsewhere
	part       string // the heading in that page, without #; "" if none
	message    string // what is wrong; "" if nothing
	suggestion string
}

func wrong(message, suggestion string) target {
	return target{message: message, suggestion: suggestion}
}

// schemes are the addresses outside the site that a lesson may lead to.
var schemes = map[string]bool{"http": true, "https": true, "mailto": true, "tel": true}

// resolve looks up what a lesson wrote as the address of a link.
func (c *course) resolve(from *lesson, written string) target {
	u, err := url.Parse(written)
	if err != nil {
		return wrong("This is no address: "+quoted(written)+".", "Write the name of a file, or an address that begins with https://.")
	}
	switch {
	case schemes[strings.ToLower(u.Scheme)]:
		return target{href: written}
	case len(u.Scheme) == 1 || strings.EqualFold(u.Scheme, "file"): // C:\music\gate.mp3
		return wrong(quoted(written)+" is a place on your own disk, which no reader has.", copyInto)
	case u.Scheme != "":
		return wrong("A link cannot lead to "+quoted(u.Scheme+":")+".", "Write an address that begins with https://.")
	case u.Host != "":
		return wrong("This address is half written: "+quoted(written)+".", "Write https:"+written+".")
	case u.Path == "" && u.Fragment == "" && written != "#":
		return wrong("This link leads nowhere.", "Write a file or an address between the round brackets.")
	case u.Path == "":
		return target{href: written, page: from.name, part: u.Fragment}
	case strings.HasPrefix(u.Path, "/"):
		return wrong(quoted(u.Path)+" begins with a slash, so it leads out of the course.", c.inside(strings.TrimLeft(u.Path, "/")))
	}
	return c.within(u)
}

// within looks up an address inside the course.
func (c *course) within(u *url.URL) target {
	p := path.Clean(u.Path)
	tail := (&url.URL{RawQuery: u.RawQuery, Fragment: u.Fragment, RawFragment: u.RawFragment}).String()
	if l := c.byName[p]; l != nil {
		return target{href: pathEscape(l.address) + tail, page: l.name, part: u.Fragment}
	}
	if p == frontPage || p == "." {
		return target{href: "index.html" + tail}
	}
	if strings.HasPrefix(p, "../") || p == ".." {
		return wrong(quoted(u.Path)+" lies outside the folder of lessons.", copyInto)
	}
	if c.byName[p+".md"] != nil && c.asset(p).err != nil {
		return wrong("There is no file "+quoted(p)+".", "Write "+p+".md.")
	}
	if strings.EqualFold(path.Ext(p), ".md") {
		suggestion := "Write the name of one of the lessons."
		if n := c.nearest(p); n != "" {
			suggestion = "Write " + n + ", if that is meant."
		}
		return wrong("There is no lesson "+quoted(p)+".", suggestion)
	}
	a := c.asset(p)
	switch {
	case a.err != nil && outside(a.err):
		return wrong(quoted(p)+" lies outside the folder of lessons.", copyInto)
	case a.err != nil:
		return wrong("There is no file "+quoted(p)+".", c.insteadOf(p))
	case !a.info.Mode().IsRegular():
		return wrong(quoted(p)+" is a folder.", "Write the name of a file in it.")
	case strings.HasPrefix(p, ".") || strings.Contains(p, "/."):
		return wrong(quoted(p)+" is a hidden file, which no site shows.", "Give it a name that does not begin with a dot.")
	}
	return target{href: pathEscape(p) + tail, asset: a}
}

// insteadOf suggests what to write for a file that is not there.
func (c *course) insteadOf(p string) string {
	for _, l := range c.lessons {
		if l.address == p {
			return "Write " + l.name + "."
		}
	}
	dir, name := path.Split(p)
	entries, _ := fs.ReadDir(c.root.FS(), path.Clean("./"+dir))
	var names []string
	for _, e := range entries {
		if info, err := c.root.Stat(filepath.FromSlash(dir + e.Name())); err == nil && info.Mode().IsRegular() && !strings.HasPrefix(e.Name(), ".") {
			names = append(names, e.Name())
		}
	}
	if near, ok := engine.Near(name, names); ok {
		return "Write " + dir + near + ", if that is meant."
	}
	first, _, inside := strings.Cut(p, "/")
	if strings.HasPrefix(p, "www.") || inside && strings.Contains(first, ".") {
		return "Put the file beside the lesson, or, if this is an address elsewhere, write https://" + p + "."
	}
	return "Put the file beside the lesson, or mend its name."
}

// nearHeading suggests what to write for a heading that is not there: the one most
// like it, if one is.
func nearHeading(part string, h headings) string {
	var names []string
	for name := range h.used {
		names = append(names, name)
	}
	slices.Sort(names)
	if near, ok := engine.Near(slug(part), names); ok {
		return "Write #" + near + "."
	}
	return "Write the words of the heading in small letters with hyphens between them."
}

const copyInto = "Copy the file itself into the folder, and write its name."

// inside suggests what to write for a path that began with a slash.
func (c *course) inside(p string) string {
	if a := c.asset(path.Clean(p)); a.err == nil && a.info.Mode().IsRegular() {
		return "Write " + p + "."
	}
	return copyInto
}

// pathEscape writes a path as an address.
func pathEscape(p string) string {
	return strings.TrimPrefix((&url.URL{Path: p}).String(), "./")
}
