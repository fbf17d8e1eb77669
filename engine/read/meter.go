package read

import (
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

var freeMeter = tune.Meter{Text: "free"}

// namedMeters are the meters that ABC writes without a fraction (2.1, 3.1.6).
var namedMeters = []struct {
	text  string
	meter tune.Meter
}{
	{"C", tune.Meter{Beats: 4, Unit: 4, Text: "C"}},
	{"C|", tune.Meter{Beats: 2, Unit: 2, Text: "C|"}},
	{"none", freeMeter},
	{"", freeMeter},
}

func (r *reader) headMeter(v value) {
	if m, ok := r.readMeter(v); ok {
		r.t.Meter, r.meter = m, m
	}
}

// bodyMeter changes the meter from here on; the length of notes stays (ABC
// 2.1, 3.1.7). Before the first note it is the tune's meter.
func (r *reader) bodyMeter(v value) {
	m, ok := r.readMeter(v)
	if !ok {
		return
	}
	r.meter = m
	if r.part == r.parts[0] && r.events == 0 {
		r.t.Meter = m
		for _, p := range r.parts {
			p.meter = m
		}
	} else {
		r.mark(tune.Mark{Kind: tune.NewMeter, Meter: m, Source: v.Span})
	}
}

func (r *reader) readMeter(v value) (tune.Meter, bool) {
	for _, row := range namedMeters {
		if strings.EqualFold(v.text, row.text) {
			return row.meter, true
		}
	}
	beats, unit, ok := strings.Cut(v.text, "/")
	m := tune.Meter{Text: v.text}
	if ok {
		m.Beats, ok = addedBeats(strings.TrimSpace(beats))
	}
	if ok {
		m.Unit, ok = whole(strings.TrimSpace(unit))
	}
	if !ok || m.Beats > 64 || m.Unit > 64 || m.Unit&(m.Unit-1) != 0 {
		r.say(badMeter, v.Span, "The meter "+source.Quote(v.text)+" cannot be read.", "Write M:6/8, M:4/4, M:C, or M:none for a free one.")
		return tune.Meter{}, false
	}
	return m, true
}

// addedBeats reads "6", "2+2+3" or "(2+3)+2" (ABC 2.1, 3.1.6).
func addedBeats(s string) (int64, bool) {
	if strings.ContainsAny(s, "() ") {
		s = strings.NewReplacer("(", "", ")", "", " ", "").Replace(s)
	}
	total := int64(0)
	for part := range strings.SplitSeq(s, "+") {
		n, ok := whole(part)
		if !ok || total > 64 {
			return 0, false
		}
		total += n
	}
	return total, true
}

// barLength is how much a full bar holds, in whole notes; only where the meter
// is not free.
func barLength(m tune.Meter) tune.Frac { return tune.NewFrac(m.Beats, m.Unit) }
