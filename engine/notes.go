package engine

import "readyhand/engine/tune"

// Heard is one sounding note of a tune, for those who know only this package.
type Heard = tune.Heard

// Notes gives the notes of a block as written and as played, without ornaments:
// what another reader of ABC would have to agree with.
func (b Block) Notes() (written, played []Heard) { return b.Tune.Notes() }
