package lift

import (
	"strconv"
	"strings"

	"wheelroom/physics/relay"
)

const contactPrefix = "contact."

// ContactPart names one contact by itself, by its place among Wiring().Leaves,
// for an Override that keeps it "open" or "closed" whatever its part does, or
// frees it ("").
func ContactPart(leaf int) Part { return Part(contactPrefix + strconv.Itoa(leaf)) }

// contactOf reads ContactPart back: the contact of the network, or -1 for a
// part that is no contact of this machine.
func (m *Machine) contactOf(part Part) relay.ContactID {
	number, ok := strings.CutPrefix(string(part), contactPrefix)
	leaf, err := strconv.Atoi(number)
	if !ok || err != nil || leaf < 0 || leaf >= len(m.wiring.Leaves) {
		return -1
	}
	return m.wiring.Leaves[leaf].Contact
}

// keepContact carries out an override of one contact.
func (m *Machine) keepContact(k relay.ContactID, in Input) {
	e := m.note(in.Part, in.State, -1)
	m.welded[k] = map[string]weld{"open": keptOpen, "closed": keptClosed}[in.State]
	part := m.wiring.LeafOf(k).Part()
	m.restore(part, m.wiring.Gang(part))
	m.solve(e)
}

// Heading tells whether a part's armature would be in once the circuit as it
// stands has settled: true while it is coming in, false while it lets go. It
// is false for a part without a coil.
func (m *Machine) Heading(part Part) bool {
	c := m.wiring.Coil(string(part))
	return c >= 0 && m.circuit.Heading(c)
}

// Ohms returns the resistance of an element of the network as it stands: of an
// open contact the leak, of a lamp that is cold its cold one.
func (m *Machine) Ohms(e relay.ElementID) float64 { return m.circuit.Ohms(e) }

// Settled returns the voltage of every node of the network, to the minus
// rail, at the operating point of the frozen instant: contacts and lamps as they
// stand, coils as their resistance.
func (m *Machine) Settled() []float64 { return m.wiring.Net.Rest(m.circuit) }

// Overridden returns the state in which an Override carried out so far keeps a
// part, or one contact; "" for none.
func (m *Machine) Overridden(part Part) string {
	state := ""
	for _, in := range m.inputs[:m.applied] {
		if in.Kind == Override && in.Part == part {
			state = in.State
		}
	}
	return state
}
