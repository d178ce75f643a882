// Command errand does one long piece of work: it proves the circuit of a
// building or matches its ring. The page runs it, built for WebAssembly, in a
// worker of its own, so that nobody is kept waiting.
//
// It reads a task on standard input and writes the lines of its answer on
// standard output, both as game/errand has them.
package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"wheelroom/game/errand"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/match"
	"wheelroom/physics/match/fitting"
	"wheelroom/physics/phrase"
	"wheelroom/physics/proof"
)

func main() {
	if err := run(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run does it all; its error is one of reading or writing.
func run(in io.Reader, out io.Writer) error {
	var task errand.Task
	if err := json.NewDecoder(in).Decode(&task); err != nil {
		return err
	}
	write := json.NewEncoder(out)
	report, err := do(task, teller(write))
	if err != nil {
		return write.Encode(errand.Line{Error: err.Error()})
	}
	text, err := json.Marshal(report)
	if err != nil {
		return err
	}
	return write.Encode(errand.Line{Report: text})
}

// do does the work. The page has read the building and what was seen before it
// handed them over.
func do(task errand.Task, progress func(done, of int)) (report any, err error) {
	plan, problems := building.Read("", []byte(task.Building))
	if document.Failed(problems) {
		return nil, errors.New(problems[0].Format(phrase.Phrase.String))
	}
	switch task.Do {
	case errand.Prove:
		return proof.Prove(context.Background(), proof.Question{Plan: &plan}, progress)
	case errand.Match:
		seen, problems := match.Read([]byte(task.Observed), plan.Names())
		if len(problems) > 0 {
			return nil, errors.New(problems[0].Say.String())
		}
		seen.SpeedMS, seen.SpeedErrorMS = task.SpeedMS, task.SpeedErrorMS
		return fitting.Search(context.Background(), &plan, seen, progress)
	}
	return nil, fmt.Errorf("errand: no task is called %q", task.Do)
}

// steps is in how many steps at most progress is told.
const steps = 200

// teller returns a progress function that writes when there is news. Where more
// work turns up, what is done of it becomes less; that is not told.
func teller(write *json.Encoder) func(done, of int) {
	told := 0
	return func(done, of int) {
		if at := done * steps / of; at > told {
			told = at
			_ = write.Encode(errand.Line{Done: done, Of: of})
		}
	}
}
