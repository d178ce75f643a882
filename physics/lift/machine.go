// Package lift joins the selector, the circuit, the drive and the doors into
// one machine that runs.
//
// A Machine advances in steps of GridS seconds; whatever switches inside a
// step is located there and splits it. Heights are metres above the lowest
// landing, up positive; times are seconds from the start of the run. A run is
// its plan, its options and its inputs: the same three give the same events
// and the same hash on every processor. The machine has no clock of its own
// and draws nothing.
package lift

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/drive"
	"wheelroom/physics/relay"
	"wheelroom/physics/selector"
	"wheelroom/physics/shaft"
)

// GridS is the fixed step of the machine, seconds.
const GridS = 0.005

// never is a tick no run reaches.
const never = math.MaxInt64

// Options say how a run begins. The zero value starts at the lowest landing
// with every relay as fast as the plan says.
type Options struct {
	Start   int                       // landing
	HeightM *float64                  // instead of a landing: any height of the travel
	Spread  func(part string) float64 // factor on the times of a part's coil; nil for 1
	StepS   float64                   // longest step of the moving masses, seconds; 0 or more than GridS: GridS
}

// A Machine is one running lift. Make it with New; the zero value is of no
// use. A Machine once made cannot fail in a step.
type Machine struct {
	plan    building.Plan
	opts    Options
	wheel   *selector.Wheel
	ring    *selector.Ring
	shaft   *shaft.Shaft
	wiring  *control.Wiring
	edges   edges
	train   drive.Train
	indexes indexes

	state
}

// state is all that changes while a machine runs. Clone copies it.
type state struct {
	tick     int64   // grid steps done
	timeS    float64 // now; between two grid points after an event
	wantS    float64 // how far Advance has been asked to go
	drive    drive.State
	circuit  *relay.State
	feed     drive.Feed
	switches []uint8 // by switch: 0 or 1, or a Stand
	forced   []force // by switch
	welded   []weld  // by contact
	lit      []bool  // by floor
	heading  []bool  // by coil
	turned   []int32 // by coil: the event that turned it
	held     []int64 // by call: the tick at which the button comes back, never when it is not pressed
	nextBack int64   // the least of held
	calling  []int8  // by floor: call relays in, where a floor has several
	micros   int64   // rounds of micro: where the run stands, to the last happening
	door     door
	camTurnS float64
	atFloor  int
	queue    []happening
	inputs   []Input // all of them, in order of time
	applied  int     // how many have been applied
	events   []Event
	burst    int // events since burstS
	burstS   float64
	stopped  string
}

// indexes are where the machine finds its own parts; look-ups done once.
type indexes struct {
	coilPart                                               []Part         // by coil
	callCoil                                               []relay.CoilID // by call
	callOf                                                 []int          // by coil: its call, or -1
	lampLeaf                                               []relay.ElementID
	up, down, fast, slow, brake, door, level, cam          relay.CoilID
	atRest, carDoor, landingDoor, lock, doorOpen, governor int
	isolator                                               int
	button                                                 []int          // switch by call
	plainCall                                              []int          // by floor: the call whose button Press pushes
	gang                                                   []int          // by switch
	coilGang                                               []int          // by coil
	switchOf                                               map[string]int // look-up only
}

// New makes a machine for a plan that the building reader has passed, at
// rest at opts.Start with its doors closed and its circuit settled.
func New(plan *building.Plan, opts Options) (*Machine, error) {
	ring, problems := selector.NewRing(plan)
	for _, problem := range problems {
		if problem.Grave {
			return nil, fmt.Errorf("lift: ring: %v", problem.Say)
		}
	}
	if opts.Start < 0 || opts.Start >= len(plan.Floors) {
		return nil, fmt.Errorf("lift: start at landing %d of %d", opts.Start, len(plan.Floors))
	}
	names := make([]string, len(plan.Floors))
	for f := range plan.Floors {
		names[f] = plan.Floors[f].Name
	}
	diagram := control.New(plan.Control.Scheme, names, joined(ring, len(names)))
	if diagram == nil {
		return nil, fmt.Errorf("lift: scheme %q, wanted one of %v", plan.Control.Scheme, control.Schemes())
	}
	wiring, err := control.Wire(diagram, plan, control.Options{Spread: opts.Spread})
	if err != nil {
		return nil, err
	}
	m := &Machine{
		plan: *plan, opts: opts, ring: ring, wiring: wiring,
		wheel: selector.NewWheel(plan), shaft: shaft.New(plan), train: drive.NewTrain(plan),
	}
	m.edges = m.layEdges()
	m.begin()
	return m, nil
}

// Plan returns the plan the machine was made from. It must not be changed.
func (m *Machine) Plan() *building.Plan { return &m.plan }

// Wiring returns the machine's circuit.
func (m *Machine) Wiring() *control.Wiring { return m.wiring }

// Ring returns the ring of terminals.
func (m *Machine) Ring() *selector.Ring { return m.ring }

// Wheel returns the selector wheel.
func (m *Machine) Wheel() *selector.Wheel { return m.wheel }

// Shaft returns what is fixed beside the car's way.
func (m *Machine) Shaft() *shaft.Shaft { return m.shaft }

// TimeS returns how long the machine has run, seconds.
func (m *Machine) TimeS() float64 { return m.timeS }

// Events returns what has happened, in causal order. The slice grows only at
// its end and must not be changed.
func (m *Machine) Events() []Event { return m.events }

