package relay

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A ladder is a made-up panel with the shape of a lift's: for each floor a
// call relay that seals itself and feeds an up or a down line through a
// change-over, and a row of common relays behind one another's contacts.
type ladder struct {
	c      *Circuit
	main   ContactID
	button []ContactID
	above  []ContactID
	below  []ContactID
	call   []CoilID
}

const commonRelays = 14

func newLadder(t testing.TB, floors int) *ladder {
	l := newLadderOf(floors)
	require.NoError(t, l.c.Seal())
	return l
}

// newLadderOf leaves the circuit open for more.
func newLadderOf(floors int) *ladder {
	l := &ladder{c: New()}
	c := l.c
	name := func(s string, i int) string { return fmt.Sprintf("%s_%d", s, i) }
	plus, mains := c.Node("plus"), c.Node("mains")
	c.Source(mains, 0, 110, 0.5)
	l.main = c.Contact("main", mains, plus, true)
	up, down := c.Node("up"), c.Node("down")
	for f := range floors {
		spec := SpecFor(110, 2000, 0.015, 0.010)
		top, mid, coil, feed := c.Node(name("a", f)), c.Node(name("b", f)), c.Node(name("c", f)), c.Node(name("d", f))
		l.button = append(l.button, c.Contact(name("button", f), plus, coil, false))
		seal := c.Contact(name("seal", f), plus, top, false)
		c.Contact(name("centre", f), top, mid, true)
		c.Contact(name("door", f), mid, coil, true)
		k := c.Coil(name("call", f), coil, 0, spec)
		l.call = append(l.call, k)
		c.Owns(k, seal, false)
		makes := c.Contact(name("call_made", f), plus, feed, false)
		c.Owns(k, makes, false)
		l.above = append(l.above, c.Contact(name("above", f), feed, up, f > floors/2))
		l.below = append(l.below, c.Contact(name("below", f), feed, down, f < floors/2))
		c.Lamp(name("lamp", f), feed, 0, LampFor(110, 3))
	}
	for i := range commonRelays {
		line := up
		if i%2 == 1 {
			line = down
		}
		ohms := 400 + 200*float64(i)
		spec := SpecFor(110, ohms, 0.010+0.002*float64(i), 0.010)
		a, b := c.Node(name("r", i)), c.Node(name("s", i))
		for j := range 2 {
			other := c.Contact(name(fmt.Sprintf("lock%d", j), i), line, a, i < 2)
			if i >= 2 {
				c.Owns(CoilID(floors+i-1-j), other, j == 0)
			}
		}
		c.Contact(name("nc", i), a, b, true)
		c.Coil(name("relay", i), b, 0, spec)
	}
	return l
}

// settle runs until nothing moves any more.
func settle(s *State) {
	for !math.IsInf(s.Next(), 1) {
		s.Advance(s.Next())
		for _, k := range s.Moved() {
			s.Follow(k)
		}
	}
	s.Advance(1)
}

func benchmarkSolve(b *testing.B, floors int) {
	l := newLadder(b, floors)
	live := NewState(l.c)
	for f := 0; f < floors; f += 2 {
		live.Set(l.button[f], true)
	}
	settle(live)
	b.ReportMetric(float64(l.c.Nodes()), "nodes")
	b.ReportMetric(float64(l.c.Coils()), "coils")
	s := NewState(l.c)
	i := 0
	for b.Loop() {
		s.CopyFrom(live)
		f := i % floors
		s.Set(l.button[f], !s.Closed(l.button[f]))
		s.Set(l.above[f], !s.Closed(l.above[f]))
		s.Solve()
		i++
	}
}

func BenchmarkSolve12Floors(b *testing.B)  { benchmarkSolve(b, 12) }
func BenchmarkSolve200Floors(b *testing.B) { benchmarkSolve(b, 200) }

// An outage leaves every relay that was in on one dead rail: one cluster of
// strong ties, whatever its size.
func BenchmarkOutage12Floors(b *testing.B)  { benchmarkOutage(b, 12) }
func BenchmarkOutage200Floors(b *testing.B) { benchmarkOutage(b, 200) }

func benchmarkOutage(b *testing.B, floors int) {
	l := newLadder(b, floors)
	live := NewState(l.c)
	for f := range l.button {
		live.Set(l.button[f], f%2 == 0)
	}
	settle(live)
	s := NewState(l.c)
	for b.Loop() {
		s.CopyFrom(live)
		s.Set(l.main, false)
		s.Solve()
	}
}

func BenchmarkAdvance(b *testing.B) {
	l := newLadder(b, 12)
	s := NewState(l.c)
	s.Set(l.button[3], true)
	settle(s)
	for b.Loop() {
		s.Advance(1e-3)
	}
}
