package lift

import (
	"math"
	"slices"

	"wheelroom/physics/drive"
	"wheelroom/physics/relay"
)

// A happening is a change that is due now and not yet carried out. They are
// carried out one at a time, so that each can be named as the cause of the
// next.
type happening struct {
	kind  happens
	index int // switch, coil or input
	to    uint8
	cause int // event
}

type happens uint8

const (
	switchThrown happens = iota
	coilMoved
	inputDue
	buttonBack
	doorDue
)

// Within burstWindowS more events than burstMost are taken for chatter: no
// honest sequence of this circuit comes near.
const (
	burstWindowS = 0.05
	burstMost    = 400
)

// micro carries out one happening, or, if none is due, runs to the next
// moment at which one may be, at most to the next grid point.
func (m *Machine) micro() {
	m.micros++
	if len(m.queue) > 0 {
		h := m.queue[0]
		m.queue = m.queue[:copy(m.queue, m.queue[1:])]
		m.carryOut(h)
		return
	}
	if m.due() {
		return
	}
	h, grid := m.gridS()-m.timeS, true
	shorten := func(to float64) {
		if to < h {
			h, grid = to, false
		}
	}
	relayS := m.circuit.Next()
	shorten(relayS)
	if m.opts.StepS > 0 {
		shorten(m.opts.StepS)
	}
	shorten(m.door.next())
	h = max(h, 0)
	moved, met := m.travel(h)
	if moved < h {
		h, grid = moved, false
	}
	m.circuit.Advance(h)
	m.door.advance(h)
	if grid {
		m.tick++
		m.timeS = float64(m.tick) * GridS
	} else {
		m.timeS += h
	}
	m.gather(met)
}

// due queues inputs and buttons whose time has come; it reports whether any
// had. Both come on grid points only: whoever pushes a button while the
// machine is held at an event between two of them is heard at the next, and a
// replay, which does not stop there, hears it at the same moment.
func (m *Machine) due() bool {
	if m.timeS != float64(m.tick)*GridS {
		return false
	}
	if m.nextBack <= m.tick {
		for c, back := range m.held {
			if back <= m.tick {
				m.held[c] = never
				m.queue = append(m.queue, happening{kind: buttonBack, index: c, cause: -1})
			}
		}
		m.nextBack = slices.Min(m.held)
		return true
	}
	if m.applied < len(m.inputs) && m.inputs[m.applied].TimeS <= m.timeS {
		m.queue = append(m.queue, happening{kind: inputDue, index: m.applied, cause: -1})
		m.applied++
		return true
	}
	return false
}

// travel moves the masses for h seconds, or up to the first edge the car
// meets, whichever is less. It returns the time gone and the edges met, all
// of them at one height.
func (m *Machine) travel(h float64) (gone float64, met []edge) {
	if h == 0 || m.still() {
		return h, nil
	}
	before := m.drive
	rest := m.train.AtRest(&before)
	m.train.Step(&m.drive, m.feed, h)
	if m.train.AtRest(&m.drive) != rest {
		h = m.turningPoint(before, rest, h)
	}
	met = m.edges.between(before.CarM, m.drive.CarM)
	if len(met) > 0 && met[0].at != m.drive.CarM {
		h = m.meet(before, met[0].at, h)
	}
	return h, met
}

// still tells that nothing can move: the shaft at rest, brake set, no
// winding making torque.
func (m *Machine) still() bool {
	d := &m.drive
	return d.OmegaRadS == 0 && d.AirgapNM == 0 && d.BrakeLift == 0 && m.feed == (drive.Feed{})
}

// turningPoint steps from before to the moment within h at which the shaft
// comes to rest or leaves it, to a microsecond.
func (m *Machine) turningPoint(before drive.State, rest bool, h float64) float64 {
	lo, hi := 0.0, h
	for hi-lo > 1e-6 {
		mid := (lo + hi) / 2
		s := before
		m.train.Step(&s, m.feed, mid)
		if m.train.AtRest(&s) == rest {
			lo = mid
		} else {
			hi = mid
		}
	}
	m.drive = before
	m.train.Step(&m.drive, m.feed, hi)
	return hi
}

