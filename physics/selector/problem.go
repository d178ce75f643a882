package selector

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

// A Problem is something wrong with a ring or a wheel as planned.
type Problem struct {
	Key   string        // the building file's key that would cure it, "selector.span_deg"
	Grave bool          // it cannot be built; else it works, but badly
	Say   phrase.Phrase // what is wrong, and the number that would cure it
}

// Room one station and one terminal need, so that neighbours do not touch:
// common practice, no source.
const (
	leastStationMM  = 20.0
	leastTerminalMM = 4.0
)

// problems returns what is wrong with the ring of a plan, besides terminals
// wanted twice; shared says that there are some.
func (r *Ring) problems(p *building.Plan, shared bool) []Problem {
	var out []Problem
	sel := &p.Selector
	sum := sel.TerminalWidth + sel.BrushWidth
	deg := r.radPerM * 180 / math.Pi
	turns := float64(float64(len(r.terminals)-1)+sum) * r.pitchM * deg
	if turns >= 360 {
		out = append(out, Problem{Key: "selector.span_deg", Grave: true,
			Say: phrase.Of("ring.no-room", "needed", phrase.Num(ceil(turns, 0), 0),
				"cure", phrase.Num(below(sel.SpanDeg*360/turns), 0))})
	}
	if sum <= 1 {
		out = append(out, Problem{Key: "selector.brush_width",
			Say: phrase.Of("ring.lamp-blinks", "sum", phrase.Num(sum, 2),
				"cure", phrase.Num(floor(1-sel.TerminalWidth, 2)+0.01, 2))})
	}
	if sum >= 2 {
		out = append(out, Problem{Key: "selector.brush_width",
			Say: phrase.Of("ring.never-dark", "sum", phrase.Num(sum, 2),
				"cure", phrase.Num(ceil(2-sel.TerminalWidth, 2)-0.01, 2))})
	}
	// With lamps that do not blink and terminals of their own, a landing can
	// only be dark because no terminal reaches down to it.
	if sum > 1 && !shared && len(sel.Joins) == 0 {
		for f, y := range r.landingsM {
			if !r.Feeds(f, y) {
				out = append(out, Problem{Key: "selector.first_terminal_m",
					Say: phrase.Of("ring.landing-dark-cure", "floor", r.names[f],
						"cure", phrase.Num(-float64(sel.LiveTerminals-1)/2*r.pitchM, 3))})
			}
		}
	}
	if mm := r.pitchM * r.radPerM * NominalRingM * 1000; mm < leastTerminalMM {
		out = append(out, Problem{Key: "selector.terminals_per_floor",
			Say: phrase.Of("ring.crowded", "pitch", phrase.Num(mm, 1),
				"cure", phrase.Num(floor(sel.TerminalsPerFloor*mm/leastTerminalMM, 1), 1))})
	}
	return out
}

// Problems returns what is wrong with the wheel, the graver first.
func (w *Wheel) Problems() []Problem {
	var out []Problem
	top := len(w.landingsM) - 1
	travel := w.landingsM[top]
	deg := w.radPerM * 180 / math.Pi

	// A ramp that leads the car by the advance must not come round to the
	// station at the other end.
	up, down := w.ramps[AdvanceUpTrack], w.ramps[AdvanceDownTrack]
	advance := math.Max(w.landingsM[0]-w.AdvanceUp(0).UpMake, w.AdvanceDown(0).DownMake-w.landingsM[0])
	whole := travel + advance + math.Max(up.lengthM(), down.lengthM())
	if whole*deg >= 360 {
		out = append(out, Problem{Key: "selector.span_deg", Grave: true,
			Say: phrase.Of("wheel.no-room", "needed", phrase.Num(ceil(whole*deg, 0), 0),
				"cure", phrase.Num(below(360*travel/whole), 0))})
	}
	if c := w.ramps[CentreTrack]; c.hysteresisM > c.flankM-1e-9 {
		out = append(out, Problem{Key: "selector.roller_hysteresis_m", Grave: true,
			Say: phrase.Of("wheel.hysteresis-wide", "hysteresis", phrase.Num(c.hysteresisM, 3),
				"flank", phrase.Num(c.flankM, 3))})
	}
	// Inside the crossover no line is fed, so the centre contact must already
	// stand for the floor there.
	if narrow := w.ramps[CentreTrack].contactM/2 - w.ramps[CentreTrack].hysteresisM/2; w.crossoverHalfM > narrow-1e-9 {
		out = append(out, Problem{Key: "selector.crossover_half_m", Grave: true,
			Say: phrase.Of("wheel.crossover-wide", "crossover", phrase.Num(w.crossoverHalfM, 3),
				"zone", phrase.Num(narrow, 3))})
	}
	if deg > MostDegPerM*(1+1e-9) {
		out = append(out, Problem{Key: "selector.span_deg",
			Say: phrase.Of("wheel.span-steep", "steepness", phrase.Num(deg, 1),
				"most", MostDegPerM, "cure", phrase.Num(floor(MostDegPerM*travel, 0), 0))})
	}
	for f := 1; f <= top; f++ {
		mm := w.RimMM(w.landingsM[f]-w.landingsM[f-1], NominalRadiusM)
		if mm < leastStationMM {
			out = append(out, Problem{Key: "selector.span_deg",
				Say: phrase.Of("wheel.stations-crowded", "below", w.names[f-1], "above", w.names[f],
					"apart", phrase.Num(mm, 0), "least", phrase.Num(leastStationMM, 0))})
		}
	}
	return out
}

// ceil and floor round a cure to the side that cures, to so many decimals.
func ceil(v float64, decimals int) float64 {
	k := scale(decimals)
	return math.Ceil(float64(v*k)-1e-9) / k
}

func floor(v float64, decimals int) float64 {
	k := scale(decimals)
	return math.Floor(float64(v*k)+1e-9) / k
}

// below returns the largest whole number under v.
func below(v float64) float64 { return math.Ceil(v) - 1 }

func scale(decimals int) float64 {
	k := 1.0
	for range decimals {
		k *= 10
	}
	return k
}
