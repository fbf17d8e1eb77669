package main

import (
	"fmt"

	"readyhand/engine"
)

// strict prints the tune as strict ABC. Something that is not in it, or a key it
// cannot be moved to, is trouble; the tune is printed all the same.
func (a asked) strict(to streams) int {
	if a.lost != nil {
		write(to.err, a.lost, true)
		return trouble
	}
	block := engine.Read(a.block.text)
	text, moved := block.ABC(a.sentences...)
	remarks := a.placed(engine.Answer{Remarks: append(moved, block.Remarks...)})
	fmt.Fprint(to.out, text)
	sortRemarks(remarks)
	write(to.err, remarks, true)
	if anyErrors(remarks) {
		return trouble
	}
	return done
}
