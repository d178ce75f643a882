package lamp

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestRiseAndFall(t *testing.T) {
	for _, l := range []Lamp{Quick, Usual, Slow} {
		assert.InDelta(t, 0.9, l.After(0, true, l.RiseS), 1e-12, "to nine tenths")
		assert.InDelta(t, 0.1, l.After(1, false, l.FallS), 1e-12, "to one tenth")
		assert.InDelta(t, 0.99, l.After(0, true, 2*l.RiseS), 1e-12)
		assert.Equal(t, 0.4, l.After(0.4, true, 0))
		assert.Equal(t, 0.4, l.After(0.4, false, 0))
		assert.InDelta(t, 1, l.After(0, true, 10), 1e-12)
		assert.Less(t, l.FallS, l.RiseS, "a filament fades quicker than it brightens")
		// Small indicator lamps: IES Lighting Handbook, value from memory.
		assert.True(t, 0.040 <= l.RiseS && l.RiseS <= 0.100)
		assert.True(t, 0.020 <= l.FallS && l.FallS <= 0.050)
	}
}

// From where it is to hot, or to cold: the time After needs for it.
func TestTakes(t *testing.T) {
	for _, l := range []Lamp{Quick, Usual, Slow} {
		assert.InDelta(t, l.RiseS, l.Takes(0, true), 1e-15)
		assert.InDelta(t, l.FallS, l.Takes(1, false), 1e-15)
		for _, from := range []float64{0.1, 0.3, 0.5, 0.899} {
			assert.InDelta(t, Hot, l.After(from, true, l.Takes(from, true)), 1e-12)
			assert.InDelta(t, Cold, l.After(from, false, l.Takes(from, false)), 1e-12)
		}
		assert.Zero(t, l.Takes(0.95, true))
		assert.Zero(t, l.Takes(1, true))
		assert.Zero(t, l.Takes(0.05, false))
		assert.Zero(t, l.Takes(0, false))
	}
}

// Two steps are one: the brightness depends on nothing but itself.
func TestStepsAddUp(t *testing.T) {
	for _, fed := range []bool{true, false} {
		whole := Usual.After(0.3, fed, 0.05)
		assert.InDelta(t, whole, Usual.After(Usual.After(0.3, fed, 0.02), fed, 0.03), 1e-14)
	}
}

// Against the differential equation itself, in steps of a microsecond.
func TestAtFollowsTheEquation(t *testing.T) {
	changes := []float64{0.01, 0.05, 0.06, 0.2}
	const step = 1e-6
	b, fed, next := 0.0, false, 0
	for i := range 300000 {
		now := float64(i) * step
		for next < len(changes) && changes[next] <= now+step/2 {
			fed = !fed
			next++
		}
		if i%1000 == 500 {
			assert.InDelta(t, b, Usual.At(changes, now), 1e-4, "%v s", now)
		}
		if fed {
			b += step * (1 - b) * math.Ln10 / Usual.RiseS
		} else {
			b -= step * b * math.Ln10 / Usual.FallS
		}
	}
	assert.Zero(t, Usual.At(nil, 1))
	assert.Zero(t, Usual.At(changes, 0))
}

func TestSees(t *testing.T) {
	for _, c := range []struct {
		darkS float64
		want  string
	}{{0, "hidden"}, {0.019, "hidden"}, {0.021, "doubtful"}, {0.049, "doubtful"}, {0.051, "seen"}, {1, "seen"}} {
		assert.Equal(t, c.want, Sees(c.darkS).String(), "%v s", c.darkS)
	}
}
