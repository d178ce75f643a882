package mesh

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
)

// box returns the smallest rectangle that holds all ink of a picture.
func box(p *image.RGBA) (r image.Rectangle) {
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			if dark(p, x, y) > 0 {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return r
}

// Letters stand where the figure says they do, at every alignment: the ink
// keeps inside the measured box, a side bearing away from its ends at most.
func TestTextStandsInItsBounds(t *testing.T) {
	for _, align := range []figure.Align{figure.Start, figure.Middle, figure.End} {
		for _, text := range []string{"Hxg", "10:47", "Öqj"} {
			var f figure.Figure
			f.Reset(200, 80)
			b := f.Bounds(f.Text(ink, figure.Face{Size: 40, Align: align, Bold: true}, 100.3, 50, text))
			got := box(picture(newMesh(t), &f, 1, &bench))
			assert.InDelta(t, b.Y0, got.Min.Y, 1.2, text)
			assert.InDelta(t, b.Y1, got.Max.Y, 1.2, text)
			assert.GreaterOrEqual(t, float64(got.Min.X), b.X0-1.5, text)
			assert.LessOrEqual(t, float64(got.Max.X), b.X1+1.5, text)
			assert.Greater(t, float64(got.Dx()), 0.85*(b.X1-b.X0), text)
		}
	}
}

// The figures drawn are the tabular ones: the tabular 1 of this font has a
// foot as wide as its other figures, the ordinary one is a bare stem.
func TestFiguresAreTabular(t *testing.T) {
	width := func(s string) int {
		var f figure.Figure
		f.Reset(100, 100)
		f.Text(ink, figure.Face{Size: 80}, 10, 90, s)
		return box(picture(newMesh(t), &f, 1, &bench)).Dx()
	}
	assert.InDelta(t, 0.421*80, width("1"), 1.5, "one.tf runs from 109 to 530 of 1000 units; the ordinary one from 35 to 297")
}

// Letters are drawn once for each quarter of a pixel they fall on.
func TestLettersAreKept(t *testing.T) {
	m := newMesh(t)
	var f figure.Figure
	f.Reset(100, 100)
	f.Text(ink, figure.Face{Size: 20}, 10, 50, "a")
	f.Text(ink, figure.Face{Size: 20}, 30, 50.3, "a")
	f.Text(ink, figure.Face{Size: 20}, 50.3, 50, "a")
	m.Build(&f, 1, &bench)
	assert.Len(t, m.atlas.cells, 2)
	assert.False(t, m.atlas.Changed().Empty())
	m.Build(&f, 1, &bench)
	assert.True(t, m.atlas.Changed().Empty())
	for i := range f.Items {
		f.Items[i].Style.Glide = true
	}
	m.Build(&f, 1, &bench)
	assert.Len(t, m.atlas.cells, 3, "a gliding base line has quarters too")
}

// A fuller atlas grows and keeps what it has; at its limit it leaves letters
// out rather than spoil others.
func TestAtlasGrows(t *testing.T) {
	a, err := NewAtlas(fonts.Regular, fonts.Bold)
	require.NoError(t, err)
	first := a.letter(letter{r: 'R', size: 40 * 64})
	before := a.Mask.SubImage(first.at).(*image.Alpha)
	var cells []cell
	for size := int32(40); size < 240; size++ {
		for _, r := range "Wheelroom" {
			if c := a.letter(letter{r: r, size: size * 64}); !c.at.Empty() {
				cells = append(cells, c)
			}
		}
	}
	assert.Equal(t, atlasLimit, a.Mask.Rect.Dy())
	after := a.Mask.SubImage(first.at).(*image.Alpha)
	for y := first.at.Min.Y; y < first.at.Max.Y; y++ {
		for x := first.at.Min.X; x < first.at.Max.X; x++ {
			require.Equal(t, before.AlphaAt(x, y), after.AlphaAt(x, y))
		}
	}
	seen := map[image.Rectangle]bool{}
	for _, c := range cells {
		require.True(t, c.at.In(a.Mask.Rect))
		seen[c.at] = true
	}
	for r := range seen {
		if r != first.at {
			require.False(t, r.Overlaps(first.at))
		}
	}
	a.Reset()
	assert.Equal(t, atlasStart, a.Mask.Rect.Dy())
	assert.EqualValues(t, 255, a.Mask.AlphaAt(white, white).A)
}

func TestQuarters(t *testing.T) {
	for _, c := range []struct {
		v     float64
		whole float64
		q     uint8
	}{{3, 3, 0}, {3.1, 3, 0}, {3.13, 3, 1}, {3.9, 4, 0}, {-0.3, -1, 3}} {
		whole, q := quarter(c.v)
		assert.Equal(t, c.whole, whole)
		assert.Equal(t, c.q, q)
		assert.LessOrEqual(t, math.Abs(whole+float64(q)/4-c.v), 0.125)
	}
}
