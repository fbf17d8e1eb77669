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
	tempoSet      bool
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
// what is done with them in the header and in the body. nil is nothing: the
// field tells where a tune is from, or what is sung, and does not change how
// it is played.
var fields = []struct {
	letter     byte
	head, body func(*reader, value)
}{
	{'A', nil, nil}, {'B', nil, nil}, {'C', nil, nil}, {'D', nil, nil}, {'F', nil, nil}, {'G', nil, nil},
	{'H', nil, nil}, {'I', nil, nil}, {'N', nil, nil}, {'O', nil, nil}, {'S', nil, nil}, {'W', nil, nil},
	{'Z', nil, nil}, {'r', nil, nil}, {'w', nil, nil},
	{'K', (*reader).headKey, (*reader).bodyKey},
	{'L', (*reader).headLength, (*reader).bodyLength},
	{'M', (*reader).headMeter, (*reader).bodyMeter},
	{'P', (*reader).partOrder, (*reader).partLabel},
	{'Q', (*reader).headTempo, (*reader).bodyTempo},
	{'R', (*reader).rhythm, nil},
	{'T', (*reader).title, nil},
	{'U', (*reader).userSymbol, (*reader).userSymbol},
	{'V', (*reader).headVoice, (*reader).bodyVoice},
	{'X', (*reader).number, (*reader).nextTune},
	{'m', (*reader).macro, (*reader).macro},
	{'s', (*reader).symbolLine, (*reader).symbolLine},
	{'+', (*reader).more, (*reader).more},
}

// field reads one information field; its letter stands at start, its value
// from from to to.
func (r *reader) field(letter byte, start, from, to int) {
	v := r.value(from, to)
	if r.voices.other && letter != 'V' && letter != 'X' {
		return // it is about a voice that is not read
	}
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
		if read != nil {
			read(r, v)
		}
		if letter != '+' {
			r.lines.continued = letter
		}
		return
	}
	r.say(unknownField, span(start, to), "ABC has no line that starts with "+r.s[start:start+1]+":.",
		"Take it out, or write % before it to keep it as a comment.")
}

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

// title keeps the first T: (ABC 2.1, 3.1.2).
func (r *reader) title(v value) {
	if !r.head.titled {
		r.t.Title, r.head.titled = v.text, true
	}
}

func (r *reader) rhythm(v value) { r.t.Rhythm = v.text }

// more is +:, which goes on with the field before it (ABC 2.1, 3.3). Of the
// fields we use only a title can need it.
func (r *reader) more(v value) {
	const longest = 400 // bytes of a title (guess)
	if r.lines.continued == 'T' && !r.lines.body && len(r.t.Title)+len(v.text) < longest {
		r.t.Title = strings.TrimSpace(r.t.Title + " " + v.text)
	}
}

func (r *reader) nextTune(v value) {
	r.say(secondTune, v.Span, "A second tune starts here; one block holds one tune.", "Give it a block of its own.")
	r.done = true
}

func (r *reader) partOrder(v value) {
	if !v.empty() {
		r.say(partOrder, v.Span, "The order of parts is not followed yet; the tune is played as it stands.",
			"Write the parts out, or use repeats.")
	}
}

func (r *reader) partLabel(v value) {
	r.say(partLabel, v.Span, "The name of this part is not shown yet.", "Leave it if you like: nothing else changes.")
}

func (r *reader) userSymbol(v value) {
	r.say(userSymbols, v.Span, "Signs of your own are not read yet.", "Write the long name at each place, such as !trill!.")
}

func (r *reader) macro(v value) {
	r.say(macro, v.Span, "Short forms of your own are not read yet.", "Write the notes out where you want them.")
}

func (r *reader) symbolLine(v value) {
	r.say(symbolLine, v.Span, "A line of signs under the music is not read yet.",
		"Write each sign in the music, before its note.")
}

// openBody ends the header, and works out what had to wait for all of it.
func (r *reader) openBody() {
	if r.lines.body {
		return
	}
	r.lines.body = true
	if !r.head.keyed {
		r.t.Key = pitch.Key{Name: noSignature}
		if r.lines.begun {
			r.say(noKey, r.t.Header, "There is no K: line, so there are no sharps or flats.",
				"Write the key as the last line before the music, such as K:G.")
		}
	}
	r.key = r.t.Key
	r.unit = defaultLength(r.meter)
	r.bodyLength(r.head.length)
	r.t.Tempo = r.guessedTempo()
	r.setTempo(r.head.tempo)
}

// defaultLength is the length of a note where no L: says it: a sixteenth if
// the meter as a decimal is under 0.75, else an eighth (ABC 2.1, 3.1.7).
func defaultLength(m tune.Meter) tune.Frac {
	if m.Beats > 0 && m.Beats*4 < m.Unit*3 {
		return tune.Frac{N: 1, D: 16}
	}
	return tune.Frac{N: 1, D: 8}
}
