package relay

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
)

// WriteSpice writes the frozen instant as a SPICE netlist which any SPICE
// solves for its operating point as it stands: contacts and lamps as they are,
// coils as their resistance, diodes as Rest finds them. Node names are the circuit's
// own; Rest gives the voltages to compare with.
func WriteSpice(w io.Writer, s *State) error {
	s.Solve()
	c := s.c
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, "* resistive operating point of a relay circuit")
	inner := c.unused("x")
	for i := range c.elements {
		e := &c.elements[i]
		a, b := c.names[e.A], c.names[e.B]
		fmt.Fprintf(out, "* %s %s%s\n", e.Kind, e.Name, s.stands(e))
		resistor := func(tag, a, b string, ohms float64) {
			fmt.Fprintf(out, "r%s%d %s %s %s\n", tag, i, a, b, spiceNumber(ohms))
		}
		battery := func() {
			mid := inner + strconv.Itoa(i)
			fmt.Fprintf(out, "v%d %s %s dc %s\n", i, mid, b, spiceNumber(e.Volts))
			resistor("", a, mid, e.Ohms)
		}
		switch e.Kind {
		case Source:
			battery()
		case Coil:
			resistor("leak", a, b, leakOhm)
			if s.coils[e.Index].forced != OpenCircuit {
				resistor("", a, b, e.Ohms)
			}
		case Diode:
			resistor("leak", a, b, c.OpenOhm)
			if s.rest[e.Index] {
				battery()
			}
		default:
			resistor("", a, b, s.ohms(e))
		}
	}
	fmt.Fprint(out, ".op\n.end\n")
	return out.Flush()
}

// stands says in a comment what the values alone do not.
func (s *State) stands(e *Element) string {
	switch {
	case e.Kind == Contact && s.closed[e.Index]:
		return " closed"
	case e.Kind == Contact:
		return " open"
	case e.Kind == Lamp && s.lamps[e.Index].hot:
		return " hot"
	case e.Kind == Lamp:
		return " cold"
	case e.Kind == Coil && s.coils[e.Index].forced == OpenCircuit:
		return " broken"
	case e.Kind == Diode && s.rest[e.Index]:
		return " conducting"
	case e.Kind == Diode:
		return " blocking"
	}
	return ""
}

// unused lengthens a prefix until no node of the circuit begins with it.
func (c *Circuit) unused(prefix string) string {
	for again := true; again; {
		again = false
		for _, n := range c.names {
			if len(n) >= len(prefix) && n[:len(prefix)] == prefix {
				prefix += "x"
				again = true
			}
		}
	}
	return prefix
}

// spiceNumber avoids SPICE's suffixes: 1e+07, never 10M.
func spiceNumber(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
