package main

import (
	"bytes"
	"io"

	"wheelroom/assets/fonts"
	"wheelroom/game/bench"
	"wheelroom/game/figure"
	"wheelroom/game/svg"
	ring "wheelroom/physics/bench"
	"wheelroom/physics/match"
	"wheelroom/physics/phrase"
)

// sheetWidth is the width of the drawings written to files, logical units.
const sheetWidth = 1000

// ringSheet writes the bench of a ring as one drawing.
func ringSheet(out *bytes.Buffer, r *ring.Report, words speaker) error {
	title := phrase.Of("bench.ring", "building", r.Plan.Name, "count", len(r.Terminals), "pitch", phrase.Num(r.Ring.PitchM(), 3))
	return drawing(out, bench.Sheet(r, sheetWidth, bench.Words(words)), words(title))
}

// matchSheet writes the lamps of a trip, seen and fitted, as one drawing.
func matchSheet(out *bytes.Buffer, r *match.Result, words speaker) error {
	title := phrase.Of("bench.traces-title", "from", r.Plan.Floors[r.From].Name, "to", r.Plan.Floors[r.To].Name)
	return drawing(out, bench.Traces(r, sheetWidth, bench.Words(words)), words(title))
}

// drawing writes a figure that stands by itself, its fonts put in.
func drawing(out io.Writer, f *figure.Figure, title string) error {
	return svg.Write(out, f, &figure.Paper, svg.Options{Title: title, Parts: true, Regular: fonts.RegularWeb, Bold: fonts.BoldWeb})
}
