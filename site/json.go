package main

import (
	"encoding/json"
	"io"
	"strconv"
	"strings"

	"readyhand/engine"
)

// The form of plan -json. Strings count from 1 at the lowest, notes are the
// written note heads, onsets and lengths are in whole notes of played time,
// costs in charges. DEVELOPERS.md holds a filled example.
type planJSON struct {
	Title   string       `json:"title"`
	Harp    harpJSON     `json:"harp"`
	Tempo   tempoJSON    `json:"tempo"` // at the start
	Tempos  []paceJSON   `json:"tempos"`
	Hands   []handJSON   `json:"hands"`
	Check   *checkJSON   `json:"check,omitempty"`  // of a fingering of all notes, from -fingering or from the tune
	Drills  *[]drillJSON `json:"drills,omitempty"` // with -drills
	Calls   *callsJSON   `json:"calls,omitempty"`  // with -calls
	Remarks []remarkJSON `json:"remarks"`
}

type harpJSON struct {
	Strings   int      `json:"strings"`
	Lowest    string   `json:"lowest"`
	Tuning    string   `json:"tuning"`
	SpacingUM int32    `json:"spacing_um"`
	Raised    []string `json:"raised"` // levers to set before playing, by the string with its lever down
}

type tempoJSON struct {
	QuarterMS int32  `json:"quarter_ms"`
	From      string `json:"from"`
}

// paceJSON is the tempo from a written time on.
type paceJSON struct {
	Onset     [2]int64 `json:"onset"`
	QuarterMS int32    `json:"quarter_ms"`
}

type handJSON struct {
	Hand       string         `json:"hand"`
	Cost       charge         `json:"cost"`
	Sharing    charge         `json:"sharing"`
	Recurrence recurrenceJSON `json:"recurrence"`
	Proof      proofJSON      `json:"certificate"`
	Notes      []noteJSON     `json:"notes"`
	Placings   []placingJSON  `json:"placings"`
	Sites      []siteJSON     `json:"sites"`
	House      []houseJSON    `json:"house"`
	Others     []otherJSON    `json:"alternatives"`
	Finder     []findJSON     `json:"finder,omitempty"` // with -finder
}

type otherJSON struct {
	From    string         `json:"from"`
	To      string         `json:"to"`
	Extra   charge         `json:"extra"`
	Near    bool           `json:"near"`
	Fingers map[string]int `json:"fingers"` // by the id of a note: those that are others
	Set     []string       `json:"set"`     // the hand is set before these, and is not in the plan
	Stay    []string       `json:"stay"`    // it stays before these, and is set in the plan
	Buys    string         `json:"buys"`
}

type checkJSON struct {
	Playable bool     `json:"playable"`
	Extra    *charge  `json:"extra"` // null where it cannot be played
	Reasons  []string `json:"reasons"`
}

// houseJSON is one house fingering: of an ornament ("12.cut"), or of a chord, by
// its lowest note.
type houseJSON struct {
	At       string  `json:"at"`
	Fingers  string  `json:"fingers"`
	Extra    *charge `json:"extra"` // what following it costs; null where it is not followed
	Followed bool    `json:"followed"`
}

// recurrenceJSON is what it takes that bars alike have the same fingers.
type recurrenceJSON struct {
	Extra   charge `json:"extra"`
	Gap     charge `json:"gap"`     // of extra, what is not proved to be needed
	Figures int    `json:"figures"` // different bars that come again
}

// proofJSON is how many moments of a hand's part were checked, and the least that any
// fingering could cost.
type proofJSON struct {
	Moments int    `json:"moments"`
	Least   charge `json:"least"`
}

type noteJSON struct {
	ID      string    `json:"id"`
	Note    int       `json:"note"`
	Bar     int       `json:"bar"`
	Onset   [2]int64  `json:"onset"`
	Length  [2]int64  `json:"length"`
	String  int       `json:"string"`
	Name    string    `json:"name"`
	Finger  *int      `json:"finger"`  // null where an ornament
	Placing *int      `json:"placing"` // has no way from the placings shown
	Written bool      `json:"written"`
	On      bool      `json:"on"`
	Prices  []*charge `json:"prices"` // by finger; null where it cannot be taken, null as a whole for an ornament's note
}

type placingJSON struct {
	ID      int            `json:"id"`
	First   string         `json:"first"`
	Last    string         `json:"last"`
	Fingers map[string]int `json:"fingers"` // set on their strings
	Kept    []int          `json:"kept"`    // of those, the ones set for ornaments alone
	Free    map[string]int `json:"free"`    // not set: they drop in
	Move    string         `json:"move"`
	Private bool           `json:"private"`
}

