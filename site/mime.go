package main

import (
	"path"
	"strings"
)

// kinds of files a site holds, by the end of their names. The table is our own,
// because what the system says differs from machine to machine, and a browser
// streams the engine only as application/wasm.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".wasm": "application/wasm",
	".txt":  "text/plain; charset=utf-8",
	".abc":  "text/vnd.abc; charset=utf-8",
	".json": "application/json",
	".xml":  "application/xml",
	".pdf":  "application/pdf",
	".zip":  "application/zip",

	".svg":  "image/svg+xml",
	".png":  "image/png",
	".jpg":  "image/jpeg",
	".jpeg": "image/jpeg",
	".gif":  "image/gif",
	".webp": "image/webp",
	".avif": "image/avif",

	".mp3":  "audio/mpeg",
	".m4a":  "audio/mp4",
	".ogg":  "audio/ogg",
	".oga":  "audio/ogg",
	".opus": "audio/ogg",
	".wav":  "audio/wav",
	".flac": "audio/flac",
	".mid":  "audio/midi",
	".midi": "audio/midi",
	".mp4":  "video/mp4",
	".m4v":  "video/mp4",
	".webm": "video/webm",

	".musicxml": "application/vnd.recordare.musicxml+xml",
	".mxl":      "application/vnd.recordare.musicxml",
}

// kind is the media type of a file; one we do not know is only bytes.
func kind(name string) string {
	if k := kinds[strings.ToLower(path.Ext(name))]; k != "" {
		return k
	}
	return "application/octet-stream"
}
