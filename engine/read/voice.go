package read

import (
	"slices"
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// staff is what a K: or V: line says of a voice beside its key: its clef, and
// what moves its music (ABC 2.1, 4.6). The music is read where it sounds.
type staff struct {
	clef          string
	eight         int // octaves that a clef with +8 or -8 moves it
	octave, semi  int // octaves of octave=, semitones of transpose=
	octaveSaid    bool
	transposeSaid bool
	steps, halfs  int // the move that comes of it
}

// or fills in what was not said.
func (s staff) or(t staff) staff {
	if s.clef == "" {
		s.clef, s.eight = t.clef, t.eight
	}
	if !s.octaveSaid {
		s.octave = t.octave
	}
	if !s.transposeSaid {
		s.semi = t.semi
	}
	s.settle()
	return s
}

// settle works out how the music moves.
func (s *staff) settle() {
	octaves := s.eight + s.octave
	s.steps, s.halfs = pitch.Interval(s.semi)
	s.steps, s.halfs = s.steps+7*octaves, s.halfs+12*octaves
}

// move gives where a written note sounds.
func (s *staff) move(p pitch.Pitch) pitch.Pitch {
	if s.halfs == 0 {
		return p
	}
	return p.Shift(s.steps, s.halfs)
}

// moved gives the key that sounds where this one is written.
func (r *reader) moved(k pitch.Key) pitch.Key {
	if r.staff.semi == 0 {
		return k
	}
	steps, halfs := pitch.Interval(r.staff.semi)
	return k.Shift(steps, halfs)
}

// over is a layer that & lays over bars of a voice.
type over struct {
	main   *part     // nil: this is no layer
	before *part     // what was read when its & came
	was    tune.Frac // how far the layer had come by then
	left   int       // bar lines to its end
}

// headVoice is a V: in the header, which introduces a voice (ABC 2.1, 7.1).
func (r *reader) headVoice(v value) {
	here := r.part
	r.hearVoice(v)
	r.part = here
}

// bodyVoice is a V: in the body: what follows is that voice's music. Music
// before any V: is the first one's that comes.
func (r *reader) bodyVoice(v value) {
	r.toMain()
	r.hearVoice(v)
	r.spaced = true
}

// toMain leaves a layer before its bar line; one without notes was none.
func (r *reader) toMain() {
	r.dropLayers()
	r.part = r.main()
}

// emptyLayer reports whether nothing was read yet of a layer since its &.
func (r *reader) emptyLayer() bool {
	n := len(r.voice.Marks) - 1
	return r.over.main != nil && n >= 0 && r.voice.Marks[n].Kind == tune.Over && r.voice.Marks[n].Event == len(r.voice.Events)
}

// dropLayers goes back from layers in which nothing was read to what stood before
// their &.
func (r *reader) dropLayers() {
	for r.emptyLayer() {
		r.voice.Marks, r.now = r.voice.Marks[:len(r.voice.Marks)-1], r.over.was
		r.part = r.over.before
	}
}

// hearVoice turns to a voice and takes up its properties.
func (r *reader) hearVoice(v value) {
	id, rest, _ := strings.Cut(v.text, " ")
	id = strings.Map(func(c rune) rune {
		if strings.ContainsRune(`[]|:%\"=`, c) {
			return -1
		}
		return c
	}, id)
	if id == "" {
		return
	}
	i := slices.IndexFunc(r.parts, func(p *part) bool { return p.voice.ID == id && p.voice.Layer == 0 })
	first := r.parts[0]
	switch {
	case i >= 0:
		r.part = r.parts[i]
	case first.voice.ID == "":
		first.voice.ID = id
		r.part = first
	case len(r.parts) >= mostVoices:
		r.say(tooManyVoices, v.Span, "There are more than "+strconv.Itoa(mostVoices)+" voices; this one is read as the last one.", "Give each two of them a block of their own.")
	default:
		p := newPart()
		p.voice.ID, p.unit, p.meter = id, r.parts[0].unit, r.t.Meter
		r.parts = append(r.parts, p)
		if r.lines.body {
			p.unit = r.head.unit
			r.take1(p)
		}
		r.part = p
	}
	for name, says := range properties(rest) {
		switch name {
		case "name", "nm":
			r.voice.Name = strings.NewReplacer(`"`, "", "]", "").Replace(plainText(says))
		default:
			r.clefWord(&r.staff, strings.TrimSuffix(name+"="+says, "="), v)
		}
	}
	r.staff.settle()
	if r.voice.Clef == "" {
		r.voice.Clef = r.staff.clef
	}
}

// properties gives the name="what it says" pairs of a V: line; a word alone
// says nothing.
func properties(s string) func(yield func(name, says string) bool) {
	return func(yield func(name, says string) bool) {
		for s = strings.TrimSpace(s); s != ""; s = strings.TrimSpace(s) {
			end := strings.IndexAny(s, "= \t")
			if end < 0 {
				end = len(s)
			}
			name, says := s[:end], ""
			s = s[end:]
			if strings.HasPrefix(s, `="`) {
				says, s, _ = strings.Cut(s[2:], `"`)
			} else if strings.HasPrefix(s, "=") {
				says, s, _ = strings.Cut(s[1:], " ")
			}
			if !yield(strings.ToLower(name), says) {
				return
			}
		}
	}
}

// overlay is &, which goes a bar line back and lays another part over the bar,
// && two bar lines (ABC 2.1, 7.4).
func (r *reader) overlay() {
	from := r.at
	back := min(len(r.take("&")), 1+len(r.main().bars.closed))
	layer := r.voice.Layer + 1
	if r.over.main == nil {
		layer = 1
	}
	if len(r.parts) >= mostVoices || layer > 8 {
		r.say(tooManyVoices, span(from, r.at), "So many parts lie over this bar that nobody can play them; this one is read as the last one.", "Take out what does not matter.")
		layer = max(1, r.voice.Layer)
		if r.over.main == nil && r.layer(layer) == nil || r.emptyLayer() {
			return
		}
	}
	r.endBar()
	main := r.main()
	start := main.now
	if main.bars.open {
		start = main.bars.start
	}
	if back > 1 {
		start = main.bars.closed[len(main.bars.closed)-back+1].start
	}
	p := r.layer(layer)
	if p == nil {
		p = newPart()
		p.voice.ID, p.voice.Layer, p.voice.Clef = main.voice.ID, layer, main.voice.Clef
		at := slices.Index(r.parts, main) + layer
		r.parts = slices.Insert(r.parts, min(at, len(r.parts)), p)
	}
	p.over = over{main, r.part, p.now, back}
	p.unit, p.meter, p.key, p.staff = main.unit, main.meter, main.key, main.staff
	r.part = p
	if p.bars.open && p.bars.start.Less(start) { // a bar line came while another layer was read
		r.closeBar()
	}
	if p.now.Less(start) {
		p.now = start
	}
	r.mark(tune.Mark{Kind: tune.Over, Back: back, Source: span(from, r.at)})
}

// layer finds a layer of the voice that is read, nil if it has none.
func (r *reader) layer(n int) *part {
	at := slices.Index(r.parts, r.main()) + n
	if at < len(r.parts) && r.parts[at].voice.Layer == n && r.parts[at].over.main == r.main() {
		return r.parts[at]
	}
	return nil
}

// leaveLayer goes back to the voice at the bar line where its layer ends.
func (r *reader) leaveLayer() {
	r.dropLayers()
	if r.over.main == nil {
		return
	}
	r.closeBar()
	if r.over.left--; r.over.left <= 0 {
		r.part = r.over.main
	}
}

// closeVoices puts the voices into the tune: those with events, or with layers
// that have, and the first one in any case.
func (r *reader) closeVoices() {
	for i, p := range r.parts {
		if main := p.over.main; main != nil {
			p.voice.ID, p.voice.Clef = main.voice.ID, main.voice.Clef
		}
		silent := func(q *part) bool { return len(q.voice.Events) == 0 || q != p && q.over.main != p }
		if i > 0 && silent(p) && (p.over.main != nil || !slices.ContainsFunc(r.parts[i:], func(q *part) bool { return !silent(q) })) {
			continue
		}
		if p.voice.Layer > 0 { // one without notes does not count
			p.voice.Layer = r.t.Voices[len(r.t.Voices)-1].Layer + 1
		}
		r.t.Voices = append(r.t.Voices, p.voice)
	}
}

// place is the stretch of a voice's events, from one up to another.
func (r *reader) place(from, to int) source.Span {
	return source.Span{From: r.voice.Events[from].Source.From, To: r.voice.Events[to-1].Source.To}
}
