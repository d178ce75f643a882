package relay

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/lamp"
)

// ideal is a circuit whose contacts are as good as a textbook's.
func ideal() *Circuit {
	c := New()
	c.ClosedOhm, c.OpenOhm = 1e-6, 1e12
	return c
}

const idealOhm = 1e-6 // inside an ideal supply

func seal(t testing.TB, c *Circuit) *State {
	t.Helper()
	require.NoError(t, c.Seal())
	return NewState(c)
}

// run lets seconds pass; armatures move the contacts they own.
func run(s *State, seconds float64) {
	for seconds > 0 {
		dt := math.Min(seconds, s.Next())
		s.Advance(dt)
		seconds -= dt
		for _, k := range s.Moved() {
			s.Follow(k)
		}
		s.Solve()
	}
}

// untilMove runs to the next armature and returns the seconds it took.
func untilMove(t testing.TB, s *State) float64 {
	t.Helper()
	sum := 0.0
	for {
		dt := s.Next()
		require.False(t, math.IsInf(dt, 1), "nothing moves")
		s.Advance(dt)
		sum += dt
		if len(s.Moved()) > 0 {
			return sum
		}
	}
}

// plain is a winding whose armature never moves below 20 A.
func plain(ohms, henry float64) CoilSpec {
	return CoilSpec{OhmR: ohms, HenryL: henry, PickUpA: 20, DropOutA: 1e-9}
}

func TestCurrentRises(t *testing.T) {
	tests := []struct {
		name               string
		volts, ohms, henry float64
		atS, wantA, within float64
	}{
		// OpenStax, University Physics vol. 2, Examples 14.4 and 14.5
		{"2 V 4 ohm 4 H after two time constants", 2, 4, 4, 2, 0.43, 0.005},
		// Kuphaldt, Lessons in Electric Circuits vol. DC, RC and L/R time constants
		{"15 V 1 ohm 1 H after 0.5 s", 15, 1, 1, 0.5, 5.902, 0.0005},
		{"15 V 1 ohm 1 H after 1 s", 15, 1, 1, 1, 9.482, 0.0005},
		{"15 V 1 ohm 1 H after 2 s", 15, 1, 1, 2, 12.97, 0.005},
		{"15 V 1 ohm 1 H after 3 s", 15, 1, 1, 3, 14.25, 0.005},
		{"15 V 1 ohm 1 H after 4 s", 15, 1, 1, 4, 14.73, 0.005},
		{"15 V 1 ohm 1 H after 5 s", 15, 1, 1, 5, 14.90, 0.005},
		// OpenStax, University Physics vol. 2, ch. 14 problem 57: half of 1 A
		{"half in 1.75 ms at 250 mH", 99.2, 99.2, 0.25, 1.75e-3, 0.5, 0.0015},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := ideal()
			plus, top := c.Node("plus"), c.Node("top")
			c.Source(plus, 0, tt.volts, idealOhm)
			sw := c.Contact("switch", plus, top, false)
			k := c.Coil("k", top, 0, plain(tt.ohms, tt.henry))
			s := seal(t, c)
			s.Set(sw, true)
			s.Solve()
			assert.InDelta(t, 0, s.CoilA(k), 1e-9)
			run(s, tt.atS)
			assert.InDelta(t, tt.wantA, s.CoilA(k), tt.within)
		})
	}
}

// OpenStax, University Physics vol. 2, ch. 14 problem 59: 50 V through 10 ohm
// into 19.4 ohm beside 19.4 ohm with 2 mH.
func TestParallelBranchWithCoil(t *testing.T) {
	c := ideal()
	plus, in, out := c.Node("plus"), c.Node("in"), c.Node("out")
	c.Source(plus, 0, 50, idealOhm)
	sw := c.Contact("switch", plus, in, false)
	c.Resistor(in, out, 10)
	one := c.Resistor(out, 0, 19.4)
	two := c.Coil("two", out, 0, plain(19.4, 2e-3))
	s := seal(t, c)

	s.Set(sw, true)
	s.Solve()
	all := c.ElementOfContact(sw)
	assert.InDelta(t, 1.70, s.Amps(all), 0.005)
	assert.InDelta(t, 1.70, s.Amps(one), 0.005)
	assert.InDelta(t, 0, s.CoilA(two), 1e-9)
	run(s, 1)
	assert.InDelta(t, 2.54, s.Amps(all), 0.005)
	assert.InDelta(t, 1.27, s.Amps(one), 0.005)
	assert.InDelta(t, 1.27, s.CoilA(two), 0.005)
	s.Set(sw, false)
	s.Solve()
	assert.InDelta(t, 0, s.Amps(all), 1e-6)
	assert.InDelta(t, 1.27, s.CoilA(two), 0.005)
	assert.InDelta(t, -1.27, s.Amps(one), 0.005, "the coil drives it on, backwards")
}

