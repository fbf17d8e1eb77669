package read

import "readyhand/engine/tune"

// rest reads z and x (seen or not, they are silent alike), and Z and X, which
// rest for whole bars (ABC 2.1, 4.5).
func (r *reader) rest() {
	from := r.at
	sign := r.s[from]
	r.at++
	length := r.length()
	e := tune.Event{Unseen: sign|0x20 == 'x', Source: span(from, r.at)}
	if sign == 'z' || sign == 'x' {
		r.add(e, length)
		return
	}
	if length.D != 1 || length.N > 999 {
		r.wrongLength(e.Source)
		length = tune.Frac{N: 1, D: 1}
	}
	bar := tune.Frac{N: 1, D: 1}
	if r.meter.Beats > 0 {
		bar = barLength(r.meter)
	} else {
		r.say(restWithoutMeter, e.Source, "Nobody can tell how long a bar's rest is without a meter; a semibreve is taken.",
			"Write a meter, such as M:3/4, or a rest with its length, such as z6.")
	}
	if r.overfull(e) {
		return
	}
	r.endBroken()
	e.Whole = int(length.N)
	r.addLong(e, length.Mul(bar))
	r.bars.rested += e.Whole - 1
	r.bars.exempt = true
}
