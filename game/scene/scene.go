// Package scene turns a plan and what there is to see of its machine into
// drawings as data: the shaft, the selector wheel, the control circuit and the
// chart of what has happened.
//
// Logical units, x right, y down, origin at the top left of the whole scene.
// A Scene is laid out once for a size. What stands still and what moves are
// two figures, so that the first can be kept as one picture; the second is
// filled again for every instant without allocating. Every mark bears the
// name of the part it shows, and every part can be found by its place.
//
// The rows of the circuit stand level with the landings of the shaft. On tall
// buildings shaft and rows show a window that follows the car.
//
// The package draws nothing on a screen and knows no colours, only roles. It
// leaves out the page around the pictures.
package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// A Picture is one of the pictures a scene can show, or all of them.
type Picture uint8

// The pictures.
const (
	All Picture = iota
	Shaft
	Wheel
	Circuit
	Chart
	Mechanism // shaft and wheel without a legend, for people who come by
)

// String returns the picture's word, as an address spells it.
func (p Picture) String() string {
	return [...]string{"all", "shaft", "wheel", "circuit", "chart", "mechanism"}[p]
}

// Options are the size of a scene and what it shows. Width and Height are
// logical units (CSS pixels), from 320 up.
type Options struct {
	Width, Height float64
	Lecture       bool // large type and thick lines, for a projector
	Picture       Picture
	Words         func(phrase.Phrase) string // nil spells the phrases bare
	Chosen        string                     // part to point out, with its twins
}

// A Scene is the drawing of one machine at one size. Make it with New.
type Scene struct {
	plan   *building.Plan
	wiring *control.Wiring
	wheel  *selector.Wheel
	ring   *selector.Ring
	o      Options
	ink    inks

	floors  *floors
	shaft   *shaftPicture
	rotor   *wheelPicture
	circuit *circuitPicture
	chart   *chartPicture

	window        float64 // where the chart begins, seconds; less than 0 where it follows now
	pace          float64 // machine seconds to one of the viewer's; 0 while time stands
	still, moving figure.Figure
	targets       targets
	chosen        string
	parts         partNames
	calls         [][]call // by floor
}

// New lays a scene out. The wiring is that of the machine shown.
func New(p *building.Plan, w *control.Wiring, o Options) *Scene {
	if o.Words == nil {
		o.Words = phrase.Phrase.String
	}
	ring, _ := selector.NewRing(p)
	s := &Scene{plan: p, wiring: w, wheel: selector.NewWheel(p), ring: ring, o: o, window: -1}
	s.lay()
	s.chosen = o.Chosen
	s.follow(&lift.View{}) // so that parts have places before the first look
	return s
}

// kindOf is the kind of call whose relay a part of floor fl is.
func (s *Scene) kindOf(fl int, relay string) control.CallKind {
	for _, c := range s.calls[fl] {
		if c.relay == relay {
			return c.kind
		}
	}
	return control.AnyCall
}

// Words of a part or a caption, from the catalogue.
func (s *Scene) say(id string, pairs ...any) string { return s.o.Words(phrase.Of(id, pairs...)) }

// Pace says how fast time passes from the next Moving on, machine seconds to
// one of the viewer's, 0 for a picture that stands. What would flash before the
// eye at that pace, spokes and strands, is not drawn.
func (s *Scene) Pace(pace float64) { s.pace = pace }

// A pattern whose marks pass a place so often in a second of the viewer's
// clock begins to fade, and is gone: three flashes a second are the most (WCAG
// 2.2, success criterion 2.3.1).
const (
	fadeFrom = 2.0
	fadeGone = 2.9
)

// steady is how much is to be seen, 0 to 1, of a pattern whose marks pass a
// place so often in a second of the machine.
func (s *Scene) steady(often float64) float64 {
	return clamp((fadeGone-math.Abs(often)*s.pace)/(fadeGone-fadeFrom), 0, 1)
}

// faded is a paint of which so much is seen; of none there is no paint.
func faded(p figure.Paint, seen float64) figure.Paint {
	switch {
	case seen >= 1:
		return p
	case seen <= 0:
		return figure.Paint{}
	}
	if p.Alpha == 0 {
		p.Alpha = 1
	}
	p.Alpha *= seen
	return p
}

// Still returns what stands still. It is drawn beneath what moves and changes
// only with a new Scene.
func (s *Scene) Still() *figure.Figure { return &s.still }

// Moving returns what moves, at the instant of the view; run is what the
// chart shows and may be nil. The figure is the scene's own and is overwritten
// by the next call, which allocates nothing once storage has grown.
func (s *Scene) Moving(v *lift.View, run *Record) *figure.Figure {
	f := &s.moving
	f.Reset(s.o.Width, s.o.Height)
	s.follow(v)
	s.pointOut(f)
	first := len(f.Items)
	if s.rotor != nil {
		s.rotor.move(f, v)
	}
	if s.shaft != nil {
		s.shaft.move(f, v)
	}
	glide(f, first)
	if s.circuit != nil {
		s.circuit.move(f, v)
	}
	if s.chart != nil && run != nil {
		s.chart.move(f, v, run)
	}
	return f
}

// follow moves the places of what moves.
func (s *Scene) follow(v *lift.View) {
	if s.rotor != nil {
		s.rotor.follow(v)
	}
	if s.shaft != nil {
		s.shaft.follow(v)
	}
	if s.circuit != nil {
		s.circuit.follow(v)
	}
}

// Window fixes where the chart begins, seconds of the run; less than 0 lets it
// follow the moment shown. It returns how many seconds the chart shows, 0
// where there is none.
func (s *Scene) Window(fromS float64) (seconds float64) {
	s.window = fromS
	if s.chart == nil {
		return 0
	}
	return s.chart.span
}

// Choose points out a part and its twins from the next Moving on; "" none.
func (s *Scene) Choose(part string) { s.chosen = part }
