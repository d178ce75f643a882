package scene

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/building"
)

func heights(hs ...float64) *building.Plan {
	p := building.Defaults()
	for i, h := range hs {
		p.Floors = append(p.Floors, building.Floor{Name: numbers[i], HeightM: h})
	}
	return &p
}

func TestFloorsStandToScale(t *testing.T) {
	g := newFloors(heights(0, 4, 7, 10), 100, 300, 20)
	assert.False(t, g.windowed)
	assert.InDeltaSlice(t, []float64{300, 220, 160, 100}, g.ys, 1e-9) // 20 to the metre
	assert.InDelta(t, 290, g.y(0.5, 0), 1e-9)
	assert.InDelta(t, 310, g.y(-0.5, 0), 1e-9) // below the lowest landing in the same scale
	assert.InDelta(t, 90, g.y(10.5, 0), 1e-9)
}

// A storey too low for its label is drawn taller, the others share the rest.
func TestLowStoreysAreDrawnTaller(t *testing.T) {
	g := newFloors(heights(0, 2.2, 30, 32.2), 0, 340, 40)
	assert.InDeltaSlice(t, []float64{340, 300, 40, 0}, g.ys, 1e-9)
	assert.InDelta(t, 40, g.pitch, 1e-9)
}

// The window follows the car and stops at the ends of the shaft.
func TestWindowFollowsTheCar(t *testing.T) {
	p := even(32) // 3.2 m apart, 99.2 m of travel
	g := newFloors(&p, 100, 430, 20)
	assert.True(t, g.windowed)
	assert.InDelta(t, 30, g.pitch, 1e-9) // eleven storeys in 330
	assert.InDelta(t, 265, g.y(50, 50), 1e-9)
	assert.InDelta(t, 430, g.y(0, 0), 1e-9)
	assert.InDelta(t, 430, g.y(0, 5), 1e-9) // it does not show what is below the lowest landing
	assert.InDelta(t, 100, g.y(99.2, 99.2), 1e-9)
	assert.Equal(t, 1.0, g.shown(265))
	assert.Equal(t, 0.0, g.shown(430+30))
	assert.Greater(t, g.shown(432), 0.5)
}

func TestTwelveFloorsNeedNoWindow(t *testing.T) {
	p := even(maxRows)
	assert.False(t, newFloors(&p, 0, 11*20, 20).windowed)
	assert.True(t, newFloors(&p, 0, 11*20-1, 20).windowed) // too little room for a label each
	p = even(maxRows + 1)
	assert.True(t, newFloors(&p, 0, 2000, 20).windowed)
}
