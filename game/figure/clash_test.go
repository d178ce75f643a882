package figure

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestClashes(t *testing.T) {
	face := Face{Size: 10}
	label := func(f *Figure) { f.Text(ink, face, 20, 20, "Hat") } // ink from 20, 13.3 to about 37, 20
	for _, c := range []struct {
		name string
		draw func(f *Figure)
		want int
	}{
		{"alone", label, 0},
		{"line far", func(f *Figure) { label(f); f.Line(thick, 0, 25, 99, 25) }, 0},
		{"line near by its width", func(f *Figure) { label(f); f.Line(thick, 0, 22.5, 99, 22.5) }, 1},
		{"line through, drawn before", func(f *Figure) { f.Line(thick, 0, 0, 40, 40); label(f) }, 1},
		{"line beneath a sheet", func(f *Figure) { f.Line(thick, 0, 0, 40, 40); f.Box(sheet, 10, 5, 60, 30, 4); label(f) }, 0},
		{"line beneath a clear sheet", func(f *Figure) {
			f.Line(thick, 0, 0, 40, 40)
			f.Box(Style{Fill: Paint{Role: Panel, Alpha: 0.5}}, 10, 5, 60, 30, 4)
			label(f)
		}, 1},
		{"line on the sheet", func(f *Figure) { f.Box(sheet, 10, 5, 60, 30, 4); f.Line(thick, 0, 0, 40, 40); label(f) }, 1},
		{"half on an edge", func(f *Figure) { f.Box(sheet, 25, 0, 60, 40, 0); label(f) }, 1},
		{"inside a ring", func(f *Figure) { f.Circle(thick, 28, 17, 20); label(f) }, 0},
		{"hidden", func(f *Figure) { label(f); f.Circle(sheet, 28, 17, 20) }, 1},
		{"unpainted", func(f *Figure) { label(f); f.Circle(Style{}, 28, 17, 5) }, 0},
		{"two texts", func(f *Figure) { label(f); f.Text(ink, face, 30, 22, "up") }, 1},
		{"two texts apart", func(f *Figure) { label(f); f.Text(ink, face, 40, 20, "up") }, 0},
		{"two texts under each other", func(f *Figure) { label(f); f.Text(ink, face, 20, 29, "up") }, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			var f Figure
			f.Reset(100, 100)
			c.draw(&f)
			assert.Len(t, f.Clashes(1), c.want)
		})
	}
}
