package bench

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/lamp"
	"wheelroom/physics/selector"
)

// A Ride is what a passenger sees of the position lamps on one ride without a
// stop, in exact time from the instant at which the car sets off.
type Ride struct {
	From, To int     // floors
	ArriveS  float64 // when the car comes to rest
	FullMS   float64 // speed where the slow-down begins
	Lamps    [][]float64
	carM     []float64
	beforeS  float64 // from the record's first sample to setting off
}

// Take rides from one floor to another with the plan's load; the two must
// differ. Lamps[f] are the instants at which the lamp of floor f is fed and cut
// off in turn, beginning with fed; a lamp fed before the ride begins has been
// for a second. ok is false where the machine does not get there.
func Take(p *building.Plan, ring *selector.Ring, from, to int) (r Ride, ok bool) {
	rec := drive.Try(p, drive.Trip{FromM: p.Floors[from].HeightM, ToM: p.Floors[to].HeightM, LoadKG: p.Lift.LoadKG})
	m := rec.Marks
	if math.IsNaN(m.MoveS) || math.IsNaN(m.RestS) {
		return r, false
	}
	r = Ride{From: from, To: to, ArriveS: m.RestS - m.MoveS, carM: rec.CarM, beforeS: m.MoveS}
	if full := math.Abs(rec.SpeedMS[int(m.AdvanceS/rec.SampleS)]); full > 0 {
		r.FullMS = full
	}
	r.Lamps = make([][]float64, len(p.Floors))
	for f := range p.Floors {
		r.Lamps[f] = r.changes(ring, f)
	}
	return r, true
}

// HeightM returns where the car is at an instant, seconds since it set off.
func (r *Ride) HeightM(timeS float64) float64 {
	k := (timeS + r.beforeS) / drive.SampleS
	switch last := len(r.carM) - 1; {
	case k <= 0:
		return r.carM[0]
	case k >= float64(last):
		return r.carM[last]
	default:
		i := int(k)
		return r.carM[i] + (k-float64(i))*(r.carM[i+1]-r.carM[i])
	}
}

// changes returns when floor f's lamp is fed and cut off.
func (r *Ride) changes(ring *selector.Ring, f int) []float64 {
	const before = -1.0
	var out []float64
	fed := ring.Feeds(f, r.carM[0])
	if fed {
		out = append(out, before)
	}
	for i := 1; i < len(r.carM); i++ {
		if ring.Feeds(f, r.carM[i]) == fed {
			continue
		}
		// The edge lies between two samples, where the car moves evenly.
		lo, hi := 0.0, 1.0
		for range 30 {
			mid := (lo + hi) / 2
			if ring.Feeds(f, r.carM[i-1]+mid*(r.carM[i]-r.carM[i-1])) == fed {
				lo = mid
			} else {
				hi = mid
			}
		}
		out = append(out, (float64(i-1)+hi)*drive.SampleS-r.beforeS)
		fed = !fed
	}
	return out
}

// Brightness returns how bright the lamp of floor f is at an instant, 0 to 1.
func (r *Ride) Brightness(l lamp.Lamp, f int, timeS float64) float64 { return l.At(r.Lamps[f], timeS) }
