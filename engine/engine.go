// Package engine takes a tune in, and gives a plan, its picture and its words.
//
//	text --read--> tune --vary--> score --solve--> plan --draw-----> picture
//	                                                  \--explain--> words
package engine

import (
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// Block is one tune block of a lesson, read.
type Block struct {
	Text    source.Text
	Tune    tune.Tune
	Remarks []source.Remark // what reading had to say
}

// Read reads one tune in ABC with its %%ready lines.
func Read(abc string) Block { return Block{Text: source.NewText(abc)} }
