package main

import (
	"bytes"
	"io"
	"math"
	"os"

	"wheelroom/physics/netlist"
	"wheelroom/physics/trace"
)

// netlistCommand writes the circuit of a building's lift, frozen at an instant.
type netlistCommand struct {
	Building string   `required:"" placeholder:"FILE"`
	Start    string   `placeholder:"FLOOR"`
	Call     []string `sep:"none" placeholder:"FLOOR@SECONDS"`
	At       float64  `default:"0" placeholder:"SECONDS"`
	Format   string   `enum:"spice,json" default:"spice"`
	Out      string   `type:"path" placeholder:"FILE"`
}

// Run runs the machine up to the instant and writes its network.
func (c netlistCommand) Run(out io.Writer, words speaker) error {
	if !(c.At >= 0 && c.At <= trace.LongestS) || math.IsNaN(c.At) {
		return usage{words.fail("command.at", "most", int(trace.LongestS)).Error()}
	}
	m, err := traceCommand{Building: c.Building, Start: c.Start, Call: c.Call}.machine(words)
	if err != nil {
		return err
	}
	m.RunTo(c.At)
	var text bytes.Buffer
	if err := netlist.Write(&text, m, c.Format); err != nil {
		return err
	}
	if c.Out != "" {
		return os.WriteFile(c.Out, text.Bytes(), 0o644)
	}
	_, err = out.Write(text.Bytes())
	return err
}
