package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
)

// asked is one tune and what was chosen for it.
type asked struct {
	file      string // as remarks name it
	block     block
	sentences []string // "strings 34", "cut@12 off", in the order they were said
	json      bool
	fingering *string // the player's own fingers; nil if none
	reading   bool    // only the notes are asked for: no harp, no hand
	charted   bool    // a chart of the ornaments is asked for, and no tune
	beside    string  // the file whose course a chart is for; "" if none
	drills    bool    // exercises are asked for
	calls     bool    // late calls are asked for
	abc       bool    // only the tune is asked for, as strict ABC
	finder    bool    // what may be played on each note is asked for too

	place func(at int) (line, column int) // of a byte of the tune, in the file
	lost  []remark                        // why there is no tune to answer; nil if there is one
}

// spoken are the settings of plan that are sentences of their own: "-strings 34"
// is "strings 34".
var spoken = [][2]string{
	{"strings", "how many strings the harp has, such as `34`"},
	{"lowest", "its lowest string, such as `C2`"},
	{"tuning", "its key with all levers down, such as `Eb`"},
	{"spacing", "from string to string in millimetres, such as `14.5`"},
	{"hand", "which hand plays, `right` or left"},
	{"reach", "how far the hand opens beside a usual one, such as `1.0`"},
	{"style", "from placing to placing, `connected` or lifted"},
	{"fingers", "which fingers play, `1234` or 123"},
	{"families", "which old families of ornaments are looked for and offered too, `irish`, welsh or both"},
	{"transpose", "strings up, `2` (or -2 for down), or the key to move the tune to, such as D"},
	{"bars", "with -calls, the bars that are called, such as `\"3 4\"`"},
	{"turns", "with -calls, how often they are played, `16`, 1 to 64"},
	{"ahead", "with -calls, how many beats before its note an ornament is called, `3`, 1 to 8; if none is said, as many as 1.2 s take"},
	{"called", "with -calls, `WHICH` ornaments are called: tune, those that stand in it; all, whatever fits the hand"},
	{"seed", "with -calls, the `NUMBER` of the order they come in, 1 to 999; the same gives the same"},
	{"tempo", "beats a minute, such as `120` quarters or 3/8=80"},
}

// runPlan is the command plan. It is done when the tune can be planned, and has
// trouble when something in it cannot; what can be planned is printed all the same.
func runPlan(args []string, to streams) int {
	a, code, ok := readPlan(args, to)
	if !ok {
		return code
	}
	if a.charted {
		return a.chart(a.beside, to)
	}
	if a.reading {
		return a.notes(to)
	}
	if a.abc {
		return a.strict(to)
	}
	return a.answer(to)
}

// readPlan understands the words after plan and reads the tune.
func readPlan(args []string, to streams) (a asked, code int, ok bool) {
	f := settings("plan", to)
	say := func(verb, setting string) func(string) error {
		return func(words string) error {
			sentence := strings.TrimSpace(verb + " " + words)
			a.sentences = append(a.sentences, sentence)
			return understood(sentence, verb, setting)
		}
	}
	f.Func("do", "a `SENTENCE` such as \"cut@12 off\" or \"finger@7 2\"; may be given again", say("", "do"))
	for _, s := range spoken {
		verb := s[0]
		if verb == "bars" {
			verb = "calls"
		}
		f.Func(s[0], s[1], say(verb, s[0]))
	}
	f.BoolVar(&a.json, "json", false, "print the whole answer as JSON")
	f.BoolVar(&a.reading, "notes", false, "with -json, print only the notes as they are read, to hold against other programs")
	f.Func("fingering", "your own `FINGERS` of every written note, held against the best: \"3 2 1 | 4+2+1\", with | where the hand is set anew, the fingers of a chord from its lowest string, ? for any", func(words string) error {
		a.fingering = &words
		return nil
	})
	f.BoolVar(&a.finder, "finder", false, "tell of every note which ornaments may be played on it, and what they ask of the hand")
	f.BoolVar(&a.charted, "chart", false, "print every ornament in every fingering, for this harp and hand; no file is needed")
	f.BoolVar(&a.drills, "drills", false, "print exercises from the tune: its hardest moves, what comes most often, ornaments for which a finger waits")
	f.BoolVar(&a.calls, "calls", false, "print late calls: turn by turn, how one note is to be played, told just before it")
	f.BoolVar(&a.abc, "abc", false, "print only the tune, as strict ABC, transposed if that is asked for")
	tune := f.Int("tune", 1, "the `NUMBER` of a tune in a lesson; 1, the first, if none is named")
	files, code, ok := parse(f, args, 1)
	clash := ""
	if ok {
		clash = apart(f)
	}
	switch {
	case !ok:
		return a, code, false
	case clash != "":
		return a, unclear(f, clash), false
	case len(files) == 0 && !a.charted:
		return a, unclear(f, "Name a file with a tune, or - for what is typed or piped in."), false
	case *tune < 1:
		return a, unclear(f, "Tunes are counted from 1."), false
	case a.reading && !a.json:
		return a, unclear(f, "-notes is for other programs: write -json with it."), false
	}
	if len(a.sentences) > 0 {
		if err := together(a.sentences); err != nil {
			return a, unclear(f, err.Error()), false
		}
	}
	if a.charted {
		if len(files) > 0 {
			a.beside = files[0]
		}
		return a, done, true
	}
	a.read(files[0], *tune, to)
	return a, done, true
}

// byThemselves are settings that print something of their own, with what each may be said
// beside; "" is any setting that speaks of the harp, the hand or the choice.
var byThemselves = []struct {
	name string
	with []string
}{
	{"notes", []string{"json", "tune"}},
	{"abc", []string{"", "tune"}},
	{"chart", []string{"", "json"}},
}

