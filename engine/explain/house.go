package explain

import (
	"slices"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/plan"
)

// Fingers writes a house fingering as it is written: "1 2".
func Fingers(way []int8) string {
	words := make([]string, len(way))
	for i, f := range way {
		words[i] = number(int(f))
	}
	return strings.Join(words, " ")
}

// housed is one house fingering in words: what it is of ("the cut on the first D",
// "the chord on C"), and the event that it belongs to.
func (t *teller) housed(h plan.House) (what string, event int) {
	if h.Gap < 0 {
		return "the chord on " + t.called(t.s.Events[h.Event].Notes[0]), h.Event
	}
	site := t.s.Gaps[h.Gap].Sites[h.Site]
	return "the " + site.Ornaments[h.Which].Title + " on " + t.short(site.Event, t.noteOf(site)), site.Event
}

// Usual writes a house fingering of an ornament as it stands among the house
// fingerings: of one that is repeated, once.
func Usual(name string, way []int8) string {
	if row, ok := ornament.Named(name); ok && row.Repeat {
		for n := range way {
			if n > 0 && slices.Equal(way[n:], way[:len(way)-n]) {
				return Fingers(way[:n])
			}
		}
	}
	return Fingers(way)
}

// usually is a house fingering of the plan, as it stands among them.
func (b *book) usually(h plan.House) string {
	if h.Gap < 0 {
		return Fingers(h.Fingers)
	}
	return Usual(b.s.Gaps[h.Gap].Sites[h.Site].Ornaments[h.Which].Name, h.Fingers)
}

// houses tells where a house fingering costs more than other fingers would, and
// where it cannot be played; and what all of them together cost, where that is
// more than one place can tell.
func (t *teller) houses() {
	dear := 0
	for _, h := range t.p.House {
		what, event := t.housed(h)
		switch effort := Effort(h.Extra); {
		case !h.Followed:
			has := " has"
			if h.Gap >= 0 && t.s.Gaps[h.Gap].Sites[h.Site].Ornaments[h.Which].Many {
				has = " have"
			}
			t.say(Left, event, what+has+" other fingers here than your usual "+t.usually(h)+".")
		case effort != "0":
			dear++
			t.say(Ornaments, event, "for "+what+" your usual "+t.usually(h)+" takes "+effort+" more effort here than other fingers would.")
		}
	}
	if effort := Effort(t.p.Usual); effort != "0" && dear != 1 {
		t.out = append(t.out, Sentence{Kind: Ornaments, Event: -1,
			Text: "Your usual fingerings take " + effort + " more effort in this tune than the easiest fingers would."})
	}
}

// usual says to which house fingering a note's finger belongs: " It belongs to your
// usual cut, 1 2."; "" if to none.
func (b *book) usual(p *plan.Plan, event, note int) string {
	n := b.s.Events[event].Notes[note]
	for _, h := range p.House {
		switch {
		case !h.Followed:
		case h.Event == event:
			return " It belongs to your usual fingering of this chord, " + Fingers(h.Fingers) + "."
		case h.Gap >= 0:
			site := b.s.Gaps[h.Gap].Sites[h.Site]
			if site.Event == event && site.Written == n.Written {
				return " It belongs to your usual " + site.Ornaments[h.Which].Title + ", " + b.usually(h) + "."
			}
		}
	}
	return ""
}

// unusual reports whether a plan leaves house fingerings out that another follows.
func unusual(p, than *plan.Plan) bool { return p != nil && left(p) > left(than) }

func left(p *plan.Plan) (n int) {
	for _, d := range p.Dropped {
		if len(d.House) > 0 {
			n++
		}
	}
	return n
}