// meet steps from before to the moment within h at which the car stands at
// height at. The secant converges in a few rounds since speed hardly changes
// within a step; the last hair's breadth is put right by hand so that the
// edge counts as passed.
func (m *Machine) meet(before drive.State, at, h float64) float64 {
	lo, hi := 0.0, h
	yLo, yHi := before.CarM, m.drive.CarM
	var s drive.State
	t := h
	for range 40 {
		t = lo + (hi-lo)*(at-yLo)/(yHi-yLo)
		if t <= lo || t >= hi {
			t = (lo + hi) / 2
		}
		s = before
		m.train.Step(&s, m.feed, t)
		if math.Abs(s.CarM-at) < 1e-10 {
			break
		}
		if (s.CarM < at) == (yLo < at) {
			lo, yLo = t, s.CarM
		} else {
			hi, yHi = t, s.CarM
		}
	}
	m.drive = s
	m.drive.CarM = at
	return t
}

// gather queues what has become due by the time just reached: edges of the
// wheel and the shaft, standstill or departure, doors, armatures.
func (m *Machine) gather(met []edge) {
	for _, e := range met {
		m.queue = append(m.queue, happening{kind: switchThrown, index: e.sw, to: e.to, cause: -1})
	}
	if rest := b2u(m.train.AtRest(&m.drive)); rest != m.switches[m.indexes.atRest] {
		m.queue = append(m.queue, happening{kind: switchThrown, index: m.indexes.atRest, to: rest, cause: m.restCause()})
	}
	if speed := math.Abs(m.train.SpeedMS(&m.drive)); speed > governorShare*m.plan.Machine.RatedSpeedMS && m.switches[m.indexes.governor] == 0 {
		m.queue = append(m.queue, happening{kind: switchThrown, index: m.indexes.governor, to: 1, cause: -1})
	}
	if m.door.due() {
		m.queue = append(m.queue, happening{kind: doorDue, cause: -1})
	}
	for _, c := range m.circuit.Moved() {
		m.queue = append(m.queue, happening{kind: coilMoved, index: int(c), cause: int(m.turned[c])})
	}
}

// governorShare of rated speed opens the governor's switch; the trade's
// figure is 115 % or more of rated speed (common practice, no source).
const governorShare = 1.3

// carryOut makes one happening true and lets the circuit answer.
func (m *Machine) carryOut(h happening) {
	switch h.kind {
	case switchThrown:
		m.throw(h.index, h.to, h.cause)
	case coilMoved:
		m.armature(relay.CoilID(h.index), h.cause)
	case inputDue:
		m.apply(m.inputs[h.index])
	case buttonBack:
		m.throw(m.indexes.button[h.index], 0, -1)
	case doorDue:
		m.doorArrives()
	}
}

// throw puts switch i into its new position, unless it is stuck.
func (m *Machine) throw(i int, to uint8, cause int) {
	if m.switches[i] == to || m.forced[i] == stuck {
		return
	}
	m.switches[i] = to
	word := [...]string{"0", "1"}[to&1]
	if m.edges.cross[i] != (crossing{}) {
		word = Stand(to).String()
	}
	e := m.note(m.edges.parts[i], word, cause)
	m.put(i)
	m.solve(e)
	if i == m.indexes.atRest {
		m.arrive(e)
	}
	if i == m.indexes.lock {
		m.doorThink(e)
	}
}

// put moves the contacts of switch i to where the switch stands.
func (m *Machine) put(i int) {
	g := m.indexes.gang[i]
	if g < 0 {
		return
	}
	gang := &m.wiring.Gangs[g]
	if m.edges.cross[i] != (crossing{}) {
		m.contacts(gang.Above, Stand(m.switches[i]) == Above)
		m.contacts(gang.Below, Stand(m.switches[i]) == Below)
		return
	}
	m.contacts(gang.Make, m.switches[i] == 1)
	m.contacts(gang.Break, m.switches[i] == 0)
}

// contacts closes or opens contacts, those welded or burnt excepted.
func (m *Machine) contacts(ks []relay.ContactID, closed bool) {
	for _, k := range ks {
		switch m.welded[k] {
		case sound:
			m.circuit.Set(k, closed)
		case keptClosed:
			m.circuit.Set(k, true)
		case keptOpen:
			m.circuit.Set(k, false)
		}
	}
}

// armature follows a coil whose armature has just moved.
func (m *Machine) armature(c relay.CoilID, cause int) {
	in := m.circuit.In(c)
	e := m.note(m.indexes.coilPart[c], [...]string{"0", "1"}[b2u(in)], cause)
	if g := m.indexes.coilGang[c]; g >= 0 {
		gang := &m.wiring.Gangs[g]
		m.contacts(gang.Make, in)
		m.contacts(gang.Break, !in)
	}
	m.solve(e)
	if m.indexes.callOf[c] >= 0 {
		m.callOfFloor(c, e)
	}
	x := &m.indexes
	switch c {
	case x.up, x.down, x.fast, x.slow, x.brake:
		m.power(e)
	case x.level:
		m.arrive(e)
	case x.door:
		m.doorThink(e)
	case x.cam:
		m.latch(e)
	}
}

