package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// asked is one tune and what was chosen for it.
type asked struct {
	file      string // as remarks name it
	block     block
	sentences []string // "strings 34", "cut@12 off", in the order they were said
	json      bool

	place func(at int) (line, column int) // of a byte of the tune, in the file
}

// spoken are the settings of plan that are sentences of their own: "-strings 34"
// is "strings 34".
var spoken = [][2]string{
	{"strings", "how many strings the harp has, 34"},
	{"lowest", "its lowest string, C2"},
	{"tuning", "its key with all levers down: Eb, Ab, F or C"},
	{"spacing", "from string to string in millimetres, 14.5"},
	{"hand", "right or left"},
	{"reach", "of the hand beside a usual one, 1.0"},
	{"fingers", "in use, 123 or 1234"},
	{"tempo", "quarters a minute, 120, or 3/8=80"},
}

// runPlan is the command plan. It is done when the tune can be planned, and has
// trouble when something in it cannot; what can be planned is printed all the same.
func runPlan(args []string, to streams) int {
	a, code, ok := readPlan(args, to)
	if !ok {
		return code
	}
	return a.answer(to)
}

// readPlan understands the words after plan and reads the tune.
func readPlan(args []string, to streams) (a asked, code int, ok bool) {
	f := settings("plan", to)
	say := func(verb string) func(string) error {
		return func(words string) error {
			a.sentences = append(a.sentences, strings.TrimSpace(verb+" "+words))
			return nil
		}
	}
	f.Func("do", "a `sentence` such as \"cut@12 off\" or \"finger@7 2\"; may be given again", say(""))
	for _, s := range spoken {
		f.Func(s[0], s[1], say(s[0]))
	}
	f.BoolVar(&a.json, "json", false, "print the whole answer as JSON")
	tune := f.Int("tune", 0, "which tune of a lesson, `1` for the first")
	files, code, ok := parse(f, args, 1)
	if !ok {
		return a, code, false
	}
	if len(files) == 0 {
		fmt.Fprintln(to.err, "readyhand plan: name a file with a tune, or - to read one from the standard input.")
		f.Usage()
		return a, notClear, false
	}
	if given(f, "tune") && *tune < 1 {
		fmt.Fprintln(to.err, "readyhand plan: tunes are counted from 1.")
		return a, notClear, false
	}
	if err := a.read(files[0], max(1, *tune), to); err != nil {
		fmt.Fprintf(to.err, "readyhand plan: %v\n", err)
		return a, trouble, false
	}
	return a, done, true
}

func given(f *flag.FlagSet, name string) bool {
	is := false
	f.Visit(func(g *flag.Flag) { is = is || g.Name == name })
	return is
}

// read reads a tune from a file, from a lesson, or from the standard input.
func (a *asked) read(file string, tune int, to streams) error {
	a.file = file
	var text []byte
	var err error
	if file == "-" {
		a.file = "standard input"
		text, err = readAtMost(to.in)
	} else {
		var in *os.File
		if in, err = os.Open(file); err == nil {
			text, err = readAtMost(in)
			in.Close()
		}
	}
	if err != nil {
		return fmt.Errorf("%s cannot be read: %w", a.file, reason(err))
	}
	if at := firstBad(text); at >= 0 {
		line, column := position(text, at)
		return errors.New(remark{a.file, line, column, isError, "This letter cannot be read: the file is not in UTF-8.", "save it as UTF-8 in your editor"}.String())
	}
	if !strings.EqualFold(filepath.Ext(file), ".md") {
		if tune > 1 {
			return fmt.Errorf("%s is one tune; -tune chooses among those of a lesson", a.file)
		}
		a.block = block{text: string(text)}
		a.place = func(at int) (int, int) { return position(text, max(0, at)) }
		return nil
	}
	return a.fromLesson(text, tune)
}

func readAtMost(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err == nil && len(text) > mostBytes {
		err = fmt.Errorf("it is larger than %d kB", mostBytes>>10)
	}
	return text, err
}

// fromLesson takes a tune out of a lesson, counted from 1.
func (a *asked) fromLesson(text []byte, tune int) error {
	l := readLesson(filepath.Base(a.file), a.file, text)
	p := prose{lesson: l, body: text[l.body:]}
	tree, past := toTree(newMarkdown(), p.body, usual, newHeadings())
	if past != nil {
		return errors.New(l.remarkAt(isError, l.body+past.at, past.message, past.suggestion).String())
	}
	for n := tree.FirstChild(); n != nil; n = n.NextSibling() {
		if fence, ok := n.(*ast.FencedCodeBlock); ok {
			p.fence(fence)
		}
	}
	for _, r := range p.said {
		if r.severity == isError {
			return errors.New(r.String())
		}
	}
	if tune > len(p.blocks) {
		return fmt.Errorf("%s has %s; write a tune between a line ```abc and a line ```", a.file, count(len(p.blocks), "tune"))
	}
	a.block = p.blocks[tune-1]
	a.place = func(at int) (int, int) { return position(text, l.body+a.block.place(max(0, at))) }
	return nil
}
