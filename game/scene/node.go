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
	chain     []int  // of a chain: its leaves, from the rail on
}

type nodeKind uint8

const (
	contactNode nodeKind = iota
	coilNode
	lampNode
	seriesNode
	parallelNode
	// A bank is the circuits of several floors side by side; one floor's is
	// drawn, in a frame that names the floor.
	bankNode
	// A chain is the contacts of several floors one behind the other, drawn as
	// one contact: closed while all are.
	chainNode
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
	// What is alone needs nothing round it.
	if (n.kind == seriesNode || n.kind == parallelNode) && len(n.kids) == 1 {
		return n.kids[0]
	}
	return n
}

// banked puts neighbours that belong to different floors into one bank.
func (c *circuitPicture) banked(kids []node) []node {
	var out []node
	for i := 0; i < len(kids); {
		j := i
		last := -1
		var floors []int
		for j < len(kids) {
			fl := c.floorIn(&kids[j])
			if fl < 0 || fl == last {
				break
			}
			floors, last = append(floors, fl), fl
			j++
		}
		if j-i < 2 {
			out = append(out, kids[i])
			i++
			continue
		}
		out = append(out, node{kind: bankNode, leaf: kids[i].leaf, end: kids[j-1].end, kids: kids[i:j:j], floors: floors})
		i = j
	}
	return out
}

// floorIn is the floor whose parts a node has; -1 for none or more than one.
func (c *circuitPicture) floorIn(n *node) int {
	if n.kind == bankNode {
		return -1
	}
	fl := c.s.floorOf(n.part)
	for i := range n.kids {
		if n.kids[i].kind == bankNode {
			return -1
		}
		switch k := c.floorIn(&n.kids[i]); {
		case k < 0 && c.anyFloor(&n.kids[i]):
			return -1
		case k >= 0 && fl >= 0 && k != fl:
			return -1
		case k >= 0:
			fl = k
		}
	}
	return fl
}

// anyFloor reports whether a node has parts of any floor.
func (c *circuitPicture) anyFloor(n *node) bool {
	if c.s.floorOf(n.part) >= 0 {
		return true
	}
	for i := range n.kids {
		if c.anyFloor(&n.kids[i]) {
			return true
		}
	}
	return false
}

// shown is which of a bank's kids is drawn while floor fl is of interest: that
// floor's, or the nearest there is.
func (n *node) shown(fl int) int {
	best := 0
	for i, f := range n.floors {
		if abs(f-fl) < abs(n.floors[best]-fl) {
			best = i
		}
	}
	return best
}

func abs(i int) int {
	if i < 0 {
		return -i
	}
	return i
}

// Code is the letter that marks what kind of thing a part is, as IEC 81346-2
// has it: K relay, Q contactor, S push-button or hand switch, B position
// switch, P lamp, M magnet or motor, X terminal.
func Code(part string) string {
	kind, rest, _ := strings.Cut(part, ".")
	switch {
	case kind == "relay":
		switch rest {
		case "up-contactor", "down-contactor", "fast", "slow":
			return "Q"
		case "brake":
			return "M"
		}
		return "K"
	case strings.HasSuffix(kind, "lamp"):
		return "P"
	case strings.HasPrefix(kind, "call"):
		return "K"
	case strings.HasPrefix(kind, "button") || kind == "stop-switch":
		return "S"
	case kind == "cam" || kind == "motor":
		return "M"
	case kind == "terminal":
		return "X"
	}
	return "B"
}
