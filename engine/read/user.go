package read

import (
	"strings"

	"readyhand/engine/source"
)

// users are the signs that U: gives a meaning of their own, by their letter; ""
// keeps the usual one (ABC 2.1, 4.16).
type users [128]string

// userSymbol reads U: T = !trill!, "^text", !nil!.
func (r *reader) userSymbol(v value) {
	sign, is, ok := strings.Cut(v.text, "=")
	sign, is = strings.TrimSpace(sign), strings.TrimSpace(is)
	if !ok || len(sign) != 1 || is == "" || strings.IndexByte(shortSet+".", sign[0]) < 0 {
		r.say(userSymbols, v.Span, "This sign of your own cannot be read.", "Write a letter from H to W or h to w, and what it stands for: U:T=!trill!.")
		return
	}
	r.user[sign[0]] = is
}

// useOwn gives the note that follows what a sign of one's own stands for.
func (r *reader) useOwn(is string, place source.Span) {
	switch name := strings.Trim(is, "!+"); {
	case name == "nil" || name == "none":
	case is[0] == '"':
		r.giveText(strings.TrimSpace(strings.Trim(is, `"`)), place)
	case name == "":
		r.decorate("+", place)
	default:
		r.decorate(name, place)
	}
}
