package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

// On the strip no label touches another or a line, and each lies inside, at
// any size the page gives it and wherever the car is.
func TestTheStripsLabelsTouchNothing(t *testing.T) {
	tongues := tongues(t)
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		r.m.Press(len(p.Floors) - 1)
		for range 4 {
			r.advance(2.3)
			for _, o := range []Options{{Width: 320, Height: 150}, {Width: 620, Height: 170}, {Width: 1500, Height: 260}} {
				for _, tongue := range tongues {
					o.Words, o.Chosen = tongue.Text, "rim."+p.Floors[1].Name
					f := NewUnrolled(&p, o).Draw(&r.v)
					for i, c := range f.Clashes(0.4) {
						if i < 3 {
							t.Errorf("%s, %s, %.0f wide: %v", tongue.Language(), p.Name, o.Width, c)
						}
					}
					for i := range f.Items {
						if it := &f.Items[i]; it.Shape == figure.Text {
							b := f.Bounds(it)
							assert.True(t, b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= o.Width && b.Y1 <= o.Height, "%s, %s: %q", tongue.Language(), p.Name, it.Text)
						}
					}
				}
			}
		}
	}
}

// On the strip no roller sinks into the rim or its ramp and none hovers; level
// with a landing, its centre roller is lifted.
func TestRollersRideTheStrip(t *testing.T) {
	for _, p := range plans(t) {
		u := NewUnrolled(&p, Options{Width: 700, Height: 180})
		for lane := range lanes {
			ramp := &u.ramps[lane]
			for i := range 2000 {
				x := lerp(ramp.from-20, ramp.to+20, float64(i)/1999)
				high := u.high(lane, x)
				nearest := high
				for j := 1; j < len(ramp.x); j++ {
					nearest = min(nearest, toChord(pt(x, high), pt(ramp.x[j-1], ramp.lift[j-1]), pt(ramp.x[j], ramp.lift[j])))
				}
				require.InDelta(t, u.roller, nearest, 0.06*u.roller, "%s, lane %d at %.2f", p.Name, lane, x)
			}
		}
		assert.InDelta(t, u.roller+u.rise(), u.high(1, 0), 1e-9, p.Name)
	}
}

// toChord is the distance of a point from a chord.
func toChord(p, a, b figure.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	k := clamp(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0, 1)
	return math.Hypot(p.X-a.X-k*dx, p.Y-a.Y-k*dy)
}

// The car's mark lies where the car is, and a station is in line with its
// landing: on the way the ramps come to the stations one after another.
func TestTheStripMovesWithTheCar(t *testing.T) {
	p := plans(t)[0]
	r := newRide(t, &p, 0)
	u := NewUnrolled(&p, Options{Width: 700, Height: 180, Words: english(t)})
	centre := func(part string) float64 {
		f := u.Draw(&r.v)
		for i := range f.Items {
			if it := &f.Items[i]; it.Part == part && it.Shape != figure.Text {
				b := f.Bounds(it)
				return (b.X0 + b.X1) / 2
			}
		}
		t.Fatal(part)
		return 0
	}
	r.m.Press(3)
	last := centre("car")
	for range 8 {
		r.advance(1)
		now := centre("car")
		assert.GreaterOrEqual(t, now, last)
		assert.InDelta(t, now, centre("centre-ramp"), 1, "the centre ramp is the car's own place")
		last = now
	}
	for r.v.AtFloor != 3 {
		r.advance(0.5)
	}
	// Levelled to within 25 mm: at this size less than a unit.
	assert.InDelta(t, centre("car"), centre("rim.3"), 1.5)
}

// A contact that is made is drawn in another shape, not in another colour: its
// bar lies on the fixed contacts, and is thicker.
func TestAMadeContactOnTheStripHasItsOwnShape(t *testing.T) {
	p := plans(t)[0]
	r := newRide(t, &p, 0)
	u := NewUnrolled(&p, Options{Width: 700, Height: 180, Words: english(t)})
	bar := func(part string) (y, wide float64) {
		f := u.Draw(&r.v)
		for i := range f.Items {
			if it := &f.Items[i]; it.Part == part && it.Shape == figure.Line && f.Of(it)[0].Y == f.Of(it)[1].Y {
				return f.Of(it)[0].Y, it.Style.Width
			}
		}
		t.Fatal("no bar")
		return 0, 0
	}
	require.True(t, r.v.Rim[0])
	madeY, madeW := bar("rim.G")
	openY, openW := bar("rim.1")
	assert.Greater(t, openY-madeY, 0.3*u.roller)
	assert.GreaterOrEqual(t, madeW, 2*openW)
}

func TestTheStripIsDrawnWithoutAllocating(t *testing.T) {
	p := plans(t)[0]
	r := newRide(t, &p, 0)
	u := NewUnrolled(&p, Options{Width: 700, Height: 180, Words: english(t)})
	u.Draw(&r.v)
	assert.Zero(t, testing.AllocsPerRun(20, func() { u.Draw(&r.v) }))
}
