package winding

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/lift"
)

func house() building.Plan { return building.Evenly("test", 5, 3.2) }

func TestTurns(t *testing.T) {
	p := house()
	f := Of(&p, 150, 6.4, 0)
	// One turn of the handwheel is π·0.55 m / 41 of car.
	assert.InDelta(t, math.Pi*0.55/41, f.PerTurnM, 1e-12)
	require.Len(t, f.TurnsPerFlr, 4)
	assert.InDelta(t, 3.2/(math.Pi*0.55/41), f.TurnsPerFlr[0], 1e-9)
	p.Machine.Roping = 2
	assert.InDelta(t, f.PerTurnM/2, Of(&p, 150, 6.4, 0).PerTurnM, 1e-12)
}

func TestEffortAndDriftAgree(t *testing.T) {
	p := house()
	p.Lift.RopeKGPerM = 2
	for _, car := range []float64{0, 6.4, 12.8} {
		for _, kg := range []float64{0, 100, 200, 283.5, 350, 450, 630} {
			f := Of(&p, kg, car, 0)
			switch f.Drift {
			case 1:
				assert.Negative(t, f.UpN)
				assert.Positive(t, f.DownN)
			case -1:
				assert.Positive(t, f.UpN)
				assert.Negative(t, f.DownN)
			default:
				assert.True(t, f.UpN >= 0 && f.DownN >= 0)
			}
			inside := kg >= f.StaysFromKG && kg <= f.StaysToKG
			assert.Equal(t, f.Drift == 0, inside, "%v kg at %v m: %v to %v", kg, car, f.StaysFromKG, f.StaysToKG)
			// A larger wheel asks less of the hand.
			assert.InDelta(t, f.UpN/2, Of(&p, kg, car, 2*RimM).UpN, 1e-9)
		}
	}
	// The balanced load lies among those with which the car stays.
	f := Of(&p, 0, 6.4, 0)
	assert.Less(t, f.StaysFromKG, 0.45*630)
	assert.Greater(t, f.StaysToKG, 0.45*630)
}

func TestSelfLockingGear(t *testing.T) {
	p := house()
	p.Machine.GearEfficiency = 0.45
	f := Of(&p, 0, 6.4, 0)
	assert.True(t, f.SelfLocking)
	assert.Equal(t, int8(0), f.Drift)
	assert.InDelta(t, drive.MostLoad*630, f.StaysToKG-f.StaysFromKG, 1e-9)
	assert.Zero(t, Release(&p, 0, 6.4).Drift)
}

func TestRunaway(t *testing.T) {
	p := building.Evenly("tall", 9, 3.2)
	for _, k := range []struct {
		kg, car float64
		drift   int8
	}{{0, 0, 1}, {693, 25.6, -1}} {
		r := Release(&p, k.kg, k.car)
		require.Equal(t, k.drift, r.Drift)
		assert.IsIncreasing(t, r.SpeedMS[4:], "once the shoes are off")
		assert.Greater(t, r.At(3), 2.8*r.At(1), "it gains speed steadily")
		// ½·speed·time is the way of a steady acceleration.
		i := int(3 / r.SampleS)
		assert.InEpsilon(t, 0.5*r.At(3)*3, r.WayM[i], 0.05)
		assert.True(t, r.ShortWayM > 0 && r.ShortWayM < 0.3, "%v", r.ShortWayM)
		assert.InDelta(t, p.TravelM(), r.WayM[len(r.WayM)-1], 0.1)
		assert.Equal(t, r.EndMS, r.SpeedMS[len(r.SpeedMS)-1])
		assert.Less(t, r.RatedS, r.EndS)
		assert.InDelta(t, p.Machine.RatedSpeedMS, r.At(r.RatedS), 0.01)
		assert.True(t, math.IsNaN(r.At(r.EndS+1)))
	}
}

// A machine and the view of it, run by hand.
type rig struct {
	t *testing.T
	m *lift.Machine
	v lift.View
	p Procedure
}

func newRig(t *testing.T, loadKG, carM float64) *rig {
	plan := house()
	plan.Lift.LoadKG = loadKG
	m, err := lift.New(&plan, lift.Options{HeightM: &carM})
	require.NoError(t, err)
	r := &rig{t: t, m: m}
	r.wait(0.5)
	return r
}

func (r *rig) wait(s float64) {
	r.m.Advance(s)
	r.m.Look(&r.v)
}

func (r *rig) do(act Act) string { return r.p.Do(r.m, &r.v, act).ID }

