package proof

import (
	"fmt"
	"math/bits"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// A bench holds one circuit at switch level, 64 cases at a time, and lets it
// settle. Armatures move one round at a time, all of those at once that are
// fed differently from how they stand; the start relay, slow by intent, comes
// in only when nothing else moves, and so does the lock, which the cam throws.
type bench struct {
	d     *control.Diagram
	l     *control.Logic
	lanes *control.Lanes
	valid uint64 // lanes in use

	calls    []int // signal by call
	follower []bool
	start    int // coil
	part     parts
	buttons  []int // signal by call
	shut     bool  // the doors are closed, so that the lock follows the cam
	stuck    int   // signal of a relay that is held in, -1 for none

	shorted   uint64 // both ways or both windings on at some moment
	unsettled uint64 // still moving at the end
	powered   uint64 // a contactor or the brake was in at some moment
}

// parts are the signals the proof sets and reads; -1 where a scheme lacks one.
type parts struct {
	upLine, downLine, direction, boundUp, boundDown         int
	start, up, down, level, stop, door                      int
	upContactor, downContactor, fast, slow, brake, safety   int
	cam, lock, carDoor, landingDoor, atRest, doorOpen, vane int
	stopSwitch, governor, safetyGear, overload              int
	slowTop, slowBottom                                     int
}

// roundsMost is far more than any circuit of this kind needs to settle.
const roundsMost = 64

func newBench(d *control.Diagram) (*bench, error) {
	l, err := control.Compile(d)
	if err != nil {
		return nil, err
	}
	if len(d.Calls) > maxCalls {
		return nil, fmt.Errorf("proof: %d calls, at most %d", len(d.Calls), maxCalls)
	}
	b := &bench{d: d, l: l, lanes: l.Lanes(), start: -1, follower: make([]bool, len(l.Coils()))}
	at := func(part string) int { return l.Signal(part, "") }
	b.part = parts{
		upLine: at("relay.up-line"), downLine: at("relay.down-line"), direction: at("relay.direction"),
		boundUp: at("relay.bound-up"), boundDown: at("relay.bound-down"),
		start: at("relay.start"), up: at("relay.up"), down: at("relay.down"), level: at("relay.level"),
		stop: at("relay.stop"), door: at("relay.door"),
		upContactor: at("relay.up-contactor"), downContactor: at("relay.down-contactor"),
		fast: at("relay.fast"), slow: at("relay.slow"), brake: at("relay.brake"), safety: at("relay.safety"),
		cam: at("cam"), lock: at("lock"), carDoor: at("car-door"), landingDoor: at("landing-door"),
		atRest: at("at-rest"), doorOpen: at("door-open"), vane: at("vane-switch"),
		stopSwitch: at("stop-switch"), governor: at("governor"), safetyGear: at("safety-gear"), overload: at("overload"),
		slowTop: at("slow-down-top"), slowBottom: at("slow-down-bottom"),
	}
	for c := range l.Coils() {
		switch l.CoilSignal(c) {
		case b.part.upLine, b.part.downLine, b.part.level, b.part.safety, b.part.cam:
			b.follower[c] = true
		case b.part.start:
			b.start = c
		}
	}
	for _, c := range d.Calls {
		b.calls = append(b.calls, at(c.Relay))
		b.buttons = append(b.buttons, at(c.Button))
	}
	return b, nil
}

const all = ^uint64(0)

func word(on bool) uint64 {
	if on {
		return all
	}
	return 0
}

// set puts a signal into the same state in every lane; a scheme without it
// does without.
func (b *bench) set(signal int, on bool) {
	if signal >= 0 {
		b.lanes.In[signal] = word(on)
	}
}

// get returns a signal, out in every lane where a scheme lacks it.
func (b *bench) get(signal int) uint64 {
	if signal < 0 {
		return 0
	}
	return b.lanes.In[signal]
}

// lay puts the bench at rest and ready at a place: doors closed and locked,
// calls and memory as given, every other relay out.
func (b *bench) lay(p *place, c chunk, m memory) {
	clear(b.lanes.In)
	for _, s := range p.signals {
		b.lanes.In[s] = all
	}
	b.valid = c.valid
	for i, s := range b.calls {
		b.lanes.In[s] = c.calls[i]
	}
	b.set(b.part.direction, m.Down)
	b.set(b.part.boundUp, m.BoundUp)
	b.set(b.part.boundDown, m.BoundDown)
	for _, s := range []int{b.part.carDoor, b.part.landingDoor, b.part.lock, b.part.cam, b.part.safety, b.part.atRest} {
		b.set(s, true)
	}
	b.shut, b.stuck = true, -1
	b.shorted, b.unsettled, b.powered = 0, 0, 0
}

// run turns a bench laid at rest into one that runs.
func (b *bench) run(up, stopping bool) {
	way, contactor := b.part.down, b.part.downContactor
	if up {
		way, contactor = b.part.up, b.part.upContactor
	}
	b.set(way, true)
	b.set(contactor, true)
	b.set(b.part.brake, true)
	b.set(b.part.fast, !stopping)
	b.set(b.part.slow, stopping)
	b.set(b.part.stop, stopping)
	b.set(b.part.atRest, false)
}

// openDoors opens car door and landing door.
func (b *bench) openDoors(fully bool) {
	for _, s := range []int{b.part.carDoor, b.part.landingDoor, b.part.lock, b.part.cam, b.part.safety} {
		b.set(s, false)
	}
	b.set(b.part.doorOpen, fully)
	b.shut = false
}

// follow lets the relays that only repeat something settle before the others
// begin: they have long been in when the moment looked at comes. None of them
// is fed through another's contacts, so that it ends.
func (b *bench) follow() {
	for again := true; again; {
		again = false
		b.l.Fed(b.lanes)
		for c, follows := range b.follower {
			s := b.l.CoilSignal(c)
			if follows && s != b.stuck && b.lanes.In[s] != b.lanes.Fed[c] {
				b.lanes.In[s] = b.lanes.Fed[c]
				again = true
			}
		}
	}
}

// settle lets every relay move until none does.
func (b *bench) settle() {
	moved := uint64(0)
	for range roundsMost {
		b.l.Fed(b.lanes)
		moved = 0
		for c, fed := range b.lanes.Fed {
			s := b.l.CoilSignal(c)
			now := b.lanes.In[s]
			if c == b.start {
				fed &= now // it may let go, but not come in yet
			}
			if s == b.stuck {
				fed = all
			}
			moved |= now ^ fed
			b.lanes.In[s] = fed
		}
		moved |= b.slowly(^moved)
		b.shorted |= b.get(b.part.upContactor)&b.get(b.part.downContactor) | b.get(b.part.fast)&b.get(b.part.slow)
		b.powered |= b.get(b.part.upContactor) | b.get(b.part.downContactor) | b.get(b.part.fast) | b.get(b.part.slow) | b.get(b.part.brake)
		if moved &= b.valid; moved == 0 {
			break
		}
	}
	b.shorted &= b.valid
	b.unsettled = moved
}

// slowly moves the start relay and the lock in the lanes where nothing else
// moves; it returns those in which one of them did.
func (b *bench) slowly(quiet uint64) uint64 {
	moved := uint64(0)
	if b.start >= 0 {
		s := b.l.CoilSignal(b.start)
		if in := b.lanes.Fed[b.start] &^ b.lanes.In[s] & quiet; in != 0 {
			b.lanes.In[s] |= in
			moved |= in
		}
	}
	if b.shut && b.part.lock >= 0 {
		if turn := (b.get(b.part.cam) ^ b.lanes.In[b.part.lock]) & quiet; turn != 0 {
			b.lanes.In[b.part.lock] ^= turn
			moved |= turn
		}
	}
	return moved
}

// A memory is what the circuit remembers besides its calls.
type memory struct {
	Down               bool // the direction relay is in
	BoundUp, BoundDown bool // the relays of those names are in
}

// memories lists the states of memory a circuit can be in: of each relay it
// has, and a bound relay only with its own direction.
func (b *bench) memories() []memory {
	switch {
	case b.part.direction < 0:
		return []memory{{}}
	case b.part.boundUp < 0:
		return []memory{{}, {Down: true}}
	}
	return []memory{{}, {BoundUp: true}, {Down: true}, {Down: true, BoundDown: true}}
}

// place is a lift.Stretch as the bench needs it.
type place struct {
	lift.Stretch
	index              int
	signals            []int // made, by signal
	rim                []bool
	advanceUp          []bool
	advanceDown        []bool
	vane               bool
	slowTop, slowLow   bool
	limitTop, limitLow bool // beyond the stop limit
	landing            int  // in whose zone, level; -1 for none
	first              bool // no earlier place has the same switches made
}

// places are those of a machine, each combination of switches once a way.
func (b *bench) places(m *lift.Machine) []*place {
	var out []*place
	seen := map[string]bool{}
	for _, p := range m.Stretches() {
		q := b.place(m, p)
		if p.Made[m.Switch("final-limit-top")] || p.Made[m.Switch("final-limit-bottom")] {
			continue // out of its travel, for people to bring back
		}
		key := fmt.Sprint(q.signals, q.rim, q.advanceUp, q.advanceDown, p.Stand, q.vane, q.slowTop, q.slowLow, q.limitTop, q.limitLow)
		if seen[fmt.Sprint(key, p.Up)] {
			continue
		}
		q.first = !seen[key]
		q.index = len(out)
		seen[key], seen[fmt.Sprint(key, p.Up)] = true, true
		out = append(out, q)
	}
	return out
}

func (b *bench) place(m *lift.Machine, p lift.Stretch) *place {
	n := len(b.d.Floors)
	q := &place{Stretch: p, rim: make([]bool, n), advanceUp: make([]bool, n), advanceDown: make([]bool, n), landing: -1}
	made := func(part string) bool { return p.Made[m.Switch(lift.Part(part))] }
	note := func(part, pole string) {
		if s := b.l.Signal(part, pole); s >= 0 {
			q.signals = append(q.signals, s)
		}
	}
	for _, part := range []string{"vane-switch", "slow-down-top", "slow-down-bottom", "stop-limit-top", "stop-limit-bottom", "final-limit-top", "final-limit-bottom"} {
		if made(part) {
			note(part, "")
		}
	}
	q.vane = made("vane-switch")
	q.slowTop, q.slowLow = made("slow-down-top"), made("slow-down-bottom")
	q.limitTop, q.limitLow = made("stop-limit-top"), made("stop-limit-bottom")
	for f := range n {
		for _, track := range []struct {
			kind string
			to   []bool
		}{{"rim", q.rim}, {"advance-up", q.advanceUp}, {"advance-down", q.advanceDown}} {
			part := b.d.Part(track.kind, f)
			if track.to[f] = made(part); track.to[f] {
				note(part, "")
			}
		}
		if stand := p.Stand[f]; stand != lift.Between {
			note(b.d.Part("direction", f), stand.String())
		}
		if q.rim[f] && q.vane {
			q.landing = f
		}
	}
	return q
}

// lowest is the number of the lowest lane in a word that is not zero.
func lowest(w uint64) int { return bits.TrailingZeros64(w) }
