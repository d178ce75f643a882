// Package selector is the geometry of the selector wheel: the ring of
// terminals its brush wipes, the ramps on its rim that lift the rollers of the
// floors' stations, and the crossover that throws the direction switches.
//
// Everything follows from one number, the height of the car above the lowest
// landing in metres, up positive. The wheel turns clockwise as the viewer sees
// it while the car goes up; angles are radians, clockwise, 0 at the lowest
// landing. Contacts are given as Spans: the heights at which they make and
// break in either direction.
//
// The package knows no current and no time. It leaves out the lash of the
// tape, the wear of brush and rollers, and the bounce of contacts.
package selector

import (
	"math"

	"wheelroom/physics/building"
)

// MostDegPerM is the steepest gearing worth building, degrees of the wheel to
// one metre of car, and so bounds the span taken by default: up to it a span
// of 270 degrees leaves room for 3 m of advance and ramp. Common practice, no
// source.
const MostDegPerM = 30

// radPerM returns how far the wheel turns for one metre of car, radians.
func radPerM(p *building.Plan) float64 {
	travel := p.TravelM()
	if !(travel > 0) {
		panic("selector: a plan needs two landings, the highest above the lowest")
	}
	return p.Selector.SpanDeg * math.Pi / 180 / travel
}
