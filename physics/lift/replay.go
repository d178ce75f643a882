package lift

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"slices"

	"wheelroom/physics/relay"
)

// Clone returns a machine in the same state that runs on by itself. Plan,
// wiring and the events so far are shared.
func (m *Machine) Clone() *Machine {
	c := *m
	s := &c.state
	s.circuit = relay.NewState(m.wiring.Net)
	s.circuit.CopyFrom(m.circuit)
	s.switches = slices.Clone(m.switches)
	s.forced = slices.Clone(m.forced)
	s.welded = slices.Clone(m.welded)
	s.lit = slices.Clone(m.lit)
	s.heading = slices.Clone(m.heading)
	s.turned = slices.Clone(m.turned)
	s.held = slices.Clone(m.held)
	s.calling = slices.Clone(m.calling)
	s.queue = slices.Clone(m.queue)
	s.inputs = slices.Clone(m.inputs)
	s.events = slices.Clip(m.events)
	return &c
}

// Replay makes the machine again and runs it with the inputs of m to the time
// m has reached: the same events, the same hash.
func (m *Machine) Replay() *Machine {
	r, err := New(&m.plan, m.opts)
	if err != nil {
		panic("lift: a plan that made one machine does not make another: " + err.Error())
	}
	r.inputs = slices.Clone(m.inputs)
	for r.micros < m.micros {
		r.micro()
	}
	r.wantS = m.wantS
	return r
}

// Hash returns a number that tells this state from every other: everything
// that decides how the machine goes on, bit by bit. Equal runs have equal
// hashes on every processor.
func (m *Machine) Hash() uint64 {
	h := fnv.New64a()
	var b [8]byte
	number := func(u uint64) {
		binary.LittleEndian.PutUint64(b[:], u)
		h.Write(b[:])
	}
	float := func(f float64) { number(math.Float64bits(f)) }
	number(uint64(m.tick))
	float(m.timeS)
	d := &m.drive
	for _, f := range []float64{d.OmegaRadS, d.ShaftRad, d.CarM, d.AirgapNM, d.BrakeLift, d.LoadKG, m.feed.HandNM, m.door.open, m.door.dwellS} {
		float(f)
	}
	number(uint64(m.door.phase))
	number(uint64(b2u(m.feed.HeldOpen)))
	h.Write(m.switches)
	for i := range m.forced {
		h.Write([]byte{byte(m.forced[i])})
	}
	for i := range m.welded {
		h.Write([]byte{byte(m.welded[i])})
	}
	for c := range m.heading {
		id := relay.CoilID(c)
		h.Write([]byte{b2u(m.circuit.In(id)), b2u(m.heading[c])})
		float(m.circuit.CoilA(id))
		float(m.circuit.Travelled(id))
	}
	for e := range relay.ElementID(m.wiring.Net.Elements()) {
		if m.wiring.Net.Element(e).Kind == relay.Lamp {
			h.Write([]byte{b2u(m.circuit.Hot(e)), b2u(m.circuit.Fed(e))})
			float(m.circuit.Glow(e))
		}
	}
	for _, back := range m.held {
		number(uint64(back))
	}
	number(uint64(len(m.events)))
	h.Write([]byte(m.stopped))
	return h.Sum64()
}

// Idle tells that the machine rests with nothing to do: no call, doors
// closed, at rest, every relay but safety and level out.
func (m *Machine) Idle() bool {
	if m.switches[m.indexes.atRest] == 0 || m.door.phase != shut || m.door.next() < math.Inf(1) {
		return false
	}
	for c, part := range m.indexes.coilPart {
		id := relay.CoilID(c)
		if part != "relay.safety" && part != "relay.level" && part != "cam" && m.circuit.In(id) {
			return false
		}
	}
	return true
}
