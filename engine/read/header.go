package read

import (
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// header is what must wait until the whole header is read: the length of notes
// and an old tempo need the meter, wherever its line stands.
type header struct {
	titled, keyed bool
	length, tempo value // L: and Q: as written
	order         value // P:
	unit          tune.Frac
	key           pitch.Key
	staff         staff // K:'s clef and what moves the music, for voices that say nothing
}

// value is what stands after a field's colon.
type value struct {
	text string
	source.Span
}

func (r *reader) value(from, to int) value {
	from, to = trim(r.s, from, to)
	return value{r.s[from:to], span(from, to)}
}

// empty reports a value of which nothing was written.
func (v value) empty() bool { return v.text == "" }

// fields are the information fields of ABC 2.1, section 3 (table in 3.1), with
// what is done with them in the header and in the body. A field without either
// tells about the tune and is kept.
var fields = []struct {
	letter     byte
	head, body func(*reader, value)
}{
	{'A', nil, nil}, {'B', nil, nil}, {'C', nil, nil}, {'D', nil, nil}, {'F', nil, nil}, {'G', nil, nil},
	{'H', nil, nil}, {'N', nil, nil}, {'O', nil, nil}, {'S', nil, nil}, {'W', nil, nil}, {'Z', nil, nil},
	{'r', (*reader).remarked, (*reader).remarked},
	{'I', (*reader).instruction, (*reader).instruction},
	{'K', (*reader).headKey, (*reader).bodyKey},
	{'L', (*reader).headLength, (*reader).bodyLength},
	{'M', (*reader).headMeter, (*reader).bodyMeter},
	{'P', (*reader).headParts, (*reader).partLabel},
	{'Q', (*reader).headTempo, (*reader).bodyTempo},
	{'R', (*reader).rhythm, (*reader).remarked},
	{'T', (*reader).title, (*reader).remarked},
	{'U', (*reader).userSymbol, (*reader).userSymbol},
	{'V', (*reader).headVoice, (*reader).bodyVoice},
	{'X', (*reader).number, (*reader).nextTune},
	{'m', (*reader).macro, (*reader).macro},
	{'s', (*reader).remarked, (*reader).symbolLine},
	{'w', (*reader).remarked, (*reader).wordLine},
	{'+', (*reader).more, (*reader).more},
}

// field reads one information field; its letter stands at start, its value
// from from to to.
func (r *reader) field(letter byte, start, from, to int) {
	v := r.value(from, to)
	for _, f := range fields {
		if f.letter != letter {
			continue
		}
		read := f.head
		if r.lines.body {
			read = f.body
		}
		if v.empty() {
			v.Span = span(start, to)
		}
		switch {
		case read != nil:
			read(r, v)
		case !r.lines.body || letter == 'W':
			if text := plainText(v.text); text != "" {
				r.t.Fields = append(r.t.Fields, tune.Field{Letter: letter, Text: text})
			}
		}
		if letter != '+' {
			r.lines.continued = letter
		}
		return
	}
	help := "Take it out, or write % before it to keep it as a comment."
	for _, f := range fields {
		if f.letter == letter-'a'+'A' {
			help = "Write " + string(rune(f.letter)) + ": with a capital letter."
		}
	}
	r.say(unknownField, span(start, to), "ABC has no line that starts with "+r.s[start:start+1]+":.", help)
}

// remarked is a field that changes nothing where it stands.
func (r *reader) remarked(value) {}

func (r *reader) number(v value) {
	if r.head.titled || r.head.keyed {
		return
	}
	at := v.From
	for at > 0 && r.s[at-1] != '\n' && r.s[at-1] != '\r' {
		at--
	}
	r.t.Header = source.Span{From: at, To: v.To}
}

// title keeps the first T: as the title (ABC 2.1, 3.1.2), and the others.
func (r *reader) title(v value) {
	if r.head.titled {
		r.t.Fields = append(r.t.Fields, tune.Field{Letter: 'T', Text: plainText(v.text)})
		return
	}
	r.t.Title, r.head.titled = plainText(v.text), true
}

func (r *reader) rhythm(v value) { r.t.Rhythm = plainText(v.text) }

// more is +:, which goes on with the field before it (ABC 2.1, 3.3).
func (r *reader) more(v value) {
	const longest = 400 // bytes of a title or another kept field (guess)
	goOn := func(s *string) {
		if len(*s)+len(v.text) < longest {
			*s = strings.TrimSpace(*s + " " + plainText(v.text))
		}
	}
	switch c := r.lines.continued; {
	case c == 'w' && r.lines.body:
		r.sing(v)
	case c == 's' && r.lines.body:
		r.sign(v)
	case c == 'T' && !r.lines.body && (len(r.t.Fields) == 0 || r.t.Fields[len(r.t.Fields)-1].Letter != 'T'):
		goOn(&r.t.Title)
	case len(r.t.Fields) > 0 && r.t.Fields[len(r.t.Fields)-1].Letter == c:
		goOn(&r.t.Fields[len(r.t.Fields)-1].Text)
	}
}

// nextTune names the tune that does not belong into this block.
func (r *reader) nextTune(v value) {
	name := ""
	rest := r.s[v.To:]
	for range 12 { // lines (guess): a title stands near its X:
		end := strings.IndexAny(rest, "\r\n")
		line := rest
		if end >= 0 {
			line = rest[:end]
		}
		if title, ok := strings.CutPrefix(strings.TrimSpace(line), "T:"); ok {
			name = ", " + source.Quote(plainText(strings.TrimSpace(title))) + ","
			break
		}
		if end < 0 {
			break
		}
		rest = rest[end+1:]
	}
	r.say(secondTune, v.Span, "A second tune"+name+" starts here and is not read; one block holds one tune.", "Give it a block of its own.")
	r.done = true
}

func (r *reader) macro(v value) {
	help := "Write the notes out where you want them."
	if !strings.Contains(v.text, "=") { // "m: ~G3 = G{A}G{F}G" (ABC 2.1, 9)
		help = "Write M: with a capital letter, if the meter is meant."
	}
	r.say(macro, v.Span, "Short forms of your own are not read.", help)
}

// instruction reads I: (ABC 2.1, 3.1.17 and 11): what ends a line of music, and how
// far an accidental holds.
func (r *reader) instruction(v value) { r.instruct(v.text) }

func (r *reader) instruct(words string) {
	if how, ok := strings.CutPrefix(words, "propagate-accidentals"); ok {
		switch strings.TrimSpace(how) {
		case "octave":
			r.reach = ownOctave
		case "not":
			r.reach = ownNote
		default:
			r.reach = everyOctave
		}
	}
	what, ok := strings.CutPrefix(words, "linebreak")
	if !ok {
		return
	}
	r.lines.breaks = 0
	for sign := range strings.FieldsSeq(what) {
		switch sign {
		case "<EOL>":
			r.lines.breaks |= lineEnd
		case "$":
			r.lines.breaks |= dollar
		case "!":
			r.lines.breaks |= bang
		}
	}
}

// openBody ends the header, and works out what had to wait for all of it.
func (r *reader) openBody() {
	if r.lines.body {
		return
	}
	r.lines.body = true
	if !r.head.keyed {
		r.head.key = pitch.Key{Name: noSignature}
		if r.lines.begun {
			r.say(noKey, r.t.Header, "There is no K: line, so there are no sharps or flats.",
				"Write the key as the last line before the music, such as K:G.")
		}
	}
	r.unit = defaultLength(r.meter)
	r.bodyLength(r.head.length)
	r.setTempo(r.head.tempo)
	first := r.parts[0]
	r.head.unit = first.unit
	for _, p := range r.parts {
		p.unit, p.meter = first.unit, first.meter
		r.take1(p)
	}
	r.t.Key = r.moved(r.key)
}

// take1 gives a voice what K: said for all.
func (r *reader) take1(p *part) {
	p.key = r.head.key
	p.staff = p.staff.or(r.head.staff)
	p.voice.Clef = p.staff.clef
}

// defaultLength is the length of a note where no L: says it: a sixteenth if
// the meter as a decimal is under 0.75, else an eighth (ABC 2.1, 3.1.7).
func defaultLength(m tune.Meter) tune.Frac {
	if m.Beats > 0 && m.Beats*4 < m.Unit*3 {
		return tune.Frac{N: 1, D: 16}
	}
	return tune.Frac{N: 1, D: 8}
}
