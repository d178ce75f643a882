package drive

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSynchronousSpeed(t *testing.T) {
	for _, c := range []struct {
		hz    float64
		poles int
		rpm   float64
	}{
		// Kuphaldt, Lessons in Electric Circuits, vol. AC, AC motors: 120 f/p;
		// 4 poles at 50 Hz printed there, the others computed from it.
		{50, 4, 1500}, {50, 6, 1000}, {50, 16, 375}, {50, 18, 333.333333}, {50, 24, 250}, {60, 4, 1800},
	} {
		assert.InDelta(t, c.rpm, SynchronousRadS(c.hz, c.poles)/rpm, 1e-5, "%v Hz, %d poles", c.hz, c.poles)
	}
}

func TestPlainKloss(t *testing.T) {
	// Kloss 1909: twice full-load torque at breakdown, slip 0.10 there: full
	// load at slip 0.1(2−√3) = 0.026795, 1459.8 rpm with 4 poles at 50 Hz.
	c := newCurve(SynchronousRadS(50, 4), 2, 0.10, 0)
	slip := 0.1 * (2 - math.Sqrt(3))
	assert.InDelta(t, 0.026795, slip, 1e-6)
	assert.InDelta(t, 1, c.at(slip), 1e-12)
	assert.InDelta(t, 2, c.at(0.10), 1e-12)
	assert.InDelta(t, 1, c.torque(1459.8*rpm, 1), 1e-3)
	assert.InDelta(t, c.at(0.05), -c.at(-0.05), 1e-12, "without stator resistance braking equals driving")
}

// chapman is the equivalent circuit of the wound-rotor motor worked in Chapman,
// Electric Machinery Fundamentals: 460 V between lines, 60 Hz, 4 poles, ohms a
// phase referred to the stator.
var chapman = struct{ volt, r1, x1, r2, x2, xm float64 }{266, 0.641, 1.106, 0.332, 0.464, 26.3}

// thevenin returns the stator as the rotor sees it.
func thevenin() (v, r, x float64) {
	m := chapman
	d := m.r1*m.r1 + (m.x1+m.xm)*(m.x1+m.xm)
	v = m.volt * m.xm / math.Sqrt(d)
	r = m.xm * m.xm * m.r1 / d
	x = m.xm * (m.r1*m.r1 + m.x1*(m.x1+m.xm)) / d
	return v, r, x
}

func TestGeneralisedKloss(t *testing.T) {
	v, r, x := thevenin()
	// Values recomputed from the circuit; the book's printed answers are rounded.
	assert.InDelta(t, 255.2, v, 0.05)
	assert.InDelta(t, 0.590, r, 0.0005)
	assert.InDelta(t, 1.075, x, 0.0005)
	m, sync := chapman, SynchronousRadS(60, 4)
	xs := x + m.x2
	breakdown := m.r2 / math.Hypot(r, xs)
	most := 3 * v * v / (2 * sync * (r + math.Hypot(r, xs)))
	require.InDelta(t, 0.2014, breakdown, 5e-5)
	require.InDelta(t, 231.5, most, 0.05)

	c := newCurve(sync, most, breakdown, r/m.r2)
	for _, k := range []struct{ slip, nm float64 }{
		{0.02, 57.76}, {0.05, 125.96}, {0.1, 194.9}, {0.5, 174.6}, {1, 106.9}, {-0.1, -350.4}, {-3, -44.2},
	} {
		circuit := 3 * v * v * m.r2 / k.slip / (sync * (math.Pow(r+m.r2/k.slip, 2) + xs*xs))
		assert.InDelta(t, circuit, c.at(k.slip), 1e-9, "slip %v against the circuit", k.slip)
		assert.InEpsilon(t, k.nm, c.at(k.slip), 2e-3, "slip %v", k.slip)
		assert.InDelta(t, c.at(k.slip), c.torque((1-k.slip)*sync, 1), 1e-9)
		assert.InDelta(t, -c.at(k.slip), c.torque(-(1-k.slip)*sync, -1), 1e-9, "the other way is the mirror image")
	}
	// Braking above synchronous speed is harder than driving below it
	// (induction alternator, Lessons in Electric Circuits, vol. AC).
	assert.Greater(t, -c.at(-0.1), c.at(0.1))
	assert.InEpsilon(t, 231.5, c.most(), 1e-3)
}

func TestSlipFrequency(t *testing.T) {
	// Slip 0.05 at 50 Hz turns the rotor's current at 2.5 Hz (Lessons in
	// Electric Circuits, vol. AC). The rotor's share of the airgap power is
	// the same ratio.
	p := freeShaft(2)
	p.Motor.SlowStatorRatio = 0
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.OmegaRadS = 0.95 * tr.SynchronousRadS(Slow)
	tr.Step(&s, Feed{Winding: Slow, Direction: 1, HeldOpen: true}, 1e-7)
	assert.InDelta(t, 2.5, 50*s.RotorHeatJ/s.DrawnJ, 1e-3)
}

