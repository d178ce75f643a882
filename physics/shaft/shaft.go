// Package shaft is what is fixed beside the car's way: the level vanes of the
// landings and, near each end, the terminal slow-down switch, the stop limit
// and the final limit.
//
// Heights are metres of the car above the lowest landing, up positive. Each
// thing is a selector.Span: the heights over which the car operates it.
// Whether an operated switch opens or closes a contact is the circuit's
// business. No hysteresis: a vane is read without touch, and a limit is passed
// in earnest or not at all. Buffers and the pit are left out.
package shaft

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/selector"
)

// A Shaft is everything fixed beside the car's way. It does not change once made.
type Shaft struct {
	landingsM []float64
	vaneHalfM float64
	stopM     float64
	finalM    float64
	slowUpM   float64 // before the highest landing
	slowDownM float64 // before the lowest
}

// New fixes the switches of a plan with at least two landings.
//
// A terminal slow-down acts half an advance contact later than the floor's own
// advance contact makes: late enough that the advance has already slowed the
// car on every normal trip, early enough that the car is still slowed within
// the travel for which that contact would have been made.
func New(p *building.Plan) *Shaft {
	if len(p.Floors) < 2 {
		panic("shaft: a plan needs two landings")
	}
	late := p.Selector.AdvanceContactM / 2
	s := &Shaft{
		vaneHalfM: p.Shaft.VaneHalfM,
		stopM:     p.Shaft.StopLimitM,
		finalM:    p.Shaft.FinalLimitM,
		slowUpM:   p.Selector.AdvanceUpM - late,
		slowDownM: p.Selector.AdvanceDownM - late,
	}
	for _, f := range p.Floors {
		s.landingsM = append(s.landingsM, f.HeightM)
	}
	return s
}

// Vane returns the heights over which the vane of floor f is in the level
// switch of the car.
func (s *Shaft) Vane(f int) selector.Span {
	return selector.Between(s.landingsM[f]-s.vaneHalfM, s.landingsM[f]+s.vaneHalfM)
}

// SlowDownTop returns the heights over which the upper slow-down switch is
// operated: from a little inside the highest landing's advance without end. It
// must count for the upward direction only, or the car could not leave fast.
func (s *Shaft) SlowDownTop() selector.Span { return s.over(-s.slowUpM) }

// SlowDownBottom is the mirror image of SlowDownTop at the lowest landing.
func (s *Shaft) SlowDownBottom() selector.Span { return s.under(-s.slowDownM) }

// StopLimitTop returns the heights over which the upper stop limit is
// operated, which cuts off the up direction; down is left free.
func (s *Shaft) StopLimitTop() selector.Span { return s.over(s.stopM) }

// StopLimitBottom is the mirror image of StopLimitTop.
func (s *Shaft) StopLimitBottom() selector.Span { return s.under(s.stopM) }

// FinalLimitTop returns the heights over which the upper final limit is
// operated, which cuts the safety line and so both directions.
func (s *Shaft) FinalLimitTop() selector.Span { return s.over(s.finalM) }

// FinalLimitBottom is the mirror image of FinalLimitTop.
func (s *Shaft) FinalLimitBottom() selector.Span { return s.under(s.finalM) }

// over is everything from so far beyond the highest landing upward: the cam
// holds the switch as far as a car can go.
func (s *Shaft) over(beyond float64) selector.Span {
	return selector.Between(s.landingsM[len(s.landingsM)-1]+beyond, math.Inf(1))
}

// under is everything from so far beyond the lowest landing downward.
func (s *Shaft) under(beyond float64) selector.Span {
	return selector.Between(math.Inf(-1), s.landingsM[0]-beyond)
}
