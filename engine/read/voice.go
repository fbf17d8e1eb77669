package read

import (
	"strings"
)

// voices is what is known of the voices (ABC 2.1, 7). The first one is read.
type voices struct {
	first string // its ID; "" while no V: has been seen
	other bool   // the music here is another's
	said  bool   // that there are others
}

// headVoice is a V: in the header, which introduces a voice.
func (r *reader) headVoice(v value) { r.hearVoice(v) }

// bodyVoice is a V: in the body: what follows is that voice's music. Music
// before any V: is the first voice's.
func (r *reader) bodyVoice(v value) {
	id := r.hearVoice(v)
	r.voices.other = id != r.voices.first
}

// hearVoice takes up the properties of the first voice, and says that others
// are not read.
func (r *reader) hearVoice(v value) string {
	id, rest, _ := strings.Cut(v.text, " ")
	if r.voices.first == "" && len(r.voice.Events) == 0 {
		r.voices.first = id
	}
	if id != r.voices.first {
		if !r.voices.said {
			r.say(secondVoice, v.Span, "Only the first voice is read yet; this one is left out.", "Give the other voice a block of its own.")
		}
		r.voices.said = true
		return id
	}
	r.voice.ID = id
	r.voices.other = false
	for name, says := range properties(rest) {
		switch name {
		case "name", "nm":
			r.voice.Name = says
		case "clef":
			r.setClef(says)
		default:
			r.clefWord(strings.TrimSuffix(name+"="+says, "="), v)
		}
	}
	return id
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

// skipVoice steps over another voice's music to the next [V:.
func (r *reader) skipVoice() {
	n := strings.Index(r.s[r.at:r.end], "[V:")
	if n < 0 {
		r.at = r.end
		return
	}
	r.at += n
	r.inlineField()
}