func (r *rig) must(steps ...Step) {
	r.t.Helper()
	for _, s := range steps {
		require.Empty(r.t, r.do(Act{Step: s, By: "A"}), "%v", s)
		r.wait(1)
	}
}

func TestProcedureFromBetweenFloorsToTheNextCall(t *testing.T) {
	r := newRig(t, 0, 4.0) // empty, 0.8 m above a landing: the car rises by itself
	r.must(People, Told, Isolated, LockedOff, ProvedDead, DoorsShut, Hands)
	assert.Equal(t, "winding.first", r.do(Act{Step: Level}), "not before it has been moved")
	for range 200 {
		require.Empty(t, r.do(Act{Step: Move, NM: -60}))
		r.wait(0.1)
		require.Equal(t, "winding.brake-open", r.do(Act{Step: Move, NM: -60}), "one movement at a time")
		r.wait(ShortS + 1)
		require.False(t, r.v.Moving, "the brake sets by itself after a short movement")
		if r.v.CarM < 3.21 {
			break
		}
	}
	assert.InDelta(t, 3.2, r.v.CarM, 0.05)
	r.must(Level, BrakeSet, WheelClear, DoorsAgain)
	assert.Equal(t, "winding.not-your-lock", r.do(Act{Step: LockRemoved, By: "B"}))
	assert.Equal(t, "winding.first", r.do(Act{Step: PowerOn}))
	r.must(LockRemoved, PowerOn)
	assert.Equal(t, Step(Steps), r.p.Next)
	assert.Equal(t, "winding.over", r.do(Act{Step: People}))

	// Power is back: it waits for a call, and knows where it is.
	before := r.v.CarM
	r.wait(20)
	assert.Equal(t, before, r.v.CarM)
	r.m.Press(3)
	r.wait(30)
	assert.Equal(t, 3, r.v.AtFloor)
}

// Every step but the next is refused, at every stage, and does nothing.
func TestNoStepOutOfOrder(t *testing.T) {
	r := newRig(t, 0, 6.4)
	for next := People; next < Move; next++ {
		require.Equal(t, next, r.p.Next)
		for s := range Step(Steps) {
			if s == next {
				continue
			}
			before, inputs := r.p, len(r.m.Inputs())
			why := r.do(Act{Step: s, By: "A"})
			assert.NotEmpty(t, why, "%v while %v is next", s, next)
			assert.Equal(t, before, r.p)
			assert.Len(t, r.m.Inputs(), inputs)
		}
		r.must(next)
	}
	assert.Equal(t, "winding.no-such-step", r.do(Act{Step: Step(Steps)}))
}

func TestRefusals(t *testing.T) {
	r := newRig(t, 150, 0)
	r.must(People, Told)
	r.m.Press(4)
	r.wait(3)
	require.True(t, r.v.Moving)
	assert.Equal(t, "winding.car-moving", r.do(Act{Step: Isolated}))
	r.wait(15)
	require.False(t, r.v.Moving)
	require.Positive(t, r.v.DoorOpen)
	require.Empty(t, r.do(Act{Step: Isolated}))
	assert.Equal(t, "winding.whose-lock", r.do(Act{Step: LockedOff}))
	require.Empty(t, r.do(Act{Step: LockedOff, By: "A"}))
	r.m.Look(&r.v)
	assert.Equal(t, "winding.not-dead", r.do(Act{Step: ProvedDead}), "armatures take their time")
	r.wait(1)
	r.must(ProvedDead)
	assert.Equal(t, "winding.doors-open", r.do(Act{Step: DoorsShut}))

	// Between floors nobody gets out.
	r = newRig(t, 0, 1.6)
	r.must(People, Told, Isolated, LockedOff, ProvedDead, DoorsShut, Hands)
	require.Empty(t, r.do(Act{Step: Move, ForS: 0.2}))
	assert.Equal(t, "winding.brake-open", r.do(Act{Step: Level}))
	r.wait(2)
	assert.Equal(t, "winding.not-level", r.do(Act{Step: Level}))
}

func TestLines(t *testing.T) {
	var p Procedure
	lines := p.Lines()
	require.Len(t, lines, Steps)
	for i, l := range lines {
		assert.Equal(t, i == 0, l.Now)
		assert.False(t, l.Done)
		assert.Equal(t, Step(i), l.Step)
		step, known := StepOf(l.Step.String())
		assert.True(t, known && step == l.Step)
	}
	p = Procedure{Next: Move, Moves: 1}
	lines = p.Lines()
	assert.True(t, lines[Hands].Done && lines[Move].Now && lines[Level].Now && !lines[BrakeSet].Now)
	assert.GreaterOrEqual(t, len(Cautions()), 10)
}
