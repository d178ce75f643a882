package scene

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// Wires that cross hop, wires that meet have a dot, and a dot is always where
// three of them meet: not at a corner, and never at a crossing, where one could
// not tell which it is.
func TestEveryDotIsAJointAndEveryCrossingHops(t *testing.T) {
	say := english(t)
	for _, scheme := range control.Schemes() {
		for _, n := range []int{2, 6, 12, 20} {
			p := even(n)
			p.Control.Scheme = scheme
			r := newRide(t, &p, 0)
			for _, o := range []Options{
				{Width: 1560, Height: 900, Picture: Circuit}, {Width: 948, Height: 590},
				{Width: 1920, Height: 1080, Lecture: true}, {Width: 360, Height: 640, Picture: Circuit},
			} {
				o.Words = say
				s := New(&p, r.m.Wiring(), o)
				w := wiresOf(s, &r.v)
				require.Greater(t, len(w.dots), 10)
				require.Greater(t, len(w.across), 40)
				for _, wrong := range w.judge() {
					t.Errorf("%s, %d floors, %.0f wide: %s at %v", scheme, n, o.Width, wrong.what, wrong.at)
				}
			}
		}
	}
}

// A test that cannot fail proves nothing: three figures, each wrong in one way.
func TestWrongWiresAreFound(t *testing.T) {
	ink := figure.Style{Stroke: solid(figure.Ink), Width: 1}
	for want, draw := range map[string]func(f *figure.Figure){
		"crossing":          func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Line(ink, 50, 0, 50, 100) },
		"joint without dot": func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Line(ink, 50, 50, 50, 100) },
		"dot at a crossing": func(f *figure.Figure) {
			f.Line(ink, 0, 50, 100, 50)
			f.Line(ink, 50, 0, 50, 100)
			f.Circle(plain(solid(figure.Ink)), 50, 50, 2)
		},
		"dot without joint": func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Circle(plain(solid(figure.Ink)), 50, 50, 2) },
		"dot without joint ": func(f *figure.Figure) {
			f.Polyline(ink, pt(0, 50), pt(50, 50), pt(50, 90))
			f.Circle(plain(solid(figure.Ink)), 50, 50, 2)
		},
	} {
		f := &figure.Figure{}
		draw(f)
		w := &drawnWires{}
		w.take(f)
		wrong := w.judge()
		require.NotEmpty(t, wrong, want)
		assert.Contains(t, wrong[0].what, strings.TrimSpace(want))
	}
}

// drawnWires are the level and upright pieces of wire in a drawing, and its dots.
type drawnWires struct {
	across, upright [][2]figure.Point
	dots            []figure.Point
}

// wiresOf takes the circuit apart as it is drawn with no current in it.
func wiresOf(s *Scene, seen *lift.View) *drawnWires {
	f := &figure.Figure{}
	f.Reset(s.o.Width, s.o.Height)
	s.circuit.draw(f)
	v := *seen
	v.Amperes = nil
	s.circuit.move(f, &v)
	w := &drawnWires{}
	w.take(f)
	return w
}

// dotMost is more than any dot's radius, and less than any other disc's.
const dotMost = 9.0

func (w *drawnWires) take(f *figure.Figure) {
	for i := range f.Items {
		it := &f.Items[i]
		at := f.Points[it.At : it.At+it.N]
		inked := it.Style.Stroke.Role == figure.None && it.Style.Fill.Role == figure.Ink
		switch {
		case it.Shape == figure.Line && it.Style.Fill.Role == figure.None:
			for k := 1; k < len(at); k++ {
				level, plumb := close(at[k-1].Y, at[k].Y, 1e-6), close(at[k-1].X, at[k].X, 1e-6)
				if level && !plumb {
					w.across = append(w.across, [2]figure.Point{at[k-1], at[k]})
				} else if plumb && !level && !strings.HasPrefix(it.Part, "button") && it.Part != "stop-switch" { // whose stem is no wire
					w.upright = append(w.upright, [2]figure.Point{at[k-1], at[k]})
				}
			}
		case it.Shape == figure.Circle && inked && it.Radius < dotMost:
			w.dots = append(w.dots, at[0])
		case it.Shape == figure.Box && inked && !strings.HasPrefix(it.Part, "call"): // which has a sign of its kind
			w.dots = append(w.dots, pt((at[0].X+at[1].X)/2, (at[0].Y+at[1].Y)/2))
		}
	}
}