// relay24 is the relay of the timing rows.
var relay24 = CoilSpec{OhmR: 650, HenryL: 3, PickUpA: 0.018, DropOutA: 0.006}

// Closed forms: t = L/R ln(I/(I-i)); ngspice 39 agrees within 0.7 %.
func TestRelayTimes(t *testing.T) {
	const rated = 24.0 / 650
	tests := []struct {
		name      string
		across    func(c *Circuit, top Node) // what is across the coil
		shorted   bool
		releaseMS float64
	}{
		{"shorted", nil, true, 8.387},
		{"diode", func(c *Circuit, top Node) { c.diode("d", 0, top, 0.01) }, false, 7.757},
		{"diode and 1300 ohm", func(c *Circuit, top Node) { c.diode("d", 0, top, 1300) }, false, 2.721},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := ideal()
			plus, top := c.Node("plus"), c.Node("top")
			c.Source(plus, 0, 24, idealOhm)
			feed := c.Contact("feed", plus, top, false)
			short := c.Contact("short", top, 0, false)
			k := c.Coil("k", top, 0, relay24)
			if tt.across != nil {
				tt.across(c, top)
			}
			s := seal(t, c)
			s.Set(feed, true)
			assert.True(t, s.Heading(k))
			assert.InDelta(t, 3.085e-3, untilMove(t, s), 1e-6)
			assert.True(t, s.In(k))
			run(s, 1)
			assert.InDelta(t, rated, s.CoilA(k), 1e-7)

			s.Set(feed, false)
			s.Set(short, tt.shorted)
			assert.False(t, s.Heading(k))
			assert.InDelta(t, tt.releaseMS*1e-3, untilMove(t, s), 1e-6)
			assert.False(t, s.In(k))
			run(s, 1)
			assert.True(t, math.IsInf(s.Next(), 1))
			assert.InDelta(t, 0, s.CoilA(k), 1e-9)
			assert.Empty(t, s.Err().ID)
		})
	}
}

// Recomputed; ngspice 39 agrees. Start pressed from 50 to 120 ms, stop at
// 300 ms, 1300 ohm across the coil.
func TestSealIn(t *testing.T) {
	c := ideal()
	plus, fed, top := c.Node("plus"), c.Node("fed"), c.Node("top")
	c.Source(plus, 0, 24, idealOhm)
	stop := c.Contact("stop", plus, fed, true)
	start := c.Contact("start", fed, top, false)
	seals := c.Contact("seal", fed, top, false)
	spec := relay24
	spec.Suppression, spec.SuppressorOhm = ResistorAcross, 1300
	k := c.Coil("k", top, 0, spec)
	c.Owns(k, seals, false)
	s := seal(t, c)

	run(s, 0.050)
	s.Set(start, true)
	in := 0.050 + untilMove(t, s)
	assert.InDelta(t, 53.08e-3, in, 0.01e-3)
	s.Follow(k)
	run(s, 0.120-in)
	s.Set(start, false)
	run(s, 0.180)
	assert.True(t, s.In(k))
	assert.InDelta(t, 36.92e-3, s.CoilA(k), 0.01e-3)
	s.Set(stop, false)
	assert.InDelta(t, 302.79e-3, 0.300+untilMove(t, s), 0.01e-3)
	assert.False(t, s.In(k))
}

