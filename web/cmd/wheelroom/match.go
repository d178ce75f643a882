package main

import (
	"bytes"
	"io"
	"os"
	"strings"

	"wheelroom/physics/match"
	"wheelroom/physics/match/fitting"
)

// matchCommand fits a ring to what a passenger saw.
type matchCommand struct {
	Building   string  `required:"" placeholder:"FILE"`
	Observed   string  `required:"" placeholder:"FILE"`
	Speed      float64 `placeholder:"M/S"`
	SpeedError float64 `placeholder:"M/S"`
	Format     string  `enum:"text,json,svg" default:"text"`
	Out        string  `type:"path" placeholder:"FILE"`
}

// Run reads the observation, matches it and writes the result. Rows that cannot
// be used are listed, as FILE:ROW: words.
func (c matchCommand) Run(out io.Writer, words speaker) error {
	if say, ok := match.CheckSpeed(c.Speed, c.SpeedError); !ok {
		return usage{words(say)}
	}
	plan, err := words.surveyed(c.Building)
	if err != nil {
		return err
	}
	text, err := os.ReadFile(c.Observed)
	if err != nil {
		return err
	}
	seen, problems := match.Read(text, plan.Names())
	if len(problems) > 0 {
		var lines []string
		for _, p := range problems {
			lines = append(lines, c.Observed+": "+words(p.Say))
		}
		return bad{strings.Join(lines, "\n")}
	}
	seen.SpeedMS, seen.SpeedErrorMS = c.Speed, c.SpeedError
	result := fitting.Match(plan, seen)
	var b bytes.Buffer
	switch c.Format {
	case "json":
		err = match.WriteJSON(&b, result, words)
	case "svg":
		err = matchSheet(&b, result, words)
	default:
		err = match.WriteText(&b, result, words)
	}
	if err != nil {
		return err
	}
	return deliver(out, c.Out, b.Bytes())
}
