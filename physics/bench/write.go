package bench

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"text/tabwriter"

	"wheelroom/physics/document"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
)

// schedule is the report as data for other programs.
type schedule struct {
	Terminals  []terminalRow `json:"terminals"`
	Boundaries []boundaryRow `json:"boundaries"`
}

type terminalRow struct {
	Index    int     `json:"index"`
	AngleDeg float64 `json:"angle_deg"`
	HeightM  float64 `json:"height_m"`
	Floor    string  `json:"floor"`
}

type boundaryRow struct {
	Below          string  `json:"below"`
	Above          string  `json:"above"`
	BlankTerminals int     `json:"blank_terminals"`
	DarkM          float64 `json:"dark_m"`
	DarkS          float64 `json:"dark_s"`
	OverlapM       float64 `json:"overlap_m"`
}

// WriteJSON writes terminals and boundaries, figures to the millionth; dark_s
// is at full speed.
func WriteJSON(w io.Writer, r *Report) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(scheduleOf(r))
}

func scheduleOf(r *Report) schedule {
	s := schedule{Terminals: []terminalRow{}, Boundaries: []boundaryRow{}}
	for _, t := range r.Terminals {
		s.Terminals = append(s.Terminals, terminalRow{t.Index, millionths(t.AngleDeg), millionths(t.HeightM), t.Floor})
	}
	for _, b := range r.Boundaries {
		s.Boundaries = append(s.Boundaries, boundaryRow{b.Below, b.Above, b.BlankTerminals,
			millionths(b.DarkM), millionths(b.DarkS), millionths(b.OverlapM)})
	}
	return s
}

// millionths keeps what is left of the rounding of sums out of a file.
func millionths(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }

// WriteCSV writes the schedule of terminals, RFC 4180.
func WriteCSV(w io.Writer, r *Report) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	rows := [][]string{{"index", "angle_deg", "height_m", "floor"}}
	for _, t := range r.Terminals {
		rows = append(rows, []string{strconv.Itoa(t.Index), decimals(t.AngleDeg, 3), decimals(t.HeightM, 3), t.Floor})
	}
	return c.WriteAll(rows)
}

func decimals(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if f, err := strconv.ParseFloat(s, 64); err == nil && f == 0 {
		return strconv.FormatFloat(0, 'f', n, 64) // no minus before nothing
	}
	return s
}

// WriteText writes the report in words: the ring, its schedule, boundaries,
// lamps, and what is to be noted.
func WriteText(w io.Writer, r *Report, text func(phrase.Phrase) string) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	say := func(id string, slots ...any) string { return text(phrase.Of(id, slots...)) }
	line := func(id string, slots ...any) { fmt.Fprintln(w, say(id, slots...)) }
	figure := func(v float64, n int) string { return say("bench.figure", "figure", phrase.Num(v, n)) }
	row := func(cells ...string) {
		for _, c := range cells {
			fmt.Fprint(t, c, "\t")
		}
		fmt.Fprintln(t)
	}

	s := &r.Plan.Selector
	line("bench.ring", "building", r.Plan.Name, "count", len(r.Terminals), "pitch", phrase.Num(r.Ring.PitchM(), 3))
	line("bench.widths", "sum", phrase.Num(s.TerminalWidth+s.BrushWidth, 2), "live", s.LiveTerminals,
		"per-floor", document.Plain(s.TerminalsPerFloor))
	line("bench.speeds", "full", phrase.Num(r.FullMS, 2), "slow", phrase.Num(r.SlowMS, 2))
	for _, p := range r.Problems {
		fmt.Fprintln(w, text(p.Say))
	}

	fmt.Fprintln(w)
	row(say("bench.head-terminal"), say("bench.head-angle"), say("bench.head-height"), say("bench.head-floor"))
	for _, x := range r.Terminals {
		floor := x.Floor
		if floor == "" {
			floor = say("bench.blank")
		}
		row(strconv.Itoa(x.Index), figure(x.AngleDeg, 2), figure(x.HeightM, 3), floor)
	}
	t.Flush()

	fmt.Fprintln(w)
	row(say("bench.head-boundary"), say("bench.head-blanks"), say("bench.head-dark"), say("bench.head-dark-full"),
		say("bench.head-dark-slow"), say("bench.head-overlap"))
	for _, b := range r.Boundaries {
		dark, full, slow, overlap := say("bench.none"), say("bench.none"), say("bench.none"), say("bench.none")
		if b.DarkM > 0 {
			dark, full, slow = figure(b.DarkM, 3), figure(b.DarkS, 2), figure(b.DarkSlowS, 2)
		}
		if b.OverlapM > 0 {
			overlap = figure(b.OverlapM, 3)
		}
		row(say("bench.boundary", "below", b.Below, "above", b.Above), strconv.Itoa(b.BlankTerminals), dark, full, slow, overlap)
	}
	t.Flush()

	fmt.Fprintln(w)
	row(say("bench.head-lamp"), say("bench.head-lit"), say("bench.head-lit-full"))
	for _, l := range r.Lamps {
		row(l.Floor, figure(l.LitM, 3), figure(l.LitS, 2))
	}
	t.Flush()

	if len(r.Notes) > 0 {
		fmt.Fprintln(w)
	}
	for _, n := range r.Notes {
		fmt.Fprintln(w, text(n))
	}
	fmt.Fprintln(w)
	line("bench.lamps-take", "rise-least", milliseconds(lamp.Quick.RiseS), "rise-most", milliseconds(lamp.Slow.RiseS),
		"fall-least", milliseconds(lamp.Quick.FallS), "fall-most", milliseconds(lamp.Slow.FallS))
	line("bench.caution")
	return nil
}

// WriteAdvice writes an advice in words: the argument, then each proposal.
func WriteAdvice(w io.Writer, a Advice, text func(phrase.Phrase) string) error {
	for _, s := range a.Argument {
		fmt.Fprintln(w, text(s))
	}
	for _, p := range a.Proposals {
		fmt.Fprintln(w)
		for _, s := range p.Says {
			fmt.Fprintln(w, text(s))
		}
	}
	return nil
}
