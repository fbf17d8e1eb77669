//go:build bundle

package main

import "embed"

// bundled is the engine inside this program. The Makefile puts it there.
//
//go:embed bundle/engine.wasm bundle/wasm_exec.js
var bundled embed.FS
