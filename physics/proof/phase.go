package proof

import "wheelroom/physics/lift"

// A Phase is what the lift is doing when its circuit is looked at.
type Phase uint8

// The phases, in the order of a trip.
const (
	Resting    Phase = iota // doors closed and locked, ready to start
	Starting                // the up or down relay in, nothing else yet
	Running                 // at speed, no stop set
	Slowing                 // a stop set
	Arriving                // just come to rest, level, with the stop still set
	Opening                 // the doors on their way, the door relay in
	Standing                // the doors fully open
	Closing                 // the doors on their way back, the door relay out
	Unsafe                  // ready, but for one contact of the safety line
	Tripped                 // running, and the stop switch is opened
	Calling                 // ready, buttons pressed at this moment
	Recovering              // ready between landings, with a stop still set
	Stuck                   // ready, but for one relay that is stuck in
)

// String returns the phase's word.
func (p Phase) String() string {
	return [...]string{"resting", "starting", "running", "slowing", "arriving", "opening", "standing", "closing",
		"unsafe", "tripped", "calling", "recovering", "stuck"}[p]
}

const lastPhase = Stuck

// safetyContacts are the switches of the safety line, opened one at a time in
// the phase Unsafe. The last three are closed while made, the others open.
var safetyContacts = []string{"stop-switch", "governor", "safety-gear", "overload",
	"final-limit-top", "final-limit-bottom", "car-door", "landing-door", "lock"}

// look lets the circuit settle in one phase at one place with one memory, for
// up to 64 call sets, and holds what it does against the rule.
func (j *judge) look(phase Phase, p *place, c chunk, m memory) {
	j.phase, j.place, j.memory, j.chunk = phase, p, m, c
	s := &sight{d: j.b.d, calls: c.calls, p: p, m: m}
	switch phase {
	case Resting, Recovering:
		j.resting(s)
	case Starting:
		j.starting(s)
	case Calling:
		j.calling(s)
	case Stuck:
		j.stuckIn(s)
	case Running:
		j.running(s)
	case Slowing:
		j.slowing(s)
	case Arriving:
		j.arriving(s)
	case Opening, Standing, Closing:
		j.doors(s)
	case Unsafe:
		for _, part := range safetyContacts {
			j.unsafe(s, part)
		}
	case Tripped:
		j.tripped(s, false)
		j.tripped(s, true)
	}
}

// guards tells whether a phase is about what must never happen, whatever is
// called: it is tried with call sets by kind in any building.
func (phase Phase) guards() bool { return phase == Unsafe || phase == Calling || phase == Stuck }

// belongs tells whether a phase can be met at a place with a memory.
func (phase Phase) belongs(b *bench, p *place, m memory) bool {
	switch phase {
	case Resting, Unsafe, Stuck:
		return p.first
	case Calling:
		return p.first && m == memory{}
	case Recovering:
		return p.first && !p.vane
	case Starting, Running, Slowing, Tripped:
		// The direction relay stands as the car runs, and no bound relay
		// against it.
		return b.part.direction < 0 || m.Down != p.Up
	}
	return p.landing >= 0 && p.first
}

func (j *judge) resting(s *sight) {
	b := j.b
	b.lay(j.place, j.chunk, j.memory)
	b.set(b.part.stop, j.phase == Recovering)
	b.follow()
	b.settle()
	open, up, down := j.rule.rest(s)
	j.both()
	j.relay("relay.up", b.part.up, up)
	j.relay("relay.down", b.part.down, down)
	j.relay("relay.up-contactor", b.part.upContactor, up)
	j.relay("relay.down-contactor", b.part.downContactor, down)
	j.relay("relay.brake", b.part.brake, up|down)
	j.either("relay.fast", b.part.fast, b.part.slow, up|down)
	j.relay("relay.door", b.part.door, open)
	j.relay("relay.start", b.part.start, 0)
	if b.part.direction >= 0 {
		j.within("relay.direction", b.part.direction, down, ^open)
	}
	j.bounds()
	j.within("relay.bound-up", b.part.boundUp, up, up|down)
	j.within("relay.bound-down", b.part.boundDown, down, up|down)
	j.callsLeft(s, open)
	j.note(b.get(b.part.up), b.get(b.part.down), b.get(b.part.door))
}

