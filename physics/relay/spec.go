package relay

import (
	"errors"
	"math"
)

// Suppression is what lies across a coil to take its current when the feed is
// broken.
type Suppression uint8

// The kinds of suppression. Resistor and diode follow the order of their cost
// in release time: a plain diode releases slowest.
const (
	None Suppression = iota
	ResistorAcross
	DiodeAcross
	DiodeResistorAcross
)

// String returns the name of the suppression.
func (s Suppression) String() string {
	return [...]string{"none", "resistor", "diode", "diode and resistor"}[s]
}

// A CoilSpec is a relay's electrical make-up. The armature comes in when the
// size of the current reaches PickUpA and goes out when it sinks to DropOutA.
// Its travel takes OperateDelayS or ReleaseDelayS from then on; it gives up
// when the current crosses back before the travel is over.
type CoilSpec struct {
	OhmR, HenryL      float64 // winding
	PickUpA, DropOutA float64 // PickUpA > DropOutA > 0
	SuppressorOhm     float64 // for ResistorAcross and DiodeResistorAcross
	Suppression       Suppression
	OperateDelayS     float64
	ReleaseDelayS     float64
}

func (s CoilSpec) check() error {
	var errs []error
	want := func(ok bool, what string) {
		if !ok {
			errs = append(errs, errors.New(what))
		}
	}
	want(s.OhmR > 0 && !math.IsInf(s.OhmR, 1), "resistance must be more than 0")
	want(s.HenryL > 0 && !math.IsInf(s.HenryL, 1), "inductance must be more than 0")
	want(s.DropOutA > 0 && s.PickUpA > s.DropOutA && !math.IsInf(s.PickUpA, 1),
		"pick-up current must lie above drop-out current, and that above 0")
	want(s.OperateDelayS >= 0 && s.ReleaseDelayS >= 0, "armature delays must not be negative")
	if s.Suppression == ResistorAcross || s.Suppression == DiodeResistorAcross {
		want(s.SuppressorOhm > 0, "suppression wants a resistance of more than 0")
	}
	return errors.Join(errs...)
}

// Shares of the rated current at which the coils of SpecFor act. Pick-up at
// 0.6 operates at 80 % of rated volts with room to spare, and drop-out at
// 0.18 lies above the 5 to 10 % at which a relay must release (the bands of
// IEC 61810-1, value from memory).
const (
	pickUpShare  = 0.6
	dropOutShare = 0.18
)

// Bounds of what SpecFor leaves to the electrical part.
const (
	electricalS    = 0.040 // longest rise by inductance alone; slower relays have a dashpot
	suppressorLow  = 0.5   // of the coil's ohms: less would waste more than two thirds of the power
	suppressorHigh = 5.0   // of the coil's ohms: the voltage at break is this many times the supply
)

// SpecFor returns a coil with resistor suppression which, switched to volts
// by an ideal contact, operates in exactly operateS, and released from there
// by opening it, releases in exactly releaseS. Inductance and suppressor make
// the electrical part,
//
//	operate = L/R ln(1/(1-0.6)),  release = L/(R+Rs) ln(1/0.18),
//
// up to 40 ms; what remains is travel of the armature.
func SpecFor(volts, ohms, operateS, releaseS float64) CoilSpec {
	rise := -math.Log1p(-pickUpShare)
	fall := -math.Log(dropOutShare)

	electrical := math.Min(operateS, electricalS)
	// the quickest suppressor allowed sets how much inductance still lets go in time
	electrical = math.Min(electrical, rise*(1+suppressorHigh)*releaseS/fall)
	henry := ohms * electrical / rise
	suppressor := math.Max(henry*fall/releaseS-ohms, suppressorLow*ohms)

	rated := volts / ohms
	return CoilSpec{
		OhmR:          ohms,
		HenryL:        henry,
		PickUpA:       pickUpShare * rated,
		DropOutA:      dropOutShare * rated,
		Suppression:   ResistorAcross,
		SuppressorOhm: suppressor,
		OperateDelayS: tidy(operateS - electrical),
		ReleaseDelayS: tidy(releaseS - henry*fall/(ohms+suppressor)),
	}
}

// tidy turns the rounding left by a difference of times into no delay at all.
func tidy(s float64) float64 {
	if s < 1e-12 {
		return 0
	}
	return s
}

// Spread scales every time of the relay by f and keeps its thresholds: the
// inductance, which sets the electrical times, and both delays.
func (s CoilSpec) Spread(f float64) CoilSpec {
	s.HenryL *= f
	s.OperateDelayS *= f
	s.ReleaseDelayS *= f
	return s
}
