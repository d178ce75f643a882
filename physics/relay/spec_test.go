package relay

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/lamp"
)

// bench puts one coil behind an ideal contact.
func bench(t testing.TB, volts float64, spec CoilSpec) (s *State, feed ContactID, k CoilID) {
	c := ideal()
	plus, top := c.Node("plus"), c.Node("top")
	c.Source(plus, 0, volts, idealOhm)
	feed = c.Contact("feed", plus, top, false)
	k = c.Coil("k", top, 0, spec)
	return seal(t, c), feed, k
}

// operateRelease measures both times.
func operateRelease(t testing.TB, volts float64, spec CoilSpec) (operate, release float64) {
	s, feed, k := bench(t, volts, spec)
	s.Set(feed, true)
	operate = untilMove(t, s)
	require.True(t, s.In(k))
	run(s, 10)
	s.Set(feed, false)
	release = untilMove(t, s)
	require.False(t, s.In(k))
	return operate, release
}

func TestSpecForTimes(t *testing.T) {
	for _, ms := range [][2]float64{
		{15, 10}, {30, 10}, {250, 10}, {8, 8}, {30, 20}, {120, 150}, {5, 40}, {40, 5}, {1, 1},
	} {
		t.Run(fmt.Sprint(ms), func(t *testing.T) {
			spec := SpecFor(110, 2000, ms[0]/1e3, ms[1]/1e3)
			require.NoError(t, spec.check())
			operate, release := operateRelease(t, 110, spec)
			assert.InDelta(t, ms[0]/1e3, operate, 1e-6)
			assert.InDelta(t, ms[1]/1e3, release, 1e-6)

			for _, f := range []float64{0.7, 1.3} {
				operate, release := operateRelease(t, 110, spec.Spread(f))
				assert.InDelta(t, f*ms[0]/1e3, operate, 1e-6)
				assert.InDelta(t, f*ms[1]/1e3, release, 1e-6)
			}
		})
	}
}

// IEC 61810-1, value from memory: operates by 80 % of rated voltage, releases
// by 5 to 10 %.
func TestSpecForBands(t *testing.T) {
	spec := SpecFor(110, 2000, 0.015, 0.010)
	assert.Greater(t, spec.PickUpA, spec.DropOutA)
	s, feed, k := bench(t, 0.8*110, spec)
	s.Set(feed, true)
	assert.True(t, s.Heading(k))
	run(s, 1)
	assert.True(t, s.In(k))

	c := ideal()
	plus, low, top := c.Node("plus"), c.Node("low"), c.Node("top")
	c.Source(plus, 0, 110, idealOhm)
	c.Source(low, 0, 11, idealOhm)
	full := c.Contact("full", plus, top, true)
	tenth := c.Contact("tenth", low, top, false)
	k = c.Coil("k", top, 0, spec)
	s = seal(t, c)
	run(s, 1)
	require.True(t, s.In(k))
	s.Set(full, false)
	s.Set(tenth, true)
	run(s, 1)
	assert.False(t, s.In(k))
	assert.InDelta(t, 11.0/2000, s.CoilA(k), 1e-8)
}

func TestSlowRelay(t *testing.T) {
	spec := SpecFor(110, 2000, 0.250, 0.010)
	s, feed, k := bench(t, 110, spec)
	s.SetSlow(k, 3)
	s.Set(feed, true)
	assert.InDelta(t, 0.750, untilMove(t, s), 1e-6)
}

// A dashpot relay forgets a feed that fails before its travel is over, and
// one slow to release does not notice a short break.
func TestTravelGivesUp(t *testing.T) {
	slowly := SpecFor(110, 2000, 0.250, 0.010)
	s, feed, k := bench(t, 110, slowly)
	s.Set(feed, true)
	run(s, 0.240)
	s.Set(feed, false)
	run(s, 0.015)
	assert.False(t, s.In(k), "the current is back under pick-up")
	s.Set(feed, true)
	run(s, slowly.OperateDelayS)
	assert.False(t, s.In(k), "travel starts anew")
	run(s, 0.250-slowly.OperateDelayS)
	assert.True(t, s.In(k))

	s, feed, k = bench(t, 110, SpecFor(110, 2000, 0.010, 0.100))
	s.Set(feed, true)
	run(s, 1)
	s.Set(feed, false)
	run(s, 0.090)
	s.Set(feed, true)
	run(s, 1)
	assert.True(t, s.In(k))
	assert.Empty(t, s.Moved())
	assert.True(t, math.IsInf(s.Next(), 1))
}

