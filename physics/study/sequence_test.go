package study

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// order tells that the parts named come in this order in the links, each with
// an earlier cause where it has one.
func order(t *testing.T, links []Link, wanted ...string) {
	t.Helper()
	i := 0
	for _, l := range links {
		if i < len(wanted) && string(l.Part)+" "+l.State == wanted[i] {
			i++
		}
	}
	if i < len(wanted) {
		require.FailNow(t, "missing or out of order", "%s in %+v", wanted[i], links)
	}
}

func TestSequenceOfAStartAndAStop(t *testing.T) {
	for _, scheme := range building.Schemes {
		p := house()
		p.Control.Scheme = scheme
		r := ride(t, &p, Trip{From: 1, To: 3, LoadKG: 150})
		events := r.Machine.Events()
		start, stop := Sequence(events, r.StartOf()), Sequence(events, r.StopOf())
		order(t, start, "relay.up 1", "relay.up-contactor 1", "relay.brake 1", "at-rest 0")
		order(t, stop, "advance-up.4 1", "relay.stop 1", "relay.fast 0", "relay.slow 1", "vane-switch 1", "relay.up-contactor 0",
			"relay.brake 0", "at-rest 1", "cam 0", "lock 0", "door open", "door-open 1")
		for _, links := range [][]Link{start, stop} {
			for i, l := range links {
				require.Less(t, l.Cause, i, "a cause comes first")
				if i > 0 {
					require.GreaterOrEqual(t, l.TimeS, links[i-1].TimeS)
				}
				e := events[l.Event]
				require.Equal(t, e.Part, l.Part)
				if l.Cause >= 0 {
					cause := links[l.Cause]
					require.Equal(t, e.Cause, cause.Event, "the machine's own cause")
					require.InDelta(t, l.TimeS-cause.TimeS, l.AfterS, 1e-12)
				}
			}
		}
	}
}

// The times between are those the plan gives the parts.
func TestSequenceTimes(t *testing.T) {
	p := house()
	r := ride(t, &p, Trip{From: 1, To: 3, LoadKG: 150})
	c := &p.Control
	want := map[string]float64{
		"relay.stop 1": c.RelayOperateS, "relay.fast 0": c.ContactorReleaseS, "relay.slow 1": c.ContactorOperateS,
		"relay.level 1": c.LevelOperateS, "relay.up 0": c.RelayReleaseS, "relay.up-contactor 0": c.ContactorReleaseS,
		"relay.brake 0": p.Brake.SetS, "cam 0": p.Door.CamS, "door-open 1": p.Door.CamS + p.Door.OpenS,
	}
	met := 0
	for _, l := range Sequence(r.Machine.Events(), r.StopOf()) {
		if s, ok := want[string(l.Part)+" "+l.State]; ok {
			met++
			// A coil's time is exact on an ideal contact; the network around it
			// shifts it by a part in thirty.
			assert.InDelta(t, s, l.AfterS, 0.0005+s/30, "%s %s", l.Part, l.State)
		}
	}
	assert.Equal(t, len(want), met)
}

func TestSequencesOfALongerRun(t *testing.T) {
	p := house()
	m, err := lift.New(&p, lift.Options{Start: 0})
	require.NoError(t, err)
	m.Press(2)
	m.Press(4)
	m.Advance(60)
	m.Press(0)
	m.Advance(60)
	events := m.Events()
	assert.Len(t, Stops(events), 3)
	assert.Len(t, Starts(events), 3)
	for _, from := range Stops(events) {
		links := Sequence(events, from)
		assert.Equal(t, "door-open", string(links[len(links)-1].Part))
	}
	assert.Nil(t, Sequence(events, -1))
	assert.Nil(t, Sequence(events, len(events)))
	// Nothing that only shows something is told.
	for _, from := range append(Stops(events), Starts(events)...) {
		for _, l := range Sequence(events, from) {
			assert.NotRegexp(t, `^(lamp|terminal|call-lamp)\.`, string(l.Part))
		}
	}
}
