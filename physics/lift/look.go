package lift

import (
	"math"

	"wheelroom/physics/control"
	"wheelroom/physics/relay"
)

// Look fills v with what there is to see now.
func (m *Machine) Look(v *View) {
	n := len(m.plan.Floors)
	d := &m.drive
	v.TimeS = m.timeS
	v.CarM, v.SpeedMS, v.AccelMS2 = d.CarM, m.train.SpeedMS(d), m.train.AccelMS2(d)
	v.AtFloor, v.NearFloor = m.atFloor, m.nearest()
	v.WheelRad, v.HandwheelRad, v.MotorRadS, v.TorqueNM = m.wheel.Angle(d.CarM), d.ShaftRad, d.OmegaRadS, d.AirgapNM
	v.BrakeLift, v.DoorOpen, v.CamIn = d.BrakeLift, m.door.open, m.camIn()
	v.Moving = m.switches[m.indexes.atRest] == 0
	v.Stopped = m.stopped

	v.Pressed, v.Calls, v.Lamps = sized(v.Pressed, n), sized(v.Calls, n), sized(v.Lamps, n)
	v.Rim, v.AdvanceUp, v.AdvanceDown = sized(v.Rim, n), sized(v.AdvanceUp, n), sized(v.AdvanceDown, n)
	v.Direction = sized(v.Direction, n)
	for f := range n {
		v.Lamps[f] = m.lit[f]
		// The order in which layEdges lists them.
		v.Rim[f] = m.switches[f] == 1
		v.AdvanceUp[f] = m.switches[n+2*f] == 1
		v.AdvanceDown[f] = m.switches[n+2*f+1] == 1
		v.Direction[f] = Stand(m.switches[3*n+f])
	}
	m.lookAtCalls(v)
	v.Terminal = sized(v.Terminal, len(m.ring.Terminals()))
	sw := 4 * n
	for t, terminal := range m.ring.Terminals() {
		v.Terminal[t] = false
		if terminal.Floor >= 0 {
			v.Terminal[t] = m.switches[sw] == 1
			sw++
		}
	}

	v.Relays = sized(v.Relays, len(m.heading))
	for c := range v.Relays {
		v.Relays[c] = m.circuit.In(relay.CoilID(c))
	}
	leaves := m.wiring.Leaves
	v.Contacts, v.Amperes = sized(v.Contacts, len(leaves)), sized(v.Amperes, len(leaves))
	for i := range leaves {
		v.Contacts[i] = leaves[i].Contact >= 0 && m.circuit.Closed(leaves[i].Contact)
		v.Amperes[i] = m.circuit.Amps(leaves[i].Element)
	}
	v.Switches = sized(v.Switches, len(m.switches))
	for i := range m.switches {
		v.Switches[i] = m.switches[i] == 1
	}
	v.Volts = sized(v.Volts, m.wiring.Net.Nodes())
	for node := range v.Volts {
		v.Volts[node] = m.circuit.Volts(relay.Node(node))
	}
}

// lookAtCalls fills in buttons and call relays, each kind by itself where the
// scheme has several.
func (m *Machine) lookAtCalls(v *View) {
	clear(v.Pressed)
	clear(v.Calls)
	calls := m.wiring.Diagram.Calls
	kinds := [...]struct{ pressed, in *[]bool }{
		control.UpCall:   {&v.PressedUp, &v.CallsUp},
		control.DownCall: {&v.PressedDown, &v.CallsDown},
		control.CarCall:  {&v.PressedCar, &v.CallsCar},
	}
	n := 0
	if m.byWay() {
		n = len(v.Calls)
	}
	for _, k := range kinds[control.UpCall:] {
		*k.pressed, *k.in = sized(*k.pressed, n), sized(*k.in, n)
		clear(*k.pressed)
		clear(*k.in)
	}
	for i := range calls {
		f := calls[i].Floor
		pressed, in := m.switches[m.indexes.button[i]] == 1, m.circuit.In(m.indexes.callCoil[i])
		v.Pressed[f] = v.Pressed[f] || pressed
		v.Calls[f] = v.Calls[f] || in
		if k := kinds[calls[i].Kind]; k.in != nil {
			(*k.pressed)[f], (*k.in)[f] = pressed, in
		}
	}
}

// byWay tells that the scheme tells calls for up from calls for down.
func (m *Machine) byWay() bool { return m.wiring.Diagram.Calls[0].Kind != control.AnyCall }

// camIn is where the cam stands, 0 dropped to 1 in: it travels while its coil
// builds up or lets go.
func (m *Machine) camIn() float64 {
	if m.indexes.cam < 0 {
		return 1
	}
	gone := 1.0
	if t := m.plan.Door.CamS; t > 0 {
		gone = min((m.timeS-m.camTurnS)/t, 1)
	}
	if math.IsInf(m.camTurnS, -1) {
		gone = 1
	}
	if m.heading[m.indexes.cam] {
		return gone
	}
	return 1 - gone
}

// Switch returns the index in View.Switches of a part that is no relay, or -1.
func (m *Machine) Switch(part Part) int {
	if i, ok := m.indexes.switchOf[string(part)]; ok {
		return i
	}
	return -1
}

// sized returns s with length n, its storage kept where it suffices.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
