package relay

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/lamp"
	"wheelroom/physics/trial"
)

// lampBench puts one lamp behind an ideal contact.
func lampBench(t testing.TB, volts float64, spec LampSpec) (s *State, feed ContactID, l ElementID) {
	c := ideal()
	plus, top := c.Node("plus"), c.Node("top")
	c.Source(plus, 0, volts, idealOhm)
	feed = c.Contact("feed", plus, top, false)
	l = c.Lamp("lamp", top, 0, spec)
	return seal(t, c), feed, l
}

// OpenStax, University Physics vol. 2, Example 9.6: a tungsten filament of
// 0.350 ohm at 20 °C has 4.8 ohm at work, 13.7 times as much.
func TestInrush(t *testing.T) {
	assert.InDelta(t, 13.7, HotRatio, 0.05)
	s, feed, l := lampBench(t, 3, LampFor(3, 3*3/4.8))
	assert.InDelta(t, 0.350, s.Ohms(l), 1e-12)
	s.Set(feed, true)
	assert.InDelta(t, 3/0.350, s.Amps(l), 1e-4)
	run(s, 1)
	assert.InDelta(t, 4.8, s.Ohms(l), 1e-12)
	assert.InDelta(t, 3/4.8, s.Amps(l), 1e-5)
}

// Small indicator lamps rise in 40 to 100 ms and fall in 20 to 50 ms (IES
// Lighting Handbook, value from memory).
func TestLampTimes(t *testing.T) {
	s, feed, l := lampBench(t, 110, LampFor(110, 3))
	assert.True(t, math.IsInf(s.Next(), 1))
	for range 2 {
		s.Set(feed, true)
		rise := s.Next()
		assert.InDelta(t, lamp.Usual.RiseS, rise, 1e-12)
		assert.True(t, rise >= 0.040 && rise <= 0.100)
		s.Advance(rise)
		assert.True(t, s.Hot(l))
		assert.InDelta(t, lamp.Hot, s.Glow(l), 1e-12)
		assert.True(t, math.IsInf(s.Next(), 1))
		s.Advance(2) // to the end, as near as makes no difference

		s.Set(feed, false)
		fall := s.Next()
		assert.InDelta(t, lamp.Usual.FallS, fall, 1e-12)
		assert.True(t, fall >= 0.020 && fall <= 0.050)
		s.Advance(fall)
		assert.False(t, s.Hot(l))
		assert.InDelta(t, lamp.Cold, s.Glow(l), 1e-12)
		assert.True(t, math.IsInf(s.Next(), 1))
		s.Advance(2)
	}
}

// The temperature goes on from where it is: a lamp cut off for a moment needs
// less to be hot again, and one fed again in time never gets cold.
func TestLampCutOffForAMoment(t *testing.T) {
	f := lamp.Usual
	s, feed, l := lampBench(t, 110, LampFor(110, 3))
	s.Set(feed, true)
	run(s, 0.9*f.RiseS)
	s.Set(feed, false)
	run(s, 0.1*f.FallS)
	assert.False(t, s.Hot(l))
	s.Set(feed, true)
	// a tenth to the powers of 0.9 and 0.1, by hand
	warm := (1 - 0.1258925) * 0.7943282
	assert.InDelta(t, warm, s.Glow(l), 1e-6)
	assert.InDelta(t, f.RiseS*(1+math.Log10(1-warm)), s.Next(), 1e-7)
	run(s, 1)
	require.True(t, s.Hot(l))
	for range 20 {
		s.Set(feed, false)
		run(s, 0.9*f.FallS)
		s.Set(feed, true)
		assert.True(t, math.IsInf(s.Next(), 1))
		run(s, 0.001)
		require.True(t, s.Hot(l))
		run(s, 1)
	}
}

// A contact that bounces for up to 5 ms (Kuphaldt, Lessons in Electric Circuits
// vol. Digital, switches; the time is from memory) opens and closes a lamp's
// circuit many times, and the lamp does not show it: it warms as it would, and
// once hot it stays so.
func TestBounceDoesNotShow(t *testing.T) {
	bounce := func(s *State, feed ContactID) {
		for range 5 { // half a millisecond open, half closed
			s.Set(feed, false)
			run(s, 0.0005)
			s.Set(feed, true)
			run(s, 0.0005)
		}
	}
	for _, f := range []lamp.Lamp{lamp.Quick, lamp.Usual, lamp.Slow} {
		spec := LampFor(110, 3)
		spec.Filament = f
		s, feed, l := lampBench(t, 110, spec)
		s.Set(feed, true)
		bounce(s, feed)
		for left := f.RiseS; left > 0; left -= 0.001 {
			run(s, 0.001)
		}
		assert.True(t, s.Hot(l), "no later than 5 ms after the rise")
		run(s, 1)
		bounce(s, feed)
		assert.True(t, s.Hot(l))
		assert.Greater(t, s.Glow(l), 0.7)
		assert.Equal(t, lamp.Hidden, lamp.Sees(0.005))
	}
}

