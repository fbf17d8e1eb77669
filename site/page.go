package main

import (
	"bytes"
	"strconv"
	"strings"
)

// policy is what a page may load: its own files and nothing else, no script or
// style inside the page (Content Security Policy Level 3; the engine needs
// 'wasm-unsafe-eval').
const policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; worker-src 'self' blob:; " +
	"style-src 'self'; img-src 'self' data:; media-src 'self'; base-uri 'none'; form-action 'none'"

// caution stands under every page.
const caution = "Play without force. Rest often, above all when you repeat a passage, and never stretch further than your hand " +
	"opens by itself. At the first sign of pain stop, and ask your teacher or a health professional."

// layout is what all pages of a site share.
type layout struct {
	site    string
	css     string // file names
	icon    string
	script  string // the whole element that starts the engine
	house   string // the course's house fingerings, for the engine
	lessons []*lesson
	items   []string // of the list of lessons in the head of a page
}

// around is how many lessons the head of a page lists before and after its own,
// so that a course of a thousand lessons does not put a thousand names on each.
const around = 15

func newLayout(c *course, t theme) *layout {
	lay := &layout{site: c.name, css: t.css.name, icon: t.icon.name, lessons: c.lessons, house: c.house.String()}
	for _, l := range c.lessons {
		lay.items = append(lay.items, `<li><a href="`+escaped(pathEscape(l.address))+`">`+escaped(l.called())+"</a></li>\n")
	}
	return lay
}

// called is the title, or the file's name while there is none.
func (l *lesson) called() string {
	if l.title == "" {
		return l.name
	}
	return l.title
}

// lessonPage lays out the page of lesson i around the HTML of its words.
func (lay *layout) lessonPage(out *bytes.Buffer, i int, words []byte, tunes bool) {
	l := lay.lessons[i]
	lay.head(out, l.called()+" - "+lay.site, l.summary, tunes)
	lay.top(out, i)
	out.WriteString("<main id=\"lesson\" tabindex=\"-1\">\n<article>\n<header class=\"lesson-head\">\n<p class=\"lesson-place\">Lesson ")
	out.WriteString(strconv.Itoa(i + 1))
	if l.level != "" {
		out.WriteString(" · ")
		escape(out, l.level)
	}
	out.WriteString("</p>\n<h1>")
	escape(out, l.called())
	out.WriteString("</h1>\n")
	if l.summary != "" {
		out.WriteString(`<p class="lesson-summary">`)
		escape(out, l.summary)
		out.WriteString("</p>\n")
	}
	out.WriteString("</header>\n")
	out.Write(words)
	out.WriteString("</article>\n</main>\n")
	lay.turn(out, i)
	foot(out)
}

// frontPage lays out the list of lessons under the words of index.md.
func (lay *layout) frontPage(out *bytes.Buffer, front *lesson, words []byte, tunes bool) {
	summary := ""
	if front != nil {
		summary = front.summary
	}
	lay.head(out, lay.site, summary, tunes)
	out.WriteString("<header class=\"top\"><p class=\"site-name\">")
	escape(out, lay.site)
	out.WriteString("</p></header>\n<main id=\"lesson\" tabindex=\"-1\">\n<header class=\"lesson-head\">\n<h1>")
	escape(out, lay.site)
	out.WriteString("</h1>\n")
	if summary != "" {
		out.WriteString(`<p class="lesson-summary">`)
		escape(out, summary)
		out.WriteString("</p>\n")
	}
	out.WriteString("</header>\n")
	out.Write(words)
	lay.contents(out)
	out.WriteString("</main>\n")
	foot(out)
}

// contents is the list of lessons, if there are any beside the front page.
func (lay *layout) contents(out *bytes.Buffer) {
	if len(lay.lessons) == 0 {
		return
	}
	out.WriteString("<nav aria-label=\"Lessons\">\n<ol class=\"contents\">\n")
	for _, l := range lay.lessons {
		out.WriteString(`<li><a href="`)
		escape(out, pathEscape(l.address))
		out.WriteString(`">`)
		escape(out, l.called())
		out.WriteString("</a>")
		if l.level != "" {
			out.WriteString(` <span class="level">`)
			escape(out, l.level)
			out.WriteString("</span>")
		}
		if l.summary != "" {
			out.WriteString("<p>")
			escape(out, l.summary)
			out.WriteString("</p>")
		}
		out.WriteString("</li>\n")
	}
	out.WriteString("</ol>\n</nav>\n")
}

