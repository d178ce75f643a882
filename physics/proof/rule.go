package proof

import (
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// A rule is the written rule of service of a scheme, in terms of calls and of
// where the car is. It knows nothing of relays except what the scheme is said
// to remember. It answers for 64 cases at once, like the circuit it is held
// against.
type rule struct {
	// rest: the car stands ready; it opens its doors, or starts up or down.
	rest func(s *sight) (open, up, down uint64)
	// stop: the car runs; it is to be slowed for a stop now.
	stop func(s *sight, up bool) uint64
	// answered: the doors open here; the call is let go.
	answered func(s *sight, c control.Call) uint64
}

// rules by scheme. Direct has no rule of its own: it is held to the least that
// could be asked of it, that of interlocked.
var rules = map[string]rule{
	"direct":      {rest: upFirst, stop: stopForAny, answered: always},
	"interlocked": {rest: upFirst, stop: stopForAny, answered: always},
	"directional": {rest: keepWay, stop: stopForAny, answered: always},
	"two-button":  {rest: keepWayByKind, stop: stopByKind, answered: answeredByKind},
}

// A sight is all a rule may look at.
type sight struct {
	d     *control.Diagram
	calls []uint64
	p     *place
	m     memory
}

// on are the lanes with a call on one side of the car.
func (s *sight) on(side lift.Stand) uint64 {
	w := uint64(0)
	for i, c := range s.d.Calls {
		if s.p.Stand[c.Floor] == side {
			w |= s.calls[i]
		}
	}
	return w
}

// at are the lanes with a call of one of the kinds at floor f; no kinds means
// any.
func (s *sight) at(f int, kinds ...control.CallKind) uint64 {
	w := uint64(0)
	for i, c := range s.d.Calls {
		if c.Floor != f {
			continue
		}
		if len(kinds) == 0 {
			w |= s.calls[i]
		}
		for _, k := range kinds {
			if c.Kind == k {
				w |= s.calls[i]
			}
		}
	}
	return w
}

// beyond are the lanes with a call farther than floor f.
func (s *sight) beyond(f int, up bool) uint64 {
	w := uint64(0)
	for i, c := range s.d.Calls {
		if up && c.Floor > f || !up && c.Floor < f {
			w |= s.calls[i]
		}
	}
	return w
}

// always lets every call go.
func always(*sight, control.Call) uint64 { return all }

// upFirst: a call here opens the doors; else up if anything is above, else
// down.
func upFirst(s *sight) (open, up, down uint64) {
	open = s.here(always)
	above, below := s.on(lift.Above), s.on(lift.Below)
	return open, above &^ open, below &^ above &^ open
}

// keepWay: a call here opens the doors; else on in the direction remembered as
// long as a call lies that way, else the other way.
func keepWay(s *sight) (open, up, down uint64) {
	return s.keep(always)
}

func keepWayByKind(s *sight) (open, up, down uint64) {
	return s.keep(answeredByKind)
}

func (s *sight) keep(answered func(*sight, control.Call) uint64) (open, up, down uint64) {
	open = s.here(answered)
	above, below := s.on(lift.Above), s.on(lift.Below)
	if s.m.Down {
		return open, above &^ below &^ open, below &^ open
	}
	return open, above &^ open, below &^ above &^ open
}

// here are the lanes with a call in whose floor's zone the car stands and
// which is answered there.
func (s *sight) here(answered func(*sight, control.Call) uint64) uint64 {
	w := uint64(0)
	for i, c := range s.d.Calls {
		if s.p.rim[c.Floor] {
			w |= s.calls[i] & answered(s, c)
		}
	}
	return w
}

// stopForAny: at the advance contact of a floor with a call; at that of any
// floor once no call is ahead; and near the end of the travel always.
func stopForAny(s *sight, up bool) uint64 {
	return s.stopAt(up, func(f int) uint64 { return s.at(f) })
}

// stopByKind: for a car call, and for a landing call the way the car goes; for
// one the other way only when no call lies beyond it.
func stopByKind(s *sight, up bool) uint64 {
	mine, other := control.UpCall, control.DownCall
	if !up {
		mine, other = other, mine
	}
	return s.stopAt(up, func(f int) uint64 {
		return s.at(f, control.CarCall, mine) | s.at(f, other)&^s.beyond(f, up)
	})
}

func (s *sight) stopAt(up bool, called func(f int) uint64) uint64 {
	side, advance, end := lift.Above, s.p.advanceUp, s.p.slowTop
	if !up {
		side, advance, end = lift.Below, s.p.advanceDown, s.p.slowLow
	}
	w := word(end)
	ahead := s.on(side)
	for f, made := range advance {
		if made {
			w |= called(f) | ^ahead
		}
	}
	return w
}

// answeredByKind: a car call always; a landing call unless the car is bound
// the other way, which it is as long as calls lie that way since it left.
func answeredByKind(s *sight, c control.Call) uint64 {
	switch {
	case c.Kind == control.UpCall && s.m.BoundDown:
		return ^s.on(lift.Below)
	case c.Kind == control.DownCall && s.m.BoundUp:
		return ^s.on(lift.Above)
	}
	return all
}
