package read

import (
	"strconv"
	"strings"

	"readyhand/engine/pitch"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

const noSignature = "no key signature"

// clefs are the words of a clef (ABC 2.1, 4.6), which may stand alone or after
// clef=, with an octave such as -8 or +8 after them.
var clefs = []string{"treble", "bass", "alto", "tenor", "perc"}

// headKey reads K:, which ends the header (ABC 2.1, 3.1.14).
func (r *reader) headKey(v value) {
	r.head.key, _ = r.readKey(v, &r.head.staff)
	r.head.keyed = true
	r.openBody()
}

// bodyKey changes the key from here on; "K:bass" changes only the clef. Before
// the first note it is the tune's key.
func (r *reader) bodyKey(v value) {
	k, ok := r.readKey(v, &r.staff)
	if r.voice.Clef == "" {
		r.voice.Clef = r.staff.clef
	}
	if !ok {
		return
	}
	r.key, r.alters = k, alters{}
	sounds := r.moved(k)
	if r.part == r.parts[0] && r.events == 0 {
		r.t.Key = sounds
		return
	}
	r.mark(tune.Mark{Kind: tune.NewKey, Key: sounds, Source: v.Span})
}

// readKey gives the key, and false if the words name none (they may still name
// a clef).
func (r *reader) readKey(v value, st *staff) (pitch.Key, bool) {
	defer st.settle()
	var k keyWords
	k.key = pitch.Key{Name: noSignature}
	ok := v.empty()
	words := strings.Fields(joined(v.text))
	for i, word := range words {
		switch {
		case r.clefWord(st, word, v):
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
			if meant := keyMeant(v.text); meant != "" {
				help = "Write K:" + meant + "."
			}
			if i == 0 && word[0]|0x20 == 'h' {
				help = "Write B for H, such as K:B or K:Bm, and Bb for B flat."
			}
			r.say(badKey, v.Span, "The key "+source.Quote(v.text)+" cannot be read; "+taken+".", help)
			return key, ok || k.hasTonic
		}
	}
	if ok && k.impossible() {
		k.respell()
		r.say(badKey, v.Span, "No key signature has more than seven sharps or flats; this one is read as "+k.at.Name()+" "+k.modeName+".", "Write the same key by its other name.")
	}
	return k.finish(), ok
}

// keyMeant is how ABC writes a key that was written in words, as in English or German:
// "B flat", "F-sharp", "Fis moll", "G-Dur"; "" if it is none.
func keyMeant(words string) string {
	low := strings.ToLower(words)
	if low == "" || low[0] < 'a' || low[0] > 'g' {
		return ""
	}
	rest := low[1:]
	for _, row := range [][2]string{{" ", ""}, {"-", ""}, {"sharp", "#"}, {"flat", "b"}, {"moll", "m"}, {"minor", "m"}, {"dur", ""}, {"major", ""}, {"is", "#"}, {"es", "b"}} {
		rest = strings.ReplaceAll(rest, row[0], row[1])
	}
	if low == "as" || low == "es" {
		rest = "b"
	}
	switch rest {
	case "", "#", "b", "m", "#m", "bm":
		return strings.ToUpper(low[:1]) + rest
	}
	return ""
}

// joined takes the spaces around the "=" of "clef = bass" away; one before a letter
// is a natural.
func joined(s string) string {
	if !strings.Contains(s, "clef") {
		return s
	}
	return strings.NewReplacer("clef = ", "clef=", "clef =", "clef=", "clef= ", "clef=").Replace(s)
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
	k.hasTonic, k.modeName, k.tonicOnly = true, "major", mode == ""
	return (mode == "" || k.mode(mode)) && (signs == "" || accidentals(signs, &k.extra))
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

// respell takes the same key by its other name, E flat for D sharp, as abc2midi and
// abcjs read the major ones.
func (k *keyWords) respell() {
	for _, letters := range []int{1, -1} {
		at := k.at.Shift(letters, 0)
		if _, ok := pitch.Signature(at, k.modeName); ok {
			k.at = at
			return
		}
	}
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

// clefWord reads a word about the clef or what moves the music (ABC 2.1, 4.6),
// and reports whether it was one.
func (r *reader) clefWord(st *staff, word string, v value) bool {
	name, says, isPair := strings.Cut(word, "=")
	says = strings.Trim(says, `"`)
	if !isPair {
		return st.setClef(word)
	}
	switch name = strings.ToLower(name); name {
	case "clef":
		st.setClef(says)
	case "octave", "transpose", "t":
		n, err := strconv.ParseInt(strings.TrimPrefix(says, "+"), 10, 8)
		octaves := name == "octave"
		switch {
		case err != nil || n < -36 || n > 36 || octaves && (n < -4 || n > 4):
			r.say(octaveShift, v.Span, "How far "+name+"= moves the music cannot be read; the notes are read as written.",
				"Write octave=-1 for an octave lower, transpose=2 for a tone higher.")
		case octaves:
			st.octave, st.octaveSaid = int(n), true
		default:
			st.semi, st.transposeSaid = int(n), true
		}
	case "score", "sound", "shift":
		r.say(octaveShift, v.Span, "Moving the music with "+name+"= is not followed; the notes are read as written.",
			"Write the notes where they sound, or transpose=2 for a tone higher.")
	case "middle", "m", "stafflines", "staffscale", "strings", "style", "name", "nm", "subname", "snm", "stem", "gchords", "cue":
	default:
		return false
	}
	return true
}

// setClef reads a clef with its line and the octave that it moves the music by:
// "bass", "treble-8". It reports whether it is one.
func (s *staff) setClef(word string) bool {
	for _, clef := range clefs {
		rest, ok := strings.CutPrefix(strings.ToLower(word), clef)
		if ok && strings.Trim(rest, "+-1234568^_") == "" {
			s.clef, s.eight = clef, 0
			switch {
			case strings.HasSuffix(rest, "-8"):
				s.eight = -1
			case strings.HasSuffix(rest, "+8"):
				s.eight = 1
			}
			return true
		}
	}
	return false
}