// Stopped returns the identity of the message that says why the model came to
// a stop for good, "" while it runs.
func (m *Machine) Stopped() string { return m.stopped }

// Advance runs the machine seconds further, in whole grid steps: what is left
// over is kept for the next call, so that many small advances and one large
// one come to the same.
func (m *Machine) Advance(seconds float64) {
	m.wantS += seconds
	for m.stopped == "" && m.gridS() <= m.wantS+GridS/1000 {
		m.micro()
	}
}

// RunTo advances to the given time; a time already past does nothing.
func (m *Machine) RunTo(timeS float64) {
	if timeS > m.wantS {
		m.Advance(timeS - m.wantS)
	}
}

// Step runs until the next event and stops at its very instant, or after
// limitS seconds if nothing happens. It reports whether there was one.
func (m *Machine) Step(limitS float64) bool {
	n, until := len(m.events), m.timeS+limitS
	for m.stopped == "" && len(m.events) == n && m.timeS < until {
		m.micro()
	}
	if m.timeS > m.wantS {
		m.wantS = m.timeS
	}
	return len(m.events) > n
}

// gridS is the next grid point.
func (m *Machine) gridS() float64 { return float64(m.tick+1) * GridS }

// begin puts the machine at rest at its start and lets the circuit settle.
func (m *Machine) begin() {
	n, contacts, coils := len(m.plan.Floors), len(m.wiring.Leaves), len(m.wiring.Coils)
	y := m.plan.Floors[m.opts.Start].HeightM
	if m.opts.HeightM != nil {
		y = *m.opts.HeightM
	}
	m.state = state{
		drive: m.train.Start(y), circuit: relay.NewState(m.wiring.Net),
		switches: make([]uint8, len(m.edges.parts)), forced: make([]force, len(m.edges.parts)),
		welded: make([]weld, contacts),
		lit:    make([]bool, n), heading: make([]bool, coils), turned: make([]int32, coils),
		held: make([]int64, len(m.wiring.Diagram.Calls)), nextBack: never, calling: make([]int8, n), atFloor: -1,
	}
	m.door.openS, m.door.closeS = m.plan.Door.OpenS, m.plan.Door.CloseS
	m.find()
	for f := range m.held {
		m.held[f] = never
	}
	for i := range m.turned {
		m.turned[i] = -1
	}
	for i := range m.switches {
		m.switches[i] = m.edges.rest(i, y)
	}
	for _, i := range []int{m.indexes.atRest, m.indexes.carDoor, m.indexes.landingDoor} {
		m.switches[i] = 1
	}
	for i := range m.switches {
		m.put(i)
	}
	m.solve(-1)
	// A second is ample for cam, level and safety relays to come in.
	m.Advance(1)
	m.atFloor = m.levelAt()
	m.tick, m.timeS, m.wantS, m.camTurnS = 0, 0, 0, math.Inf(-1)
	m.events, m.queue, m.burst, m.burstS, m.micros = nil, nil, 0, 0, 0
	for i := range m.turned {
		m.turned[i] = -1
	}
}

// joined lists, for every landing, the terminals that feed its lamp.
func joined(ring *selector.Ring, floors int) [][]int {
	out := make([][]int, floors)
	for t, terminal := range ring.Terminals() {
		if terminal.Floor >= 0 {
			out[terminal.Floor] = append(out[terminal.Floor], t)
		}
	}
	return out
}

// find looks up where the machine's own parts stand in circuit and switches.
func (m *Machine) find() {
	x := &m.indexes
	*x = indexes{}
	w := m.wiring
	for _, part := range w.Coils {
		x.coilPart = append(x.coilPart, Part(part))
		x.coilGang = append(x.coilGang, w.Gang(part))
	}
	sw := map[string]int{}
	for i, part := range m.edges.gang {
		x.gang = append(x.gang, w.Gang(part))
		sw[part] = i
	}
	x.callOf = slices.Repeat([]int{-1}, len(w.Coils))
	x.plainCall = make([]int, len(m.plan.Floors))
	for i, c := range w.Diagram.Calls {
		coil := w.Coil(c.Relay)
		x.callCoil = append(x.callCoil, coil)
		x.callOf[coil] = i
		x.button = append(x.button, sw[c.Button])
		if c.Kind == control.AnyCall || c.Kind == control.CarCall {
			x.plainCall[c.Floor] = i
		}
	}
	for i := range w.Leaves {
		if lamp, ok := w.Leaves[i].Body.(control.Lamp); ok && w.Diagram.Branches[w.Leaves[i].Branch].Name == lamp.Part && strings.HasPrefix(lamp.Part, "lamp.") {
			x.lampLeaf = append(x.lampLeaf, w.Leaves[i].Element)
		}
	}
	x.up, x.down = w.Coil("relay.up-contactor"), w.Coil("relay.down-contactor")
	x.fast, x.slow = w.Coil("relay.fast"), w.Coil("relay.slow")
	x.brake, x.door = w.Coil("relay.brake"), w.Coil("relay.door")
	x.level, x.cam = w.Coil("relay.level"), w.Coil("cam")
	x.atRest, x.carDoor, x.landingDoor = sw["at-rest"], sw["car-door"], sw["landing-door"]
	x.lock, x.doorOpen, x.governor = sw["lock"], sw["door-open"], sw["governor"]
	x.isolator = sw[isolator]
	x.switchOf = sw
}
