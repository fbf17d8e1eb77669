package explain

import "readyhand/engine/plan"

// stops gives the fingers that come down on a string after an ornament.
func (t *teller) stops(gap, site, which int) []plan.Stop {
	return t.p.Stops(t.s, t.r.Hand.InUse, gap, site, which)
}

// stopsOf gives those of a known fingering.
func (t *teller) stopsOf(k *plan.Known) []plan.Stop {
	if k.Gap < 0 {
		return k.Stops
	}
	return t.stops(k.Gap, k.Site, k.Which)
}

// stopped tells of a finger that stops a string, "1 then comes down on E and stops
// it", or why it lets it ring: "let E ring: 1 has no time to stop it".
func (t *teller) stopped(stop *plan.Stop) string {
	who, on := stopper(stop.Finger), t.str(stop.String)
	switch stop.Rings {
	case plan.Wanted:
		return "let " + on + " ring: " + who + " has no time to stop it"
	case plan.ComesAgain:
		return "let " + on + " ring: it comes again at once"
	case plan.Sounds:
		return "let " + on + " ring: it is the note itself"
	}
	text := who + " then comes down on " + on + " and stops it"
	if u := stop.Until; stop.Finger < 4 && u > 0 && u < len(t.p.Events) && t.p.Events[u].Stroke[stop.Finger] == stop.String {
		text += ", in place for the next " + on
	}
	return text
}

// silences says in a few words what is stopped after an ornament: "1 then stops E";
// "" where nothing is.
func (t *teller) silences(gap, site, which int) string {
	var words []string
	for _, stop := range t.stops(gap, site, which) {
		if stop.Rings == plan.Stopped {
			words = append(words, stopper(stop.Finger)+" then stops "+t.str(stop.String))
		}
	}
	return list(words)
}

// stopper names a finger that stops a string.
func stopper(f int8) string {
	if f > 3 {
		return "the little finger"
	}
	return number(int(f))
}
