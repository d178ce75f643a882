package mesh

import (
	"image"
	"image/draw"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/game/figure/sample"
	"wheelroom/game/paint/damage"
)

// A picture of which only the damaged rectangles are painted again is the
// picture painted whole, whatever moves over or under whatever.
func TestDamageMakesTheWholePicture(t *testing.T) {
	m, rnd := newMesh(t), rand.New(rand.NewPCG(3, 7))
	f := new(figure.Figure)
	f.Reset(160, 120)
	for range 25 {
		scatter(f, rnd)
	}
	frame := image.Rect(0, 0, 160, 120)
	var w damage.Watch
	have, spared := image.NewRGBA(frame), 0
	for step := range 40 {
		for range rnd.IntN(3) {
			change(f, rnd)
		}
		for _, r := range w.Look(f, 1, frame) {
			m.Begin(1, &figure.Paper)
			for i := range f.Items {
				if w.Reaches(i, r) {
					m.Add(f, &f.Items[i])
				} else {
					spared++
				}
			}
			part := rasterise(m, 160, 120, figure.Paper[figure.Ground])
			draw.Draw(have, r, part, r.Min, draw.Src)
		}
		m.Build(f, 1, &figure.Paper)
		want := rasterise(m, 160, 120, figure.Paper[figure.Ground])
		require.Equal(t, want.Pix, have.Pix, "step %d", step)
	}
	assert.Positive(t, spared, "every mark was painted every time")
}

// scatter adds a mark of any shape somewhere.
func scatter(f *figure.Figure, rnd *rand.Rand) {
	style := figure.Style{
		Fill:   figure.Paint{Role: figure.Role(1 + rnd.IntN(11)), Alpha: 0.6},
		Stroke: figure.Paint{Role: figure.Ink}, Width: 5 * rnd.Float64(),
		Round: rnd.IntN(2) == 0, Glide: rnd.IntN(2) == 0, Dash: figure.Dash(rnd.IntN(3)),
	}
	x, y, d := 160*rnd.Float64(), 120*rnd.Float64(), 2+12*rnd.Float64()
	var it *figure.Item
	switch rnd.IntN(6) {
	case 0:
		style.Fill = figure.Paint{}
		it = f.Polyline(style, figure.Point{X: x, Y: y}, figure.Point{X: x + d, Y: y}, figure.Point{X: x, Y: y + d/4})
	case 1:
		it = f.Polygon(style, figure.Point{X: x, Y: y}, figure.Point{X: x + d, Y: y}, figure.Point{X: x + d/3, Y: y + d})
	case 2:
		it = f.Circle(style, x, y, d)
	case 3:
		style.Fill = figure.Paint{}
		it = f.Arc(style, x, y, d, 1, 1+4*rnd.Float64())
	case 4:
		it = f.Box(style, x, y, x+d, y+2*d, d/5)
	case 5:
		it = f.Text(figure.Paint{Role: figure.Ink}, figure.Face{Size: 6 + d, Align: figure.Align(rnd.IntN(3))}, x, y, "jäf")
	}
	it.Part = string(rune('a' + rnd.IntN(4)))
}

// change moves, drops, adds or lifts a mark.
func change(f *figure.Figure, rnd *rand.Rand) {
	i := rnd.IntN(len(f.Items))
	switch rnd.IntN(5) {
	case 0:
		scatter(f, rnd)
	case 1:
		f.Items = append(f.Items[:i], f.Items[i+1:]...)
	case 2:
		it := f.Items[i]
		f.Items = append(append(f.Items[:i], f.Items[i+1:]...), it)
	default:
		for k := range f.Of(&f.Items[i]) {
			f.Of(&f.Items[i])[k].X += 0.4
		}
	}
}

// What is said to hold a mark holds every corner of its mesh.
func TestBoxHoldsTheMark(t *testing.T) {
	m, rnd := newMesh(t), rand.New(rand.NewPCG(1, 2))
	f := sample.Figure()
	for range 400 {
		scatter(f, rnd)
	}
	for _, scale := range []float64{0.7, 1, 2.3} {
		for i := range f.Items {
			it := &f.Items[i]
			m.Begin(scale, &figure.Paper)
			m.Add(f, it)
			box := damage.Box(f, it, scale)
			for _, v := range m.Vertices {
				in := float32(box.Min.X) <= v.X && v.X <= float32(box.Max.X) && float32(box.Min.Y) <= v.Y && v.Y <= float32(box.Max.Y)
				require.True(t, in, "%+v at %g: %v outside %v", *it, scale, v, box)
			}
		}
	}
}