func TestForced(t *testing.T) {
	spec := SpecFor(110, 2000, 0.015, 0.010)
	s, feed, k := bench(t, 110, spec)
	step := func() []CoilID {
		s.Advance(s.Next())
		return s.Moved()
	}

	s.Force(k, HeldIn)
	assert.Zero(t, s.Next())
	assert.Equal(t, []CoilID{k}, step())
	assert.True(t, s.In(k))
	assert.True(t, s.Heading(k))
	assert.True(t, math.IsInf(s.Next(), 1))
	assert.InDelta(t, 0, s.CoilA(k), 1e-9, "held in without current")

	s.Force(k, Free)
	run(s, 0.001)
	assert.False(t, s.In(k))

	s.Force(k, HeldOut)
	s.Set(feed, true)
	run(s, 1)
	assert.False(t, s.In(k))
	assert.False(t, s.Heading(k))
	assert.InDelta(t, 0.055, s.CoilA(k), 1e-6, "the winding still draws current")

	s.Force(k, Free)
	assert.Equal(t, []CoilID{k}, step())
	assert.True(t, s.In(k))

	s.Force(k, OpenCircuit)
	assert.False(t, s.Heading(k))
	assert.Zero(t, s.CoilA(k))
	run(s, 0.001)
	assert.False(t, s.In(k))
}

func TestSealRefuses(t *testing.T) {
	good := SpecFor(110, 2000, 0.015, 0.010)
	tests := []struct {
		name  string
		build func(c *Circuit)
		want  string
	}{
		{"no supply", func(c *Circuit) { c.Resistor(c.Node("a"), 0, 1) }, "no supply"},
		{"floating node", func(c *Circuit) {
			c.Source(c.Node("a"), 0, 1, 1)
			c.Resistor(c.Node("b"), c.Node("c"), 1)
		}, "node b floats"},
		{"node that nothing touches", func(c *Circuit) {
			c.Source(c.Node("a"), 0, 1, 1)
			c.Node("b")
		}, "node b floats"},
		{"supply without resistance", func(c *Circuit) { c.Source(c.Node("a"), 0, 1, 0) }, "resistance 0 ohm"},
		{"resistance that is no number", func(c *Circuit) { c.Resistor(c.Node("a"), 0, math.NaN()) }, "resistance NaN ohm"},
		{"both ends on one node", func(c *Circuit) { c.Resistor(c.Node("a"), c.Node("a"), 1) }, "both ends on node a"},
		{"bad name", func(c *Circuit) { c.Node("Floor 1") }, `node name "Floor 1"`},
		{"drop-out above pick-up", func(c *Circuit) {
			bad := good
			bad.DropOutA = 2 * bad.PickUpA
			c.Coil("k", c.Node("a"), 0, bad)
		}, "coil k: pick-up current must lie above"},
		{"lamp colder when hot", func(c *Circuit) {
			c.Lamp("l", c.Node("a"), 0, LampSpec{RatedV: 24, ColdOhm: 240, HotOhm: 200, Filament: lamp.Usual})
		}, "lamp l: want 0 < cold ohms <= hot ohms"},
		{"lamp for no voltage", func(c *Circuit) {
			c.Lamp("l", c.Node("a"), 0, LampSpec{ColdOhm: 1, HotOhm: 200, Filament: lamp.Usual})
		}, "lamp l: rated voltage"},
		{"lamp without a filament", func(c *Circuit) {
			c.Lamp("l", c.Node("a"), 0, LampSpec{RatedV: 24, ColdOhm: 1, HotOhm: 200})
		}, "lamp l: filament must take a millisecond"},
		{"contacts the wrong way round", func(c *Circuit) { c.ClosedOhm, c.OpenOhm = 1, 0.1 }, "want 0 < closed < open"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := New()
			tt.build(c)
			assert.ErrorContains(t, c.Seal(), tt.want)
		})
	}
}
