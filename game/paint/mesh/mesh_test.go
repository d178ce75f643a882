package mesh

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/game/figure/sample"
)

// bench is black on white, so that a pixel's darkness is its share of ink.
var bench = figure.Palette{figure.Ground: {R: 255, G: 255, B: 255, A: 255}, figure.Ink: {A: 255}}

var ink = figure.Paint{Role: figure.Ink}

func newMesh(t *testing.T) *Mesh {
	a, err := NewAtlas(fonts.Regular, fonts.Bold)
	require.NoError(t, err)
	return New(a)
}

func dark(p *image.RGBA, x, y int) float64 { return 1 - float64(p.RGBAAt(x, y).R)/255 }

// inked is the sum of ink in a picture, in pixels.
func inked(p *image.RGBA) float64 {
	sum := 0.0
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			sum += dark(p, x, y)
		}
	}
	return sum
}

// drawn paints one thing on a bench of 100 by 100 pixels.
func drawn(t *testing.T, do func(f *figure.Figure)) *image.RGBA {
	var f figure.Figure
	f.Reset(100, 100)
	do(&f)
	return picture(newMesh(t), &f, 1, &bench)
}

// A soft edge gives as much ink as it takes: each shape shows its own area.
func TestInkEqualsArea(t *testing.T) {
	type pt = figure.Point
	fill := figure.Style{Fill: ink}
	stroke := func(w float64) figure.Style { return figure.Style{Stroke: ink, Width: w, Glide: true} }
	round := stroke(6)
	round.Round = true
	dashed := stroke(4)
	dashed.Dash = figure.Dashed // marks of 10 and gaps of 6
	late := dashed
	late.Phase = 12
	for _, c := range []struct {
		name string
		draw func(f *figure.Figure)
		want float64
	}{
		{"disc", func(f *figure.Figure) { f.Circle(fill, 50.3, 49.8, 30) }, math.Pi * 900},
		{"small disc", func(f *figure.Figure) { f.Circle(fill, 50.3, 49.8, 2) }, math.Pi * 4},
		{"ring", func(f *figure.Figure) { f.Circle(stroke(5), 50, 50, 30) }, 2 * math.Pi * 30 * 5},
		{"stroked disc", func(f *figure.Figure) { f.Circle(figure.Style{Fill: ink, Stroke: ink, Width: 4}, 50, 50, 30) }, math.Pi * 32 * 32},
		{"triangle", func(f *figure.Figure) { f.Polygon(fill, pt{X: 10, Y: 10}, pt{X: 90, Y: 20}, pt{X: 30, Y: 80}) }, 2700}, // half of 80·70-20·10
		{"triangle the other way", func(f *figure.Figure) { f.Polygon(fill, pt{X: 30, Y: 80}, pt{X: 90, Y: 20}, pt{X: 10, Y: 10}) }, 2700},
		{"hollow", func(f *figure.Figure) {
			f.Polygon(fill, pt{X: 10, Y: 10}, pt{X: 90, Y: 10}, pt{X: 90, Y: 90}, pt{X: 70, Y: 30})
		}, 1600}, // shoelace formula
		{"star", func(f *figure.Figure) { star(f, fill, 10, 20, 40) }, 10 * 20 * 40 * math.Sin(math.Pi/10)}, // 2n triangles of ½·r·R·sin(π/n), n = 10
		{"star backwards", func(f *figure.Figure) { star(f, fill, -10, 20, 40) }, 10 * 20 * 40 * math.Sin(math.Pi/10)},
		{"rounded box", func(f *figure.Figure) { f.Box(fill, 10, 10, 60, 40, 10) }, 50*30 - (4-math.Pi)*100},
		{"sloping line", func(f *figure.Figure) { f.Line(stroke(3), 10, 10, 90, 70) }, 100 * 3},
		{"hairline", func(f *figure.Figure) { f.Line(stroke(0.4), 10, 10, 90, 70) }, 100 * 0.4},
		{"round line", func(f *figure.Figure) { f.Line(round, 10, 10, 90, 70) }, 100*6 + math.Pi*9},
		{"dot", func(f *figure.Figure) { f.Polyline(round, pt{X: 50, Y: 50}) }, math.Pi * 9},
		{"mitred corner", func(f *figure.Figure) { f.Polyline(stroke(6), pt{X: 10, Y: 10}, pt{X: 80, Y: 10}, pt{X: 80, Y: 80}) }, 73*6 + 67*6},
		{"round corner", func(f *figure.Figure) { f.Polyline(round, pt{X: 10, Y: 10}, pt{X: 80, Y: 10}, pt{X: 80, Y: 80}) }, 2*70*6 - 9 + math.Pi*9/4 + math.Pi*9},
		{"bevelled needle", func(f *figure.Figure) { f.Polyline(stroke(6), pt{X: 10, Y: 47}, pt{X: 90, Y: 50}, pt{X: 10, Y: 53}) }, 80 * (6.004 + 3)}, // the bands, 6/cos(2.1°) high, part by 0 to 6
		{"frame", func(f *figure.Figure) { f.Box(stroke(6), 20, 20, 80, 80, 0) }, 66*66 - 54*54},
		{"arc", func(f *figure.Figure) { f.Arc(stroke(4), 50, 50, 30, 1, 3) }, 2 * 30 * 4},
		{"arc backwards", func(f *figure.Figure) { f.Arc(stroke(4), 50, 50, 30, 3, 1) }, 2 * 30 * 4},
		{"full arc", func(f *figure.Figure) { f.Arc(stroke(4), 50, 50, 30, 1, 9) }, 2 * math.Pi * 30 * 4},
		{"segment", func(f *figure.Figure) { f.Arc(fill, 50, 50, 30, 0, math.Pi/2) }, 900*math.Pi/4 - 450},
		{"dashes", func(f *figure.Figure) { f.Line(dashed, 10, 50.5, 74, 50.5) }, 4 * 10 * 4},
		{"dashes begun later", func(f *figure.Figure) { f.Line(late, 10, 50.5, 30, 50.5) }, 10 * 4}, // gap of 4, mark of 10, gap of 6
		{"dashed corner", func(f *figure.Figure) { f.Polyline(dashed, pt{X: 10, Y: 10}, pt{X: 15, Y: 10}, pt{X: 15, Y: 15}) }, 4 * 10},
		{"nothing", func(f *figure.Figure) {
			f.Circle(figure.Style{Width: 5}, 50, 50, 10)
			f.Line(figure.Style{Stroke: ink}, 0, 0, 99, 99)
			f.Polygon(fill, pt{X: 10, Y: 10}, pt{X: 20, Y: 20})
			f.Polyline(stroke(4), pt{X: 10, Y: 10}, pt{X: 10, Y: 10})
			f.Box(fill, 10, 10, 10, 90, 3)
			f.Polyline(stroke(4))
		}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.InDelta(t, c.want, inked(drawn(t, c.draw)), 0.012*c.want+0.3)
		})
	}
}

