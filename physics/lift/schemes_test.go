package lift

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/trial"
)

// under is the six unequal floors with another scheme.
func under(scheme string) building.Plan {
	p := tidemill()
	p.Control.Scheme = scheme
	return p
}

// push pushes buttons written as on the command line: "3", "3:up".
func (r *rig) push(buttons ...string) {
	r.t.Helper()
	for _, b := range buttons {
		floor, kind, named := strings.Cut(b, ":")
		part := "button." + floor
		if named {
			part = "button-" + kind + "." + floor
		}
		require.Empty(r.t, r.Do(Input{TimeS: r.TimeS(), Kind: Press, Part: Part(part)}).ID, b)
	}
}

func TestOneCallAtATimeIsServedUnderEveryScheme(t *testing.T) {
	for _, scheme := range control.Schemes() {
		t.Run(scheme, func(t *testing.T) {
			r := newRig(t, under(scheme), "2")
			r.call("4")
			r.rest()
			r.call("G")
			r.rest()
			assert.Equal(t, "4 G", r.stops())
		})
	}
}

func TestDirectPullsBothWaysInAndStops(t *testing.T) {
	r := newRig(t, under("direct"), "2")
	r.call("4", "G")
	r.Advance(10)
	assert.Equal(t, "stopped.phases-short-circuited", r.Stopped())
	assert.True(t, r.in("relay.up") && r.in("relay.down"))
	i := at(r.Events(), 0, "motor", "short-circuited")
	require.GreaterOrEqual(t, i, 0, "it is an event")
	cause := r.Events()[r.Events()[i].Cause]
	assert.Contains(t, []Part{"relay.up-contactor", "relay.down-contactor"}, cause.Part)
	assert.Equal(t, "1", cause.State)
	assert.Equal(t, len(r.Events())-1, i, "and the last one")
}

func TestInterlockedFirstComeWinsWhileItRuns(t *testing.T) {
	r := newRig(t, under("interlocked"), "2")
	r.call("4")
	r.until("stop", "-")
	r.call("G", "5")
	r.rest()
	assert.Equal(t, "4 5 G", r.stops())
}

func TestInterlockedForgetsItsWayAtEachStop(t *testing.T) {
	r := newRig(t, under("interlocked"), "4")
	r.call("1")
	r.until("stop", "-")
	r.call("G", "5")
	r.rest()
	assert.Equal(t, "1 5 G", r.stops(), "the full scheme would go to G first")
}

func TestInterlockedWithBothWaysAskedForAtOnceGoesUp(t *testing.T) {
	for _, slower := range []string{"relay.up-line", "relay.down-line", "relay.up", "relay.down", "relay.start"} {
		p := under("interlocked")
		m, err := New(&p, Options{Start: 2, Spread: func(part string) float64 {
			if part == slower {
				return 1.3
			}
			return 0.7
		}})
		require.NoError(t, err)
		r := &rig{m, t}
		r.call("4", "G")
		r.rest()
		assert.Equal(t, "4 G", r.stops(), slower)
	}
}

func TestTwoButtons(t *testing.T) {
	tests := []struct {
		name, start  string
		first, later string // later: once the car has left
		stops        string
	}{
		{"an up call on the way up is answered", "G", "5:car", "3:up", "3 5"},
		{"a down call on the way up waits", "G", "5:car", "3:down", "5 3"},
		{"the highest call is answered whatever it wants", "G", "3:down", "", "3"},
		{"and so is the lowest", "5", "2:up", "", "2"},
		{"the highest of two down calls is answered first", "G", "2:down 4:down", "", "4 2"},
		{"the lowest of two up calls is answered first", "5", "2:up 4:up", "", "2 4"},
		{"a down call on the way down is answered", "5", "G:car", "3:down", "3 G"},
		{"an up call on the way down waits", "5", "G:car", "3:up", "G 3"},
		{"both calls of the highest floor are answered at once", "G", "4:up 4:down", "", "4"},
		{"both calls of a floor are answered one by one", "G", "5:car", "3:up 3:down", "3 5 3"},
		{"a car call stops it, the other way's call stays", "G", "5:car", "3:car 3:down", "3 5 3"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := newRig(t, under("two-button"), tt.start)
			r.push(strings.Fields(tt.first)...)
			r.until("stop", "-")
			r.push(strings.Fields(tt.later)...)
			r.rest()
			assert.Equal(t, tt.stops, r.stops())
			assert.True(t, r.Idle())
		})
	}
}

