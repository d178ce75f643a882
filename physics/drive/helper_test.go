package drive

import (
	"math"

	"wheelroom/physics/building"
)

const rpm = 2 * math.Pi / 60

// house returns a building of six storeys with default machinery.
func house() building.Plan { return building.Evenly("test", 6, 3.2) }

// withWheel returns the house with another handwheel, and the advance and vane
// which go with it: 0.50 + 0.50 J m and 27.5 + 16.5 J mm, common practice of
// this model, no source.
func withWheel(kgm2 float64) building.Plan {
	p := house()
	p.Machine.HandwheelKGM2 = kgm2
	p.Selector.AdvanceUpM = 0.50 + 0.50*kgm2
	p.Selector.AdvanceDownM = p.Selector.AdvanceUpM
	p.Shaft.VaneHalfM = (27.5 + 16.5*kgm2) / 1000
	return p
}

// freeShaft returns a plan whose shaft carries nothing but the given inertia:
// no car, no friction, no loss, no lag; one radian moves the car one metre.
func freeShaft(kgm2 float64) building.Plan {
	p := house()
	p.Lift = building.Lift{}
	p.Machine.HandwheelKGM2, p.Machine.RotorKGM2, p.Machine.ShaftFrictionNM = kgm2, 0, 0
	p.Machine.SheaveDiameterM, p.Machine.GearRatio, p.Machine.GearEfficiency = 2, 1, 1
	p.Motor.TorqueLagS, p.Motor.ChangeS = 0, 0
	return p
}

// spin runs under a feed, 5 ms at a time, until a condition holds, and returns
// the seconds, to a microsecond.
func spin(t *Train, s *State, f Feed, until func(*State) bool) float64 {
	elapsed := 0.0
	for {
		n := *s
		if t.Step(&n, f, 0.005); !until(&n) {
			*s, elapsed = n, elapsed+0.005
			if elapsed > 1e4 {
				panic("drive: test never ends")
			}
			continue
		}
		lo, hi := 0.0, 0.005
		for hi-lo > 1e-6 {
			mid := (lo + hi) / 2
			if n = *s; mid > 0 {
				t.Step(&n, f, mid)
			}
			if until(&n) {
				hi = mid
			} else {
				lo = mid
			}
		}
		t.Step(s, f, hi)
		return elapsed + hi
	}
}

// open is a feed with the brake held open and nothing else.
func open(handNM float64) Feed { return Feed{HeldOpen: true, HandNM: handNM} }

// loads are shares of the rated load, empty to 110 %.
var loads = []float64{0, 0.25, 0.45, 0.75, 1, 1.1}

// trips calls f with a trip of so many metres each way at each of the loads.
func trips(p *building.Plan, distM float64, f func(trip Trip, dir float64)) {
	for _, share := range loads {
		load := share * p.Lift.RatedLoadKG
		f(Trip{FromM: 0, ToM: distM, LoadKG: load}, 1)
		f(Trip{FromM: distM, ToM: 0, LoadKG: load}, -1)
	}
}
