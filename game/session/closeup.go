package session

import (
	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/physics/control"
)

// A closeup is what a loupe and a strip are drawn from: a wheel of its own, so
// that they do not depend on what the stage shows, and the rim unrolled.
type closeup struct {
	wiring *control.Wiring // of the machine both are laid out for
	wheel  *scene.Scene
	rim    *scene.Unrolled
	width  float64 // of the strip
	whole  figure.Figure
	loupe  figure.Figure
}

// Measures of the loupe, units of its own wheel.
const (
	closeupWheel = 760.0 // side of the wheel's picture
	loupeField   = 190.0 // what the loupe sees of it, across
)

// Of the strip, to its width.
const stripShare, stripLeast = 0.24, 150.0

// Loupe returns what lies round a part of the wheel at this instant, enlarged
// to a square of that side, CSS pixels; a part that the wheel does not show is
// refused. The figure stays the session's own.
func (s *Session) Loupe(part string, side float64) (*figure.Figure, error) {
	c := s.near()
	x0, y0, x1, y1, ok := c.wheel.Box(part)
	if !ok || !(side > 0) {
		return nil, refuse("stage.unknown-part", "part", part)
	}
	c.wheel.Choose(s.picture.Chosen)
	moving := c.wheel.Moving(s.calm.shown(), nil)
	x0, y0, x1, y1, _ = c.wheel.Box(part)
	c.whole.Reset(closeupWheel, closeupWheel)
	c.whole.Append(c.wheel.Still())
	c.whole.Append(moving)
	x, y := (x0+x1)/2, (y0+y1)/2
	c.loupe.Window(&c.whole, figure.Rect{X0: x - loupeField/2, Y0: y - loupeField/2, X1: x + loupeField/2, Y1: y + loupeField/2}, side/loupeField)
	return &c.loupe, nil
}

// Rim returns the wheel's rim unrolled along the travel at this instant, so many CSS
// pixels wide, from 280 up. The figure stays the session's own.
func (s *Session) Rim(width float64) *figure.Figure {
	c := s.near()
	width = max(width, 280)
	if c.rim == nil || c.width != width {
		c.width = width
		c.rim = scene.NewUnrolled(s.machine().Plan(), scene.Options{Width: width, Height: max(stripLeast, min(stripShare*width, 240)), Words: s.o.Words})
	}
	c.rim.Choose(s.picture.Chosen)
	return c.rim.Draw(s.calm.shown())
}

// nearReach is by how much a mark of the close-up may be missed, CSS pixels:
// half the least size of a target.
const nearReach = 12

// LoupeAt returns the part of the loupe last drawn that lies at a place of it,
// CSS pixels, "" for none.
func (s *Session) LoupeAt(x, y float64) string { return s.near().loupe.PartAt(x, y, nearReach) }

// RimAt returns the part of the rim last drawn that lies at a place of it, CSS
// pixels, "" for none.
func (s *Session) RimAt(x, y float64) string {
	c := s.near()
	if c.rim == nil {
		return ""
	}
	return c.rim.Draw(s.calm.shown()).PartAt(x, y, nearReach)
}

// near is the close-up of the machine on the stage.
func (s *Session) near() *closeup {
	m := s.machine()
	if s.close == nil || s.close.wiring != m.Wiring() {
		s.close = &closeup{wiring: m.Wiring()}
		s.close.wheel = scene.New(m.Plan(), m.Wiring(), scene.Options{Width: closeupWheel, Height: closeupWheel, Picture: scene.Wheel, Words: s.o.Words})
	}
	return s.close
}
