package relay

import (
	"math"

	"wheelroom/physics/phrase"
)

const (
	// sameS: what happens within a nanosecond happens at once.
	sameS = 1e-9
	// hair keeps a current that stands at its threshold from passing it back.
	hair = 1e-9
	// A relay that moves more than chatterMoves times in chatterS seconds
	// chatters. A lift relay moves a few times a trip, five times a second
	// under a drumming finger; one that breaks its own feed, alone or through
	// a contactor, moves 20 to 80 times (common practice, no source).
	chatterMoves = 30
	chatterS     = 2.0
)

// Next returns the seconds until the next armature moves, +Inf if none will.
// It may be less: the instant at which a current passes a threshold, or a
// diode turns over or a lamp has become hot or cold, counts too, and Moved is
// then empty.
func (s *State) Next() float64 {
	s.Solve()
	return math.Max(0, s.next-s.t)
}

// Advance lets dt seconds pass, 0 <= dt <= Next(). It evaluates nothing
// unless something switches at the end of it.
func (s *State) Advance(dt float64) {
	s.Solve()
	s.moved = s.moved[:0]
	if dt < 0 || s.t+dt > s.next+1e3*sameS {
		panic("relay: advanced past a switching event")
	}
	if dt > sameS {
		s.flips = 0
	}
	s.t += dt
	s.clock += dt
	if s.t >= s.next-sameS {
		s.happen()
	}
}

// happen carries out everything due at this instant.
func (s *State) happen() {
	for k := range s.coils {
		s.step(CoilID(k))
	}
	s.warm()
	for d, at := range s.diodeAt {
		if at <= s.t+sameS && !s.stuck {
			s.on[d] = !s.on[d]
			s.dirty = true
			s.flips++
		}
	}
	if s.flips > 8+8*len(s.on) {
		s.fail(phrase.Of("relay.diodes"))
		s.stuck = true
	}
	s.Solve()
	s.earliest()
}

// step takes one coil through what is due: its current passes the threshold,
// passes back, or the armature moves.
func (s *State) step(k CoilID) {
	o := &s.coils[k]
	// a crossing with no delay moves at once; two rounds do for that
	for round := 0; o.at <= s.t+sameS && round < 4; round++ {
		switch {
		case o.forced == HeldIn || o.forced == HeldOut:
			s.move(k)
		case !o.beyond:
			o.beyond, o.since = true, o.at
		case o.since+s.delay(k) <= s.t+sameS:
			s.move(k)
		default:
			o.beyond = false
		}
		s.watch(k)
	}
}

// move lets the armature go over.
func (s *State) move(k CoilID) {
	o := &s.coils[k]
	o.in, o.beyond = !o.in, false
	if n := len(s.moved); n == 0 || s.moved[n-1] != k {
		s.moved = append(s.moved, k)
	}
	if s.clock-o.window > chatterS {
		o.window, o.moves = s.clock, 0
	}
	if o.moves++; o.moves > chatterMoves {
		o.frozen = true
		s.fail(phrase.Of("relay.chatter", "coil", s.c.elements[s.c.coils[k].element].Name))
	}
}

func (s *State) delay(k CoilID) float64 {
	o, spec := &s.coils[k], &s.c.coils[k].spec
	if o.in {
		return spec.ReleaseDelayS * o.slow
	}
	return spec.OperateDelayS * o.slow
}

// watchAll finds the next event of every coil and diode of a new topology.
func (s *State) watchAll() {
	for k := range s.coils {
		s.watch(CoilID(k))
	}
	s.earliest()
}

func (s *State) earliest() {
	s.next = math.Inf(1)
	for k := range s.coils {
		s.next = math.Min(s.next, s.coils[k].at)
	}
	for i := range s.lamps {
		s.next = math.Min(s.next, s.lamps[i].at)
	}
	if s.stuck {
		return
	}
	for _, at := range s.diodeAt {
		s.next = math.Min(s.next, at)
	}
}

// watch finds the next event of one coil from now on.
func (s *State) watch(k CoilID) {
	o, spec := &s.coils[k], &s.c.coils[k].spec
	switch {
	case o.frozen:
		o.at = math.Inf(1)
	case o.forced == HeldIn || o.forced == HeldOut:
		o.beyond, o.at = false, math.Inf(1)
		if o.in != (o.forced == HeldIn) {
			o.at = s.t
		}
	case o.in && !o.beyond:
		o.at = s.sinks(k, spec.DropOutA)
	case o.in:
		o.at = math.Min(math.Max(o.since+s.delay(k), s.t), s.grows(k, spec.DropOutA*(1+hair)))
	case !o.beyond:
		o.at = s.grows(k, spec.PickUpA)
	default:
		o.at = math.Min(math.Max(o.since+s.delay(k), s.t), s.sinks(k, spec.PickUpA*(1-hair)))
	}
}

// grows returns when the size of a coil's current is level or more.
func (s *State) grows(k CoilID, level float64) float64 {
	return math.Min(s.meets(k, level, 1), s.meets(k, level, -1))
}

// sinks returns when the size of a coil's current is level or less. A current
// that jumps the band between the two levels passes through it.
func (s *State) sinks(k CoilID, level float64) float64 {
	s.currents()
	switch i := s.amps[k]; {
	case i > level:
		return s.meets(k, -level, -1)
	case i < -level:
		return s.meets(k, -level, 1)
	}
	return s.t
}

// meets returns when sign times the current is level or more.
func (s *State) meets(k CoilID, level, sign float64) float64 {
	if s.t > s.settledT {
		if sign*s.target[k] >= level {
			return s.t
		}
		return math.Inf(1)
	}
	amp, rate := s.sum(k)
	if sign < 0 {
		for i := range amp {
			amp[i] = -amp[i]
		}
	}
	return reach(sign*s.target[k], amp, rate, level, s.t)
}
