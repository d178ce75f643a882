package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	ink   = Paint{Role: Ink}
	thick = Style{Stroke: ink, Width: 4}
	sheet = Style{Fill: Paint{Role: Panel}}
)

// A figure filled again sixty times a second does not allocate.
func TestFillingAgainAllocatesNothing(t *testing.T) {
	var f, still Figure
	still.Line(thick, 0, 0, 1, 1)
	fill := func() {
		f.Reset(100, 100)
		f.Line(thick, 0, 0, 10, 10).Part = "a"
		f.Polyline(thick, Point{1, 2}, Point{3, 4})
		f.To(5, 6)
		f.Polygon(sheet, Point{1, 2}, Point{3, 4}, Point{5, 0})
		f.Circle(sheet, 5, 5, 2)
		f.Arc(thick, 5, 5, 2, 0, 1)
		f.Box(sheet, 0, 0, 5, 5, 1)
		f.Text(ink, Face{Size: 12}, 3, 3, "call 3")
		f.Append(&still)
		f.Mark(0, "b")
		_ = f.Bounds(&f.Items[6])
		_ = f.PartAt(5, 5, 3)
	}
	assert.Zero(t, testing.AllocsPerRun(100, fill))
	require.Len(t, f.Items, 8)
	assert.Equal(t, []Point{{1, 2}, {3, 4}, {5, 6}}, f.Of(&f.Items[1]))
	assert.Equal(t, []Point{{0, 0}, {1, 1}}, f.Of(&f.Items[7]))
	assert.Equal(t, "a", f.Items[0].Part)
	assert.Equal(t, "b", f.Items[7].Part)
}

func TestToNeedsALine(t *testing.T) {
	var f Figure
	assert.Panics(t, func() { f.To(1, 1) })
	f.Circle(sheet, 0, 0, 1)
	assert.Panics(t, func() { f.To(1, 1) })
}

func TestMeasure(t *testing.T) {
	assert.Zero(t, Measure("", 10, false))
	assert.InDelta(t, 6.32, Measure("1", 10, false), 1e-9, "a tabular figure is 632 units wide in this font")
	assert.Equal(t, Measure("11:11", 10, true), Measure("80:96", 10, true))
	assert.InDelta(t, Measure("a", 10, false)+Measure("b", 10, false), Measure("ab", 10, false), 1e-9)
	assert.Greater(t, Measure("relay", 10, true), Measure("relay", 10, false))
	assert.Equal(t, Measure("\x00", 10, false), Measure("Σ", 10, false))
}

func TestMissing(t *testing.T) {
	for _, c := range []struct {
		text string
		want rune
		ok   bool
	}{{"up relay, 30° ½", 'x', false}, {"a ≥ b", '≥', true}, {"▲", '▲', true}, {"Σ", 'Σ', true}, {"a\x00", 0, true}, {"tab\t", '\t', true}} {
		r, missing := Missing(c.text)
		assert.Equal(t, c.ok, missing, c.text)
		if c.ok {
			assert.Equal(t, c.want, r)
		}
	}
}

// Every chord of a circle stays within the tolerance, its outline closes without
// a doubled point, and there is as much in it as in the circle.
func TestOutlineKeepsTolerance(t *testing.T) {
	var f Figure
	for _, r := range []float64{0.1, 1, 10, 300} {
		for _, tol := range []float64{0.01, 0.1, 0.5} {
			f.Reset(0, 0)
			points, closed := f.Outline(f.Circle(sheet, 0, 0, r), tol, nil)
			require.True(t, closed)
			require.GreaterOrEqual(t, len(points), 8)
			require.Less(t, len(points), 400)
			twice := 0.0
			for i, a := range points {
				b := points[(i+1)%len(points)]
				twice += a.X*b.Y - a.Y*b.X
				assert.LessOrEqual(t, math.Hypot(a.X, a.Y)-r, 1.01*tol)
				assert.LessOrEqual(t, r-math.Hypot((a.X+b.X)/2, (a.Y+b.Y)/2), tol)
				assert.Greater(t, math.Hypot(a.X-b.X, a.Y-b.Y), r/400)
			}
			assert.InDelta(t, math.Pi*r*r, twice/2, 1e-9*r*r)
		}
	}
}

