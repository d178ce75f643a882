package scene

import (
	"strings"

	"wheelroom/game/figure"
)

// The whole scene is designed on this sheet; other sizes scale it by the
// smaller ratio and give what is left over to the wheel.
const (
	sheetW, sheetH = 948.0, 590.0
	margin         = 8.0
	chartH         = 158.0
	portrait       = 1.05 // width to height below which pictures stand in a column
)

// lay places the pictures and draws what stands still.
func (s *Scene) lay() {
	w, h := s.o.Width, s.o.Height
	s.still.Reset(w, h)
	s.moving.Reset(w, h)
	s.parts = namesOf(s.plan)
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
		u := min(w/circuitUnits, h/520)
		s.layOne(u, func(in rect) {
			s.setFloors(rect{in.x0, in.y0 + 1.4*s.ink.t, in.x1, in.y1 - s.circuitBelow()}, 0, 0)
			s.circuit = newCircuitPicture(s, in, false)
		})
	case Chart:
		u := min(w/560, h/chartH)
		s.layOne(u, func(in rect) { s.chart = newChartPicture(s, in) })
	default:
		s.layAll()
	}
}

func (s *Scene) layOne(u float64, lay func(rect)) {
	s.ink = newInks(&s.o, u)
	lay(rect{0, 0, s.o.Width, s.o.Height}.inset(margin * min(u, 1.5)))
}

// layAll puts shaft and wheel over the chart, and the circuit beside them over
// the whole height.
func (s *Scene) layAll() {
	w, h := s.o.Width, s.o.Height
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

	s.setFloors(rect{shaft.x0, shaft.y0, shaft.x1, shaft.y1}, machineUnits, 22*u)
	s.shaft = newShaftPicture(s, shaft, u)
	s.rotor = newWheelPicture(s, wheel)
	s.circuit = newCircuitPicture(s, circuit, true)
	s.chart = newChartPicture(s, chart)
}

// setFloors places the landings in a picture with a machine so many units high
// above the shaft, and a pit below it.
func (s *Scene) setFloors(in rect, machine, pit float64) {
	u := s.ink.u
	least := max(19*u, 1.55*s.ink.t+3*u)
	head := machine * u
	if machine > 0 {
		head += 44 * u
	} else {
		head += s.ink.t*1.2 + 18*u
	}
	s.floors = newFloors(s.plan, in.y0+head, in.y1-pit, least)
}

// circuitBelow is the room beneath the rows where the circuit stands alone.
func (s *Scene) circuitBelow() float64 { return 215 * s.ink.u }

// rowY is where the row of a landing stands whose level is at y: at the height
// of its button.
func (s *Scene) rowY(y float64) float64 {
	return y - min(13*s.ink.u, 0.42*s.floors.pitch)
}

// onLamp is what is written on a lit lamp: dark in every theme.
func (s *Scene) onLamp() figure.Paint {
	if s.o.Dark {
		return solid(figure.Ground)
	}
	return solid(figure.Ink)
}

// floorOf returns the floor a part belongs to, -1 for none.
func (s *Scene) floorOf(part string) int {
	kind, name, ok := strings.Cut(part, ".")
	if !ok || !floorKinds[kind] {
		return -1
	}
	return s.plan.Floor(name)
}

// label is a part's short name with its letter code, as the circuit bears it;
// without the floor.
func (s *Scene) label(part string) string {
	kind, rest, dotted := strings.Cut(part, ".")
	id := kind
	if dotted && kind == "relay" {
		id = "relay-" + rest
	}
	return s.say("scene.short", "name", s.say("scene.short-"+id), "code", code(part))
}
