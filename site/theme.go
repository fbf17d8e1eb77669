package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

//go:embed theme
var themeFiles embed.FS

// named is a file of the site whose name tells what is in it, so that a browser
// may keep it for ever and a changed one is never mistaken for the old.
type named struct {
	name string
	data []byte
}

func hashed(stem, ext string, data []byte) named {
	sum := sha256.Sum256(data)
	return named{stem + "-" + hex.EncodeToString(sum[:6]) + ext, data}
}

// theme is how pages look and what starts the engine in them.
type theme struct{ css, icon, loader named }

func readTheme() (theme, error) {
	var css bytes.Buffer
	for _, part := range []string{"page.css", "block.css"} {
		data, err := themeFiles.ReadFile("theme/" + part)
		if err != nil {
			return theme{}, fmt.Errorf("this program was built without its %s: %w", part, reason(err))
		}
		css.Write(data)
	}
	icon, err := themeFiles.ReadFile("theme/icon.svg")
	if err != nil {
		return theme{}, fmt.Errorf("this program was built without its icon: %w", reason(err))
	}
	var loader []byte
	for _, part := range []string{"loader.js", "calls.js"} {
		data, err := themeFiles.ReadFile("theme/" + part)
		if err != nil {
			return theme{}, fmt.Errorf("this program was built without its %s: %w", part, reason(err))
		}
		loader = append(loader, data...)
	}
	return theme{hashed("page", ".css", css.Bytes()), hashed("icon", ".svg", icon), hashed("loader", ".js", loader)}, nil
}

// engineFiles is the engine as the browser gets it: compiled, with the script that
// Go gives to start it.
type engineFiles struct {
	wasm, exec named
	packed     func() ([]byte, error) // the file named by spare, made once
}

// readEngine takes the engine from the file given, from inside this program
// (built with -tags bundle), or from where make puts it. The script that starts
// it lies beside the file.
func readEngine(file string) (engineFiles, error) {
	var wasm, exec []byte
	var err error
	if data, e := fs.ReadFile(bundled, "bundle/engine.wasm"); file == "" && e == nil {
		wasm = data
		exec, err = fs.ReadFile(bundled, "bundle/wasm_exec.js")
	} else {
		if file == "" {
			file = filepath.FromSlash(".bin/engine.wasm")
		}
		wasm, err = os.ReadFile(file)
		if errors.Is(err, fs.ErrNotExist) {
			return engineFiles{}, fmt.Errorf("the engine for the pages is not at %s: run make first, or name it with -engine FILE", file)
		}
		if err == nil {
			starter := filepath.Join(filepath.Dir(file), "wasm_exec.js")
			if exec, err = os.ReadFile(starter); errors.Is(err, fs.ErrNotExist) {
				return engineFiles{}, fmt.Errorf("the engine for the pages needs the file wasm_exec.js beside it, which is not at %s: run make first, or name the engine that make built with -engine FILE", starter)
			}
		}
	}
	if err != nil {
		return engineFiles{}, fmt.Errorf("the engine for the pages cannot be read: %w", err)
	}
	e := engineFiles{wasm: hashed("engine", ".wasm", wasm), exec: hashed("exec", ".js", exec)}
	e.packed = sync.OnceValues(e.spareScript)
	return e, nil
}

// spare is the name of the engine written as a script, for pages opened from
// disk, where a browser refuses to fetch.
func (e engineFiles) spare() string { return strings.TrimSuffix(e.wasm.name, ".wasm") + ".js" }

// spareScript writes the engine as a script: the gzipped file as base64. Packed as
// tightly as can be it would be 1 % smaller, and take three times as long.
func (e engineFiles) spareScript() ([]byte, error) {
	var out bytes.Buffer
	out.WriteString(`self.readyhandEngine="`)
	text := base64.NewEncoder(base64.StdEncoding, &out)
	zip, err := gzip.NewWriterLevel(text, gzip.DefaultCompression)
	if err != nil {
		return nil, err
	}
	_, err = zip.Write(e.wasm.data)
	if err = errors.Join(err, zip.Close(), text.Close()); err != nil {
		return nil, err
	}
	out.WriteString("\";\n")
	return out.Bytes(), nil
}

// script is the element that starts the engine in a page with a tune.
func (e engineFiles) script(t theme) string {
	return `<script defer src="` + t.loader.name + `" data-wasm="` + e.wasm.name + `" data-fallback="` + e.spare() +
		`" data-exec="` + e.exec.name + "\"></script>\n"
}
