package relay

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A relay that breaks its own feed buzzes; the model says so and stops it.
func TestChatter(t *testing.T) {
	c := New()
	plus, top := c.Node("plus"), c.Node("top")
	c.Source(plus, 0, 110, 0.5)
	breaks := c.Contact("breaks", plus, top, true)
	k := c.Coil("buzzer", top, 0, SpecFor(110, 2000, 0.015, 0.010))
	c.Owns(k, breaks, true)
	s := seal(t, c)
	for range 1000 {
		if math.IsInf(s.Next(), 1) {
			break
		}
		s.Advance(s.Next())
		s.Follow(k)
	}
	assert.True(t, math.IsInf(s.Next(), 1))
	assert.Equal(t, "relay.chatter[coil=buzzer]", s.Err().String())
}

// Diodes that keep turning over with no time between are given up, not
// followed for ever.
func TestDiodesGivenUp(t *testing.T) {
	c := New()
	a := c.Node("a")
	c.Source(a, 0, 110, 0.5)
	c.Diode("d", a, 0)
	s := seal(t, c)
	s.Solve()
	s.flips = 1000
	s.diodeAt[0], s.next = s.t, s.t
	s.Advance(0)
	assert.Equal(t, "relay.diodes", s.Err().ID)
	assert.True(t, math.IsInf(s.Next(), 1))
}

func TestCopy(t *testing.T) {
	l := newLadder(t, 6)
	s := NewState(l.c)
	s.Set(l.button[5], true)
	run(s, 0.020)
	s.Set(l.button[1], true)
	run(s, 0.003)
	o := NewState(l.c)
	o.CopyFrom(s)
	assert.Equal(t, trail(l, s, 0.2), trail(l, o, 0.2))
}

// trail runs on and spells every move with the bits of its time and of every
// voltage.
func trail(l *ladder, s *State, seconds float64) []string {
	var out []string
	for seconds > 0 {
		dt := math.Min(seconds, s.Next())
		s.Advance(dt)
		seconds -= dt
		for _, k := range s.Moved() {
			s.Follow(k)
		}
		line := fmt.Sprintf("%x %v", math.Float64bits(seconds), s.Moved())
		for n := range l.c.Nodes() {
			line += fmt.Sprintf(" %x", math.Float64bits(s.Volts(Node(n))))
		}
		out = append(out, line)
	}
	return out
}

// The same bits on every target: the number was made on amd64, and the test
// runs as WebAssembly too.
func TestSameEverywhere(t *testing.T) {
	l := newLadder(t, 8)
	s := NewState(l.c)
	h := fnv.New64a()
	for f := range l.button {
		s.Set(l.button[f], true)
		for _, line := range trail(l, s, 0.013) {
			h.Write([]byte(line))
		}
		s.Set(l.button[f], false)
		s.Set(l.above[f], !s.Closed(l.above[f]))
	}
	for k := range l.c.Contacts() {
		s.Set(ContactID(k), k%3 == 0)
	}
	for _, line := range trail(l, s, 0.1) {
		h.Write([]byte(line))
	}
	assert.Equal(t, "f19369b655caf545", fmt.Sprintf("%x", binary.BigEndian.Uint64(h.Sum(nil))))
}

func TestNoAllocations(t *testing.T) {
	l := newLadder(t, 12)
	s := NewState(l.c)
	for f := range l.button {
		s.Set(l.button[f], f%2 == 0)
	}
	settle(s)
	other := NewState(l.c)
	round := func() {
		other.CopyFrom(s)
		for f := range l.button {
			other.Set(l.button[f], true)
			other.Set(l.above[f], f%3 == 0)
			other.Solve()
			for range 4 {
				other.Advance(math.Min(0.002, other.Next()))
				for _, k := range other.Moved() {
					other.Follow(k)
				}
				other.Volts(1)
			}
		}
	}
	round()
	require.Empty(t, other.Err().ID)
	assert.Zero(t, testing.AllocsPerRun(20, round))
	assert.Zero(t, testing.AllocsPerRun(100, func() { s.Advance(1e-3) }))
}

// A contact between equal potentials moves nothing.
func TestIdleContact(t *testing.T) {
	c := New()
	plus, a, b := c.Node("plus"), c.Node("a"), c.Node("b")
	c.Source(plus, 0, 110, 0.5)
	c.Resistor(plus, a, 100)
	c.Resistor(plus, b, 100)
	spec := SpecFor(110, 2000, 0.015, 0.010)
	ka, kb := c.Coil("a", a, 0, spec), c.Coil("b", b, 0, spec)
	tie := c.Contact("tie", a, b, false)
	s := seal(t, c)
	run(s, 10)
	before := s.CoilA(ka)
	s.Set(tie, true)
	s.Solve()
	assert.Empty(t, s.modes.cluster)
	assert.InDelta(t, before, s.CoilA(kb), 1e-12)
}
