package draw

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// pen writes markup.
type pen struct{ strings.Builder }

// raw writes markup as it is.
func (p *pen) raw(parts ...string) {
	for _, s := range parts {
		p.WriteString(s)
	}
}

// num writes a whole number.

// text writes what a person reads, escaped as HTML's serialising algorithm
// writes text (HTML standard, 13.3), and with no character that it would
// change: a no-break space becomes a space, line ends are LF.
func (p *pen) text(s string) { p.WriteString(escape(s)) }

func escape(s string) string {
	if harmless(s) {
		return s
	}
	return inText.Replace(plain(s))
}

// harmless reports a text that stays as it is: nearly all of ours are.
func harmless(s string) bool {
	for i := 0; i < len(s); i++ {
		if b := s[i]; b < ' ' || b >= utf8.RuneSelf || b == '&' || b == '<' || b == '>' || b == '"' {
			return false
		}
	}
	return true
}

var (
	inText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")
	// Browsers differ on < and > in attributes (some escape them since 2025), so
	// none is written.
	inAttr   = strings.NewReplacer("&", "&amp;", `"`, "&quot;", "<", "(", ">", ")", "\n", " ")
	portable = strings.NewReplacer("\u00a0", " ", "\r\n", "\n", "\r", "\n", "\x00", "", "\f", " ")
)

func plain(s string) string { return strings.ToValidUTF8(portable.Replace(s), "\ufffd") }

func attrText(s string) string {
	if harmless(s) {
		return s
	}
	return inAttr.Replace(plain(s))
}

// tag opens an element: its name, then its attributes as name and value in
// turn. A value of "-" leaves its attribute out.
func (p *pen) tag(name string, attrs ...string) {
	p.WriteByte('<')
	p.WriteString(name)
	for i := 0; i+1 < len(attrs); i += 2 {
		if attrs[i+1] == "-" {
			continue
		}
		p.WriteByte(' ')
		p.WriteString(attrs[i])
		p.WriteString(`="`)
		p.WriteString(attrText(attrs[i+1]))
		p.WriteByte('"')
	}
	p.WriteByte('>')
}

// end closes an element.
func (p *pen) end(name string) { p.raw("</", name, ">") }

// leaf writes a whole element without content.
func (p *pen) leaf(name string, attrs ...string) {
	p.tag(name, attrs...)
	p.end(name)
}

// element writes a whole element with text in it.
func (p *pen) element(name, text string, attrs ...string) {
	p.tag(name, attrs...)
	p.text(text)
	p.end(name)
}

// button writes a control that carries its command.
func (p *pen) button(id, class, do, text string, more ...string) {
	p.tag("button", append([]string{"type", "button", "id", id, "class", class, "data-do", do}, more...)...)
	p.text(text)
	p.end("button")
}

func itoa(n int) string { return strconv.Itoa(n) }

// label writes text into a picture. Its size stands in the markup, so that a
// test can tell what overlaps; anchor is start, middle or end.
func (p *pen) label(class, anchor string, size, x, y int, text string) {
	p.element("text", text, "class", class, "x", itoa(x), "y", itoa(y), "font-size", itoa(size), "text-anchor", anchor)
}

// truth writes an aria state.
func truth(b bool) string {
	if b {
		return "true"
	}
	return "false"
}