// callsLeft holds the call relays against those that should be left when the
// doors open here in some lanes.
func (j *judge) callsLeft(s *sight, open uint64) {
	for i, c := range j.b.d.Calls {
		left := s.calls[i]
		if s.p.rim[c.Floor] {
			left &^= open & j.rule.answered(s, c)
		}
		j.relay(c.Relay, j.b.calls[i], left)
	}
}

func (j *judge) running(s *sight) {
	b, up := j.b, j.place.Up
	b.lay(j.place, j.chunk, j.memory)
	b.run(up, false)
	b.follow()
	b.settle()
	stop := j.rule.stop(s, up)
	j.both()
	j.relay("relay.stop", b.part.stop, stop)
	// Level with a stop just set, it lets go at once.
	j.moving(up, ^(stop & word(j.place.vane)))
	j.callsLeft(s, 0)
	j.note(b.get(b.part.stop))
}

// moving: one way is in where it should be, and everything that belongs to it.
func (j *judge) moving(up bool, on uint64) {
	b := j.b
	mine, other := on, uint64(0)
	if !up {
		mine, other = other, mine
	}
	j.relay("relay.up", b.part.up, mine)
	j.relay("relay.down", b.part.down, other)
	mine &^= word(j.place.limitTop)
	other &^= word(j.place.limitLow)
	j.relay("relay.up-contactor", b.part.upContactor, mine)
	j.relay("relay.down-contactor", b.part.downContactor, other)
	j.relay("relay.brake", b.part.brake, mine|other)
	stop := b.get(b.part.stop)
	j.relay("relay.slow", b.part.slow, on&stop)
	j.relay("relay.fast", b.part.fast, on&^stop)
	j.relay("relay.door", b.part.door, 0)
	if b.part.direction >= 0 {
		// Once everything has let go the memory may go with it.
		j.within("relay.direction", b.part.direction, word(!up), on)
	}
	j.bounds()
}

func (j *judge) slowing(s *sight) {
	b, up := j.b, j.place.Up
	b.lay(j.place, j.chunk, j.memory)
	b.run(up, true)
	b.follow()
	b.settle()
	j.both()
	j.relay("relay.stop", b.part.stop, all)
	j.moving(up, word(!j.place.vane))
	j.callsLeft(s, 0)
}

// starting: a way once taken stands, whatever is called meanwhile, as long as
// a call that way does.
func (j *judge) starting(s *sight) {
	b, up := j.b, j.place.Up
	way, side := b.part.down, lift.Below
	if up {
		way, side = b.part.up, lift.Above
	}
	b.lay(j.place, j.chunk, j.memory)
	b.set(way, true)
	b.set(b.part.start, true)
	b.follow()
	b.settle()
	called := s.on(side) &^ s.here(always)
	j.both()
	j.within("relay.up", b.part.up, word(up), called)
	j.within("relay.down", b.part.down, word(!up), called)
	j.within("relay.brake", b.part.brake, all, called)
	for i, c := range b.d.Calls {
		j.within(c.Relay, b.calls[i], s.calls[i], called)
	}
}

// calling: every button pressed registers its call.
func (j *judge) calling(s *sight) {
	b := j.b
	b.lay(j.place, j.chunk, j.memory)
	for i, button := range b.buttons {
		b.set(b.calls[i], false)
		if button >= 0 {
			b.lanes.In[button] = s.calls[i]
		}
	}
	b.settle()
	j.both()
	for i, c := range b.d.Calls {
		j.relay(c.Relay, b.calls[i], s.calls[i])
	}
}

// stuckIn: a relay that is stuck in keeps its opposite out, and one that moves
// the car keeps the doors shut even with the safety line broken.
func (j *judge) stuckIn(s *sight) {
	b := j.b
	for _, pair := range []struct {
		stuck, other int
		part         string
	}{
		{b.part.up, b.part.down, "relay.down"},
		{b.part.down, b.part.up, "relay.up"},
		{b.part.upContactor, b.part.downContactor, "relay.down-contactor"},
		{b.part.downContactor, b.part.upContactor, "relay.up-contactor"},
		{b.part.fast, b.part.slow, "relay.slow"},
		{b.part.slow, b.part.fast, "relay.fast"},
	} {
		for _, started := range []bool{false, true} {
			b.lay(j.place, j.chunk, j.memory)
			// Either just started, or with the safety line broken.
			b.set(b.part.start, started)
			b.set(b.part.governor, !started)
			b.stuck = pair.stuck
			b.set(pair.stuck, true)
			b.follow()
			b.settle()
			j.both()
			j.relay(pair.part, pair.other, 0)
			if pair.stuck != b.part.fast && pair.stuck != b.part.slow {
				j.relay("relay.door", b.part.door, 0)
			}
		}
	}
}

