package scene

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// now returns where the line of now and the end of the speed's line are; -1 for
// one that is not drawn.
func now(c *chartPicture, f *figure.Figure) (line, speed float64) {
	line, speed = -1, -1
	for i := range f.Items {
		it := &f.Items[i]
		if it.Shape != figure.Line {
			continue
		}
		last := f.Points[it.At+it.N-1]
		switch {
		case it.Part == "car" && it.N > 2:
			speed = last.X
		case it.N == 2 && f.Points[it.At].X == last.X && last.Y == c.axis:
			line = last.X
		}
	}
	return line, speed
}

// What has been seen reaches to the moment shown, also when that lies between
// two of the instants at which the machine was looked at.
func TestChartReachesTheMomentLookedBackAt(t *testing.T) {
	p := even(6)
	r := newRide(t, &p, 0)
	r.m.Press(4)
	r.advance(30)
	s := New(&p, r.m.Wiring(), Options{Width: 900, Height: 220, Picture: Chart, Words: english(t)})
	for _, at := range []float64{2.013, 7.4, 11.111, 24.999} {
		past := r.v
		past.TimeS = at
		line, speed := now(s.chart, s.Moving(&past, r.run))
		require.Positive(t, line, "at %g s", at)
		assert.InDelta(t, line, speed, 1e-9, "at %g s", at)
	}
}

// The window stands while now crosses it, and never lets now leave it.
func TestChartStandsWhileNowCrosses(t *testing.T) {
	p := even(6)
	r := newRide(t, &p, 0)
	s := New(&p, r.m.Wiring(), Options{Width: 900, Height: 220, Picture: Chart, Words: english(t)})
	c := s.chart
	jumps, last := 0, 0.0
	for at := 0.0; at < 10*c.span; at += 0.1 {
		from := c.from(at)
		require.GreaterOrEqual(t, at, from)
		require.LessOrEqual(t, at, from+c.span*5/6+1e-9)
		if from != last {
			jumps, last = jumps+1, from
		}
	}
	assert.Equal(t, 19, jumps, "half a window each")
}

// A window that is fixed shows its own stretch and no more.
func TestChartInRows(t *testing.T) {
	p := even(6)
	r := newRide(t, &p, 0)
	r.m.Press(5)
	r.advance(90)
	s := New(&p, r.m.Wiring(), Options{Width: 680, Height: 220, Picture: Chart, Words: english(t)})
	span := s.Window(0)
	require.Less(t, span, 90.0)
	f := s.Moving(&r.v, r.run)
	line, speed := now(s.chart, f)
	assert.Equal(t, -1.0, line, "now is not in it")
	assert.LessOrEqual(t, speed, s.chart.x1+1e-9)
	for i := range f.Items {
		it := &f.Items[i]
		for _, q := range f.Points[it.At : it.At+it.N] {
			require.LessOrEqual(t, q.X, s.chart.x1+1e-6, "nothing leaves the chart")
		}
	}
	s.Window(span)
	line, _ = now(s.chart, s.Moving(&lift.View{TimeS: span + 1, Relays: r.v.Relays, Lamps: r.v.Lamps}, r.run))
	assert.Positive(t, line)
}

// What passes too often to be told apart is not drawn, and comes back when
// time stands.
func TestNothingFlashesAtAnyPace(t *testing.T) {
	s := &Scene{}
	for _, c := range []struct{ often, pace, want float64 }{
		{0.4, 1, 1}, {0.4, 4, 1}, {0.4, 16, 0}, {-0.4, 16, 0}, {50, 0, 1}, {2.45, 1, 0.5},
	} {
		s.Pace(c.pace)
		assert.InDelta(t, c.want, s.steady(c.often), 1e-9, "%+v", c)
	}
}
