package selector

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// seed makes every random test the same run.
const seed = 1978

// rounds is how many random plans a property is tried on.
const rounds = 200

// unequal is a house of six unequal storeys, mean 3.36 m, so that its pitch at
// 2.8 terminals a floor is 1.2 m.
func unequal() *building.Plan {
	p := building.Defaults()
	p.Name = "unequal"
	for i, y := range []float64{0, 4.2, 7.4, 10.6, 13.8, 16.8} {
		p.Floors = append(p.Floors, building.Floor{Name: strconv.Itoa(i), HeightM: y})
	}
	return &p
}

func evenly(n int, storeyM float64) *building.Plan {
	p := building.Evenly("even", n, storeyM)
	p.Selector.SpanDeg = math.Min(270, MostDegPerM*p.TravelM())
	return &p
}

// anyPlan draws a plan on which no terminal can be wanted twice: random
// storeys to the millimetre, terminals enough for the smallest of them, widths
// with 1 < sum < 2, any phase that leaves terminal 0 at or below the place it
// has by default.
func anyPlan(r *rand.Rand) *building.Plan {
	p := building.Defaults()
	y := 0.0
	for f := range 2 + r.IntN(31) {
		p.Floors = append(p.Floors, building.Floor{Name: strconv.Itoa(f), HeightM: y})
		y = math.Round((y+2.2+3*r.Float64())*1000) / 1000
	}
	s := &p.Selector
	s.SpanDeg = 90 // leaves room for any of these rings
	s.LiveTerminals = 1 + r.IntN(3)
	s.TerminalsPerFloor = roomyTerminals(&p) * (1 + r.Float64())
	s.TerminalWidth = 0.3 + 0.4*r.Float64()
	s.BrushWidth = 1.01 + 0.98*r.Float64() - s.TerminalWidth
	if r.IntN(2) == 0 {
		pitch := p.TravelM() / float64(len(p.Floors)-1) / s.TerminalsPerFloor
		first := -(float64(s.LiveTerminals-1)/2 + 3*r.Float64()) * pitch
		s.FirstTerminalM = &first
	}
	return &p
}

func random() *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

// ringOf makes the ring of a plan that must have nothing gravely wrong.
func ringOf(t *testing.T, p *building.Plan) *Ring {
	t.Helper()
	ring, problems := NewRing(p)
	for _, problem := range problems {
		require.False(t, problem.Grave, problem.Say.String())
	}
	return ring
}

// starts returns the lowest terminal of each floor.
func starts(r *Ring) []int {
	out := make([]int, len(r.lit))
	for i := len(r.terminals) - 1; i >= 0; i-- {
		if f := r.terminals[i].Floor; f != Blank {
			out[f] = i
		}
	}
	return out
}
