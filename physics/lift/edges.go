package lift

import (
	"sort"
	"strconv"

	"wheelroom/physics/selector"
)

// edges are all the switches of the machine that are not relays, and the car
// heights at which the car's travel throws them.
type edges struct {
	parts []Part
	gang  []string          // the circuit's name of the part
	spans [][]selector.Span // by switch: where it is made; nil when the car does not move it
	cross []crossing        // by switch: of a direction switch, else zero
	up    []edge            // rising height: thrown in this order while the car goes up
	down  []edge            // falling height
}

type crossing struct{ lo, hi float64 }

type edge struct {
	at float64
	sw int
	to uint8
}

// layEdges lists every switch: first those the wheel and the shaft throw,
// then those of doors, buttons and the safety line.
func (m *Machine) layEdges() edges {
	var e edges
	n := len(m.plan.Floors)
	name := func(kind string, f int) string { return kind + "." + m.plan.Floors[f].Name }
	for f := range n {
		e.made(name("rim", f), m.wheel.Centre(f))
	}
	for f := range n {
		e.made(name("advance-up", f), m.wheel.AdvanceUp(f))
		e.made(name("advance-down", f), m.wheel.AdvanceDown(f))
	}
	for f := range n {
		lo, hi := m.wheel.Crossover(f)
		e.bistable(name("direction", f), lo, hi)
	}
	for t, terminal := range m.ring.Terminals() {
		if terminal.Floor >= 0 {
			e.made("terminal."+strconv.Itoa(t), m.ring.Touch(t))
		}
	}
	vanes := make([]selector.Span, n)
	for f := range n {
		vanes[f] = m.shaft.Vane(f)
	}
	e.made("vane-switch", vanes...)
	e.made("slow-down-top", m.shaft.SlowDownTop())
	e.made("slow-down-bottom", m.shaft.SlowDownBottom())
	e.made("stop-limit-top", m.shaft.StopLimitTop())
	e.made("stop-limit-bottom", m.shaft.StopLimitBottom())
	e.made("final-limit-top", m.shaft.FinalLimitTop())
	e.made("final-limit-bottom", m.shaft.FinalLimitBottom())
	for _, c := range m.wiring.Diagram.Calls {
		e.made(c.Button)
	}
	for _, part := range []string{"at-rest", "car-door", "landing-door", "lock", "door-open",
		"stop-switch", "governor", "safety-gear", "overload", isolator} {
		e.made(part)
	}
	sort.SliceStable(e.up, func(i, j int) bool { return e.up[i].at < e.up[j].at })
	sort.SliceStable(e.down, func(i, j int) bool { return e.down[i].at > e.down[j].at })
	return e
}

func (e *edges) add(part string) int {
	e.parts = append(e.parts, Part(part))
	e.gang = append(e.gang, part)
	e.spans = append(e.spans, nil)
	e.cross = append(e.cross, crossing{})
	return len(e.parts) - 1
}

// made adds a switch that is made inside the spans.
func (e *edges) made(part string, spans ...selector.Span) {
	i := e.add(part)
	e.spans[i] = spans
	for _, s := range spans {
		e.up = append(e.up, edge{s.UpMake, i, 1}, edge{s.UpBreak, i, 0})
		e.down = append(e.down, edge{s.DownMake, i, 1}, edge{s.DownBreak, i, 0})
	}
}

// bistable adds a direction switch: thrown to between inside lo..hi and to
// the side left behind outside.
func (e *edges) bistable(part string, lo, hi float64) {
	i := e.add(part)
	e.cross[i] = crossing{lo, hi}
	e.up = append(e.up, edge{lo, i, uint8(Between)}, edge{hi, i, uint8(Below)})
	e.down = append(e.down, edge{hi, i, uint8(Between)}, edge{lo, i, uint8(Above)})
}

// rest is how switch i stands when the car has been put at height y.
func (e *edges) rest(i int, y float64) uint8 {
	if c := e.cross[i]; c != (crossing{}) {
		switch {
		case y < c.lo:
			return uint8(Above)
		case y > c.hi:
			return uint8(Below)
		}
		return uint8(Between)
	}
	for _, s := range e.spans[i] {
		if s.Made(y) {
			return 1
		}
	}
	return 0
}

// between returns the first edges met on the way from y0 to y1, all those at
// one height: edges at y0 left out, those at y1 included.
func (e *edges) between(y0, y1 float64) []edge {
	list, i := e.up, 0
	switch {
	case y1 > y0:
		i = sort.Search(len(list), func(i int) bool { return list[i].at > y0 })
		if i == len(list) || list[i].at > y1 {
			return nil
		}
	case y1 < y0:
		list = e.down
		i = sort.Search(len(list), func(i int) bool { return list[i].at < y0 })
		if i == len(list) || list[i].at < y1 {
			return nil
		}
	default:
		return nil
	}
	j := i + 1
	for j < len(list) && list[j].at == list[i].at {
		j++
	}
	return list[i:j]
}