// apart says which of the settings that were given cannot stand together; "" if all can.
func apart(f *flag.FlagSet) (clash string) {
	given := map[string]bool{}
	f.Visit(func(g *flag.Flag) { given[g.Name] = g.Value.String() != "false" })
	var names []string
	f.VisitAll(func(g *flag.Flag) {
		if given[g.Name] {
			names = append(names, g.Name)
		}
	})
	says := func(name string) bool {
		return name == "do" || slices.ContainsFunc(spoken, func(s [2]string) bool { return s[0] == name })
	}
	for _, row := range byThemselves {
		if !given[row.name] {
			continue
		}
		for _, name := range names {
			if name != row.name && !slices.Contains(row.with, name) && !(says(name) && slices.Contains(row.with, "")) {
				return "-" + row.name + " prints something else: leave -" + name + " out, or ask for it by itself."
			}
		}
	}
	for _, name := range []string{"bars", "turns", "ahead", "called", "seed"} {
		if given[name] && !given["calls"] {
			return "-" + name + " is about late calls: write -calls with it."
		}
	}
	return ""
}

// read reads a tune from a file, from a lesson, or from the standard input.
func (a *asked) read(file string, tune int, to streams) {
	a.file = file
	var text []byte
	var err error
	if file == "-" {
		a.file = typedIn
		text, err = readAtMost(to.in)
	} else {
		var in *os.File
		if in, err = os.Open(file); err == nil {
			if info, e := in.Stat(); e == nil && info.IsDir() {
				err = errFolder
			} else {
				text, err = readAtMost(in)
			}
			in.Close()
		}
	}
	if err != nil {
		a.lose(unreadable(err))
		return
	}
	lesson := strings.EqualFold(filepath.Ext(file), ".md")
	if !lesson {
		text = oldLetters(text)
	}
	if at, message, suggestion := foreign(text); at >= 0 {
		line, column := position(text, at)
		a.lost = append(a.lost, remark{a.file, line, column, isError, message, suggestion})
		return
	}
	if len(bytes.TrimSpace(text)) == 0 && !lesson {
		a.lose("There is nothing in it.", "Write a tune: X:1, K:C and, under them, the notes.")
		return
	}
	if lesson {
		a.fromLesson(text, tune)
		return
	}
	if tune > 1 {
		a.lose("This is one tune, not a lesson of several.", "Leave -tune out.")
		return
	}
	a.block = block{text: string(text)}
	a.place = func(at int) (int, int) { return position(text, max(0, at)) }
}

// typedIn is how remarks name a tune that is typed or piped in.
const typedIn = "standard input"

// oldLetters gives a tune in UTF-8 of which some letters were written in Latin-1,
// as most ABC was before 2010: every byte that is none in UTF-8 is one in Latin-1.
// What has a zero byte is no tune and stays as it is.
func oldLetters(text []byte) []byte {
	if utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
		return text
	}
	var now []byte
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		if r == utf8.RuneError && n == 1 {
			r = rune(text[0]) // Latin-1 is the start of Unicode
		}
		now = utf8.AppendRune(now, r)
		text = text[n:]
	}
	return now
}

// lose says that there is no tune, and why.
func (a *asked) lose(message, suggestion string) {
	a.lost = append(a.lost, remark{a.file, 1, 1, isError, message, suggestion})
}

// unreadable says why a file could not be read.
func unreadable(err error) (message, suggestion string) {
	switch {
	case errors.Is(err, errLarge):
		return fmt.Sprintf("This file is too large: %d kB is the most.", mostBytes>>10), "Give each tune a file of its own."
	case errors.Is(err, fs.ErrNotExist):
		return "There is no file of this name.", "Look how its name is spelled."
	case errors.Is(err, errFolder):
		return "This is a folder, not a file.", "Name a file in it."
	}
	return fmt.Sprintf("This file cannot be read: %v.", reason(err)), "Look whether you may read it."
}

var (
	errLarge  = errors.New("too large")
	errFolder = errors.New("a folder")
)

func readAtMost(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err == nil && len(text) > mostBytes {
		err = errLarge
	}
	return text, err
}

// fromLesson takes a tune out of a lesson, counted from 1.
func (a *asked) fromLesson(text []byte, tune int) {
	l := readLesson(filepath.Base(a.file), a.file, text)
	p := prose{lesson: l, body: text[l.body:], onlyTunes: true}
	tree, past := toTree(newMarkdown(), p.body, usual, newHeadings())
	if past != nil {
		a.lost = append(a.lost, l.remarkAt(isError, l.body+past.at, past.message, past.suggestion))
		return
	}
	for n := tree.FirstChild(); n != nil; n = n.NextSibling() {
		if fence, ok := n.(*ast.FencedCodeBlock); ok {
			p.fence(fence)
		} else {
			p.bare(n)
		}
	}
	switch {
	case anyErrors(p.said):
		a.lost = p.said
		return
	case tune > len(p.blocks):
		a.lost = p.said
		message, suggestion := "There is no tune in this lesson.", "Write one between a line ```abc and a line ```."
		if n := len(p.blocks); n == 1 {
			message, suggestion = "There is one tune in this lesson.", "Leave -tune out."
		} else if n > 1 {
			message, suggestion = fmt.Sprintf("There are %d tunes in this lesson.", n), fmt.Sprintf("Write -tune and a number from 1 to %d.", n)
		}
		a.lose(message, suggestion)
		return
	}
	a.block = p.blocks[tune-1]
	a.place = func(at int) (int, int) { return position(text, l.body+a.block.place(max(0, at))) }
}
