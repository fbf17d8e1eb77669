package agree_test

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// preparing is what the other readers need done to a text before they read it.
// They play ornaments, swing hornpipes and always carry repeats out; ours has the
// text as it is.
type preparing struct {
	written bool // each bar once: repeats, endings and parts are taken out
	graces  bool // grace notes are taken out: abcjs cannot leave them silent
	midi    bool // what abc2midi adds to sound like an instrument is switched off
}

const straight = "%%MIDI chordattack 0\n%%MIDI trim 0/1\n"

var (
	bom    = "\xef\xbb\xbf"
	long   = regexp.MustCompile(`^(![^\s!|]*!|\+[^\s+|]+\+)`)
	inline = regexp.MustCompile(`^\[([A-Za-z]):[^\]]*\]`)
	bars   = regexp.MustCompile(`^(?:\[?\||::|:+\|)(?:[|:\]]|\[\|)*([0-9][0-9,-]*)?`)
	group  = regexp.MustCompile(`^\([0-9][0-9:]*`)
	turn   = regexp.MustCompile(`^\[([0-9][0-9,-]*)`)
)

// text prepares a whole text.
func (p preparing) text(abc string) string {
	abc = strings.TrimPrefix(abc, bom)
	if !utf8.ValidString(abc) {
		var now strings.Builder
		for i := range len(abc) {
			now.WriteRune(rune(abc[i]))
		}
		abc = now.String()
	}
	abc = strings.ReplaceAll(strings.ReplaceAll(abc, "\r\n", "\n"), "\r", "\n")
	var out strings.Builder
	body, words := false, false
	for line := range strings.SplitSeq(abc, "\n") {
		field := len(line) > 1 && line[1] == ':' && (line[0]|0x20 >= 'a' && line[0]|0x20 <= 'z' || line[0] == '+')
		field = field && !(body && line[0] >= 'a' && line[0] <= 'g') // a note and a stray colon
		switch {
		case strings.HasPrefix(line, "%%begin"):
			words = true
		case strings.HasPrefix(line, "%%end"):
			words = false
		case words, strings.HasPrefix(line, "%"), strings.HasPrefix(line, "I:MIDI"):
		case field && (line[0] == 'R' || line[0] == 's' || p.written && line[0] == 'P'):
		case field:
			out.WriteString(line + "\n")
			if p.midi && (line[0] == 'K' && !body || line[0] == 'V' && body) {
				out.WriteString(straight)
			}
			body = body || line[0] == 'K'
		case body:
			music := p.music(line)
			if strings.TrimSpace(music) != "" || strings.TrimSpace(line) == "" { // nothing but words: an empty line would end the tune
				out.WriteString(music + "\n")
			}
		default:
			out.WriteString(line + "\n")
		}
	}
	return out.String()
}

// music prepares one line of music.
func (p preparing) music(line string) string {
	var out strings.Builder
	for line != "" {
		piece, keep := p.piece(line)
		if out.Len() == 0 {
			keep = strings.TrimPrefix(keep, "\n") // an empty line would end the tune
		}
		out.WriteString(keep)
		line = line[len(piece):]
	}
	return out.String()
}

// piece takes the next piece of a line, and gives what is to stay of it.
func (p preparing) piece(line string) (piece, keep string) {
	enclosed := func(end byte) string {
		if n := strings.IndexByte(line[1:], end); n >= 0 {
			return line[:n+2]
		}
		return ""
	}
	switch line[0] {
	case '%':
		return line, ""
	case '"':
		if words := enclosed('"'); words != "" {
			return words, ""
		}
		return line, line
	case '{':
		if p.graces {
			return or(enclosed('}'), line[:1]), ""
		}
		piece = or(enclosed('}'), line[:1])
		return piece, piece
	}
	if m := long.FindString(line); m != "" {
		return m, ""
	}
	if m := inline.FindStringSubmatch(line); m != nil {
		if m[1] == "R" || m[1] == "I" || m[1] == "P" && p.written {
			return m[0], ""
		}
		if m[1] == "V" && p.midi {
			return m[0], "\n" + m[0][1:len(m[0])-1] + "\n" + straight // each voice has its own
		}
		return m[0], m[0]
	}
	if m := group.FindString(line); m != "" {
		return m, m // its colons are no bar lines
	}
	if m := bars.FindString(line); m != "" {
		if p.written {
			return m, " | "
		}
		return m, m
	}
	if m := turn.FindString(line); m != "" {
		if p.written {
			return m, " "
		}
		return m, m
	}
	if strings.IndexByte("~HIJKLMNOPQRSTUVWhijklmnopqrstuvw.", line[0]) >= 0 {
		return line[:1], ""
	}
	return line[:1], line[:1]
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func TestPrepare(t *testing.T) {
	const head = "X:1\nR:hornpipe\nK:C\n"
	for _, row := range []struct {
		in, written, played string // without graces
	}{
		{`|:"Am"c2 ~d>e|1 !trill!f4:|2 g4|]`, ` | c2 d>e |  f4 |  g4 | `, `|:c2 d>e|1 f4:|2 g4|]`},
		{`c {ag}d [1,3 e::[ce]2 [|] [2-4 f :||: g`, `c d   e | [ce]2  |    f  |  g`, `c d [1,3 e::[ce]2 [|] [2-4 f :||: g`},
		{`[P:A][K:G]g .|a % a comment`, `[K:G]g  | a `, `[P:A][K:G]g |a `},
		{`(3::2 c4d2|(3:2:3 cde`, `(3::2 c4d2 | (3:2:3 cde`, `(3::2 c4d2|(3:2:3 cde`},
		{`"bar | in words"c [ce]|[df]||[|e`, `c [ce] | [df] | e`, `c [ce]|[df]||[|e`},
	} {
		assert.Equal(t, "X:1\nK:C\n"+row.written+"\n\n", preparing{written: true, graces: true}.text(head+row.in+"\n"))
		assert.Equal(t, "X:1\nK:C\n"+straight+row.played+"\n\n", preparing{graces: true, midi: true}.text(head+row.in+"\n"))
	}
}
