package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

//go:embed starter/*.md starter/house.txt
var starter embed.FS

// runNew is the command new.
func runNew(args []string, to streams) int {
	f := settings("new", to)
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	if len(files) == 0 {
		return unclear(f, "Name the folder to start, as in readyhand new my-lessons.")
	}
	if err := newFolder(files[0]); err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	}
	me, dir := typed(os.Args[0]), typed(files[0])
	fmt.Fprintf(to.out, "%s holds two lessons and your house fingerings, to be written over. Next:\n\n"+
		"  %[2]s serve %[3]s    show them here and follow what you write\n"+
		"  %[2]s check %[3]s    say what is wrong, and where\n"+
		"  %[2]s build %[3]s    make the site\n", filepath.Join(files[0], contentFolder), me, dir)
	return done
}

// typed is a word as it is typed to a shell.
func typed(s string) string {
	if strings.ContainsAny(s, " \t\"'`$&|;<>()*?[]#~!\\") || strings.HasPrefix(s, "-") {
		return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
	}
	return s
}

// newFolder makes dir with a folder content in it, and the first lessons there.
// It writes over nothing.
func newFolder(dir string) error {
	content := filepath.Join(dir, contentFolder)
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s is a file; name a new folder", dir)
	}
	if own, err := os.ReadDir(dir); err == nil && slices.ContainsFunc(own, isLesson) {
		return fmt.Errorf("there are lessons in %s already; name a new folder", dir)
	}
	if _, err := os.Lstat(content); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is something called %s already; name a new folder", content)
	}
	if err := os.MkdirAll(content, 0o755); err != nil {
		return fmt.Errorf("%s cannot be made (%w); name a place where you may write", content, reason(err))
	}
	entries, err := starter.ReadDir("starter")
	if err != nil {
		return err
	}
	for _, e := range entries {
		data, err := starter.ReadFile("starter/" + e.Name())
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(content, e.Name()), data, 0o644); err != nil {
			return fmt.Errorf("%s cannot be written: %w", filepath.Join(content, e.Name()), reason(err))
		}
	}
	return nil
}
