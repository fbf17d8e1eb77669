package main

import (
	"errors"
	"fmt"

	"readyhand/engine"
)

// This file is the only place where plan meets the engine.

// understood reports what is wrong with a sentence by itself.
func understood(sentence string) error {
	if message, suggestion, ok := engine.Check(sentence); !ok {
		return errors.New(message + " " + suggestion)
	}
	return nil
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
	found := engine.Read(a.block.text).Answer(a.sentences...)
	remarks := a.lost
	if remarks != nil {
		found.Hands = nil
	} else {
		for _, r := range found.Remarks {
			line, column := 1, 1 // for what was said on the command line
			if r.From >= 0 {
				line, column = a.place(int(r.From))
			}
			remarks = append(remarks, remark{a.file, line, column, severity(r.Severity.String()), r.Message, r.Suggestion})
		}
	}
	write(to.err, remarks, true)
	switch {
	case a.json:
		if err := writeJSON(to.out, found, remarks); err != nil {
			fmt.Fprintf(to.err, "readyhand: %v\n", err)
			return trouble
		}
	case a.lost == nil:
		fmt.Fprint(to.out, found.Text())
	}
	if anyErrors(remarks) {
		return trouble
	}
	return done
}
