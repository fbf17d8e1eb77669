package main

import (
	"path"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// players are the recordings a page can play, by the end of the file's name.
var players = map[string]string{
	".mp3": "audio", ".m4a": "audio", ".ogg": "audio", ".oga": "audio", ".opus": "audio", ".wav": "audio", ".flac": "audio",
	".mp4": "video", ".webm": "video", ".m4v": "video",
}

// link looks up a link and gives it the address the page needs.
func (p *prose) link(n *ast.Link) {
	t := p.lookUp(string(n.Destination), n.Pos())
	n.Destination = []byte(t.href)
}

// autoLink looks at <https://...>, which may only lead outside.
func (p *prose) autoLink(n *ast.AutoLink) {
	if n.AutoLinkType == ast.AutoLinkURL {
		p.lookUp(string(n.URL(p.body)), n.Pos())
	}
}

// lookUp resolves an address written at this place and notes what follows from
// it: a file to copy, a heading to look for, a remark.
func (p *prose) lookUp(written string, at int) target {
	t := p.course.resolve(p.lesson, written)
	if t.message != "" {
		p.say(isError, at, t.message, t.suggestion)
	}
	if t.asset != nil {
		p.uses = append(p.uses, use{t.asset, p.remarkAt(isError, p.lesson.body+at, "", "Give one of the files another name.")})
	}
	if t.part != "" {
		p.leads = append(p.leads, lead{t.page, t.part, p.remarkAt(isError, p.lesson.body+at,
			"There is no heading "+quoted(t.part)+" in "+t.page+".", "")}) // nearHeading suggests one
	}
	return t
}

// image looks up a picture. A recording in its place gives the player for it.
func (p *prose) image(n *ast.Image) ast.Node {
	words := plainText(n, p.body)
	t := p.lookUp(string(n.Destination), n.Pos())
	if t.message == "" && t.asset == nil {
		p.say(isError, n.Pos(), "A picture or recording from elsewhere is not shown: the page asks no other site for anything.",
			"Copy the file beside the lesson and write its name.")
		return nil
	}
	n.Destination = []byte(t.href)
	if t.asset == nil {
		return nil
	}
	plays := players[strings.ToLower(path.Ext(t.asset.path))]
	switch picture := strings.HasPrefix(kind(t.asset.path), "image/"); {
	case plays == "" && !picture:
		p.say(isError, n.Pos(), quoted(t.asset.path)+" is neither a picture nor a recording that a page can show.",
			"Save it in another form, such as .mp3 or .png; or leave the ! out to make a link of it.")
	case words == "" && picture:
		p.say(isWarning, n.Pos(), "Nothing is said here for those who cannot see the picture.", "Write between [ and ] what it shows.")
	case words == "":
		p.say(isWarning, n.Pos(), "This recording has no name.", "Write between [ and ] what is heard.")
	}
	if plays == "" {
		return nil
	}
	return &ready{html: []string{player(plays, t.href, words)}}
}

// player is a recording with its name and its controls. It asks for nothing
// before it is played.
func player(kind, href, words string) string {
	var b strings.Builder
	b.WriteString(`<span class="recording">`)
	if words != "" {
		b.WriteString(`<span class="recording-name">`)
		escape(&b, words)
		b.WriteString(`</span> `)
	}
	b.WriteString("<" + kind + ` controls preload="none" src="`)
	escape(&b, href)
	b.WriteString(`" aria-label="`)
	escape(&b, words)
	b.WriteString(`"></` + kind + `></span>`)
	return b.String()
}

// plainText gives the words of a node without its signs.
func plainText(n ast.Node, source []byte) string {
	var b strings.Builder
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			b.Write(t.Segment.Value(source))
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}
