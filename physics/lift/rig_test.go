package lift

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// A rig is a machine under test with short words for what one does to it.
type rig struct {
	*Machine
	t *testing.T
}

func newRig(t *testing.T, p building.Plan, start string) *rig {
	t.Helper()
	m, err := New(&p, Options{Start: p.Floor(start)})
	require.NoError(t, err)
	return &rig{m, t}
}

// tidemill is six unequal floors, as the shipped building has them.
func tidemill() building.Plan {
	p := building.Defaults()
	p.Name = "Tidemill House"
	for i, h := range []float64{0, 4.2, 7.4, 10.6, 13.8, 16.8} {
		p.Floors = append(p.Floors, building.Floor{Name: []string{"G", "1", "2", "3", "4", "5"}[i], HeightM: h})
	}
	return p
}

func (r *rig) call(floors ...string) {
	for _, f := range floors {
		r.Press(r.plan.Floor(f))
	}
}

// until runs to the first event from now on with that part and state and
// returns it; the test fails if it does not come within a minute.
func (r *rig) until(part Part, state string) Event {
	r.t.Helper()
	from := len(r.Events())
	for end := r.TimeS() + 60; r.TimeS() < end && r.Stopped() == ""; {
		r.Step(1)
		for _, e := range r.Events()[from:] {
			if e.Part == part && e.State == state {
				return e
			}
		}
		from = len(r.Events())
	}
	require.FailNow(r.t, "it did not happen", "%s %s within a minute; stopped %q, last events %v", part, state, r.Stopped(), last(r.Events(), 12))
	return Event{}
}

// rest runs until the machine is idle for two seconds.
func (r *rig) rest() {
	r.t.Helper()
	quiet := 0.0
	for end := r.TimeS() + 3600; r.TimeS() < end && r.Stopped() == ""; {
		r.Advance(0.1)
		if quiet += 0.1; !r.Idle() || !r.AllDone() {
			quiet = 0
		}
		if quiet > 2 {
			return
		}
	}
	require.FailNow(r.t, "it does not come to rest", "stopped %q, last events %v", r.Stopped(), last(r.Events(), 12))
}

// stops lists the landings stopped at so far, in order.
func (r *rig) stops() string { return strings.Join(stopsOf(r.Events()), " ") }

func stopsOf(events []Event) []string {
	var out []string
	for _, e := range events {
		if e.Part == "stop" && e.State != "-" {
			out = append(out, e.State)
		}
	}
	return out
}

// at returns the index of the first event with that part and state from
// index from on, -1 if there is none.
func at(events []Event, from int, part Part, state string) int {
	for i := from; i < len(events); i++ {
		if events[i].Part == part && events[i].State == state {
			return i
		}
	}
	return -1
}

// in tells whether a relay is in.
func (r *rig) in(name string) bool {
	c := r.wiring.Coil(name)
	require.GreaterOrEqual(r.t, int(c), 0, name)
	return r.circuit.In(c)
}

func last(events []Event, n int) []Event { return events[max(0, len(events)-n):] }
