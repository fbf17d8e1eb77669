// Command readyhand turns a folder of harp lessons into a site whose tunes
// answer: which ornaments the hand is ready for, and with which fingers.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
)

// A command is one word after readyhand. It gets the words after its own and
// returns what the shell shall know: 0 done, 1 there are errors to mend, 2 it
// was not understood.
type command struct {
	name, takes, does string
	run               func(args []string, out streams) int
}

// commands is the map of this program; each lives in the file of its name.
func commands() []command {
	return []command{
		{"new", "DIR", "start a folder with a first lesson in it", runNew},
		{"build", "[-o .site] [CONTENT]", "make the site from the lessons in CONTENT (content)", runBuild},
		{"serve", "[-o .site] [-port 4747] [CONTENT]", "show the site here and follow what you write", runServe},
		{"check", "[CONTENT]", "say what is wrong in the lessons, and where", runCheck},
		{"plan", "[-do SENTENCE] [-json] FILE|-", "finger one tune, from ABC or from a lesson", runPlan},
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
	switch args[0] {
	case "help", "-h", "-help", "--help":
		usage(to.out)
		return done
	}
	for _, c := range commands() {
		if c.name == args[0] {
			return c.run(args[1:], to)
		}
	}
	fmt.Fprintf(to.err, "readyhand: there is no command %q.\n", args[0])
	usage(to.err)
	return notClear
}

func usage(w io.Writer) {
	fmt.Fprintln(w, "readyhand makes a site from harp lessons.")
	for _, c := range commands() {
		fmt.Fprintf(w, "\n  readyhand %s %s\n      %s\n", c.name, c.takes, c.does)
	}
	fmt.Fprintln(w, "\nreadyhand COMMAND -h tells its settings.")
}

// settings is a flag set that writes to the command's own streams.
func settings(name string, to streams) *flag.FlagSet {
	f := flag.NewFlagSet("readyhand "+name, flag.ContinueOnError)
	f.SetOutput(to.err)
	return f
}

// parse reads settings that stand before, between or after the files, and gives
// the files. At most this many files may be named. When it is not ok the
// command ends with the code.
func parse(f *flag.FlagSet, args []string, most int) (files []string, code int, ok bool) {
	for {
		switch err := f.Parse(args); {
		case errors.Is(err, flag.ErrHelp):
			return nil, done, false
		case err != nil:
			return nil, notClear, false
		}
		left := f.Args()
		plain := len(left) < len(args) && args[len(args)-len(left)-1] == "--"
		if plain || len(left) == 0 {
			files = append(files, left...)
			break
		}
		files, args = append(files, left[0]), left[1:]
	}
	if len(files) > most {
		fmt.Fprintf(f.Output(), "%s: %q is one too many.\n", f.Name(), files[most])
		f.Usage()
		return nil, notClear, false
	}
	return files, done, true
}
