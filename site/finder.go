package main

import "readyhand/engine"

// findJSON is one ornament on one written note, as if it alone were offered there.
type findJSON struct {
	Note      string   `json:"note"` // as it is first played; "12/2" where a later pass differs
	Ornament  string   `json:"ornament"`
	Readiness string   `json:"readiness"`
	Extra     *charge  `json:"extra"`   // null where it cannot be played
	Instead   []string `json:"instead"` // the ornaments of the note in whose place it is judged; null beside what stands there
	Fingers   []int    `json:"fingers"` // of its strokes and the note, as they are played; null where written notes would move for it
}

func newFinderJSON(list []engine.Found) []findJSON {
	found := make([]findJSON, len(list))
	for i, x := range list {
		found[i] = findJSON{x.ID, x.Ornament, x.Fit.Ready.String(), newCharge(int64(x.Fit.Extra)), x.Instead, x.Fingers}
	}
	return found
}
