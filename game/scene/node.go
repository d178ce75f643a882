package scene

import (
	"strings"

	"wheelroom/physics/control"
)

// A node is one piece of a rung: a contact, a coil or a lamp, or pieces behind
// or beside one another. Leaves leaf to end-1 of the wiring lie in it.
type node struct {
	kind      nodeKind
	leaf, end int
	kids      []node
	w         float64 // room it needs, logical units: across,
	up, down  float64 // above its axis and below
	part      string
	breaks    bool
	bare      bool   // it bears no name
	label     string // words and letter code
	floors    []int  // of a bank: whose each of its kids is
}

type nodeKind uint8

const (
	contactNode nodeKind = iota
	coilNode
	lampNode
	seriesNode
	parallelNode
	// A bank is one and the same circuit for every floor; one floor's is
	// drawn, in a frame that names the floor.
	bankNode
)

// strip takes the names off a node's contacts.
func strip(n *node) {
	n.bare = true
	for i := range n.kids {
		strip(&n.kids[i])
	}
}

// build makes the node of a body whose first leaf is *leaf.
func (c *circuitPicture) build(b control.Body, leaf *int) node {
	n := node{leaf: *leaf}
	switch b := b.(type) {
	case control.Contact:
		n.kind, n.part, n.breaks = contactNode, b.Part, b.Breaks
		*leaf++
	case control.Coil:
		n.kind, n.part = coilNode, b.Part
		*leaf++
	case control.Lamp:
		n.kind, n.part = lampNode, b.Part
		*leaf++
	case control.Series:
		n.kind = seriesNode
		for _, part := range b {
			n.kids = append(n.kids, c.build(part, leaf))
		}
	case control.Parallel:
		n.kind = parallelNode
		for _, part := range b {
			n.kids = append(n.kids, c.build(part, leaf))
		}
		n.kids = c.banked(n.kids)
	}
	n.end = *leaf
	return n
}

// banked puts neighbours that are the same circuit for different floors into
// one bank.
func (c *circuitPicture) banked(kids []node) []node {
	var out []node
	for i := 0; i < len(kids); {
		j := i + 1
		shape := shapeOf(&kids[i])
		if strings.Contains(shape, "#") {
			for j < len(kids) && shapeOf(&kids[j]) == shape {
				j++
			}
		}
		if j-i < 2 {
			out = append(out, kids[i])
		} else {
			bank := node{kind: bankNode, leaf: kids[i].leaf, end: kids[j-1].end, kids: kids[i:j:j]}
			for o := i; o < j; o++ {
				bank.floors = append(bank.floors, c.floorIn(&kids[o]))
			}
			out = append(out, bank)
		}
		i = j
	}
	return out
}

// floorIn is the floor of the first part in a node that has one, -1 for none.
func (c *circuitPicture) floorIn(n *node) int {
	if fl := c.s.floorOf(n.part); fl >= 0 {
		return fl
	}
	for i := range n.kids {
		if fl := c.floorIn(&n.kids[i]); fl >= 0 {
			return fl
		}
	}
	return -1
}

// shown is which of a bank's kids is drawn while floor fl is of interest.
func (n *node) shown(fl int) int {
	for i, f := range n.floors {
		if f == fl {
			return i
		}
	}
	return 0
}

// shapeOf spells a node with its parts, a floor's part without the floor: two
// of one shape differ in nothing but the floor.
func shapeOf(n *node) string {
	var b strings.Builder
	spell(&b, n)
	return b.String()
}

func spell(b *strings.Builder, n *node) {
	kind, _, floor := strings.Cut(n.part, ".")
	switch {
	case n.part == "":
	case floor && floorKinds[kind]:
		b.WriteString(kind + "#")
	default:
		b.WriteString(n.part)
	}
	if n.breaks {
		b.WriteByte('\'')
	}
	b.WriteByte([...]byte{'.', 'o', 'x', '-', '|', '='}[n.kind])
	for i := range n.kids {
		b.WriteByte('(')
		spell(b, &n.kids[i])
		b.WriteByte(')')
	}
}

// code is the letter that marks what kind of thing a part is, as IEC 81346-2
// has it: K relay, Q contactor, S push-button or hand switch, B position
// switch, P lamp, M magnet or motor, X terminal.
func code(part string) string {
	kind, rest, _ := strings.Cut(part, ".")
	switch kind {
	case "relay":
		switch rest {
		case "up-contactor", "down-contactor", "fast", "slow":
			return "Q"
		case "brake":
			return "M"
		}
		return "K"
	case "call":
		return "K"
	case "button", "stop-switch":
		return "S"
	case "lamp", "call-lamp":
		return "P"
	case "cam", "motor":
		return "M"
	case "terminal":
		return "X"
	}
	return "B"
}
