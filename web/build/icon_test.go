package main

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An arc of a circle, from (10,0) a quarter round the origin, by way of both
// sweeps; the middle of the arc lies at 45° on the circle, or on its mirror
// image at the chord.
func TestReadPath(t *testing.T) {
	lines, err := readPath("M10 0a10 10 0 0 1-10 10M10 0a10 10 0 0 0-10 10M1 2l3-.5.25.75")
	require.NoError(t, err)
	require.Len(t, lines, 3)
	half := 10 * math.Sqrt2 / 2
	for i, want := range [][2]float64{{half, half}, {10 - half, 10 - half}} {
		line := lines[i]
		assert.InDelta(t, 0, line[len(line)-1][0], 1e-9)
		assert.InDelta(t, 10, line[len(line)-1][1], 1e-9)
		least := math.Inf(1)
		for _, p := range line {
			least = min(least, math.Hypot(p[0]-want[0], p[1]-want[1]))
		}
		assert.Less(t, least, 1.0, "passes %v", want)
	}
	assert.Equal(t, [][2]float64{{1, 2}, {4, 1.5}, {4.25, 2.25}}, lines[2])
}

func TestWhatIsNotKnownIsRefused(t *testing.T) {
	for _, d := range []string{"M1 2c1 1 2 2 3 3", "l1 1", "M1", "M1 2a3 4 0 0 1 1 1", "M1 2a3 3 0 1 1 1 1", "M1 2z"} {
		_, err := readPath(d)
		assert.Error(t, err, d)
	}
	for _, svg := range []string{"<svg", `<svg stroke="#000000"><circle r="1"/></svg>`, `<svg stroke="red"><rect width="1" height="1"/></svg>`, `<svg stroke="#000000"><text/></svg>`} {
		_, err := readMark([]byte(svg))
		assert.Error(t, err, svg)
	}
}

func TestIconsOfTheMark(t *testing.T) {
	text, err := os.ReadFile("../page/icon.svg")
	require.NoError(t, err)
	m, err := readMark(text)
	require.NoError(t, err)
	for _, maskable := range []bool{false, true} {
		const side = 192
		picture, err := png.Decode(bytes.NewReader(m.png(side, maskable)))
		require.NoError(t, err)
		assert.Equal(t, side, picture.Bounds().Dx())
		ground, ink := color.NRGBA{0xF7, 0xF4, 0xEC, 255}, color.NRGBA{0x1F, 0x2A, 0x30, 255}
		at := func(x, y int) color.Color { return color.NRGBAModel.Convert(picture.At(x, y)) }
		assert.Equal(t, ink, at(side/2, side/2), "the hub")
		if maskable {
			assert.Equal(t, ground, at(0, 0), "ground up to the corner")
			cut := 0
			// "Safe zone" of the manifest's standard: a circle of 40 % of the side.
			for y := range side {
				for x := range side {
					if math.Hypot(float64(x)+0.5-side/2, float64(y)+0.5-side/2) > 0.4*side+1 && at(x, y) != ground {
						cut++
					}
				}
			}
			assert.Zero(t, cut, "pixels of the mark that a mask may cut")
			continue
		}
		_, _, _, alpha := picture.At(0, 0).RGBA()
		assert.Zero(t, alpha, "rounded corner")
		assert.Equal(t, ground, at(side/2, 2), "above the wheel")
		assert.Equal(t, ink, at(side/2-75, side/2), "the rim, 12.5 of 32 from the middle")
	}
}
