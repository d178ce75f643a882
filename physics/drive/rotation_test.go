package drive

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Sources: OpenStax, University Physics vol. 1, by example or problem. Its
// worked figures take g as 9.80 m/s².

func TestDiscTurnedAtItsRim(t *testing.T) {
	// Example 10.16: 50 kg, 1.5 m, 250 N: 56.25 kg·m², 6.67 rad/s².
	j := Wheel{DiscKG: 50, DiscDiameterM: 3}.KGM2()
	require.InDelta(t, 56.25, j, 1e-12)
	p := freeShaft(j)
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift = 1
	tr.Step(&s, open(250*1.5), 0.005)
	assert.InDelta(t, 6.67, s.OmegaRadS/0.005, 0.005)
	assert.InDelta(t, 6.67, tr.AccelMS2(&s), 0.005)
}

func TestTorqueOverTurns(t *testing.T) {
	// Example 10.17: 12 N·m, 30 kg·m², 8 turns from rest: 6.3 rad/s.
	p := freeShaft(30)
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift = 1
	spin(&tr, &s, open(12), func(s *State) bool { return s.ShaftRad > 16*math.Pi })
	assert.InDelta(t, 6.3, s.OmegaRadS, 0.05)
	assert.InEpsilon(t, 12*16*math.Pi, s.HandJ, 1e-5)
}

func TestFlywheelBrakedToRest(t *testing.T) {
	// Chapter 10, problem 89: 100 kg·m², 500 rpm to rest in 2 min: −43.6 N·m.
	p := freeShaft(100)
	p.Brake.TorqueNM = 43.6
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.OmegaRadS = 500 * rpm
	got := spin(&tr, &s, Feed{}, tr.AtRest)
	assert.InDelta(t, 120, got, 0.2)
	assert.InEpsilon(t, 100*500*rpm/43.6, got, 1e-6)
	assert.InEpsilon(t, 50*math.Pow(500*rpm, 2), s.BrakeHeatJ, 1e-6)
}

func TestDiscHeldAtItsRim(t *testing.T) {
	// Chapter 10, problem 99: 10 kg, r 0.12 m, 1500 rpm, 4 N at the rim:
	// 888.5 J (with 157.1 rad/s), 294.6 turns.
	p := freeShaft(Wheel{DiscKG: 10, DiscDiameterM: 0.24}.KGM2())
	p.Machine.ShaftFrictionNM = 4 * 0.12
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift, s.OmegaRadS = 1, 1500*rpm
	assert.InDelta(t, 888.5, tr.KineticJ(&s), 0.3)
	spin(&tr, &s, open(0), tr.AtRest)
	assert.InDelta(t, 294.6, s.ShaftRad/(2*math.Pi), 0.1)
}

func TestFlywheelOverFortyTurns(t *testing.T) {
	// Chapter 10, problem 40: 600 to 400 rpm in 40 turns: −4.363 rad/s², 4.80 s.
	p := freeShaft(1)
	p.Machine.ShaftFrictionNM = 4.363
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift, s.OmegaRadS = 1, 600*rpm
	got := spin(&tr, &s, open(0), func(s *State) bool { return s.OmegaRadS < 400*rpm })
	assert.InDelta(t, 4.80, got, 0.005)
	assert.InDelta(t, 40, s.ShaftRad/(2*math.Pi), 0.02)
}

func TestTwoMassesOverAPulley(t *testing.T) {
	// Example 6.5: 2 and 4 kg: 3.27 m/s², 26.1 N.
	p := freeShaft(1e-9)
	p.Lift.CarKG = 2 // balance 0: the counterweight is the car's own mass
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift, s.LoadKG = 1, 2
	tr.Step(&s, open(0), 0.005)
	assert.InDelta(t, -3.27, tr.AccelMS2(&s), 0.005)
	assert.InDelta(t, -3.27*0.005, tr.SpeedMS(&s), 3e-5)
	car, counter := tr.RopeN(&s)
	assert.InDelta(t, 26.1, car, 0.1)
	assert.InDelta(t, 26.1, counter, 0.1)
}

func TestRopeOfAnAcceleratedCar(t *testing.T) {
	// Chapter 6, problem 37: 1700 kg, +1.2 m/s² for 1.5 s, steady 8.5 s,
	// −0.6 m/s² for 3 s: rope 1.87e4, 1.67e4, 1.56e4 N; 19.4 m; ends at rest.
	p := freeShaft(1e-6)
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift, s.LoadKG = 1, 1700
	for _, part := range []struct{ accel, forS, rope float64 }{
		{1.2, 1.5, 1.87e4}, {0, 8.5, 1.67e4}, {-0.6, 3, 1.56e4},
	} {
		tr.run(&s, open(1700*(GravityMS2+part.accel)), part.forS)
		rope, _ := tr.RopeN(&s)
		assert.InEpsilon(t, part.rope, rope, 0.004)
	}
	assert.InDelta(t, 19.4, s.CarM, 0.06)
	assert.InDelta(t, 0, tr.SpeedMS(&s), 1e-6)
}