// solve lets the network answer to the contacts just moved by event e, and
// notes which coils turned because of it and which lamps changed.
func (m *Machine) solve(e int) {
	m.circuit.Solve()
	for c := range m.heading {
		if now := m.circuit.Heading(relay.CoilID(c)); now != m.heading[c] {
			m.heading[c] = now
			m.turned[c] = int32(e)
			if relay.CoilID(c) == m.indexes.cam {
				m.camTurnS = m.timeS
			}
		}
	}
	for f, lamp := range m.indexes.lampLeaf {
		if lit := m.circuit.Fed(lamp); lit != m.lit[f] {
			m.lit[f] = lit
			m.note(Part("lamp."+m.plan.Floors[f].Name), [...]string{"0", "1"}[b2u(lit)], e)
		}
	}
	switch m.circuit.Err().ID {
	case "":
	case "relay.chatter":
		m.stopped = "stopped.chatter"
	default:
		m.stopped = "stopped.unsettled"
	}
}

// callOfFloor notes, where a floor has several calls, that its first has come
// in or its last gone out.
func (m *Machine) callOfFloor(c relay.CoilID, cause int) {
	if !m.byWay() {
		return
	}
	f := m.wiring.Diagram.Calls[m.indexes.callOf[c]].Floor
	before := m.calling[f]
	if m.circuit.In(c) {
		m.calling[f]++
	} else {
		m.calling[f]--
	}
	if before == 0 || m.calling[f] == 0 {
		m.note(Part(m.wiring.Diagram.Part("call", f)), [...]string{"0", "1"}[b2u(before == 0)], cause)
	}
}

// power feeds the motor and the brake as the contactors stand, now that event
// cause has moved one. Both ways at once, or both windings, join two phases
// of the supply with nothing between them: the model stops there.
func (m *Machine) power(cause int) {
	x, in := &m.indexes, m.circuit.In
	m.feed.BrakeCurrent = in(x.brake)
	m.feed.Direction, m.feed.Winding = 0, drive.Off
	if m.isolated() {
		m.feed.BrakeCurrent = false
		return
	}
	if in(x.up) && in(x.down) || in(x.fast) && in(x.slow) {
		m.note("motor", "short-circuited", cause)
		m.stopped = "stopped.phases-short-circuited"
		return
	}
	switch {
	case in(x.up):
		m.feed.Direction = +1
	case in(x.down):
		m.feed.Direction = -1
	default:
		return
	}
	switch {
	case in(x.fast):
		m.feed.Winding = drive.Fast
	case in(x.slow):
		m.feed.Winding = drive.Slow
	}
	if m.feed.Winding == drive.Off {
		m.feed.Direction = 0
	}
}

// arrive notes the stop at a landing, or the departure from it.
func (m *Machine) arrive(cause int) {
	at := m.levelAt()
	if at == m.atFloor {
		return
	}
	m.atFloor = at
	if at < 0 {
		m.note("stop", "-", cause)
	} else {
		m.note("stop", m.plan.Floors[at].Name, cause)
	}
}

// levelAt is the landing at which the car rests level, -1 for none.
func (m *Machine) levelAt() int {
	if m.switches[m.indexes.atRest] == 0 || !m.circuit.In(m.indexes.level) {
		return -1
	}
	return m.nearest()
}

func (m *Machine) nearest() int {
	best := 0
	for f := range m.plan.Floors {
		if math.Abs(m.plan.Floors[f].HeightM-m.drive.CarM) < math.Abs(m.plan.Floors[best].HeightM-m.drive.CarM) {
			best = f
		}
	}
	return best
}

// note writes an event down and returns its index.
func (m *Machine) note(part Part, state string, cause int) int {
	m.events = append(m.events, Event{TimeS: m.timeS, Part: part, State: state, Cause: cause})
	if m.timeS-m.burstS > burstWindowS {
		m.burstS, m.burst = m.timeS, 0
	}
	if m.burst++; m.burst > burstMost {
		m.stopped = "stopped.chatter"
	}
	return len(m.events) - 1
}

// lastOf returns the last event of a coil's part, -1 if there was none.
func (m *Machine) lastOf(c relay.CoilID) int {
	if c < 0 {
		return -1
	}
	for i := len(m.events) - 1; i >= 0; i-- {
		if m.events[i].Part == m.indexes.coilPart[c] {
			return i
		}
	}
	return -1
}

func b2u(b bool) uint8 {
	if b {
		return 1
	}
	return 0
}
