package scene

import (
	"strings"
)

// The whole scene is designed on this sheet; other sizes scale it by the
// smaller ratio and give what is left over to the wheel.
const (
	sheetW, sheetH = 948.0, 590.0
	margin         = 8.0
	chartH         = 158.0
	portrait       = 1.0 // width to height below which pictures stand in a column

	columnW, columnH = 545.0, 1090.0 // the sheet of that column

	mechanismW, mechanismH = 636.0, 440.0 // the sheet of shaft and wheel alone
)

// lay places the pictures and draws what stands still.
func (s *Scene) lay() {
	w, h := s.o.Width, s.o.Height
	s.still.Reset(w, h)
	s.moving.Reset(w, h)
	s.parts = namesOf(s.plan)
	s.calls = callsOf(s.wiring.Diagram)
	switch s.o.Picture {
	case Shaft:
		u := min(w/(shaftUnits+2*margin), h/440)
		s.layOne(u, func(in rect) {
			s.setFloors(in, machineUnits, 20*u)
			s.shaft = newShaftPicture(s, in, u)
		})
	case Wheel:
		u := min(w/430, h/430)
		s.layOne(u, func(in rect) { s.rotor = newWheelPicture(s, in) })
	case Circuit:
		s.layCircuit()
	case Chart:
		u := min(w/560, h/chartH)
		s.layOne(u, func(in rect) { s.chart = newChartPicture(s, in) })
	case Mechanism:
		s.layMechanism()
	default:
		s.layAll()
	}
}

// layCircuit draws the circuit alone: as many of its branches as can be read,
// and of the sizes that show so many the largest.
func (s *Scene) layCircuit() {
	w, h := s.o.Width, s.o.Height
	most := min(w/(circuitUnits+2*margin), h/500)
	least := most
	if w > h && !s.o.Lecture {
		least = max(0.6*most, 0.6)
	}
	best, count := most, -1
	for u := most; u >= least; u *= 0.96 {
		if n := len(s.trialCircuit(u).set); n > count {
			best, count = u, n
		}
	}
	s.trialCircuit(best)
	s.circuit = newCircuitPicture(s, s.sheet(best))
}

// sheet is the room inside the scene's margins.
func (s *Scene) sheet(u float64) rect {
	return rect{0, 0, s.o.Width, s.o.Height}.inset(margin * min(u, 1.5))
}

// trialCircuit lays the circuit out at a size, the rows no lower than lets
// what belongs beneath them find room.
func (s *Scene) trialCircuit(u float64) *circuitPicture {
	s.ink = newInks(&s.o, u)
	in := s.sheet(u)
	// The rows keep what room they need not to crowd.
	rows := float64(min(len(s.plan.Floors), maxRows)-1)*s.leastPitch() + 3*s.ink.t + 45*u
	most := max(150*u, min(0.58*in.h(), in.h()-rows))
	return s.fitBeneath(in, 0, 150*u, most, func() *circuitPicture { return arranged(s, in) })
}

// fitBeneath places the floors with a pit, at most so deep, that leaves just
// the room for the rungs beneath the rows.
func (s *Scene) fitBeneath(in rect, machine, least, most float64, trial func() *circuitPicture) *circuitPicture {
	s.setFloors(in, machine, most)
	c := trial()
	spare := c.place.y1 - c.columns[0].bottom
	s.setFloors(in, machine, min(most, max(least, most-spare+8*s.ink.u)))
	return trial()
}

func (s *Scene) layOne(u float64, lay func(rect)) {
	s.ink = newInks(&s.o, u)
	lay(rect{0, 0, s.o.Width, s.o.Height}.inset(margin * min(u, 1.5)))
}

// layAll puts shaft and wheel over the chart, and the circuit beside them over
// the whole height.
func (s *Scene) layAll() {
	w, h := s.o.Width, s.o.Height
	if w < portrait*h {
		s.layColumn()
		return
	}
	u := min(w/sheetW, h/sheetH)
	s.ink = newInks(&s.o, u)
	in := rect{0, 0, w, h}.inset(margin * u)
	gap := 10 * u
	circuit := rect{in.x1 - circuitUnits*u, in.y0, in.x1, in.y1}
	tall := chartH * u
	chart := rect{in.x0, in.y1 - tall, circuit.x0 - 1.6*gap, in.y1}
	top := rect{in.x0, in.y0, chart.x1, chart.y0 - gap}
	shaft := rect{top.x0, top.y0, top.x0 + shaftUnits*u, top.y1}
	wheel := rect{shaft.x1 + 0.6*gap, top.y0, top.x1, top.y1}

	s.fitBeneath(shaft, machineUnits, 44*u, 84*u, func() *circuitPicture { return arranged(s, circuit) })
	s.shaft = newShaftPicture(s, shaft, u)
	s.rotor = newWheelPicture(s, wheel)
	s.circuit = newCircuitPicture(s, circuit)
	s.chart = newChartPicture(s, chart)
}

