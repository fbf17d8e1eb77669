package read

import (
	"slices"
	"strings"

	"readyhand/engine/tune"
)

// headParts keeps P: of the header, the order of the parts (ABC 2.1, 3.1.9).
func (r *reader) headParts(v value) { r.head.order = v }

// partLabel is P: in the body: a part begins here.
func (r *reader) partLabel(v value) {
	name := strings.TrimLeft(strings.Join(strings.Fields(strings.ReplaceAll(plainText(v.text), "]", "")), " "), ":| ")
	if name != "" {
		r.toMain()
		r.mark(tune.Mark{Kind: tune.Part, Part: name, Source: v.Span})
	}
}

// label is where a part begins.
type label struct {
	name byte
	at   tune.Frac
}

// labels gives the parts of a voice by their written time: its own, or if it has
// none those of the first voice that has. Only a capital alone can be ordered.
func (r *reader) labels() []label {
	for _, p := range append([]*part{r.part}, r.parts...) {
		var list []label
		for _, m := range p.voice.Marks {
			if m.Kind != tune.Part || !isPart(m.Part[0]) || len(m.Part) > 1 && isLetter(m.Part[1]) {
				continue
			}
			at := p.now
			if m.Event < len(p.voice.Events) {
				at = p.voice.Events[m.Event].Onset
			}
			list = append(list, label{m.Part[0], at})
		}
		if list != nil {
			return list
		}
	}
	return nil
}

// filledParts are the parts that have notes in some voice; a layer is played with
// its own.
func (r *reader) filledParts() map[byte]bool {
	has := map[byte]bool{}
	here := r.part
	for _, r.part = range r.parts {
		if r.over.main != nil {
			continue
		}
		labels, events := r.labels(), r.voice.Events
		for i, l := range labels {
			to := len(events)
			if i+1 < len(labels) {
				to = firstFrom(events, labels[i+1].at)
			}
			if firstFrom(events, l.at) < to {
				has[l.name] = true
			}
		}
	}
	r.part = here
	return has
}

// isPart reports a letter that may name a part in an order.
func isPart(c byte) bool { return c >= 'A' && c <= 'Z' }

// partOrder gives the parts in the order that they are played, nil if they are
// played as they stand: as they are where no part of the order is in the music,
// and where P: has words instead.
func (r *reader) partOrder() []byte {
	v := r.head.order
	r.part = r.parts[0]
	if v.empty() {
		return nil
	}
	const help = "Write P:AABB in the header, and P:A and P:B where the parts begin."
	has := r.filledParts()
	order, ok := expanded(v.text)
	known := slices.ContainsFunc(order, func(name byte) bool { return has[name] })
	switch {
	case !ok && strings.ToUpper(v.text) != v.text:
		r.say(partOrder, v.Span, "These are words, not an order of parts; the tune is played as it stands.", help)
	case !ok:
		r.say(partOrder, v.Span, "This order of parts cannot be followed; the tune is played as it stands.", help)
	case len(has) == 0:
		r.say(partMissing, v.Span, "No part is named in the music; the tune is played as it stands.", help)
	case !known:
		r.say(partMissing, v.Span, "None of these parts is named in the music; the tune is played as it stands.", help)
	}
	if !ok || !known {
		return nil
	}
	missing, told := "", map[byte]bool{}
	for _, name := range order {
		if !has[name] && !told[name] {
			missing += string(rune(name))
		}
		told[name] = true
	}
	if missing != "" {
		r.say(partMissing, v.Span, "There is no part "+strings.Join(strings.Split(missing, ""), ", ")+" in the music.", help)
	}
	for _, m := range r.voice.Marks {
		if m.Kind == tune.Part && has[m.Part[0]] && !told[m.Part[0]] {
			told[m.Part[0]] = true
			r.say(partUnplayed, m.Source, "The order of parts does not have this part; it is not played.", "Write its name into the P: line of the header.")
		}
	}
	r.t.Parts = v.text
	return order
}

// mostOrder is how many parts an order may come to (guess).
const mostOrder = 1000

// expanded writes an order out: A3 is AAA, (AB)2 is ABAB, nested as you like, with
// dots and spaces for the eye and nothing else (ABC 2.1, 3.1.9).
func expanded(s string) (order []byte, ok bool) {
	var open []int
	for i := 0; i < len(s); {
		from := len(order)
		switch c := s[i]; {
		case c == '(':
			open = append(open, from)
			i++
			continue
		case c == ')' && len(open) > 0:
			from, open = open[len(open)-1], open[:len(open)-1]
		case c == '.' || isSpace(c):
			i++
			continue
		case isPart(c):
			order = append(order, c)
		default:
			return nil, false
		}
		i++
		end := i
		for end < len(s) && isDigit(s[end]) {
			end++
		}
		if end > i {
			n, read := whole(s[i:end])
			again := order[from:]
			if !read || len(order)+len(again)*int(n-1) > mostOrder {
				return nil, false
			}
			for range n - 1 {
				order = append(order, again...)
			}
			i = end
		}
		if len(order) > mostOrder {
			return nil, false
		}
	}
	return order, len(open) == 0 && len(order) > 0
}

// playOrder plays the parts in their order, or all as it stands. What comes
// before the first part is played first. A part that is played as often in a row
// as it has endings has one of them each time (ABC 2.1, 4.10).
func (w *player) playOrder(order []byte) {
	events := w.voice.Events
	if order == nil {
		w.playSections(w.sections(0, len(events)))
		return
	}
	labels := w.labels()
	parts := map[byte][]section{}
	for i, l := range labels {
		from, to := firstFrom(events, l.at), len(events)
		if i == 0 {
			w.playSections(w.sections(0, from))
		}
		if i+1 < len(labels) {
			to = firstFrom(events, labels[i+1].at)
		}
		parts[l.name] = append(parts[l.name], w.sections(from, to)...)
	}
	for i := 0; i < len(order); {
		run := 1
		for i+run < len(order) && order[i+run] == order[i] {
			run++
		}
		w.playPart(parts[order[i]], run)
		i += run
	}
}

// playPart plays a part so many times in a row.
func (w *player) playPart(list []section, times int) {
	most := 0
	for _, s := range list {
		most = max(most, s.most())
	}
	for pass := 1; pass <= times; pass++ {
		if most != times || times < 2 {
			w.playSections(list)
			continue
		}
		for _, s := range list {
			if len(s.endings) == 0 {
				w.playSections([]section{s})
			} else {
				w.playPass(s, pass)
			}
		}
	}
}
