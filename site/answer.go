package main

import (
	"fmt"

	"readyhand/engine"
)

// answer asks the engine about the tune and prints what it says. It is the only
// place where plan meets the engine.
func (a asked) answer(to streams) int {
	answer := engine.Read(a.block.text).Answer(a.sentences...)
	place := func(at int32) (line, column int) {
		if at < 0 {
			return 0, 0 // a remark about what was said on the command line
		}
		return a.place(int(at))
	}
	if a.json {
		if err := writeJSON(to.out, answer, place); err != nil {
			fmt.Fprintln(to.err, err)
			return trouble
		}
	} else {
		for _, r := range answer.Remarks {
			line, column := place(r.From)
			fmt.Fprintln(to.err, remark{a.file, line, column, severity(r.Severity.String()), r.Message, r.Suggestion})
		}
		fmt.Fprint(to.out, answer.Text())
	}
	if answer.Errors() {
		return trouble
	}
	return done
}
