package scene

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/lift"
)

// seen is a view of two coils and two floors at an instant.
func seen(t, speed float64, relays, lamps [2]bool) *lift.View {
	return &lift.View{TimeS: t, SpeedMS: speed, Relays: relays[:], Lamps: lamps[:]}
}

func TestRecordKeepsBars(t *testing.T) {
	r := NewRecord(2, 2)
	r.Look(seen(0, 0, [2]bool{false, true}, [2]bool{true, false}))
	r.Look(seen(1, 0, [2]bool{true, true}, [2]bool{true, false}))
	r.Look(seen(2, 0, [2]bool{true, false}, [2]bool{false, true}))
	assert.Equal(t, bar{1, 2}, r.bar(0, 0))
	assert.True(t, r.open[0])
	assert.Equal(t, bar{0, 2}, r.bar(1, 0))
	assert.False(t, r.open[1])
	assert.Equal(t, bar{0, 2}, r.bar(2, 0))
	assert.Equal(t, bar{2, 2}, r.bar(3, 0))
	assert.Equal(t, []int{1, 1, 1, 1}, r.count)
}

// Going back takes back what came after, and the bar that was on then is on
// again.
func TestRecordGoesBack(t *testing.T) {
	r := NewRecord(2, 2)
	for i := range 10 {
		on := i >= 2 && i < 5 || i >= 7
		r.Look(seen(float64(i), float64(i), [2]bool{on, false}, [2]bool{}))
	}
	assert.Equal(t, 2, r.count[0])
	r.Look(seen(3.5, 3.5, [2]bool{true, false}, [2]bool{}))
	assert.Equal(t, 1, r.count[0])
	assert.Equal(t, bar{2, 3.5}, r.bar(0, 0))
	assert.True(t, r.open[0])
	assert.Equal(t, 3.5, r.times.get(r.times.n-1))
	r.Look(seen(1, 1, [2]bool{}, [2]bool{}))
	assert.Zero(t, r.count[0])
	assert.False(t, r.open[0])
	r.Reset()
	assert.Zero(t, r.times.n)
}

// The storage is bounded, the newest is kept, and a long straight stretch is
// two samples.
func TestRecordIsBounded(t *testing.T) {
	r := NewRecord(2, 2)
	for i := range 4 * keptSamples {
		r.Look(seen(float64(i), float64(i%2), [2]bool{i%2 == 0, false}, [2]bool{}))
	}
	assert.Equal(t, keptSamples, r.times.n)
	assert.Equal(t, float64(4*keptSamples-1), r.times.get(keptSamples-1))
	assert.Equal(t, keptBars, r.count[0])
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		r.Look(seen(r.last+1, math.Mod(r.last, 2), [2]bool{}, [2]bool{}))
	}))

	r = NewRecord(2, 2)
	for i := range 200 {
		r.Look(seen(float64(i)*0.02, float64(i)*0.02, [2]bool{}, [2]bool{}))
	}
	assert.Equal(t, 2, r.times.n)
}
