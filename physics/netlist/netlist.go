// Package netlist writes the circuit of a machine, frozen at an instant, for
// other programs: as a SPICE netlist, or as the node voltages this program
// finds for the same network.
//
// Frozen means: contacts as they stand, lamps cold or hot, coils as their
// resistance with their suppression beside them, open contacts as the leak they have, so that no
// node floats. Node names are [a-z][a-z0-9_]*, floors by index from 0, and
// ground, the minus rail, is 0. One node more than the circuit has, emf, lies
// inside the supply, before its internal resistance.
package netlist

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"wheelroom/physics/lift"
	"wheelroom/physics/relay"
)

// The formats there are.
const (
	Spice = "spice" // a netlist with a resistive operating point
	JSON  = "json"  // {"nodes": {"name": volts}}
)

// emf is the node inside the supply.
const emf = "emf"

// Formats returns the names of the formats there are.
func Formats() []string { return []string{Spice, JSON} }

// Write writes the machine's circuit as it stands in a format. The error is
// the writer's, or that of a format there is not.
func Write(w io.Writer, m *lift.Machine, format string) error {
	switch format {
	case Spice:
		return writeSpice(w, m)
	case JSON:
		return writeJSON(w, m)
	}
	return fmt.Errorf("netlist: format %q, want one of %v", format, Formats())
}

// Volts returns the voltage of every node by name, ground left out.
func Volts(m *lift.Machine) map[string]float64 {
	net := m.Wiring().Net
	settled := m.Settled()
	out := map[string]float64{emf: m.Plan().Control.SupplyV}
	for n := 1; n < net.Nodes(); n++ {
		out[net.NodeName(relay.Node(n))] = settled[n]
	}
	return out
}

func writeJSON(w io.Writer, m *lift.Machine) error {
	// A map is written with its keys sorted.
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(map[string]any{"nodes": Volts(m)})
}

// A writer writes one netlist.
type writer struct {
	*bufio.Writer
	m      *lift.Machine
	what   []string // by contact: what it is
	closed []bool   // by contact
}

func writeSpice(to io.Writer, m *lift.Machine) error {
	net := m.Wiring().Net
	w := &writer{bufio.NewWriter(to), m, make([]string, net.Contacts()), make([]bool, net.Contacts())}
	w.look()
	fmt.Fprintf(w, "* %s, scheme %s, at %s s\n", plain(m.Plan().Name), m.Plan().Control.Scheme, strconv.FormatFloat(m.TimeS(), 'f', 3, 64))
	fmt.Fprintln(w, "* frozen: contacts and lamps as they stand, coils as their resistance")
	for i := range net.Elements() {
		w.element(relay.ElementID(i))
	}
	// By .op alone six digits are printed; the block asks for more.
	fmt.Fprint(w, ".op\n.control\nset numdgt=9\nop\nprint all\n.endc\n.end\n")
	return w.Flush()
}

// look notes how every contact stands. The main isolator is the one contact
// that is no leaf of the diagram.
func (w *writer) look() {
	var v lift.View
	w.m.Look(&v)
	for k := range w.what {
		w.what[k], w.closed[k] = "isolator", !v.Switches[w.m.Switch("isolator")]
	}
	for i, l := range w.m.Wiring().Leaves {
		if l.Contact >= 0 {
			w.what[l.Contact], w.closed[l.Contact] = plain(l.Part()), v.Contacts[i]
		}
	}
}

// brokenOhm is what is left of a winding that is broken.
const brokenOhm = 1e9

// element writes one two-pole with a comment that says what it is.
func (w *writer) element(id relay.ElementID) {
	net := w.m.Wiring().Net
	e := net.Element(id)
	a, b := net.NodeName(e.A), net.NodeName(e.B)
	resistor := func(what string, ohms float64) {
		fmt.Fprintf(w, "* %s\nr%d %s %s %s\n", what, id, a, b, number(ohms))
	}
	switch e.Kind {
	case relay.Source:
		fmt.Fprintf(w, "* supply\nv%d %s %s dc %s\n", id, emf, b, number(e.Volts))
		a, b = emf, a
		resistor("inside the supply", e.Ohms)
	case relay.Contact:
		if w.closed[e.Index] {
			resistor(w.what[e.Index]+" contact, closed", e.Ohms)
		} else {
			resistor(w.what[e.Index]+" contact, open", net.OpenOhm)
		}
	case relay.Coil:
		part := w.m.Wiring().Coils[e.Index]
		if w.m.Overridden(lift.Part(part)) == "coil-open" {
			resistor(plain(part)+" coil, broken", brokenOhm)
			return
		}
		resistor(plain(part)+" coil", e.Ohms)
	case relay.Lamp:
		stands := ", hot"
		if w.m.Ohms(id) != e.Ohms {
			stands = ", cold"
		}
		resistor(plain(e.Name)+stands, w.m.Ohms(id))
	case relay.Resistor:
		resistor(plain(e.Name)+" suppression", e.Ohms)
	default:
		panic("netlist: a " + e.Kind.String() + ", which no scheme has")
	}
}

// plain keeps a comment in one line of plain characters.
func plain(s string) string {
	out := []rune{}
	for _, r := range s {
		if r < ' ' || r > '~' {
			r = '?'
		}
		out = append(out, r)
	}
	return string(out)
}

// number avoids the suffixes of SPICE: 1e+07, never 10M.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
