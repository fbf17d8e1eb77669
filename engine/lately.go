package engine

import "readyhand/engine/source"

// scored is one voice as it was written out for a choice, in its words.
type scored struct {
	choice  string
	voice   int
	hand    Hand
	remarks []source.Remark
}

// lately are the scores that were written out last for a block, the newest last: a
// command is weighed before it is obeyed, and what was switched off is often
// switched on again.
type lately struct{ list []scored }

// mostLately is how many are kept: two choices of two hands.
const mostLately = 4

func (l *lately) find(choice string, voice int) *scored {
	if l == nil {
		return nil
	}
	for i := range l.list {
		if w := &l.list[i]; w.voice == voice && w.choice == choice {
			return w
		}
	}
	return nil
}

func (l *lately) keep(w scored) {
	if l != nil {
		l.list = append(l.list[max(0, len(l.list)-mostLately+1):], w)
	}
}
