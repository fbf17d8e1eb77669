package main

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"readyhand/engine"
)

// This file and notes.go are the only places where plan meets the engine.

// understood reports what is wrong with a sentence by itself. Where a setting said it,
// what to write instead is written as that setting, not as the sentence.
func understood(sentence, verb, setting string) error {
	message, suggestion, ok := engine.Check(sentence)
	if ok {
		return nil
	}
	if verb != "" {
		suggestion = strings.ReplaceAll(suggestion, " "+verb+" ", " -"+setting+" ")
	}
	return errors.New(message + " " + suggestion)
}

// together reports what is wrong with sentences that are each in order: a harp
// may have so many strings, and begin there, but not both.
func together(sentences []string) error {
	for _, r := range engine.Read("").Answer(sentences...).Remarks {
		if r.Kind == "unknown-sentence" {
			return errors.New(r.Message + " " + r.Suggestion)
		}
	}
	return nil
}

// answer asks the engine about the tune and prints what it says, and the remarks
// apart from it. Where there is no tune, JSON tells so with no hands in it.
func (a asked) answer(to streams) int {
	course, remarks := houseBeside(a.file)
	found := course.Read(a.block.text).Answer(a.sentences...)
	if a.lost != nil {
		found.Hands = nil
		remarks = a.lost
	} else {
		remarks = append(remarks, a.placed(found)...)
	}
	for _, r := range found.Remarks {
		if a.lost == nil && r.Kind == "no-such-note" && severity(r.Severity.String()) == isWarning {
			// It was said here: the tune's own lines have an error for it, at their place. On a
			// page, whose address may be of an older tune, it is only a warning.
			fmt.Fprintf(to.err, "readyhand plan: -do: %s %s\n", r.Message, r.Suggestion)
			return notClear
		}
	}
	if a.fingering != nil && a.lost == nil {
		if wrong := found.Own(*a.fingering); wrong != nil {
			return misread(to, *a.fingering, wrong)
		}
	}
	write(to.err, remarks, true)
	switch {
	case a.json:
		if err := writeJSON(to.out, found, remarks, a.finder, a.practice(found)); err != nil {
			fmt.Fprintf(to.err, "readyhand: %v\n", err)
			return trouble
		}
	case a.lost == nil && (a.drills || a.calls):
		a.words(found, to)
	case a.lost == nil:
		fmt.Fprint(to.out, found.Text())
		if a.finder {
			fmt.Fprint(to.out, "\n"+found.FinderText())
		}
		if proof := found.Proof(); proof != "" && a.fingering == nil {
			fmt.Fprint(to.out, "\n"+proof)
		}
	}
	if anyErrors(remarks) {
		return trouble
	}
	return done
}

// placed gives what the engine said its places in the file.
func (a asked) placed(found engine.Answer) (remarks []remark) {
	for _, r := range found.Remarks {
		line, column := 1, 1 // for what was said on the command line
		if r.From >= 0 {
			line, column = a.place(int(r.From))
		}
		remarks = append(remarks, remark{a.file, line, column, severity(r.Severity.String()), r.Message, r.Suggestion})
	}
	return remarks
}

// misread points at the place in a fingering that cannot be read.
func misread(to streams, text string, wrong *engine.Misread) int {
	at := utf8.RuneCountInString(text[:wrong.At])
	fmt.Fprintf(to.err, "readyhand plan: -fingering, place %d: %s %s\n  %s\n  %s^\n", at+1, wrong.Message, wrong.Suggestion,
		strings.Map(oneLine, text), strings.Repeat(" ", at))
	return notClear
}

// oneLine shows what would break a line as a space.
func oneLine(r rune) rune {
	if r < ' ' {
		return ' '
	}
	return r
}