func TestCallsOfAFloorAreSeenTogetherAndByKind(t *testing.T) {
	r := newRig(t, under("two-button"), "G")
	r.push("5:car")
	r.until("stop", "-")
	r.push("3:up", "3:down", "3:car")
	r.Advance(0.1)
	var v View
	r.Look(&v)
	assert.True(t, v.Pressed[3] && v.PressedUp[3] && v.PressedDown[3] && v.PressedCar[3])
	assert.True(t, v.Calls[3] && v.CallsUp[3] && v.CallsDown[3] && v.CallsCar[3])
	assert.True(t, v.CallsCar[5] && !v.CallsDown[5])
	r.rest()
	var states []string
	for _, e := range r.Events() {
		if e.Part == "call.3" {
			states = append(states, e.State)
		}
	}
	assert.Equal(t, []string{"1", "0"}, states, "out only when the down call has been answered as well")

	one := newRig(t, tidemill(), "G")
	one.Look(&v)
	assert.Empty(t, v.CallsUp)
	assert.Empty(t, v.PressedCar)
}

func TestAnUnknownButtonIsRefused(t *testing.T) {
	r := newRig(t, under("two-button"), "G")
	for _, part := range []Part{"button.3", "button-down.G", "button-up.5", "button-up.9"} {
		assert.Equal(t, "input.unknown-part", r.Do(Input{Kind: Press, Part: part}).ID, part)
	}
}

// Knuth, The Art of Computer Programming vol. 1, section 2.2.5 (value from
// memory): going up the lift stops at a floor for a car call or a call for
// up, and for a call for down only when nothing is called above; going down
// the mirror image. Looked at each time the car passes an advance contact in
// its running direction with no stop set.
func TestKnuthsStoppingRule(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	judged := map[bool]int{}
	for range trial.Runs(12) {
		n := 4 + rng.Intn(4)
		p := building.Evenly("test", n, 3.2)
		p.Selector.SpanDeg = min(p.Selector.SpanDeg, 200)
		p.Control.Scheme = "two-button"
		m, err := New(&p, Options{Start: rng.Intn(n)})
		require.NoError(t, err)
		r := &rig{m, t}
		calls := m.wiring.Diagram.Calls
		for range 4 + rng.Intn(10) {
			c := calls[rng.Intn(len(calls))]
			r.mustDo(Input{TimeS: rng.Float64() * 90, Kind: Press, Part: Part(c.Button)})
		}
		r.rest()
		for _, c := range m.indexes.callCoil {
			require.False(t, m.circuit.In(c), "no call is left")
		}
		for stops, count := range judgeByKnuth(t, r, calls) {
			judged[stops] += count
		}
	}
	assert.Greater(t, judged[true], 20, "the rule made it stop")
	assert.Greater(t, judged[false], 20, "and pass")
}

// judgeByKnuth follows a run by its events and holds each stop and each pass
// against the rule. It leaves out those at which a call came or went within
// the contact.
func judgeByKnuth(t *testing.T, r *rig, calls []control.Call) map[bool]int {
	t.Helper()
	in := map[Part]bool{}
	judged := map[bool]int{}
	callsThen := func() string {
		s := ""
		for _, c := range calls {
			s += map[bool]string{true: "1", false: "0"}[in[Part(c.Relay)]]
		}
		return s
	}
	var made string // calls when the contact made
	var fresh bool  // and no stop was set then
	for i, e := range r.Events() {
		in[e.Part] = e.State == "1"
		kind, floor, _ := strings.Cut(string(e.Part), ".")
		goesUp := kind == "advance-up"
		if !goesUp && kind != "advance-down" {
			continue
		}
		if goesUp && !in["relay.up-contactor"] || !goesUp && !in["relay.down-contactor"] {
			continue
		}
		if e.State == "1" {
			made, fresh = callsThen(), !in["relay.stop"]
			continue
		}
		if !fresh || made != callsThen() {
			continue
		}
		f := r.plan.Floor(floor)
		want := knuthStops(in, r.plan.Floors, f, goesUp)
		require.Equal(t, want, in["relay.stop"], "event %d: %v at %.3f s, calls %s", i, e, e.TimeS, made)
		judged[want]++
	}
	return judged
}

