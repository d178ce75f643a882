package relay

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tangle is a random circuit: a supply, and elements of every kind between
// random nodes, so that coils hang in series, in parallel and across one
// another.
func tangle(r *rand.Rand, diodes int) *Circuit {
	c := New()
	n := 4 + r.IntN(5)
	node := make([]Node, n)
	for i := 1; i < n; i++ {
		node[i] = c.Node(fmt.Sprintf("n%d", i))
	}
	between := func() (a, b Node) {
		i := r.IntN(n)
		return node[i], node[(i+1+r.IntN(n-1))%n]
	}
	c.Source(node[1], 0, 24+86*r.Float64(), 0.2+r.Float64())
	for i := 1; i < n; i++ {
		c.Resistor(node[i], node[r.IntN(i)], 20*math.Exp(4*r.Float64()))
	}
	for i := range 2 + r.IntN(6) {
		a, b := between()
		c.Contact(fmt.Sprintf("k%d", i), a, b, r.IntN(2) == 0)
	}
	for i := range 1 + r.IntN(7) {
		a, b := between()
		spec := SpecFor(24, 200+2000*r.Float64(), 0.005+0.02*r.Float64(), 0.005+0.02*r.Float64())
		spec.OperateDelayS, spec.ReleaseDelayS = 0, 0
		switch r.IntN(3) {
		case 0:
			spec.Suppression = None
		case 1:
			if diodes > 0 {
				spec.Suppression = Suppression(2 + r.IntN(2))
			}
		}
		c.Coil(fmt.Sprintf("c%d", i), a, b, spec)
	}
	for i := range diodes {
		a, b := between()
		c.Diode(fmt.Sprintf("d%d", i), a, b)
	}
	return c
}

// throw sets every contact at random, the same in both.
func throw(r *rand.Rand, s *State, twin *slow) {
	for k := range twin.closed {
		closed := r.IntN(2) == 0
		twin.closed[k] = closed
		s.Set(ContactID(k), closed)
	}
	s.Solve()
}

// The twin steps 10 microseconds, which costs it up to 1e-6 of a pick-up.
func TestAgainstSlowTwin(t *testing.T) {
	const h, steps, rounding = 10e-6, 1000, 2e-6
	for seed := range uint64(40) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 1))
			c := tangle(r, int(seed%3))
			require.NoError(t, c.Seal())
			s, twin := NewState(c), newSlow(c)
			in := make([]bool, len(c.coils)) // the twin's armatures
			left := 0.0                      // of the pick-up current
			for range 3 {
				throw(r, s, twin)
				for n := range steps {
					twin.step(h)
					for dt := h; dt > 0; {
						d := math.Min(dt, s.Next())
						s.Advance(d)
						dt -= d
						left = math.Max(left, s.Slack())
						for _, k := range s.Moved() {
							spec, i := c.coils[k].spec, math.Abs(s.CoilA(k))
							if s.In(k) {
								require.InEpsilon(t, spec.PickUpA, i, 1e-8)
							} else {
								require.LessOrEqual(t, i, spec.DropOutA*(1+1e-8))
							}
						}
					}
					for k := range c.coils {
						spec, i := c.coils[k].spec, math.Abs(twin.i[k])
						if i >= spec.PickUpA {
							in[k] = true
						} else if i <= spec.DropOutA {
							in[k] = false
						}
						// a hundredth away from the thresholds there is no doubt
						if near := 0.01 * spec.PickUpA; math.Abs(i-spec.PickUpA) > near && math.Abs(i-spec.DropOutA) > near {
							require.Equal(t, in[k], s.In(CoilID(k)), "armature %d at step %d", k, n)
						}
						if n%20 == 0 {
							require.InDelta(t, twin.i[k]/spec.PickUpA, s.CoilA(CoilID(k))/spec.PickUpA, rounding+left,
								"coil %d at step %d", k, n)
						}
					}
				}
				rest := c.Rest(s)
				twin.euler(twin.i, math.Inf(1))
				for n := range rest {
					require.InDelta(t, twin.volts(Node(n)), rest[n], 1e-4, "node %d at rest", n)
				}
				twin.euler(twin.i, 0) // the diodes as they were
			}
			assert.Empty(t, s.Err().ID)
		})
	}
}

// A panel of relays, with contacts thrown at random and the main switch among
// them: many weak ties left out at once must stay inside the slack.
func TestLadderAgainstSlowTwin(t *testing.T) {
	const h, steps, rounding = 40e-6, 250, 2e-5
	l := newLadder(t, 5)
	c := l.c
	s, twin := NewState(c), newSlow(c)
	r := rand.New(rand.NewPCG(5, 6))
	left, most := 0.0, 0.0
	for round := range 8 {
		throw(r, s, twin)
		twin.closed[l.main] = round%3 != 2
		s.Set(l.main, twin.closed[l.main])
		for range steps {
			twin.step(h)
			for dt := h; dt > 0; { // armatures move, their contacts do not
				d := math.Min(dt, s.Next())
				s.Advance(d)
				dt -= d
			}
			left = math.Max(left, s.Slack())
			for k := range c.coils {
				pick := c.coils[k].spec.PickUpA
				most = math.Max(most, math.Abs(twin.i[k]-s.CoilA(CoilID(k)))/pick)
			}
			require.LessOrEqual(t, most, left+rounding)
		}
	}
	assert.Positive(t, left, "some ties were left out")
	assert.Less(t, left, 5e-3)
	assert.Greater(t, most, 1e-6, "and leaving them out can be seen")
}

// What the solver says of voltages and currents must add up by itself: no
// node gains charge, and what the supply gives is turned into heat or stored.
func TestPowerBalance(t *testing.T) {
	l := newLadder(t, 12)
	c := l.c
	s := NewState(c)
	settle(s)
	for f := range 6 {
		s.Set(l.button[2*f], true)
	}
	given, heat := 0.0, 0.0
	const h, steps = 20e-6, 400
	stored := func() float64 {
		sum := 0.0
		for k := range c.coils {
			i := s.CoilA(CoilID(k))
			sum += c.coils[k].spec.HenryL * i * i / 2
		}
		return sum
	}
	powers := func() (from, in float64) {
		for id, e := range c.elements {
			i, v := s.Amps(ElementID(id)), s.Volts(e.A)-s.Volts(e.B)
			switch e.Kind {
			case Source:
				from -= e.Volts * i
				in += i * i * e.Ohms
			case Coil:
				in += i * i * e.Ohms
			default:
				in += v * i
			}
		}
		return from, in
	}
	start := stored()
	for n := range steps + 1 {
		net := make([]float64, c.Nodes())
		for id, e := range c.elements {
			i := s.Amps(ElementID(id))
			net[e.A] += i
			net[e.B] -= i
		}
		for node, i := range net {
			// the leak beside a coil is no element: 110 V over 1 gigaohm
			require.InDelta(t, 0, i, 14*200e-9+1e-9, "node %s", c.NodeName(Node(node)))
		}
		weight := 2.0 * h / 3 // Simpson
		if n%2 == 1 {
			weight *= 2
		}
		if n == 0 || n == steps {
			weight /= 2
		}
		from, in := powers()
		given += weight * from
		heat += weight * in
		if n < steps {
			require.Greater(t, s.Next(), h, "the balance is struck before anything switches")
			s.Advance(h)
		}
	}
	assert.Greater(t, given, 0.05, "joules")
	assert.InEpsilon(t, given, heat+stored()-start, 1e-3)
}
