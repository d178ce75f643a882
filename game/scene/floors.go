package scene

import (
	"math"

	"wheelroom/physics/building"
)

// floors is where the landings stand, top to bottom, shared by the shaft and
// the rows of the circuit. Up to maxRows landings all are shown; above that a
// window follows the car.
//
// On buildings whose storeys are very unlike, a low storey is drawn taller
// than it is, so that its label has room; between landings the car's place is
// in proportion.
type floors struct {
	heights     []float64 // metres
	ys          []float64 // of the landings when all are shown
	top, bottom float64   // of the highest and lowest place shown
	windowed    bool
	pxPerM      float64 // in a window; the least of all storeys otherwise
	pitch       float64 // least distance of two landings
}

// maxRows is the most landings shown at once.
const maxRows = 12

// newFloors places the landings between top and bottom, no two nearer than
// least.
func newFloors(p *building.Plan, top, bottom, least float64) *floors {
	g := &floors{top: top, bottom: bottom}
	for _, f := range p.Floors {
		g.heights = append(g.heights, f.HeightM)
	}
	n := len(g.heights)
	room := bottom - top
	if n > maxRows || float64(n-1)*least > room {
		g.windowed = true
		low := math.Inf(1)
		for i := 1; i < n; i++ {
			low = min(low, g.heights[i]-g.heights[i-1])
		}
		rows := min(maxRows-1, math.Floor(room/least))
		g.pxPerM = room / rows / low
		g.pitch = g.pxPerM * low
		return g
	}
	g.spread(least)
	return g
}

// spread gives every storey its share of the room, but at least least.
func (g *floors) spread(least float64) {
	n := len(g.heights)
	room, share := g.bottom-g.top, make([]float64, n)
	fixed := make([]bool, n)
	for again := true; again; {
		again = false
		free, metres := room, 0.0
		for i := 1; i < n; i++ {
			if fixed[i] {
				free -= least
			} else {
				metres += g.heights[i] - g.heights[i-1]
			}
		}
		for i := 1; i < n; i++ {
			if fixed[i] {
				share[i] = least
				continue
			}
			share[i] = free * (g.heights[i] - g.heights[i-1]) / metres
			if share[i] < least-1e-9 {
				fixed[i], again = true, true
			}
		}
	}
	g.ys = make([]float64, n)
	g.ys[0] = g.bottom
	g.pitch, g.pxPerM = math.Inf(1), math.Inf(1)
	for i := 1; i < n; i++ {
		g.ys[i] = g.ys[i-1] - share[i]
		g.pitch = min(g.pitch, share[i])
		g.pxPerM = min(g.pxPerM, share[i]/(g.heights[i]-g.heights[i-1]))
	}
}

// camera returns the height in the middle of the window.
func (g *floors) camera(carM float64) float64 {
	half := (g.bottom - g.top) / 2 / g.pxPerM
	return clamp(carM, half, g.heights[len(g.heights)-1]-half)
}

// y returns where a height is drawn when the car stands at carM.
func (g *floors) y(heightM, carM float64) float64 {
	if g.windowed {
		return (g.top+g.bottom)/2 - (heightM-g.camera(carM))*g.pxPerM
	}
	n := len(g.heights)
	i := 1
	for i < n-1 && heightM > g.heights[i] {
		i++
	}
	k := (heightM - g.heights[i-1]) / (g.heights[i] - g.heights[i-1])
	return lerp(g.ys[i-1], g.ys[i], k)
}

// windowFade is how far beyond a window's end a row fades, in rows.
const windowFade = 0.35

// shown returns how plainly a place at y is seen: 1 inside the window, fading
// to 0 beyond its ends.
func (g *floors) shown(y float64) float64 {
	if !g.windowed {
		return 1
	}
	out := max(g.top-y, y-g.bottom)
	return clamp(1-out/(g.pitch*windowFade), 0, 1)
}
