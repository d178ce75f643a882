package draughtsman

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

// A test that cannot fail proves nothing: three figures, each wrong in one way.
func TestWrongWiresAreFound(t *testing.T) {
	ink := figure.Style{Stroke: figure.Paint{Role: figure.Ink}, Width: 1}
	dot := figure.Style{Fill: figure.Paint{Role: figure.Ink}}
	for want, draw := range map[string]func(f *figure.Figure){
		"crossing":          func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Line(ink, 50, 0, 50, 100) },
		"joint without dot": func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Line(ink, 50, 50, 50, 100) },
		"dot at a crossing": func(f *figure.Figure) {
			f.Line(ink, 0, 50, 100, 50)
			f.Line(ink, 50, 0, 50, 100)
			f.Circle(dot, 50, 50, 2)
		},
		"dot without joint": func(f *figure.Figure) { f.Line(ink, 0, 50, 100, 50); f.Circle(dot, 50, 50, 2) },
		"dot without joint ": func(f *figure.Figure) {
			f.Polyline(ink, figure.Point{Y: 50}, figure.Point{X: 50, Y: 50}, figure.Point{X: 50, Y: 90})
			f.Circle(dot, 50, 50, 2)
		},
	} {
		f := &figure.Figure{}
		draw(f)
		wrong := Of(f, Except{}).Judge()
		require.NotEmpty(t, wrong, want)
		assert.Contains(t, wrong[0].What, strings.TrimSpace(want))
	}
}
