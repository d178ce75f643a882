package winding

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
)

// A Runaway is what a car does when its brake is held open and nobody holds
// the wheel. Nothing of it can be stopped by hand: it is computed so that it
// need not be tried.
type Runaway struct {
	Drift     int8      // +1 up, −1 down; 0: the car stays, and the rest is empty
	SampleS   float64   // between two samples
	SpeedMS   []float64 // size of it, from the brake's opening on
	WayM      []float64 // gone in the direction of Drift
	RatedS    float64   // rated speed is passed after so long; NaN: not within its way
	EndS      float64   // the end of the way is reached after so long; NaN: not within LongestS
	EndMS     float64   // at that speed
	WheelRPM  float64   // handwheel at the last sample
	ShortWayM float64   // gone when the brake is let go after ShortS, until it holds
}

// LongestS is how long a runaway is followed, seconds.
const LongestS = 60.0

// Release follows the car from rest at a height with a load, brake held open.
func Release(p *building.Plan, loadKG, carM float64) Runaway {
	t := drive.NewTrain(p)
	r := Runaway{Drift: t.Drift(loadKG, carM), SampleS: 0.05, RatedS: math.NaN(), EndS: math.NaN()}
	if r.Drift == 0 {
		return r
	}
	dir := float64(r.Drift)
	s := t.Start(carM)
	s.LoadKG = loadKG
	end := 0.0
	if r.Drift > 0 {
		end = p.TravelM()
	}
	feed := drive.Feed{HeldOpen: true}
	const steps = 10
	for k := 0; ; k++ {
		r.SpeedMS = append(r.SpeedMS, dir*t.SpeedMS(&s))
		r.WayM = append(r.WayM, dir*(s.CarM-carM))
		if dir*(s.CarM-end) >= 0 || float64(k)*r.SampleS >= LongestS {
			break
		}
		for i := range steps {
			before := dir * t.SpeedMS(&s)
			t.Step(&s, feed, r.SampleS/steps)
			if after := dir * t.SpeedMS(&s); math.IsNaN(r.RatedS) && after >= p.Machine.RatedSpeedMS {
				at := float64(k)*r.SampleS + float64(i)*r.SampleS/steps
				r.RatedS = at + r.SampleS/steps*(p.Machine.RatedSpeedMS-before)/(after-before)
			}
		}
	}
	last := len(r.SpeedMS) - 1
	if dir*(s.CarM-end) >= 0 {
		r.EndS, r.EndMS = float64(last)*r.SampleS, r.SpeedMS[last]
	}
	r.WheelRPM = math.Abs(s.OmegaRadS) * 30 / math.Pi
	r.ShortWayM = short(&t, loadKG, carM)
	return r
}

// At returns the speed after a time, m/s; NaN beyond the end of the way.
func (r *Runaway) At(timeS float64) float64 {
	k := timeS / r.SampleS
	i := int(k + 1e-9)
	if !(k >= 0) || i >= len(r.SpeedMS) {
		return math.NaN()
	}
	if i == len(r.SpeedMS)-1 {
		return r.SpeedMS[i]
	}
	return r.SpeedMS[i] + (k-float64(i))*(r.SpeedMS[i+1]-r.SpeedMS[i])
}

// short is how far the car goes in one short movement, nobody at the wheel.
func short(t *drive.Train, loadKG, carM float64) float64 {
	s := t.Start(carM)
	s.LoadKG = loadKG
	for range int(ShortS / drive.SampleS) {
		t.Step(&s, drive.Feed{HeldOpen: true}, drive.SampleS)
	}
	const longest = 30.0
	for at := 0.0; at < longest && !t.AtRest(&s); at += drive.SampleS {
		t.Step(&s, drive.Feed{}, drive.SampleS)
	}
	return math.Abs(s.CarM - carM)
}
