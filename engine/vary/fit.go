package vary

import (
	"strconv"
	"strings"

	"readyhand/engine/ornament"
	"readyhand/engine/score"
	"readyhand/engine/source"
)

// decoration finds the ornament that a sign means: one of the tune's own, or of
// the catalogue.
func (w *writer) decoration(name string) (ornament.Row, bool) {
	for _, row := range w.rows {
		if row.Family == ornament.Own && row.Name == strings.ToLower(name) {
			return row, true
		}
	}
	return ornament.Decoration(name)
}

// why an ornament does not fit a note.
type why int8

const (
	fits     why = iota
	noString     // the harp lacks one
	noNext       // the next note is not where the ornament leads
	noTime
	noHand // this hand cannot hold it
)

// ornament writes a row's strokes on the strings of a site's note, and says why it
// does not fit it. Where time or hand are wanting it can still be written out.
func (w *writer) ornament(s score.Site, row ornament.Row) (o score.Ornament, lack why) {
	e := w.score.Events[s.Event]
	main := e.Notes[len(e.Notes)-1].String
	toward, ok := row.Towards(w.next(s.Event))
	if !ok {
		return o, noNext
	}
	strokes, delay, enough := toward.Strokes(e.Length, e.Span[0]%3 == 0)
	o = score.Ornament{Name: row.Name, Title: row.Title, Many: row.Many, Delay: delay, Source: source.Nowhere()}
	for _, stroke := range strokes {
		at := int(main) + int(stroke.Step)
		if at < 0 || at >= len(w.harp.Strings) {
			return o, noString
		}
		o.Strokes = append(o.Strokes, score.Stroke{String: int8(at), At: stroke.At})
	}
	o.House = w.house(toward, len(strokes))
	switch early := -strokes[0].At; {
	case !enough, early > 0 && s.Event > 0 && e.Since < 2*early: // the note before keeps half of its time
		return o, noTime
	case !w.held[row.Name]:
		return o, noHand
	}
	return o, fits
}

// next says how many strings the next note lies above the top of an event, below 0
// under it; 0 where the hand comes off before it, or there is none.
func (w *writer) next(event int) int8 {
	if event+1 == len(w.score.Events) || w.score.Events[event+1].Forced {
		return 0
	}
	top := func(e score.Event) int8 { return e.Notes[len(e.Notes)-1].String }
	return top(w.score.Events[event+1]) - top(w.score.Events[event])
}

// pressed is how soon, in milliseconds, strokes on the beat follow each other where they
// are very quick (guess: a quick grace note has 65).
const pressed = 50

// Quick reports strokes of an ornament that follow each other faster than they should,
// on a note that lasts so many milliseconds.
func Quick(o score.Ornament, row ornament.Row, length int32) bool {
	if row.Time != ornament.Spread {
		for i, s := range o.Strokes {
			next := o.Delay
			if i+1 < len(o.Strokes) {
				next = o.Strokes[i+1].At
			}
			if 0 < next-s.At && next-s.At < pressed {
				return true
			}
		}
		return false
	}
	last := int32(0)
	for _, s := range o.Strokes {
		if s.At-last < row.Every {
			return true
		}
		last = s.At
	}
	return !row.Repeat && length-last < row.Every
}

// unfit says why an ornament named for this note is not offered.
func (w *writer) unfit(s score.Site, row ornament.Row, lack why) {
	r := source.Remark{Span: w.place(s), Severity: source.Warning, Kind: "ornament-does-not-fit"}
	is := article(row)
	switch lack {
	case noString:
		r.Message = "On this note " + is + " needs a string that this harp does not have; it is not offered."
		r.Suggestion = "Choose another ornament, or a harp that has the string."
	case noNext:
		r.Message = "The " + row.Title + " leads to a note " + far(row.Next) + " away, and the next one is not; it is not offered."
		r.Suggestion = "Choose another ornament here."
	case noHand:
		if row.Family == ornament.Own {
			return // said of the ornament itself
		}
		r.Message = "The fingers in use cannot hold the strings of " + is + "; it is not offered."
		r.Suggestion = "Choose another ornament, or set more fingers or a wider reach."
	default:
		r.Message = "There is no time for " + is + " on this note; it is not offered."
		r.Suggestion = "Choose a shorter ornament, or a slower tempo."
	}
	w.say(r)
}

// far names an interval by its strings.
func far(strings int8) string {
	if strings == 2 {
		return "a third"
	}
	return strconv.Itoa(int(strings)) + " strings"
}
