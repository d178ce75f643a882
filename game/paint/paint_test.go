package paint

import (
	"go/parser"
	"go/token"
	"image"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/game/figure/sample"
)

// Everything of a frame that is Go and not the graphics library's works
// without allocating.
func TestFrameAllocatesNothing(t *testing.T) {
	p, err := New(fonts.Regular, fonts.Bold)
	require.NoError(t, err)
	f := sample.Figure()
	frame := image.Rect(0, 0, 400, 300)
	draw := func() {
		p.watch.Forget()
		for _, r := range p.watch.Look(f, p.scale, frame) {
			p.build(f, r)
			p.dress()
		}
	}
	assert.Zero(t, testing.AllocsPerRun(20, draw))
	require.Len(t, p.vertices, len(p.mesh.Vertices))
	v, w := p.mesh.Vertices[7], p.vertices[7]
	assert.Equal(t, []float32{v.X, v.Y, v.U, v.V, v.R, v.G, v.B, v.A},
		[]float32{w.DstX, w.DstY, w.SrcX, w.SrcY, w.ColorR, w.ColorG, w.ColorB, w.ColorA})
}

// A mark that has not changed and lies apart from what has is not made anew.
func TestRestingMarksCostNothing(t *testing.T) {
	p, err := New(fonts.Regular, fonts.Bold)
	require.NoError(t, err)
	var f figure.Figure
	f.Reset(400, 300)
	f.Circle(figure.Style{Fill: figure.Paint{Role: figure.Up}}, 300, 250, 20)
	f.Box(figure.Style{Fill: figure.Paint{Role: figure.Down}}, 10, 10, 20, 20, 0)
	frame := image.Rect(0, 0, 400, 300)
	p.watch.Look(&f, 1, frame)
	assert.Empty(t, p.watch.Look(&f, 1, frame))
	f.Points[1].X++ // the box
	rects := p.watch.Look(&f, 1, frame)
	require.Len(t, rects, 1)
	p.build(&f, rects[0])
	assert.Len(t, p.mesh.Vertices, 8, "a box with a soft edge")
}

// The vector and text packages of the graphics library stay out: one is slow
// (see the package comment), the other large.
func TestOnlyTheCoreOfEbitengine(t *testing.T) {
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	seen := 0
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".go") {
			continue
		}
		src, err := parser.ParseFile(token.NewFileSet(), file.Name(), nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, i := range src.Imports {
			if strings.Contains(i.Path.Value, "ebiten") {
				assert.Equal(t, `"github.com/hajimehoshi/ebiten/v2"`, i.Path.Value, file.Name())
				seen++
			}
		}
	}
	assert.Positive(t, seen)
}

func TestBadFont(t *testing.T) {
	_, err := New([]byte("no font"), fonts.Bold)
	assert.ErrorContains(t, err, "font: ")
}
