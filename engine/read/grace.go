package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// graces reads {gf} and {/g}: notes that take no time of their own, before the
// note that follows (ABC 2.1, 4.12). Their lengths say nothing to a harp.
func (r *reader) graces() {
	from := r.at
	close := from + 1 + strings.IndexAny(r.s[from+1:r.end], "}{|")
	if close == from || r.s[close] != '}' {
		r.at++
		r.say(unclosedGraces, span(from, from+1), "These grace notes are not closed; they are read as plain notes.",
			"Write } after the last one, such as {gf}.")
		return
	}
	end := r.end
	r.at, r.end = from+1, close
	r.take("/")
	for r.at < r.end {
		r.graceMember()
	}
	r.at, r.end = close+1, end
	if r.waiting.gracePlace == (source.Span{}) {
		r.waiting.gracePlace = span(from, r.at)
	}
}

// graceMember reads one thing between the braces.
func (r *reader) graceMember() {
	from := r.at
	switch c := r.s[from]; {
	case strings.IndexByte(noteStarts, c) >= 0:
		if n, ok := r.noteHead(); ok {
			r.waiting.graces = append(r.waiting.graces, tune.Grace{Pitch: n.Pitch, Beyond: n.Beyond, Source: n.Source})
			r.length()
		}
	case strings.IndexByte(" \t`()<>-", c) >= 0:
		r.at++
	default:
		for r.at < r.end && strings.IndexByte(noteStarts, r.s[r.at]) < 0 {
			r.at++
		}
		r.say(graceSign, span(from, r.at), "Here "+source.Quote(strings.TrimSpace(r.s[from:r.at]))+" does not belong among grace notes; it is left out.",
			"Write only notes between { and }.")
	}
}
