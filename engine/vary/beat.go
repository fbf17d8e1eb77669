package vary

import "readyhand/engine/tune"

// bars gives, by bar number, the onset from which a bar's beats are counted, in
// whole notes: its first note's or rest's, but for a pickup the place where a
// whole bar would have begun.
func bars(v tune.Voice, m tune.Meter) []tune.Frac {
	starts := make([]tune.Frac, v.Bars+1)
	seen := make([]bool, v.Bars+1)
	var pickup tune.Frac // how long bar 0 is
	for _, e := range v.Events {
		if e.Bar < 0 || e.Bar > v.Bars {
			continue
		}
		if !seen[e.Bar] {
			starts[e.Bar], seen[e.Bar] = e.Onset, true
		}
		if e.Bar == 0 {
			pickup = e.Onset.Add(e.Length).Sub(starts[0])
		}
	}
	if whole := (tune.Frac{N: m.Beats, D: m.Unit}); m.Beats > 0 && seen[0] && pickup.Less(whole) {
		starts[0] = starts[0].Sub(whole.Sub(pickup))
	}
	return starts
}

// weak says how weak an event's place in its bar is: 0 where the bar begins, or its
// second half if both have as many beats; 1 on another beat; 2 between beats. A
// beat is a quarter, in 3/8, 6/8 and their kin a dotted quarter. A free meter has
// none.
func (w *writer) weak(e *tune.Event) int8 {
	m := w.tune.Meter
	if m.Beats == 0 || e.Bar < 0 || e.Bar >= len(w.bars) {
		return 0
	}
	beat := tune.Frac{N: 1, D: 4}
	if m.Unit == 8 && m.Beats%3 == 0 {
		beat = tune.Frac{N: 3, D: 8}
	}
	into := e.Onset.Sub(w.bars[e.Bar])
	bar := tune.NewFrac(m.Beats, m.Unit)
	begins := func(every tune.Frac) bool { return into.N*every.D%(into.D*every.N) == 0 }
	half := tune.NewFrac(bar.N, 2*bar.D)
	switch {
	case into.N == 0, half.N*beat.D%(half.D*beat.N) == 0 && begins(half):
		return 0
	case begins(beat):
		return 1
	}
	return 2
}

// rolled reports whether a chord is to be played from its lowest note to its
// highest (ABC 2.1, 4.14: !arpeggio!).
func rolled(e *tune.Event) bool {
	for _, d := range e.Decorations {
		if d.Name == "arpeggio" {
			return true
		}
	}
	return false
}
