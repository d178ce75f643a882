package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strconv"

	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/survey"
	"wheelroom/physics/trace"
)

// traceCommand runs a building's lift and writes down every signal.
type traceCommand struct {
	Building string   `required:"" placeholder:"FILE"`
	Start    string   `placeholder:"FLOOR"`
	Call     []string `sep:"none" placeholder:"FLOOR@SECONDS"`
	Until    until    `required:"" placeholder:"idle|SECONDS"`
	Format   string   `enum:"csv,vcd" default:"csv"`
	Out      string   `type:"path" placeholder:"FILE"`
}

// until is when a trace ends: at a time, or once idle.
type until struct {
	idle  bool
	timeS float64
}

// UnmarshalText reads "idle" or a number of seconds from 0 to trace.LongestS.
func (u *until) UnmarshalText(text []byte) error {
	if string(text) == "idle" {
		u.idle = true
		return nil
	}
	t, err := strconv.ParseFloat(string(text), 64)
	if err != nil || !(t >= 0 && t <= trace.LongestS) {
		return fmt.Errorf("want idle or seconds from 0 to %g, found %q", trace.LongestS, text)
	}
	u.timeS = t
	return nil
}

// Run makes the machine, does what was asked to it and writes its trace.
func (c traceCommand) Run(out io.Writer, words speaker) error {
	m, err := c.machine(words)
	if err != nil {
		return err
	}
	r := trace.Record(m)
	if c.Until.idle {
		if !r.RunUntilIdle() {
			return words.fail("command.never-idle", "hours", int(trace.LongestS/3600))
		}
	} else {
		r.RunTo(c.Until.timeS)
	}
	var text bytes.Buffer
	write := trace.WriteCSV
	if c.Format == "vcd" {
		write = trace.WriteVCD
	}
	if err := write(&text, r.Rows); err != nil {
		return err
	}
	if c.Out != "" {
		return os.WriteFile(c.Out, text.Bytes(), 0o644)
	}
	_, err = out.Write(text.Bytes())
	return err
}

// machine is the building's lift at its start, with every call in its book.
func (c traceCommand) machine(words speaker) (*lift.Machine, error) {
	text, err := os.ReadFile(c.Building)
	if err != nil {
		return nil, err
	}
	plan, problems := survey.Read(c.Building, text)
	if document.Failed(problems) {
		return nil, words.list(problems)
	}
	start := 0
	if c.Start != "" {
		if start = plan.Floor(c.Start); start < 0 {
			return nil, words.fail("command.unknown-floor", "floor", c.Start)
		}
	}
	m, err := lift.New(&plan, lift.Options{Start: start})
	if err != nil {
		return nil, err
	}
	for _, call := range c.Call {
		in, wrong := trace.ReadCall(&plan, call)
		switch wrong.ID {
		case "":
		case "call.form", "call.time":
			return nil, usage{words(wrong)}
		default:
			return nil, bad{words(wrong)}
		}
		if wrong := m.Do(in); wrong.ID != "" {
			return nil, bad{words(wrong)}
		}
	}
	return m, nil
}

// fail is the error of bad input, in words.
func (s speaker) fail(id string, pairs ...any) error { return bad{s(phrase.Of(id, pairs...))} }
