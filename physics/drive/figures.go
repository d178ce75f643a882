package drive

import (
	"math"
	"slices"
)

// ComfortHz is the corner of the low-pass through which acceleration goes
// before jerk is read from it: a person does not feel what is faster
// (ISO 18738-1; value from memory).
const ComfortHz = 10

// Settled is how near the creeping speed the car must be for its slow-down to
// count as over, as a share of that speed.
const Settled = 0.02

// Figures are what one journey comes to. Speeds and accelerations are counted
// in the direction of travel; a figure the journey never reached is NaN.
type Figures struct {
	PeakSpeedMS   float64
	ToFullS       float64 // contactors in to 98 % of the peak speed
	PeakAccelMS2  float64
	PeakDecelMS2  float64 // up to the brake's set
	StopDecelMS2  float64 // from the brake's set on
	A95MS2        float64 // of acceleration either way while the car moves
	StartJerkMS3  float64 // from contactors in to the advance contact
	ChangeJerkMS3 float64 // from there to the contactors' opening at the vane
	StopJerkMS3   float64 // from there to rest
	SlowDownM     float64 // from the advance contact until the speed has settled
	SlowDownS     float64
	VaneSpeedMS   float64
	StopM         float64 // from the vane's edge to rest
	LevelM        float64 // past the landing positive, short of it negative
	TripS         float64 // contactors in to rest
	IdealS        float64 // for the same distance at the same peaks
	DrawnJ        float64
	ReturnedJ     float64
	RotorHeatJ    float64
	SlowHeatJ     float64 // the share of RotorHeatJ from the advance contact on
	HandwheelJ    float64 // most energy in handwheel and rotor
}

// Figures works out a record's figures. t is the train it was run on.
func (r *Record) Figures(t *Train) Figures {
	m := &r.Marks
	dir := sign(m.ToM - m.FromM)
	jerk := Jerk(r.AccelMS2, r.SampleS)
	late := math.Inf(1)

	f := Figures{
		PeakSpeedMS:   most(r.SpeedMS, dir),
		PeakAccelMS2:  most(r.AccelMS2, dir),
		PeakDecelMS2:  most(r.span(r.AccelMS2, 0, m.SetS), -dir),
		StopDecelMS2:  most(r.span(r.AccelMS2, m.SetS, late), -dir),
		A95MS2:        A95(r.span(r.AccelMS2, m.MoveS, m.RestS)),
		StartJerkMS3:  Peak(r.span(jerk, m.OnS, m.AdvanceS)),
		ChangeJerkMS3: Peak(r.span(jerk, m.AdvanceS, m.OffS)),
		StopJerkMS3:   Peak(r.span(jerk, m.OffS, late)),
		StopM:         dir * (m.RestM - m.VaneM),
		LevelM:        dir * (m.RestM - m.ToM),
		TripS:         m.RestS - m.OnS,
		DrawnJ:        r.End.DrawnJ,
		ReturnedJ:     r.End.ReturnedJ,
		RotorHeatJ:    r.End.RotorHeatJ,
		SlowHeatJ:     r.End.RotorHeatJ - r.Slow.RotorHeatJ,
	}
	f.VaneSpeedMS = dir * at(r.SpeedMS, r.SampleS, m.VaneS)
	f.ToFullS = first(r.SpeedMS, dir, 0.98*f.PeakSpeedMS)*r.SampleS - m.OnS
	f.SlowDownM, f.SlowDownS = r.slowDown(dir, f.VaneSpeedMS)
	f.IdealS = IdealS(dir*(m.RestM-m.FromM), f.PeakSpeedMS, max(f.PeakAccelMS2, f.PeakDecelMS2, f.StopDecelMS2),
		max(f.StartJerkMS3, f.ChangeJerkMS3, f.StopJerkMS3))
	top := State{OmegaRadS: Peak(r.MotorRadS)}
	f.HandwheelJ = t.HandwheelJ(&top)
	return f
}

