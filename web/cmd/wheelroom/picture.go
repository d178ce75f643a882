package main

import (
	"bytes"
	"io"
	"math"
	"os"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/game/svg"
	"wheelroom/physics/lift"
	"wheelroom/physics/trace"
)

// pictureCommand draws a building's lift at an instant of a run.
type pictureCommand struct {
	Building string   `required:"" placeholder:"FILE"`
	Start    string   `placeholder:"FLOOR"`
	Call     []string `sep:"none" placeholder:"FLOOR@SECONDS"`
	At       float64  `default:"0" placeholder:"SECONDS"`
	View     string   `enum:"all,shaft,wheel,circuit,chart" default:"all"`
	Theme    string   `enum:"paper,slate" default:"paper"`
	Width    int      `default:"1280" placeholder:"UNITS"`
	Height   int      `default:"760" placeholder:"UNITS"`
	Out      string   `type:"path" placeholder:"FILE"`
}

// Run runs the machine up to the instant and draws it as SVG.
func (c pictureCommand) Run(out io.Writer, words speaker) error {
	if !(c.At >= 0 && c.At <= trace.LongestS) || math.IsNaN(c.At) {
		return usage{words.fail("command.at", "most", int(trace.LongestS)).Error()}
	}
	if min(c.Width, c.Height) < 200 || max(c.Width, c.Height) > 8000 {
		return usage{words.fail("command.picture-size", "least", 200, "most", 8000).Error()}
	}
	m, err := traceCommand{Building: c.Building, Start: c.Start, Call: c.Call}.machine(words)
	if err != nil {
		return err
	}
	var text bytes.Buffer
	if err := svg.Write(&text, c.draw(m, words), palettes[c.Theme], svg.Options{
		ID: "wheelroom", Title: m.Plan().Name, Regular: fonts.RegularWeb, Bold: fonts.BoldWeb,
	}); err != nil {
		return err
	}
	if c.Out != "" {
		return os.WriteFile(c.Out, text.Bytes(), 0o644)
	}
	_, err = out.Write(text.Bytes())
	return err
}

var palettes = map[string]*figure.Palette{"paper": &figure.Paper, "slate": &figure.Slate}

// draw runs the machine on, watching it for the chart, and composes the scene.
func (c pictureCommand) draw(m *lift.Machine, words speaker) *figure.Figure {
	const watchS = 1.0 / 60
	record := scene.NewRecord(len(m.Wiring().Coils), len(m.Plan().Floors))
	var view lift.View
	for {
		m.Look(&view)
		record.Look(&view)
		if m.Stopped() != "" || m.TimeS() >= c.At-lift.GridS/2 {
			break
		}
		m.RunTo(min(m.TimeS()+watchS, c.At))
	}
	o := scene.Options{Width: float64(c.Width), Height: float64(c.Height), Words: words}
	for _, p := range []scene.Picture{scene.All, scene.Shaft, scene.Wheel, scene.Circuit, scene.Chart} {
		if p.String() == c.View {
			o.Picture = p
		}
	}
	s := scene.New(m.Plan(), m.Wiring(), o)
	var whole figure.Figure
	whole.Reset(o.Width, o.Height)
	moving := s.Moving(&view, record)
	whole.Append(s.Still())
	whole.Append(moving)
	return &whole
}
