package relay

import (
	"errors"
	"fmt"
	"math"
	"regexp"
)

// Node is a point of the network; 0 is ground, the minus rail.
type Node int32

// ContactID, CoilID and ElementID count contacts, coils and all elements in
// the order in which they were added, from 0.
type (
	ContactID int32
	CoilID    int32
	ElementID int32
)

// Default resistances of a contact.
const (
	// ClosedOhm is a closed contact with its wires: contact resistance of a
	// clean relay contact lies in the tens of milliohms (common practice, no
	// source).
	ClosedOhm = 0.05
	// OpenOhm is the leak of an open contact: insulation of old wiring, and
	// small enough to stay under a thousandth of any pick-up current.
	OpenOhm = 10e6
)

// A conducting diode is DiodeVolts in series with DiodeOhm; a blocking one,
// and every coil beside its winding, leaks.
const (
	DiodeVolts = 0.7
	DiodeOhm   = 0.1
	leakOhm    = 1e9 // keeps the node between two coils in series from floating
)

// Kind says what an element is.
type Kind uint8

// The kinds of element.
const (
	Source Kind = iota
	Resistor
	Contact
	Coil
	Lamp
	Diode
)

// String returns the kind's name.
func (k Kind) String() string {
	return [...]string{"source", "resistor", "contact", "coil", "lamp", "diode"}[k]
}

// An Element is one two-pole of the network, as it was added. Ohms is the
// internal resistance of a supply, the resistance in series of a conducting
// diode, the closed resistance of a contact, and the hot one of a lamp.
type Element struct {
	Kind  Kind
	Name  string // empty where none was given
	A, B  Node
	Ohms  float64
	Volts float64 // a supply's, or the drop of a diode
	Index int32   // ContactID or CoilID; the count among diodes or lamps
}

// A Circuit is the make-up of a network. Build it with New and the adding
// methods, then Seal it; after that it never changes and any number of States
// may share it.
type Circuit struct {
	ClosedOhm, OpenOhm float64 // of every contact; set before the first Contact

	names    []string
	byName   map[string]Node
	elements []Element
	contacts []contact
	coils    []coil
	diodes   []ElementID
	lamps    []filament
	errs     []error
	sealed   bool
	plan     plan
}

type contact struct {
	element ElementID
	closed  bool // at rest
}

type coil struct {
	element ElementID
	a, b    Node
	spec    CoilSpec
	owns    []owned
}

type owned struct {
	contact        ContactID
	normallyClosed bool
}

// New returns an empty circuit with ground as its only node.
func New() *Circuit {
	return &Circuit{
		ClosedOhm: ClosedOhm,
		OpenOhm:   OpenOhm,
		names:     []string{"0"},
		byName:    map[string]Node{"0": 0},
	}
}

var nodeName = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)

// Node adds the node of that name, or finds it. Names are [a-z][a-z0-9_]*, so
// that any network tool can read them; "0" is ground.
func (c *Circuit) Node(name string) Node {
	if n, ok := c.byName[name]; ok {
		return n
	}
	c.open()
	if !nodeName.MatchString(name) {
		c.fail("node name %q: want a small letter, then small letters, digits and _", name)
	}
	n := Node(len(c.names))
	c.names = append(c.names, name)
	c.byName[name] = n
	return n
}

// Source adds a supply of volts with ohms > 0 inside. Its current counts from
// plus to minus through it, so it is negative while the supply delivers.
func (c *Circuit) Source(plus, minus Node, volts, ohms float64) ElementID {
	return c.add(Element{Kind: Source, A: plus, B: minus, Ohms: ohms, Volts: volts})
}

// Resistor adds a resistance.
func (c *Circuit) Resistor(a, b Node, ohms float64) ElementID {
	return c.add(Element{Kind: Resistor, A: a, B: b, Ohms: ohms})
}

// Diode adds a diode: DiodeVolts and DiodeOhm while it conducts.
func (c *Circuit) Diode(name string, anode, cathode Node) ElementID {
	return c.diode(name, anode, cathode, DiodeOhm)
}

func (c *Circuit) diode(name string, anode, cathode Node, ohms float64) ElementID {
	e := c.add(Element{Kind: Diode, Name: name, A: anode, B: cathode,
		Ohms: ohms, Volts: DiodeVolts, Index: int32(len(c.diodes))})
	c.diodes = append(c.diodes, e)
	return e
}

// Contact adds a contact; closed is how it stands in a new State.
func (c *Circuit) Contact(name string, a, b Node, closed bool) ContactID {
	k := ContactID(len(c.contacts))
	e := c.add(Element{Kind: Contact, Name: name, A: a, B: b, Ohms: c.ClosedOhm, Index: int32(k)})
	c.contacts = append(c.contacts, contact{element: e, closed: closed})
	return k
}

