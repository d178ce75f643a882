package selector

import "math"

// rampLaw is the law of every flank: the least acceleration of the three laws
// without a jump.
const rampLaw = Polynomial

// flankShare is the length of a rise or fall as a part of the travel for which
// the advance contact is made. The flank reaches half its length beyond each
// end of that travel and half within, so anything up to 1 leaves a dwell; four
// fifths is as gentle a flank as keeps a level top a workman can measure.
const flankShare = 0.8

// flankSteps is how many straight pieces draw one flank.
const flankSteps = 12

// A ramp is the profile that one track of the wheel's rim shows to a roller:
// rise, dwell, fall. Its contact makes while the lever goes up through the
// make lift and breaks while it comes down through the lower break lift.
type ramp struct {
	centreM     float64 // car height, from the landing, with the roller on the ramp's middle
	contactM    float64 // car travel for which the contact is made, either way
	flankM      float64 // car travel of the rise, and of the fall
	hysteresisM float64 // car travel between making and breaking on one flank
}

// lift returns the roller's lift, 0..1, with the car x metres above the landing.
func (r ramp) lift(x float64) float64 {
	beyond := math.Abs(x-r.centreM) - r.contactM/2 // half-way up the flank it is 0
	return rampLaw.At(0.5 - beyond/r.flankM).Lift
}

// makeLift and breakLift are half a hysteresis inward and outward of the
// half-way point of the flank.
func (r ramp) makeLift() float64  { return rampLaw.At(0.5 + r.hysteresisM/2/r.flankM).Lift }
func (r ramp) breakLift() float64 { return rampLaw.At(0.5 - r.hysteresisM/2/r.flankM).Lift }

// span returns the contact's span for a landing at y.
func (r ramp) span(y float64) Span { return About(y+r.centreM, r.contactM, r.hysteresisM) }

// lengthM returns the car travel for which the roller is off the plain rim.
func (r ramp) lengthM() float64 { return r.contactM + r.flankM }

// A ProfilePoint is one point of a ramp as drawn.
type ProfilePoint struct {
	TravelM  float64 // car height from the landing at which the roller stands here
	AngleRad float64 // place on the wheel, clockwise from the middle of the centre ramp
	Lift     float64 // 0 the plain rim, 1 the full lift
}

// profile returns the points from the lowest car height up.
func (r ramp) profile(radPerM float64) []ProfilePoint {
	points := make([]ProfilePoint, 0, 2*(flankSteps+1))
	add := func(x, lift float64) {
		// What the car has still to climb to the landing lies clockwise on the wheel.
		points = append(points, ProfilePoint{TravelM: x, AngleRad: -x * radPerM, Lift: lift})
	}
	foot, top := r.lengthM()/2, (r.contactM-r.flankM)/2
	for i := 0; i <= flankSteps; i++ {
		u := float64(i) / flankSteps
		add(r.centreM-foot+float64(u*r.flankM), rampLaw.At(u).Lift)
	}
	for i := 0; i <= flankSteps; i++ {
		u := float64(i) / flankSteps
		add(r.centreM+top+float64(u*r.flankM), rampLaw.At(1-u).Lift)
	}
	return points
}
