package read

import (
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
)

const noSignature = "no key signature"

// clefs are the words of a clef (ABC 2.1, 4.6), which may stand alone or after
// clef=, with an octave such as -8 or +8 after them.
var clefs = []string{"treble", "bass", "alto", "tenor", "perc"}

// headKey reads K:, which ends the header (ABC 2.1, 3.1.14).
func (r *reader) headKey(v value) {
	k, _ := r.readKey(v)
	r.t.Key = k
	r.head.keyed = true
	r.openBody()
}

// bodyKey changes the key from here on; "K:bass" changes only the clef. Before
// the first note it is the tune's key.
func (r *reader) bodyKey(v value) {
	k, ok := r.readKey(v)
	if !ok {
		return
	}
	r.key = k
	if len(r.voice.Events) == 0 {
		r.t.Key = k
	}
}

// readKey gives the key, and false if the words name none (they may still name
// a clef).
func (r *reader) readKey(v value) (pitch.Key, bool) {
	var k keyWords
	k.key = pitch.Key{Name: noSignature}
	ok := v.empty()
	words := strings.Fields(joined(v.text))
	for i, word := range words {
		switch {
		case r.clefWord(word, v):
		case strings.EqualFold(word, "none") && i == 0:
			ok = true
		case strings.EqualFold(word, "exp"):
			k.explicit()
			ok = true
		case accidentals(word, nil):
			accidentals(word, &k.extra)
			ok = true
		case i > 0 && k.tonicOnly && k.mode(word):
		case i == 0 && k.tonic(word):
			ok = true
		default:
			key, taken := k.finish(), "no sharp or flat is taken from it"
			if k.hasTonic {
				taken = "it is taken as " + key.Name
			}
			help := "Write a tonic and a mode, such as K:G, K:Em, K:Ador or K:Dmix."
			if i == 0 && word[0]|0x20 == 'h' {
				help = "Write B for H, such as K:B or K:Bm, and Bb for B flat."
			}
			r.say(badKey, v.Span, "The key "+source.Quote(v.text)+" cannot be read; "+taken+".", help)
			return key, ok || k.hasTonic
		}
	}
	if ok && k.impossible() {
		r.say(badKey, v.Span, "No key signature has more than seven sharps or flats.", "Write the same key by its other name.")
	}
	return k.finish(), ok
}

// joined takes the spaces around "=" away: "clef = bass".
func joined(s string) string {
	if !strings.Contains(s, "clef") {
		return s
	}
	return strings.NewReplacer(" =", "=", "= ", "=").Replace(s)
}

// keyWords is a key while its words are read.
type keyWords struct {
	key        pitch.Key
	at         pitch.Pitch
	modeName   string
	tonicOnly  bool // a tonic without a mode so far
	hasTonic   bool
	isExplicit bool
	extra      []pitch.Pitch // letters with their own accidental
}

// tonic reads "G", "F#", "Bbmin", "Ador", "HP".
func (k *keyWords) tonic(word string) bool {
	if word == "HP" || word == "Hp" { // highland pipes: F and C sharp (3.1.14)
		k.at, k.modeName, k.hasTonic = pitch.Pitch{Letter: 5}, "mixolydian", true
		return true
	}
	letter, ok := letterNamed(word[0])
	if !ok {
		return false
	}
	k.at = pitch.Pitch{Letter: letter}
	rest := word[1:]
	switch {
	case strings.HasPrefix(rest, "#"):
		k.at.Alter, rest = 1, rest[1:]
	case strings.HasPrefix(rest, "b"):
		k.at.Alter, rest = -1, rest[1:]
	}
	letters := len(rest) - len(strings.TrimLeft(rest, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"))
	mode, signs := rest[:letters], rest[letters:]
	if signs != "" && !accidentals(signs, &k.extra) {
		return false
	}
	k.hasTonic, k.modeName, k.tonicOnly = true, "major", mode == ""
	return mode == "" || k.mode(mode)
}

// mode takes the mode's name from its first three letters; "exp" counts too.
func (k *keyWords) mode(word string) bool {
	if strings.EqualFold(word, "exp") {
		k.explicit()
		return true
	}
	name, ok := pitch.ModeNamed(word)
	if ok {
		k.modeName, k.tonicOnly = name, false
	}
	return ok
}

// explicit is exp: only the accidentals that are listed count.
func (k *keyWords) explicit() { k.isExplicit, k.tonicOnly = true, false }

func (k *keyWords) impossible() bool {
	_, ok := pitch.Signature(k.at, k.modeName)
	return k.hasTonic && !k.isExplicit && !ok
}

// finish puts the signature together, and names it as a player would.
func (k *keyWords) finish() pitch.Key {
	key := k.key
	switch {
	case k.hasTonic && k.isExplicit:
		key.Name = k.at.Name()
	case k.hasTonic:
		if signature, ok := pitch.Signature(k.at, k.modeName); ok {
			key = signature
		}
	}
	var names []string
	for _, p := range k.extra {
		key.Alter[p.Letter] = p.Alter
		name := p.Name()
		if p.Alter == 0 {
			name += " natural"
		}
		names = append(names, name)
	}
	if len(names) > 0 {
		key.Name += " with " + strings.Join(names, ", ")
	}
	return key
}

// accidentals reads "^f_b=c" and adds the letters to list, if there is one.
func accidentals(word string, list *[]pitch.Pitch) bool {
	if strings.IndexByte("^_=", word[0]) < 0 {
		return false
	}
	for word != "" {
		alter, n := accidental(word)
		if n == 0 || n == len(word) {
			return false
		}
		letter, ok := letterNamed(word[n])
		if !ok {
			return false
		}
		if list != nil && len(*list) < 14 {
			*list = append(*list, pitch.Pitch{Letter: letter, Alter: alter})
		}
		word = word[n+1:]
	}
	return true
}

// clefWord reads a word about the clef, and reports whether it was one. What
// moves the music by an octave is not followed yet.
func (r *reader) clefWord(word string, v value) bool {
	name, says, isPair := strings.Cut(word, "=")
	if !isPair {
		if !isClef(word) {
			return false
		}
		r.setClef(word)
		return true
	}
	switch strings.ToLower(name) {
	case "clef":
		r.setClef(strings.Trim(says, `"`))
	case "octave", "transpose", "t", "score", "sound", "shift":
		if says != "0" {
			r.say(octaveShift, v.Span, "Moving the music with "+name+"= is not followed yet; the notes are read as written.",
				"Write the notes where they sound.")
		}
	case "middle", "m", "stafflines", "staffscale", "strings", "style", "name", "nm", "subname", "snm", "stem", "gchords", "cue":
	default:
		return false
	}
	return true
}

func isClef(word string) bool {
	for _, clef := range clefs {
		rest, ok := strings.CutPrefix(strings.ToLower(word), clef)
		if ok && strings.Trim(rest, "+-128") == "" {
			return true
		}
	}
	return false
}

// setClef keeps the first clef that the voice is given.
func (r *reader) setClef(clef string) {
	if r.voice.Clef == "" && !r.voices.other {
		r.voice.Clef = strings.ToLower(clef)
	}
}
