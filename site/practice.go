package main

import (
	"encoding/json"
	"fmt"

	"readyhand/engine"
)

// This file prints what plan has for practice: the chart of ornaments, exercises
// and late calls.

// chartJSON is the form of plan -chart -json. Fingers are 1 to 4; prices are those
// at the tempos, in their order, null where there is no time.
type chartJSON struct {
	Harp   harpJSON      `json:"harp"`
	Hand   string        `json:"hand"`
	On     string        `json:"on"`     // the string of the note, levers down
	Tempos []int         `json:"tempos"` // crotchets a minute; the note is a crotchet
	Chart  []chartedJSON `json:"chart"`
}

type chartedJSON struct {
	Ornament string      `json:"ornament"`
	Title    string      `json:"title"`
	Family   string      `json:"family"`
	Steps    []int8      `json:"steps"` // strings from the note, as played, its own among them
	Repeat   bool        `json:"repeat"`
	Lacks    bool        `json:"lacks"` // the harp has no string for it there
	Starts   []startJSON `json:"starts"`
}

// startJSON is what can be played when the note has one finger.
type startJSON struct {
	Finger    int       `json:"finger"`
	Readiness []string  `json:"readiness"` // at the tempos, of a hand set for the note alone
	Ways      []wayJSON `json:"ways"`
}

type wayJSON struct {
	Fingers []int       `json:"fingers"` // beside the steps; of one that is repeated as often as they are different
	Prices  []*charge   `json:"prices"`
	Free    []int       `json:"free"`  // fingers in use without work
	Stops   []haltJSON  `json:"stops"` // fingers that then silence a string
	Known   []knownJSON `json:"known"`
	House   bool        `json:"house"`
}

// haltJSON is a finger, 5 the little one, and the string that it silences, from the note.
type haltJSON struct {
	Finger int  `json:"finger"`
	Step   int8 `json:"step"`
}

type knownJSON struct {
	Name   string `json:"name"`
	Source string `json:"source"`
}

// chart prints the chart of ornaments. It needs no tune; a file only says in which
// course, whose house fingerings are marked.
func (a asked) chart(beside string, to streams) int {
	var course engine.Course
	var remarks []remark
	if beside != "" {
		course, remarks = courseOf(beside)
	}
	write(to.err, remarks, true)
	x := course.NewChart(a.sentences...)
	if !a.json {
		fmt.Fprint(to.out, x.Text())
	} else if err := encode(to, newChartJSON(x)); err != nil {
		return trouble
	}
	if anyErrors(remarks) {
		return trouble
	}
	return done
}

// encode prints a value as JSON, and says where that fails.
func encode(to streams, value any) error {
	enc := json.NewEncoder(to.out)
	enc.SetEscapeHTML(false)
	err := enc.Encode(value)
	if err != nil {
		fmt.Fprintf(to.err, "readyhand: %v\n", err)
	}
	return err
}

func newChartJSON(x *engine.Chart) chartJSON {
	h := x.Rules.Harp
	low := h.Strings[0].Pitch
	low.Alter = 0
	out := chartJSON{Harp: harpJSON{Strings: len(h.Strings), Lowest: low.String(), Tuning: h.Tuning, SpacingUM: h.Spacing, Raised: []string{}},
		Hand: x.Rules.Hand.Name, On: x.On, Tempos: x.Tempos[:], Chart: []chartedJSON{}}
	for _, r := range x.Rows {
		rj := chartedJSON{Ornament: r.Row.Name, Title: r.Row.Title, Family: r.Row.Family.String(), Steps: r.Row.Steps, Repeat: r.Row.Repeat, Lacks: r.Lacks, Starts: []startJSON{}}
		for f, s := range r.Starts {
			if x.Rules.Hand.InUse[f] && !r.Lacks {
				rj.Starts = append(rj.Starts, newStartJSON(f+1, s))
			}
		}
		out.Chart = append(out.Chart, rj)
	}
	return out
}

