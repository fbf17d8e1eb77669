package main

import (
	"fmt"
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
		return wrong(fmt.Sprintf("This is no address: %q.", written), "write the name of a file, or an address that begins with https://")
	}
	switch {
	case schemes[strings.ToLower(u.Scheme)]:
		return target{href: written}
	case u.Scheme != "":
		return wrong(fmt.Sprintf("A link cannot lead to %q.", u.Scheme+":"), "write an address that begins with https://")
	case u.Host != "":
		return wrong(fmt.Sprintf("This address is half written: %q.", written), "write https:"+written)
	case u.Path == "" && u.Fragment == "" && written != "#":
		return wrong("This link leads nowhere.", "write a file or an address between the round brackets")
	case u.Path == "":
		return target{href: written, page: from.name, part: u.Fragment}
	case strings.HasPrefix(u.Path, "/"):
		return wrong(fmt.Sprintf("%q begins with a stroke, so it leads out of the course.", u.Path), "write "+strings.TrimLeft(u.Path, "/"))
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
		return wrong(fmt.Sprintf("%q lies outside the folder of lessons.", u.Path), "copy the file into the folder")
	}
	if strings.EqualFold(path.Ext(p), ".md") {
		suggestion := "write the name of one of the lessons"
		if n := c.nearest(p); n != "" {
			suggestion = "did you mean " + n
		}
		return wrong(fmt.Sprintf("There is no lesson %q.", p), suggestion)
	}
	a := c.asset(p)
	switch {
	case a.err != nil && outside(a.err):
		return wrong(fmt.Sprintf("%q lies outside the folder of lessons.", p), "copy the file itself into the folder")
	case a.err != nil:
		suggestion := "put the file beside the lesson, or mend its name"
		for _, l := range c.lessons {
			if l.address == p {
				suggestion = "write " + l.name
			}
		}
		return wrong(fmt.Sprintf("There is no file %q.", p), suggestion)
	case !a.info.Mode().IsRegular():
		return wrong(fmt.Sprintf("%q is a folder.", p), "write the name of a file in it")
	case strings.HasPrefix(p, ".") || strings.Contains(p, "/."):
		return wrong(fmt.Sprintf("%q is a hidden file, which no site shows.", p), "give it a name that does not begin with a dot")
	}
	return target{href: pathEscape(p) + tail, asset: a}
}

// pathEscape writes a path as an address.
func pathEscape(p string) string {
	return strings.TrimPrefix((&url.URL{Path: p}).String(), "./")
}
