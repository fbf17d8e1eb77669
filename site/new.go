package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

//go:embed starter/*.md
var starter embed.FS

// runNew is the command new.
func runNew(args []string, to streams) int {
	f := settings("new", to)
	files, code, ok := parse(f, args, 1)
	if !ok {
		return code
	}
	if len(files) == 0 {
		fmt.Fprintln(to.err, "readyhand new: name the folder to start, as in readyhand new lessons.")
		return notClear
	}
	if err := newFolder(files[0]); err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	}
	fmt.Fprintf(to.out, "%s holds a first lesson. To see it:\n\n  cd %s\n  readyhand serve\n", files[0], files[0])
	return done
}

// newFolder makes dir with a folder content in it, and the first lesson there.
// It writes over nothing.
func newFolder(dir string) error {
	content := filepath.Join(dir, "content")
	if _, err := os.Lstat(content); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is something called %s already; name a new folder", content)
	}
	if err := os.MkdirAll(content, 0o755); err != nil {
		return fmt.Errorf("%s cannot be made: %w", content, reason(err))
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
