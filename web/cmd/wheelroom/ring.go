package main

import (
	"bytes"
	"io"
	"os"

	"wheelroom/physics/bench"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/survey"
)

// ringCommand lays out the ring of a building's selector.
type ringCommand struct {
	Building string `required:"" placeholder:"FILE"`
	Format   string `enum:"text,csv,json,svg" default:"text"`
	Propose  bool
	Out      string `type:"path" placeholder:"FILE"`
}

// Run writes the report in the format asked for.
func (c ringCommand) Run(out io.Writer, words speaker) error {
	plan, err := words.surveyed(c.Building)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	switch report := bench.Lay(plan); {
	case c.Propose:
		err = bench.WriteAdvice(&text, bench.Propose(plan), words)
	case c.Format == "csv":
		err = bench.WriteCSV(&text, report)
	case c.Format == "json":
		err = bench.WriteJSON(&text, report)
	case c.Format == "svg":
		err = ringSheet(&text, report, words)
	default:
		err = bench.WriteText(&text, report, words)
	}
	if err != nil {
		return err
	}
	return deliver(out, c.Out, text.Bytes())
}

// surveyed reads a building file and refuses what cannot be built.
func (s speaker) surveyed(file string) (*building.Plan, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	plan, problems := survey.Read(file, text)
	if document.Failed(problems) {
		return nil, s.list(problems)
	}
	return &plan, nil
}

// deliver writes to a file where one is named, else to out.
func deliver(out io.Writer, file string, text []byte) error {
	if file != "" {
		return os.WriteFile(file, text, 0o644)
	}
	_, err := out.Write(text)
	return err
}