func TestNetworks(t *testing.T) {
	t.Run("unbalanced bridge", func(t *testing.T) {
		// Kuphaldt, Lessons in Electric Circuits vol. DC, network analysis
		c := New()
		top, left, right := c.Node("top"), c.Node("left"), c.Node("right")
		src := c.Source(top, 0, 24, 1e-9)
		c.Resistor(top, left, 150)
		c.Resistor(top, right, 50)
		c.Resistor(left, right, 100)
		c.Resistor(left, 0, 300)
		c.Resistor(right, 0, 250)
		s := seal(t, c)
		assert.InDelta(t, 17.655, s.Volts(left), 0.0005)
		assert.InDelta(t, 19.310, s.Volts(right), 0.0005)
		// the current through the supply is worked out from what leaves it:
		// 1e-9 ohm leaves too little voltage to divide by
		assert.InDelta(t, 0.136092, (24-s.Volts(left))/150+(24-s.Volts(right))/50, 5e-7)
		assert.InDelta(t, -0.136092, s.Amps(src), 1e-4)
	})
	t.Run("two supplies", func(t *testing.T) {
		// same source: 28 V through 4 ohm, 7 V through 1 ohm, 2 ohm to ground
		c := New()
		n := c.Node("n")
		c.Source(n, 0, 28, 4)
		c.Source(n, 0, 7, 1)
		c.Resistor(n, 0, 2)
		s := seal(t, c)
		assert.InDelta(t, 20, 28-s.Volts(n), 1e-9)
		assert.InDelta(t, 8, s.Volts(n), 1e-9)
		assert.InDelta(t, 1, s.Volts(n)-7, 1e-9)
	})
	t.Run("two supplies with a tie", func(t *testing.T) {
		// recomputed; ngspice 39 agrees
		c := New()
		a, b := c.Node("a"), c.Node("b")
		c.Source(a, 0, 10, 2)
		c.Resistor(a, 0, 4)
		c.Resistor(a, b, 2.5)
		c.Resistor(b, 0, 5)
		c.Source(b, 0, -4, 1)
		s := seal(t, c)
		assert.InDelta(t, 3.809524, s.Volts(a), 5e-7)
		assert.InDelta(t, -1.547619, s.Volts(b), 5e-7)
	})
	t.Run("supply with inner resistance", func(t *testing.T) {
		// OpenStax, University Physics vol. 2, Example 10.4: 12 V, 1 + (6 beside 13)
		c := New()
		a, b := c.Node("a"), c.Node("b")
		src := c.Source(a, 0, 12, 1e-6)
		c.Resistor(a, b, 1)
		c.Resistor(b, 0, 6)
		c.Resistor(b, 0, 13)
		s := seal(t, c)
		assert.InDelta(t, 2.35, -s.Amps(src), 0.005)
		assert.InDelta(t, 5.10, 12/-s.Amps(src), 0.01)
		assert.InDelta(t, 9.65, s.Volts(b), 0.005)
	})
	t.Run("three supplies", func(t *testing.T) {
		// OpenStax, University Physics vol. 2, Example 10.6: 0.5 V with 1 + 2
		// ohm and 2.3 V with 5 + 1 + 2 ohm feed a node which 0.6 V drains
		// through 1 ohm
		c := New()
		x, y, z, p := c.Node("x"), c.Node("y"), c.Node("z"), c.Node("p")
		c.Source(x, 0, 0.5, 1)
		one := c.Resistor(x, p, 2)
		c.Source(y, 0, 2.3, 5)
		two := c.Resistor(y, z, 1)
		c.Resistor(z, p, 2)
		three := c.Source(0, p, 0.6, 1)
		s := seal(t, c)
		assert.InDelta(t, 0.20, s.Amps(one), 1e-9)
		assert.InDelta(t, 0.30, s.Amps(two), 1e-9)
		assert.InDelta(t, 0.50, -s.Amps(three), 1e-9)
	})
}

// cold240 is a lamp for 24 V of 240 ohm while it is cold.
var cold240 = LampSpec{RatedV: 24, ColdOhm: 240, HotOhm: 240 * HotRatio, Filament: lamp.Usual}

// A sneak path: coil A fed at 24 V, coil B behind its own open contact but
// tied to A by a lamp of 240 ohm. Recomputed: 24·650/890; ngspice 39 agrees.
// The lamp has them cold, as it is with next to nothing across it.
func TestSneakPath(t *testing.T) {
	c := ideal()
	plus, a, b := c.Node("plus"), c.Node("a"), c.Node("b")
	c.Source(plus, 0, 24, idealOhm)
	feedA := c.Contact("feed_a", plus, a, false)
	feedB := c.Contact("feed_b", plus, b, false)
	l := c.Lamp("lamp", a, b, cold240)
	spec := CoilSpec{OhmR: 650, HenryL: 3, PickUpA: 19.2 / 650, DropOutA: 0.006}
	ka := c.Coil("a", a, 0, spec)
	kb := c.Coil("b", b, 0, spec)
	s := seal(t, c)
	s.Set(feedA, true)
	run(s, 1)
	assert.True(t, s.In(ka))
	assert.False(t, s.In(kb), "not enough to pull in")
	assert.False(t, s.Hot(l))
	assert.InDelta(t, 17.53, s.Volts(b), 0.005)
	assert.InDelta(t, 17.53, c.Rest(s)[b], 0.005)

	s.Set(feedB, true)
	run(s, 1)
	assert.True(t, s.In(kb))
	s.Set(feedB, false)
	run(s, 1)
	assert.True(t, s.In(kb), "ample to hold")
}
