package main

import (
	"bytes"
	"context"
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
// be used are listed, as FILE: words.
func (c matchCommand) Run(out io.Writer, aside complaints, words speaker) error {
	ctx, cancel := untilInterrupt()
	defer cancel()
	return c.match(ctx, out, aside, words)
}

func (c matchCommand) match(ctx context.Context, out, aside io.Writer, words speaker) error {
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
	var result *match.Result
	err = awaited(aside, words, "command.match-stopped", func(progress func(done, of int)) (err error) {
		result, err = fitting.Search(ctx, plan, seen, progress)
		return err
	})
	if err != nil {
		return err
	}
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