func (j *judge) arriving(s *sight) {
	b := j.b
	b.lay(j.place, j.chunk, j.memory)
	b.set(b.part.stop, true)
	b.follow()
	b.settle()
	j.both()
	j.still()
	j.relay("cam", b.part.cam, 0)
	j.relay("lock", b.part.lock, 0)
	j.relay("relay.door", b.part.door, all)
	j.relay("relay.stop", b.part.stop, 0)
	j.kept()
	j.callsLeft(s, all)
}

func (j *judge) doors(s *sight) {
	b := j.b
	open := s.here(j.rule.answered)
	b.lay(j.place, j.chunk, j.memory)
	b.openDoors(j.phase == Standing)
	b.set(b.part.door, j.phase == Opening)
	b.follow()
	b.settle()
	switch j.phase {
	case Opening:
		open = all
		j.relay("relay.door", b.part.door, all)
	case Closing:
		j.relay("relay.door", b.part.door, open)
	case Standing:
		j.relay("relay.door", b.part.door, 0) // in for a moment, and the call is gone
	}
	j.both()
	j.still()
	j.kept()
	j.callsLeft(s, open)
}

// still: nothing that moves the car is in.
func (j *judge) still() {
	b := j.b
	for _, r := range []struct {
		part   string
		signal int
	}{
		{"relay.up", b.part.up}, {"relay.down", b.part.down},
		{"relay.up-contactor", b.part.upContactor}, {"relay.down-contactor", b.part.downContactor},
		{"relay.fast", b.part.fast}, {"relay.slow", b.part.slow}, {"relay.brake", b.part.brake}, {"relay.start", b.part.start},
	} {
		j.relay(r.part, r.signal, 0)
	}
}

// kept: the direction is remembered.
func (j *judge) kept() {
	if j.b.part.direction >= 0 {
		j.relay("relay.direction", j.b.part.direction, word(j.memory.Down))
	}
	j.bounds()
}

// bounds: a bound relay is in only with its own direction, as memories has
// them.
func (j *judge) bounds() {
	b := j.b
	if b.part.boundUp < 0 {
		return
	}
	down := b.get(b.part.direction)
	j.within("relay.bound-up", b.part.boundUp, 0, down)
	j.within("relay.bound-down", b.part.boundDown, 0, ^down)
}

// unsafe: with one contact of the safety line open nothing starts. Calls stay,
// unless the doors open here for one, which only the stop switch prevents.
func (j *judge) unsafe(s *sight, part string) {
	b := j.b
	b.lay(j.place, j.chunk, j.memory)
	switch part {
	case "car-door", "landing-door", "lock":
		b.shut = false
		b.set(b.l.Signal(part, ""), false)
	default:
		b.set(b.l.Signal(part, ""), true)
	}
	b.follow()
	b.settle()
	open, _, _ := j.rule.rest(s)
	if part == "stop-switch" {
		open = 0
	}
	j.both()
	j.still()
	j.relay("relay.door", b.part.door, open)
	j.callsLeft(s, open)
	if part != "lock" && !b.shut {
		j.relay("cam", b.part.cam, 0)
	}
	if b.part.direction >= 0 && j.memory.Down && b.shut {
		j.within("relay.direction", b.part.direction, s.on(lift.Below), ^open)
	}
}

// tripped: the stop switch opened at speed takes everything off and loses no
// call, and the direction only where no call lies that way. Opened as the car
// is about to start, it lets no contactor come in, not even for a moment: what
// hangs behind a broken safety line is not to be fed from anywhere else.
func (j *judge) tripped(s *sight, starting bool) {
	b := j.b
	b.lay(j.place, j.chunk, j.memory)
	if starting {
		b.set(b.part.up, j.place.Up)
		b.set(b.part.down, !j.place.Up)
		b.set(b.part.start, true)
	} else {
		b.run(j.place.Up, false)
	}
	b.set(b.part.stopSwitch, true)
	b.follow()
	b.settle()
	j.both()
	j.still()
	if powered := b.powered & b.valid; starting && powered != 0 {
		j.fail(powered, Case{Part: "relay.brake"}, all)
	}
	j.callsLeft(s, 0)
	if b.part.direction >= 0 && j.memory.Down {
		below := s.on(lift.Below)
		j.within("relay.direction", b.part.direction, below, below)
	}
}
