package read

import (
	"strconv"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// paces are the tempos of tunes that have no Q: line, in beats a minute, at the
// pace of a good learner (all guesses). Dotted beats are dotted quarters, plain
// ones quarters. A rhythm that is not named here goes by its meter.
var paces = []struct {
	rhythm string // as in R:
	words  string
	dotted bool
	beats  int64
}{
	{"slip jig", "a slip jig", true, 100},
	{"jig", "a jig", true, 100},
	{"air", "an air", false, 60},
	{compound, "", true, 90}, // any other tune in 6/8, 9/8 or 12/8
	{"reel", "a reel", false, 160},
	{"hornpipe", "a hornpipe", false, 140},
	{"strathspey", "a strathspey", false, 120},
	{"polka", "a polka", false, 120},
	{"march", "a march", false, 100},
	{"waltz", "a waltz", false, 120},
	{"", "", false, 100},
}

const compound = "6/8"

// A tempo outside these is not a tempo to play at (guesses).
const (
	leastQuarterMS = 50
	mostQuarterMS  = 6000
)

// guessedTempo takes the tempo from R: and M:, and says so.
func (r *reader) guessedTempo() tune.Tempo {
	rhythm := " " + strings.ToLower(strings.Join(strings.Fields(r.t.Rhythm), " ")) + " "
	for _, p := range paces {
		named := strings.Contains(rhythm, " "+p.rhythm+" ") || strings.Contains(rhythm, " "+p.rhythm+"s ")
		if !(named || p.rhythm == "" || p.rhythm == compound && r.t.Meter.Compound()) {
			continue
		}
		beat, beats := tune.Frac{N: 1, D: 4}, " beats"
		if p.dotted {
			beat, beats = tune.Frac{N: 3, D: 8}, " dotted beats"
		}
		ms, _ := quarterMS(beat, p.beats)
		words := p.words
		if words == "" && r.t.Meter.Beats > 0 {
			words = r.t.Meter.Text
		}
		if words != "" {
			words += " at "
		}
		from := "no Q: line"
		if r.t.Tempo.Words != "" {
			from = "Q: gives no number"
		}
		return tune.Tempo{QuarterMS: ms, From: from + "; " + words + strconv.FormatInt(p.beats, 10) + beats + " a minute", Words: r.t.Tempo.Words}
	}
	return tune.Tempo{} // not reached: the last row fits every tune
}

// headTempo keeps Q: until the header is read: an old one needs L:.
func (r *reader) headTempo(v value) { r.head.tempo = v }

// bodyTempo is a Q: inside the tune: from here on it holds for all voices. Before
// the first note it is the tune's.
func (r *reader) bodyTempo(v value) {
	if r.over.main != nil {
		r.say(tempoChange, v.Span, "A change of tempo in a part that & lays over a bar is not followed.", "Write it before that bar, in the voice itself.")
		return
	}
	if r.now.N == 0 {
		r.setTempo(v)
		return
	}
	q, ok := r.readTempo(v)
	if !ok {
		return
	}
	q.Words = strings.ReplaceAll(q.Words, "]", "") // it is written in brackets
	if q.Beats == 0 {
		r.say(tempoWords, v.Span, "No number stands here, so the tempo stays what it was.", "Write for instance Q:1/4=100 if it changes.")
		if at := r.since(tune.NewTempo); at >= 0 {
			r.voice.Marks[at].Tempo.Words = q.Words
			return
		}
	}
	r.mark(tune.Mark{Kind: tune.NewTempo, Tempo: q, Source: v.Span})
}

// setTempo is the tempo at the start. Words alone leave the number.
func (r *reader) setTempo(v value) {
	q, ok := r.readTempo(v)
	switch {
	case !ok:
	case q.Beats == 0:
		r.t.Tempo.Words = q.Words
	default:
		q.From = "Q: line"
		r.t.Tempo = q
	}
}

// readTempo reads Q: (ABC 2.1, 3.1.8; the old forms 10.1).
func (r *reader) readTempo(v value) (q tune.Tempo, ok bool) {
	written, words := unquoted(v.text)
	words = plainText(words)
	if written == "" {
		return tune.Tempo{Words: words}, true
	}
	beat, beats, ok := r.beat(written)
	if !ok {
		r.say(badTempo, v.Span, "The tempo "+source.Quote(v.text)+" cannot be read.", "Write Q:1/4=100 for 100 crotchets a minute.")
		return q, false
	}
	ms, ok := quarterMS(beat, beats)
	if !ok {
		r.say(tempoRange, v.Span, "Nobody can play at this tempo.", "Write Q:1/4=100 for 100 crotchets a minute.")
		return q, false
	}
	if beatless := !strings.Contains(written, "="); beatless && r.unit != (tune.Frac{N: 1, D: 4}) {
		minute := tune.NewFrac(beats*r.unit.N, r.unit.D)
		r.say(oldTempo, v.Span, "This old tempo counts the notes of the L: line, "+counting(4, minute).count(minute)+" a minute.",
			"Write Q:1/4="+strconv.FormatInt(beats, 10)+" if you meant crotchets.")
	}
	return tune.Tempo{QuarterMS: ms, Beat: beat, Beats: beats, Words: words}, true
}

// beat reads a tempo's beat and how many there are in a minute. "1/4 3/8=40"
// counts both together; "120" and "C3=40" count lengths of a plain note.
func (r *reader) beat(written string) (beat tune.Frac, beats int64, ok bool) {
	left, right, cut := strings.Cut(written, "=")
	if !cut {
		beats, ok = whole(written)
		return r.unit, beats, ok
	}
	if beats, ok = whole(strings.TrimSpace(right)); !ok {
		return beat, 0, false
	}
	left = strings.TrimSpace(left)
	if left != "" && left[0]|0x20 == 'c' {
		n, counted := int64(1), true
		if left[1:] != "" {
			n, counted = whole(left[1:])
		}
		return r.unit.Mul(tune.Frac{N: n, D: 1}), beats, counted
	}
	beat = tune.Frac{N: 0, D: 1}
	for part := range strings.FieldsSeq(left) {
		f, read := fraction(part)
		if !read || f.N > 1024 || f.D > 128 || f.D&(f.D-1) != 0 || beat.N > 1024 {
			return beat, 0, false
		}
		beat = beat.Add(f)
	}
	return beat, beats, beat.N > 0
}

// quarterMS is a quarter's length in milliseconds, rounded.
func quarterMS(beat tune.Frac, beats int64) (int32, bool) {
	above, below := 60_000*beat.D, beats*4*beat.N
	ms := (2*above + below) / (2 * below)
	return int32(min(ms, mostQuarterMS)), ms >= leastQuarterMS && ms <= mostQuarterMS
}

// unquoted takes the words in quotes out of a Q: value.
func unquoted(s string) (rest, words string) {
	for {
		before, after, cut := strings.Cut(s, `"`)
		rest += before
		if !cut {
			return strings.TrimSpace(rest), words
		}
		word, next, _ := strings.Cut(after, `"`)
		words, s = words+word, next
	}
}
