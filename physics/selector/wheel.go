package selector

import (
	"math"

	"wheelroom/physics/building"
)

// Sizes of the wheel itself: common practice, no source. The plan gives car
// travel only; these turn it into millimetres of metal.
const (
	NominalRadiusM = 0.30 // of the rim, on which the ramps sit
	NominalRingM   = 0.18 // radius of the ring of terminals
	LeastDrawnMM   = 4.0  // a ramp shorter than this at the rim is drawn enlarged
)

// A Track is one of the three paths of ramps round the rim.
type Track uint8

// The tracks: the car's own place, and the ramps that lead it upward and
// downward by the advance.
const (
	CentreTrack Track = iota
	AdvanceUpTrack
	AdvanceDownTrack
)

// String returns the word of the track.
func (t Track) String() string {
	return [...]string{"centre", "advance up", "advance down"}[t]
}

// A Wheel is the selector wheel with its ramps and the crossover of its
// direction track, and the floors' stations round it. It does not change once
// made.
type Wheel struct {
	landingsM      []float64
	radPerM        float64
	crossoverHalfM float64
	ramps          [3]ramp
	names          []string
}

// NewWheel builds the wheel of a plan; Problems says what would not work. It
// panics on a plan without travel.
//
// Each contact is made for its nominal travel in either direction. That of the
// centre lies evenly about the landing. That of an advance starts exactly the
// advance before the landing in the direction that counts, and lags by the
// hysteresis in the other.
func NewWheel(p *building.Plan) *Wheel {
	sel := &p.Selector
	w := &Wheel{radPerM: radPerM(p), crossoverHalfM: sel.CrossoverHalfM}
	for _, f := range p.Floors {
		w.landingsM = append(w.landingsM, f.HeightM)
		w.names = append(w.names, f.Name)
	}
	flank, hyst, short := flankShare*sel.AdvanceContactM, sel.RollerHysteresisM, sel.AdvanceContactM
	half := (short - hyst) / 2
	w.ramps = [...]ramp{
		CentreTrack:      {0, 2 * sel.ZoneHalfM, flank, hyst},
		AdvanceUpTrack:   {half - sel.AdvanceUpM, short, flank, hyst},
		AdvanceDownTrack: {sel.AdvanceDownM - half, short, flank, hyst},
	}
	return w
}

// RadPerM returns how far the wheel turns for one metre of car, radians.
func (w *Wheel) RadPerM() float64 { return w.radPerM }

// Angle returns how far the wheel has turned with the car at y, radians,
// clockwise; 0 at the lowest landing.
func (w *Wheel) Angle(y float64) float64 { return y * w.radPerM }

// StationRad returns where the station of floor f stands round the rim,
// radians, clockwise from that of the lowest landing. The middle of the
// centre ramp is there when the car is level with f.
func (w *Wheel) StationRad(f int) float64 { return w.landingsM[f] * w.radPerM }

// Centre returns the span of floor f's centre contact.
func (w *Wheel) Centre(f int) Span { return w.ramps[CentreTrack].span(w.landingsM[f]) }

// AdvanceUp returns the span of the contact that slows a rising car for floor f.
func (w *Wheel) AdvanceUp(f int) Span { return w.ramps[AdvanceUpTrack].span(w.landingsM[f]) }

// AdvanceDown returns the span of the contact that slows a sinking car for floor f.
func (w *Wheel) AdvanceDown(f int) Span { return w.ramps[AdvanceDownTrack].span(w.landingsM[f]) }

// Crossover returns the car heights between which the direction switch of
// floor f stands between its contacts. Below lo it stands at "above", over hi
// at "below"; being bistable and thrown by nothing else, it needs no history.
func (w *Wheel) Crossover(f int) (loM, hiM float64) {
	y := w.landingsM[f]
	return y - w.crossoverHalfM, y + w.crossoverHalfM
}

// Roll returns how far the ramp of a track lifts the roller of floor f with
// the car at y: 0 on the plain rim, 1 on the dwell.
func (w *Wheel) Roll(track Track, f int, y float64) float64 {
	return w.ramps[track].lift(y - w.landingsM[f])
}

// Thresholds returns the lifts at which a roller's contact makes, the lever
// going up, and breaks, the lever coming down.
func (w *Wheel) Thresholds() (makeLift, breakLift float64) {
	r := w.ramps[CentreTrack] // all three have the same flanks
	return r.makeLift(), r.breakLift()
}

// Profile returns the ramp of a track as drawn: rise, dwell and fall, from the
// lowest car height to the highest.
func (w *Wheel) Profile(track Track) []ProfilePoint { return w.ramps[track].profile(w.radPerM) }

// RampM returns the car travel over which the ramp of a track lifts a roller,
// metres, rise and fall included.
func (w *Wheel) RampM(track Track) float64 { return w.ramps[track].lengthM() }

// RimMM returns how long a piece of car travel is round a rim of that radius,
// millimetres. A drawing asks it whether a ramp would be too short to see.
func (w *Wheel) RimMM(travelM, radiusM float64) float64 {
	return math.Abs(travelM) * w.radPerM * radiusM * 1000
}