// star adds a star of n rays; a negative n goes the other way round.
func star(f *figure.Figure, s figure.Style, n int, near, far float64) {
	f.Polygon(s)
	for i := range 2 * max(n, -n) {
		sin, cos := math.Sincos(math.Pi * float64(i) / float64(n))
		r := near
		if i%2 == 1 {
			r = far
		}
		f.To(50+r*cos, 50+r*sin)
	}
}

// Lines along the axes fill whole pixels: each row is all ink or none.
func TestLinesAlongAxesAreCrisp(t *testing.T) {
	for _, c := range []struct {
		name        string
		y, width    float64
		first, last int
	}{
		{"one on a seam", 50, 1, 50, 50},
		{"one off", 50.4, 1, 50, 50},
		{"two", 50.2, 2, 49, 50},
		{"three", 50, 3, 49, 51},
		{"one and a half is two", 50, 1.5, 49, 50},
	} {
		t.Run(c.name, func(t *testing.T) {
			level := drawn(t, func(f *figure.Figure) { f.Line(figure.Style{Stroke: ink, Width: c.width}, 10, c.y, 90, c.y) })
			upright := drawn(t, func(f *figure.Figure) { f.Line(figure.Style{Stroke: ink, Width: c.width}, c.y, 10, c.y, 90) })
			for i := range 100 {
				want := 0.0
				if c.first <= i && i <= c.last {
					want = 1
				}
				assert.Equal(t, want, dark(level, 50, i), i)
				assert.Equal(t, want, dark(upright, i, 50), i)
			}
		})
	}
}