func newStartJSON(finger int, s engine.Start) startJSON {
	out := startJSON{Finger: finger, Ways: []wayJSON{}}
	for _, r := range s.Ready {
		out.Readiness = append(out.Readiness, r.String())
	}
	for _, w := range s.Ways {
		wj := wayJSON{Free: []int{}, Stops: []haltJSON{}, Known: []knownJSON{}, House: w.House}
		for _, f := range w.Fingers {
			wj.Fingers = append(wj.Fingers, int(f)+1)
		}
		for _, p := range w.Prices {
			wj.Prices = append(wj.Prices, newCharge(int64(p)))
		}
		for _, f := range w.Free {
			wj.Free = append(wj.Free, f+1)
		}
		for _, s := range w.Stops {
			wj.Stops = append(wj.Stops, haltJSON{int(s.Finger) + 1, s.Step})
		}
		for _, k := range w.Known {
			wj.Known = append(wj.Known, knownJSON{k.Name, k.Source})
		}
		out.Ways = append(out.Ways, wj)
	}
	return out
}

// drillJSON is one exercise: its notes, a column each, and the block that asks for
// its fingers.
type drillJSON struct {
	Title   string      `json:"title"`
	Hand    string      `json:"hand"`
	Why     string      `json:"why"`
	How     string      `json:"how"`
	Care    string      `json:"care"`
	Columns [][2]string `json:"columns"` // strings and fingers; "|" where the hand is set anew
	Pinned  bool        `json:"pinned"`  // by itself it would be fingered otherwise
	ABC     string      `json:"abc"`
}

func newDrillsJSON(list []engine.Drill) []drillJSON {
	out := []drillJSON{}
	for _, d := range list {
		dj := drillJSON{Title: d.Title, Hand: d.Hand, Why: d.Why, How: d.How, Care: d.Care, Pinned: d.Pinned, ABC: d.ABC}
		for _, c := range d.Columns {
			dj.Columns = append(dj.Columns, [2]string{c.Notes, c.Fingers})
		}
		out = append(out, dj)
	}
	return out
}

// callsJSON is the late calls; times are milliseconds from the start of the bar
// that is counted in.
type callsJSON struct {
	Hand   string     `json:"hand"`
	Bars   [2]int     `json:"bars"`
	Turns  int        `json:"turns"`
	Ahead  int        `json:"ahead"`  // beats
	Called string     `json:"called"` // tune or all
	Seed   int        `json:"seed"`
	BeatMS int32      `json:"beat_ms"`
	TurnMS int32      `json:"turn_ms"` // from turn to turn, a bar of rest included
	Can    []canJSON  `json:"can"`
	Calls  []callJSON `json:"calls"`
}

type canJSON struct {
	Note  string   `json:"note"`
	Words []string `json:"words"`
}

type callJSON struct {
	Turn   int    `json:"turn"`
	Word   string `json:"word"`
	Note   string `json:"note"`
	At     int32  `json:"at_ms"`
	Sounds int32  `json:"sounds_ms"`
}

func newCallsJSON(c engine.Calls) *callsJSON {
	out := &callsJSON{Hand: c.Hand, Bars: [2]int{c.From, c.To}, Turns: c.Turns, Ahead: c.Ahead, Seed: c.Seed, BeatMS: c.BeatMS, TurnMS: c.TurnMS,
		Can: []canJSON{}, Calls: []callJSON{}}
	if out.Called = "tune"; c.All || !c.Own {
		out.Called = "all"
	}
	for _, x := range c.Can {
		out.Can = append(out.Can, canJSON{x.Note, x.Words})
	}
	for _, x := range c.List {
		out.Calls = append(out.Calls, callJSON(x))
	}
	return out
}

// practice puts the exercises and the late calls into a whole answer, as far as
// they are asked for.
func (a asked) practice(found engine.Answer) func(*planJSON) {
	return func(out *planJSON) {
		if a.drills {
			list := newDrillsJSON(found.Drills())
			out.Drills = &list
		}
		if a.calls {
			out.Calls = newCallsJSON(found.Calls())
		}
	}
}

// words prints the exercises, or the late calls, or both, instead of the plan.
func (a asked) words(found engine.Answer, to streams) {
	if a.drills {
		fmt.Fprint(to.out, found.DrillsText())
	}
	if a.drills && a.calls {
		fmt.Fprintln(to.out)
	}
	if a.calls {
		c := found.Calls()
		fmt.Fprint(to.out, c.Text())
	}
}