// From the voltage at which it takes its rated power cold, a lamp gets hot and
// stays so; under that it stays cold, whatever it was.
func TestLampUnderVoltage(t *testing.T) {
	for _, c := range []struct {
		share float64 // of rated voltage
		hot   bool
	}{{1, true}, {0.5, true}, {0.271, true}, {0.269, false}, {0.1, false}, {0, false}} {
		for _, before := range []bool{false, true} {
			b := ideal()
			full, low, top := b.Node("full"), b.Node("low"), b.Node("top")
			b.Source(full, 0, 110, idealOhm)
			b.Source(low, 0, 110*c.share, idealOhm)
			first := b.Contact("first", full, top, before)
			then := b.Contact("then", low, top, false)
			l := b.Lamp("lamp", top, 0, LampFor(110, 3))
			s := seal(t, b)
			run(s, 1)
			require.Equal(t, before, s.Hot(l))
			s.Set(first, false)
			s.Set(then, true)
			assert.Equal(t, c.hot, s.Fed(l), "%g", c.share)
			run(s, 1)
			assert.Equal(t, c.hot, s.Hot(l), "%g", c.share)
			assert.Equal(t, c.hot, s.Fed(l), "%g", c.share)
		}
	}
	// 1/√13.7, as the share of the voltage
	assert.InDelta(t, 0.270, LampFor(110, 3).fedV()/110, 0.0005)
}

// On a weak supply the inrush of a lamp keeps a relay out until the filament
// is hot, and drops one that is in; with a supply as stiff as a panel's neither
// notices.
func TestInrushDipsAWeakSupply(t *testing.T) {
	build := func(insideOhm float64) (s *State, on, light ContactID, k CoilID, l ElementID) {
		c := New()
		plus, top, lit := c.Node("plus"), c.Node("top"), c.Node("lit")
		c.Source(plus, 0, 110, insideOhm)
		on = c.Contact("on", plus, top, false)
		light = c.Contact("light", plus, lit, false)
		k = c.Coil("k", top, 0, SpecFor(110, 2000, 0.015, 0.010))
		l = c.Lamp("lamp", lit, 0, LampFor(110, 30))
		return seal(t, c), on, light, k, l
	}
	t.Run("weak", func(t *testing.T) {
		// 30 W hot are 403 ohm, 29.4 cold: behind 50 ohm some 40 V are left,
		// under the 66 V at which the relay comes in and over the 20 at which
		// it lets go.
		s, on, light, k, l := build(50)
		s.Set(on, true)
		s.Set(light, true)
		assert.InDelta(t, 40.5, s.Volts(1), 0.2) // the coil draws nothing yet
		assert.False(t, s.Heading(k))
		move := untilMove(t, s)
		assert.Greater(t, move, lamp.Usual.RiseS)
		assert.Less(t, move, lamp.Usual.RiseS+0.020)
		assert.True(t, s.Hot(l))
		// 403 beside the coil's 2000 and its suppressor's 3614, behind 50 ohm
		run(s, 1)
		assert.InDelta(t, 94.6, s.Volts(1), 0.1)
		s.Set(light, false)
		run(s, 1)
		s.Set(light, true)
		run(s, 1)
		assert.True(t, s.In(k), "40 V hold it")
		assert.Empty(t, s.Err().ID)
	})
	t.Run("weaker", func(t *testing.T) {
		// Behind 200 ohm 14 V are left, under what holds the relay and under
		// what warms the lamp.
		s, on, light, k, l := build(200)
		s.Set(on, true)
		run(s, 1)
		require.True(t, s.In(k))
		s.Set(light, true)
		run(s, 1)
		assert.False(t, s.In(k))
		assert.False(t, s.Hot(l))
	})
	t.Run("stiff", func(t *testing.T) {
		s, on, light, k, _ := build(0.5)
		s.Set(on, true)
		s.Set(light, true)
		assert.True(t, s.Heading(k))
		assert.InDelta(t, 0.015, untilMove(t, s), 0.001)
	})
}

// A relay that lights the lamp whose inrush drops it goes on and off, a few
// milliseconds each way. That is chatter, and is stopped.
func TestRelayDroppedByItsLampChatters(t *testing.T) {
	c := New()
	plus, lit := c.Node("plus"), c.Node("lit")
	c.Source(plus, 0, 110, 200)
	light := c.Contact("light", plus, lit, false)
	k := c.Coil("k", plus, 0, SpecFor(110, 2000, 0.015, 0.010))
	c.Lamp("lamp", lit, 0, LampFor(110, 30))
	c.Owns(k, light, false)
	s := seal(t, c)
	rounds := 0
	for ; rounds < 1000 && !math.IsInf(s.Next(), 1); rounds++ {
		s.Advance(s.Next())
		for _, moved := range s.Moved() {
			s.Follow(moved)
		}
	}
	assert.Less(t, rounds, 1000)
	assert.Equal(t, "relay.chatter[coil=k]", s.Err().String())
}

