package timeline

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// busy is a run in which somebody is always calling, so many seconds long.
func busy(t *testing.T, seconds int) *Run {
	t.Helper()
	p := building.Evenly("Busy House", 6, 3.2)
	p.Selector.SpanDeg = building.SpanFor(p.TravelM())
	m, err := lift.New(&p, lift.Options{})
	require.NoError(t, err)
	r := New(m)
	for s := 0; s < seconds; s += 10 {
		m.Press((s / 10 * 7) % 6)
		for left := 10.0; left > 0; {
			left = r.Advance(left)
		}
	}
	return r
}

// However long the run, the chart of any moment reaches a minute back.
func TestChartOfAnyMomentIsWhole(t *testing.T) {
	r := busy(t, 3600)
	require.Greater(t, r.Chart().SinceS(), 0.0, "the record of the end has let go of the beginning, or nothing is tested")
	for _, at := range []float64{3599, 2500, 333, 70, 5} {
		r.At(at)
		assert.LessOrEqual(t, r.Chart().SinceS(), max(0, at-60), "at %g s", at)
	}
	r.Return()
	assert.False(t, r.Looking())
}

func TestFollowingARunUnderWay(t *testing.T) {
	p := building.Evenly("Other House", 4, 3)
	p.Selector.SpanDeg = building.SpanFor(p.TravelM())
	m, err := lift.New(&p, lift.Options{Start: 1})
	require.NoError(t, err)
	m.Press(3)
	m.Advance(4)
	at4 := m.Hash()
	r := Follow(m)
	m.Advance(20)
	r.Keep()
	assert.Equal(t, "2", r.Strip().Stops[0].Floor)
	r.At(4)
	assert.Equal(t, at4, r.Machine().Hash())
	assert.NotSame(t, m, r.Machine())
	assert.Same(t, m, r.End())
}

// The strip of a run that began between two floors has no stop at its start.
func TestStripOfARunThatBeganBetweenFloors(t *testing.T) {
	p := building.Evenly("Third House", 4, 3)
	p.Selector.SpanDeg = building.SpanFor(p.TravelM())
	y := 4.4
	m, err := lift.New(&p, lift.Options{HeightM: &y})
	require.NoError(t, err)
	r := New(m)
	for left := 5.0; left > 0; {
		left = r.Advance(left)
	}
	s := r.Strip()
	assert.Empty(t, s.Stops)
	assert.InDelta(t, 4.4, s.Path[0][1], 1e-9)
}