// change returns a plan of 2 kg·m² on a slow winding of 120 N·m at slip 0.3,
// 16 poles, 50 Hz, and the state at a slip of −3.
func change(stator float64) (Train, State) {
	p := freeShaft(2)
	p.Motor.SlowBreakdownNM, p.Motor.SlowBreakdownSlip, p.Motor.SlowStatorRatio = 120, 0.3, stator
	t := NewTrain(&p)
	s := t.Start(0)
	s.BrakeLift = 1
	s.OmegaRadS = 4 * t.SynchronousRadS(Slow)
	return t, s
}

func TestNoLoadChangeOfSpeed(t *testing.T) {
	tr, s := change(0)
	sync := tr.SynchronousRadS(Slow)
	feed := Feed{Winding: Slow, Direction: 1, BrakeCurrent: true}
	got := spin(&tr, &s, feed, func(s *State) bool { return s.OmegaRadS < 1.05*sync })
	// t = (Jωs/2Tb)[(s1²−s2²)/2sb + sb·ln(s1/s2)] with |s| 3 → 0.05, closed form.
	want := 2 * sync / 240 * ((9-0.0025)/0.6 + 0.3*math.Log(60))
	assert.InDelta(t, 5.30934, want, 1e-5)
	assert.InDelta(t, want, got, 2e-5)
}

func TestHeatOfChange(t *testing.T) {
	tr, s := change(0)
	sync := tr.SynchronousRadS(Slow)
	feed := Feed{Winding: Slow, Direction: 1, BrakeCurrent: true}
	spin(&tr, &s, feed, func(s *State) bool { return s.OmegaRadS < 1.05*sync })
	// From a slip of −3 to one of −0.05, by the same formula.
	assert.InDelta(t, 13875.3, s.RotorHeatJ, 0.5)
	assert.InDelta(t, 9098.5, s.ReturnedJ, 0.5)
	spin(&tr, &s, feed, func(s *State) bool { return s.OmegaRadS < (1+1e-7)*sync })
	// ½J[(ωs−ω1)² − (ωs−ω2)²]: of 7.5 units of Jωs² lost from 4:1, 4.5 heat the
	// rotor and 3.0 return (energy balance).
	unit := 2 * sync * sync
	assert.InEpsilon(t, 4.5*unit, s.RotorHeatJ, 1e-6)
	assert.InEpsilon(t, 3.0*unit, s.ReturnedJ, 1e-6)
	assert.Zero(t, s.StatorHeatJ)
}

func TestStatorHeatFollowsRotorHeat(t *testing.T) {
	tr, s := change(0.2)
	feed := Feed{Winding: Slow, Direction: 1, BrakeCurrent: true}
	spin(&tr, &s, feed, func(s *State) bool { return s.OmegaRadS < 1.05*tr.SynchronousRadS(Slow) })
	assert.InEpsilon(t, 0.2*s.RotorHeatJ, s.StatorHeatJ, 1e-9)
}

func TestNoSuchMotor(t *testing.T) {
	p := house()
	p.Motor.SlowBreakdownSlip, p.Motor.SlowStatorRatio = 2, 0.5
	assert.PanicsWithValue(t, "drive: no such motor: breakdown slip times stator ratio must be under 1", func() { NewTrain(&p) })
}

func TestLagAndPause(t *testing.T) {
	p := house()
	tr := NewTrain(&p)
	s := tr.Start(3)
	// Held by the brake, the torque follows its lag alone: 63.2 % after one.
	fast := Feed{Winding: Fast, Direction: 1}
	for range 20 {
		tr.Step(&s, fast, 0.005)
	}
	start := tr.SteadyNM(Fast, 0)
	assert.InEpsilon(t, 1-math.Exp(-1), s.AirgapNM/start, 1e-9)
	assert.True(t, tr.AtRest(&s))

	// The other winding waits for its pause; the same one does not.
	tr.Step(&s, Feed{}, 0.005)
	assert.Zero(t, s.AirgapNM, "no torque without current")
	same := s
	tr.Step(&same, fast, 0.005)
	assert.Positive(t, same.AirgapNM)
	slow := Feed{Winding: Slow, Direction: 1}
	for range 9 { // 5 ms + 9·5 ms = 50 ms
		tr.Step(&s, slow, 0.005)
		assert.Zero(t, s.AirgapNM)
		assert.Equal(t, Off, s.Running)
	}
	tr.Step(&s, slow, 0.004)
	assert.Equal(t, Slow, s.Running)
	assert.InEpsilon(t, tr.SteadyNM(Slow, 0)*(1-math.Exp(-0.04)), s.AirgapNM, 1e-9)

	// The end of the pause is found inside a step.
	s = tr.Start(3)
	tr.Step(&s, fast, 0.005)
	for range 9 {
		tr.Step(&s, slow, 0.005)
	}
	tr.Step(&s, slow, 0.003)
	tr.Step(&s, slow, 0.005) // 2 ms of pause left
	assert.InEpsilon(t, tr.SteadyNM(Slow, 0)*(1-math.Exp(-0.03)), s.AirgapNM, 1e-9)
}

func TestWindingNames(t *testing.T) {
	assert.Equal(t, "off fast slow winding 7", Off.String()+" "+Fast.String()+" "+Slow.String()+" "+Winding(7).String())
}