// What glides is drawn where it is, a fraction of a pixel included.
func TestGlideIsNotSettled(t *testing.T) {
	for _, glide := range []bool{true, false} {
		p := drawn(t, func(f *figure.Figure) { f.Box(figure.Style{Fill: ink, Glide: glide}, 10, 10.25, 90, 60.25, 0) })
		want := map[bool]float64{true: 0.75, false: 1}[glide]
		assert.InDelta(t, want, dark(p, 50, 10), 0.01)
	}
}

func TestGradientRunsCornerToCorner(t *testing.T) {
	grey := figure.Paint{Role: figure.Ink, Mix: 1} // white: the ground
	p := drawn(t, func(f *figure.Figure) { f.Box(figure.Style{Fill: ink, Shade: grey}, 10, 10, 90, 50, 0) })
	assert.InDelta(t, 1, dark(p, 10, 10), 0.02)
	assert.InDelta(t, 0.5, dark(p, 50, 30), 0.02)
	assert.InDelta(t, 0.5, dark(p, 89, 10), 0.02)
	assert.InDelta(t, 0, dark(p, 89, 49), 0.02)
}

// Later marks lie over earlier ones, letters too.
func TestOrder(t *testing.T) {
	p := drawn(t, func(f *figure.Figure) {
		f.Text(ink, figure.Face{Size: 90, Bold: true}, 10, 90, "HH")
		f.Box(figure.Style{Fill: figure.Paint{Role: figure.Ground}}, 0, 0, 100, 50, 0)
	})
	assert.Zero(t, inked(p.SubImage(image.Rect(0, 0, 100, 50)).(*image.RGBA)))
	assert.Positive(t, inked(p))
}

// In steady state a figure becomes a mesh without allocating.
func TestBuildAllocatesNothing(t *testing.T) {
	m, f := newMesh(t), sample.Figure()
	assert.Zero(t, testing.AllocsPerRun(20, func() { m.Build(f, 1.5, &figure.Paper) }))
}

// Curves stay cheap: a guard against the cost of anti-aliased paths, some
// 11,000 operations a circle. A wheel of 332 pixels and its outline take
// fewer than 1,200 corners, a dot of 12 fewer than 160.
func TestCurvesAreCheap(t *testing.T) {
	m := newMesh(t)
	var f figure.Figure
	count := func(do func()) int {
		f.Reset(640, 400)
		do()
		m.Build(&f, 2, &figure.Paper)
		return len(m.Vertices)
	}
	both := figure.Style{Fill: ink, Stroke: ink, Width: 2}
	assert.Less(t, count(func() { f.Circle(both, 200, 200, 166) }), 1200)
	assert.Less(t, count(func() { f.Circle(both, 200, 200, 3) }), 160)
	bent := figure.Style{Stroke: ink, Width: 4, Round: true}
	assert.Less(t, count(func() {
		f.Polyline(bent)
		for x := 0.0; x < 400; x += 4 {
			f.To(x, 200+20*math.Sin(x/16))
		}
	}), 6*100)
	for _, i := range m.Indices {
		require.Less(t, int(i), len(m.Vertices))
	}
	require.Zero(t, len(m.Indices)%3)
}

// Points without a place do not hang or break the painter.
func TestDegenerateShapes(t *testing.T) {
	m := newMesh(t)
	var f figure.Figure
	f.Reset(10, 10)
	s := figure.Style{Fill: ink, Stroke: ink, Width: 3}
	dotted := s
	dotted.Dash, dotted.Phase = figure.Dotted, -1e3
	for _, s := range []figure.Style{s, dotted} {
		f.Circle(s, 5, 5, 0)
		f.Arc(s, 5, 5, 0, 0, 1)
		f.Arc(s, 5, 5, 3, 1, 1)
		f.Box(s, 5, 5, 5, 5, 2)
		f.Polygon(s)
		f.Polygon(s, figure.Point{X: 1, Y: 1}, figure.Point{X: 9, Y: 9}, figure.Point{X: 9, Y: 1}, figure.Point{X: 1, Y: 9}) // crosses itself
		f.Polyline(s, figure.Point{X: 1, Y: 1}, figure.Point{X: 9, Y: 1}, figure.Point{X: 1, Y: 1})                          // turns back
	}
	m.Build(&f, 1, &figure.Paper)
	for _, v := range m.Vertices {
		require.False(t, math.IsNaN(float64(v.X+v.Y+v.A)), "%+v", v)
		require.Less(t, math.Abs(float64(v.X)), 40.0)
	}
}
