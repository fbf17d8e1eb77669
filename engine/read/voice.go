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
	to := k.Shift(steps, halfs)
	name, _, _ := strings.Cut(to.Name, " with ")
	if name != noSignature && strings.Contains(name, " ") {
		return to
	}
	var names []string // without a mode nothing else says what is altered
	for letter, alter := range to.Alter {
		if alter != 0 {
			names = append(names, pitch.Pitch{Letter: int8(letter), Alter: alter}.Name())
		}
	}
	if to.Name = name; len(names) > 0 {
		to.Name += " with " + strings.Join(names, ", ")
	}
	return to
}

// over is a layer that & lays over bars of a voice.
type over struct {
	main   *part     // nil: this is no layer
	before *part     // what was read when its last & came
	was    tune.Frac // how far the layer had come by then,
	mark   int       // how many marks it had
	event  int       // and events
	kept   int       // and what its voice had kept
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

// toMain leaves a layer before its bar line.
func (r *reader) toMain() {
	r.dropLayer()
	r.part = r.main()
}

// dropLayer goes back to what stood before an & if no note or rest has followed
// it: then it began no layer, and what was said in it counts for nothing.
func (r *reader) dropLayer() {
	if o := r.over; o.main != nil && len(r.voice.Events) == o.event {
		r.voice.Marks, r.now = r.voice.Marks[:o.mark], o.was
		r.part, o.main.kept = o.before, o.kept
	}
}

// hearVoice turns to a voice and takes up its properties.
func (r *reader) hearVoice(v value) {
	id, rest, _ := strings.Cut(strings.ReplaceAll(v.text, "\t", " "), " ")
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

// mostLayers is how many parts may lie over one bar (guess).
const mostLayers = 8

// overlay is &, which goes a bar line back and lays another part over the bar,
// && two bar lines (ABC 2.1, 7.4). A part lies over notes or rests of its voice:
// where the bar has none yet, what follows is the voice's own.
func (r *reader) overlay() {
	from := r.at
	signs := len(r.take("&"))
	r.dropLayer()
	main, layer := r.main(), r.voice.Layer+1
	p := r.layer(layer)
	switch {
	case !main.bars.open:
		r.say(layerAlone, span(from, r.at), "Nothing stands before this & in its bar, so no other part can lie over it; the sign is left out.",
			"Write a note or a rest of the voice itself before &.")
		return
	case p == nil && (len(r.parts) >= mostVoices || layer > mostLayers):
		r.say(tooManyVoices, span(from, r.at), "So many parts lie over this bar that nobody can play them; this one is read as the last one.", "Take out what does not matter.")
		return
	}
	r.endBar()
	back := min(signs, 1+len(main.bars.closed))
	start := main.bars.start
	if back > 1 {
		start = main.bars.closed[len(main.bars.closed)-back+1].start
	}
	if p == nil {
		p = newPart()
		p.voice.ID, p.voice.Layer, p.voice.Clef = main.voice.ID, layer, main.voice.Clef
		at := slices.Index(r.parts, main) + layer
		r.parts = slices.Insert(r.parts, min(at, len(r.parts)), p)
	}
	p.over = over{main, r.part, p.now, len(p.voice.Marks), len(p.voice.Events), main.kept, back}
	main.kept = len(main.voice.Marks)
	p.unit, p.meter, p.key, p.staff = main.unit, main.meter, main.key, main.staff
	r.part = p
	r.closeBar() // what was read of it before has ended
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
	r.dropLayer()
	if r.over.main == nil {
		return
	}
	r.closeBar()
	if r.over.left--; r.over.left <= 0 {
		r.part = r.over.main
	}
}

// dropVoices leaves out voices and layers without notes or rests; the first voice
// stays.
func (r *reader) dropVoices() {
	r.parts = append(r.parts[:1], slices.DeleteFunc(r.parts[1:], func(p *part) bool { return len(p.voice.Events) == 0 })...)
}

// closeVoices puts the voices into the tune.
func (r *reader) closeVoices() {
	for _, p := range r.parts {
		if main := p.over.main; main != nil {
			p.voice.ID, p.voice.Clef = main.voice.ID, main.voice.Clef
		}
		r.t.Voices = append(r.t.Voices, p.voice)
	}
}

// place is the stretch of a voice's events, from one up to another.
func (r *reader) place(from, to int) source.Span {
	return source.Span{From: r.voice.Events[from].Source.From, To: r.voice.Events[to-1].Source.To}
}
