package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"readyhand/engine"
)

// houseFile holds the house fingerings of a course, one on a line. It lies in the
// folder of its lessons.
const houseFile = "house.txt"

// houseBeside reads the house fingerings that lie beside the file of a tune.
func houseBeside(file string) (engine.Course, []remark) {
	if file == typedIn {
		return engine.Course{}, nil
	}
	dir := filepath.Dir(file)
	return readHouse(os.DirFS(dir), filepath.Join(dir, houseFile))
}

// courseOf reads the house fingerings of a course by its folder or a file in it, which
// must be there.
func courseOf(name string) (engine.Course, []remark) {
	info, err := os.Stat(name)
	switch {
	case name == "-":
		return engine.Course{}, nil
	case err != nil:
		message, suggestion := unreadable(err)
		return engine.Course{}, []remark{{name, 1, 1, isError, message, suggestion}}
	case info.IsDir():
		return readHouse(os.DirFS(name), filepath.Join(name, houseFile))
	}
	return houseBeside(name)
}

// readHouse reads the house fingerings of a folder, none where there is no such
// file; file is how remarks name it.
func readHouse(folder fs.FS, file string) (engine.Course, []remark) {
	wrong := func(at int, text []byte, message, suggestion string) (engine.Course, []remark) {
		line, column := position(text, at)
		return engine.Course{}, []remark{{file, line, column, isError, message, suggestion}}
	}
	info, err := fs.Stat(folder, houseFile)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return engine.Course{}, nil
	case err == nil && info.IsDir():
		return wrong(0, nil, "The house fingerings are a folder, not a file.", "Make it a file of text, with lines such as cut 1 2.")
	case err == nil && info.Size() > mostBytes:
		return wrong(0, nil, "This table of house fingerings is too large.", "One line for each ornament and chord is enough.")
	}
	text, err := fs.ReadFile(folder, houseFile)
	if err != nil {
		return wrong(0, nil, fmt.Sprintf("The house fingerings cannot be read: %v.", reason(err)), "Make it a file of text, with lines such as cut 1 2.")
	}
	if bad, message, suggestion := foreign(text); bad >= 0 {
		return wrong(bad, text, message, suggestion)
	}
	course, found := engine.NewCourse(string(text))
	var remarks []remark
	for _, r := range found {
		line, column := position(text, int(r.From))
		remarks = append(remarks, remark{file, line, column, severity(r.Severity.String()), r.Message, r.Suggestion})
	}
	return course, remarks
}
