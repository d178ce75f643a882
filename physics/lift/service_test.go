package lift

import (
	"math/rand"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/trial"
)

// look is the rule of service written a second way: from start, with all
// calls registered at rest, serve every call ahead in the direction first
// taken, then those behind. Up is taken when there is a call above.
func look(start int, calls []int) []int {
	sorted := slices.Clone(calls)
	slices.Sort(sorted)
	var above, below, out []int
	for _, f := range sorted {
		switch {
		case f > start:
			above = append(above, f)
		case f < start:
			below = append(below, f)
		}
	}
	slices.Reverse(below)
	if slices.Contains(calls, start) {
		// The doors open first; the car has not moved.
		out = append(out, start)
	}
	return append(append(out, above...), below...)
}

func TestEveryCallSetIsServedOnceInOrder(t *testing.T) {
	p := tidemill()
	rng := rand.New(rand.NewSource(1))
	names := func(fs []int) []string {
		var out []string
		for _, f := range fs {
			out = append(out, p.Floors[f].Name)
		}
		return out
	}
	for range trial.Runs(40) {
		start := rng.Intn(6)
		var calls []int
		for f := range 6 {
			if rng.Intn(2) == 0 && f != start {
				calls = append(calls, f)
			}
		}
		m, err := New(&p, Options{Start: start})
		require.NoError(t, err)
		r := &rig{m, t}
		for _, f := range calls {
			m.Press(f)
		}
		r.rest()
		assert.Equal(t, names(look(start, calls)), stopsOf(r.Events()), "from %d calls %v", start, calls)
		assert.True(t, r.Idle())
	}
}

func TestCallsAtAnyTimeAreAllServed(t *testing.T) {
	rng := rand.New(rand.NewSource(2))
	for range trial.Runs(15) {
		n := 3 + rng.Intn(6)
		p := building.Evenly("test", n, 2.4+2*rng.Float64())
		p.Selector.SpanDeg = min(p.Selector.SpanDeg, 200)
		p.Lift.LoadKG = p.Lift.RatedLoadKG * rng.Float64()
		m, err := New(&p, Options{Start: rng.Intn(n)})
		require.NoError(t, err)
		r := &rig{m, t}
		type press struct {
			t float64
			f int
		}
		var presses []press
		for range 1 + rng.Intn(12) {
			at := press{rng.Float64() * 60, rng.Intn(n)}
			presses = append(presses, at)
			r.mustDo(Input{TimeS: at.t, Kind: Press, Part: Part("button." + p.Floors[at.f].Name)})
		}
		r.rest()
		opened := func(f int, after float64) bool {
			name := p.Floors[f].Name
			for i, e := range r.Events() {
				if e.TimeS >= after && e.Part == Part("call."+name) && e.State == "0" {
					return i > 0
				}
			}
			return false
		}
		for _, at := range presses {
			assert.True(t, opened(at.f, at.t), "call to %d at %.2f s", at.f, at.t)
		}
		for _, c := range m.indexes.callCoil {
			assert.False(t, m.circuit.In(c), "no call is left")
		}
		var up, down bool
		for _, e := range r.Events() {
			switch e.Part {
			case "relay.up-contactor":
				up = e.State == "1"
			case "relay.down-contactor":
				down = e.State == "1"
			}
			require.False(t, up && down)
		}
	}
}

// The disk scheduling example of Silberschatz, Operating System Concepts:
// requests 98 183 37 122 14 124 65 67, head at 53, positions 0 to 199. Both
// orders and the travels 299 and 208 follow from its rule LOOK; 208 is
// printed there.
func TestOrderOfServiceWithTwoHundredLandings(t *testing.T) {
	if testing.Short() {
		t.Skip("two hundred landings take some seconds")
	}
	p := building.Evenly("test", 200, 3.2)
	calls := []int{98, 183, 37, 122, 14, 124, 65, 67}
	for _, c := range []struct {
		first  int
		want   []int
		travel int
	}{
		{65, []int{65, 67, 98, 122, 124, 183, 37, 14}, 299},
		{37, []int{37, 14, 65, 67, 98, 122, 124, 183}, 208},
	} {
		m, err := New(&p, Options{Start: 53})
		require.NoError(t, err)
		r := &rig{m, t}
		m.Press(c.first)
		r.until("stop", "-")
		for _, f := range calls {
			if f != c.first {
				m.Press(f)
			}
		}
		r.rest()
		var want []string
		travel, at := 0, 53
		for _, f := range c.want {
			want = append(want, strconv.Itoa(f+1))
			travel += max(f-at, at-f)
			at = f
		}
		assert.Equal(t, want, stopsOf(r.Events()))
		assert.Equal(t, c.travel, travel)
	}
}
