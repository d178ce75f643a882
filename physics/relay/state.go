package relay

import (
	"math"

	"wheelroom/physics/phrase"
)

// Forced is what a fault makes of a relay.
type Forced uint8

// The forced states of a relay. A held armature stays where it is whatever
// the current does; a broken winding carries none.
const (
	Free Forced = iota
	HeldOut
	HeldIn
	OpenCircuit
)

// String returns the name of the forced state.
func (f Forced) String() string {
	return [...]string{"free", "held out", "held in", "open circuit"}[f]
}

// A State is a running circuit at one instant. Reading never changes what it
// will do; a change of contacts takes effect at Solve, or at the next call
// that needs it.
type State struct {
	c      *Circuit
	closed []bool
	on     []bool // diodes conducting now
	rest   []bool // diodes conducting when everything has settled
	coils  []coilState
	lamps  []lampState

	dirty    bool
	t        float64   // seconds since the last solve
	next     float64   // on the same clock: when something switches
	diodeAt  []float64 // on the same clock, by diode
	clock    float64   // seconds since NewState
	amps     []float64 // coil currents at ampsT
	ampsT    float64
	target   []float64 // coil currents this topology heads for, diodes as they are
	headed   []float64 // coil currents this topology settles at
	restV    []float64 // node voltages it settles at
	volts    []float64 // node voltages at voltsT
	voltsT   float64
	open     mesh // coils left out: their currents are fed in
	modes    modes
	settledT float64 // from here on every current is its target

	moved []CoilID
	err   phrase.Phrase
	stuck bool // the diodes found no consistent state
	flips int  // diode flips since time last moved on
	slack float64

	work scratch
}

type coilState struct {
	in     bool // armature
	beyond bool // the current has passed the threshold that would move the armature
	frozen bool // chattered: no longer moves
	forced Forced
	slow   float64 // factor on all times
	since  float64 // when it passed, on the clock of State.t
	at     float64 // when the current passes, passes back, or the armature moves
	moves  int     // inside the window
	window float64 // start of it, on State.clock
}

// scratch is what a solve needs and a copy does not.
type scratch struct {
	closed mesh      // coils as their resistance
	x      []float64 // by node
	kick   []float64 // by coil: how far it is from its target, or is disturbed
	stray  []float64 // by coil at rest: disturbance left out, in pick-ups
	index  []int32   // by coil: place among live, or -1
	live   []CoilID
	rth    []float64 // live by live
	dio    []float64 // diode by live
	group  []int32
	gain   []float64
	a, q   []float64 // eigenvectors
	amp    []float64 // one sum of exponentials
	rate   []float64
}

// NewState returns the circuit as it stands before power has done anything:
// contacts at rest, all coils dead.
func NewState(c *Circuit) *State {
	if !c.sealed {
		panic("relay: circuit is not sealed")
	}
	n, k, d := len(c.names), len(c.coils), len(c.diodes)
	s := &State{
		c:       c,
		closed:  make([]bool, len(c.contacts)),
		on:      make([]bool, d),
		rest:    make([]bool, d),
		coils:   make([]coilState, k),
		lamps:   make([]lampState, len(c.lamps)),
		diodeAt: make([]float64, d),
		amps:    make([]float64, k),
		target:  make([]float64, k),
		headed:  make([]float64, k),
		restV:   make([]float64, n),
		volts:   make([]float64, n),
		open:    c.plan.newMesh(),
		moved:   make([]CoilID, 0, k),
		dirty:   true,
	}
	for i, k := range c.contacts {
		s.closed[i] = k.closed
	}
	for i := range s.coils {
		s.coils[i].slow = 1
	}
	for i := range s.lamps {
		s.lamps[i].at = math.Inf(1)
	}
	s.work.closed = c.plan.newMesh()
	s.work.x = make([]float64, n)
	s.work.kick = make([]float64, k)
	s.work.stray = make([]float64, k)
	s.work.index = make([]int32, k)
	return s
}

