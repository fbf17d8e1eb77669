package source

import "strconv"

// Thin keeps of sorted remarks what one can read: so many of a kind, the last of
// which tells how many more there are, and so many in all, the gravest first to
// stay. It also gives how many were left out for there being too many in all.
func Thin(remarks []Remark, ofAKind, inAll int) (kept []Remark, left int) {
	type tally struct {
		kind        string
		many, shown int
	}
	var tallies []tally
	of := func(kind string) *tally {
		for i := range tallies {
			if tallies[i].kind == kind {
				return &tallies[i]
			}
		}
		tallies = append(tallies, tally{kind: kind})
		return &tallies[len(tallies)-1]
	}
	for _, r := range remarks {
		of(r.Kind).many++
	}
	var weighs [Error + 1]int
	for _, r := range remarks {
		t := of(r.Kind)
		t.shown++
		if more := t.many - ofAKind; more > 1 { // one more is shown itself
			if t.shown > ofAKind {
				continue
			}
			if t.shown == ofAKind {
				r.Message += " There are " + strconv.Itoa(more) + " more like this."
			}
		}
		weighs[r.Severity]++
		kept = append(kept, r)
	}
	for s := Note; s <= Error; s++ {
		drop := min(weighs[s], len(kept)-inAll)
		if drop <= 0 {
			continue
		}
		rest, stays := kept[:0], weighs[s]-drop
		for _, r := range kept {
			if r.Severity == s {
				if stays--; stays < 0 {
					continue
				}
			}
			rest = append(rest, r)
		}
		kept, left = rest, left+drop
	}
	return kept, left
}
