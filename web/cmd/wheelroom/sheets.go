package main

import (
	"errors"
	"io"

	"wheelroom/physics/bench"
	"wheelroom/physics/match"
	"wheelroom/physics/phrase"
)

var badSpeed = phrase.Of("match.bad-speed")

func ringSheet(io.Writer, *bench.Report, speaker) error  { return errors.ErrUnsupported }
func matchSheet(io.Writer, *match.Result, speaker) error { return errors.ErrUnsupported }
