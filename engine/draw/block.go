// Package draw is a tune block's picture, sheet line, controls and words as
// markup: HTML with the strings as SVG, in the exact form in which a browser
// gives it back, so that a page can tell whether it still shows what the
// engine drew.
package draw

import (
	"strconv"
	"strings"

	"readyhand/engine/hand"
	"readyhand/engine/plan"
	"readyhand/engine/score"
	"readyhand/engine/source"
	"readyhand/engine/tune"
)

// View is everything a block shows.
type View struct {
	Name      string // of the block: "b1"
	Tune      tune.Tune
	Text      source.Text // the ABC as it was written
	Hands     []Hand      // right hand first; none where nothing could be read
	QuarterMS int32       // the tempo played at, 0 for the tune's own
	Remarks   []source.Remark
	Notes     []string // quiet lines about the whole block
	House     []House  // the ornaments of this tune, how they are always fingered
	Theirs    bool     // the page address brought another harp than the reader's own
	Why       *Why     // the note asked about; nil if none
	Drills    []Drill
	Caution   string   // what is said above them
	Calls     *Calls   // nil where nothing can be called
	Verdict   *Verdict // of the fingering asked for on every note; nil where there is none
	Prepare   string   // how likely all ornaments are of which nothing else was said
	Shared    []string // what keeping them ready costs, hand by hand
}

// Hand is one hand's part: its score as solved and its plan.
type Hand struct {
	Hand      hand.Hand
	Lifted    bool // the player's style, see rule.Rules
	Voice     int  // of the tune, from 0
	Score     *score.Score
	Plan      *plan.Plan
	Said      []Sentence
	Ornaments []Ornament
}

// Sentence is one of the words about a plan, as explain.Sentence.
type Sentence struct {
	Kind  int8 // 0 setting, 1 ornaments, 2 care, 3 left out, 4 bars alike
	Bar   int
	Event int
	ID    string
	Text  string
}

// Ornament is one ornament of a site in words, as explain.Ornament.
type Ornament struct {
	Gap, Site, Which int
	Label            string // "cut on the first D, bar 1"
	Ready            string // "in the hand: 1 is on E already"
}

// Why is a note that was asked about, in words.
type Why struct {
	Written int // the number of its note head
	Hand    int // in View.Hands
	Event   int // of that hand's score
	Note    int // of that event
	Title   string
	Text    string
	Others  []Other
	Set     string // why the hand is set there; "" where it is not
	Ways    []Way
	Finds   []Find    // what may be played on it
	Older   []Older   // the families that are listed only if asked for
	Way     *Variants // how else its placing may be played; nil if there is nothing to show
}

// Way is another way to play a stretch that the note lies in.
type Way struct {
	Near bool
	Text string
	Do   string // the command that takes it; "" where there is none
}

// Verdict is what is said of a fingering that is asked for on every note.
type Verdict struct {
	Playable bool
	Says     string
	Reasons  []string
}

// Other is another finger for that note, as explain.Other.
type Other struct {
	Finger int
	Near   bool
	Effort string
	Text   string
}

// House is how an ornament is always fingered, and how it may be: "1 2".
type House struct {
	Name, Title string
	Now         string // "off" where any fingers will do
	All         []string
}

// Part is the markup inside the element with this id.
type Part struct{ ID, HTML string }

// Block draws a block, part by part, in the order of the page. Which parts
// there are depends on the tune and the number of hands alone: a choice
// changes what is in them.
func Block(v View) []Part {
	d := Redraw(v, nil)
	d.Finish()
	return d.Parts
}

// lineName numbers the lines of the picture; the second hand's have an l.
func lineName(hand, i int) string {
	name := strconv.Itoa(i + 1)
	if hand > 0 {
		name += "l"
	}
	return name
}