// layColumn stands shaft and circuit, whose rows are level, over the wheel, and
// the wheel over the chart.
func (s *Scene) layColumn() {
	w, h := s.o.Width, s.o.Height
	u := min(w/columnW, h/columnH)
	s.ink = newInks(&s.o, u)
	in := rect{0, 0, w, h}.inset(margin * u)
	if spare := in.w() - (columnW-2*margin)*u; spare > 0 {
		in.x0, in.x1 = in.x0+spare/2, in.x1-spare/2
	}
	gap := 10 * u
	chart := rect{in.x0, in.y1 - chartH*u, in.x1, in.y1}
	top := rect{in.x0, in.y0, in.x1, in.y0 + 505*u}
	shaft := rect{top.x0, top.y0, top.x0 + shaftUnits*u, top.y1}
	circuit := rect{top.x1 - circuitUnits*u, top.y0, top.x1, top.y1}
	wheel := rect{in.x0, top.y1 + gap, in.x1, chart.y0 - gap}

	s.fitBeneath(shaft, machineUnits, 120*u, 190*u, func() *circuitPicture { return arranged(s, circuit) })
	s.shaft = newShaftPicture(s, shaft, u)
	s.circuit = newCircuitPicture(s, circuit)
	s.rotor = newWheelPicture(s, wheel)
	s.chart = newChartPicture(s, chart)
}

// layMechanism stands the shaft beside the wheel, as large as they go.
func (s *Scene) layMechanism() {
	u := min(s.o.Width/mechanismW, s.o.Height/mechanismH)
	s.ink = newInks(&s.o, u)
	in := s.sheet(u)
	if spare := in.w() - (mechanismW-2*margin)*u; spare > 0 {
		in.x0, in.x1 = in.x0+spare/2, in.x1-spare/2
	}
	shaft := rect{in.x0, in.y0, in.x0 + shaftUnits*u, in.y1}
	s.setFloors(shaft, machineUnits, 20*u)
	s.shaft = newShaftPicture(s, shaft, u)
	s.rotor = newWheelPicture(s, rect{shaft.x1 + 6*u, in.y0, in.x1, in.y1})
}

// setFloors places the landings in a picture with a machine so many units high
// above the shaft, and a pit below it.
func (s *Scene) setFloors(in rect, machine, pit float64) {
	u := s.ink.u
	least := s.leastPitch()
	if machine == 0 {
		head := s.ink.t*1.75 + 34*u
		if s.ink.lecture {
			head += 0.8 * s.ink.t
		}
		s.floors = newFloors(s.plan, in.y0+head, in.y1-pit, least)
		return
	}
	// The car at the highest landing and its limit switches need head room,
	// and its height follows from the room that leaves.
	head := 30 * u
	for range 3 {
		s.floors = newFloors(s.plan, in.y0+machine*u+head, in.y1-pit, least)
		head = s.carHeight(u) + 17*u
	}
}

// leastPitch is the least distance of two rows: room for a name and, where a
// floor has several kinds of call, for their contacts side by side.
func (s *Scene) leastPitch() float64 {
	u, t := s.ink.u, s.ink.t
	several := false
	for _, c := range s.calls {
		several = several || len(c) > 1
	}
	switch {
	case s.o.Lecture && several:
		return 2.25*t + 3*u
	case s.o.Lecture:
		return 1.55*t + 3*u
	case several:
		return max(24*u, 1.4*t+2.5*u)
	}
	return max(17*u, 1.4*t+2.5*u)
}

// carHeight is the height of the car as drawn: true to the shaft where that
// leaves the landings clear.
func (s *Scene) carHeight(u float64) float64 {
	g := s.floors
	return clamp(2.2*g.pxPerM, 16*u, min(0.78*g.pitch, 44*u))
}

// rowY is where the row of a landing stands whose level is at y: at the height
// of its button.
func (s *Scene) rowY(y float64) float64 {
	return y - min(13*s.ink.u, 0.42*s.floors.pitch)
}

// floorOf returns the floor a part belongs to, -1 for none.
func (s *Scene) floorOf(part string) int {
	kind, name, ok := strings.Cut(part, ".")
	if !ok || !ofFloor(kind) {
		return -1
	}
	return s.plan.Floor(name)
}

// label is a part's short name with its letter code, as the circuit bears it;
// without the floor, and on a projector without the code.
func (s *Scene) label(part string) string {
	kind, rest, dotted := strings.Cut(part, ".")
	id := kind
	if dotted && kind == "relay" {
		id = "relay-" + rest
	}
	if s.ink.lecture {
		if part == "relay.up-contactor" || part == "relay.down-contactor" {
			return s.say("scene.chart-" + rest)
		}
		return s.say("scene.short-" + id)
	}
	return s.say("scene.short", "name", s.say("scene.short-"+id), "code", Code(part))
}
