package scene

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/game/figure/draughtsman"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

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
				require.Greater(t, len(w.Dots), 10)
				require.Greater(t, len(w.Across), 40)
				for _, wrong := range w.Judge() {
					t.Errorf("%s, %d floors, %.0f wide: %s at %v", scheme, n, o.Width, wrong.What, wrong.At)
				}
			}
		}
	}
}

// wiresOf takes the circuit apart as it is drawn with no current in it.
func wiresOf(s *Scene, seen *lift.View) *draughtsman.Wires {
	f := &figure.Figure{}
	f.Reset(s.o.Width, s.o.Height)
	s.circuit.draw(f)
	v := *seen
	v.Amperes = nil
	s.circuit.move(f, &v)
	return draughtsman.Of(f, draughtsman.Except{
		Upright: func(part string) bool { return strings.HasPrefix(part, "button") || part == "stop-switch" }, // whose stem it is
		Dot:     func(part string) bool { return strings.HasPrefix(part, "call") },                            // whose box has a sign of its kind
	})
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
