package main

import (
	"errors"
	"fmt"
)

// runCheck is the command check: it prints every remark with
// its place in the text, and is not content
// while there are errors.
func runCheck(args []string, to streams) int {
	f := settings("check", to)
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	remarks, lessons, err := check(contentOf(files))
	if none := (noCourse{}); errors.As(err, &none) {
		remarks, err = []remark{none.remark()}, nil
	}
	if err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	}
	pointOut(to.out, remarks)
	if anyErrors(remarks) {
		return trouble
	}
	fmt.Fprintf(to.err, "%s can be built.\n", count(lessons, "lesson"))
	return done
}

// check reads a course as build does, and writes nothing.
func check(content string) (remarks []remark, lessons int, err error) {
	c, err := openCourse(content)
	if err != nil {
		return nil, 0, err
	}
	defer c.close()
	w, err := c.look(askEngine)
	return w.remarks(), w.lessons(), err
}

// look reads all pages of a course for what there is to say about them.
func (c *course) look(ask asker) (*work, error) {
	w := &work{course: c, md: newMarkdown(), ask: ask}
	return w, w.pages()
}