// slowDown returns travel and time from the advance contact until the speed
// has come, for good, within Settled of the speed at the vane.
func (r *Record) slowDown(dir, creep float64) (m, s float64) {
	mark := &r.Marks
	if math.IsNaN(mark.VaneS) {
		return math.NaN(), math.NaN()
	}
	over := func(i int) float64 { return math.Abs(dir*r.SpeedMS[i]-creep) - Settled*creep }
	for i := int(mark.VaneS / r.SampleS); i > 0 && float64(i)*r.SampleS > mark.AdvanceS; i-- {
		if o := over(i); o > 0 {
			// Between this sample and the next the speed enters the band.
			share := o / (o - over(i+1))
			s = (float64(i) + share) * r.SampleS
			return dir * (at(r.CarM, r.SampleS, s) - mark.AdvanceM), s - mark.AdvanceS
		}
	}
	return 0, 0
}

// span returns the samples from one instant to another; none where an instant
// is NaN.
func (r *Record) span(x []float64, fromS, toS float64) []float64 {
	if math.IsNaN(fromS) || math.IsNaN(toS) {
		return nil
	}
	n := float64(len(x))
	return x[int(min(math.Ceil(fromS/r.SampleS), n)):int(min(math.Floor(toS/r.SampleS)+1, n))]
}

// Peak returns the largest size in x, whatever its sign; NaN for none.
func Peak(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	peak := 0.0
	for _, v := range x {
		peak = max(peak, math.Abs(v))
	}
	return peak
}

// A95 returns the size which 95 % of the samples do not exceed (ISO 18738-1;
// from memory); NaN for none.
func A95(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	size := make([]float64, len(x))
	for i, v := range x {
		size[i] = math.Abs(v)
	}
	slices.Sort(size)
	return size[int(math.Ceil(0.95*float64(len(size))))-1]
}

// LowPass returns evenly spaced samples after a Butterworth low-pass of second
// order, −3 dB at the given frequency, which must lie under half the rate of
// sampling. It has been at its first value for ever before.
func LowPass(x []float64, sampleS, hz float64) []float64 {
	if len(x) == 0 {
		return nil
	}
	// Bilinear transform, its corner set right by k = tan(π·hz·sampleS).
	angle := math.Pi * hz * sampleS
	k := math.Sin(angle) / math.Cos(angle)
	norm := 1 / (1 + math.Sqrt2*k + k*k)
	b := k * k * norm
	a1, a2 := 2*(k*k-1)*norm, (1-math.Sqrt2*k+k*k)*norm
	y := make([]float64, len(x))
	x1, x2, y1, y2 := x[0], x[0], x[0], x[0]
	for i, v := range x {
		y[i] = b*(v+2*x1+x2) - a1*y1 - a2*y2
		x1, x2, y1, y2 = v, x1, y[i], y1
	}
	return y
}

// Jerk returns the change of acceleration, m/s³, as it is felt: after a
// low-pass at ComfortHz.
func Jerk(accel []float64, sampleS float64) []float64 {
	felt := LowPass(accel, sampleS, ComfortHz)
	jerk := make([]float64, len(felt))
	for i := 1; i < len(felt); i++ {
		jerk[i] = (felt[i] - felt[i-1]) / sampleS
	}
	return jerk
}

// StartsPerHour returns how many journeys an hour keep the mean rotor heat at
// a limit in watts.
func StartsPerHour(rotorHeatJ, limitW float64) float64 { return 3600 * limitW / rotorHeatJ }

// at returns x at an instant, a straight line between samples; NaN at NaN.
func at(x []float64, sampleS, timeS float64) float64 {
	if math.IsNaN(timeS) {
		return timeS
	}
	k := timeS / sampleS
	i := min(int(k), len(x)-2)
	return x[i] + (k-float64(i))*(x[i+1]-x[i])
}

// first returns the place, in samples, at which dir·x first reaches a level.
func first(x []float64, dir, level float64) float64 {
	for i := 1; i < len(x); i++ {
		if a, b := dir*x[i-1], dir*x[i]; b >= level {
			return float64(i-1) + (level-a)/(b-a)
		}
	}
	return math.NaN()
}

// most returns the largest of dir·x, or 0 where none is above it; NaN for none.
func most(x []float64, dir float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	top := 0.0
	for _, v := range x {
		top = max(top, dir*v)
	}
	return top
}
