package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
	"wheelroom/physics/proof"
	"wheelroom/physics/survey"
)

// proveCommand proves a scheme's circuit against its rule of service.
type proveCommand struct {
	Building string `required:"" placeholder:"FILE"`
	Scheme   string `enum:",direct,interlocked,directional,two-button" default:"" placeholder:"NAME"`
}

// Run says what was proved, or refuted with the smallest case and how to see
// it; the end is 0 for proved, 1 for refuted and 130 for broken off.
func (c proveCommand) Run(out io.Writer, aside complaints, words speaker) error {
	ctx, cancel := untilInterrupt()
	defer cancel()
	return c.prove(ctx, out, aside, words)
}

func (c proveCommand) prove(ctx context.Context, out, aside io.Writer, words speaker) error {
	text, err := os.ReadFile(c.Building)
	if err != nil {
		return err
	}
	plan, problems := survey.Read(c.Building, text)
	if document.Failed(problems) {
		return words.list(problems)
	}
	if c.Scheme != "" {
		plan.Control.Scheme = c.Scheme
	}
	var report proof.Report
	err = awaited(aside, words, "command.prove-stopped", func(progress func(done, of int)) (err error) {
		report, err = proof.Prove(ctx, proof.Question{Plan: &plan}, progress)
		return err
	})
	if err != nil {
		return err
	}
	return tell(out, words, &plan, &report)
}

// tell says what came of a proof; its error, which says nothing more, is of
// one that did not succeed.
func tell(out io.Writer, words speaker, plan *building.Plan, report *proof.Report) error {
	for _, said := range report.Say(plan) {
		fmt.Fprintln(out, words(said))
	}
	if report.Proved {
		return nil
	}
	if c := report.Refuting(); c != nil {
		fmt.Fprintln(out, words(seeing(plan, c)))
	}
	return bad{}
}

// seeing says how to set up a case on the running machine.
func seeing(plan *building.Plan, c *proof.Case) phrase.Phrase {
	o, ins := c.Open(plan)
	start := phrase.Of("command.start-at", "floor", plan.Floors[o.Start].Name)
	if o.HeightM != nil {
		start = phrase.Of("command.start-height", "height", phrase.Num(*o.HeightM, 2))
	}
	var pressed []string
	for _, in := range ins {
		pressed = append(pressed, fmt.Sprintf("%s@%g", in.Part, in.TimeS))
	}
	return phrase.Of("command.see-case", "start", start, "buttons", strings.Join(pressed, ", "))
}
