package main

import (
	"net/url"
	"path"
	"strings"
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
		suggestion := "Put the file beside the lesson, or mend its name."
		for _, l := range c.lessons {
			if l.address == p {
				suggestion = "Write " + l.name + "."
			}
		}
		return wrong("There is no file "+quoted(p)+".", suggestion)
	case !a.info.Mode().IsRegular():
		return wrong(quoted(p)+" is a folder.", "Write the name of a file in it.")
	case strings.HasPrefix(p, ".") || strings.Contains(p, "/."):
		return wrong(quoted(p)+" is a hidden file, which no site shows.", "Give it a name that does not begin with a dot.")
	}
	return target{href: pathEscape(p) + tail, asset: a}
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