func TestWorkOfRaising(t *testing.T) {
	// Chapter 7, problem 25: 1500 kg raised 40 m against 100 N of friction:
	// 592 kJ by the rope, −588 kJ by gravity.
	p := freeShaft(1e-6)
	p.Lift.GuideFrictionN = 100
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.BrakeLift, s.LoadKG = 1, 1500
	s.OmegaRadS = 1 // steady from the first
	spin(&tr, &s, open(1500*GravityMS2+100), func(s *State) bool { return s.CarM >= 40 })
	assert.InDelta(t, 592e3, s.HandJ, 500)
	low := State{LoadKG: 1500, OmegaRadS: 1}
	assert.InDelta(t, 588e3, tr.StoredJ(&s)-tr.StoredJ(&low), 500)
	assert.InDelta(t, 4000, s.FrictionJ, 1)
}

func TestPowerOfACounterbalancedLift(t *testing.T) {
	// Chapter 7, problem 74: 2500 kg out of balance raised 35 m in 12 s while
	// 10 000 kg in all come to 4 m/s: 78.1 kW.
	p := freeShaft(1e-6)
	p.Lift.CarKG = 3750
	tr := NewTrain(&p)
	low, high := State{LoadKG: 2500}, State{LoadKG: 2500, CarM: 35, OmegaRadS: 4}
	assert.InDelta(t, 78.1e3, (tr.StoredJ(&high)-tr.StoredJ(&low))/12, 100)
}

func TestReflectedInertia(t *testing.T) {
	// m·r²/n²: 2000 kg on a radius of 0.3 m behind 40:1: 0.1125 kg·m²;
	// 1500 rpm of the motor are 1.178 m/s of the car.
	p := freeShaft(1e-6)
	p.Lift.CarKG = 800
	p.Machine.SheaveDiameterM, p.Machine.GearRatio = 0.6, 40
	tr := NewTrain(&p)
	assert.InDelta(t, 0.1125, tr.InertiaKGM2(400)-1e-6, 1e-9)
	assert.InDelta(t, 1.178, tr.SpeedMS(&State{OmegaRadS: 1500 * rpm}), 0.0005)

	// With two falls the car moves half as far, and its mass counts a quarter.
	p.Machine.Roping = 2
	half := NewTrain(&p)
	assert.InDelta(t, tr.MetresPerRad()/2, half.MetresPerRad(), 1e-15)
	assert.InDelta(t, 0.1125/4, half.InertiaKGM2(400)-1e-6, 1e-9)
}

func TestWheelOfDiscAndRim(t *testing.T) {
	w := Wheel{DiscKG: 12, DiscDiameterM: 0.5, RimKG: 20, RimInnerM: 0.5, RimOuterM: 0.6}
	assert.InDelta(t, 0.375, w.DiscKGM2(), 1e-12)
	// A rim is the disc of its outer diameter without that of its inner one.
	area := 0.3*0.3 - 0.25*0.25
	outer, inner := 20*0.09/area, 20*0.0625/area
	assert.InDelta(t, outer*0.09/2-inner*0.0625/2, w.RimKGM2(), 1e-12)
	assert.InDelta(t, w.DiscKGM2()+w.RimKGM2(), w.KGM2(), 1e-15)
	assert.Zero(t, Wheel{}.KGM2())
}

func TestRopesShiftTheBalance(t *testing.T) {
	for _, roping := range []int{1, 2} {
		p := freeShaft(1)
		p.Machine.Roping = roping
		p.Lift.RopeKGPerM = 3
		tr := NewTrain(&p)
		h, n := p.TravelM(), float64(roping)
		// Hanging ropes: every fall is a uniform chain from the top down.
		hang := func(car float64) float64 {
			down, over := h-car, car
			return -GravityMS2 * 3 * n * (down*down + over*over) / 2
		}
		for _, car := range []float64{0, 4, 8, 13.5, 16} {
			assert.InDelta(t, hang(car)-hang(0), tr.StoredJ(&State{CarM: car}), 1e-9)
			d := 1e-4
			slope := (hang(car+d) - hang(car-d)) / (2 * d) * tr.MetresPerRad()
			assert.InDelta(t, slope, tr.HandNM(0, 1, car), 1e-6, "roping %d, car at %v m", roping, car)
		}
		// A fall to a fixed end stands still, the other runs at twice the speed.
		assert.InDelta(t, 3*h*n*n*math.Pow(tr.MetresPerRad(), 2), tr.InertiaKGM2(0)-1, 1e-12)
	}
}

func TestTraction(t *testing.T) {
	// EN 81-50 5.11: T1/T2 ≤ e^(fα); recomputed: f 0.1 and 180° give 1.3691,
	// 0.2 gives 1.8745.
	assert.InDelta(t, 1.3691, TractionLimit(0.1, math.Pi), 5e-5)
	assert.InDelta(t, 1.8745, TractionLimit(0.2, math.Pi), 5e-5)

	// The pulls are those of the ropes, whichever side is the greater.
	p := house()
	tr := NewTrain(&p)
	for _, k := range []struct{ load, accel float64 }{{0, 0}, {0, -1.2}, {630, 0.8}, {630, -1.2}} {
		s := tr.Start(3)
		s.LoadKG = k.load
		s.OmegaRadS, s.BrakeLift = 1, 1
		s.HandNM = 500 * k.accel
		car, counter := tr.RopeN(&s)
		assert.InDelta(t, max(car/counter, counter/car), tr.PullRatio(k.load, tr.AccelMS2(&s)), 1e-12)
	}
	// At rest and balanced both sides pull alike.
	assert.InDelta(t, 1, tr.PullRatio(p.Lift.Balance*p.Lift.RatedLoadKG, 0), 1e-12)
}
