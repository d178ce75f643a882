package lift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

func TestOneCallAbove(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.call("4")
	r.until("relay.up-line", "1")
	r.until("relay.up", "1")
	assert.False(t, r.in("relay.direction"))
	r.rest()
	assert.Equal(t, "4", r.stops())
	assert.Equal(t, -1, at(r.Events(), 0, "relay.down", "1"))
}

func TestOneCallBelow(t *testing.T) {
	r := newRig(t, tidemill(), "4")
	r.call("1")
	r.until("relay.down-line", "1")
	r.until("relay.direction", "1")
	r.until("relay.down", "1")
	r.rest()
	assert.Equal(t, "1", r.stops())
	assert.Equal(t, -1, at(r.Events(), 0, "relay.up", "1"))
	assert.False(t, r.in("relay.direction"), "with nothing registered the direction relay is out")
}

func TestDirectionIsKeptUntilNoCallIsAhead(t *testing.T) {
	r := newRig(t, tidemill(), "2")
	r.call("4")
	r.until("stop", "-")
	r.call("G", "5", "3")
	r.rest()
	assert.Equal(t, "3 4 5 G", r.stops())
}

func TestDirectionIsKeptGoingDown(t *testing.T) {
	r := newRig(t, tidemill(), "4")
	r.call("3")
	r.until("stop", "-")
	r.call("5", "1", "G")
	r.rest()
	assert.Equal(t, "3 1 G 5", r.stops())
}

func TestDirectionChangesOnlyWhenReady(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.call("3")
	r.until("stop", "-")
	r.call("G")
	r.until("stop", "3")
	before := len(r.Events())
	r.until("relay.direction", "1")
	i := at(r.Events(), before, "relay.direction", "1")
	closed := at(r.Events(), before, "door", "closed")
	locked := at(r.Events(), before, "lock", "1")
	require.True(t, closed >= 0 && locked >= 0)
	assert.Less(t, closed, i, "doors closed first")
	assert.Less(t, locked, i, "landing lock made first")
	r.rest()
	assert.Equal(t, "3 G", r.stops())
}

func TestTwoButtonsAtOnceGiveUp(t *testing.T) {
	p := tidemill()
	for _, spread := range []struct{ lines, direction, start, up float64 }{
		{1, 1, 1, 1}, {0.7, 0.7, 0.7, 0.7}, {1.3, 1.3, 1.3, 1.3},
		{0.7, 1.3, 0.7, 1.3}, {1.3, 0.7, 0.7, 1.3}, {1.3, 0.7, 1.3, 0.7}, {0.7, 1.3, 1.3, 0.7},
	} {
		for _, slower := range []string{"relay.up-line", "relay.down-line"} {
			factors := map[string]float64{"relay.up-line": 2 - spread.lines, "relay.down-line": 2 - spread.lines,
				"relay.direction": spread.direction, "relay.start": spread.start, "relay.up": spread.up, "relay.down": spread.up}
			factors[slower] = spread.lines
			m, err := New(&p, Options{Start: 3, Spread: func(part string) float64 {
				if f, ok := factors[part]; ok {
					return f
				}
				return 1
			}})
			require.NoError(t, err)
			r := &rig{m, t}
			r.call("5", "G")
			r.rest()
			assert.Equal(t, "5 G", r.stops(), "%+v %s", spread, slower)
		}
	}
}

func TestRunningDirectionHoldsWithADeadLine(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("stop", "-")
	r.Advance(2)
	r.mustDo(Input{TimeS: r.TimeS(), Kind: Override, Part: "call.5", State: "coil-open"})
	r.until("relay.up-line", "0")
	r.Advance(0.3)
	assert.True(t, r.in("relay.up"))
	assert.True(t, r.in("relay.up-contactor"))
	r.until("relay.up", "0")
	assert.Greater(t, at(r.Events(), 0, "relay.level", "1"), 0, "it let go at the level vane")
	r.rest()
	assert.Equal(t, "1", r.stops(), "slows for the next floor ahead")
}

func TestInterlocks(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("relay.up", "1")
	r.call("1", "2")
	r.mustDo(Input{TimeS: r.TimeS(), Kind: Override, Part: "relay.down", State: "coil-open"})
	r.rest()
	for _, pair := range [][2]string{{"relay.up", "relay.down"}, {"relay.up-contactor", "relay.down-contactor"}, {"relay.fast", "relay.slow"}} {
		in := map[string]bool{}
		for _, e := range r.Events() {
			if string(e.Part) == pair[0] || string(e.Part) == pair[1] {
				in[string(e.Part)] = e.State == "1"
			}
			assert.False(t, in[pair[0]] && in[pair[1]], "%v at %.3f s", pair, e.TimeS)
		}
	}
}

func TestCallBeforeItsAdvanceContactIsAnswered(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("stop", "-")
	for r.drive.CarM < 10.6-1.1-0.15 {
		r.Step(1)
	}
	r.call("3")
	r.rest()
	assert.Equal(t, "3 5", r.stops())
}

func TestCallAfterItsAdvanceContactIsPassed(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("advance-up.3", "1")
	r.until("advance-up.3", "0")
	r.call("3")
	r.rest()
	assert.Equal(t, "5 3", r.stops())
}

func TestTerminalFloorTakesItsLateCall(t *testing.T) {
	r := newRig(t, tidemill(), "3")
	r.call("4")
	r.until("stop", "4")
	r.call("5")
	r.until("advance-up.5", "0")
	// The call is gone in the last moment before the landing; the ramp near
	// the end slows the car all the same.
	r.call("5")
	r.rest()
	assert.Equal(t, "4 5", r.stops())
}

