package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

const ready = "%%ready"

// directive reads a line that starts with %: our own %%ready lines, and the
// typeset text that must not be taken for music. Every other one is a comment
// or another program's business (ABC 2.1, 2.2.5 and 11).
func (r *reader) directive(from, to int) {
	line := r.s[from:to]
	switch {
	case line == ready || strings.HasPrefix(line, ready+" ") || strings.HasPrefix(line, ready+"\t"):
		r.ready(from, from+len(ready), to)
	case strings.HasPrefix(line, "%%begin") && len(line) > len("%%begin"):
		what, _, _ := strings.Cut(line[len("%%begin"):], " ")
		r.lines.inText, r.lines.text = what, span(from, to)
	case strings.HasPrefix(line, "%%linebreak"), strings.HasPrefix(line, "%%propagate-accidentals"):
		r.instruct(line[2:])
	case misspelt(line):
		r.say(readyMisspelt, span(from, to), "This line is not read: its first word is not "+ready+".",
			"Write "+ready+" and a space at its start, in small letters, without a space after %%.")
	}
}

// misspelt reports a line that was probably meant to be one of ours. After one
// %, as in "% ready for the last part", it is a comment like any other; after two
// it is an order to a program, and a word like ours is ours, also where the next
// one is not parted from it: %%raedy, %%readyset@1. No order of ABC 2.1, 11, is
// like it.
func misspelt(line string) bool {
	signs := len(line) - len(strings.TrimLeft(line, "%"))
	words := line[signs:]
	if signs > 1 {
		words = strings.TrimLeft(words, " \t")
	}
	word, more := words, false
	if n := strings.IndexAny(words, " \t"); n >= 0 {
		word, more = words[:n], true
	}
	if signs == 1 {
		return more && strings.EqualFold(word, "ready")
	}
	_, near := source.Near(word, []string{"ready"})
	return near || len(word) > len("ready") && strings.EqualFold(word[:len("ready")], "ready")
}

// ready reads one %%ready line. "phrase" ends a phrase after the event before
// it; every other one is a setting, kept as it is written.
func (r *reader) ready(start, from, to int) {
	from, to = trim(r.s, from, from+len(uncommented(r.s[from:to])))
	words := r.s[from:to]
	switch {
	case words == "":
		r.say(readyEmpty, span(start, to), "This "+ready+" line says nothing.", "Write what you want after it, or take it out.")
	case words != "phrase" && len(r.t.Settings) == mostSettings:
		r.say(tooManySettings, span(start, to), "There are more than 1,000 "+ready+" lines; from here on they are left out.", "Say less, or several things on a line, parted by a semicolon.")
	case words != "phrase":
		r.t.Settings = append(r.t.Settings, tune.Setting{Text: words, Source: span(from, to)})
	case !r.endPhrase():
		r.say(phraseNowhere, span(start, to), "No phrase can end here: no note has been played.",
			"Put the line under the line of music on which the phrase ends.")
	}
}

// endPhrase ends the phrase with the last event.
func (r *reader) endPhrase() bool {
	n := len(r.voice.Events)
	if n > 0 {
		r.voice.Events[n-1].PhraseEnd = true
	}
	return n > 0
}
