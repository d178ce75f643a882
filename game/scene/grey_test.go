package scene

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// Printed grey, or seen by somebody who does not tell the colours apart, every
// state still looks unlike its opposite: by its shape, its thickness, its
// words, or a grey that stands 3 to 1 against the other.
func TestStatesAreToldApartWithoutColour(t *testing.T) {
	p := plans(t)[0]
	r := newRide(t, &p, 0)
	w := r.m.Wiring()
	coil := func(name string) int { return int(w.Coil("relay." + name)) }
	flip := func(of func(v *lift.View) *[]bool, i int) func(v *lift.View, on bool) {
		return func(v *lift.View, on bool) {
			s := of(v)
			*s = slices.Clone(*s)
			(*s)[i] = on
		}
	}
	relays := func(v *lift.View) *[]bool { return &v.Relays }
	type pair struct {
		name, part string
		set        func(v *lift.View, on bool)
	}
	pairs := []pair{
		{"a call registered", "button.2", flip(func(v *lift.View) *[]bool { return &v.Calls }, 2)},
		{"a button pressed", "button.2", flip(func(v *lift.View) *[]bool { return &v.Pressed }, 2)},
		{"a lamp lit", "lamp.3", flip(func(v *lift.View) *[]bool { return &v.Lamps }, 3)},
		{"a centre contact made", "rim.3", flip(func(v *lift.View) *[]bool { return &v.Rim }, 3)},
		{"an up advance contact made", "advance-up.3", flip(func(v *lift.View) *[]bool { return &v.AdvanceUp }, 3)},
		{"a down advance contact made", "advance-down.3", flip(func(v *lift.View) *[]bool { return &v.AdvanceDown }, 3)},
		{"the car's doors", "car-door", func(v *lift.View, on bool) { v.DoorOpen = map[bool]float64{true: 1}[on] }},
		{"the cam", "cam", func(v *lift.View, on bool) { v.CamIn = map[bool]float64{true: 1}[on] }},
		{"the brake", "brake", func(v *lift.View, on bool) { v.BrakeLift = map[bool]float64{true: 1}[on] }},
	}
	for _, name := range []string{"up", "down", "direction", "start", "stop", "level", "door", "up-contactor", "down-contactor", "fast", "slow", "safety"} {
		pairs = append(pairs, pair{"the relay " + name, "relay." + name, flip(relays, coil(name))})
	}
	for _, stands := range [][2]lift.Stand{{lift.Above, lift.Below}, {lift.Above, lift.Between}, {lift.Below, lift.Between}} {
		pairs = append(pairs, pair{"a direction switch " + stands[0].String() + " and " + stands[1].String(), "direction.3", func(v *lift.View, on bool) {
			v.Direction = slices.Clone(v.Direction)
			v.Direction[3] = stands[map[bool]int{true: 1}[on]]
		}})
	}
	for i := range w.Leaves {
		if w.Leaves[i].Part() == "stop-switch" {
			pairs = append(pairs, pair{"a contact", "stop-switch", flip(func(v *lift.View) *[]bool { return &v.Contacts }, i)})
			break // the one in the safety line
		}
	}
	for name, palette := range map[string]*figure.Palette{"paper": &figure.Paper, "slate": &figure.Slate} {
		s := New(&p, w, Options{Width: 1560, Height: 900, Words: english(t)})
		for _, c := range pairs {
			off, on := r.v, r.v
			c.set(&off, false)
			c.set(&on, true)
			a, b := greys(s, &off, palette, c.part), greys(s, &on, palette, c.part)
			require.NotEmpty(t, a, "%s: nothing is drawn of %s", c.name, c.part)
			assert.True(t, apart(a, b), "%s, %s: no difference but in colour", name, c.name)
		}
	}
}

// A grey is a mark as it is without colour.
type grey struct {
	shape        figure.Shape
	points       []figure.Point
	numbers      [4]float64 // radius, angles, width
	dash         figure.Dash
	text         string
	fill, stroke color.NRGBA // on the ground, transparent for none
}

// greys are all marks of a part.
func greys(s *Scene, v *lift.View, palette *figure.Palette, part string) (list []grey) {
	for _, f := range []*figure.Figure{s.Still(), s.Moving(v, nil)} {
		for i := range f.Items {
			it := &f.Items[i]
			if it.Part != part {
				continue
			}
			st := &it.Style
			g := grey{shape: it.Shape, points: slices.Clone(f.Of(it)), numbers: [4]float64{it.Radius, it.From, it.To, 0}, dash: st.Dash, text: it.Text, fill: laid(palette, st.Fill)}
			if st.Stroke.Role != figure.None {
				g.numbers[3], g.stroke = st.Width, laid(palette, st.Stroke)
			}
			list = append(list, g)
		}
	}
	return list
}

// apart reports whether two drawings of a part differ in more than colour.
func apart(a, b []grey) bool {
	if len(a) != len(b) {
		return true
	}
	const seen = 0.8 // logical units: a difference that can be seen
	for i := range a {
		p, q := &a[i], &b[i]
		if p.shape != q.shape || p.dash != q.dash || p.text != q.text || len(p.points) != len(q.points) || p.fill.A != q.fill.A || p.stroke.A != q.stroke.A {
			return true
		}
		for j := range p.points {
			if math.Hypot(p.points[j].X-q.points[j].X, p.points[j].Y-q.points[j].Y) > seen {
				return true
			}
		}
		if math.Abs(p.numbers[0]-q.numbers[0]) > seen || math.Abs(p.numbers[3]-q.numbers[3]) > seen || math.Abs(p.numbers[1]-q.numbers[1]) > 0.2 || math.Abs(p.numbers[2]-q.numbers[2]) > 0.2 {
			return true
		}
		if figure.Contrast(p.fill, q.fill) >= 3 || figure.Contrast(p.stroke, q.stroke) >= 3 {
			return true
		}
	}
	return false
}

// laid is what a paint looks like on the ground.
func laid(p *figure.Palette, paint figure.Paint) color.NRGBA {
	c, under := p.Colour(paint), p[figure.Ground]
	if c.A == 0 || c.A == 255 {
		return c
	}
	a := float64(c.A) / 255
	over := func(x, y uint8) uint8 { return uint8(math.Round(a*float64(x) + (1-a)*float64(y))) }
	return color.NRGBA{R: over(c.R, under.R), G: over(c.G, under.G), B: over(c.B, under.B), A: 255}
}

// What the test rests on: colour alone is no difference to it.
func TestColourAloneIsNoDifference(t *testing.T) {
	var f figure.Figure
	draw := func(role figure.Role, radius float64) []grey {
		f.Reset(10, 10)
		f.Circle(plain(solid(role)), 5, 5, radius)
		return []grey{{shape: figure.Circle, points: slices.Clone(f.Points), numbers: [4]float64{radius}, fill: laid(&figure.Paper, solid(role))}}
	}
	assert.False(t, apart(draw(figure.Up, 3), draw(figure.Down, 3)))
	assert.True(t, apart(draw(figure.Up, 3), draw(figure.Up, 5)))
	assert.True(t, apart(draw(figure.Panel, 3), draw(figure.Ink, 3)))
}
