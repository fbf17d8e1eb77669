package read

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// accents are the letters with an accent that ABC 2.1, 8.2, writes with a sign
// after a backslash, \'e, or by name, &eacute;: each plain letter before the
// accented one.
var accents = []struct {
	sign    byte
	name    string
	letters string
}{
	{'`', "grave", "AÀEÈIÌOÒUÙaàeèiìoòuù"},
	{'\'', "acute", "AÁEÉIÍOÓUÚYÝaáeéiíoóuúyý"},
	{'^', "circ", "AÂEÊIÎOÔUÛYŶaâeêiîoôuûyŷ"},
	{'~', "tilde", "AÃNÑOÕaãnñoõ"},
	{'"', "uml", "AÄEËIÏOÖUÜYŸaäeëiïoöuüyÿ"},
	{'c', "cedil", "CÇcç"},
	{'A', "ring", "AÅ"},
	{'a', "ring", "AÅaå"},
	{'/', "slash", "OØoø"},
	{'u', "breve", "AĂEĔaăeĕ"},
	{'v', "caron", "SŠZŽCČsšzžcč"},
	{'H', "dblacute", "OŐUŰoőuű"},
}

// wholes are letters and signs with a name of their own.
var wholes = []struct{ short, name, is string }{
	{"ss", "szlig", "ß"}, {"AE", "AElig", "Æ"}, {"ae", "aelig", "æ"}, {"OE", "OElig", "Œ"}, {"oe", "oelig", "œ"},
	{"DH", "ETH", "Ð"}, {"dh", "eth", "ð"}, {"TH", "THORN", "Þ"}, {"th", "thorn", "þ"},
	{"", "amp", "&"}, {"", "lt", "<"}, {"", "gt", ">"}, {"", "quot", `"`}, {"", "copy", "©"}, {"", "nbsp", "\u00a0"},
}

// plainText gives a text string as it is meant to be seen (ABC 2.1, 8.2): its
// accents and names spelt out, and bytes that are no UTF-8 taken for Latin-1.
func plainText(s string) string { return strings.TrimSpace(spelt(s)) }

func spelt(s string) string {
	if !strings.ContainsAny(s, `\&`) && utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for s != "" {
		if n, is := mnemonic(s); n > 0 {
			b.WriteString(is)
			s = s[n:]
			continue
		}
		c, n := utf8.DecodeRuneInString(s)
		if c == utf8.RuneError && n == 1 {
			c = rune(s[0])
		}
		b.WriteRune(c)
		s = s[n:]
	}
	return b.String()
}

// mnemonic gives the character that is spelt at the start of s, and how many
// bytes it takes; none is 0.
func mnemonic(s string) (n int, is string) {
	switch {
	case s[0] == '\\' && len(s) > 1:
		return backslashed(s)
	case s[0] == '&':
		return named(s[:min(len(s), 12)])
	}
	return 0, ""
}

// backslashed reads \% \& \\ \u00e9 \ss \'e.
func backslashed(s string) (int, string) {
	if strings.IndexByte(`%&\`, s[1]) >= 0 {
		return 2, s[1:2]
	}
	if s[1] == 'u' && len(s) >= 6 {
		if c, err := strconv.ParseUint(s[2:6], 16, 16); err == nil && c >= ' ' && c != 0x7f && utf8.ValidRune(rune(c)) {
			return 6, string(rune(c))
		}
	}
	for _, w := range wholes {
		if w.short != "" && strings.HasPrefix(s[1:], w.short) {
			return 3, w.is
		}
	}
	if len(s) > 2 {
		for _, a := range accents {
			if a.sign == s[1] {
				if is := accented(a.letters, s[2]); is != "" {
					return 3, is
				}
			}
		}
	}
	return 0, ""
}

// named reads &eacute; and &#233;.
func named(s string) (int, string) {
	end := strings.IndexByte(s, ';')
	if end < 3 {
		return 0, ""
	}
	name := s[1:end]
	if name[0] == '#' {
		if c, err := strconv.ParseUint(name[1:], 10, 20); err == nil && c >= ' ' && c != 0x7f && utf8.ValidRune(rune(c)) {
			return end + 1, string(rune(c))
		}
		return 0, ""
	}
	for _, w := range wholes {
		if w.name == name {
			return end + 1, w.is
		}
	}
	for _, a := range accents {
		if a.name == name[1:] {
			if is := accented(a.letters, name[0]); is != "" {
				return end + 1, is
			}
		}
	}
	return 0, ""
}

func accented(letters string, plain byte) string {
	at := strings.IndexByte(letters, plain)
	if at < 0 || plain >= utf8.RuneSelf { // half of a letter is none
		return ""
	}
	_, n := utf8.DecodeRuneInString(letters[at+1:])
	return letters[at+1 : at+1+n]
}
