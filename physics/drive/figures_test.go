package drive

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// wave returns samples of a sine of so many hertz, two seconds long.
func wave(hz, sampleS float64) []float64 {
	x := make([]float64, int(2/sampleS))
	for i := range x {
		x[i] = math.Sin(2 * math.Pi * hz * float64(i) * sampleS)
	}
	return x
}

func TestLowPass(t *testing.T) {
	// A Butterworth low-pass of second order passes 1/√(1 + (f/fc)⁴); the
	// bilinear transform bends f to tan(πfT)/πT.
	const sampleS = 0.005
	for _, hz := range []float64{1, 5, 10, 20, 40} {
		bend := math.Tan(math.Pi*hz*sampleS) / math.Tan(math.Pi*10*sampleS)
		y := LowPass(wave(hz, sampleS), sampleS, 10)
		assert.InDelta(t, 1/math.Sqrt(1+math.Pow(bend, 4)), Peak(y[len(y)/2:]), 0.005, "%v Hz", hz)
	}
	assert.InDeltaSlice(t, []float64{3, 3, 3}, LowPass([]float64{3, 3, 3}, sampleS, 10), 1e-12)
	assert.Empty(t, LowPass(nil, sampleS, 10))
}

func TestJerk(t *testing.T) {
	// A steady jerk comes through unchanged once the filter has settled, and
	// twice the rate of sampling changes little.
	ramp := make([]float64, 400)
	for i := range ramp {
		ramp[i] = 1.2 * float64(i) * 0.005
	}
	j := Jerk(ramp, 0.005)
	assert.InDelta(t, 1.2, j[399], 1e-9)
	// A step of acceleration has a finite jerk at 10 Hz: the peak of the
	// filter's impulse response, √2·ωc·e^(−π/4)·sin(π/4) = 0.4559·ωc.
	step := make([]float64, 4000)
	for i := 100; i < len(step); i++ {
		step[i] = 1
	}
	assert.InEpsilon(t, math.Exp(-math.Pi/4)*2*math.Pi*10, Peak(Jerk(step, 0.0005)), 0.005)
}

func TestA95(t *testing.T) {
	x := make([]float64, 100)
	for i := range x {
		x[i] = float64(i+1) * float64(1-2*(i%2)) // 1, −2, 3, …
	}
	assert.Equal(t, 95.0, A95(x))
	assert.Equal(t, 100.0, Peak(x))
	assert.Equal(t, 7.0, A95([]float64{7}))
	assert.True(t, math.IsNaN(A95(nil)) && math.IsNaN(Peak(nil)))
}

func TestStartsPerHour(t *testing.T) {
	// 40 kJ a journey at 500 W of mean heat: one every 80 s.
	assert.InDelta(t, 45, StartsPerHour(40e3, 500), 1e-9)
}

func TestFiguresOfAMadeUpRecord(t *testing.T) {
	// 1 m/s² for 1 s, 1 s steady, −0.5 m/s² to 0.5 m/s by 3 s, steady to 4 s,
	// then −1 m/s² to rest at 4.5 s; samples 10 ms apart.
	speed := func(t float64) float64 {
		switch {
		case t < 1:
			return t
		case t < 2:
			return 1
		case t < 3:
			return 1 - 0.5*(t-2)
		case t < 4:
			return 0.5
		}
		return max(0, 0.5-(t-4))
	}
	r := Record{SampleS: 0.01, Marks: Marks{MoveS: 0, AdvanceS: 2, SlowS: 2, VaneS: 3.5, OffS: 3.9, SetS: 3.995, RestS: 4.5,
		FromM: 10, ToM: 7, AdvanceM: 8.5, VaneM: 7.5, RestM: 7.125}}
	car := 10.0
	for i := range 470 {
		at := float64(i) * 0.01
		r.SpeedMS = append(r.SpeedMS, -speed(at))
		r.AccelMS2 = append(r.AccelMS2, -(speed(at+1e-6)-speed(at))/1e-6)
		r.CarM = append(r.CarM, car)
		r.MotorRadS = append(r.MotorRadS, -100*speed(at))
		car -= (speed(at) + speed(at+0.01)) / 2 * 0.01
	}
	p := house()
	tr := NewTrain(&p)
	f := r.Figures(&tr)
	assert.InDelta(t, 1, f.PeakSpeedMS, 1e-9)
	assert.InDelta(t, 0.98, f.ToFullS, 1e-9)
	assert.InDelta(t, 1, f.PeakAccelMS2, 1e-6)
	assert.InDelta(t, 0.5, f.PeakDecelMS2, 1e-6)
	assert.InDelta(t, 1, f.StopDecelMS2, 1e-6)
	assert.InDelta(t, 0.98, f.SlowDownS, 1e-6) // 0.51 m/s at 2.98 s
	assert.InDelta(t, 0.98-0.25*0.98*0.98, f.SlowDownM, 1e-4)
	assert.InDelta(t, 0.5, f.VaneSpeedMS, 1e-9)
	assert.InDelta(t, 0.375, f.StopM, 1e-9)
	assert.InDelta(t, -0.125, f.LevelM, 1e-9)
	assert.InDelta(t, 4.5, f.TripS, 1e-9)
	assert.InDelta(t, 0.5*1.32*1e4, f.HandwheelJ, 1e-6)
}