func close(a, b, within float64) bool { return a-b < within && b-a < within }

type wrongWire struct {
	what string
	at   figure.Point
}

// Two things meet when they are this near, logical units.
const meets = 0.3

// along tells where v lies on the way from a to b: 0 off it, 1 at an end of it,
// 2 within it.
func along(v, a, b float64) int {
	switch lo, hi := min(a, b), max(a, b); {
	case v < lo-meets || v > hi+meets:
		return 0
	case v < lo+meets || v > hi-meets:
		return 1
	}
	return 2
}

// judge lists what a careful draughtsman would not accept.
func (w *drawnWires) judge() (wrong []wrongWire) {
	dotted := func(p figure.Point) bool {
		for _, d := range w.dots {
			if close(d.X, p.X, 1) && close(d.Y, p.Y, 1) {
				return true
			}
		}
		return false
	}
	for _, h := range w.across {
		for _, u := range w.upright {
			p := pt(u[0].X, h[0].Y)
			i, j := along(p.X, h[0].X, h[1].X), along(p.Y, u[0].Y, u[1].Y)
			switch {
			case i == 2 && j == 2 && dotted(p):
				wrong = append(wrong, wrongWire{"dot at a crossing", p})
			case i == 2 && j == 2:
				wrong = append(wrong, wrongWire{"crossing without a hop", p})
			case i+j == 3 && !dotted(p):
				wrong = append(wrong, wrongWire{"joint without dot", p})
			}
		}
	}
	for _, d := range w.dots {
		if n := w.leave(d); n < 3 {
			wrong = append(wrong, wrongWire{"dot without joint", d})
		} else if n > 3 {
			wrong = append(wrong, wrongWire{"dot at a crossing", d})
		}
	}
	return wrong
}

// leave counts the directions in which wires leave a dot, which covers what is
// a unit off.
func (w *drawnWires) leave(d figure.Point) int {
	left, right, up, down := 0, 0, 0, 0
	for _, h := range w.across {
		if lo, hi := min(h[0].X, h[1].X), max(h[0].X, h[1].X); close(h[0].Y, d.Y, 1) {
			if lo < d.X-1 && hi > d.X-1 {
				left = 1
			}
			if hi > d.X+1 && lo < d.X+1 {
				right = 1
			}
		}
	}
	for _, u := range w.upright {
		if lo, hi := min(u[0].Y, u[1].Y), max(u[0].Y, u[1].Y); close(u[0].X, d.X, 1) {
			if lo < d.Y-1 && hi > d.Y-1 {
				up = 1
			}
			if hi > d.Y+1 && lo < d.Y+1 {
				down = 1
			}
		}
	}
	return left + right + up + down
}

// A coil's name lies inside its box.
func TestNamesFitTheirCoils(t *testing.T) {
	say := english(t)
	for _, scheme := range control.Schemes() {
		for _, o := range []Options{
			{Width: 1560, Height: 900, Picture: Circuit}, {Width: 948, Height: 590},
			{Width: 1920, Height: 1080, Lecture: true}, {Width: 360, Height: 640, Picture: Circuit},
		} {
			p := even(6)
			p.Control.Scheme = scheme
			o.Words = say
			s := New(&p, newRide(t, &p, 0).m.Wiring(), o)
			require.NotEmpty(t, s.circuit.strip)
			for _, b := range s.circuit.strip {
				assert.Less(t, figure.Measure(b.name, s.circuit.em, true), b.box.x1-b.box.x0, "%s, %.0f wide: %s", scheme, o.Width, b.name)
			}
		}
	}
}