type siteJSON struct {
	ID         string     `json:"id"`
	Note       int        `json:"note"`
	Ornament   string     `json:"ornament"`
	Readiness  string     `json:"readiness"`
	On         bool       `json:"on"`
	Likelihood int32      `json:"likelihood"`
	Moves      int        `json:"moves"` // written notes that would have to take another finger or placing
	Extra      *charge    `json:"extra"` // what preparing it adds; null where it cannot be played
	Stops      []stopJSON `json:"stops"` // fingers that come down on a string after it and silence it
}

// stopJSON is a finger, 5 the little one, on the string that it silences, and the id of
// the written note by which it is off it or plays it; null if nothing comes.
type stopJSON struct {
	Finger int     `json:"finger"`
	String int     `json:"string"`
	Name   string  `json:"name"`
	Until  *string `json:"until"`
}

type remarkJSON struct {
	Line       int    `json:"line"`
	Column     int    `json:"column"`
	Severity   string `json:"severity"`
	Message    string `json:"message"`
	Suggestion string `json:"suggestion"`
}

// charge is a cost in 256ths of a thousandth of a charge; it prints the exact
// decimal.
type charge int64

// MarshalJSON writes whole charges, and decimals where weights make them.
func (c charge) MarshalJSON() ([]byte, error) {
	const unit = int64(engine.Charge)
	n, sign := int64(c), ""
	if n < 0 {
		n, sign = -n, "-"
	}
	text := sign + strconv.FormatInt(n/unit, 10)
	if rest := n % unit; rest != 0 {
		// 256000 is 2^11 times 5^3, so eleven decimals are exact: 10^11/256000 is 390625.
		digits := strconv.FormatInt(rest*390625, 10)
		text += "." + strings.TrimRight(strings.Repeat("0", 11-len(digits))+digits, "0")
	}
	return []byte(text), nil
}