// head is all before the page's own head line.
func (lay *layout) head(out *bytes.Buffer, title, summary string, tunes bool) {
	out.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"")
	out.WriteString(policy)
	out.WriteString("\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>")
	escape(out, title)
	out.WriteString("</title>\n")
	if summary != "" {
		out.WriteString(`<meta name="description" content="`)
		escape(out, summary)
		out.WriteString("\">\n")
	}
	out.WriteString(ours + "\n<meta name=\"color-scheme\" content=\"light dark\">\n<link rel=\"icon\" href=\"")
	out.WriteString(lay.icon)
	out.WriteString("\">\n<link rel=\"stylesheet\" href=\"")
	out.WriteString(lay.css)
	out.WriteString("\">\n")
	if tunes {
		out.WriteString(lay.script)
	}
	out.WriteString("</head>\n<body")
	if tunes && lay.house != "" {
		out.WriteString(` data-house="`)
		escape(out, lay.house)
		out.WriteString(`"`)
	}
	out.WriteString(">\n<a class=\"skip\" href=\"#lesson\">To the lesson</a>\n")
}

// ours marks a page as made by this program, so that a build never replaces a
// folder that holds something else.
const ours = `<meta name="generator" content="readyhand">`

// top is the head line of a lesson: the site's name and the lessons near it.
func (lay *layout) top(out *bytes.Buffer, i int) {
	out.WriteString("<header class=\"top\">\n<p class=\"site-name\"><a href=\"index.html\">")
	escape(out, lay.site)
	out.WriteString("</a></p>\n<nav aria-label=\"Lessons\">\n<details class=\"lessons\">\n<summary>Lessons</summary>\n<ol start=\"")
	from, to := max(0, i-around), min(len(lay.items), i+around+1)
	out.WriteString(strconv.Itoa(from + 1))
	out.WriteString("\">\n")
	for j := from; j < to; j++ {
		if j == i {
			out.WriteString("<li aria-current=\"page\">")
			escape(out, lay.lessons[i].called())
			out.WriteString("</li>\n")
			continue
		}
		out.WriteString(lay.items[j])
	}
	out.WriteString("</ol>\n<p><a href=\"index.html\">All lessons</a></p>\n</details>\n</nav>\n</header>\n")
}

// turn leads to the lessons before and after.
func (lay *layout) turn(out *bytes.Buffer, i int) {
	if len(lay.lessons) < 2 {
		return
	}
	out.WriteString("<nav class=\"turn\" aria-label=\"Lesson before and after\">\n")
	to := func(rel, word string, l *lesson) {
		out.WriteString(`<a rel="` + rel + `" class="` + rel + `" href="`)
		escape(out, pathEscape(l.address))
		out.WriteString(`"><span>` + word + `</span> `)
		escape(out, l.called())
		out.WriteString("</a>\n")
	}
	if i > 0 {
		to("prev", "Before", lay.lessons[i-1])
	}
	if i+1 < len(lay.lessons) {
		to("next", "Next", lay.lessons[i+1])
	}
	out.WriteString("</nav>\n")
}

func foot(out *bytes.Buffer) {
	out.WriteString("<footer>\n<p>" + caution + "</p>\n</footer>\n</body>\n</html>\n")
}

// writer is a buffer or a builder of text.
type writer interface{ WriteString(string) (int, error) }

var entities = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;")

// escape writes text so that HTML shows it as it is, inside quotes too.
func escape(w writer, s string) {
	if strings.ContainsAny(s, `&<>"'`) {
		s = entities.Replace(s)
	}
	w.WriteString(s)
}

func escaped(s string) string {
	var b strings.Builder
	escape(&b, s)
	return b.String()
}
