package selector

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLawPeaks(t *testing.T) {
	// Peaks of velocity (h/b) and acceleration (h/b^2): Norton, Cam Design and
	// Manufacturing Handbook; value from memory, recomputed by integration.
	for _, c := range []struct {
		law                    Law
		velocity, acceleration float64
	}{
		{Harmonic, 1.5708, 4.9348},
		{Cycloidal, 2, 6.2832},
		{Polynomial, 1.875, 5.7735},
	} {
		const n = 100000
		var velocity, acceleration float64
		for i := 0; i <= n; i++ {
			m := c.law.At(float64(i) / n)
			velocity = math.Max(velocity, math.Abs(m.Velocity))
			acceleration = math.Max(acceleration, math.Abs(m.Acceleration))
		}
		assert.InDelta(t, c.velocity, velocity, 5e-5, c.law)
		assert.InDelta(t, c.acceleration, acceleration, 5e-5, c.law)
	}
}

func TestLawIsItsOwnIntegral(t *testing.T) {
	for _, law := range []Law{Harmonic, Cycloidal, Polynomial} {
		const n = 2000
		const h = 1.0 / n
		lift, velocity := 0.0, 0.0
		for i := range n {
			u := float64(i) * h
			a, b, c := law.At(u), law.At(u+h/2), law.At(u+h)
			lift += h / 6 * (a.Velocity + 4*b.Velocity + c.Velocity)
			velocity += h / 6 * (a.Acceleration + 4*b.Acceleration + c.Acceleration)
			assert.InDelta(t, c.Lift, lift, 1e-10, "%v at %v", law, u)
			assert.InDelta(t, c.Velocity, velocity, 1e-10, "%v at %v", law, u)
		}
	}
}

func TestLawEnds(t *testing.T) {
	for _, law := range []Law{Harmonic, Cycloidal, Polynomial} {
		start, end := law.At(0), law.At(1)
		assert.InDelta(t, 0, start.Lift, 1e-15, law)
		assert.InDelta(t, 1, end.Lift, 1e-15, law)
		assert.InDelta(t, 0.5, law.At(0.5).Lift, 1e-15, law)
		assert.InDelta(t, 0, start.Velocity, 1e-15, law)
		assert.InDelta(t, 0, end.Velocity, 1e-15, law)
		assert.Equal(t, Motion{}, law.At(-0.1), law)
		assert.Equal(t, Motion{Lift: 1}, law.At(1.1), law)
		if law == Harmonic {
			assert.InDelta(t, math.Pi*math.Pi/2, start.Acceleration, 1e-12, "it starts with a shock")
			continue
		}
		assert.InDelta(t, 0, start.Acceleration, 1e-14, law)
		assert.InDelta(t, 0, end.Acceleration, 1e-14, law)
	}
	// s = h(u - sin(2 pi u)/(2 pi)), Norton; value from memory.
	assert.InDelta(t, 0.25-1/(2*math.Pi), Cycloidal.At(0.25).Lift, 1e-15)
	// 10/64 - 15/256 + 6/1024
	assert.InDelta(t, 0.103515625, Polynomial.At(0.25).Lift, 1e-15)
}

func TestLawPrintsItself(t *testing.T) {
	assert.Equal(t, "harmonic cycloidal 3-4-5", Harmonic.String()+" "+Cycloidal.String()+" "+Polynomial.String())
	assert.Panics(t, func() { Law(9).At(0.5) })
}
