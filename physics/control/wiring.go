package control

import (
	"fmt"
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/relay"
)

// What the coils and lamps draw from their supply, watts, lamps when hot; and
// the supply's own resistance, the isolator's contact included, ohms at 110 V.
// Sizes usual for panels of this kind: common practice, no source.
const (
	relayW     = 6.0
	contactorW = 20.0
	brakeW     = 80.0
	camW       = 30.0
	lampW      = 3.0
	supplyOhm  = 0.5
)

// A Leaf is one contact, coil or lamp as it was wired, in the order in which
// the diagram's branches and their bodies are read.
type Leaf struct {
	Branch  int             // index into Diagram.Branches
	Body    Body            // Contact, Coil or Lamp
	Contact relay.ContactID // -1 for a coil or a lamp
	Coil    relay.CoilID    // -1 for a contact or a lamp
	Element relay.ElementID
	From    relay.Node
	To      relay.Node
}

// Part returns the part whose contact, coil or lamp the leaf is.
func (l *Leaf) Part() string {
	switch b := l.Body.(type) {
	case Contact:
		return b.Part
	case Coil:
		return b.Part
	case Lamp:
		return b.Part
	}
	return ""
}

// A Gang is all the contacts that one part moves.
type Gang struct {
	Part         string
	Make, Break  []relay.ContactID
	Above, Below []relay.ContactID // of a direction switch
}

// A Wiring is a diagram wired as a network, and the tables that tell which
// contact belongs to which part. It does not change once made; every state of
// the running circuit lives in a relay.State.
type Wiring struct {
	Diagram *Diagram
	Net     *relay.Circuit
	Leaves  []Leaf
	Coils   []string // part by relay.CoilID
	Gangs   []Gang   // in order of first appearance

	gangOf map[string]int // look-up only, never ranged over
	coilOf map[string]relay.CoilID
	leafOf []int // by ContactID
	nodes  map[Bus]relay.Node
}

// Options change the circuit without changing its diagram.
type Options struct {
	// Spread scales the operate and release times of a part's coil; nil
	// leaves them all as the plan gives them.
	Spread func(part string) float64
}

// Wire builds the network of a diagram with the plan's supply and times.
// It fails only if the diagram does not make a network: a coil given twice,
// or a part of it hanging in the air.
func Wire(d *Diagram, p *building.Plan, o Options) (*Wiring, error) {
	w := &Wiring{
		Diagram: d, Net: relay.New(),
		gangOf: map[string]int{}, coilOf: map[string]relay.CoilID{}, nodes: map[Bus]relay.Node{},
	}
	supply, plus := w.Net.Node("supply"), w.node(Plus)
	w.Net.Source(supply, w.node(Minus), p.Control.SupplyV, insideOhm(p.Control.SupplyV))
	for i := range d.Branches {
		b := &d.Branches[i]
		j := joiner{w: w, p: p, o: o, branch: i, stem: d.stem(b)}
		j.join(b.Body, w.node(b.From), w.node(b.To))
		if j.err != nil {
			return nil, j.err
		}
	}
	w.isolate(supply, plus)
	if err := w.Net.Seal(); err != nil {
		return nil, fmt.Errorf("control: scheme %s: %w", d.Scheme, err)
	}
	return w, nil
}

// insideOhm is the resistance inside a supply of that many volts: for the same
// watts every supply loses the same share of its voltage.
func insideOhm(volts float64) float64 {
	share := volts / 110
	return (supplyOhm - relay.ClosedOhm) * share * share
}

// stem is the branch's name as node names are spelled: lower-case letters,
// digits and underscores, floors by index.
func (d *Diagram) stem(b *Branch) string {
	name := b.Name
	if b.Floor >= 0 {
		name = strings.TrimSuffix(name, d.Floors[b.Floor]) + strconv.Itoa(b.Floor)
	}
	return strings.NewReplacer("-", "_", ".", "_").Replace(name)
}

func (w *Wiring) node(b Bus) relay.Node {
	if n, ok := w.nodes[b]; ok {
		return n
	}
	name := strings.NewReplacer("-", "_", ".", "_").Replace(string(b))
	if b == Minus {
		name = "0"
	}
	n := w.Net.Node(name)
	w.nodes[b] = n
	return n
}

// Node returns the network's node of a bus.
func (w *Wiring) Node(b Bus) relay.Node { return w.nodes[b] }

// Gang returns the index of a part's contacts in Gangs, or -1.
func (w *Wiring) Gang(part string) int {
	if g, ok := w.gangOf[part]; ok {
		return g
	}
	return -1
}

// Coil returns the coil of a part, or -1.
func (w *Wiring) Coil(part string) relay.CoilID {
	if c, ok := w.coilOf[part]; ok {
		return c
	}
	return -1
}

