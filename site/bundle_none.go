//go:build !bundle

package main

import "embed"

// bundled is empty in a program that was built without -tags bundle.
var bundled embed.FS
