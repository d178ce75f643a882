package lift

import "slices"

// A Stretch is a part of the travel within which the car throws no switch,
// as a car finds it that has come there in one direction.
type Stretch struct {
	FromM, ToM float64 // height of the car, above the lowest landing
	Up         bool    // come from below
	Made       []bool  // by Machine.Switch: what travel makes is made here
	Stand      []Stand // by floor: its direction switch
}

// Stretches lists every stretch from one final limit to the other, as met going up
// and then as met going down. Rollers make and break at different heights, so
// the two lists differ.
func (m *Machine) Stretches() []Stretch {
	top := m.plan.TravelM()
	return append(m.stretchesMet(m.edges.up, -beyondM, true), m.stretchesMet(m.edges.down, top+beyondM, false)...)
}

// beyondM is well outside any switch in the shaft, metres.
const beyondM = 10.0

// stretchesMet sweeps from outside the travel through all edges.
func (m *Machine) stretchesMet(list []edge, fromM float64, up bool) []Stretch {
	low, high := -m.plan.Shaft.FinalLimitM, m.plan.TravelM()+m.plan.Shaft.FinalLimitM
	now := make([]uint8, len(m.edges.parts))
	for i := range now {
		now[i] = m.edges.rest(i, fromM)
	}
	var out []Stretch
	at := fromM
	add := func(to float64) {
		lo, hi := min(at, to), max(at, to)
		if hi > low && lo < high && hi > lo {
			out = append(out, m.stretch(now, lo, hi, up))
		}
		at = to
	}
	for i := 0; i < len(list); {
		inside := list[i].at > fromM && up || list[i].at < fromM && !up
		if !inside {
			i++
			continue
		}
		add(list[i].at)
		for here := list[i].at; i < len(list) && list[i].at == here; i++ {
			now[list[i].sw] = list[i].to
		}
	}
	return out
}

func (m *Machine) stretch(now []uint8, lo, hi float64, up bool) Stretch {
	p := Stretch{FromM: lo, ToM: hi, Up: up, Made: make([]bool, len(now)), Stand: make([]Stand, len(m.plan.Floors))}
	for i, v := range now {
		if m.edges.cross[i] == (crossing{}) {
			p.Made[i] = v == 1
		}
	}
	for f := range p.Stand {
		p.Stand[f] = Stand(now[slices.Index(m.edges.parts, Part(m.wiring.Diagram.Part("direction", f)))])
	}
	return p
}