// isolate lays the main isolator between the supply and the live rail. It
// belongs to no scheme and so to no branch: it is a contact without a leaf.
func (w *Wiring) isolate(supply, plus relay.Node) {
	k := w.Net.Contact("isolator", supply, plus, true)
	w.leafOf = append(w.leafOf, -1)
	w.gangOf["isolator"] = len(w.Gangs)
	w.Gangs = append(w.Gangs, Gang{Part: "isolator", Break: []relay.ContactID{k}})
}

// LeafOf returns the leaf that is the given contact, nil for the isolator.
func (w *Wiring) LeafOf(k relay.ContactID) *Leaf {
	if w.leafOf[k] < 0 {
		return nil
	}
	return &w.Leaves[w.leafOf[k]]
}

// A joiner lays one branch into the network.
type joiner struct {
	w      *Wiring
	p      *building.Plan
	o      Options
	branch int
	stem   string
	inner  int // interior nodes made so far
	err    error
}

func (j *joiner) join(b Body, from, to relay.Node) {
	if j.err != nil {
		return
	}
	switch b := b.(type) {
	case Series:
		at := from
		for i, part := range b {
			next := to
			if i < len(b)-1 {
				j.inner++
				next = j.w.Net.Node(j.stem + "_" + strconv.Itoa(j.inner))
			}
			j.join(part, at, next)
			at = next
		}
	case Parallel:
		for _, part := range b {
			j.join(part, from, to)
		}
	case Contact:
		j.contact(b, from, to)
	case Coil:
		j.coil(b, from, to)
	case Lamp:
		e := j.w.Net.Lamp(b.Part, from, to, relay.LampFor(j.p.Control.SupplyV, lampW))
		j.leaf(Leaf{Body: b, Contact: -1, Coil: -1, Element: e, From: from, To: to})
	}
}

func (j *joiner) leaf(l Leaf) {
	l.Branch = j.branch
	j.w.Leaves = append(j.w.Leaves, l)
}

func (j *joiner) contact(c Contact, from, to relay.Node) {
	w := j.w
	k := w.Net.Contact(j.stem+"_"+strconv.Itoa(len(w.leafOf)), from, to, c.Breaks)
	w.leafOf = append(w.leafOf, len(w.Leaves))
	j.leaf(Leaf{Body: c, Contact: k, Coil: -1, Element: w.Net.ElementOfContact(k), From: from, To: to})
	g, ok := w.gangOf[c.Part]
	if !ok {
		g = len(w.Gangs)
		w.gangOf[c.Part] = g
		w.Gangs = append(w.Gangs, Gang{Part: c.Part})
	}
	gang := &w.Gangs[g]
	switch {
	case c.Pole == "above":
		gang.Above = append(gang.Above, k)
	case c.Pole == "below":
		gang.Below = append(gang.Below, k)
	case c.Breaks:
		gang.Break = append(gang.Break, k)
	default:
		gang.Make = append(gang.Make, k)
	}
}

func (j *joiner) coil(c Coil, from, to relay.Node) {
	w := j.w
	if _, twice := w.coilOf[c.Part]; twice {
		j.err = fmt.Errorf("control: scheme %s has two coils for %s", w.Diagram.Scheme, c.Part)
		return
	}
	spec := coilSpec(c.Part, j.p)
	if j.o.Spread != nil {
		spec = spec.Spread(j.o.Spread(c.Part))
	}
	id := w.Net.Coil(c.Part, from, to, spec)
	w.coilOf[c.Part] = id
	w.Coils = append(w.Coils, c.Part)
	j.leaf(Leaf{Body: c, Contact: -1, Coil: id, Element: w.Net.ElementOfCoil(id), From: from, To: to})
}

// Times returns how long a part's coil takes to operate and to release under
// a plan, seconds.
func Times(part string, p *building.Plan) (operateS, releaseS float64) {
	c := &p.Control
	switch part {
	case direction:
		return c.DirectionOperateS, c.DirectionReleaseS
	case start:
		return c.StartOperateS, c.StartReleaseS
	case level:
		return c.LevelOperateS, c.LevelReleaseS
	case upContactor, downContactor, fast, slow:
		return c.ContactorOperateS, c.ContactorReleaseS
	case brake:
		return p.Brake.LiftS, p.Brake.SetS
	case cam:
		return p.Door.CamS, p.Door.CamS
	}
	return c.RelayOperateS, c.RelayReleaseS
}

// coilSpec gives a part's coil the plan's operate and release times.
func coilSpec(part string, p *building.Plan) relay.CoilSpec {
	watts := relayW
	switch part {
	case upContactor, downContactor, fast, slow:
		watts = contactorW
	case brake:
		watts = brakeW
	case cam:
		watts = camW
	}
	in, out := Times(part, p)
	v := p.Control.SupplyV
	return relay.SpecFor(v, v*v/watts, in, out)
}
