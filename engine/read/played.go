package read

import (
	"math/bits"
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// section is a stretch that is repeated as one: its body, and the endings that
// follow on one pass or another.
type section struct {
	from, to int // events of the body
	endings  []ending
	times    int // how often it is played
	repeated bool
	explicit bool // it was opened by |: or, as others read it, by ::|
	open     bool // by |:, so that it wants its end
	triple   bool // it was opened by |::
	doubled  bool // it begins behind a double bar line, or has one inside that does not stop its repeat
	place    source.Span
}

// ending is what is played after the body on some passes.
type ending struct {
	passes   uint64 // bit 1 is the first pass
	from, to int
	lines    []int // the events at its bar lines
	repeats  bool  // a repeat sign ends it
	place    source.Span
}

// play works out the order in which the events of every voice sound (ABC 2.1,
// 4.8 to 4.10 and 3.1.9). A repeat without a beginning goes back, as 4.8 leaves
// open, to the start if it is the first one, also past double bar lines, as
// abc2midi and abcjs have it; a later one to the last repeat or double bar.
func (r *reader) play() {
	order := r.partOrder()
	for i, p := range r.parts {
		r.part = p
		if p.over.main != nil {
			r.playLayer()
			continue
		}
		w := player{reader: r, counts: make([]int, len(r.voice.Events)), now: tune.Frac{N: 0, D: 1}, speaks: i == 0}
		w.speaks = i == 0 || !alike(p, r.parts[0])
		w.playOrder(order)
		r.voice.Played, r.runs = w.steps, w.runs
	}
	r.apart()
}

// player is the playing of one voice so far.
type player struct {
	*reader
	steps  []tune.Step
	counts []int // how often each event has been reached
	now    tune.Frac
	runs   []run
	speaks bool // of repeats that do not fit together
	long   bool // too long already
}

// run is a stretch of written music as it is played.
type run struct {
	from, to tune.Frac // written time
	at       tune.Frac // played time
}

// playSections plays sections one after the other.
func (w *player) playSections(list []section) {
	for _, s := range list {
		for pass := 1; pass <= s.times; pass++ {
			w.playPass(s, pass)
		}
	}
}

// playPass plays a section once, with the endings of this pass.
func (w *player) playPass(s section, pass int) {
	w.playEvents(s, s.from, s.to)
	for _, e := range s.endings {
		if e.passes>>pass&1 == 1 {
			w.playEvents(s, e.from, e.to)
		}
	}
}

func (w *player) playEvents(s section, from, to int) {
	if from >= to || w.long {
		return
	}
	events := w.voice.Events
	w.runs = append(w.runs, run{events[from].Onset, events[to-1].Onset.Add(events[to-1].Length), w.now})
	for e := from; e < to; e++ {
		if len(w.steps) >= mostPlayed || w.now.N > mostTime*w.now.D {
			w.long = true
			w.say(playedTooLong, s.place, "With its repeats the tune is too long; it is played to here.",
				"Repeat less often: "+strconv.Itoa(mostPlayed)+" notes are the most.")
			return
		}
		w.counts[e]++
		w.steps = append(w.steps, tune.Step{Event: e, Pass: w.counts[e], Onset: w.now})
		w.now = w.now.Add(events[e].Length)
	}
	w.reader.steps += to - from
}

// playLayer plays a layer where the voice that it lies over is played.
func (r *reader) playLayer() {
	events, main := r.voice.Events, r.over.main
	counts := make([]int, len(events))
	for i, run := range main.runs {
		from := firstFrom(events, run.from)
		for e := from; e < len(events) && (events[e].Onset.Less(run.to) || i == len(main.runs)-1 && !run.to.Less(main.now)); e++ {
			if len(r.voice.Played) >= mostPlayed {
				return
			}
			counts[e]++
			r.voice.Played = append(r.voice.Played, tune.Step{Event: e, Pass: counts[e], Onset: run.at.Add(events[e].Onset.Sub(run.from))})
			r.steps++
		}
	}
}

// firstFrom finds the first event that does not begin before a time.
func firstFrom(events []tune.Event, at tune.Frac) int {
	low, high := 0, len(events)
	for low < high {
		if mid := (low + high) / 2; events[mid].Onset.Less(at) {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low
}

// alike reports whether two voices have the same repeats.
func alike(p, q *part) bool {
	say := func(p *part) (list []tune.Mark) {
		for _, m := range p.voice.Marks {
			if m.Kind == tune.Bar && turns(m) {
				list = append(list, tune.Mark{Ends: m.Ends, Starts: m.Starts, Passes: m.Passes, Double: m.Double})
			}
		}
		return list
	}
	a, b := say(p), say(q)
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// apart speaks of voices that do not last equally long: they come apart.
func (r *reader) apart() {
	end := func(p *part) tune.Frac {
		n := len(p.voice.Played)
		if n == 0 {
			return tune.Frac{N: 0, D: 1}
		}
		last := p.voice.Played[n-1]
		return last.Onset.Add(p.voice.Events[last.Event].Length)
	}
	first := r.parts[0]
	for _, p := range r.parts[1:] {
		if p.over.main != nil || len(p.voice.Events) == 0 || len(first.voice.Events) == 0 || end(p) == end(first) {
			continue
		}
		r.say(voicesApart, p.voice.Events[0].Source, "Played with its repeats, this voice is not as long as the first one.",
			"Give both the same bars, with the same repeats and endings.")
	}
}

// sections parts a stretch of a voice, from one event up to another, at its bar
// lines. What ends there belongs to it at its end, what starts there at its start.
func (w *player) sections(from, to int) []section {
	var done []section
	now := section{from: from, to: -1}
	finish := func(at int, next section) {
		now.finish(at)
		w.checkSection(now)
		done = append(done, now)
		next.from, next.to = at, -1
		now = next
	}
	repeats := false // a repeat sign has ended one
	first, _ := slices.BinarySearchFunc(w.voice.Marks, from, func(m tune.Mark, from int) int { return m.Event - from })
	for _, m := range w.voice.Marks[first:] {
		if m.Event > to {
			break
		}
		w.reader.steps++
		if m.Kind != tune.Bar {
			continue
		}
		if m.Event == from && from > 0 {
			m.Ends, m.Double = 0, false
		}
		if m.Event == to && to < len(w.voice.Events) {
			m.Starts, m.Passes = 0, 0
		}
		if m.Ends > 0 {
			now.ends(m)
			w.checkBack(now, m, repeats)
			repeats = true
		}
		if n := len(now.endings); m.Line && n > 0 && m.Event > now.endings[n-1].from {
			now.endings[n-1].lines = append(now.endings[n-1].lines, m.Event)
		}
		if at := now.unended(m); at > 0 {
			finish(at, section{})
		}
		switch {
		case m.Passes != 0 && m.Starts == 0:
			now.addEnding(m)
		case m.Ends > 0, m.Starts > 0, m.Double && repeats && now.mayEnd():
			finish(m.Event, section{explicit: m.Starts > 0 || m.Ends > 1 && !now.triple, open: m.Starts > 0, triple: m.Starts > 1, doubled: m.Ends == 0 && m.Double, place: m.Source})
		case m.Double && !now.explicit && now.from < m.Event:
			now.doubled = true
		}
		if m.Passes != 0 && now.from == m.Event && len(now.endings) == 0 {
			now.addEnding(m)
		}
	}
	finish(to, section{})
	return done
}

// unended gives the event where the last ending of a section is over, if an ending
// that it has already begins anew: then another part has begun, without a double
// bar. The last ending is taken to have as many bars as the first. 0 is none.
func (s *section) unended(m tune.Mark) int {
	n := len(s.endings)
	if n < 2 || !s.repeated || m.Starts > 0 || m.Passes&s.endings[0].passes == 0 {
		return 0
	}
	first, last := len(s.endings[0].lines), s.endings[n-1].lines
	if first == 0 || first > len(last) {
		return 0
	}
	return last[first-1]
}

// ends notes a repeat sign in the section. |:: and ::| mean three times (ABC 2.1,
// 4.8); ::| alone stands for :: in old files, and is read so by abc2midi and abcjs.
func (s *section) ends(m tune.Mark) {
	s.repeated = true
	again := 1
	if s.triple {
		again = m.Ends
	}
	s.times = max(s.times, again+1)
	s.place = m.Source
	if n := len(s.endings); n > 0 {
		s.endings[n-1].repeats = true
	}
}

// addEnding starts an ending at a mark, and closes what came before it.
func (s *section) addEnding(m tune.Mark) {
	s.close(m.Event)
	s.endings = append(s.endings, ending{passes: m.Passes, from: m.Event, to: -1, place: m.Source})
}

// close ends the body or the ending that is open.
func (s *section) close(at int) {
	if n := len(s.endings); n > 0 {
		s.endings[n-1].to = at
	} else if s.to < 0 {
		s.to = at
	}
}

// mayEnd reports whether a double bar ends the section: not inside |: :|, and
// not in a first ending that still has its repeat sign to come.
func (s *section) mayEnd() bool {
	if len(s.endings) == 0 {
		return !s.explicit
	}
	return s.repeated
}

// finish settles how often a section is played: once for every pass that an
// ending names, else as its repeat sign says.
func (s *section) finish(at int) {
	s.close(at)
	s.times = max(1, s.times)
	if len(s.endings) > 0 && !s.repeated && s.first() > 1 { // an ending without a first one: nothing is repeated
		for i := range s.endings {
			s.endings[i].passes = 1 << 1
		}
	} else if most := s.most(); most > 0 {
		s.times = most
		if s.repeated && most == 1 {
			s.times = 2 // "|1 ... :|" and what follows is the second ending
		}
	}
	s.times = min(s.times, mostPasses)
}

// first is the lowest pass that an ending is for.
func (s *section) first() int {
	first := mostPasses
	for _, e := range s.endings {
		first = min(first, bits.TrailingZeros64(e.passes))
	}
	return first
}

// most is the highest pass that an ending is for, 0 without endings.
func (s *section) most() int {
	most := 0
	for _, e := range s.endings {
		most = max(most, bits.Len64(e.passes)-1)
	}
	return most
}

// checkBack speaks of a repeat that goes back to a double bar line, or past one to
// the start: other programs may not.
func (w *player) checkBack(s section, m tune.Mark, later bool) {
	switch n := len(s.endings); {
	case !w.speaks:
	case s.doubled && !s.explicit && n == 0 && later:
		w.say(repeatBack, m.Source, "This repeat has no beginning; it goes back to the last double bar line.", "Write |: where the repeat begins.")
	case s.doubled && !s.explicit && n == 0:
		w.say(repeatBack, m.Source, "This repeat has no beginning; it goes back to the start, past the double bar line.", "Write |: where the repeat begins.")
	case n > 1 && s.most() == bits.Len64(s.endings[n-1].passes)-1 && m.Passes == 0:
		w.say(lastRepeat, m.Source, "This repeat sign ends the last ending; nobody goes back from it.", "Write || there, or |] at the end of the tune.")
	}
}

// checkSection speaks of repeats and endings that do not fit together.
func (w *player) checkSection(s section) {
	if !w.speaks {
		return
	}
	if s.open && !s.repeated && len(s.endings) == 0 && s.from < s.to {
		at := s.place
		for at.From = at.To; at.From > s.place.From && strings.IndexByte("|:[]", w.s[at.From-1]) >= 0; { // a |: under a line that ends with | is the place
			at.From--
		}
		w.say(repeatOpen, at, "This repeat is never closed; the part is played once.", "Write :| where it ends.")
	}
	if len(s.endings) == 0 {
		return
	}
	var all uint64
	for _, e := range s.endings {
		all |= e.passes
	}
	first := s.endings[0].place
	if !s.repeated {
		w.say(endingWithoutRepeat, first, "No repeat sign ends this ending; the part is repeated all the same.", "Write :| at the end of the first ending.")
	}
	for pass := 1; pass <= s.times; pass++ {
		last := pass == s.times && s.repeated && s.endings[len(s.endings)-1].repeats
		if all>>pass&1 == 0 && !last {
			w.say(endingMissing, first, "There is no ending for pass "+strconv.Itoa(pass)+".", "Write one, such as |1 and :|2.")
		}
	}
}
