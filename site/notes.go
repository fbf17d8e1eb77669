package main

import (
	"encoding/json"
	"fmt"
	"io"

	"readyhand/engine"
)

// notesJSON is the form of plan -notes -json, for holding this reader against
// others: each note is its onset and its length in whole notes, as a numerator
// and a denominator each, and its MIDI key number; voice by voice.
type notesJSON struct {
	Written [][5]int64 `json:"written"`
	Played  [][5]int64 `json:"played"`
}

// notes prints the notes of a tune and asks nothing about a harp or a hand. It
// is done when there are notes, whatever else there is to say about the tune.
func (a asked) notes(to streams) int {
	var written, played []engine.Heard
	var remarks []remark
	if a.lost == nil {
		block := engine.Read(a.block.text)
		written, played = block.Notes()
		remarks = a.placed(engine.Answer{Remarks: block.Remarks})
	} else {
		remarks = a.lost
	}
	if err := writeNotes(to.out, written, played); err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
		return trouble
	}
	if len(written) == 0 {
		write(to.err, remarks, true)
		return trouble
	}
	return done
}

func writeNotes(w io.Writer, written, played []engine.Heard) error {
	text, err := json.Marshal(notesJSON{rows(written), rows(played)})
	if err == nil {
		_, err = w.Write(append(text, '\n'))
	}
	return err
}

func rows(notes []engine.Heard) [][5]int64 {
	rows := make([][5]int64, len(notes))
	for i, n := range notes {
		rows[i] = [5]int64{n.Onset.N, n.Onset.D, n.Length.N, n.Length.D, int64(n.Midi)}
	}
	return rows
}