// Coil adds a relay coil with its suppression. A diode across it points from
// b to a: a is the end meant for the plus side.
func (c *Circuit) Coil(name string, a, b Node, spec CoilSpec) CoilID {
	k := CoilID(len(c.coils))
	e := c.add(Element{Kind: Coil, Name: name, A: a, B: b, Ohms: spec.OhmR, Index: int32(k)})
	c.coils = append(c.coils, coil{element: e, a: a, b: b, spec: spec})
	if err := spec.check(); err != nil {
		c.fail("coil %s: %w", name, err)
	}
	switch spec.Suppression {
	case ResistorAcross:
		c.add(Element{Kind: Resistor, Name: name, A: a, B: b, Ohms: spec.SuppressorOhm})
	case DiodeAcross:
		c.diode(name, b, a, DiodeOhm)
	case DiodeResistorAcross:
		c.diode(name, b, a, DiodeOhm+spec.SuppressorOhm)
	}
	return k
}

// Owns says that the armature of a coil carries a contact: State.Follow then
// sets it. A normally closed contact opens when the armature comes in.
func (c *Circuit) Owns(k CoilID, contact ContactID, normallyClosed bool) {
	c.open()
	c.coils[k].owns = append(c.coils[k].owns, owned{contact, normallyClosed})
}

func (c *Circuit) add(e Element) ElementID {
	c.open()
	id := ElementID(len(c.elements))
	if !(e.Ohms > 0) || math.IsInf(e.Ohms, 1) {
		c.fail("element %d %s: resistance %g ohm, want more than 0", id, e.Name, e.Ohms)
	}
	if math.IsNaN(e.Volts) || math.IsInf(e.Volts, 0) {
		c.fail("element %d %s: %g volts", id, e.Name, e.Volts)
	}
	if e.A == e.B {
		c.fail("element %d %s: both ends on node %s", id, e.Name, c.NodeName(e.A))
	}
	c.elements = append(c.elements, e)
	return id
}

func (c *Circuit) fail(format string, args ...any) {
	c.errs = append(c.errs, fmt.Errorf(format, args...))
}

func (c *Circuit) open() {
	if c.sealed {
		panic("relay: circuit is sealed")
	}
}

// Seal checks the circuit and fixes the order of elimination. The error joins
// everything found: a bad value or name, no supply, nodes that float.
func (c *Circuit) Seal() error {
	c.open()
	if !(c.ClosedOhm > 0) || !(c.OpenOhm > c.ClosedOhm) {
		c.fail("contacts: closed %g ohm, open %g ohm: want 0 < closed < open", c.ClosedOhm, c.OpenOhm)
	}
	supplied := false
	for _, e := range c.elements {
		supplied = supplied || e.Kind == Source
	}
	if !supplied {
		c.fail("no supply")
	}
	for _, n := range c.floating() {
		c.fail("node %s floats: nothing leads from it to ground", c.names[n])
	}
	if err := errors.Join(c.errs...); err != nil {
		return err
	}
	c.plan = newPlan(len(c.names), c.elements)
	c.sealed = true
	return nil
}

// floating lists the nodes from which no chain of elements reaches ground.
func (c *Circuit) floating() []Node {
	reached := make([]bool, len(c.names))
	reached[0] = true
	for grown := true; grown; {
		grown = false
		for _, e := range c.elements {
			if reached[e.A] != reached[e.B] {
				reached[e.A], reached[e.B] = true, true
				grown = true
			}
		}
	}
	var out []Node
	for n, ok := range reached {
		if !ok {
			out = append(out, Node(n))
		}
	}
	return out
}

// Nodes, Coils, Contacts and Elements count what the circuit holds; nodes
// include ground.
func (c *Circuit) Nodes() int    { return len(c.names) }
func (c *Circuit) Coils() int    { return len(c.coils) }
func (c *Circuit) Contacts() int { return len(c.contacts) }
func (c *Circuit) Elements() int { return len(c.elements) }

// NodeName returns the name a node was added under.
func (c *Circuit) NodeName(n Node) string { return c.names[n] }

// Element returns what was added under that identity.
func (c *Circuit) Element(e ElementID) Element { return c.elements[e] }

// ElementOfContact returns the element a contact is.
func (c *Circuit) ElementOfContact(k ContactID) ElementID { return c.contacts[k].element }

// ElementOfCoil returns the element a coil's winding is; its suppression is
// an element of its own.
func (c *Circuit) ElementOfCoil(k CoilID) ElementID { return c.coils[k].element }

// Spec returns what a coil was added with.
func (c *Circuit) Spec(k CoilID) CoilSpec { return c.coils[k].spec }
