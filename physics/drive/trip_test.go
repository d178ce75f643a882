package drive

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// spread runs the trips of a plan and returns the extremes over all of them.
func spread(p *building.Plan, distM float64) (lo, hi, accel, decel float64) {
	tr := NewTrain(p)
	lo, hi = math.Inf(1), math.Inf(-1)
	trips(p, distM, func(trip Trip, _ float64) {
		r := Try(p, trip)
		f := r.Figures(&tr)
		lo, hi = min(lo, f.LevelM), max(hi, f.LevelM)
		accel, decel = max(accel, f.PeakAccelMS2), max(decel, f.PeakDecelMS2)
	})
	return lo, hi, accel, decel
}

func TestDefaultsWorkTogether(t *testing.T) {
	// A prototype of this model gave: levelling −7.6 to +7.0 mm, acceleration to
	// 0.81, deceleration to 1.22 m/s² with the 1.2 kg·m² handwheel, and peak
	// accelerations of 3.6, 2.1, 1.4 and 0.44 m/s² with the others. Levelling
	// within ±25 mm over all loads is common practice, no source.
	for _, c := range []struct{ wheel, accel, accelTol float64 }{
		{0.05, 3.6, 0.05}, {0.3, 2.1, 0.05}, {0.6, 1.4, 0.05}, {1.2, 0.81, 0.005}, {2.4, 0.44, 0.005},
	} {
		p := withWheel(c.wheel)
		for _, dist := range []float64{3, 3.2, 9.6} {
			lo, hi, accel, decel := spread(&p, dist)
			assert.Greater(t, lo, -0.025, "wheel %v", c.wheel)
			assert.Less(t, hi, 0.025, "wheel %v", c.wheel)
			if dist > 9 {
				assert.InDelta(t, c.accel, accel, c.accelTol, "wheel %v", c.wheel)
			}
			if c.wheel == 1.2 {
				assert.InDelta(t, -7.6, lo*1000, 0.7)
				assert.InDelta(t, 7.0, hi*1000, 0.7)
				assert.InDelta(t, 1.22, decel, 0.005)
			}
		}
	}
}

func TestHeavyWheelSmootherAndLonger(t *testing.T) {
	wheels := []float64{0.05, 0.15, 0.3, 0.6, 0.9, 1.2, 1.8, 2.4}
	var before []Figures
	for _, wheel := range wheels {
		p := withWheel(wheel)
		tr := NewTrain(&p)
		var now []Figures
		trips(&p, 12.8, func(trip Trip, _ float64) {
			trip.AdvanceM = 3 // enough for any
			r := Try(&p, trip)
			now = append(now, r.Figures(&tr))
		})
		for i := range before {
			b, n := before[i], now[i]
			assert.Less(t, n.StartJerkMS3, b.StartJerkMS3, "wheel %v, trip %d", wheel, i)
			assert.Less(t, n.ChangeJerkMS3, b.ChangeJerkMS3, "wheel %v, trip %d", wheel, i)
			assert.Less(t, n.StopJerkMS3, b.StopJerkMS3, "wheel %v, trip %d", wheel, i)
			assert.Less(t, n.PeakDecelMS2, b.PeakDecelMS2, "wheel %v, trip %d", wheel, i)
			assert.Greater(t, n.SlowDownM, b.SlowDownM, "wheel %v, trip %d", wheel, i)
			assert.Greater(t, n.ToFullS, b.ToFullS, "wheel %v, trip %d", wheel, i)
			assert.Greater(t, n.StopM, b.StopM, "wheel %v, trip %d", wheel, i)
			assert.Greater(t, n.RotorHeatJ, b.RotorHeatJ, "wheel %v, trip %d", wheel, i)
			assert.Greater(t, n.HandwheelJ, b.HandwheelJ, "wheel %v, trip %d", wheel, i)
		}
		before = now
	}
}

// tolerance is how far a figure may move with the step: 0.1 %, or 0.1 mm,
// 1 ms, 0.001 m/s², whichever is larger.
func tolerance(name string, value float64) float64 {
	floor := 0.0
	switch {
	case strings.HasSuffix(name, "MS2"), strings.HasSuffix(name, "MS"), strings.HasSuffix(name, "S"):
		floor = 0.001
	case strings.HasSuffix(name, "M"):
		floor = 0.0001
	}
	return max(floor, 0.001*math.Abs(value))
}

func TestHalvingTheStepChangesNothing(t *testing.T) {
	for _, wheel := range []float64{0.05, 1.2} {
		p := withWheel(wheel)
		tr := NewTrain(&p)
		trips(&p, 6.4, func(trip Trip, _ float64) {
			var of [3]reflect.Value
			for i, step := range []float64{0.005, 0.0025, 0.0002} {
				trip.StepS = step
				r := Try(&p, trip)
				of[i] = reflect.ValueOf(r.Figures(&tr))
			}
			for i := range of[0].NumField() {
				name, whole := of[0].Type().Field(i).Name, of[0].Field(i).Float()
				require.False(t, math.IsNaN(whole), name)
				assert.InDelta(t, whole, of[1].Field(i).Float(), tolerance(name, whole), "%s, wheel %v, %+v", name, wheel, trip)
				assert.InDelta(t, whole, of[2].Field(i).Float(), tolerance(name, whole), "%s, wheel %v, %+v, fine", name, wheel, trip)
			}
		})
	}
}

func TestMarksInOrder(t *testing.T) {
	p := house()
	r := Try(&p, Trip{FromM: 0, ToM: 6.4, LoadKG: 300})
	m := r.Marks
	assert.IsIncreasing(t, []float64{0, m.LiftS, m.MoveS, m.AdvanceS, m.SlowS, m.VaneS, m.OffS, m.SetS, m.RestS})
	assert.InDelta(t, 0.12, m.LiftS, 1e-9)
	assert.InDelta(t, 5.3, m.AdvanceM, 1e-8)
	assert.InDelta(t, 0.065, m.SlowS-m.AdvanceS, 1e-9)
	assert.InDelta(t, 6.353, m.VaneM, 1e-8)
	assert.InDelta(t, 0.038, m.OffS-m.VaneS, 1e-9)
	assert.InDelta(t, 0.040, m.SetS-m.OffS, 1e-9)
	assert.InDelta(t, r.End.CarM, m.RestM, 1e-12)
	assert.Len(t, r.CarM, len(r.SpeedMS))
	assert.Zero(t, r.SpeedMS[len(r.SpeedMS)-1])
}

func TestMotorTooWeakIsLeft(t *testing.T) {
	p := house()
	p.Motor.FastBreakdownNM = 5
	tr := NewTrain(&p)
	r := Try(&p, Trip{FromM: 3.2, ToM: 9.6, LoadKG: 630})
	assert.True(t, math.IsNaN(r.Marks.AdvanceS))
	assert.Less(t, r.End.CarM, 3.2, "the load runs away downward with the brake open")
	f := r.Figures(&tr)
	assert.True(t, math.IsNaN(f.TripS) && math.IsNaN(f.LevelM) && math.IsNaN(f.ChangeJerkMS3) && math.IsNaN(f.SlowDownM))
	assert.Zero(t, f.PeakSpeedMS)
}
