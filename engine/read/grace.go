package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// graces reads {gf} and {/g}: notes that take no time of their own, before the
// note that follows (ABC 2.1, 4.12). Their lengths say nothing to a harp. An
// accidental among them holds to the closing brace: the standard does not say, and
// abc2midi and abcjs read it so.
func (r *reader) graces() {
	from := r.at
	n := -1
	if r.braceless != r.end {
		n = r.find(1, "}")
	}
	close := from + n
	if n > 0 && strings.ContainsAny(r.s[from+1:close], "{|") { // as others have it, who look for the }
		r.at = close + 1
		r.say(unclosedGraces, span(from, from+1), "These grace notes are closed only after other music, which is left out with them.",
			"Write } after the last one, such as {gf}.")
		return
	}
	if n < 0 {
		r.braceless = r.end // the rest of the line is looked through once
		r.at++
		r.say(unclosedGraces, span(from, from+1), "These grace notes are not closed; they are read as plain notes.",
			"Write } after the last one, such as {gf}.")
		return
	}
	end, outside := r.end, r.alters
	r.at, r.end = from+1, close
	r.take("/")
	for r.at < r.end {
		r.steps++
		r.graceMember()
	}
	r.at, r.end, r.alters = close+1, end, outside
	if r.waiting.gracePlace == (source.Span{}) {
		r.waiting.gracePlace = span(from, r.at)
	}
}

// graceMember reads one thing between the braces.
func (r *reader) graceMember() {
	from := r.at
	switch c := r.s[from]; {
	case strings.IndexByte(noteStarts, c) >= 0:
		n, ok := r.noteHead()
		if !ok {
			return
		}
		r.length()
		switch {
		case len(r.waiting.graces) < mostBeside:
			r.waiting.graces = append(r.waiting.graces, tune.Grace{Pitch: n.Pitch, Beyond: n.Beyond, Source: n.Source})
		default:
			r.say(graceSign, n.Source, "So many grace notes cannot be played before one note; from here on they are left out.", "Write them as notes of the tune.")
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