func knuthStops(in map[Part]bool, floors []building.Floor, f int, goesUp bool) bool {
	called := func(kind string, f int) bool { return in[Part(fmt.Sprintf("call-%s.%s", kind, floors[f].Name))] }
	mine, other := "up", "down"
	ahead := floors[f+1:]
	from := f + 1
	if !goesUp {
		mine, other = other, mine
		ahead, from = floors[:f], 0
	}
	if called("car", f) || called(mine, f) {
		return true
	}
	for i := range ahead {
		if called("up", from+i) || called("down", from+i) || called("car", from+i) {
			return false
		}
	}
	// Nothing ahead and nothing here: the end of the line, where the lift
	// would have turned before.
	return called(other, f) || f == 0 || f == len(floors)-1
}

func TestEveryTwoButtonCallIsServed(t *testing.T) {
	p := under("two-button")
	rng := rand.New(rand.NewSource(5))
	for range trial.Runs(12) {
		start := rng.Intn(6)
		r := newRig(t, p, p.Floors[start].Name)
		var pushed []string
		for _, c := range r.wiring.Diagram.Calls {
			if c.Floor != start && rng.Intn(3) == 0 {
				pushed = append(pushed, p.Floors[c.Floor].Name+":"+c.Kind.String())
			}
		}
		r.push(pushed...)
		r.rest()
		seen := strings.Fields(r.stops())
		for _, b := range pushed {
			floor, _, _ := strings.Cut(b, ":")
			assert.True(t, slices.Contains(seen, floor), "%s of %v", b, pushed)
		}
		for _, c := range r.indexes.callCoil {
			assert.False(t, r.circuit.In(c))
		}
	}
}

// leafIn finds a contact of a part in a branch.
func (r *rig) leafIn(part string, breaks bool, branch string) int {
	r.t.Helper()
	for i, l := range r.wiring.Leaves {
		c, ok := l.Body.(control.Contact)
		if ok && c.Part == part && c.Breaks == breaks && r.wiring.Diagram.Branches[l.Branch].Name == branch {
			return i
		}
	}
	require.FailNow(r.t, "no such contact", "%s in %s", part, branch)
	return -1
}

// With the direction relay's contact bridged both ways are fed at once, each
// through the other's break contact: both come in, both throw the other out,
// and so on.
func TestChatterStopsTheModel(t *testing.T) {
	r := newRig(t, tidemill(), "2")
	r.mustDo(Input{Kind: Override, Part: ContactPart(r.leafIn("relay.direction", false, "down-pull")), State: "closed"})
	r.call("4", "G")
	r.Advance(10)
	assert.Equal(t, "stopped.chatter", r.Stopped())
	assert.Less(t, r.TimeS(), 3.0)
}

func TestOneContactCanBeKept(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	lamp := r.leafIn("call.3", false, "call-lamp.3")
	part := ContactPart(lamp)
	closed := func() bool {
		var v View
		r.Look(&v)
		return v.Contacts[lamp]
	}
	r.mustDo(Input{Kind: Override, Part: part, State: "closed"})
	r.Advance(0.1)
	assert.True(t, closed())
	assert.Equal(t, "closed", r.Overridden(part))
	r.call("3")
	r.Advance(0.3)
	r.mustDo(Input{TimeS: r.TimeS(), Kind: Override, Part: part, State: "open"})
	r.Advance(0.1)
	assert.False(t, closed(), "though the call is registered")
	assert.True(t, r.in("call.3"), "its other contacts follow")
	r.mustDo(Input{TimeS: r.TimeS(), Kind: Override, Part: part})
	r.Advance(0.1)
	assert.True(t, closed(), "freed it follows again")
	assert.Empty(t, r.Overridden(part))
	r.rest()
	assert.False(t, closed())
	assert.Equal(t, r.Hash(), r.Replay().Hash())
	for _, bad := range []Part{"contact.-1", "contact.99999", "contact.x"} {
		assert.Equal(t, "input.unknown-part", r.Do(Input{Kind: Override, Part: bad, State: "open"}).ID)
	}
	assert.Equal(t, "input.unknown-state", r.Do(Input{Kind: Override, Part: part, State: "welded"}).ID)
}