// writeJSON prints an answer, and the remarks at their places in the file it
// stands in; with what may be played on each note, if that is asked for.
func writeJSON(w io.Writer, a engine.Answer, remarks []remark, finder bool, more ...func(*planJSON)) error {
	out := planJSON{
		Title: a.Block.Tune.Title,
		Harp: harpJSON{Strings: len(a.Harp.Strings), Lowest: a.Lowest(), Tuning: a.Harp.Tuning,
			SpacingUM: a.Harp.Spacing, Raised: a.Raised()},
		Tempo:   tempoJSON{a.Tempo.QuarterMS, a.Tempo.From},
		Hands:   []handJSON{},
		Remarks: []remarkJSON{},
	}
	for _, p := range a.Tempos() {
		out.Tempos = append(out.Tempos, paceJSON{[2]int64{p.At.N, p.At.D}, p.QuarterMS})
	}
	for i, h := range a.Hands {
		hand := newHandJSON(h, a.Clock())
		if finder {
			hand.Finder = newFinderJSON(a.Finder(i))
		}
		out.Hands = append(out.Hands, hand)
	}
	if v := a.Verdict; v != nil {
		out.Check = &checkJSON{v.Playable, newCharge(int64(v.Extra)), v.Reasons}
	}
	for _, r := range remarks {
		out.Remarks = append(out.Remarks, remarkJSON{r.line, r.column, string(r.severity), r.message, r.suggestion})
	}
	for _, add := range more {
		add(&out)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

func newHandJSON(h engine.Hand, clock engine.Clock) handJSON {
	out := handJSON{Hand: h.Rules.Hand.Name, Cost: charge(h.Plan.Cost), Sharing: charge(h.Sharing()),
		Recurrence: recurrenceJSON{charge(h.Plan.Likeness.Extra), charge(h.Plan.Likeness.Gap), h.Plan.Likeness.Figures},
		Proof:      proofJSON{h.Plan.Proof.Moments, charge(h.Plan.Proof.Least)},
		Notes:      []noteJSON{}, Placings: []placingJSON{}, Sites: []siteJSON{}, House: []houseJSON{}, Others: []otherJSON{}}
	for k, p := range h.Plan.Placings {
		pj := placingJSON{ID: k + 1, First: firstID(h, p.First), Last: lastID(h, p.Last),
			Fingers: map[string]int{}, Kept: []int{}, Free: map[string]int{}, Move: p.Move.String()}
		for f, s := range p.Frame {
			switch {
			case s < 0:
			case p.Free[f]:
				pj.Free[strconv.Itoa(f+1)] = int(s) + 1
			default:
				pj.Fingers[strconv.Itoa(f+1)] = int(s) + 1
			}
			if p.Kept[f] {
				pj.Kept = append(pj.Kept, f+1)
			}
		}
		out.Placings = append(out.Placings, pj)
	}
	for _, u := range h.Plan.House {
		uj := houseJSON{Fingers: engine.Fingers(u.Fingers), Followed: u.Followed}
		if u.Gap >= 0 {
			uj.At = h.Score.Gaps[u.Gap].Sites[u.Site].ID(u.Which)
		} else {
			uj.At = firstID(h, u.Event)
		}
		if u.Followed {
			uj.Extra = newCharge(int64(u.Extra))
		}
		out.House = append(out.House, uj)
	}
	for j := range h.Plan.Gaps {
		out.ornaments(h, j, clock)
		if j < len(h.Plan.Events) {
			out.event(h, j)
		}
	}
	for _, w := range h.Ways() {
		o := otherJSON{w.From, w.To, charge(w.Extra), w.Near, map[string]int{}, append([]string{}, w.Set...), append([]string{}, w.Stay...), w.Buys}
		for _, f := range w.Fingers {
			o.Fingers[f.ID] = f.Finger
		}
		out.Others = append(out.Others, o)
	}
	return out
}

func firstID(h engine.Hand, event int) string { return h.Score.Events[event].Notes[0].ID() }

func lastID(h engine.Hand, event int) string {
	notes := h.Score.Events[event].Notes
	return notes[len(notes)-1].ID()
}

func (out *handJSON) event(h engine.Hand, i int) {
	e, p := h.Score.Events[i], h.Plan.Events[i]
	for k, n := range e.Notes {
		finger, placing := p.Finger(n.String)+1, p.Placing+1
		nj := noteJSON{ID: n.ID(), Note: n.Written, Bar: e.Bar, Onset: e.Onset, Length: e.Span,
			String: int(n.String) + 1, Name: n.Name(h.Score), Finger: &finger,
			Placing: &placing, Written: true, On: true}
		for _, c := range p.Prices[k] {
			nj.Prices = append(nj.Prices, newCharge(int64(c)))
		}
		out.Notes = append(out.Notes, nj)
	}
}

// newCharge gives a cost, or nil for the cost of what cannot be played.
func newCharge(c int64) *charge {
	if c >= int64(engine.Unplayable) {
		return nil
	}
	return (*charge)(&c)
}

// ornaments adds the sites of gap j, their notes, and their own placings.
func (out *handJSON) ornaments(h engine.Hand, j int, clock engine.Clock) {
	for k, site := range h.Score.Gaps[j].Sites {
		for i, o := range site.Ornaments {
			fit := h.Plan.Gaps[j].Fits[k][i]
			out.Sites = append(out.Sites, siteJSON{site.ID(i), site.Written, o.Name, fit.Ready.String(), o.On, o.Likelihood,
				fit.Moves, newCharge(int64(fit.Extra)), newStopsJSON(h, j, k, i)})
			own := placingJSON{ID: len(out.Placings) + 1, Fingers: map[string]int{}, Kept: []int{}, Free: map[string]int{}, Move: "lift", Private: true}
			e := h.Score.Events[site.Event]
			for n, stroke := range o.Strokes {
				nj := noteJSON{ID: site.ID(i) + "." + strconv.Itoa(n+1), Note: site.Written, Bar: e.Bar,
					String: int(stroke.String) + 1, Name: h.Score.Name(stroke.String), On: o.On}
				nj.Onset, nj.Length = engine.Stroke(clock, e.Onset, stroke.At, strokeLength(o, n, site.After, e.Length))
				if n < len(fit.Touches) {
					finger, from := int(fit.Touches[n].Finger)+1, fit.Touches[n].From.String()
					nj.Finger, nj.Placing = &finger, own.holds(&nj, finger, from, h, j)
				}
				out.Notes = append(out.Notes, nj)
			}
			if len(own.Fingers) > 0 {
				out.Placings = append(out.Placings, own)
			}
		}
	}
}

// newStopsJSON lists the strings that are silenced after an ornament.
func newStopsJSON(h engine.Hand, gap, site, which int) []stopJSON {
	list := []stopJSON{}
	for _, s := range h.Stops(gap, site, which) {
		stop := stopJSON{Finger: int(s.Finger) + 1, String: int(s.String) + 1, Name: h.Score.Name(s.String)}
		if s.Until < len(h.Score.Events) {
			id := firstID(h, s.Until)
			stop.Until = &id
		}
		list = append(list, stop)
	}
	return list
}

// holds gives the placing a stroke of gap j is played from. If that is the
// ornament's own, it takes the finger up.
func (own *placingJSON) holds(n *noteJSON, finger int, from string, h engine.Hand, j int) *int {
	placing := own.ID
	switch from {
	case "left":
		placing = h.Plan.Events[j-1].Placing + 1
	case "right":
		placing = h.Plan.Events[j].Placing + 1
	default:
		own.Fingers[strconv.Itoa(finger)] = n.String
		if own.First == "" {
			own.First = n.ID
		}
		own.Last = n.ID
	}
	return &placing
}

// strokeLength is how many milliseconds pass until the stroke after stroke n of
// an ornament, or until its note: to the note's end where it follows the note or
// is struck with it.
func strokeLength(o engine.Ornament, n int, after bool, length int32) int32 {
	end := o.Delay
	if after || o.Delay == 0 {
		end = length
	}
	if n+1 < len(o.Strokes) {
		end = o.Strokes[n+1].At
	}
	return end - o.Strokes[n].At
}