// lit adds lamps to a tangle, quick ones, so that many changes fall into
// little time.
func lit(r *rand.Rand, c *Circuit, n int) {
	for i := range n {
		a := 1 + r.IntN(c.Nodes()-1)
		b := (a + 1 + r.IntN(c.Nodes()-1)) % c.Nodes()
		spec := LampFor(24, 24*24/(50*math.Exp(4*r.Float64())))
		spec.Filament = lamp.Lamp{RiseS: 0.002 + 0.002*r.Float64(), FallS: 0.001 + 0.002*r.Float64()}
		c.Lamp(fmt.Sprintf("l%d", i), Node(a), Node(b), spec)
	}
}

// Against the slow twin, which keeps its filaments itself. Its steps are cut
// where one goes over, so that the currents compare as finely as without.
func TestLampsAgainstSlowTwin(t *testing.T) {
	const h, steps, rounding = 10e-6, 500, 2e-6
	changes := 0
	for seed := range uint64(trial.Runs(8)) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 9))
			c := tangle(r, int(seed%3))
			lit(r, c, 4)
			require.NoError(t, c.Seal())
			s, twin := NewState(c), newSlow(c)
			left := 0.0
			for range 4 {
				throw(r, s, twin)
				for n := range steps {
					changes += twin.stepLamps(h)
					for dt := h; dt > 0; {
						d := math.Min(dt, s.Next())
						s.Advance(d)
						dt -= d
						left = math.Max(left, s.Slack())
					}
					for i, f := range c.lamps {
						require.InDelta(t, twin.glow[i], s.Glow(f.element), 1e-6, "lamp %d at step %d", i, n)
						if math.Abs(twin.glow[i]-lamp.Hot) > 1e-6 && math.Abs(twin.glow[i]-lamp.Cold) > 1e-6 {
							require.Equal(t, twin.hot[i], s.Hot(f.element), "lamp %d at step %d", i, n)
						}
					}
					for k := range c.coils {
						pick := c.coils[k].spec.PickUpA
						require.InDelta(t, twin.i[k]/pick, s.CoilA(CoilID(k))/pick, rounding+left, "coil %d at step %d", k, n)
					}
				}
			}
			assert.Empty(t, s.Err().ID)
		})
	}
	assert.Greater(t, changes, 20, "lamps did get hot and cold")
}

// No node gains charge, whatever is cold or hot, and what the supplies give is
// turned into heat or stored: over random networks with lamps going over.
func TestPowerBalanceWithLamps(t *testing.T) {
	went := 0
	for seed := range uint64(trial.Runs(12)) {
		r := rand.New(rand.NewPCG(seed, 11))
		c := tangle(r, 0)
		lit(r, c, 5)
		require.NoError(t, c.Seal())
		s := NewState(c)
		given, heat := 0.0, 0.0
		for range 3 {
			for k := range c.contacts {
				s.Set(ContactID(k), r.IntN(3) > 0)
			}
			for left := 0.02; left > 1e-6; {
				span := math.Min(left, s.Next())
				for node, i := range gained(s) {
					// the leak beside a coil is no element: 110 V over 1 gigaohm
					require.InDelta(t, 0, i, 7*110e-9+1e-9, "seed %d, node %d", seed, node)
				}
				from, in := energies(s, span-2*sameS)
				given, heat = given+from, heat+in
				was := hotLamps(s)
				s.Advance(math.Min(2*sameS, s.Next()))
				if hotLamps(s) != was {
					went++
				}
				left -= span
			}
		}
		assert.InDelta(t, given, heat+stored(s), 1e-5*given, "seed %d", seed)
	}
	assert.Greater(t, went, 10, "lamps did go over")
}

// hotLamps spells which lamps are hot.
func hotLamps(s *State) (out string) {
	for _, f := range s.c.lamps {
		out += fmt.Sprint(s.Hot(f.element), " ")
	}
	return out
}

// gained is the current that runs into each node, A.
func gained(s *State) []float64 {
	net := make([]float64, s.c.Nodes())
	for id, e := range s.c.elements {
		i := s.Amps(ElementID(id))
		net[e.A] -= i
		net[e.B] += i
	}
	return net
}

// stored is the energy in the coils, joules.
func stored(s *State) (sum float64) {
	for k := range s.c.coils {
		i := s.CoilA(CoilID(k))
		sum += s.c.coils[k].spec.HenryL * i * i / 2
	}
	return sum
}

// energies lets seconds pass in which nothing switches, and adds up by
// Simpson's rule what the supplies give and what turns into heat, joules.
func energies(s *State, seconds float64) (given, heat float64) {
	steps := 2 * int(1+seconds/40e-6)
	h := seconds / float64(steps)
	for n := range steps + 1 {
		weight := h / 3
		switch {
		case n == 0 || n == steps:
		case n%2 == 1:
			weight *= 4
		default:
			weight *= 2
		}
		for id, e := range s.c.elements {
			i := s.Amps(ElementID(id))
			switch e.Kind {
			case Source:
				given -= weight * e.Volts * i
				heat += weight * i * i * e.Ohms
			case Coil:
				heat += weight * i * i * e.Ohms
			default:
				heat += weight * i * i * s.Ohms(ElementID(id))
			}
		}
		if n < steps {
			s.Advance(h)
		}
	}
	return given, heat
}
