package lift

import (
	"math"
	"slices"
	"sort"

	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
)

// force is what an override does to a switch.
type force uint8

const (
	free  force = iota
	stuck       // stays where it stands
)

// weld is what an override does to a contact.
type weld uint8

const (
	sound weld = iota
	keptOpen
	keptClosed
)

// Press pushes the call button of landing f now; it comes back after HoldS.
// Where a floor has several buttons it is the one in the car; for the others
// see Do. It panics if there is no such landing.
func (m *Machine) Press(f int) {
	m.mustDo(Input{TimeS: m.timeS, Kind: Press, Part: m.edges.parts[m.indexes.button[m.indexes.plainCall[f]]]})
}

func (m *Machine) mustDo(in Input) {
	if why := m.Do(in); why.ID != "" {
		panic("lift: " + why.String())
	}
}

// Do records an input and carries it out when its time comes: on the first
// grid point not before it, and for a time already past on the next one. The phrase says why it cannot be, and is empty when all is
// well: an unknown part, or a state the part does not have.
func (m *Machine) Do(in Input) phrase.Phrase {
	if why := m.fault(in); why.ID != "" {
		return why
	}
	in.TimeS = math.Ceil(max(in.TimeS, m.timeS)/GridS-1e-6) * GridS
	at := m.applied + sort.Search(len(m.inputs)-m.applied, func(i int) bool { return m.inputs[m.applied+i].TimeS > in.TimeS })
	m.inputs = append(m.inputs, Input{})
	copy(m.inputs[at+1:], m.inputs[at:])
	m.inputs[at] = in
	return phrase.Phrase{}
}

// Inputs returns everything done or to be done to the machine, in order of
// time. With plan and options it is the whole run.
func (m *Machine) Inputs() []Input { return m.inputs }

// fault says what is wrong with an input.
func (m *Machine) fault(in Input) phrase.Phrase {
	unknown := phrase.Of("input.unknown-part", "part", string(in.Part))
	switch in.Kind {
	case Press:
		if i, ok := m.indexes.switchOf[string(in.Part)]; !ok || !slices.Contains(m.indexes.button, i) {
			return unknown
		}
	case Switch:
		switch in.Part {
		case "stop-switch", "governor", "safety-gear", "overload":
		default:
			return unknown
		}
		if in.State != "open" && in.State != "" {
			return phrase.Of("input.unknown-state", "part", string(in.Part), "state", in.State)
		}
	case Load:
		if !(in.Value >= 0) || math.IsInf(in.Value, 1) {
			return phrase.Of("input.load", "found", phrase.Num(in.Value, 0))
		}
	case Isolate, EaseBrake, Wind:
		return m.windingFault(in)
	case Override:
		if m.contactOf(in.Part) >= 0 {
			if in.State != "open" && in.State != "closed" && in.State != "" {
				return phrase.Of("input.unknown-state", "part", string(in.Part), "state", in.State)
			}
			return phrase.Phrase{}
		}
		_, isSwitch := m.indexes.switchOf[string(in.Part)]
		isCoil := m.wiring.Coil(string(in.Part)) >= 0
		hasContacts := m.wiring.Gang(string(in.Part)) >= 0
		if !isSwitch && !isCoil {
			return unknown
		}
		ok := in.State == "" || in.State == "stuck" ||
			hasContacts && (in.State == "open" || in.State == "welded") ||
			isCoil && (in.State == "coil-open" || in.State == "slow" && in.Value > 0)
		if !ok {
			return phrase.Of("input.unknown-state", "part", string(in.Part), "state", in.State)
		}
	}
	return phrase.Phrase{}
}

// apply carries out an input whose time has come.
func (m *Machine) apply(in Input) {
	switch in.Kind {
	case Press:
		i := m.indexes.switchOf[string(in.Part)]
		for c, b := range m.indexes.button {
			if b == i {
				m.held[c] = m.tick + holdTicks
				m.nextBack = min(m.nextBack, m.held[c])
			}
		}
		m.throw(i, 1, -1)
	case Switch:
		m.throw(m.indexes.switchOf[string(in.Part)], b2u(in.State == "open"), -1)
	case Load:
		m.drive.LoadKG = in.Value
	case Isolate, EaseBrake, Wind:
		m.wind(in)
	case Override:
		if k := m.contactOf(in.Part); k >= 0 {
			m.keepContact(k, in)
			return
		}
		m.override(in)
	}
}

// override forces a part into a state or frees it. A switch that is freed
// stays where it stands until it is next thrown, as the real thing would.
func (m *Machine) override(in Input) {
	part := string(in.Part)
	e := m.note(in.Part, in.State, -1)
	if i, ok := m.indexes.switchOf[part]; ok {
		m.forced[i] = free
		if in.State == "stuck" {
			m.forced[i] = stuck
		}
	}
	if c := m.wiring.Coil(part); c >= 0 {
		m.forceCoil(c, in)
	}
	if g := m.wiring.Gang(part); g >= 0 {
		w := map[string]weld{"open": keptOpen, "welded": keptClosed}[in.State]
		gang := &m.wiring.Gangs[g]
		for _, ks := range [][]relay.ContactID{gang.Make, gang.Break, gang.Above, gang.Below} {
			for _, k := range ks {
				m.welded[k] = w
			}
		}
		m.restore(part, g)
	}
	m.solve(e)
}

func (m *Machine) forceCoil(c relay.CoilID, in Input) {
	how, factor := relay.Free, 1.0
	switch in.State {
	case "stuck":
		how = relay.HeldOut
		if m.circuit.In(c) {
			how = relay.HeldIn
		}
	case "coil-open":
		how = relay.OpenCircuit
	case "slow":
		factor = in.Value
	}
	m.circuit.Force(c, how)
	m.circuit.SetSlow(c, factor)
}

// restore puts a part's contacts where its switch or armature stands.
func (m *Machine) restore(part string, g int) {
	if i, ok := m.indexes.switchOf[part]; ok {
		m.put(i)
		return
	}
	in := m.circuit.In(m.wiring.Coil(part))
	m.contacts(m.wiring.Gangs[g].Make, in)
	m.contacts(m.wiring.Gangs[g].Break, !in)
}

// AllDone tells that nothing recorded is still to be carried out.
func (m *Machine) AllDone() bool {
	return m.applied == len(m.inputs) && m.nextBack == never && len(m.queue) == 0
}