func TestTerminalSlowDownActsWhateverTheCallsSay(t *testing.T) {
	r := newRig(t, tidemill(), "3")
	r.mustDo(Input{Kind: Override, Part: "advance-up.5", State: "open"})
	r.call("5")
	r.rest()
	assert.Equal(t, "5", r.stops())
	assert.Equal(t, -1, at(r.Events(), 0, "stop-limit-top", "1"))
}

func TestDeadLineSlowsForTheNextFloorAhead(t *testing.T) {
	r := newRig(t, tidemill(), "5")
	r.call("G")
	r.until("advance-down.3", "0")
	r.mustDo(Input{TimeS: r.TimeS(), Kind: Override, Part: "call.G", State: "coil-open"})
	r.rest()
	assert.Equal(t, "2", r.stops())
}

func TestStartAndStopSequence(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("G")
	r.until("door", "open")
	r.Advance(1)
	r.call("2")
	r.rest()
	i := 0
	for _, want := range []struct {
		part  Part
		state string
	}{
		{"call.2", "1"}, {"relay.up-line", "1"}, {"door", "closed"}, {"car-door", "1"}, {"landing-door", "1"},
		{"cam", "1"}, {"lock", "1"}, {"relay.start", "1"}, {"relay.up", "1"}, {"relay.up-contactor", "1"},
		{"relay.brake", "1"}, {"stop", "-"},
		{"advance-up.2", "1"}, {"relay.stop", "1"}, {"relay.fast", "0"}, {"relay.slow", "1"},
		{"vane-switch", "1"}, {"relay.level", "1"}, {"relay.up", "0"}, {"relay.up-contactor", "0"}, {"relay.brake", "0"},
		{"stop", "2"}, {"relay.door", "1"}, {"cam", "0"}, {"lock", "0"}, {"door", "open"},
	} {
		j := at(r.Events(), i, want.part, want.state)
		require.GreaterOrEqual(t, j, 0, "%s %s after %v", want.part, want.state, r.Events()[max(0, i-1)])
		i = j
	}
	cancelled := at(r.Events(), 0, "call.2", "0")
	require.GreaterOrEqual(t, cancelled, 0)
	assert.Greater(t, cancelled, at(r.Events(), 0, "stop", "2"))
	begun := at(r.Events(), 0, "relay.up-line", "1")
	fed := at(r.Events(), begun, "relay.start", "1")
	locked := at(r.Events(), begun, "lock", "1")
	assert.InDelta(t, 0.25, r.Events()[fed].TimeS-r.Events()[locked].TimeS, 0.03, "start delay lets the direction settle")
}

func TestDoorsNeverOpenWhileTheCarMoves(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("1", "3", "5", "2")
	var v View
	for range 8000 {
		r.Advance(0.01)
		r.Look(&v)
		if v.Moving {
			require.Zero(t, v.DoorOpen)
		}
	}
}

func TestCallAtTheCarsOwnFloor(t *testing.T) {
	r := newRig(t, tidemill(), "2")
	r.call("2")
	r.until("door", "open")
	r.until("door-open", "0")
	r.Advance(0.5)
	r.call("2")
	r.until("door-open", "1")
	r.rest()
	assert.Equal(t, -1, at(r.Events(), 0, "stop", "-"), "no motion")
	assert.False(t, r.in("call.2"))
}

func TestSafetyLine(t *testing.T) {
	for _, part := range []Part{"stop-switch", "governor", "safety-gear", "overload"} {
		t.Run(string(part), func(t *testing.T) {
			r := newRig(t, tidemill(), "1")
			r.call("5")
			r.until("stop", "-")
			r.Advance(3)
			r.mustDo(Input{TimeS: r.TimeS(), Kind: Switch, Part: part, State: "open"})
			r.until("at-rest", "1")
			r.Advance(5)
			var v View
			r.Look(&v)
			assert.Equal(t, -1, v.AtFloor, "between floors")
			assert.False(t, v.Moving)
			for _, relay := range []string{"relay.safety", "relay.up", "relay.up-contactor", "relay.fast", "relay.slow", "relay.brake"} {
				assert.False(t, r.in(relay), relay)
			}
			assert.True(t, r.in("call.5"), "the call is not lost")
			assert.Zero(t, v.DoorOpen)
			r.call("1", "2")
			r.mustDo(Input{TimeS: r.TimeS(), Kind: Switch, Part: part})
			r.rest()
			assert.Contains(t, []string{"5 2 1", "2 5 1"}, r.stops())
		})
	}
}

func TestNothingRunsWithALandingLockOpen(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.mustDo(Input{Kind: Override, Part: "lock", State: "open"})
	r.call("4")
	r.Advance(20)
	assert.True(t, r.in("call.4"))
	assert.Equal(t, -1, at(r.Events(), 0, "relay.start", "1"))
	r.mustDo(Input{Kind: Override, Part: "lock"})
	r.rest()
	assert.Equal(t, "4", r.stops())
}

func TestEveryFloorOfTheShippedHeightsLevels(t *testing.T) {
	p := building.Evenly("test", 4, 3.2)
	for start := range p.Floors {
		for to := range p.Floors {
			if to == start {
				continue
			}
			m, err := New(&p, Options{Start: start})
			require.NoError(t, err)
			r := &rig{m, t}
			m.Press(to)
			r.rest()
			// Common practice, no source: open-loop two-speed lifts level within ±25 mm.
			assert.InDelta(t, p.Floors[to].HeightM, r.drive.CarM, 0.025)
		}
	}
}
