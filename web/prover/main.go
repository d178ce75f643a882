// Command prover proves the circuit of one building. The page runs it, built
// for WebAssembly, in a worker of its own, so that a long proof keeps nobody
// waiting.
//
// It reads a building file on standard input and writes lines of JSON on
// standard output: {"done": n, "of": m} as the work goes on, at last
// {"report": …}, or {"error": "…"} for what cannot be proved.
package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
	"wheelroom/physics/proof"
)

// A line is one line of the output.
type line struct {
	Done   int           `json:"done,omitempty"`
	Of     int           `json:"of,omitempty"`
	Report *proof.Report `json:"report,omitempty"`
	Error  string        `json:"error,omitempty"`
}

// steps is how many lines of progress there are at most.
const steps = 200

func main() {
	if err := run(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run does it all; its error is one of reading or writing.
func run(in io.Reader, out io.Writer) error {
	text, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	write := json.NewEncoder(out)
	plan, problems := building.Read("", text)
	if document.Failed(problems) {
		return write.Encode(line{Error: problems[0].Format(phrase.Phrase.String)})
	}
	told := 0
	report, err := proof.Prove(context.Background(), proof.Question{Plan: &plan}, func(done, of int) {
		if at := done * steps / of; at > told {
			told = at
			_ = write.Encode(line{Done: done, Of: of})
		}
	})
	if err != nil {
		return write.Encode(line{Error: err.Error()})
	}
	return write.Encode(line{Report: &report})
}