// shells is what stands around each kind of part: what opens before its
// element, the element's tag and class, and what closes after it.
var shells = []struct{ kind, before, tag, class, after string }{
	{"head", "", "header", "head", ""},
	{"remarks", "", "div", "remarks", ""},
	{"tools", "", "div", "tools", ""},
	{"line", "", "div", "picture", ""},
	{"text", "", "div", "sheet", ""},
	{"chart", "", "div", "charted", ""},
	{"charted", "", "div", "end", ""},
	{"asked", `<details class="source"><summary>What this chart was asked for</summary>`, "div", "text", "</details>"},
	{"written", legend + `<section class="ornaments" aria-label="Ornaments">`, "div", "written", ""},
	{"sharing", "", "div", "sharing", ""},
	{"switches", "", "div", "switches", ""},
	{"offer", "", "div", "offer", ""},
	{"words", "</section>", "section", "words", ""},
	{"drills", `<details class="drills"><summary>Exercises from this tune</summary>`, "div", "list", "</details>"},
	{"calls", `<details class="calls"><summary>Late calls: decide as you play</summary><p class="call" aria-live="assertive"></p>` +
		`<p class="run"><button type="button" class="go">Start</button><span class="turn"></span></p>`, "div", "list", "</details>"},
	{"settings", `<details class="settings"><summary>Your harp and hand</summary>`, "div", "fields", "</details>"},
	{"abc", `<details class="source"><summary>The tune as text (ABC)</summary>`, "div", "text", "</details>"},
}

// hush unfolds what is said of a command, and puts it away; the loader answers it.
const hush = `<button type="button" class="unfold" aria-expanded="false">More</button><button type="button" class="hush" aria-label="Close this message">×</button>`

// Skeleton puts the parts of Block into the frame that stays whatever is
// chosen, and gives the whole inside of the block.
func Skeleton(parts []Part) string {
	var b strings.Builder
	size := len(legend)
	for _, p := range parts {
		size += len(p.HTML) + 200 // what stands around it (guess: it need not be exact)
	}
	b.Grow(size)
	music, system := false, ""
	for _, p := range parts {
		kind, name := split(p.ID)
		if kind == "line" && !music {
			b.WriteString(`<div class="music">`)
			music = true
		}
		if number := strings.TrimSuffix(name, "l"); music && (kind == "line" || kind == "text") && number != system {
			if system != "" {
				b.WriteString("</div>")
			}
			b.WriteString(`<div class="system">`)
			system = number
		}
		if music && kind != "line" && kind != "text" {
			b.WriteString("</div></div>")
			music = false
		}
		switch {
		case kind == "chart" && name == "1":
			b.WriteString(`<div class="chart">`)
		case kind == "charted":
			b.WriteString("</div>")
		}
		if kind == "written" || kind == "charted" {
			b.WriteString(`<div class="told"><p class="says" id="` + strings.TrimSuffix(p.ID, kind) + `says" role="status"></p>` + hush + `</div>`)
		}
		wrap(&b, kind, p)
	}
	return b.String()
}

func wrap(b *strings.Builder, kind string, p Part) {
	for _, s := range shells {
		if s.kind == kind {
			b.WriteString(s.before + "<" + s.tag + ` class="` + s.class + `" id="` + p.ID + `">`)
			b.WriteString(p.HTML)
			b.WriteString("</" + s.tag + ">" + s.after)
			return
		}
	}
}

// split parts "b1-line2l" into its kind "line" and its name "2l".
func split(id string) (kind, name string) {
	id = id[strings.LastIndexByte(id, '-')+1:]
	i := strings.IndexAny(id, "0123456789")
	if i < 0 {
		return id, ""
	}
	return id[:i], id[i:]
}

// Says is the part that a screen reader speaks when it changes.
func Says(block, text string) Part { return Part{block + "-says", escape(text)} }

// Heard is Says for what the page shows elsewhere: spoken, not seen.
func Heard(block, text string) Part {
	if text == "" {
		return Says(block, "")
	}
	return Part{block + "-says", `<span class="heard">` + escape(text) + "</span>"}
}
