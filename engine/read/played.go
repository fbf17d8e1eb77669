package read

import (
	"math/bits"
	"strconv"

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
	explicit bool // it was opened by |:
	place    source.Span
}

// ending is what is played after the body on some passes.
type ending struct {
	passes   uint64 // bit 1 is the first pass
	from, to int
	repeats  bool // a repeat sign ends it
	place    source.Span
}

// play works out the order in which the events sound (ABC 2.1, 4.8 to 4.10).
// A repeat without a beginning goes back to the last repeat or double bar,
// else to the start.
func (r *reader) play() {
	p := player{counts: make([]int, len(r.voice.Events)), now: tune.Frac{N: 0, D: 1}}
	for _, s := range r.sections() {
		if !r.playSection(&p, s) {
			r.say(playedTooLong, s.place, "With its repeats the tune is too long; it is played to here.",
				"Repeat less often: "+strconv.Itoa(mostPlayed)+" notes are the most.")
			break
		}
	}
	r.voice.Played = p.steps
	r.closeVoice()
}

// player is the playing so far.
type player struct {
	steps  []tune.Step
	counts []int // how often each event has been reached
	now    tune.Frac
}

// playSection plays a section as often as it asks; it reports false where the
// playing has grown too long.
func (r *reader) playSection(p *player, s section) bool {
	for pass := 1; pass <= s.times; pass++ {
		if !r.playEvents(p, s.from, s.to) {
			return false
		}
		for _, e := range s.endings {
			if e.passes>>pass&1 == 1 && !r.playEvents(p, e.from, e.to) {
				return false
			}
		}
	}
	return true
}

func (r *reader) playEvents(p *player, from, to int) bool {
	for e := from; e < to; e++ {
		if len(p.steps) >= mostPlayed || p.now.N > mostTime*p.now.D {
			return false
		}
		p.counts[e]++
		p.steps = append(p.steps, tune.Step{Event: e, Pass: p.counts[e], Onset: p.now})
		p.now = p.now.Add(r.voice.Events[e].Length)
	}
	return true
}

// sections parts the voice at its marks.
func (r *reader) sections() []section {
	var done []section
	now := section{}
	finish := func(at int, next section) {
		now.finish(at)
		r.checkSection(now)
		done = append(done, now)
		next.from, next.to = at, -1
		now = next
	}
	now.to = -1
	for _, m := range r.bars.marks {
		if m.ends > 0 {
			now.ends(m)
		}
		switch {
		case m.passes != 0 && !now.after(m):
			now.addEnding(m)
		case m.ends > 0, m.starts > 0, m.double && now.mayEnd():
			finish(m.event, section{explicit: m.starts > 0, place: m.place})
		}
		if m.passes != 0 && now.from == m.event && len(now.endings) == 0 {
			now.addEnding(m)
		}
	}
	finish(len(r.voice.Events), section{})
	return done
}

// ends notes a repeat sign in the section.
func (s *section) ends(m mark) {
	s.repeated = true
	s.times = max(s.times, m.ends+1)
	s.place = m.place
	if n := len(s.endings); n > 0 {
		s.endings[n-1].repeats = true
	}
}

// after reports a mark whose ending belongs to a new section: a repeat starts
// at the same place.
func (s *section) after(m mark) bool { return m.starts > 0 }

// addEnding starts an ending at a mark, and closes what came before it.
func (s *section) addEnding(m mark) {
	s.close(m.event)
	s.endings = append(s.endings, ending{passes: m.passes, from: m.event, to: -1, place: m.place})
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
	most := 0
	for _, e := range s.endings {
		most = max(most, bits.Len64(e.passes)-1)
	}
	if most > 0 {
		s.times = max(most, 1)
		if s.repeated && most == 1 {
			s.times = 2 // "|1 ... :|" and what follows is the second ending
		}
	}
	s.times = min(s.times, mostPasses)
}

// checkSection speaks of repeats and endings that do not fit together.
func (r *reader) checkSection(s section) {
	if s.explicit && !s.repeated && len(s.endings) == 0 {
		r.say(repeatOpen, s.place, "This repeat is never closed; the part is played once.", "Write :| where it ends.")
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
		r.say(endingWithoutRepeat, first, "No repeat sign ends this ending; the part is repeated all the same.", "Write :| at the end of the first ending.")
	}
	for pass := 1; pass <= s.times; pass++ {
		last := pass == s.times && s.repeated && s.endings[len(s.endings)-1].repeats
		if all>>pass&1 == 0 && !last {
			r.say(endingMissing, first, "There is no ending for pass "+strconv.Itoa(pass)+".", "Write one, such as |1 and :|2.")
		}
	}
}
