// Command readyhand turns a folder of harp lessons into a site whose tunes
// answer: which ornaments the hand is ready for, and with which fingers.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"readyhand/engine"
)

// A command is one word after readyhand. It gets the words after its own and
// returns what the shell shall know: 0 done, 1 there are errors to mend, 2 it
// was not understood.
type command struct {
	name, takes, does string
	words             [][2]string // what the words in capitals stand for
	run               func(args []string, out streams) int
}

// commands is the map of this program; each lives in the file of its name.
func commands() []command {
	content := [2]string{"CONTENT", "the folder of the lessons, or one that new made; content if none is named"}
	return []command{
		{"new", "DIR", "start a folder with two lessons in it", [][2]string{{"DIR", "the folder to make"}}, runNew},
		{"build", "[-o FOLDER] [-engine FILE] [CONTENT]", "make the site from the lessons", [][2]string{content}, runBuild},
		{"serve", "[-o FOLDER] [-engine FILE] [-port NUMBER] [CONTENT]", "show the site here and follow what you write", [][2]string{content}, runServe},
		{"check", "[CONTENT]", "say what is wrong in the lessons, and where", [][2]string{content}, runCheck},
		{"plan", "[-tune NUMBER] [-do SENTENCE] [-fingering FINGERS] [SETTINGS] [-json] FILE | -chart", "finger one tune, from ABC or from a lesson",
			[][2]string{{"FILE", "a tune in ABC, a lesson whose name ends in .md, or - for what is typed or piped in"}}, runPlan},
	}
}

// streams is where a command reads and writes; a test gives its own.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

const (
	done     = 0
	trouble  = 1
	notClear = 2
)

func main() { os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})) }

func run(args []string, to streams) int {
	if len(args) == 0 {
		usage(to.err)
		return notClear
	}
	if helps(args[0]) {
		if len(args) > 1 && !helps(args[1]) {
			return run([]string{args[1], "-h"}, to)
		}
		usage(to.out)
		return done
	}
	var names []string
	for _, c := range commands() {
		if c.name == args[0] {
			return c.run(args[1:], to)
		}
		names = append(names, c.name)
	}
	if near, ok := engine.Near(args[0], names); ok {
		fmt.Fprintf(to.err, "readyhand: There is no command %s. Write readyhand %s.\n", quoted(args[0]), near)
		return notClear
	}
	fmt.Fprintf(to.err, "readyhand: There is no command %s.\n\n", quoted(args[0]))
	usage(to.err)
	return notClear
}

// helps reports a word that asks what can be typed.
func helps(word string) bool {
	return slices.Contains([]string{"help", "-h", "-help", "--help"}, word)
}

func usage(w io.Writer) {
	fmt.Fprintln(w, "readyhand makes a site from harp lessons.")
	for _, c := range commands() {
		fmt.Fprintf(w, "\n  readyhand %s %s\n      %s\n", c.name, c.takes, c.does)
	}
	fmt.Fprintln(w, "\nreadyhand COMMAND -h tells its settings. Every command ends with 0 when all is done,\n"+
		"1 where there are errors to mend, 2 where what was typed is not understood.")
}

// settings is a flag set that writes to the command's own streams, in our words.
func settings(name string, to streams) *flag.FlagSet {
	f := flag.NewFlagSet("readyhand "+name, flag.ContinueOnError)
	f.SetOutput(to.err)
	f.Usage = func() {
		for _, c := range commands() {
			if c.name == name {
				c.usage(f, to.out) // who asks gets an answer, not an error
			}
		}
	}
	return f
}

// usage tells what a command does, what it takes, and its settings.
func (c command) usage(f *flag.FlagSet, w io.Writer) {
	rows := slices.Clone(c.words)
	f.VisitAll(func(g *flag.Flag) {
		value, does := flag.UnquoteUsage(g)
		rows = append(rows, [2]string{strings.TrimSpace("-" + g.Name + " " + value), does})
	})
	wide := 0
	for _, r := range rows {
		wide = max(wide, len(r[0]))
	}
	fmt.Fprintf(w, "%s %s\n    %s\n\n", f.Name(), c.takes, c.does)
	for _, r := range rows {
		fmt.Fprintf(w, "  %-*s  %s\n", wide, r[0], r[1])
	}
}

// unclear tells of a command that was not understood.
func unclear(f *flag.FlagSet, message string) int {
	fmt.Fprintf(f.Output(), "%s: %s\n%[1]s -h tells what it takes.\n", f.Name(), message)
	return notClear
}

// inOurWords says what the flag package has to say, which has no types for it.
func inOurWords(fault string) string {
	if name, ok := strings.CutPrefix(fault, "flag provided but not defined: "); ok {
		return "There is no setting " + name + "."
	}
	if name, ok := strings.CutPrefix(fault, "flag needs an argument: "); ok {
		return "Something must follow " + name + "."
	}
	if _, after, ok := strings.Cut(fault, " for flag "); ok {
		name, why, _ := strings.Cut(after, ": ")
		if why == "parse error" || why == "value out of range" {
			why = "Write a whole number after it."
		}
		return name + ": " + why
	}
	return fault
}

// parse reads settings that stand before, between or after the files, and gives
// the files. At most this many files may be named. When it is not ok the
// command ends with the code.
func parse(f *flag.FlagSet, args []string, most int) (files []string, code int, ok bool) {
	for {
		if err := parseSome(f, args); errors.Is(err, flag.ErrHelp) {
			f.Usage()
			return nil, done, false
		} else if err != nil {
			return nil, unclear(f, inOurWords(err.Error())), false
		}
		left := f.Args()
		plain := len(left) < len(args) && args[len(args)-len(left)-1] == "--"
		if plain || len(left) == 0 {
			files = append(files, left...)
			break
		}
		files, args = append(files, left[0]), left[1:]
	}
	if slices.Contains(files, "") {
		return nil, unclear(f, "One of the names is empty."), false
	}
	empty := false
	f.Visit(func(g *flag.Flag) { empty = empty || g.Name == "o" && g.Value.String() == "" })
	if empty {
		return nil, unclear(f, "Something must follow -o."), false
	}
	if len(files) > most {
		return nil, unclear(f, quoted(files[most])+" is one too many."), false
	}
	return files, done, true
}

// parseSome reads settings up to the next file, and keeps the flag package from
// speaking itself.
func parseSome(f *flag.FlagSet, args []string) error {
	to, usage := f.Output(), f.Usage
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	err := f.Parse(args)
	f.SetOutput(to)
	f.Usage = usage
	return err
}
