package read

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// use is what a decoration means to us.
type use int8

const (
	plain    use = iota // known; changes nothing that is played here
	adorns              // an ornament: kept if the catalogue has it
	phrase              // the phrase ends after its note
	finger              // asks for a finger
	jump                // sends the player elsewhere
	adornEnd            // closes an ornament that is written over several notes
	rolled              // a chord's notes one after another
)

// signs are the decorations of ABC 2.1, 4.14, by their long names.
var signs = []struct {
	name string
	use  use
}{
	{"trill", adorns}, {"trill(", adorns}, {"trill)", adornEnd}, {"lowermordent", adorns}, {"uppermordent", adorns},
	{"mordent", adorns}, {"pralltriller", adorns}, {"roll", adorns}, {"turn", adorns}, {"turnx", adorns},
	{"invertedturn", adorns}, {"invertedturnx", adorns}, {"arpeggio", rolled}, {"slide", adorns},
	{">", plain}, {"accent", plain}, {"emphasis", plain}, {"fermata", plain}, {"invertedfermata", plain}, {"tenuto", plain},
	{"0", finger}, {"1", finger}, {"2", finger}, {"3", finger}, {"4", finger}, {"5", finger},
	{"+", plain}, {"plus", plain}, {"snap", plain}, {"wedge", plain}, {"upbow", plain}, {"downbow", plain},
	{"open", plain}, {"thumb", plain},
	{"breath", phrase}, {"shortphrase", phrase}, {"mediumphrase", phrase}, {"longphrase", phrase},
	{"pppp", plain}, {"ppp", plain}, {"pp", plain}, {"p", plain}, {"mp", plain}, {"mf", plain}, {"f", plain},
	{"ff", plain}, {"fff", plain}, {"ffff", plain}, {"sfz", plain},
	{"crescendo(", plain}, {"<(", plain}, {"crescendo)", plain}, {"<)", plain},
	{"diminuendo(", plain}, {">(", plain}, {"diminuendo)", plain}, {">)", plain},
	{"segno", plain}, {"coda", plain}, {"fine", jump}, {"D.S.", jump}, {"D.C.", jump}, {"dacoda", jump}, {"dacapo", jump},
	{"staccato", plain},
}

// shortSigns are the one-letter forms (ABC 2.1, 4.14).
var shortSigns = []struct{ sign, name string }{
	{".", "staccato"}, {"~", "roll"}, {"H", "fermata"}, {"L", "accent"}, {"M", "lowermordent"}, {"O", "coda"},
	{"P", "uppermordent"}, {"S", "segno"}, {"T", "trill"}, {"u", "upbow"}, {"v", "downbow"},
}

// meaning finds what a decoration is for: the standard's list first, then the
// catalogue's own names, which other programs skip.
func meaning(name string) (use, bool) {
	for _, row := range signs {
		if row.name == name {
			return row.use, true
		}
	}
	_, ok := ornament.Decoration(name)
	return adorns, ok
}

// decoration reads !roll!. A ! without another before a space or a bar is an
// old line break (ABC 2.1, 12.2, loose interpretation).
func (r *reader) decoration() {
	from := r.at
	name, ok := r.enclosed('!')
	if ok && r.lines.breaks&bang == 0 {
		r.at += len(name) + 2
		r.decorate(name, span(from, r.at))
		return
	}
	r.at++
	if r.lines.breaks&bang != 0 {
		r.turnLine()
		return
	}
	word := r.s[r.at:min(r.end, r.at+longestSign)]
	word = word[:len(word)-len(strings.TrimLeft(word, "abcdefghijklmnopqrstuvwxyz-"))]
	if isDigit(r.peek(0)) {
		word = r.s[r.at : r.at+1]
	}
	if _, known := meaning(word); known || r.owns(word) {
		r.at += len(word)
		r.say(unclosedDecoration, span(from, r.at), "This sign is not closed, and is left out.", "Write !"+word+"!.")
		return
	}
	if strings.TrimSpace(r.s[r.at:r.end]) != "" {
		r.say(oldLineBreak, span(from, r.at), "This ! starts a new line of music, as in old files.",
			"Write $ or start a new line; if you meant a sign, write ! on both sides, such as !roll!.")
	}
	r.turnLine()
}

// longestSign is how long the name of a sign may be (guess).
const longestSign = 40

// enclosed gives what stands between two marks, if the second comes before a
// space, a bar or the end of the line.
func (r *reader) enclosed(mark byte) (string, bool) {
	rest := r.s[r.at+1 : min(r.end, r.at+2+longestSign)]
	n := strings.IndexAny(rest, string(rune(mark))+"|[]: \t")
	r.steps += len(rest)
	if n > 0 && rest[n] == mark {
		return rest[:n], true
	}
	if mark == '+' && strings.HasPrefix(rest, "++") {
		return "+", true
	}
	return "", false
}

