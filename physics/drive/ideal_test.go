package drive

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// profileS returns the time of the jerk-limited trip found without a formula:
// the peak speed is lowered until the way to it and back is no longer than the
// trip, every piece of constant jerk being integrated in its turn.
func profileS(d, v, a, j float64) float64 {
	ramp := func(v float64) (dist, time float64) {
		top := min(a, math.Sqrt(v*j))
		pieces := [3]struct{ jerk, forS float64 }{{j, top / j}, {0, v/top - top/j}, {-j, top / j}}
		speed, accel := 0.0, 0.0
		for _, p := range pieces {
			t := p.forS
			dist += speed*t + accel*t*t/2 + p.jerk*t*t*t/6
			speed += accel*t + p.jerk*t*t/2
			accel += p.jerk * t
			time += t
		}
		return dist, time
	}
	way, time := ramp(v)
	if 2*way <= d {
		return 2*time + (d-2*way)/v
	}
	lo, hi := 1e-9, v
	for range 100 {
		mid := (lo + hi) / 2
		if way, _ := ramp(mid); 2*way < d {
			lo = mid
		} else {
			hi = mid
		}
	}
	_, time = ramp(lo)
	return 2 * time
}

func TestIdealTrip(t *testing.T) {
	// Peters 1995, Elevator Technology 6: formulas from memory, values by
	// piecewise integration.
	for _, c := range []struct{ d, v, a, j, want float64 }{
		{24, 2.5, 1, 1.5, 12.76667},
		{3.3, 1, 0.8, 1.2, 5.21667},
		{3.3, 2.5, 1, 1.5, 4.36051},
		{2, 1, 1, 1, 4.0},
		{0.5, 1, 1, 1, 2.51984},
		{0.25, 1, 1, 1, 2.0},
	} {
		name := fmt.Sprintf("%v m, %v m/s, %v m/s², %v m/s³", c.d, c.v, c.a, c.j)
		assert.InDelta(t, c.want, IdealS(c.d, c.v, c.a, c.j), 5e-6, name)
		assert.InDelta(t, profileS(c.d, c.v, c.a, c.j), IdealS(c.d, c.v, c.a, c.j), 1e-6, name)
	}
	// Anywhere, also where the speed is too low for the full acceleration.
	for _, d := range []float64{0.1, 0.5, 1, 3, 10, 40} {
		for _, v := range []float64{0.2, 0.6, 1, 2.5} {
			for _, a := range []float64{0.4, 0.8, 1.5} {
				for _, j := range []float64{0.5, 1, 2.2} {
					assert.InDelta(t, profileS(d, v, a, j), IdealS(d, v, a, j), 1e-6, "%v %v %v %v", d, v, a, j)
				}
			}
		}
	}
}

func TestNoTripBeatsTheIdealOne(t *testing.T) {
	for _, wheel := range []float64{0.05, 0.3, 1.2, 2.4} {
		p := withWheel(wheel)
		tr := NewTrain(&p)
		for _, dist := range []float64{3.2, 9.6} {
			trips(&p, dist, func(trip Trip, dir float64) {
				r := Try(&p, trip)
				f := r.Figures(&tr)
				assert.Greater(t, f.TripS, f.IdealS, "wheel %v, %+v", wheel, trip)
			})
		}
	}
}
