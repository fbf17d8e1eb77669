package read

import (
	"strings"
	"unicode/utf8"

	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// under is what is known of the lines under a voice's music: w: or s: (ABC 2.1,
// 5.1 and 4.15). Lines beside each other are verses of the same notes; the next
// ones begin with the first note after those.
type under struct {
	from, upto int // the notes that the last lines are about
	verse      int // from 0
	begun      bool
	at         int  // the event that comes next
	bar        int  // and the bar that it is looked for in
	held       bool // a syllable is open: the next hyphen closes it
}

// turn starts another line under the music.
func (u *under) turn(events int) {
	if u.begun && u.upto == events {
		u.verse++
	} else {
		u.from, u.verse = u.upto, 0
	}
	u.begun, u.upto, u.at, u.bar = true, events, u.from, -1
}

// next gives the next event with notes, nil if there is none.
func (r *reader) next(u *under) *tune.Event {
	for ; u.at < u.upto; u.at++ {
		r.steps++
		if e := &r.voice.Events[u.at]; len(e.Notes) > 0 {
			u.at++
			u.bar = e.Bar
			return e
		}
	}
	return nil
}

// skip goes on to the next bar, where its notes are not reached yet.
func (r *reader) skip(u *under) {
	if u.bar < 0 && u.at < u.upto {
		u.bar = r.voice.Events[u.at].Bar
	}
	u.bar++
	for ; u.at < u.upto && r.voice.Events[u.at].Bar < u.bar; u.at++ {
		r.steps++
	}
}

// wordLine is w:, the words under the notes before it.
func (r *reader) wordLine(v value) {
	r.main().words.turn(len(r.main().voice.Events))
	r.sing(v)
}

// main is the voice under whose music words and signs stand: not a layer.
func (r *reader) main() *part {
	if r.over.main != nil {
		return r.over.main
	}
	return r.part
}

// sing gives the syllables of a line to its notes.
func (r *reader) sing(v value) {
	here := r.part
	r.part = r.main()
	defer func() { r.part = here }()
	u := &r.words
	if u.verse >= mostVerses {
		return
	}
	for s := v.text; s != ""; {
		r.steps++
		n := syllable(s)
		switch c := s[0]; {
		case c == ' ' || c == '\t':
		case c == '|':
			r.skip(u)
		case c == '*':
			r.next(u)
		case c == '_':
			r.put(u, tune.Lyric{Hold: true})
		case c == '-':
			r.put(u, tune.Lyric{Hyphen: true})
		default:
			word := unescaped(s[:n])
			hyphen := n < len(s) && s[n] == '-'
			if hyphen {
				n++
			}
			r.put(u, tune.Lyric{Text: word, Hyphen: hyphen})
		}
		s = s[n:]
	}
}

// put gives one syllable to the next note.
func (r *reader) put(u *under, l tune.Lyric) {
	e := r.next(u)
	if e == nil {
		return
	}
	for len(e.Lyrics) <= u.verse {
		e.Lyrics = append(e.Lyrics, tune.Lyric{})
	}
	e.Lyrics[u.verse] = l
}

// syllable is how long the syllable, or the sign, at the start of s is.
func syllable(s string) int {
	if strings.IndexByte(" \t|*_-", s[0]) >= 0 {
		return 1
	}
	n := 0
	for n < len(s) && strings.IndexByte(" \t|*_-", s[n]) < 0 {
		if s[n] == '\\' && n+1 < len(s) {
			n++
		}
		_, size := utf8.DecodeRuneInString(s[n:])
		n += size
	}
	return n
}

// unescaped is a syllable as it is seen: ~ is a space, \- a hyphen (5.1).
func unescaped(s string) string {
	if !strings.ContainsAny(s, `\~&`) && utf8.ValidString(s) {
		return s
	}
	return spelt(strings.NewReplacer(`\\`, `\\`, `\-`, "-", `\_`, "_", `\*`, "*", `\|`, "|", `\~`, "~", "~", " ", "\\ ", " ", "\t", " ").Replace(s))
}

// symbolLine is s:, signs for the notes before it.
func (r *reader) symbolLine(v value) {
	r.main().signs.turn(len(r.main().voice.Events))
	r.sign(v)
}

// sign gives the signs of a line to its notes.
func (r *reader) sign(v value) {
	here, at, end, lines := r.part, r.at, r.end, r.lines
	r.part = r.main()
	waits, spaced := r.waiting, r.spaced
	r.lines.breaks = 0 // a ! here starts no new line of music
	r.at, r.end, r.waiting = int(v.From), int(v.To), waiting{}
	u := &r.signs
	for r.at < r.end && !v.empty() {
		r.steps++
		switch c := r.s[r.at]; {
		case c == ' ' || c == '\t':
			r.at++
		case c == '|':
			r.at++
			r.skip(u)
		case c == '*':
			r.at++
			r.next(u)
		case c == '!':
			r.decoration()
			r.lay(u)
		case c == '"':
			r.quoted()
			r.lay(u)
		case c == '+':
			r.plusDecoration()
			r.lay(u)
		case strings.IndexByte(shortSet+".", c) >= 0:
			r.shortDecoration()
			r.lay(u)
		default:
			from := r.at
			for r.at++; r.at < r.end && r.s[r.at] >= 0x80; r.at++ {
			}
			r.say(unknownSign, span(from, r.at), "Here "+source.Quote(r.s[from:r.at])+" is no sign for a note.", "Write a sign such as !trill!, a text in quotes, or * for a note without.")
		}
	}
	r.waiting, r.spaced = waits, spaced
	r.part, r.at, r.end, r.lines = here, at, end, lines
}

// lay gives what waits to the next note.
func (r *reader) lay(u *under) {
	if e := r.next(u); e != nil {
		r.giveWaiting(e, true)
	}
	r.waiting = waiting{}
}
