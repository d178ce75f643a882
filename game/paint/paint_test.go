package paint

import (
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure/sample"
)

// Everything of a frame that is Go and not the graphics library's works
// without allocating.
func TestFrameAllocatesNothing(t *testing.T) {
	p, err := New(fonts.Regular, fonts.Bold)
	require.NoError(t, err)
	f := sample.Figure()
	assert.Zero(t, testing.AllocsPerRun(20, func() { p.build(f) }))
	require.Len(t, p.vertices, len(p.mesh.Vertices))
	v, w := p.mesh.Vertices[7], p.vertices[7]
	assert.Equal(t, []float32{v.X, v.Y, v.U, v.V, v.R, v.G, v.B, v.A},
		[]float32{w.DstX, w.DstY, w.SrcX, w.SrcY, w.ColorR, w.ColorG, w.ColorB, w.ColorA})
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
