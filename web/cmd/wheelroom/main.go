// Command wheelroom serves the page, traces a run of a building's lift, and
// checks building and lesson files.
//
// It ends with 0 when all is well, 1 for bad input and 2 for bad usage. It
// runs natively, and built for js/wasm under Node without the server.
package main

import (
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// The program's ends.
const (
	exitFine  = 0
	exitInput = 1
	exitUsage = 2
)

// commands is the command line.
type commands struct {
	Serve serveCommand `cmd:"" help:"Serve the finished page on this machine."`
}

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run parses args, does what they say and returns the program's end.
func run(args []string, stdout, stderr io.Writer) (end int) {
	var c commands
	// Help ends the parsing early; the panic carries that past kong.
	type done struct{ code int }
	defer func() {
		if d, ok := recover().(done); ok {
			end = d.code
		}
	}()
	parser, err := kong.New(&c,
		kong.Name("wheelroom"),
		kong.Description("A teaching model of an electromechanical lift."),
		kong.Writers(stdout, stderr),
		kong.Exit(func(code int) { panic(done{code}) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.BindTo(stdout, (*io.Writer)(nil)),
	)
	if err != nil {
		panic("wheelroom: " + err.Error())
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(stderr, "wheelroom: %v\nTry: wheelroom --help\n", err)
		return exitUsage
	}
	if err := ctx.Run(); err != nil {
		fmt.Fprintln(stderr, err)
		return exitInput
	}
	return exitFine
}