// CopyFrom makes s the same as o, which must be a state of the same circuit.
// It allocates nothing once s has held a state as busy as o.
func (s *State) CopyFrom(o *State) {
	if s.c != o.c {
		panic("relay: copy between states of different circuits")
	}
	copy(s.closed, o.closed)
	copy(s.on, o.on)
	copy(s.rest, o.rest)
	copy(s.coils, o.coils)
	copy(s.lamps, o.lamps)
	copy(s.diodeAt, o.diodeAt)
	copy(s.amps, o.amps)
	copy(s.target, o.target)
	copy(s.headed, o.headed)
	copy(s.restV, o.restV)
	copy(s.volts, o.volts)
	s.open.copyFrom(&o.open)
	s.modes.copyFrom(&o.modes)
	s.moved = append(s.moved[:0], o.moved...)
	s.dirty, s.t, s.next, s.clock = o.dirty, o.t, o.next, o.clock
	s.ampsT, s.voltsT, s.settledT = o.ampsT, o.voltsT, o.settledT
	s.err, s.stuck, s.flips, s.slack = o.err, o.stuck, o.flips, o.slack
}

// Set closes or opens a contact. Nothing follows from it before Solve.
func (s *State) Set(k ContactID, closed bool) {
	if s.closed[k] != closed {
		s.closed[k] = closed
		s.dirty = true
	}
}

// Closed reports how a contact stands.
func (s *State) Closed(k ContactID) bool { return s.closed[k] }

// Follow sets the contacts which the coil's armature carries.
func (s *State) Follow(k CoilID) {
	for _, o := range s.c.coils[k].owns {
		s.Set(o.contact, s.coils[k].in != o.normallyClosed)
	}
}

// Force puts a relay into a forced state or frees it. An armature that has to
// move for it does so at the end of the next Advance.
func (s *State) Force(k CoilID, f Forced) {
	if s.coils[k].forced != f {
		s.coils[k].forced = f
		s.dirty = true
	}
}

// SetSlow puts a factor > 0 on all times of a relay, 1 as built.
func (s *State) SetSlow(k CoilID, factor float64) {
	if !(factor > 0) {
		panic("relay: slow factor must be more than 0")
	}
	if s.coils[k].slow != factor {
		s.coils[k].slow = factor
		s.dirty = true
	}
}

// In reports whether the coil's armature is in.
func (s *State) In(k CoilID) bool { return s.coils[k].in }

// Moved lists the coils whose armatures moved at the end of the last Advance,
// in coil order. It is valid until the next Advance.
func (s *State) Moved() []CoilID { return s.moved }

// Heading reports whether the armature would be in once the topology as it
// is has settled: the question "who made it turn" before it has turned.
func (s *State) Heading(k CoilID) bool {
	s.Solve()
	o, spec := &s.coils[k], &s.c.coils[k].spec
	switch {
	case o.forced == HeldIn:
		return true
	case o.forced == HeldOut:
		return false
	case o.frozen:
		return o.in
	case o.in:
		return math.Abs(s.headed[k]) > spec.DropOutA
	}
	return math.Abs(s.headed[k]) >= spec.PickUpA
}

// CoilA returns the current through a coil, A, from its first node to its
// second.
func (s *State) CoilA(k CoilID) float64 {
	s.Solve()
	s.currents()
	return s.amps[k]
}

// Volts returns the voltage of a node above ground.
func (s *State) Volts(n Node) float64 {
	s.Solve()
	s.voltages()
	return s.volts[n]
}

// Amps returns the current through an element, A, from its first node to its
// second.
func (s *State) Amps(id ElementID) float64 {
	e := &s.c.elements[id]
	if e.Kind == Coil {
		return s.CoilA(CoilID(e.Index))
	}
	v := s.Volts(e.A) - s.Volts(e.B)
	switch e.Kind {
	case Source:
		return (v - e.Volts) / e.Ohms
	case Diode:
		leak := v / s.c.OpenOhm
		if s.on[e.Index] {
			return leak + (v-e.Volts)/e.Ohms
		}
		return leak
	}
	return v / s.ohms(e)
}

// Rest returns the voltage of every node at the resistive operating point of
// the frozen instant: contacts and lamps as they stand, coils as their
// resistance,
// diodes as they end up.
func (c *Circuit) Rest(s *State) []float64 {
	s.Solve()
	return append([]float64(nil), s.restV...)
}

// Slack returns what the last solve left out, in units of pick-up current: to
// first order this topology puts no coil's current off by more.
func (s *State) Slack() float64 { return s.slack }

// Err returns what went wrong, or the empty phrase: "relay.chatter" with the
// coil, whose armature no longer moves from then on, or "relay.diodes" when
// no consistent state of the diodes was found.
func (s *State) Err() phrase.Phrase { return s.err }

// Travelled returns how long a coil's armature has been on its way, seconds,
// or -1 for one whose current does not ask it to move.
func (s *State) Travelled(k CoilID) float64 {
	c := &s.coils[k]
	if !c.beyond {
		return -1
	}
	return s.t - c.since
}
