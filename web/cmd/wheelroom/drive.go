package main

import (
	"bytes"
	"io"
	"os"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
	"wheelroom/physics/survey"
)

// driveCommand measures a building's drive on its own circuit.
type driveCommand struct {
	Building  string   `required:"" placeholder:"FILE" help:"Building file."`
	From      string   `placeholder:"FLOOR" help:"Floor at which the trip begins (default: the lowest)."`
	To        string   `placeholder:"FLOOR" help:"Floor at which it ends (default: the highest)."`
	Load      *float64 `placeholder:"KG" help:"Load in the car (default: the file's)."`
	Handwheel *float64 `placeholder:"KG_M2" help:"Another handwheel than the file's."`
	Fit       bool     `help:"Give the handwheel the advance and the vanes it needs instead of the file's."`
	Heat      float64  `placeholder:"WATTS" help:"Mean rotor heat that limits the starts an hour (default: 500, an assumption)."`
	Format    string   `enum:"text,csv,json" default:"text" help:"text, csv (one row a figure) or json (default ${default})."`
	Out       string   `type:"path" placeholder:"FILE" help:"Write to a file instead of standard output."`
}

// Run measures and writes the report in the format asked for.
func (c driveCommand) Run(out io.Writer, words speaker) error {
	plan, trip, err := c.ask(words)
	if err != nil {
		return err
	}
	report, err := study.Look(&plan, trip, c.Heat)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	switch c.Format {
	case "csv":
		err = study.WriteCSV(&text, report)
	case "json":
		err = study.WriteJSON(&text, report)
	default:
		err = study.WriteText(&text, report, words)
	}
	if err != nil {
		return err
	}
	if c.Out != "" {
		return os.WriteFile(c.Out, text.Bytes(), 0o644)
	}
	_, err = out.Write(text.Bytes())
	return err
}

// The most a question may ask for; a building file has the same limits.
const (
	mostLoadKG       = 6250
	mostHandwheelKGM = 6
)

// ask reads the building and what is to be different about it.
func (c driveCommand) ask(words speaker) (building.Plan, study.Trip, error) {
	text, err := os.ReadFile(c.Building)
	if err != nil {
		return building.Plan{}, study.Trip{}, err
	}
	plan, problems := survey.Read(c.Building, text)
	if document.Failed(problems) {
		return building.Plan{}, study.Trip{}, words.list(problems)
	}
	trip := study.Trip{From: 0, To: len(plan.Floors) - 1, LoadKG: plan.Lift.LoadKG}
	for _, end := range []struct {
		name string
		to   *int
	}{{c.From, &trip.From}, {c.To, &trip.To}} {
		if end.name == "" {
			continue
		}
		if *end.to = plan.Floor(end.name); *end.to < 0 {
			return plan, trip, words.fail("drive.no-floor", "floor", end.name)
		}
	}
	switch {
	case trip.From == trip.To:
		return plan, trip, words.fail("drive.no-way", "floor", plan.Floors[trip.From].Name)
	case c.Load != nil && !(*c.Load >= 0 && *c.Load <= mostLoadKG):
		return plan, trip, words.fail("drive.bad-load", "most", mostLoadKG)
	case c.Handwheel != nil && !(*c.Handwheel >= 0 && *c.Handwheel <= mostHandwheelKGM):
		return plan, trip, words.fail("drive.bad-handwheel", "most", mostHandwheelKGM)
	case !(c.Heat >= 0 && c.Heat <= 1e6):
		return plan, trip, words.fail("drive.bad-heat", "found", phrase.Num(c.Heat, 0))
	}
	if c.Load != nil {
		trip.LoadKG = *c.Load
	}
	choice := study.Choice{HandwheelKGM2: plan.Machine.HandwheelKGM2, Fit: c.Fit}
	if c.Handwheel != nil {
		choice.HandwheelKGM2 = *c.Handwheel
	}
	plan, _ = study.With(&plan, choice)
	return plan, trip, nil
}