func TestOutlineBeginsAndTurnsAsSVG(t *testing.T) {
	var f Figure
	ends := func(it *Item) (first, last Point, closed bool) {
		p, closed := f.Outline(it, 0.1, nil)
		return p[0], p[len(p)-1], closed
	}
	first, _, closed := ends(f.Circle(sheet, 10, 10, 5))
	assert.InDelta(t, 15, first.X, 0.1, "SVG 2, 10.3: a circle begins at three o'clock")
	assert.Equal(t, 10.0, first.Y)
	assert.True(t, closed)
	first, last, closed := ends(f.Arc(thick, 10, 10, 5, 0, math.Pi/2))
	assert.Equal(t, Point{15, 10}, first)
	assert.InDelta(t, 15, last.Y, 1e-9, "clockwise as seen is towards greater y")
	assert.False(t, closed)
	_, last, _ = ends(f.Arc(thick, 10, 10, 5, 0, -math.Pi/2))
	assert.InDelta(t, 5, last.Y, 1e-9)
	_, _, closed = ends(f.Arc(thick, 10, 10, 5, 1, 1+2*math.Pi))
	assert.True(t, closed)
	first, _, _ = ends(f.Box(sheet, 20, 10, 0, 0, 0))
	assert.Equal(t, Point{0, 0}, first)
	first, _, _ = ends(f.Box(sheet, 0, 0, 20, 10, 99))
	assert.Equal(t, Point{5, 0}, first, "corners take half the shorter side at most")
}

func TestBounds(t *testing.T) {
	var f Figure
	for _, c := range []struct {
		name string
		it   *Item
		want Rect
	}{
		{"line", f.Line(thick, 5, 9, 1, 2), Rect{-1, 0, 7, 11}},
		{"fill", f.Box(sheet, 5, 9, 1, 2, 0), Rect{1, 2, 5, 9}},
		{"circle", f.Circle(thick, 5, 5, 3), Rect{0, 0, 10, 10}},
		// l reaches from 0 to its ascender, p down to its descender; widths by Measure.
		{"text", f.Text(ink, Face{Size: 1000, Align: End}, 1000, 1000, "H"), Rect{1000 - Measure("H", 1000, false), 332, 1000, 1000}},
	} {
		assert.Equal(t, c.want, f.Bounds(c.it), c.name)
	}
	for _, c := range []struct {
		from, to float64
		want     Rect
	}{{0, math.Pi / 2, Rect{50, 50, 60, 60}}, {math.Pi, 2 * math.Pi, Rect{40, 40, 60, 50}}, {math.Pi / 2, -math.Pi / 2, Rect{50, 40, 60, 60}}, {1, 9, Rect{40, 40, 60, 60}}} {
		got := f.Frame(f.Arc(thick, 50, 50, 10, c.from, c.to))
		assert.InDeltaSlice(t, []float64{c.want.X0, c.want.Y0, c.want.X1, c.want.Y1}, []float64{got.X0, got.Y0, got.X1, got.Y1}, 1e-9)
	}
	assert.Greater(t, f.Bounds(f.Text(ink, Face{Size: 10}, 0, 0, "p")).Y1, 1.0)
	assert.Equal(t, 0.0, f.Bounds(f.Text(ink, Face{Size: 10}, 0, 0, "H")).Y1)
}

func TestPartAt(t *testing.T) {
	var f Figure
	f.Reset(100, 100)
	f.Box(Style{Stroke: ink, Width: 1}, 0, 0, 100, 100, 0).Part = "frame"
	f.Circle(sheet, 50, 50, 20).Part = "wheel"
	f.Line(thick, 50, 50, 90, 50).Part = "lever"
	f.Circle(sheet, 50, 50, 5) // a pin of no part lets the part beneath be found
	f.Text(ink, Face{Size: 10}, 10, 20, "name").Part = "label"
	for _, c := range []struct {
		x, y, reach float64
		want        string
	}{
		{5, 90, 0, "frame"}, {50, 60, 0, "wheel"}, {80, 51, 0, "lever"}, {80, 55, 0, "frame"},
		{80, 55, 4, "lever"}, {50, 50, 0, "lever"}, {15, 18, 0, "label"}, {200, 50, 10, ""},
	} {
		assert.Equal(t, c.want, f.PartAt(c.x, c.y, c.reach), c)
	}
	r, ok := f.PartBounds("lever")
	assert.True(t, ok)
	assert.Equal(t, Rect{48, 48, 92, 52}, r)
	_, ok = f.PartBounds("rope")
	assert.False(t, ok)
}
