// Package winding is moving a car by hand: what the handwheel asks of the
// hand, what the load does when the brake is opened, and the procedure in the
// one order in which it is done.
//
// SI units; torques at the handwheel raise the car when positive. It is a
// teaching model of a procedure and stands for nobody's instructions.
package winding

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
)

// RimM is the radius at which a hand holds the wheel where nothing better is
// known, metres: common practice, no source.
const RimM = 0.25

// EffortN is the effort at a smooth wheel that is not to be exceeded by hand
// (EN 81-1 12.5; value from memory: check the standard that applies).
const EffortN = 400.0

// Figures are what hand-winding comes to on one machine with one load.
type Figures struct {
	LoadKG       float64
	CarM         float64
	PerTurnM     float64   // car travel for one turn of the handwheel
	TurnsPerFlr  []float64 // from each landing to the next
	RadiusM      float64   // at which the hand holds
	UpN, DownN   float64   // effort at the rim; below zero the car goes by itself and must be held back with as much
	Drift        int8      // +1 up, −1 down, 0 it stays: the brake open, no hand on the wheel
	StaysFromKG  float64   // loads between which the car stays by itself; both 0 where there are none
	StaysToKG    float64
	SelfLocking  bool
	HeavyN       float64 // the greatest effort, empty to rated load, either way
	HeavyLoadKG  float64
	HeavyUp      bool
	WithinEffort bool // HeavyN is no more than EffortN
}

// Of works out the figures for a load with the car at a height; radiusM is
// where the hand holds the wheel, 0 for RimOf.
func Of(p *building.Plan, loadKG, carM, radiusM float64) Figures {
	t := drive.NewTrain(p)
	if radiusM == 0 {
		radiusM = RimOf(p)
	}
	f := Figures{
		LoadKG: loadKG, CarM: carM, RadiusM: radiusM,
		PerTurnM: 2 * math.Pi * t.MetresPerRad(),
		UpN:      t.HandNM(loadKG, 1, carM) / radiusM, DownN: t.HandNM(loadKG, -1, carM) / radiusM,
		Drift:       t.Drift(loadKG, carM),
		SelfLocking: drive.ReverseEfficiency(p.Machine.GearEfficiency) <= 0,
	}
	for i := 1; i < len(p.Floors); i++ {
		f.TurnsPerFlr = append(f.TurnsPerFlr, (p.Floors[i].HeightM-p.Floors[i-1].HeightM)/f.PerTurnM)
	}
	f.StaysFromKG, f.StaysToKG = stays(&t, p.Lift.RatedLoadKG, carM)
	for _, e := range Efforts(p, carM, radiusM) {
		for i, n := range []float64{e.UpN, e.DownN} {
			if n > f.HeavyN {
				f.HeavyN, f.HeavyLoadKG, f.HeavyUp = n, e.LoadKG, i == 0
			}
		}
	}
	f.WithinEffort = f.HeavyN <= EffortN
	return f
}

// RimOf returns the radius at which a hand holds the plan's handwheel, metres:
// the outer edge of its rim where the file gives it, RimM otherwise.
func RimOf(p *building.Plan) float64 {
	if w, given := p.Machine.Handwheel.Wheel(); given {
		return w.RimOuterM / 2
	}
	return RimM
}

// stays returns the loads between which a car with its brake open stays by
// itself, up to drive.MostLoad.
func stays(t *drive.Train, ratedKG, carM float64) (from, to float64) {
	most := drive.MostLoad * ratedKG
	edge := func(still func(kg float64) bool, lo, hi float64) float64 {
		for range 50 {
			if mid := (lo + hi) / 2; still(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		return hi
	}
	if t.Drift(most, carM) <= 0 && t.Drift(0, carM) >= 0 {
		from, to = 0, most
		if t.Drift(0, carM) > 0 {
			from = edge(func(kg float64) bool { return t.Drift(kg, carM) <= 0 }, 0, most)
		}
		if t.Drift(most, carM) < 0 {
			to = edge(func(kg float64) bool { return t.Drift(kg, carM) < 0 }, 0, most)
		}
		if to > from {
			return from, to
		}
	}
	return 0, 0
}

// An Effort is what one load asks at the rim, newtons; below zero the load
// turns the wheel by itself.
type Effort struct{ LoadKG, UpN, DownN float64 }

// Efforts lists the effort against the load, empty to drive.MostLoad.
func Efforts(p *building.Plan, carM, radiusM float64) []Effort {
	t := drive.NewTrain(p)
	var out []Effort
	const steps = 44
	for i := range steps + 1 {
		kg := drive.MostLoad * p.Lift.RatedLoadKG * float64(i) / steps
		out = append(out, Effort{kg, t.HandNM(kg, 1, carM) / radiusM, t.HandNM(kg, -1, carM) / radiusM})
	}
	return out
}
