// Command wheelroom serves the page, traces a run of a building's lift, and
// checks building and lesson files.
//
// It ends with 0 when all is well, 1 for bad input, 2 for bad usage and 130
// for long work that was interrupted. It runs natively, and built for js/wasm
// under Node without the server.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"wheelroom/web/languages"
)

// The program's ends.
const (
	exitFine    = 0
	exitInput   = 1
	exitUsage   = 2
	exitStopped = 130 // as a shell has it of a program that was interrupted
)

// commands is the command line.
type commands struct {
	Serve   serveCommand   `cmd:""`
	Trace   traceCommand   `cmd:""`
	Check   checkCommand   `cmd:""`
	Drive   driveCommand   `cmd:"" help:"Measure a building's drive: a trip, every load, every handwheel."`
	Prove   proveCommand   `cmd:""`
	Netlist netlistCommand `cmd:""`
	Ring    ringCommand    `cmd:""`
	Match   matchCommand   `cmd:""`
	Sheet   sheetCommand   `cmd:""`
	Picture pictureCommand `cmd:""`

	Language string `default:"en" placeholder:"TAG"`
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run parses args, does what they say and returns the program's end.
func run(args []string, stdout, stderr io.Writer) (end int) {
	// The help is in the language as well, so that is looked for before parsing.
	language, err := languages.Open(asked(args))
	if err != nil {
		fmt.Fprintf(stderr, "wheelroom: %v\n", err)
		return exitUsage
	}
	words := language.Words
	// Help ends the parsing early; the panic carries that past kong.
	type done struct{ code int }
	defer func() {
		switch d := recover().(type) {
		case nil:
		case done:
			end = d.code
		default:
			panic(d)
		}
	}()
	parser := kong.Must(&commands{},
		kong.Name("wheelroom"),
		// Set before the words are put in, or the help leaves its place out.
		kong.Description("help"),
		kong.Writers(stdout, stderr),
		kong.Exit(func(code int) { panic(done{code}) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
		kong.BindTo(stdout, (*io.Writer)(nil)),
		kong.BindTo(stderr, (*complaints)(nil)),
		kong.Bind(speaker(words.Text), language),
	)
	wordHelp(parser.Model, words)
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(stderr, "wheelroom: %v\nTry: wheelroom --help\n", err)
		return exitUsage
	}
	return ending(ctx.Run(), stderr)
}

// asked is the language that a command line asks for, English if none.
func asked(args []string) string {
	const flag = "--language"
	tag := languages.English
	for i, arg := range args {
		if arg == "--" {
			break
		}
		if value, ok := strings.CutPrefix(arg, flag+"="); ok {
			tag = value
		} else if arg == flag && i+1 < len(args) {
			tag = args[i+1]
		}
	}
	return tag
}

// ending says an error and returns the end it makes.
func ending(err error, stderr io.Writer) int {
	if err == nil {
		return exitFine
	}
	if text := err.Error(); text != "" {
		fmt.Fprintln(stderr, text)
	}
	switch {
	case errors.As(err, new(usage)):
		return exitUsage
	case errors.As(err, new(stopped)):
		return exitStopped
	}
	return exitInput
}