// plusDecoration reads +roll+, the form of ABC 2.0 (2.1, 10.3), and knows the
// chords that ABC 1 wrote so.
func (r *reader) plusDecoration() {
	from := r.at
	name, ok := r.enclosed('+')
	if !ok {
		r.at++
		r.say(unknownSign, span(from, r.at), `Here "+" means nothing in ABC.`, "Take it out.")
		return
	}
	r.at += len(name) + 2
	if _, known := meaning(name); !known && strings.Trim(name, noteStarts+",'/"+digits) == "" {
		r.say(oldChord, span(from, r.at), "Chords are no longer written between + signs; this one is left out.", "Write ["+name+"].")
		return
	}
	r.decorate(name, span(from, r.at))
}

// shortDecoration reads a decoration of one letter.
func (r *reader) shortDecoration() {
	sign := r.s[r.at : r.at+1]
	place := span(r.at, r.at+1)
	r.at++
	if own := r.user[sign[0]&127]; own != "" {
		r.useOwn(own, place)
		return
	}
	if sign == "H" && strings.IndexByte(noNoteAfter, r.peek(0)) >= 0 && !r.atFullBar() {
		r.noLetter(sign, place)
		return
	}
	for _, row := range shortSigns {
		if row.sign == sign {
			r.decorate(row.name, place)
			return
		}
	}
	r.noLetter(sign, place)
}

// atFullBar reports a bar line here, of a bar that has all its notes: a fermata may
// stand over it (ABC 2.1, 4.14).
func (r *reader) atFullBar() bool {
	if strings.IndexByte("|:]", r.peek(0)) < 0 || !r.bars.open || r.meter.Beats == 0 {
		return false
	}
	length := r.now.Sub(r.bars.start)
	partEnds := r.peek(0) != '|' || strings.IndexByte("|:]", r.peek(1)) >= 0
	if closed := r.bars.closed; partEnds && len(closed) > 0 && closed[0].short() {
		length = length.Add(closed[0].length) // the pickup
	}
	return !length.Less(barLength(r.meter))
}

// noNoteAfter are the signs, and the end of a line, before which H is not the
// sign of a fermata: a sign stands at its note (ABC 2.1, 4.14).
const noNoteAfter = digits + "/,' \t|:]\x00"

// noLetter speaks of a letter that is no note, with the length it would have had.
// H is a note's name where German is spoken.
func (r *reader) noLetter(sign string, place source.Span) {
	r.take(",'" + digits + "/")
	place.To = int32(r.at)
	switch sign {
	case "H", "h":
		b := string(rune(sign[0] - 'H' + 'B'))
		r.say(unknownLetter, place, sign+" is no name of a note in ABC.", "Write "+b+", or _"+b+" for B flat.")
	default:
		if r.letters[sign[0]&127] {
			return
		}
		r.letters[sign[0]&127] = true // it is a sign that stands for something, or is the same slip: said once
		r.say(unknownLetter, place, source.Quote(sign)+" is not a note, and no sign before a note.", "Write A to G for a note, or take it out; a line U:"+sign+"=!accent! gives it a meaning.")
	}
}

// decorate keeps a decoration for the note that follows.
func (r *reader) decorate(name string, place source.Span) {
	use, ok := meaning(name)
	if !ok && r.owns(name) {
		use, ok = adorns, true
	}
	if !ok && len(name) == 1 && isDigit(name[0]) { // no finger of any hand
		r.askFinger(name[0], place)
		return
	}
	if !ok {
		help := "Take it out."
		if r.unknowns++; r.unknowns <= mostOfAKind { // the search takes its time
			help = r.nearest(name)
		}
		r.say(unknownDecoration, place, "There is no sign called "+source.Quote(name)+"; it is left out.", help)
		return
	}
	switch use {
	case adorns:
		name = strings.TrimSuffix(name, "(")
		if _, ok := ornament.Decoration(name); !ok && !r.owns(name) {
			r.say(ornamentMissing, place, "We do not play "+source.Quote(name)+" yet; its note is played plain.",
				"Write grace notes instead, such as {ag}, or leave it as it is.")
		}
	case phrase:
		r.waiting.phrase, r.waiting.phrasePlace = true, place
		return
	case finger:
		r.askFinger(name[0], place)
		return
	case jump:
		r.say(jumpNotFollowed, place, "The jump at "+source.Quote(name)+" is not followed yet; the tune is played as it stands.",
			"Write the part out again, or use repeats.")
	}
	if w := &r.waiting; len(w.decorations) < mostBeside {
		w.decorations = append(w.decorations, tune.Decoration{Name: name, Source: place})
	}
}

// adorning reports a sign that belongs to a note alone: an ornament, played by
// us or not.
func adorning(name string) bool {
	use, _ := meaning(name)
	return use == adorns || use == rolled
}

// nearest suggests the known decoration that differs least from a name. Signs of
// one or two letters are like too many words.
func (r *reader) nearest(name string) string {
	known := slices.Clone(r.own)
	for _, row := range signs {
		if len(row.name) > 2 {
			known = append(known, row.name)
		}
	}
	for _, row := range ornament.Rows() {
		known = append(known, row.Name)
	}
	if near, ok := source.Near(name, known); ok {
		return "Write !" + near + "!."
	}
	return "Take it out, or write one that exists, such as !roll! or !trill!."
}
