package figure

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A thinned line keeps within its tolerance of every point left out.
func TestThin(t *testing.T) {
	var line []Point
	for i := range 3000 {
		x := float64(i) / 3000
		line = append(line, Point{100 * x, 40 * math.Sin(4*math.Pi*x)})
	}
	var thinner Thinner
	kept := thinner.Thin(slices.Clone(line), 0.12)
	assert.Less(t, len(kept), 120)
	assert.Equal(t, [2]Point{line[0], line[2999]}, [2]Point{kept[0], kept[len(kept)-1]})
	at := 0
	for _, p := range line {
		for at+2 < len(kept) && p.X > kept[at+1].X {
			at++
		}
		require.LessOrEqual(t, p.toChord(kept[at], kept[at+1]), 0.12+1e-9)
	}
	assert.Equal(t, line[:2], thinner.Thin(slices.Clone(line[:2]), 1))
	straight := []Point{{0, 0}, {1, 0}, {2, 0}, {3, 0}}
	assert.Equal(t, []Point{{0, 0}, {3, 0}}, thinner.Thin(straight, 0.01))
	again := slices.Clone(line)
	assert.Zero(t, testing.AllocsPerRun(5, func() {
		copy(again, line)
		thinner.Thin(again, 0.12)
	}))
}
