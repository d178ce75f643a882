package lift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// isolate opens or closes the main isolator.
func (r *rig) isolate(state string) { r.do(Isolate, isolator, state, 0) }

func (r *rig) do(kind InputKind, part Part, state string, value float64) {
	r.t.Helper()
	require.Empty(r.t, r.Do(Input{TimeS: r.TimeS(), Kind: kind, Part: part, State: state, Value: value}).ID)
}

func TestIsolatedTheMachineIsDead(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.isolate("open")
	r.Advance(1)
	var v View
	r.Look(&v)
	assert.NotContains(t, v.Relays, true)
	assert.NotContains(t, v.Lamps, true)
	for _, u := range v.Volts[1:] {
		if u > 1 {
			// Only the supply's own node, ahead of the isolator, is live.
			assert.InDelta(t, r.plan.Control.SupplyV, u, 0.01)
		}
	}
	r.call("4")
	r.Advance(30)
	assert.Empty(t, r.stops())
	r.Look(&v)
	assert.False(t, v.Calls[4])

	// Power back: the machine waits for a call, and answers it.
	r.isolate("")
	r.Advance(10)
	assert.Equal(t, "1", r.stops())
	assert.True(t, r.Idle())
	r.call("4")
	r.rest()
	assert.Equal(t, "1 4", r.stops())
}

func TestIsolatedAtSpeedTheBrakeStopsTheCar(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("stop", "-")
	r.Advance(5)
	r.isolate("open")
	r.until("at-rest", "1")
	var v View
	r.Look(&v)
	assert.Zero(t, v.TorqueNM)
	assert.Zero(t, v.BrakeLift)
	assert.Empty(t, r.Stopped())
	r.isolate("")
	r.Advance(10)
	r.Look(&v)
	assert.False(t, v.Moving, "nothing is remembered, so nothing moves")
	r.call("2")
	r.rest()
	assert.Contains(t, r.stops(), "2")
}

func TestDoorsStandStillWithoutPower(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.call("1")
	r.until("door", "open")
	r.Advance(1)
	r.isolate("open")
	r.Advance(0.5)
	var v View
	r.Look(&v)
	half := v.DoorOpen
	assert.True(t, half > 0.2 && half < 0.9)
	r.Advance(20)
	r.Look(&v)
	assert.Equal(t, half, v.DoorOpen)
	r.isolate("")
	r.rest()
	r.Look(&v)
	assert.Zero(t, v.DoorOpen)
}

// Hand-winding: brake eased in short movements, the wheel turned; direction
// switches and ring stay right all the way, with no power.
func TestWheelIsRightAfterHandWinding(t *testing.T) {
	p := tidemill()
	p.Lift.LoadKG = p.Lift.Balance * p.Lift.RatedLoadKG
	r := newRig(t, p, "2")
	r.isolate("open")
	r.Advance(0.5)
	var v View
	for _, hand := range []float64{20, -20} {
		r.do(Wind, handwheel, "", hand)
		for range 60 {
			r.do(EaseBrake, brakeLever, "open", 0)
			r.Advance(0.8)
			r.do(EaseBrake, brakeLever, "", 0)
			r.Advance(0.5)
			r.Look(&v)
			require.False(t, v.Moving)
			for f := range p.Floors {
				lo, hi := r.wheel.Crossover(f)
				want := Between
				if v.CarM < lo {
					want = Above
				} else if v.CarM > hi {
					want = Below
				}
				require.Equal(t, want, v.Direction[f], "floor %d, car at %v", f, v.CarM)
			}
			for k, terminal := range r.ring.Terminals() {
				if terminal.Floor >= 0 {
					require.Equal(t, r.ring.Touch(k).Made(v.CarM), v.Terminal[k], "terminal %d, car at %v", k, v.CarM)
				}
			}
			require.NotContains(t, v.Relays, true)
		}
		r.do(Wind, handwheel, "", 0)
	}
	travelled := v.HandwheelRad
	assert.InDelta(t, p.Floors[2].HeightM+travelled*r.train.MetresPerRad(), v.CarM, 1e-9, "the wheel knows where the car is")
	same(t, r.Machine)
}

// same replays a run and expects the same.
func same(t *testing.T, m *Machine) {
	t.Helper()
	again := m.Replay()
	require.Equal(t, m.Hash(), again.Hash())
	require.Equal(t, m.Events(), again.Events())
}

func TestNothingByHandWithPowerOn(t *testing.T) {
	r := newRig(t, tidemill(), "2")
	do := func(kind InputKind, part Part, state string, value float64) string {
		return r.Do(Input{TimeS: r.TimeS(), Kind: kind, Part: part, State: state, Value: value}).ID
	}
	assert.Equal(t, "input.not-isolated", do(EaseBrake, brakeLever, "open", 0))
	assert.Equal(t, "input.not-isolated", do(Wind, handwheel, "", 10))
	assert.Equal(t, "input.unknown-part", do(Wind, brakeLever, "", 10))
	assert.Equal(t, "input.unknown-state", do(Isolate, isolator, "half", 0))
	assert.Empty(t, do(EaseBrake, brakeLever, "", 0), "letting go is always allowed")
	r.Advance(0.1)
	assert.Empty(t, r.Events(), "and nothing to be told where nothing was held")
	assert.Empty(t, do(Isolate, isolator, "open", 0))
	assert.Empty(t, do(EaseBrake, brakeLever, "open", 0))
	assert.Equal(t, "input.brake-eased", do(Isolate, isolator, "", 0))
	assert.Empty(t, do(EaseBrake, brakeLever, "", 0))
	assert.Empty(t, do(Wind, handwheel, "", 10))
	assert.Equal(t, "input.hand-on-wheel", do(Isolate, isolator, "", 0))
	assert.Empty(t, do(Wind, handwheel, "", 0))
	assert.Empty(t, do(Isolate, isolator, "", 0))
}

// The event that let a hand-wound car set off is the lever's or the hand's.
func TestHandIsTheCause(t *testing.T) {
	p := tidemill()
	p.Lift.LoadKG = 0
	r := newRig(t, p, "2")
	r.isolate("open")
	r.Advance(0.5)
	r.do(EaseBrake, brakeLever, "open", 0)
	off := r.until("at-rest", "0")
	assert.Equal(t, Part(brakeLever), r.Events()[off.Cause].Part)
	r.Advance(0.3)
	r.do(EaseBrake, brakeLever, "", 0)
	rest := r.until("at-rest", "1")
	assert.Equal(t, Part(brakeLever), r.Events()[rest.Cause].Part)
	var v View
	r.Look(&v)
	assert.Greater(t, v.CarM, p.Floors[2].HeightM, "the empty car rises")
}

// Half the step gives the same run.
func TestStepOfTheMassesIsFineEnough(t *testing.T) {
	p := tidemill()
	run := func(stepS float64) *Machine {
		m, err := New(&p, Options{StepS: stepS})
		require.NoError(t, err)
		m.Press(3)
		m.Advance(30)
		return m
	}
	whole, half := run(0), run(GridS/2)
	require.Len(t, half.Events(), len(whole.Events()))
	for i, e := range whole.Events() {
		h := half.Events()[i]
		require.Equal(t, e.Part, h.Part)
		require.InDelta(t, e.TimeS, h.TimeS, 1e-3, "%s %s", e.Part, e.State)
	}
	assert.InDelta(t, whole.drive.CarM, half.drive.CarM, 1e-4)
	assert.NotEqual(t, whole.Hash(), half.Hash(), "they are two different runs")
}
