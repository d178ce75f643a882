package control

import "fmt"

// A Logic is a diagram as switches see it: a coil is fed when closed contacts
// join its bus to the live rail. It judges 64 cases at once; bit i of every
// word belongs to case i.
//
// A Logic does not change once compiled and may be shared. It leaves out
// everything electrical: voltage drop, leaks, and the time a coil takes.
type Logic struct {
	signals []Signal
	index   map[Signal]int // look-up only
	coils   []string
	coil    []int // signal by coil
	buses   int
	gates   []gate
	bridges []bridge
	loads   []load
}

// A Signal is what contacts follow: a part that is in, pressed or made, or
// with a pole one side of a direction switch.
type Signal struct{ Part, Pole string }

// gate is a contact, or gates in series or in parallel.
type gate struct {
	kind   gateKind
	signal int32 // of a contact
	kids   []int32
}

type gateKind uint8

const (
	makeGate gateKind = iota
	breakGate
	seriesGate
	parallelGate
)

// bridge joins two buses through a gate; load hangs a coil on one.
type bridge struct{ from, to, gate int32 }
type load struct{ bus, gate, coil int32 }

// always is the gate of a wire.
const always = -1

// Compile makes the logic of a diagram. It is an error when a branch is not
// contacts from bus to bus, or contacts with one coil or lamp behind them at
// the minus rail: only then can no coil be fed through another.
func Compile(d *Diagram) (*Logic, error) {
	return compile(d, func(c Contact) (Signal, bool) { return Signal{c.Part, c.Pole}, c.Breaks })
}

// compile lets follow say which signal a contact follows and whether it
// breaks.
func compile(d *Diagram, follow func(Contact) (Signal, bool)) (*Logic, error) {
	l := &Logic{index: map[Signal]int{}}
	buses := map[Bus]int32{Plus: 0}
	bus := func(b Bus) int32 {
		i, ok := buses[b]
		if !ok {
			i = int32(len(buses))
			buses[b] = i
		}
		return i
	}
	for i := range d.Branches {
		b := &d.Branches[i]
		if b.To != Minus {
			g, err := l.gateOf(b.Body, follow)
			if err != nil {
				return nil, fmt.Errorf("control: branch %s: %w", b.Name, err)
			}
			l.bridges = append(l.bridges, bridge{bus(b.From), bus(b.To), g})
			continue
		}
		if err := l.addLoad(b.Body, bus(b.From), follow); err != nil {
			return nil, fmt.Errorf("control: branch %s: %w", b.Name, err)
		}
	}
	l.buses = len(buses)
	for _, part := range l.coils {
		l.coil = append(l.coil, l.add(Signal{Part: part}))
	}
	return l, nil
}

// addLoad compiles a branch that ends at the minus rail.
func (l *Logic) addLoad(body Body, from int32, follow func(Contact) (Signal, bool)) error {
	before, last := Series{}, body
	if s, ok := body.(Series); ok && len(s) > 0 {
		before, last = s[:len(s)-1], s[len(s)-1]
	}
	g := int32(always)
	if len(before) > 0 {
		var err error
		if g, err = l.gateOf(before, follow); err != nil {
			return err
		}
	}
	switch last := last.(type) {
	case Coil:
		l.loads = append(l.loads, load{from, g, int32(len(l.coils))})
		l.coils = append(l.coils, last.Part)
	case Lamp:
	default:
		return fmt.Errorf("ends at the minus rail without a coil or a lamp")
	}
	return nil
}

func (l *Logic) gateOf(b Body, follow func(Contact) (Signal, bool)) (int32, error) {
	g := gate{}
	var kids []Body
	switch b := b.(type) {
	case Contact:
		signal, breaks := follow(b)
		g.signal = int32(l.add(signal))
		if breaks {
			g.kind = breakGate
		}
	case Series:
		g.kind, kids = seriesGate, b
	case Parallel:
		g.kind, kids = parallelGate, b
	default:
		return 0, fmt.Errorf("has a coil or a lamp that is not last before the minus rail")
	}
	for _, kid := range kids {
		k, err := l.gateOf(kid, follow)
		if err != nil {
			return 0, err
		}
		g.kids = append(g.kids, k)
	}
	l.gates = append(l.gates, g)
	return int32(len(l.gates) - 1), nil
}

func (l *Logic) add(s Signal) int {
	if i, ok := l.index[s]; ok {
		return i
	}
	i := len(l.signals)
	l.index[s] = i
	l.signals = append(l.signals, s)
	return i
}

// Signals returns all signals the contacts follow, and every coil's part.
func (l *Logic) Signals() []Signal { return l.signals }

// Signal returns the index of a part's signal, or of one pole of it; -1 where
// no contact follows it.
func (l *Logic) Signal(part, pole string) int {
	if i, ok := l.index[Signal{part, pole}]; ok {
		return i
	}
	return -1
}

// Coils returns the parts that have a coil, in the order of the diagram.
func (l *Logic) Coils() []string { return l.coils }

// CoilSignal returns the signal of coil c's own part.
func (l *Logic) CoilSignal(c int) int { return l.coil[c] }

// Lanes are 64 cases side by side.
type Lanes struct {
	In   []uint64 // by signal: in, pressed, made; to be filled in
	Fed  []uint64 // by coil: what Fed finds
	live []uint64 // by bus
}

// Lanes returns empty lanes for this logic.
func (l *Logic) Lanes() *Lanes {
	return &Lanes{In: make([]uint64, len(l.signals)), Fed: make([]uint64, len(l.coils)), live: make([]uint64, l.buses+len(l.bridges))}
}

// Fed finds which coils are fed in each case of s.In.
func (l *Logic) Fed(s *Lanes) {
	live, closed := s.live[:l.buses], s.live[l.buses:]
	clear(live)
	live[0] = ^uint64(0)
	for i := range l.bridges {
		closed[i] = l.conducts(l.bridges[i].gate, s.In)
	}
	// A closed bridge conducts both ways; listed from the live rail outward,
	// most circuits are done after one round and a second to see it.
	for grown := true; grown; {
		grown = false
		for i, b := range l.bridges {
			both := live[b.from] | live[b.to]
			if more := both & closed[i] &^ (live[b.from] & live[b.to]); more != 0 {
				live[b.from] |= more
				live[b.to] |= more
				grown = true
			}
		}
	}
	for _, o := range l.loads {
		fed := live[o.bus]
		if fed != 0 && o.gate != always {
			fed &= l.conducts(o.gate, s.In)
		}
		s.Fed[o.coil] = fed
	}
}

func (l *Logic) conducts(g int32, in []uint64) uint64 {
	o := &l.gates[g]
	switch o.kind {
	case makeGate:
		return in[o.signal]
	case breakGate:
		return ^in[o.signal]
	case seriesGate:
		w := ^uint64(0)
		for _, k := range o.kids {
			if w &= l.conducts(k, in); w == 0 {
				break
			}
		}
		return w
	}
	w := uint64(0)
	for _, k := range o.kids {
		if w |= l.conducts(k, in); w == ^uint64(0) {
			break
		}
	}
	return w
}
